//! The end of the day: is it flushed?

use super::{Words, listed};

/// A button below the question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Press {
    /// It is flushed.
    Flushed,
    /// Ask again in half an hour.
    Later,
    /// It was not used today.
    NotUsed,
}

/// The question about rigs that worked and were not flushed; asked `again` it is shorter.
pub fn question(words: Words, rigs: &[&str], again: bool) -> String {
    let names = listed(words, rigs);
    let facts = [("rigs", (&names).into()), ("count", (rigs.len() as i64).into())];
    words.say(if again { "nudge-again" } else { "nudge" }, facts)
}

/// Its buttons, from the top: a second question cannot be put off.
pub fn presses(again: bool) -> &'static [Press] {
    match again {
        true => &[Press::Flushed, Press::NotUsed],
        false => &[Press::Flushed, Press::Later, Press::NotUsed],
    }
}

/// What a button shows.
pub fn label(words: Words, press: Press) -> String {
    words.plain(match press {
        Press::Flushed => "nudge-flushed",
        Press::Later => "nudge-later",
        Press::NotUsed => "nudge-not-used",
    })
}
