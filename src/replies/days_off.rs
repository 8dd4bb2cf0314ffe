//! Time off in words.

use jiff::civil::Date;

use super::Words;
use super::figures::spoken;
use crate::water::days_off::DaysOff;

/// What was noted, of a rig or else of everybody.
pub fn noted(words: Words, rig: Option<&str>, span: &DaysOff, today: Date) -> String {
    let off = standing(words, span, today);
    let ends = match span.back {
        None => 0,
        Some(_) if span.from <= today => 1,
        Some(_) => 2,
    };
    match rig {
        Some(rig) => words.say(
            "time-off-rig",
            [
                ("rig", rig.into()),
                ("off", (&off).into()),
                ("ends", i64::from(ends).into()),
            ],
        ),
        None => words.say("time-off-outfit", [("off", (&off).into())]),
    }
}

/// "at the garage until Monday", "off from 24 Dec to 2 Jan"
pub fn standing(words: Words, span: &DaysOff, today: Date) -> String {
    let why = words.say("time-off-why", [("why", span.why.name().into())]);
    let day = |date: Date| spoken::coming_day(words, date, today);
    let key = match (span.back, span.last()) {
        (None, _) if span.from <= today => "time-off-open",
        (None, _) => "time-off-open-from",
        (Some(_), Some(last)) if last == span.from => "time-off-one-day",
        _ if span.from <= today => "time-off-until",
        _ => "time-off-from-to",
    };
    let back = span.back.map(day).unwrap_or_default();
    let last = span.last().map(day).unwrap_or_default();
    words.say(
        key,
        [
            ("why", (&why).into()),
            ("from", (&day(span.from)).into()),
            ("last", (&last).into()),
            ("back", (&back).into()),
        ],
    )
}

/// Work goes on.
pub fn back(words: Words, rig: Option<&str>) -> String {
    match rig {
        Some(rig) => words.say("time-off-back", [("rig", rig.into())]),
        None => words.plain("time-off-back-outfit"),
    }
}

/// What was told last counts no more.
pub fn taken_back(words: Words, rig: Option<&str>) -> String {
    match rig {
        Some(rig) => words.say("time-off-withdrawn", [("rig", rig.into())]),
        None => words.plain("time-off-withdrawn-outfit"),
    }
}
