//! Words about roles.

use super::Words;
use crate::domain::Role;

/// The role's word.
pub fn role(words: Words, role: Role) -> String {
    words.plain(match role {
        Role::Owner => "role-owner",
        Role::Lead => "role-lead",
        Role::Crew => "role-crew",
    })
}
