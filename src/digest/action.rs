//! What a digest can ask for: closed, with the facts that the words need.

use jiff::civil::Date;

use crate::water::verdict::{Deed, Kind};

/// One thing to do, for one rig or several.
#[derive(Clone, Debug, PartialEq)]
pub struct Action {
    /// What.
    pub kind: Kind,
    /// For whom, most pressing first; never empty. The deed of each is of
    /// the action's kind.
    pub items: Vec<Item>,
}

/// One rig or person of an action.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Whom it is about.
    pub subject: Subject,
    /// Why, by when, and what it saves or risks.
    pub deed: Deed,
    /// The date of the first digest in a row that asked for it; today when new.
    pub since: Date,
    /// How many digests in a row have asked for it, this one included.
    pub mondays: u32,
}

/// Whom an action is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Subject {
    /// A rig: number and name.
    Rig(i64, String),
    /// A person: number and first name.
    Person(i64, String),
    /// The whole outfit.
    Outfit,
}

impl Subject {
    /// The name; empty for the outfit.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Rig(_, name) | Self::Person(_, name) => name,
            Self::Outfit => "",
        }
    }

    /// The rig's number.
    #[must_use]
    pub fn rig(&self) -> Option<i64> {
        match self {
            Self::Rig(id, _) => Some(*id),
            Self::Person(..) | Self::Outfit => None,
        }
    }

    /// The person's number.
    #[must_use]
    pub fn person(&self) -> Option<i64> {
        match self {
            Self::Person(id, _) => Some(*id),
            Self::Rig(..) | Self::Outfit => None,
        }
    }
}
