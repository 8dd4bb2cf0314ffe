//! What somebody may do in their outfit.

use serde::{Deserialize, Serialize};

/// What somebody may do in their outfit; the greater, the less.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Role {
    /// Everything.
    Owner,
    /// Rigs and crew, not the outfit's settings.
    Lead,
    /// Readings and services.
    Crew,
}

impl Role {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Owner, Self::Lead, Self::Crew];

    /// The word in the database and in a command.
    pub fn word(self) -> &'static str {
        match self {
            Self::Owner => "owner",
            Self::Lead => "lead",
            Self::Crew => "crew",
        }
    }

    /// The role that a word names.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.word() == word)
    }

    /// Whether this role looks after rigs and people.
    pub fn leads(self) -> bool {
        self != Self::Crew
    }
}
