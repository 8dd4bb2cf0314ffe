//! How much water a rig makes, against what was told: learned from its spent beds.
//!
//! The state is ln(litres made over litres told), a level and a yearly wave, by the
//! same filter as the wear. A bed that was spent says what its load came to: the
//! capacity of the resin over the load counted by the litres told. What the resin
//! holds and what the rig makes are never told apart, and need not be: days and
//! money depend on their ratio alone.

use serde::{Deserialize, Serialize};

use super::observation::{year_angle, years_between};
use super::settings::Settings;
use super::trend::{Observation, STATES, Trend, Wander};

/// ln(use over told) to begin with, and its spread: a full day is told, and weeks of
/// holiday, illness and rain are not, some eight of 52; capacities differ, too (common
/// practice, no source).
const LEVEL: (f64, f64) = (-0.20, 0.30);
/// The yearly wave of use where no busy months were told: least in late January north
/// of the equator, by 15 %, give or take as much (a judgement, no source).
const WAVE: (f64, f64) = (0.15, 0.15);
const LEAST_ON_DAY: f64 = 25.0;
/// Spread of what one bed says, of ln.
const BED_SPREAD: f64 = 0.25;
/// What stays open of one bed however many were spent, of ln.
const ONE_BED_SPREAD: f64 = 0.30;
/// How fast use changes, variances a year.
const WANDER: Wander = Wander {
    level: 0.08 * 0.08,
    growth: 0.0,
    wave: 0.03 * 0.03,
};
/// Tails of what a bed says: one that was changed early or late weighs less.
const NU: f64 = 4.0;

/// The load of a bed by the litres told, grams: in all, and times cosine and sine of
/// the year, which say in which season it came.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ToldLoad {
    /// In all.
    pub grams: f64,
    cos: f64,
    sin: f64,
}

impl ToldLoad {
    /// Adds a load that came at an instant.
    pub fn add(&mut self, grams: f64, at: i64) {
        let (cos, sin) = year_angle(at);
        self.grams += grams;
        self.cos += grams * cos;
        self.sin += grams * sin;
    }
}

/// What is known of a rig's use.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Usage {
    belief: Trend,
    /// Beds that taught it.
    pub beds: u32,
}

impl Usage {
    /// Before any bed was spent.
    #[must_use]
    pub fn first(settings: &Settings) -> Self {
        let side = if settings.southern { 1.0 } else { -1.0 };
        // Told months already hold the wave.
        let dip = if settings.tells_months() { 0.0 } else { side * WAVE.0 };
        let (sin, cos) = (std::f64::consts::TAU * LEAST_ON_DAY / 365.25).sin_cos();
        let mut belief = Trend {
            mean: [LEVEL.0, 0.0, dip * cos, dip * sin, 0.0],
            covariance: [[0.0; STATES]; STATES],
        };
        belief.covariance[0][0] = LEVEL.1 * LEVEL.1;
        belief.covariance[2][2] = WAVE.1 * WAVE.1;
        belief.covariance[3][3] = WAVE.1 * WAVE.1;
        Self { belief, beds: 0 }
    }

    /// Litres made over litres told, on the mean of the year.
    #[must_use]
    pub fn level(&self) -> f64 {
        self.belief.mean[0].exp()
    }

    /// The same at an instant.
    #[must_use]
    pub fn at(&self, at: i64) -> f64 {
        (self.belief.mean[0] + self.belief.wave_at(year_angle(at))).exp()
    }

    /// Standard deviation of ln(use) for one bed ahead.
    #[must_use]
    pub fn spread(&self) -> f64 {
        self.belief.covariance[0][0].max(0.0).sqrt().hypot(ONE_BED_SPREAD)
    }

    /// Standard deviations of ln(use) over a year of many beds: of its level, and of the
    /// cosine and the sine of its wave.
    #[must_use]
    pub fn spreads(&self) -> [f64; 3] {
        [0, 2, 3].map(|nth| self.belief.covariance[nth][nth].max(0.0).sqrt())
    }

    /// Learns from a bed of `capacity_g` that was in use from one instant to another
    /// and took up `told` by the litres told.
    pub fn learn(&mut self, from: i64, to: i64, capacity_g: f64, told: &ToldLoad) {
        if told.grams <= 0.0 || capacity_g <= 0.0 {
            return;
        }
        self.belief.predict(years_between(from, to), &WANDER);
        let mut seen = Observation {
            value: (capacity_g / told.grams).ln(),
            weights: [1.0, 0.0, told.cos / told.grams, told.sin / told.grams, 0.0],
            variance: BED_SPREAD * BED_SPREAD,
        };
        let z = self.belief.surprise(&seen).z();
        seen.variance /= ((NU + 1.0) / (NU + z * z)).min(1.0);
        self.belief.update(&seen);
        self.beds += 1;
    }
}
