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

/// What the tables call each page; what somebody does comes before parts, and those before units and words.
const PAGES: [(&str, Page); 22] = [
    ("correct", Page::Correct),
    ("flush", Page::Flush),
    ("safety", Page::Safety),
    ("reading", Page::Reading),
    ("prefilters", Page::Prefilters),
    ("resin", Page::Resin),
    ("membrane", Page::Membrane),
    ("parts", Page::Parts),
    ("rigs", Page::Rigs),
    ("people", Page::People),
    ("prices", Page::Prices),
    ("settings", Page::Settings),
    ("hours", Page::Hours),
    ("digest", Page::Digest),
    ("sheets", Page::Sheets),
    ("groups", Page::Groups),
    ("data", Page::Data),
    ("pictures", Page::Pictures),
    ("units", Page::Units),
    ("words", Page::Words),
    ("questions", Page::Questions),
    ("topics", Page::Topics),
];

impl Page {
    /// The page that is called so, or nearly so, in any language.
    pub fn named(name: &str) -> Option<Self> {
        let key = wording::nearly_named("page", name)?;
        PAGES.iter().find(|(known, _)| *known == key).map(|(_, page)| *page)
    }

    /// The page that a question is about ("how do I take the RO reading?"): the first in `PAGES` of those that it names.
    pub fn about(question: &str) -> Option<Self> {
        let words: Vec<&str> = question
            .split(|letter: char| !letter.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .collect();
        let runs = (1..=2).flat_map(|size| words.windows(size));
        let named: Vec<&str> = runs.filter_map(|run| wording::named("page", &run.join(" "))).collect();
        PAGES.iter().find(|(key, _)| named.contains(key)).map(|(_, page)| *page)
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
    fn a_question_is_answered_by_the_page_on_what_somebody_does() {
        for (question, page) in [
            ("why flush?", Some(Page::Flush)),
            ("how do I flush the membrane", Some(Page::Flush)),
            ("what ppm is ok on glass?", Some(Page::Resin)),
            ("how do i take the ro reading", Some(Page::Reading)),
            ("¿cómo se toma la lectura de ósmosis?", Some(Page::Reading)),
            ("¿por qué lavar la membrana?", Some(Page::Flush)),
            ("¿qué ppm valen en el vidrio?", Some(Page::Resin)),
            ("nice weather", None),
        ] {
            assert_eq!(Page::about(question), page, "{question}");
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
