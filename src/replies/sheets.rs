//! Words on the digest's files: titles of sheets and columns, what they mean,
//! and events of the calendar.

use crate::digest::fleet::FleetRow;
use crate::digest::shopping::Good;

use super::Words;
use super::reading::state_word;

/// Columns of the sheet of actions, in order.
pub const ACTIONS: [&str; 3] = ["column-place", "column-what", "column-why"];
/// Columns of the sheet of rigs.
pub const FLEET: [&str; 14] = [
    "column-rig",
    "column-state",
    "column-rejection",
    "column-rejection-low",
    "column-rejection-high",
    "column-points",
    "column-resin-low",
    "column-resin-likely",
    "column-resin-high",
    "column-glass",
    "column-flushed",
    "column-worked",
    "column-readings",
    "column-last",
];
/// Columns of the shopping list.
pub const SHOPPING: [&str; 5] = [
    "column-what",
    "column-rig",
    "column-quantity",
    "column-unit",
    "column-sum",
];
/// Columns of the sheet of readings.
pub const READINGS: [&str; 8] = [
    "column-rig",
    "column-day",
    "column-tap",
    "column-ro",
    "column-glass",
    "column-raw-rejection",
    "column-temperature",
    "column-pressure",
];
/// What needs a word of explanation, beside its column: key and explanation.
pub const EXPLAINED: [(&str, &str); 9] = [
    ("column-state", "explain-state"),
    ("column-rejection", "explain-rejection"),
    ("column-rejection-low", "explain-interval"),
    ("column-points", "explain-points"),
    ("column-resin-likely", "explain-resin"),
    ("column-glass", "explain-glass"),
    ("column-flushed", "explain-flushed"),
    ("column-raw-rejection", "explain-raw-rejection"),
    ("column-pressure", "explain-pressure"),
];

/// Titles of columns.
pub fn titles(words: Words, columns: &[&'static str]) -> Vec<String> {
    columns.iter().map(|column| words.plain(column)).collect()
}

/// A rig's state in a cell.
pub fn state(words: Words, row: &FleetRow) -> String {
    match row.condition {
        Some(condition) => state_word(words, condition),
        None => words.plain("state-di-only"),
    }
}

/// What is bought, and its unit.
pub fn good(words: Words, good: Good) -> (String, String) {
    let (name, unit) = match good {
        Good::Resin => ("good-resin", "unit-litres"),
        Good::Prefilters => ("good-prefilters", "unit-sets"),
        Good::Membrane => ("good-membrane", "unit-pieces"),
    };
    (words.plain(name), words.plain(unit))
}

/// What a day in the calendar is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Due {
    /// The bed is likely used up.
    Resin,
    /// Prefilters.
    Prefilters,
    /// Renewing is cheapest about then.
    Membrane,
}

/// An event's title, and what is said about it.
pub fn event(words: Words, due: Due, rig: &str) -> (String, String) {
    let (title, about) = match due {
        Due::Resin => ("event-resin", "event-resin-about"),
        Due::Prefilters => ("event-prefilters", "event-prefilters-about"),
        Due::Membrane => ("event-membrane", "event-membrane-about"),
    };
    (words.say(title, [("rig", rig.into())]), words.plain(about))
}
