//! Words about roles.

use super::Words;

/// What somebody may do, as far as help depends on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Reads rigs.
    Crew,
    /// Looks after rigs and people.
    Lead,
    /// Owns the outfit.
    Owner,
}

/// The role's word.
pub fn role(words: Words, standing: Standing) -> String {
    words.plain(match standing {
        Standing::Owner => "role-owner",
        Standing::Lead => "role-lead",
        Standing::Crew => "role-crew",
    })
}
