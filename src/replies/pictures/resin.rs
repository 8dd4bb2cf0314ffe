//! The words on the resin of a rig.

use jiff::civil::Date;

use crate::chart::axis::ticks;
use crate::chart::resin_life::{BEDS, Bed, ResinLife, Words as Labels};
use crate::chart::rig_history::Ahead;
use crate::replies::Words;
use crate::replies::figures;

use super::months;

/// Working days that a bed has left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Left {
    /// Not known.
    Unknown,
    /// Low, likely and high end of the range.
    Days([f64; 3]),
    /// The glass will spot.
    Nothing,
    /// The bed is packed loosely: repack it before buying.
    Loose,
}

/// A bed, as it is known of.
#[derive(Clone, Debug, PartialEq)]
pub struct Used {
    /// When it was put in.
    pub since: Date,
    /// When it was taken out; none for the one in use.
    pub until: Option<Date>,
    /// Share of what a bed holds that it had taken up, by day.
    pub load: Vec<(Date, f64)>,
}

/// What the picture is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Facts<'a> {
    /// The rig's name.
    pub rig: &'a str,
    /// Seen from.
    pub today: Date,
    /// The beds, oldest first; the last is in use.
    pub beds: Vec<Used>,
    /// What the bed in use has left.
    pub left: Left,
    /// Whether its size and the litres a day are told.
    pub sized: bool,
    /// When it will be full: early, likely, late.
    pub full: Option<[Date; 3]>,
}

/// Beds that are compared: the first two of those shown with the last two.
const COMPARED: usize = 4;
/// So much shorter than before is no chance.
const SHORTER: f64 = 0.8;
/// More working days than this are not told apart.
const MANY_DAYS: f64 = 30.0;

/// The picture of a rig's resin.
pub fn picture(words: Words, facts: Facts<'_>) -> ResinLife {
    let highest = facts
        .beds
        .iter()
        .flat_map(|bed| &bed.load)
        .map(|&(_, share)| share)
        .fold(1.0, f64::max);
    let rig = || ("rig", facts.rig.into());
    let range = |days: [f64; 3]| {
        words.say(
            "picture-working-days",
            [("days", (&figures::planned_span(days[0], days[2])).into())],
        )
    };
    let headline = match facts.left {
        Left::Unknown => words.say("picture-resin-unknown", [rig()]),
        Left::Nothing => words.say("picture-resin-now", [rig()]),
        Left::Loose => words.say("picture-resin-loose", [rig()]),
        Left::Days(days) if days[1] > MANY_DAYS => words.say("picture-resin-long", [rig()]),
        Left::Days(days) => words.say("picture-resin-days", [rig(), ("days", figures::whole(days[1]).into())]),
    };
    ResinLife {
        headline,
        subline: subline(words, &facts),
        today: facts.today,
        shares: ticks(0.0, highest + 0.02, 7, |at| {
            words.say("percent", [("percent", (&figures::whole_percent(at)).into())])
        }),
        full: facts
            .full
            .zip(days_of(facts.left))
            .map(|([early, likely, late], days)| Ahead {
                early,
                likely,
                late: Some(late),
                words: range(days),
            }),
        months: months(words),
        words: Labels {
            today: words.plain("today"),
            full: words.plain("picture-full"),
            lasted: words.plain("picture-lasted"),
            load: words.plain("picture-load"),
            forecast: words.plain("picture-forecast"),
            nothing: words.plain("picture-no-resin"),
        },
        beds: facts
            .beds
            .iter()
            .map(|bed| Bed {
                since: bed.since,
                until: bed.until,
                load: bed.load.clone(),
                lasted: lasted(bed, facts.today).to_string(),
            })
            .collect(),
    }
}

/// The resin in a few letters; empty where nothing is known.
pub fn short(words: Words, left: Left) -> String {
    match left {
        Left::Unknown => String::new(),
        Left::Nothing => words.plain("picture-short-now"),
        Left::Loose => words.plain("picture-short-loose"),
        Left::Days(days) if days[1] > MANY_DAYS => words.plain("picture-short-long"),
        Left::Days(days) => words.say(
            "picture-short-days",
            [("days", (&figures::planned_span(days[0], days[2])).into())],
        ),
    }
}

fn days_of(left: Left) -> Option<[f64; 3]> {
    match left {
        Left::Days(days) => Some(days),
        Left::Unknown | Left::Nothing | Left::Loose => None,
    }
}

fn lasted(bed: &Used, today: Date) -> i64 {
    let until = bed.until.unwrap_or(today);
    bed.since.until(until).map_or(0, |span| i64::from(span.get_days()))
}

/// Whether beds last ever less, else the range of what is left.
fn subline(words: Words, facts: &Facts<'_>) -> String {
    let finished: Vec<i64> = facts
        .beds
        .iter()
        .filter(|bed| bed.until.is_some())
        .map(|bed| lasted(bed, facts.today))
        .collect();
    let shown = &finished[(finished.len() + 1).saturating_sub(BEDS)..];
    if let [first, second, .., before, last] = shown
        && shown.len() >= COMPARED
        && ((before + last) as f64) < SHORTER * (first + second) as f64
    {
        return words.say(
            "picture-beds-shrink",
            [("first", (*first).into()), ("last", (*last).into())],
        );
    }
    match facts.left {
        Left::Days(days) => words.say(
            "picture-resin-range",
            [("days", (&figures::planned_span(days[0], days[2])).into())],
        ),
        Left::Nothing => words.plain("picture-resin-spots"),
        Left::Loose => words.plain("picture-resin-early"),
        Left::Unknown if facts.sized => words.plain("picture-resin-log"),
        Left::Unknown => words.plain("picture-resin-tell"),
    }
}
