//! Answers to what a message asks.

use crate::grammar::{Query, Topic, What};
use crate::message::command::Page;
use crate::store::{Db, StoreError};

use super::answer::Answer;
use super::cost_answers::{cost, what_if};
use super::fleet_answers::{quiet, whole_fleet};
use super::flush_answers::flush_status;
use super::help::{help, help_on, meaning};
use super::log_answers::{who_did, who_logged};
use super::membrane_answer::membrane;
use super::picture_answers::picture_of;
use super::request::Request;
use super::resin_answers::{resin, resin_of_all};
use super::rig_answers::{history, one_rig};
use super::rig_comparison::{compare, why};
use super::shopping_answer::shopping;

/// Answers what a message asks.
pub(super) async fn answer_queries(db: &mut Db, on: &Request<'_>, queries: &[Query]) -> Result<Answer, StoreError> {
    let mut answer = Answer::default();
    let compared = |query: &&Query| query.topic == Topic::Compare;
    let mut once = queries.iter().find(compared);
    for query in queries {
        if query.topic != Topic::Compare {
            answer.and(answer_query(db, on, query).await?);
        } else if once.take().is_some() {
            let rigs: Vec<i64> = queries.iter().filter(compared).filter_map(|query| query.rig).collect();
            answer.and(compare(on, &rigs));
        }
    }
    Ok(answer)
}

async fn answer_query(db: &mut Db, on: &Request<'_>, query: &Query) -> Result<Answer, StoreError> {
    let only = match on.fleet.as_slice() {
        [only] => Some(only.id),
        _ => None,
    };
    let meant = query.rig.or(on.member.own_rig).or(only);
    let rig = meant.and_then(|id| on.fleet.iter().find(|rig| rig.id == id).cloned());
    let detail = query.detail;
    if let (Topic::Explain, Some(term)) = (query.topic, detail.term) {
        return Ok(meaning(on.words, term));
    }
    match (query.topic, rig) {
        (Topic::WhatIf, _) => Ok(what_if(on, query.rig, detail.part, (detail.amount, detail.percent))),
        (Topic::Cost, _) => cost(db, on, query.rig, detail.part, detail.span).await,
        (Topic::WhoLogged, _) => match detail.part {
            Some(part) => who_did(db, on, query.rig, part).await,
            None => who_logged(db, on, query.rig, detail.span).await,
        },
        // "When was the resin last changed?"
        (Topic::History, _) if detail.part.is_some_and(|part| part != What::Flush) => {
            who_did(db, on, meant.or(query.rig), detail.part.unwrap_or(What::Resin)).await
        }
        (Topic::FlushStatus, _) if query.rig.is_none() => Ok(flush_status(on)),
        (Topic::Picture, rig) => Ok(picture_of(on, rig.map(|rig| rig.id))),
        (Topic::Why, Some(rig)) => Ok(why(on, &rig)),
        (Topic::ResinWhen, Some(rig)) => Ok(resin(on, &rig)),
        (Topic::ResinWhen, None) => Ok(resin_of_all(on)),
        _ => look(db, on, query.topic, query.rig).await,
    }
}

pub(super) async fn look(db: &mut Db, on: &Request<'_>, topic: Topic, rig: Option<i64>) -> Result<Answer, StoreError> {
    let rig = rig
        .or(on.member.own_rig)
        .and_then(|id| on.fleet.iter().find(|rig| rig.id == id).cloned());
    match (topic, rig) {
        (Topic::Help | Topic::Explain, _) => match on.text().and_then(Page::about) {
            Some(page) => help_on(db, on, Some(page)).await,
            None => help(db, on).await,
        },
        (Topic::Quiet, _) => Ok(quiet(on)),
        (Topic::History | Topic::WhoLogged, Some(rig)) => Ok(history(on, &rig)),
        (
            Topic::MembraneWhen
            | Topic::Trend
            | Topic::Rejection
            | Topic::Why
            | Topic::Picture
            | Topic::Cost
            | Topic::WhatIf,
            Some(rig),
        ) => Ok(membrane(on, &rig)),
        (Topic::Shopping, _) => shopping(db, on).await,
        (Topic::Fleet, _) | (_, None) => Ok(whole_fleet(on)),
        (_, Some(rig)) => Ok(one_rig(on, &rig)),
    }
}
