//! Help that answers: a short one by role and by what was just tried, pages
//! about one thing each, and what the words mean.

use crate::domain::Role;
use crate::domain::term::Term;
use crate::message::command::Page;

use super::Words;

/// What somebody who asks for help is in the middle of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tried<'a> {
    /// Nothing that is known of.
    Nothing,
    /// A question waits for their answer; its text.
    Question(&'a str),
    /// They own or lead an outfit without a rig.
    NoRigs,
    /// They sent something within the last hours that can be put right.
    Sent,
    /// They wrote of something that a page tells of.
    About(Page),
}

/// Help in at most five lines. `rig` is the name of one of the outfit's rigs.
pub fn short(words: Words, role: Role, tried: Tried<'_>, rig: &str) -> String {
    let rig = &rig.to_lowercase();
    let start = words.say("help-start", [("rig", rig.into())]);
    let (first, second) = match tried {
        Tried::Question(question) => return words.say("help-question", [("question", question.into())]),
        Tried::NoRigs => (words.plain("help-no-rigs"), Some(start)),
        Tried::Sent => (start, Some(words.plain("help-sent"))),
        Tried::About(page) => {
            let topic = page_name(words, page);
            (start, Some(words.say("help-about", [("topic", (&topic).into())])))
        }
        Tried::Nothing => (start, None),
    };
    let everyday = words.say("help-everyday", [("rig", rig.into())]);
    let more = words.plain(match role {
        Role::Crew => "help-more-crew",
        Role::Lead => "help-more-lead",
        Role::Owner => "help-more-owner",
    });
    let lines = [Some(first), second, Some(everyday), Some(more)];
    lines.into_iter().flatten().collect::<Vec<_>>().join("\n")
}

/// One page of help, with examples about these two rigs.
pub fn page(words: Words, page: Page, rig: &str, other: &str) -> String {
    let (rig, other) = (&rig.to_lowercase(), &other.to_lowercase());
    let key = match page {
        Page::Reading => "page-reading",
        Page::Correct => "page-correct",
        Page::Flush => "page-flush",
        Page::Resin => "page-resin",
        Page::Membrane => "page-membrane",
        Page::Prefilters => "page-prefilters",
        Page::Questions => "page-questions",
        Page::Pictures => "page-pictures",
        Page::Rigs => "page-rigs",
        Page::Parts => "page-parts",
        Page::People => "page-people",
        Page::Settings => "page-settings",
        Page::Prices => "page-prices",
        Page::Hours => "page-hours",
        Page::Units => "page-units",
        Page::Digest => "page-digest",
        Page::Sheets => "page-sheets",
        Page::Groups => "page-groups",
        Page::Words => "page-words",
        Page::Safety => "page-safety",
        Page::Data => "page-data",
        Page::Topics => "page-topics",
    };
    words.say(key, [("rig", rig.into()), ("other", other.into())])
}

/// A hint for a message that could not be understood: the nearest right
/// example, about this rig. `about`: the page on what was tried; `named`: the message names a rig.
pub fn hint(words: Words, about: Option<Page>, named: bool, rig: &str) -> String {
    let key = match about {
        Some(Page::Flush) => "hint-flush",
        Some(Page::Resin) => "hint-resin",
        Some(Page::Membrane) => "hint-membrane",
        Some(Page::Prefilters) => "hint-prefilters",
        Some(Page::Reading) => "hint-number",
        _ if named => "hint-rig",
        _ => "hint",
    };
    let small = rig.to_lowercase();
    words.say(key, [("name", rig.into()), ("rig", (&small).into())])
}

/// An example of a setting or command, for what was only half said.
pub fn like_this(words: Words, example: &str) -> String {
    words.say("hint-like", [("example", example.into())])
}

/// How a command is typed that was half typed, by its key; about these two rigs.
pub fn half_typed(words: Words, key: &str, rig: &str, other: &str) -> Option<String> {
    let (rig, other) = (&rig.to_lowercase(), &other.to_lowercase());
    let key = match key {
        "add rigs" => "try-add-rigs",
        "remove rig" => "try-remove-rig",
        "own rig" => "try-own-rig",
        "today" => "try-today",
        "name" => "try-name",
        "zone" => "try-zone",
        "roles" => "try-roles",
        "hand over" => "try-hand-over",
        "remove person" => "try-remove-person",
        "picture" => "try-picture",
        "resin picture" => "try-resin-picture",
        "money picture" => "try-money-picture",
        "same as" => "try-same-as",
        "parts" => "try-parts",
        "link chat" => "try-link-chat",
        "invites" => "try-invites",
        "export" => "try-export",
        "compare" => "try-compare",
        "why" => "try-why",
        "later" => "try-later",
        "words" => "try-words",
        _ => return None,
    };
    Some(words.say(key, [("rig", rig.into()), ("other", other.into())]))
}

/// What help is told about something that it has no page on.
pub fn no_page(words: Words) -> String {
    [words.plain("help-no-page"), words.plain("page-topics")].join("\n")
}

fn page_name(words: Words, page: Page) -> String {
    words.plain(match page {
        Page::Reading => "topic-reading",
        Page::Correct => "topic-correct",
        Page::Flush => "topic-flush",
        Page::Resin => "topic-resin",
        Page::Membrane => "topic-membrane",
        Page::Prefilters => "topic-prefilters",
        Page::Questions => "topic-questions",
        Page::Pictures => "topic-pictures",
        Page::Rigs => "topic-rigs",
        Page::Parts => "topic-parts",
        Page::People => "topic-people",
        Page::Settings => "topic-settings",
        Page::Prices => "topic-prices",
        Page::Hours => "topic-hours",
        Page::Units => "topic-units",
        Page::Digest => "topic-digest",
        Page::Sheets => "topic-sheets",
        Page::Groups => "topic-groups",
        Page::Words => "topic-words",
        Page::Safety => "topic-safety",
        Page::Data => "topic-data",
        Page::Topics => "topic-topics",
    })
}

/// What a word means.
pub fn meaning(words: Words, term: Term) -> String {
    words.plain(match term {
        Term::Good => "term-good",
        Term::Fading => "term-fading",
        Term::Due => "term-due",
        Term::Spent => "term-spent",
        Term::Unproven => "term-unproven",
        Term::Fault => "term-fault",
        Term::Doubtful => "term-doubtful",
        Term::Rejection => "term-rejection",
        Term::SaltPassage => "term-salt-passage",
        Term::Permeate => "term-permeate",
        Term::Concentrate => "term-concentrate",
        Term::Feed => "term-feed",
        Term::Ro => "term-ro",
        Term::Di => "term-di",
        Term::Product => "term-glass",
        Term::Ppm => "term-ppm",
        Term::Tds => "term-tds",
        Term::Flush => "term-flush",
        Term::Prefilter => "term-prefilter",
        Term::Membrane => "term-membrane",
        Term::Resin => "term-resin",
        Term::Standardised => "term-standardised",
        Term::Rig => "term-rig",
        Term::Outfit => "term-outfit",
    })
}
