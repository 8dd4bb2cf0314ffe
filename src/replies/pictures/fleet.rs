//! The words on the fleet sheet, and which rig comes first.

use jiff::civil::Date;

use crate::chart::Sheet;
use crate::chart::fleet_list;
use crate::chart::fleet_sheet::{Fleet, Row, shown};
use crate::chart::mark::Mark;
use crate::replies::Words;
use crate::replies::figures;
use crate::water::condition::Condition;
use crate::water::settings::Limits;
use crate::water::verdict::{Deed, Due, Kind};

use super::resin::Left;
use super::{headline, state, whole_percent};

/// A rig of the fleet.
#[derive(Clone, Debug, PartialEq)]
pub struct Rig {
    /// Its name.
    pub name: String,
    /// The state; none on a rig without a membrane.
    pub condition: Option<Condition>,
    /// Rejection with its leak, if it has one, a fraction; none while too early to tell.
    pub level: Option<f64>,
    /// Rejection of the membrane without the leak, where there is one.
    pub before_leak: Option<f64>,
    /// Last product reading, ppm.
    pub product_ppm: Option<f64>,
    /// How long the resin lasts.
    pub resin: Left,
    /// Share of the bed that still holds.
    pub bed_left: Option<f64>,
    /// What is to be done first.
    pub deed: Option<Deed>,
    /// Rejection by day, a stretch for each membrane.
    pub trend: Vec<Vec<(Date, f64)>>,
    /// Share of each bed that still held, by day.
    pub beds: Vec<Vec<(Date, f64)>>,
}

/// The rejection of a membrane at the top of its line: common practice for a new one, 95 %, no source.
const NEW: f64 = 0.95;

/// The fleet's sheets, with lines from `since` to `today`, its rigs in their order.
#[must_use]
pub fn sheets(words: Words, rigs: Vec<Rig>, limits: Limits, since: Date, today: Date) -> Vec<Sheet> {
    let count = |rigs: usize| i64::try_from(rigs).unwrap_or(i64::MAX);
    let jobs = count(rigs.iter().filter(|rig| rig.deed.is_some()).count());
    let numbers = || [("count", count(rigs.len()).into()), ("wanting", jobs.into())];
    let (finding, subline) = match rigs.first() {
        None => (words.plain("picture-fleet-empty"), String::new()),
        Some(rig) => match rig.deed {
            Some(first) => {
                let deed = deed(words, &first, (rig.condition, today));
                let say = |rig: &str| words.say("picture-first", [("rig", rig.into()), ("deed", (&deed).into())]);
                (
                    headline(&rig.name, false, say),
                    words.say("picture-fleet-wants", numbers()),
                )
            }
            None => (
                words.say("picture-fleet-fine", numbers()),
                words.plain("picture-fleet-nothing"),
            ),
        },
    };
    let more = rigs.len() - shown(rigs.len());
    let weeks = i64::from(since.until(today).map_or(0, |span| span.get_days()) / 7);
    let floor = whole_percent(words, limits.due);
    fleet_list::pages(&Fleet {
        headline: finding,
        subline,
        since,
        today,
        more: words.say("picture-more", [("count", count(more).into())]),
        others: words.plain("picture-others"),
        legend: words.say("picture-legend", [("weeks", weeks.into()), ("floor", (&floor).into())]),
        rigs: rigs.iter().map(|rig| row(words, rig, (limits, today))).collect(),
    })
}

/// A deed in two or three words.
fn deed(words: Words, deed: &Deed, (state, today): (Option<Condition>, Date)) -> String {
    let job = match deed {
        Deed::ChangeResin { .. } => "change",
        Deed::ResinSoon { change_by, .. } if *change_by <= today => "change",
        Deed::ResinSoon { .. } => "buy",
        Deed::NewMembrane { due, .. } => match due {
            Due::Now if state != Some(Condition::Spent) => "order",
            Due::Now | Due::LineCrossed { spent: true, .. } | Due::GlassDecides { spent: true } => "renew",
            Due::About { .. } | Due::LineCrossed { .. } => "plan",
            Due::GlassDecides { .. } => "look",
        },
        other => other.kind().code(),
    };
    words.say("picture-job", [("job", job.into())])
}

fn is_of_resin(deed: Deed) -> bool {
    matches!(deed.kind(), Kind::ChangeResin | Kind::RepackResin | Kind::ResinSoon)
}

fn row(words: Words, rig: &Rig, (limits, today): (Limits, Date)) -> Row {
    let shows_resin = rig.condition.is_none() || rig.deed.is_some_and(is_of_resin);
    let kind = rig.deed.map(|deed| deed.kind());
    let urgent = matches!(kind, Some(Kind::ChangeResin | Kind::RepackResin));
    let bed = Mark::Bed {
        left: rig.bed_left.unwrap_or(if urgent { 0.0 } else { 1.0 }),
        urgent,
    };
    let mark = match (kind, rig.condition) {
        (Some(Kind::Prefilters), _) => Mark::Prefilter,
        (_, Some(state)) if !shows_resin => Mark::Membrane(state),
        _ => bed,
    };
    let state_word = rig.condition.map(|at| state(words, at)).unwrap_or_default();
    let words_of = match &rig.deed {
        Some(first) => deed(words, first, (rig.condition, today)),
        None if rig.condition.is_some() => state_word.clone(),
        None => words.plain("picture-resin-left"),
    };
    let (value, noun) = if shows_resin {
        resin(words, rig)
    } else {
        level(words, rig, state_word)
    };
    Row {
        name: rig.name.clone(),
        mark,
        // A figure says nothing twice.
        noun: if noun == words_of { String::new() } else { noun },
        words: words_of,
        value,
        is_job: rig.deed.is_some(),
        line: if shows_resin {
            rig.beds.clone()
        } else {
            let height = |&(day, level): &(Date, f64)| (day, (level - limits.due) / (NEW - limits.due).max(0.01));
            rig.trend
                .iter()
                .map(|stretch| stretch.iter().map(height).collect())
                .collect()
        },
    }
}

/// The figure of a rig whose membrane decides, and what it is.
fn level(words: Words, rig: &Rig, state: String) -> (String, String) {
    let Some(level) = rig.level else {
        return (String::new(), state);
    };
    let noun = match rig.before_leak {
        Some(before) => words.say("picture-was", [("percent", (&whole_percent(words, before)).into())]),
        // The state is a deed itself, and another is asked for.
        None if rig.deed.is_some() && rig.condition == Some(Condition::Due) => words.plain("picture-axis"),
        None => state,
    };
    (whole_percent(words, level), noun)
}

/// The figure of a rig whose resin decides: what the glass shows, else what is left.
fn resin(words: Words, rig: &Rig) -> (String, String) {
    let by_glass = rig
        .product_ppm
        .filter(|_| matches!(rig.resin, Left::Nothing | Left::Loose));
    let days = |days: i64| words.say("picture-days", [("days", days.into())]);
    match (by_glass, rig.resin) {
        (Some(ppm), _) => (
            words.say("picture-ppm", [("ppm", (&figures::ppm(words, ppm)).into())]),
            words.plain("picture-glass"),
        ),
        (None, Left::Nothing) => (days(0), words.plain("picture-resin-left")),
        (None, Left::Days([_, likely, _])) => (days(figures::whole(likely)), words.plain("picture-resin-left")),
        (None, Left::Unknown | Left::Loose) => (String::new(), String::new()),
    }
}
