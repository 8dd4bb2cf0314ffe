//! Words about people: invites, roles, comings and goings.

use super::Words;

/// The answer to `invite`: for how many, for how many hours, and the link.
pub fn invite(words: Words, role: &str, (uses, hours): (u32, u32), link: &str) -> String {
    let span = span(words, hours);
    let facts = [
        ("role", role.into()),
        ("uses", i64::from(uses).into()),
        ("span", (&span).into()),
        ("link", link.into()),
    ];
    if uses == 1 {
        words.say("invite-one", facts)
    } else {
        words.say("invite-several", facts)
    }
}

/// Whole days in days, anything else in hours.
fn span(words: Words, hours: u32) -> String {
    if hours.is_multiple_of(24) {
        return words.say("span-days", [("count", i64::from(hours / 24).into())]);
    }
    words.say("span-hours", [("count", i64::from(hours).into())])
}
