//! What is done to a rig.

use serde::{Deserialize, Serialize};

/// A kind of service. Its order decides between services of one instant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum ServiceKind {
    /// A new membrane: a new life begins.
    Membrane,
    /// New DI resin.
    Resin,
    /// The same resin, packed tight.
    Repack,
    /// New sediment or carbon prefilters.
    Prefilter,
    /// The membrane was flushed.
    Flush,
    /// An O-ring, hose or fitting was put right.
    ORing,
    /// The crew says that a fall of the permeate was no new membrane.
    SameMembrane,
    /// The rig was laid up in preservative.
    Preserved,
    /// It is read with another meter from now on.
    Meter,
}

impl ServiceKind {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::Membrane,
        Self::Resin,
        Self::Repack,
        Self::Prefilter,
        Self::Flush,
        Self::ORing,
        Self::SameMembrane,
        Self::Preserved,
        Self::Meter,
    ];

    /// Whether something was done to the rig; else something was said of it.
    pub fn is_work(self) -> bool {
        !matches!(self, Self::SameMembrane | Self::Preserved)
    }

    /// The word in the database.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Membrane => "membrane",
            Self::Resin => "resin",
            Self::Repack => "repack",
            Self::Prefilter => "prefilter",
            Self::Flush => "flush",
            Self::ORing => "oring",
            Self::SameMembrane => "same-membrane",
            Self::Preserved => "preserved",
            Self::Meter => "meter",
        }
    }

    /// The kind that a word in the database names; none for a word of a later version.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }
}
