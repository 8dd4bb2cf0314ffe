//! The glass of a rig without resin: its RO water goes there as it is, so the glass
//! and not the money decides about the membrane.

use super::assess::Assessment;
use super::forecast::{Crossing, crossing};
use super::jump::Suspicion;
use super::observation::year_angle;
use super::prior::Lessons;
use super::rig::History;
use super::settings::Settings;
use super::trend::WARMTH;

/// What the RO water of a rig brings to the glass, at its usual tap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glass {
    /// Dissolved solids now, ppm; while a fault stands, with it.
    pub ppm: f64,
    /// The same behind a new membrane, ppm.
    pub new_ppm: f64,
    /// From which dissolved solids on it spots, ppm.
    pub spots_ppm: f64,
    /// When it begins to spot.
    pub spots: Crossing,
}

impl Glass {
    /// Whether a new membrane would keep it from spotting.
    #[must_use]
    pub fn new_helps(&self) -> bool {
        self.new_ppm < self.spots_ppm
    }

    /// Whether a new membrane is what keeps it from spots.
    #[must_use]
    pub fn wants_new_membrane(&self) -> bool {
        self.ppm >= self.spots_ppm && self.new_helps()
    }
}

/// What reaches the glass; `None` without a level or a usual tap.
///
/// The water is the rig's own, at its season: the level alone is stated at the reference. It
/// spots from the line rejection = 1 - spots/feed on, so its date is that line's crossing, on
/// the mean of the year. While a fault stands nothing is forecast: it is mended first.
///
/// # Units
/// ppm, as the meter shows them.
///
/// # Examples
/// Where it spots from 10 ppm on: a tap of 200 ppm and 94 %: 12 ppm, which spot. A tap of 120 ppm: 7.2 ppm, until the
/// rejection is below 1 - 10/120 = 91.7 %.
#[must_use]
pub fn glass(history: &History, settings: &Settings, outfit: &Lessons, assessment: &Assessment) -> Option<Glass> {
    let feed = history.feeds.median()?;
    let belief = history.life.belief_at(assessment.now)?;
    let leak = history.life.fault_at(assessment.now).map_or(1.0, Suspicion::ratio);
    let level = 1.0 - assessment.rejection?.mid;
    let ppm = feed * (level * leak * belief.water_at(year_angle(assessment.now)).exp()).min(1.0);
    let warmth = belief.mean[WARMTH];
    let new_ppm = feed * (history.expected(settings, outfit).start.mean + warmth).exp();
    let spots_ppm = settings.limits.spots_ppm;
    let is_forecast = assessment.points_per_year.is_some() && assessment.fault.is_none();
    let spots = match is_forecast {
        _ if ppm >= spots_ppm => Crossing::Already,
        true => crossing(&belief, 1.0 - spots_ppm / feed * (-warmth).exp(), assessment.now),
        false => Crossing::NotYetKnown,
    };
    Some(Glass {
        ppm,
        new_ppm,
        spots_ppm,
        spots,
    })
}
