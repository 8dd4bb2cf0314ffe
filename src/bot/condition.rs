//! The state of a membrane to tell beside one reading.

use crate::history::Followed;
use crate::history::rig_state::PastReading;
use crate::replies::reading::Told;
use crate::water::condition::{Band, Condition, band};
use crate::water::quantity::Ppm;
use crate::water::rejection::rejection;
use crate::water::settings::Limits;

/// Rejection of a kept reading as it is, a fraction, on a rig with a membrane.
pub(super) fn raw_rejection(kept: &PastReading) -> Option<f64> {
    rejection(Ppm::new(kept.feed_ppm).ok()?, Ppm::new(kept.permeate_ppm?).ok()?).ok()
}

/// The word to tell beside a reading's own rejection, wherever it is told.
pub(super) fn word_for(followed: &Followed<'_>, kept: &PastReading, raw: f64, limits: &Limits) -> Told {
    let assessment = &followed.assessment;
    if is_back(followed, kept, raw) {
        return Told::Back;
    }
    let is_judged = assessment.rejection.is_some() && assessment.fault.is_none();
    if is_judged && followed.state.is_aside(kept.id) {
        return Told::Doubtful;
    }
    match assessment.condition {
        // Too few readings send nobody to buy: what is not plainly sound is not proven.
        None | Some(Condition::Unproven) => match raw_condition(raw, limits) {
            Condition::Sound => Told::State(Condition::Sound),
            Condition::Due | Condition::Spent => Told::LowUnproven,
            _ => Told::State(Condition::Unproven),
        },
        Some(condition) => Told::State(condition),
    }
}

/// The state by the raw rejection alone.
fn raw_condition(rejection: f64, limits: &Limits) -> Condition {
    match band(rejection, limits, None) {
        Band::High => Condition::Sound,
        Band::Middle => Condition::Wearing,
        Band::Low => Condition::Due,
        Band::Bottom => Condition::Spent,
    }
}

/// Whether the last reading, taken while a jump stands, is nearer to the membrane
/// alone than to what the jump left of it: mended, but not yet proven.
fn is_back(followed: &Followed<'_>, kept: &PastReading, raw: f64) -> bool {
    let assessment = &followed.assessment;
    let (Some(fault), Some(level)) = (&assessment.fault, assessment.rejection) else {
        return false;
    };
    let log_passage = |rejection: f64| (1.0 - rejection).max(1e-6).ln();
    let halfway = f64::midpoint(log_passage(level.mid), log_passage(fault.seen_rejection));
    let is_last = followed.state.readings.back().is_some_and(|last| last.id == kept.id);
    is_last && kept.taken_at > fault.since && log_passage(raw) < halfway
}
