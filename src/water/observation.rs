//! From a reading to what the filter sees: the log of the salt passage at the
//! reference (12 C, the rig's usual pressure), with the noise it carries.

use std::f64::consts::TAU;

use serde::{Deserialize, Serialize};

use super::history::Reading;
use super::trend::{Observation, WARMTH};

/// Usual scatter from site to site, a standard deviation of ln.
pub const USUAL_SPREAD: f64 = 0.10;

/// Temperature at which levels are stated, C.
pub const REFERENCE_C: f64 = 12.0;
/// Growth of ln(salt passage) per C at constant pressure. Between the 2.9 %/C
/// of the two rules of thumb (salt flux 6 %/C, water flux 3 %/C: WQA Education
/// Kit, vol. X art. 4) and the 2.3 %/C found with sites and seasons simulated.
pub const LOG_PASSAGE_PER_C: f64 = 0.022;
/// How ln(salt passage) falls with ln(pressure). Solution-diffusion without
/// osmosis says 1; back pressure and polarisation make it a little less.
pub const LOG_PASSAGE_PER_LOG_PRESSURE: f64 = 0.85;
/// Seconds in a mean year.
pub const SECONDS_PER_YEAR: f64 = 365.25 * 86_400.0;

/// How far the water of one day lies from the rig's yearly wave, as ln(salt passage):
/// some 2.5 C, from site to site and day to day (a judgement, no source).
const WATER_SPREAD: f64 = 0.055;

/// One handheld meter's own noise, relative (common practice, no source).
const METER_NOISE: f64 = 0.013;
/// Variance of rounding to whole ppm, ppm2.
const ROUNDING: f64 = 1.0 / 12.0;
const FEEDS_KEPT: usize = 25;
const FEEDS_NEEDED: usize = 5;

/// Why a reading is set aside and asked about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Doubt {
    /// The permeate is at, near or above the feed: swapped, or taken at the tap.
    PermeateNearFeed,
    /// A feed under 15 ppm is no tap.
    FeedTooLow,
    /// The feed is far outside what this rig's taps have shown.
    FeedUnlikeOwn,
    /// The salt passage is far from what this membrane has shown.
    UnlikeTrend,
}

/// The last few values of something, with their median.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Recent {
    values: Vec<f32>,
    next: usize,
    median: Option<f32>,
}

impl Recent {
    /// Adds a value, forgetting the oldest once full.
    pub fn push(&mut self, value: f64) {
        #[allow(clippy::cast_possible_truncation)]
        let value = value as f32;
        if self.values.len() < FEEDS_KEPT {
            self.values.push(value);
        } else {
            self.values[self.next % FEEDS_KEPT] = value;
            self.next = (self.next + 1) % FEEDS_KEPT;
        }
        let mut sorted = [0.0_f32; FEEDS_KEPT];
        let n = self.values.len().min(FEEDS_KEPT);
        sorted[..n].copy_from_slice(&self.values[..n]);
        let (_, middle, _) = sorted[..n].select_nth_unstable_by(n / 2, f32::total_cmp);
        self.median = Some(*middle);
    }

    /// The median, when there is any value.
    #[must_use]
    pub fn median(&self) -> Option<f64> {
        self.median.map(f64::from)
    }

    /// How many values are kept.
    #[must_use]
    pub fn len(&self) -> usize {
        self.values.len()
    }

    /// Whether nothing was kept yet.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.values.is_empty()
    }
}

/// Whether a reading can be what it says, before the membrane's own trend is asked.
///
/// # Errors
/// The [`Doubt`] to ask the crew about.
pub fn gate(reading: &Reading, feeds: &Recent) -> Result<(), Doubt> {
    let feed = reading.feed.ppm();
    if let Some(permeate) = reading.permeate
        && permeate.ppm() >= 0.9 * feed
    {
        return Err(Doubt::PermeateNearFeed);
    }
    if feed < 15.0 {
        return Err(Doubt::FeedTooLow);
    }
    if feeds.len() >= FEEDS_NEEDED
        && let Some(median) = feeds.median()
        && !(0.2 * median..=4.0 * median).contains(&feed)
    {
        return Err(Doubt::FeedUnlikeOwn);
    }
    Ok(())
}

/// What the filter sees of a reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// ln(salt passage) with the variance of meter and rounding; the rig's own
    /// scatter from site to site is the life's to add.
    pub passage: Observation,
    /// What a told temperature says of the rig's water, apart from the membrane.
    pub water: Option<Observation>,
}

/// What the filter sees of a reading. With no temperature given, the yearly wave
/// and the warmth of the state stand for it.
#[must_use]
pub fn observe(reading: &Reading, permeate_ppm: f64, usual_kpa: Option<f64>) -> Seen {
    let feed = reading.feed.ppm().max(1.0);
    let mut value = (permeate_ppm.max(0.3) / feed).ln();
    let (cos, sin) = year_angle(reading.at);
    let mut weights = [1.0, 0.0, 0.0, 0.0, 0.0];
    let warmer = reading.temperature.map(|t| log_passage_warmer(t.celsius()));
    match warmer {
        Some(warmer) => value -= warmer,
        None => (weights[2], weights[3], weights[WARMTH]) = (cos, sin, 1.0),
    }
    if let (Some(p), Some(usual)) = (reading.pressure, usual_kpa)
        && p.kpa() > 0.0
        && usual > 0.0
    {
        value += LOG_PASSAGE_PER_LOG_PRESSURE * (p.kpa() / usual).clamp(0.25, 4.0).ln();
    }
    let variance =
        2.0 * METER_NOISE * METER_NOISE + ROUNDING / permeate_ppm.max(0.7).powi(2) + ROUNDING / feed.max(5.0).powi(2);
    Seen {
        passage: Observation {
            value,
            weights,
            variance,
        },
        water: warmer.map(|value| Observation {
            value,
            weights: [0.0, 0.0, cos, sin, 1.0],
            variance: WATER_SPREAD * WATER_SPREAD,
        }),
    }
}

/// How much ln(salt passage) is higher at a temperature, C, than at the reference.
#[must_use]
pub fn log_passage_warmer(celsius: f64) -> f64 {
    LOG_PASSAGE_PER_C * (celsius - REFERENCE_C)
}

/// Exponentially weighted moving average: `weight` of the new value.
///
/// # References
/// Montgomery, Statistical Quality Control, 8th ed., eq. 9.22: z = lambda x + (1 - lambda) z.
#[must_use]
pub fn ewma(previous: f64, value: f64, weight: f64) -> f64 {
    weight * value + (1.0 - weight) * previous
}

/// Cosine and sine of the time of year.
#[must_use]
pub fn year_angle(at: i64) -> (f64, f64) {
    #[allow(clippy::cast_precision_loss)]
    let turns = (at as f64 / SECONDS_PER_YEAR).fract();
    let (sin, cos) = (TAU * turns).sin_cos();
    (cos, sin)
}

/// An instant some years after another.
#[must_use]
pub fn after_years(now: i64, years: f64) -> i64 {
    #[allow(clippy::cast_possible_truncation)]
    let seconds = (years.clamp(-200.0, 200.0) * SECONDS_PER_YEAR).round() as i64;
    now.saturating_add(seconds)
}

/// Years from one instant to a later one; 0 when it is not later.
#[must_use]
pub fn years_between(from: i64, to: i64) -> f64 {
    #[allow(clippy::cast_precision_loss)]
    let seconds = to.saturating_sub(from) as f64;
    (seconds / SECONDS_PER_YEAR).max(0.0)
}
