//! The words on the resin of a rig.

use jiff::civil::Date;

use crate::chart::Sheet;
use crate::chart::axis::days_between;
use crate::chart::mark::Mark;
use crate::chart::resin_life::{self, BEDS, Bed, Labels, ResinLife};
use crate::chart::rig_history::Ahead;
use crate::replies::Words;
use crate::replies::figures;

use super::{day, headline, months, named};

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

/// What the picture is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Facts<'a> {
    /// The rig's name.
    pub rig: &'a str,
    /// Seen from.
    pub today: Date,
    /// The beds, oldest first; the last is in use.
    pub beds: Vec<Bed>,
    /// What the bed in use has left.
    pub left: Left,
    /// Last product reading, ppm.
    pub product_ppm: Option<f64>,
    /// Whether its size and the litres a day are known.
    pub sized: bool,
    /// When it will be used up: early, likely, late.
    pub used_up: Option<[Date; 3]>,
}

/// Beds that are compared: the first two of those shown with the last two.
const COMPARED: usize = 4;
/// So much shorter than before is no chance.
const SHORTER: f64 = 0.8;
/// More working days than this are not told apart.
const MANY_DAYS: f64 = 30.0;
/// With fewer, a bed is bought this week.
const FEW_DAYS: f64 = 5.0;

/// The picture of a rig's resin.
#[must_use]
pub fn sheet(words: Words, facts: Facts<'_>) -> Sheet {
    let held = facts.beds.last().and_then(|bed| bed.load.last());
    let past = past_floor(&facts);
    let urgent = past.is_some() || matches!(facts.left, Left::Nothing | Left::Loose) || is_last_day(facts.left);
    let over = match (past, facts.left) {
        (Some(days), _) if days > 0 => Some(words.say("picture-over", [("days", days.into())])),
        (_, Left::Nothing | Left::Loose) => facts
            .product_ppm
            .map(|ppm| words.say("picture-ppm", [("ppm", (&figures::ppm(words, ppm)).into())])),
        _ => None,
    };
    resin_life::draw(&ResinLife {
        headline: finding(words, &facts, past.is_some()),
        subline: subline(words, &facts, past.is_some()),
        mark: Mark::Bed {
            left: held.map_or(if urgent { 0.0 } else { 1.0 }, |(_, share)| 1.0 - share),
            urgent,
        },
        today: facts.today,
        used_up: facts
            .used_up
            .filter(|_| !urgent && !is_long(facts.left))
            .map(|[early, likely, late]| {
                let ahead = Ahead {
                    early: early.max(facts.today),
                    likely: likely.max(facts.today),
                    late: Some(late.max(facts.today)),
                };
                (ahead, [words.plain("picture-near"), day(words, ahead.likely)])
            }),
        over,
        labels: labels(words, &facts),
        beds: facts.beds,
    })
}

fn labels(words: Words, facts: &Facts<'_>) -> Labels {
    let shown = facts.beds.len().saturating_sub(BEDS);
    let first = facts.beds.get(shown).map_or(0, |bed| lasted(bed, facts.today));
    Labels {
        today: words.plain("today"),
        axis: words.plain("picture-resin-axis"),
        levels: ["picture-fresh", "picture-half", "picture-used-up"].map(|key| words.plain(key)),
        first_days: words.say("picture-days", [("days", first.into())]),
        legend: words.plain(if facts.beds.iter().any(|bed| bed.load.len() > 1) {
            "picture-slopes"
        } else {
            "picture-no-slopes"
        }),
        nothing: words.plain("picture-no-resin"),
        months: months(words),
    }
}

/// By how many days the count of the bed in use is past its end.
fn past_floor(facts: &Facts<'_>) -> Option<i64> {
    let load = &facts.beds.last()?.load;
    let ended = load.iter().find(|(_, share)| *share >= 1.0)?.0;
    Some(i64::from(days_between(ended, facts.today)))
}

fn finding(words: Words, facts: &Facts<'_>, is_past: bool) -> String {
    let plain = |key: &str| named(words, key, facts.rig);
    match facts.left {
        _ if facts.beds.is_empty() => plain("picture-resin-unknown"),
        Left::Loose => plain("picture-resin-loose"),
        Left::Nothing => plain("picture-resin-now"),
        _ if is_past => plain("picture-resin-now"),
        Left::Unknown => plain("picture-resin-unknown"),
        left if is_last_day(left) => plain("picture-resin-now"),
        Left::Days([_, likely, _]) if likely < FEW_DAYS => plain("picture-resin-buy"),
        left if is_long(left) => plain("picture-resin-long"),
        Left::Days([_, likely, _]) => {
            let days = figures::whole(likely);
            let say = |rig: &str| words.say("picture-resin-days", [("rig", rig.into()), ("days", days.into())]);
            headline(facts.rig, true, say)
        }
    }
}

/// Whether a bed ends before the next working day does.
#[must_use]
pub fn is_last_day(left: Left) -> bool {
    matches!(left, Left::Days([_, likely, _]) if likely < 0.5)
}

fn is_long(left: Left) -> bool {
    matches!(left, Left::Days([_, likely, _]) if likely > MANY_DAYS)
}

fn lasted(bed: &Bed, today: Date) -> i64 {
    i64::from(days_between(bed.since, bed.until.unwrap_or(today)))
}

/// Why it has to go, whether beds last ever less, else the range of what is left.
fn subline(words: Words, facts: &Facts<'_>, is_past: bool) -> String {
    let finished: Vec<i64> = facts
        .beds
        .iter()
        .filter(|bed| bed.until.is_some())
        .map(|bed| lasted(bed, facts.today))
        .collect();
    let shown = &finished[(finished.len() + 1).saturating_sub(BEDS)..];
    match facts.left {
        Left::Loose => return words.plain("picture-resin-early"),
        Left::Nothing if !is_past => return words.plain("picture-resin-spots"),
        _ => {}
    }
    if is_past && let (Some(low), Some(high)) = (shown.iter().min(), shown.iter().max()) {
        let now = facts.beds.last().map_or(0, |bed| lasted(bed, facts.today));
        let usual = if low == high {
            low.to_string()
        } else {
            format!("{low}\u{2013}{high}")
        };
        return words.say("picture-in-use", [("days", now.into()), ("usual", (&usual).into())]);
    }
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
        Left::Days([low, _, high]) => words.say(
            "picture-resin-range",
            [(
                "days",
                (&figures::planned_span(low, high).replace('-', "\u{2013}")).into(),
            )],
        ),
        _ if facts.sized => words.plain("picture-resin-log"),
        _ => words.plain("picture-resin-tell"),
    }
}
