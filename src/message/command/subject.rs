//! What help and meanings can be asked about: pages of help, words of the trade.

use super::wording;
use crate::message::Term as Asked;

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

/// A word that the bot uses and somebody may ask about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Term {
    /// A state of the membrane: fine.
    Sound,
    /// A state: fading.
    Wearing,
    /// A state: weigh a new one.
    Due,
    /// A state: done.
    Spent,
    /// A state: too few readings.
    Unproven,
    /// A state: a jump.
    Check,
    /// Said of a reading that is far from its trend.
    Doubtful,
    /// Share of the solids that the membrane holds back.
    Rejection,
    /// Share of the solids that the membrane lets through.
    SaltPassage,
    /// Water from the RO outlet.
    Permeate,
    /// Water that goes to waste.
    Concentrate,
    /// Tap water.
    Feed,
    /// Reverse osmosis.
    Ro,
    /// Deionisation.
    Di,
    /// Water at the glass.
    Glass,
    /// Parts per million.
    Ppm,
    /// Total dissolved solids.
    Tds,
    /// Rinsing the membrane.
    Flush,
    /// Filters before the membrane.
    Prefilter,
    /// The membrane.
    Membrane,
    /// The resin.
    Resin,
    /// Stated at the same conditions.
    Standardised,
    /// One treatment train.
    Rig,
    /// One business.
    Outfit,
}

const TERMS: [(&str, Term); 24] = [
    ("sound", Term::Sound),
    ("wearing", Term::Wearing),
    ("due", Term::Due),
    ("spent", Term::Spent),
    ("unproven", Term::Unproven),
    ("check", Term::Check),
    ("doubtful", Term::Doubtful),
    ("rejection", Term::Rejection),
    ("salt passage", Term::SaltPassage),
    ("permeate", Term::Permeate),
    ("concentrate", Term::Concentrate),
    ("feed", Term::Feed),
    ("ro", Term::Ro),
    ("di", Term::Di),
    ("glass", Term::Glass),
    ("ppm", Term::Ppm),
    ("tds", Term::Tds),
    ("flush", Term::Flush),
    ("prefilter", Term::Prefilter),
    ("membrane", Term::Membrane),
    ("resin", Term::Resin),
    ("standardised", Term::Standardised),
    ("rig", Term::Rig),
    ("outfit", Term::Outfit),
];

impl Term {
    /// The word that is meant, or nearly so, in any language.
    pub fn named(name: &str) -> Option<Self> {
        let name = name.trim_matches(|letter: char| !letter.is_alphanumeric());
        let key = wording::nearly_named("term", name)?;
        TERMS.iter().find(|(known, _)| *known == key).map(|(_, term)| *term)
    }

    /// Whether it is a verdict, and no thing: "what is due?" asks for rigs, not for a meaning.
    pub fn is_verdict(self) -> bool {
        matches!(
            self,
            Self::Sound | Self::Wearing | Self::Due | Self::Spent | Self::Unproven | Self::Check | Self::Doubtful
        )
    }
}

impl From<Asked> for Term {
    fn from(asked: Asked) -> Self {
        match asked {
            Asked::Sound => Self::Sound,
            Asked::Wearing => Self::Wearing,
            Asked::Due => Self::Due,
            Asked::Spent => Self::Spent,
            Asked::Unproven => Self::Unproven,
            Asked::Check => Self::Check,
            Asked::Rejection => Self::Rejection,
            Asked::SaltPassage => Self::SaltPassage,
            Asked::Feed => Self::Feed,
            Asked::Permeate => Self::Permeate,
            Asked::Product => Self::Glass,
            Asked::Membrane => Self::Membrane,
            Asked::Resin => Self::Resin,
            Asked::Prefilter => Self::Prefilter,
            Asked::Flush => Self::Flush,
            Asked::Ppm => Self::Ppm,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_page_and_term_of_the_tables_is_known_here() {
        for key in wording::keys().concat() {
            match key.split_once('/') {
                Some(("page", name)) => assert!(PAGES.iter().any(|(known, _)| *known == name), "{key}"),
                Some(("term", name)) => assert!(TERMS.iter().any(|(known, _)| *known == name), "{key}"),
                _ => {}
            }
        }
    }

    #[test]
    fn pages_and_terms_are_found_in_both_languages() {
        assert_eq!(Page::named("lavado"), Some(Page::Flush));
        assert_eq!(Page::named("membranes"), Some(Page::Membrane));
        assert_eq!(Term::named("\"due\""), Some(Term::Due));
        assert_eq!(Term::named("por cambiar"), Some(Term::Due));
        assert_eq!(Term::named("ladder"), None);
    }
}
