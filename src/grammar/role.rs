//! What the numbers and time words of a message are.

use crate::domain::meaning::When;
use crate::language::unit::Unit;

/// What a number, or a time word, is in its clause.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Role {
    /// No number and no time.
    None,
    /// Free to be a value, with its unit.
    Free(Option<Unit>),
    /// Part of a time.
    Time(When),
    /// A price.
    Price,
    /// A percentage.
    Percent,
    /// A duration in minutes.
    Minutes,
    /// How much of a thing: litres, bottles.
    Amount,
    /// With letters in it that say nothing: asked about.
    Garbled,
    /// Counted things, job numbers, phones, dates of other things ...
    Explained,
}

impl Role {
    /// Free to be a value.
    pub fn is_free(self) -> bool {
        matches!(self, Role::Free(_))
    }
    /// Free to be dissolved solids.
    pub fn is_solids(self) -> bool {
        matches!(self, Role::Free(unit) if unit.is_none_or(Unit::is_solids))
    }
}
