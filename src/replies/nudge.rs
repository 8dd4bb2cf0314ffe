//! The end of the day: is it flushed?

use super::{Words, listed};

/// A button before it has a token.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Press {
    /// What it shows.
    pub label: String,
    /// The text that does the same.
    pub says: String,
}

/// The question about rigs that worked and were not flushed; asked `again` it is shorter.
pub fn question(words: Words, rigs: &[&str], again: bool) -> String {
    let names = listed(words, rigs);
    let facts = [("rigs", (&names).into()), ("count", (rigs.len() as i64).into())];
    words.say(if again { "nudge-again" } else { "nudge" }, facts)
}

/// Its buttons: a second question cannot be put off.
pub fn buttons(words: Words, rigs: &[&str], again: bool) -> Vec<Press> {
    let each = |ending: &str| {
        let said: Vec<String> = rigs.iter().map(|rig| format!("{rig} {ending}")).collect();
        said.join(", ")
    };
    let press = |key: &str, ending: &str| Press {
        label: words.plain(key),
        says: each(ending),
    };
    let mut buttons = vec![press("nudge-flushed", "flushed")];
    if !again {
        buttons.push(press("nudge-later", "in 30 minutes"));
    }
    buttons.push(press("nudge-not-used", "not used"));
    buttons
}
