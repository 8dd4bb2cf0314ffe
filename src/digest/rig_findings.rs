//! What one rig asks for this week, each with the fact behind it.

use jiff::civil::Date;

use crate::water::assess::{Assessment, Question};
use crate::water::condition::Condition;
use crate::water::prefilter;
use crate::water::renewal_verdict::Verdict;
use crate::water::resin::{BedState, SPOTS_FROM_PPM};

use super::action::{Finding, Window};
use super::dates::{days_between, local_date};
use super::week::{RigWeek, Week};

/// Resin is asked for when it is likely empty before the digest after this one.
const RESIN_AHEAD_DAYS: i64 = 7;
/// A new membrane is asked for this long before its cheapest date, to order it.
const MEMBRANE_AHEAD_DAYS: i64 = 45;
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
        membrane(&rig.assessment, rig.has_bed, week.today, week.utc_offset_seconds),
        prefilters(&rig.assessment, week.today, week.utc_offset_seconds),
        flush(rig),
        unlogged(&rig.assessment, week.utc_offset_seconds),
        silence(rig, week.today),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The resin: spots now, slips, or runs out before the next digest.
fn resin(rig: &RigWeek, week: &Week) -> Option<Finding> {
    let bed = rig.assessment.resin?;
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
    // A rig that was not read may have stood: then its load is no fact.
    if rig.readings == 0 {
        return None;
    }
    let (empty, working_days) = (bed.empty?, bed.working_days?);
    let local = |at: i64| local_date(at, week.utc_offset_seconds).max(week.today);
    let change_by = local(empty.likely);
    (days_between(week.today, change_by) < RESIN_AHEAD_DAYS).then(|| Finding::ResinSoon {
        at_hand_by: local(empty.early),
        change_by,
        working_days,
    })
}

fn leak(rig: &RigWeek, week: &Week) -> Option<Finding> {
    let fault = rig.assessment.fault.as_ref()?;
    let jump = rig.jump.filter(|jump| jump.closed_on.is_none());
    // The bills of the healthy membrane grow by what the leak adds to its salt passage.
    let costs_per_month = rig
        .assessment
        .renewal
        .map(|renewal| renewal.running_cost_per_year * (fault.passage_ratio - 1.0).max(0.0) / 12.0);
    Some(Finding::FindLeak {
        since: local_date(fault.since, week.utc_offset_seconds),
        permeate_ppm: jump.and_then(|jump| jump.before_ppm.zip(jump.after_ppm)),
        cause: fault.causes.first().copied(),
        next_test: fault.next_test,
        costs_per_month,
    })
}

/// A new membrane, where the money asks for it; where no price is told, the
/// line. While a jump stands nothing is bought: the leak comes first.
pub(super) fn membrane(
    assessment: &Assessment,
    has_bed: bool,
    today: Date,
    utc_offset_seconds: i64,
) -> Option<Finding> {
    if assessment.fault.is_some() || assessment.question.is_some() {
        return None;
    }
    let rejection = assessment.rejection?.mid;
    let crossed = matches!(assessment.condition?, Condition::Due | Condition::Spent);
    let verdict = assessment.renewal.map(|renewal| renewal.verdict);
    let window = match verdict {
        Some(Verdict::Now) => Window::Now,
        Some(Verdict::Later(range)) => {
            let local = |at: i64| local_date(at, utc_offset_seconds).max(today);
            let likely = local(range.likely);
            if days_between(today, likely) > MEMBRANE_AHEAD_DAYS {
                return None;
            }
            Window::Between {
                early: local(range.early),
                likely,
                late: range.late.map(local),
            }
        }
        Some(Verdict::NotInSight) => return None,
        _ if crossed && !has_bed => Window::GlassDecides,
        Some(Verdict::NotYetKnown) | None if crossed => Window::LineCrossed {
            priced: verdict.is_some(),
        },
        Some(Verdict::NotYetKnown) | None => return None,
    };
    let positive = |amount: f64| (amount.is_finite() && amount > 0.0).then_some(amount);
    let money = (assessment.renewal).filter(|_| !matches!(window, Window::LineCrossed { .. } | Window::GlassDecides));
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
/// laid up is left in peace.
fn silence(rig: &RigWeek, today: Date) -> Option<Finding> {
    if rig.readings > 0 {
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
