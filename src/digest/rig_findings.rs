//! What one rig asks for this week, each with the fact behind it.

use jiff::civil::Date;

use crate::water::assess::{Assessment, Question};
use crate::water::prefilter;
use crate::water::resin::{BedState, SPOTS_FROM_PPM};

use super::action::{Finding, Window};
use super::dates::{days_between, local_date};
use super::membrane_need::{self, Behind};
use super::week::{RigWeek, Week};

/// Resin is asked for when it is likely empty before the digest after this one.
const RESIN_AHEAD_DAYS: i64 = 7;
/// Silent longer than this, a rig is taken to stand.
pub const STANDS_FROM_DAYS: i64 = 14;
/// A membrane that stands longer than this wants preserving (common practice,
/// no source).
pub const PRESERVE_FROM_DAYS: i64 = 30;
/// Longer than this it is laid up, and its owner knows.
pub const LAID_UP_FROM_DAYS: i64 = 60;
/// One missed flush happens; from two on it is a habit.
const FLUSHES_MISSED: u32 = 2;

/// What a rig asks for, in no particular order.
#[must_use]
pub fn of(rig: &RigWeek, week: &Week) -> Vec<Finding> {
    [
        resin(rig, week),
        leak(rig, week),
        membrane(&rig.assessment, rig.behind, week.today, week.utc_offset_seconds)
            .filter(|_| rig.membrane_put_off_until.is_none()),
        prefilters(&rig.assessment, week.today, week.utc_offset_seconds),
        flush(rig),
        unlogged(&rig.assessment, week.utc_offset_seconds),
        silence(rig, week.today),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Whether nobody has read it for so long that it stands, and its owner knows.
pub(super) fn is_laid_up(rig: &RigWeek, today: Date) -> bool {
    let silent = rig.last_reading_on.map(|last| days_between(last, today));
    rig.readings == 0 && silent.is_some_and(|days| days >= LAID_UP_FROM_DAYS)
}

/// The resin, unless the rig is laid up. Whatever else was not read goes on by the
/// count: a bed that is used up by it stays so until somebody changes it.
fn resin(rig: &RigWeek, week: &Week) -> Option<Finding> {
    let spots = matches!(
        rig.assessment.bed_state(),
        Some(BedState::EarlyBreakthrough | BedState::Exhausted)
    );
    let counts = spots || !is_laid_up(rig, week.today);
    resin_of(&rig.assessment, week.today, week.utc_offset_seconds).filter(|_| counts)
}

/// The resin: spots now, slips, or runs out before the next digest.
pub(super) fn resin_of(assessment: &Assessment, today: Date, utc_offset_seconds: i64) -> Option<Finding> {
    let bed = assessment.resin?;
    let product_ppm = bed.product_ppm.unwrap_or(0.0);
    match bed.state {
        BedState::EarlyBreakthrough => {
            return Some(Finding::RepackResin {
                product_ppm,
                will_spot: product_ppm >= SPOTS_FROM_PPM,
            });
        }
        BedState::Exhausted => return Some(Finding::ChangeResin { product_ppm }),
        BedState::Holding | BedState::GivingWay => {}
    }
    let (empty, working_days) = (bed.empty?, bed.working_days?);
    let local = |at: i64| local_date(at, utc_offset_seconds).max(today);
    let change_by = local(empty.likely);
    (days_between(today, change_by) < RESIN_AHEAD_DAYS).then(|| Finding::ResinSoon {
        at_hand_by: local(empty.early),
        change_by,
        working_days,
    })
}

fn leak(rig: &RigWeek, week: &Week) -> Option<Finding> {
    let fault = rig.assessment.fault.as_ref()?;
    let jump = rig.jump.filter(|jump| jump.closed_on.is_none())?;
    // The bills of the healthy membrane grow by what the leak adds to its salt passage.
    let costs_per_month = rig
        .assessment
        .renewal
        .map(|renewal| renewal.running_cost_per_year * (fault.passage_ratio - 1.0).max(0.0) / 12.0);
    Some(Finding::FindLeak {
        since: local_date(fault.since, week.utc_offset_seconds),
        permeate_ppm: (jump.before_ppm, jump.after_ppm),
        cause: fault.causes.first().copied(),
        next_test: fault.next_test,
        costs_per_month,
    })
}

/// A new membrane, where the money asks for it; where it cannot, the line; where no
/// resin follows, the glass.
pub(super) fn membrane(
    assessment: &Assessment,
    behind: Behind,
    today: Date,
    utc_offset_seconds: i64,
) -> Option<Finding> {
    let window = membrane_need::of(assessment, behind, today, utc_offset_seconds).window()?;
    let rejection = assessment.rejection?.mid;
    let positive = |amount: f64| (amount.is_finite() && amount > 0.0).then_some(amount);
    let money =
        (assessment.renewal).filter(|_| !matches!(window, Window::LineCrossed { .. } | Window::GlassDecides { .. }));
    Some(Finding::NewMembrane {
        window,
        rejection,
        waiting_per_month: money
            .filter(|_| window == Window::Now)
            .and_then(|money| positive(money.waiting_per_month)),
        rule_of_thumb_costs: money
            .and_then(|money| money.rule_of_thumb)
            .and_then(|rule| positive(rule.extra_cost)),
    })
}

pub(super) fn prefilters(assessment: &Assessment, today: Date, utc_offset_seconds: i64) -> Option<Finding> {
    let overdue = match assessment.prefilter.state {
        prefilter::State::Overdue => true,
        prefilter::State::DueSoon => false,
        prefilter::State::InDate | prefilter::State::NeverLogged => return None,
    };
    let due = local_date(assessment.prefilter.due_at?, utc_offset_seconds);
    Some(Finding::Prefilters {
        due: if overdue { due.min(today) } else { due },
        overdue,
    })
}

fn flush(rig: &RigWeek) -> Option<Finding> {
    let missed = rig.days_worked.saturating_sub(rig.days_flushed);
    (rig.has_membrane && rig.manual_flush && missed >= FLUSHES_MISSED).then_some(Finding::Flush {
        worked: rig.days_worked,
        flushed: rig.days_flushed,
    })
}

pub(super) fn unlogged(assessment: &Assessment, utc_offset_seconds: i64) -> Option<Finding> {
    assessment
        .question
        .map(|Question::WasMembraneChanged { since }| Finding::AskMembrane {
            since: local_date(since, utc_offset_seconds),
        })
}

/// A rig without readings this week: quiet at first, then standing; one that is
/// laid up or whose membrane lies in preservative is left in peace.
fn silence(rig: &RigWeek, today: Date) -> Option<Finding> {
    if rig.readings > 0 || rig.is_preserved {
        return None;
    }
    let last = rig.last_reading_on?;
    let days = days_between(last, today);
    if days < STANDS_FROM_DAYS {
        return (rig.readings_before > 0).then_some(Finding::QuietRig { last });
    }
    (rig.has_membrane && days < LAID_UP_FROM_DAYS).then(|| Finding::IdleRig {
        last,
        days: u32::try_from(days).unwrap_or(0),
        preserve: days >= PRESERVE_FROM_DAYS,
    })
}
