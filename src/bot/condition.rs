//! The state of a membrane to tell beside one reading.

use crate::digest::action::Finding;
use crate::history::Followed;
use crate::history::rig_state::PastReading;
use crate::replies::digest::actions::deed as deed_words;
use crate::replies::reading::{Deed, Told};
use crate::schedule::offset;
use crate::water::condition::Condition;
use crate::water::quantity::Ppm;
use crate::water::rejection::rejection;
use crate::water::settings::Limits;
use crate::water::verdict;

use super::request::Request;

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
    match followed.verdict.state.unwrap_or(Condition::Unproven) {
        Condition::Unproven if raw < limits.due => Told::LowUnproven,
        state => Told::State(state),
    }
}

/// What is to be done first on a rig, and why.
pub(super) fn deed_of(on: &Request<'_>, followed: &Followed<'_>) -> Option<Deed> {
    let deed = followed.verdict.deed()?;
    let last = followed.state.readings.back();
    // What reads as mended sends nobody to look for the leak again.
    let is_mended = || last.is_some_and(|last| raw_rejection(last).is_some_and(|raw| is_back(followed, last, raw)));
    if matches!(deed, verdict::Deed::FindLeak { .. }) && is_mended() {
        return None;
    }
    let finding = Finding::of(deed, on.today(), offset(&on.zone, on.now));
    let name = &followed.rig.name;
    let told = deed_words(on.words, name, &finding, on.today(), on.rules.currency());
    let (what, why) = told.split_once('\n').unwrap_or((&told, ""));
    Some(Deed {
        what: what.to_owned(),
        why: why.trim().to_owned(),
    })
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
