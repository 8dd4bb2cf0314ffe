//! What help and meanings can be asked about: pages of help, words of the trade by their names.

use serde::{Deserialize, Serialize};

use super::wording;
use crate::domain::term::Term;

/// A page of help.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Page {
    /// How to take a reading.
    Reading,
    /// Putting a reading right.
    Correct,
    /// Flushing the membrane.
    Flush,
    /// The DI resin.
    Resin,
    /// The membrane, and faults around it.
    Membrane,
    /// Prefilters.
    Prefilters,
    /// What can be asked.
    Questions,
    /// Pictures and files of the week.
    Pictures,
    /// Rigs on the fleet.
    Rigs,
    /// What a rig is made of.
    Parts,
    /// People and roles.
    People,
    /// The outfit's settings.
    Settings,
    /// Prices, and what is asked about money.
    Prices,
    /// When the bot speaks unasked.
    Hours,
    /// Units of readings.
    Units,
    /// The weekly digest.
    Digest,
    /// Files in and out.
    Sheets,
    /// The bot in a group chat.
    Groups,
    /// The words that the bot uses.
    Words,
    /// Cautions.
    Safety,
    /// What is kept, and whose it is.
    Data,
    /// Which pages there are.
    Topics,
}

const PAGES: [(&str, Page); 22] = [
    ("reading", Page::Reading),
    ("correct", Page::Correct),
    ("flush", Page::Flush),
    ("resin", Page::Resin),
    ("membrane", Page::Membrane),
    ("prefilters", Page::Prefilters),
    ("questions", Page::Questions),
    ("pictures", Page::Pictures),
    ("rigs", Page::Rigs),
    ("parts", Page::Parts),
    ("people", Page::People),
    ("settings", Page::Settings),
    ("prices", Page::Prices),
    ("hours", Page::Hours),
    ("units", Page::Units),
    ("digest", Page::Digest),
    ("sheets", Page::Sheets),
    ("groups", Page::Groups),
    ("words", Page::Words),
    ("safety", Page::Safety),
    ("data", Page::Data),
    ("topics", Page::Topics),
];

impl Page {
    /// The page that is called so, or nearly so, in any language.
    pub fn named(name: &str) -> Option<Self> {
        let key = wording::nearly_named("page", name)?;
        PAGES.iter().find(|(known, _)| *known == key).map(|(_, page)| *page)
    }
}

/// The word that is called so, or nearly so, in any language.
pub(super) fn term(name: &str) -> Option<Term> {
    let name = name.trim_matches(|letter: char| !letter.is_alphanumeric());
    Term::of_key(wording::nearly_named("term", name)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_page_and_term_of_the_tables_is_known_here() {
        for key in wording::keys().concat() {
            match key.split_once('/') {
                Some(("page", name)) => assert!(PAGES.iter().any(|(known, _)| *known == name), "{key}"),
                Some(("term", name)) => assert!(Term::of_key(name).is_some(), "{key}"),
                _ => {}
            }
        }
    }

    #[test]
    fn pages_and_terms_are_found_in_both_languages() {
        assert_eq!(Page::named("lavado"), Some(Page::Flush));
        assert_eq!(Page::named("membranes"), Some(Page::Membrane));
        assert_eq!(term("\"due\""), Some(Term::Due));
        assert_eq!(term("por cambiar"), Some(Term::Due));
        assert_eq!(term("ladder"), None);
    }
}
