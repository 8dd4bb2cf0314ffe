//! Whether a rig wants something done or bought this week: what a picture of the
//! fleet counts, by the decisions of the digest.

use jiff::civil::Date;

use crate::water::assess::Assessment;

use super::membrane_need::{self, Behind, MembraneNeed};
use super::rig_findings;

/// Whether resin, a leak, a membrane, prefilters or a question ask for a hand, as of
/// `today`, at an offset from UTC in seconds.
#[must_use]
pub fn something(assessment: &Assessment, behind: Behind, today: Date, utc_offset_seconds: i64) -> bool {
    let need = membrane_need::of(assessment, behind, today, utc_offset_seconds);
    matches!(
        need,
        MembraneNeed::Buy | MembraneNeed::Weigh { .. } | MembraneNeed::GlassDecides { .. } | MembraneNeed::FaultFirst
    ) || rig_findings::resin_of(assessment, today, utc_offset_seconds).is_some()
        || rig_findings::prefilters(assessment, today, utc_offset_seconds).is_some()
        || rig_findings::unlogged(assessment, utc_offset_seconds).is_some()
}
