//! What a message means, carried out and answered.

use jiff::tz::TimeZone;

use crate::grammar::{self, About, Meaning, When};
use crate::replies::caution;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::corrections::{amend_service, correct};
use super::days_off::{self, back_by_reading};
use super::effects::Effects;
use super::flush_answers::{flush_later, not_used};
use super::query_answers::answer_queries;
use super::questions::DueQuestion;
use super::readings::{is_in_order, record, record_now, words_for};
use super::request::Request;
use super::scene::{close_questions, open_question};
use super::services::{is_told_again, told_already};
use super::understood::Source;
use super::used_up::used_up;
use super::when::is_ahead;
use super::withdrawals::put_back;

/// What is done about a meaning, whether from memory or with the database at hand.
struct Plan {
    meaning: Meaning,
    source: Source,
    question: Option<DueQuestion>,
    /// The open question is settled by it.
    settles: bool,
    /// Changes that were told before.
    twins: Vec<grammar::Service>,
}

impl Plan {
    fn of(on: &Request<'_>, mut meaning: Meaning, answers: bool) -> Self {
        let open = open_question(on);
        // The answer to a question completes the message that raised it, so that an edit of that one corrects it.
        let source = match open.as_ref().filter(|_| answers) {
            Some(question) => Source::of(question),
            None => Source::own(on),
        };
        doubt_what_is_ahead(&on.zone, &mut meaning, &source);
        let twins = match answers {
            true => Vec::new(),
            false => ask_about_twins(on, &mut meaning, &source),
        };
        let question = meaning.ask.take().map(|ask| DueQuestion::of(on, ask));
        // A service of another rig leaves a question about a reading open.
        let asks_service = open.as_ref().is_none_or(|open| open.ask.service.is_some());
        let settles = meaning.dropped
            || question.is_some()
            || !(meaning.readings.is_empty() && meaning.corrections.is_empty())
            || asks_service && !meaning.services.is_empty();
        Self {
            meaning,
            source,
            question,
            settles,
            twins,
        }
    }

    /// Whether all of it can be done from memory: readings and services in the order of time, and a question back.
    fn is_quick(&self, on: &Request<'_>) -> bool {
        let Meaning {
            readings: _,
            services: _,
            price_left_out: _,
            corrections,
            amends,
            queries,
            ask: _,
            dropped,
            not_used,
            postponed,
            danger: _,
            put_back,
            time_off,
            spent,
        } = &self.meaning;
        let is_off =
            |reading: &grammar::Reading| reading.rig.is_some_and(|rig| !on.rules.time_off(Some(rig)).is_empty());
        corrections.is_empty()
            && amends.is_empty()
            && queries.is_empty()
            && !dropped
            && not_used.is_empty()
            && postponed.is_none()
            && !put_back
            && spent.is_empty()
            && time_off.is_empty()
            && !self.meaning.readings.iter().any(is_off)
            && is_in_order(on, &self.meaning, &self.source)
    }
}

/// Records and answers what a message means from memory; none, and then nothing is changed, if it needs the database.
pub(super) fn record_from_memory(
    on: &mut Request<'_>,
    effects: &mut Effects,
    meaning: Meaning,
    answers: bool,
) -> Option<Answer> {
    let plan = Plan::of(on, meaning, answers);
    if !plan.is_quick(on) {
        return None;
    }
    if plan.settles {
        close_questions(on).into_iter().for_each(|id| effects.close(id));
    }
    let (recorded, _) = record(on, effects, &plan.meaning, &plan.source);
    let mut answer = safety_first(on, &plan.meaning);
    answer.and(words_for(on, &plan.meaning, &plan.source, &recorded));
    answer.and(told_already(on, &plan.twins));
    if let Some(question) = plan.question {
        answer.and(question.ask_from_memory(on, effects, plan.source));
    }
    Some(answer)
}

/// Records and answers what a message means; `answers`: as the answer to the open question.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn record_meaning(
    db: &mut Db,
    on: &mut Request<'_>,
    meaning: Meaning,
    answers: bool,
) -> Result<Answer, StoreError> {
    let Plan {
        meaning,
        source,
        question,
        settles,
        twins,
    } = Plan::of(on, meaning, answers);
    let mut answer = safety_first(on, &meaning);
    if !meaning.spent.is_empty() {
        answer.and(used_up(on, &meaning.spent));
    } else if meaning.dropped {
        let stands = open_question(on).is_some_and(|open| answers && open.ask.about == About::Undo);
        answer.and(Answer::says(on.words.plain(if stands {
            "left-standing"
        } else {
            "dropped"
        })));
    }
    if !meaning.not_used.is_empty() {
        answer.and(not_used(db, on, &meaning.not_used).await?);
    }
    if let Some(postponed) = &meaning.postponed {
        answer.and(flush_later(db, on, &postponed.rigs, postponed.minutes).await?);
    }
    if settles {
        close_questions(on);
        store::questions::close_all(db, &on.incoming.chat.address, on.member.id, on.now).await?;
    }
    if meaning.put_back {
        answer.and(put_back(db, on).await?);
    }
    let recorded = record_now(db, on, &meaning, &source).await?;
    answer.and(words_for(on, &meaning, &source, &recorded));
    answer.and(told_already(on, &twins));
    answer.and(back_by_reading(db, on, &recorded.readings).await?);
    answer.and(days_off::take(db, on, &meaning.time_off).await?);
    for correction in &meaning.corrections {
        answer.and(correct(db, on, correction).await?);
    }
    for amend in &meaning.amends {
        answer.and(amend_service(db, on, amend).await?);
    }
    answer.and(answer_queries(db, on, &meaning.queries).await?);
    if let Some(question) = question {
        answer.and(question.ask(db, on, source).await?);
    }
    Ok(answer)
}

/// The safety line that comes before everything else, whatever else the message says.
fn safety_first(on: &Request<'_>, meaning: &Meaning) -> Answer {
    let line = meaning.danger.map(|danger| caution::danger(on.words, danger));
    line.map(Answer::says).unwrap_or_default()
}

/// A change that was told of its rig a few hours ago is not recorded twice: one kind is asked about, the others are
/// given back, to be said.
fn ask_about_twins(on: &Request<'_>, meaning: &mut Meaning, source: &Source) -> Vec<grammar::Service> {
    let services = std::mem::take(&mut meaning.services);
    let (mut twins, new): (Vec<_>, Vec<_>) = services.into_iter().partition(|said| is_told_again(on, said, source));
    meaning.services = new;
    if let (None, Some(first)) = (&meaning.ask, twins.first().map(|one| one.what)) {
        meaning.ask = grammar::ask_again(&twins);
        twins.retain(|one| one.what != first);
    }
    twins
}

/// A reading of a time that is still to come is asked about: nobody can have taken it then.
fn doubt_what_is_ahead(zone: &TimeZone, meaning: &mut Meaning, source: &Source) {
    let readings = std::mem::take(&mut meaning.readings);
    for mut reading in readings {
        if !is_ahead(reading.when, source.sent_at, zone) {
            meaning.readings.push(reading);
            continue;
        }
        reading.when = Some(When::Ahead);
        meaning.ask = meaning.ask.take().or(Some(grammar::ask_whether(reading)));
    }
}
