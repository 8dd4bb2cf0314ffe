//! The words of the answers that somebody may ask the meaning of.

use serde::{Deserialize, Serialize};

/// A word that the bot uses and somebody may ask about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Term {
    /// A state of the membrane: fine.
    Good,
    /// A state: fading.
    Fading,
    /// A state: weigh a new one.
    Due,
    /// A state: done.
    Spent,
    /// A state: too few readings.
    Unproven,
    /// A state: a jump.
    Fault,
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
    /// Water from the DI outlet, "glass" in what crews type and read.
    Product,
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

/// What the tables of words call each.
const KEYS: [(&str, Term); 24] = [
    ("good", Term::Good),
    ("fading", Term::Fading),
    ("due", Term::Due),
    ("spent", Term::Spent),
    ("unproven", Term::Unproven),
    ("fault", Term::Fault),
    ("doubtful", Term::Doubtful),
    ("rejection", Term::Rejection),
    ("salt passage", Term::SaltPassage),
    ("permeate", Term::Permeate),
    ("concentrate", Term::Concentrate),
    ("feed", Term::Feed),
    ("ro", Term::Ro),
    ("di", Term::Di),
    ("product", Term::Product),
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
    /// The word that the tables of words call so.
    pub fn of_key(key: &str) -> Option<Self> {
        KEYS.iter().find(|(known, _)| *known == key).map(|(_, term)| *term)
    }

    /// Whether it is a verdict, and no thing: "what is due?" asks for rigs, not for a meaning.
    pub fn is_verdict(self) -> bool {
        matches!(
            self,
            Self::Good | Self::Fading | Self::Due | Self::Spent | Self::Unproven | Self::Fault | Self::Doubtful
        )
    }
}
