//! Answers to "why?", "compare the rigs" and "who logged what?".

use crate::message::{Query, Span, Topic, What};
use crate::replies::comparing::{self, Logged};
use crate::schedule;
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::money::days_of;
use super::recording::service_key;
use super::turn::Turn;

impl Turn<'_> {
    /// Answers what a message asks.
    pub(super) async fn answer_queries(&mut self, queries: &[Query]) -> Result<Answer, StoreError> {
        let mut answer = Answer::default();
        let compared = |query: &&Query| query.topic == Topic::Compare;
        let mut once = queries.iter().find(compared);
        for query in queries {
            if query.topic != Topic::Compare {
                answer.and(self.answer_query(query).await?);
            } else if once.take().is_some() {
                let rigs: Vec<i64> = queries.iter().filter(compared).filter_map(|query| query.rig).collect();
                answer.and(self.compare(&rigs).await?);
            }
        }
        Ok(answer)
    }

    async fn answer_query(&mut self, query: &Query) -> Result<Answer, StoreError> {
        let only = match self.fleet.as_slice() {
            [only] => Some(only.id),
            _ => None,
        };
        let meant = query.rig.or(self.member.own_rig).or(only);
        let rig = meant.and_then(|id| self.fleet.iter().find(|rig| rig.id == id).cloned());
        let detail = query.detail;
        if let (Topic::Explain, Some(term)) = (query.topic, detail.term) {
            return Ok(self.meaning(term));
        }
        match (query.topic, rig) {
            (Topic::WhatIf, _) => {
                self.what_if(query.rig, detail.part, (detail.amount, detail.percent))
                    .await
            }
            (Topic::Cost, _) => self.cost(query.rig, detail.part, detail.span).await,
            (Topic::WhoLogged, _) => match detail.part {
                Some(part) => self.who_did(query.rig, part).await,
                None => self.who_logged(query.rig, detail.span).await,
            },
            // "When was the resin last changed?"
            (Topic::History, _) if detail.part.is_some_and(|part| part != What::Flush) => {
                self.who_did(meant.or(query.rig), detail.part.unwrap_or(What::Resin))
                    .await
            }
            (Topic::FlushStatus, _) if query.rig.is_none() => self.flush_status().await,
            (Topic::Picture, rig) => Ok(self.picture_of(rig.map(|rig| rig.id))),
            (Topic::Why, Some(rig)) => self.why(&rig).await,
            (Topic::ResinWhen, Some(rig)) => self.resin(&rig).await,
            (Topic::ResinWhen, None) => self.resin_of_all().await,
            _ => self.look(query.topic, query.rig).await,
        }
    }

    /// Why a rig has its state.
    async fn why(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        let followed = self.follow(rig).await?;
        let assessment = &followed.assessment;
        if rig.di_only {
            let product = followed.course.history.last_reading.and_then(|last| last.product);
            return match product {
                Some(product) => Ok(Answer::says(comparing::without_membrane(
                    self.words,
                    &rig.name,
                    product.ppm(),
                ))),
                None => self.one_rig(rig).await,
            };
        }
        let (Some(level), Some(condition)) = (assessment.rejection, assessment.condition) else {
            return self.look(Topic::MembraneWhen, Some(rig.id)).await;
        };
        let mut lines = vec![comparing::level(self.words, &rig.name, level, condition)];
        lines.extend(
            assessment
                .reasons
                .iter()
                .filter_map(|reason| comparing::reason(self.words, *reason)),
        );
        lines.extend(self.glass_lines(&followed));
        Ok(Answer::says(lines.join("\n")))
    }

    /// Rigs beside each other, the best rejection first; all if none is named.
    async fn compare(&mut self, ids: &[i64]) -> Result<Answer, StoreError> {
        let fleet = self.fleet.clone();
        let asked = fleet.iter().filter(|rig| ids.is_empty() || ids.contains(&rig.id));
        let mut rows = Vec::new();
        for rig in asked {
            let followed = self.follow(rig).await?;
            let level = followed.assessment.rejection.zip(followed.assessment.condition);
            let row = match level {
                Some((level, condition)) => comparing::level(self.words, &rig.name, level, condition),
                None if followed.unread_membrane_since().is_some() => {
                    self.words.say("rig-new-membrane", [("rig", (&rig.name).into())])
                }
                None => comparing::without_level(self.words, &rig.name, !rig.di_only),
            };
            rows.push((level.map_or(-1.0, |(level, _)| level.mid), row));
        }
        if rows.is_empty() {
            return Ok(Answer::says(self.words.plain("fleet-empty")));
        }
        rows.sort_by(|a, b| b.0.total_cmp(&a.0));
        let lines: Vec<String> = rows.into_iter().map(|(_, row)| row).collect();
        Ok(Answer::says(lines.join("\n")))
    }

    /// Who sent how many readings and services of which rigs; this week if no
    /// time is said.
    pub(super) async fn who_logged(&mut self, rig: Option<i64>, span: Option<Span>) -> Result<Answer, StoreError> {
        let today = self.today();
        let (from, to) = days_of(span.or(Some(Span::ThisWeek)), today);
        let start = schedule::day_start(&self.zone, from).unwrap_or(0);
        let end = to.tomorrow().ok().and_then(|day| schedule::day_start(&self.zone, day));
        let counts = store::readings::counts(self.db, self.outfit.id, start, end.unwrap_or(self.now)).await?;
        let mut people: Vec<(i64, Logged)> = Vec::new();
        for count in counts {
            let Some(known) = self.fleet.iter().find(|one| one.id == count.rig_id) else {
                continue;
            };
            if rig.is_some_and(|id| id != known.id) {
                continue;
            }
            let row = (known.name.clone(), count.logged);
            match people.last_mut() {
                Some((person, logged)) if *person == count.person_id => logged.rigs.push(row),
                _ => people.push((
                    count.person_id,
                    Logged {
                        name: count.first_name.filter(|name| !name.is_empty()),
                        rigs: vec![row],
                    },
                )),
            }
        }
        let people: Vec<Logged> = people.into_iter().map(|(_, logged)| logged).collect();
        Ok(Answer::says(comparing::who(self.words, &people, (from, to), today)))
    }

    /// Who last did something, rig by rig.
    async fn who_did(&mut self, rig: Option<i64>, what: What) -> Result<Answer, StoreError> {
        let mut done = Vec::new();
        for one in self
            .fleet
            .clone()
            .iter()
            .filter(|one| rig.is_none_or(|id| id == one.id))
        {
            let last = store::services::last_done_by(self.db, one.id, service_key(what)).await?;
            done.extend(last.map(|(at, name)| (one.name.clone(), self.date(at), name.filter(|name| !name.is_empty()))));
        }
        Ok(Answer::says(comparing::who_did(self.words, &done, self.today())))
    }
}
