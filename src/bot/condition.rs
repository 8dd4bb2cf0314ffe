//! The state of a membrane to tell beside one reading.

use crate::store::readings::Reading;
use crate::water::assess::Assessment;
use crate::water::condition::{Band, Condition, band};
use crate::water::quantity::Ppm;
use crate::water::rejection::rejection;
use crate::water::settings::Limits;

/// Rejection of a kept reading as it is, a fraction, on a rig with a membrane.
pub(super) fn raw_rejection(kept: &Reading) -> Option<f64> {
    rejection(Ppm::new(kept.feed_ppm).ok()?, Ppm::new(kept.permeate_ppm?).ok()?).ok()
}

/// The state by the raw rejection alone.
pub(super) fn raw_condition(rejection: f64, limits: &Limits) -> Condition {
    match band(rejection, limits, None) {
        Band::High => Condition::Sound,
        Band::Middle => Condition::Wearing,
        Band::Low => Condition::Due,
        Band::Bottom => Condition::Spent,
    }
}

/// The state to tell: the assessed one; while nothing is proven, the raw one.
pub(super) fn condition_to_tell(assessment: &Assessment, raw: f64, limits: &Limits) -> Condition {
    match assessment.condition {
        None | Some(Condition::Unproven) => raw_condition(raw, limits),
        Some(condition) => condition,
    }
}
