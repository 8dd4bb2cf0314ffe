//! What help and meanings can be asked about: pages of help, words of the trade by their names.

use super::wording;
use crate::message::Term;

/// A page of help.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
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
    /// Rigs on the fleet.
    Rigs,
    /// People and roles.
    People,
    /// The outfit's settings.
    Settings,
    /// Units of readings.
    Units,
    /// The weekly digest.
    Digest,
    /// The bot in a group chat.
    Groups,
    /// The words that the bot uses.
    Words,
    /// Cautions.
    Safety,
    /// What is kept, and whose it is.
    Data,
}

const PAGES: [(&str, Page); 15] = [
    ("reading", Page::Reading),
    ("correct", Page::Correct),
    ("flush", Page::Flush),
    ("resin", Page::Resin),
    ("membrane", Page::Membrane),
    ("prefilters", Page::Prefilters),
    ("rigs", Page::Rigs),
    ("people", Page::People),
    ("settings", Page::Settings),
    ("units", Page::Units),
    ("digest", Page::Digest),
    ("groups", Page::Groups),
    ("words", Page::Words),
    ("safety", Page::Safety),
    ("data", Page::Data),
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
