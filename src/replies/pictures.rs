//! The words on pictures: a function for each takes figures, states and dates, and
//! gives the facts that [`crate::chart`] draws.

pub mod fleet;
pub mod money;
pub mod resin;
pub mod rig_history;

use jiff::civil::Date;

use super::Words;
use super::figures;

/// Short names of the months, January first.
fn months(words: Words) -> [String; 12] {
    std::array::from_fn(|nth| {
        let month = i64::try_from(nth).map_or(1, |nth| nth + 1);
        words.say("month-short", [("month", month.into())])
    })
}

/// A span of uncertain days, no more exact than it is: "early Dec - mid Jan".
fn rough_span(words: Words, early: Date, late: Date, today: Date) -> String {
    let (from, to) = (figures::rough(words, early, today), figures::rough(words, late, today));
    if from == to {
        return from;
    }
    words.say("rough-span", [("from", (&from).into()), ("to", (&to).into())])
}
