//! Words about roles, help and hints.

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

/// Help for a role, with an example from the outfit's own fleet.
pub fn help(words: Words, standing: Standing, example: &str) -> String {
    let with_glass = format!("{example} 0");
    let mut parts = vec![words.say(
        "help-crew",
        [("example", example.into()), ("example3", (&with_glass).into())],
    )];
    if standing != Standing::Crew {
        parts.push(words.plain("help-lead"));
    }
    if standing == Standing::Owner {
        parts.push(words.plain("help-owner"));
    }
    parts.join("\n")
}
