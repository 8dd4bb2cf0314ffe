//! Carries out what a message comes to: the one place that knows which file answers what.

use crate::grammar::Meaning;
use crate::store::{Db, StoreError};

use super::act::Act;
use super::answer::Answer;
use super::closed_outfit::closed_to;
use super::commands::obey;
use super::hints::{half_setting, hint};
use super::meaning_answers::record_meaning;
use super::request::Request;
use super::scene::open_question;
use super::setup::{guided_press, steer};
use super::understood::chosen;

/// Carries an act out and answers it.
pub(super) async fn perform(db: &mut Db, on: &mut Request<'_>, act: Act) -> Result<Answer, StoreError> {
    match act {
        Act::Command(command) => obey(db, on, command).await,
        Act::Meaning(meaning) => record_meaning(db, on, meaning, false).await,
        Act::Answer(meaning) => record_meaning(db, on, meaning, true).await,
        Act::Choose(label) => match chosen(on, label) {
            Some(understood) => record_meaning(db, on, understood.meaning, true).await,
            None => Ok(Answer::says(on.words.plain("press-closed"))),
        },
        Act::Guide(guide) => Ok(match steer(db, on, guide).await? {
            Some(answer) => answer,
            None => Answer::says(on.words.plain("press-closed")),
        }),
        Act::HalfSetting(text) => Ok(half_setting(on, &text, &Meaning::default()).unwrap_or_default()),
        // Whoever is asked something may talk of something else meanwhile.
        Act::Unclear(_) if open_question(on).is_some() => Ok(Answer::silence()),
        Act::Unclear(text) => hint(db, on, &text).await,
    }
}

/// Carries out what a button keeps, with the guide going on behind it.
pub(super) async fn perform_press(db: &mut Db, on: &mut Request<'_>, act: Act) -> Result<Answer, StoreError> {
    if let Some(refusal) = closed_to(on, act.command()) {
        return Ok(refusal);
    }
    match guided_press(db, on, &act).await? {
        Some(answer) => Ok(answer),
        None => perform(db, on, act).await,
    }
}
