//! The fleet's due dates, for a calendar: of every rig, pressing or not.

use jiff::civil::Date;

use crate::water::forecast::Range;
use crate::water::renewal_verdict::Verdict;
use crate::water::resin::BedState;

use super::week::{RigWeek, Week};
use crate::water::dates::{days_between, local_date};

/// What is further away than this is no date yet.
const AHEAD_DAYS: i64 = 366;

/// A due date of a rig.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DueDate {
    /// The rig's number in the store.
    pub rig: i64,
    /// Its name.
    pub name: String,
    /// What is due.
    pub what: Due,
    /// The day; never before the day of the digest.
    pub on: Date,
    /// The range that it lies in, where it is an estimate of more than one day: not
    /// before, hardly after.
    pub range: Option<(Date, Date)>,
}

/// What can be due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Due {
    /// The bed is likely empty.
    Resin,
    /// Prefilters.
    Prefilters,
    /// A new membrane is cheapest.
    Membrane,
}

impl Due {
    /// A short fixed name, for a calendar's keys.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::Resin => "resin",
            Self::Prefilters => "prefilters",
            Self::Membrane => "membrane",
        }
    }
}

/// The due dates within a year, by day, then by rig; of a rig that is away none is known.
#[must_use]
pub fn of(week: &Week) -> Vec<DueDate> {
    let mut dates: Vec<DueDate> = (week.rigs.iter().filter(|rig| rig.off.away.is_none()))
        .flat_map(|rig| [resin(rig, week), prefilters(rig, week), membrane(rig, week)])
        .flatten()
        .filter(|due| days_between(week.today, due.on) <= AHEAD_DAYS)
        .collect();
    dates.sort_by(|a, b| (a.on, a.what, &a.name, a.rig).cmp(&(b.on, b.what, &b.name, b.rig)));
    dates
}

fn due(rig: &RigWeek, what: Due, on: Date, range: Option<(Date, Date)>) -> DueDate {
    DueDate {
        rig: rig.id,
        name: rig.name.clone(),
        what,
        on,
        range: range.filter(|(early, late)| early < late),
    }
}

fn day(at: i64, week: &Week) -> Date {
    local_date(at, week.utc_offset_seconds).max(week.today)
}

/// A range that begins within a year ends within what is looked at.
fn span(range: &Range, week: &Week) -> (Date, Date) {
    (day(range.early, week), day(range.late.unwrap_or(range.likely), week))
}

fn resin(rig: &RigWeek, week: &Week) -> Option<DueDate> {
    // A rig that was not read may have stood: then its load is no fact. A bed that
    // water slips past is repacked, and its end is not known.
    let bed = rig.assessment.resin.filter(|_| rig.readings > 0)?;
    let empty = bed.empty.filter(|_| bed.state != BedState::EarlyBreakthrough)?;
    Some(due(rig, Due::Resin, day(empty.likely, week), Some(span(&empty, week))))
}

fn prefilters(rig: &RigWeek, week: &Week) -> Option<DueDate> {
    let at = rig.assessment.prefilter.due_at?;
    Some(due(rig, Due::Prefilters, day(at, week), None))
}

fn membrane(rig: &RigWeek, week: &Week) -> Option<DueDate> {
    if rig.assessment.fault.is_some() {
        return None;
    }
    match rig.assessment.renewal?.verdict {
        Verdict::Now => Some(due(rig, Due::Membrane, week.today, None)),
        Verdict::Later(range) => Some(due(
            rig,
            Due::Membrane,
            day(range.likely, week),
            Some(span(&range, week)),
        )),
        Verdict::NotInSight | Verdict::NotYetKnown => None,
    }
}
