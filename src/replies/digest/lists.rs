//! Names in a row, no more than a thumb wants to scroll past.

use crate::replies::{Words, listed};

/// The first `most` of `names`, and how many more there are.
pub fn some(words: Words, names: &[String], most: usize) -> String {
    if names.len() <= most {
        return names.join(", ");
    }
    let shown = names[..most.min(names.len())].join(", ");
    let left = names.len().saturating_sub(most) as i64;
    words.say("digest-and-more", [("names", (&shown).into()), ("count", left.into())])
}

/// One name, two names, or how many rigs there are.
pub fn rigs(words: Words, names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [one, two] => listed(words, &[one, two]),
        _ => words.say("digest-rigs", [("count", (names.len() as i64).into())]),
    }
}
