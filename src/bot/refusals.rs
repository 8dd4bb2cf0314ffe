//! The refusals of what cannot be done here.

use crate::replies::Words;

use super::answer::Answer;
use super::request::Request;

pub(super) fn unknown_rig(on: &Request<'_>, name: &str) -> Answer {
    if on.fleet.is_empty() {
        return Answer::says(on.words.plain("fleet-empty"));
    }
    let rigs = on
        .fleet
        .iter()
        .map(|rig| rig.name.as_str())
        .collect::<Vec<_>>()
        .join(", ");
    Answer::says(
        on.words
            .say("rig-unknown", [("name", name.into()), ("rigs", (&rigs).into())]),
    )
}

/// The refusal of what only some may do.
pub(super) fn may_not(words: Words, who: &str) -> Answer {
    Answer::says(words.say("may-not", [("who", (&words.plain(who)).into())]))
}
