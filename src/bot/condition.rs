//! The state of a membrane to tell beside one reading.

use crate::history::Followed;
use crate::history::rig_state::PastReading;
use crate::replies::digest::actions;
use crate::replies::reading::Deed;
use crate::water::condition::Condition;
use crate::water::quantity::Ppm;
use crate::water::rejection::rejection;
use crate::water::verdict::{self, Told};

use super::request::Request;

/// Rejection of a kept reading as it is, a fraction, on a rig with a membrane.
pub(super) fn raw_rejection(kept: &PastReading) -> Option<f64> {
    rejection(Ppm::new(kept.feed_ppm).ok()?, Ppm::new(kept.permeate_ppm?).ok()?).ok()
}

/// The word to tell beside a reading's own rejection, wherever it is told.
pub(super) fn word_for(followed: &Followed<'_>, kept: &PastReading) -> Told {
    let assessment = &followed.assessment;
    let is_last = followed.state.readings.back().is_some_and(|last| last.id == kept.id);
    let is_judged = assessment.rejection.is_some() && assessment.fault.is_none();
    let state = Told::State(followed.verdict.state.unwrap_or(Condition::Unproven));
    match followed.verdict.told().filter(|_| is_last).unwrap_or(state) {
        Told::State(_) if is_judged && followed.state.is_aside(kept.id) => Told::Doubtful,
        told => told,
    }
}

/// What is to be done first on a rig, and why.
pub(super) fn deed_of(on: &Request<'_>, followed: &Followed<'_>) -> Option<Deed> {
    Some(deed_words(on, followed, followed.verdict.deed()?))
}

/// What is to be done first on a rig, and what its membrane wants beside that, a sentence each.
pub(super) fn membrane_deeds(on: &Request<'_>, followed: &Followed<'_>) -> Vec<String> {
    let is_of_membrane = |deed: &&verdict::Deed| matches!(deed, verdict::Deed::NewMembrane { .. });
    let deeds = &followed.verdict.deeds;
    let wanted = deeds.iter().take(1).chain(deeds.iter().skip(1).filter(is_of_membrane));
    wanted
        .map(|deed| deed_words(on, followed, deed).sentence(on.words))
        .collect()
}

/// A deed on a rig in words.
pub(super) fn deed_words(on: &Request<'_>, followed: &Followed<'_>, deed: &verdict::Deed) -> Deed {
    let told = actions::deed(on.words, &followed.rig.name, deed, on.today(), on.rules.currency());
    let (what, why) = told.split_once('\n').unwrap_or((&told, ""));
    Deed {
        what: what.to_owned(),
        why: why.trim().to_owned(),
    }
}
