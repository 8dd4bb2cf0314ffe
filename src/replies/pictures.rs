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
    std::array::from_fn(|nth| figures::month_name(words, i8::try_from(nth).map_or(1, |nth| nth + 1)))
}

/// A span of uncertain days, no more exact than it is: "early Dec to late Dec", or in
/// months where it is long.
fn rough_span(words: Words, early: Date, late: Date, today: Date) -> String {
    let by_month = early.until(late).is_ok_and(|span| span.get_days() > 60);
    let say = |date| {
        if by_month {
            figures::month(words, date)
        } else {
            figures::rough(words, date, today)
        }
    };
    let (from, to) = (say(early), say(late));
    if from == to {
        return from;
    }
    words.say("rough-span", [("from", (&from).into()), ("to", (&to).into())])
}
