//! What may be expected of a membrane before it has shown anything: from common
//! practice, then from the rig's earlier lives and the outfit's other rigs.
//!
//! Normal beliefs throughout, combined by precision. The population values are
//! common practice, no source: about 95 % on tap water when new; two years and
//! more at about 150 ppm of feed, about one year at 400 to 600 ppm.

use serde::{Deserialize, Serialize};

use super::trend::{STATES, Trend};

/// A normal belief.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Belief {
    /// Its mean.
    pub mean: f64,
    /// Its variance.
    pub variance: f64,
}

/// ln(salt passage) of a new membrane: a rejection of 95.8 %.
pub const NEW_LOG_PASSAGE: f64 = -3.170;
/// Spread of the start between rigs, and between the lives of one rig.
const START_BETWEEN: f64 = 0.24;
const START_WITHIN: f64 = 0.18;
/// Spread of the growth between rigs, as a share of what the feed suggests, and
/// between the lives of one rig.
const GROWTH_BETWEEN: f64 = 0.60;
const GROWTH_WITHIN: f64 = 0.35;
/// How sure the population values themselves are.
const START_HYPER: f64 = 0.20;
const GROWTH_HYPER: f64 = 0.45;
/// A membrane of unknown age: a rejection of 92.5 %, within a wide margin.
const UNKNOWN_AGE: Belief = Belief {
    mean: -2.590,
    variance: 0.55 * 0.55,
};
/// How far an age that was told in whole years may be off, as a share of it.
const TOLD_AGE_SPREAD: f64 = 0.35;
/// How far the level of an aged membrane wanders from its growth in a year.
const AGED_SPREAD: f64 = 0.18;
/// The yearly wave of ln(salt passage) before anything is known, north of the
/// equator: water some 4 C warmer in August than on average, at 2.2 %/C.
const NORTHERN_WAVE: [f64; 2] = [-0.075, -0.050];
/// Spread of each of its amplitudes.
const WAVE_SPREAD: f64 = 0.08;

/// What is expected of a new membrane on one rig.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// ln(salt passage) when new.
    pub start: Belief,
    /// Growth a year.
    pub growth: Belief,
    /// The rig's usual feed, ppm.
    pub feed_ppm: f64,
    /// Age of the membrane at the rig's first reading, years, if told.
    pub age_years: Option<f64>,
    /// Whether it works south of the equator, where the year is the other way round.
    pub southern: bool,
}

/// What one life of a membrane taught.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lesson {
    /// ln(salt passage) when it was new; `None` when its beginning was not seen.
    pub start: Option<Belief>,
    /// Growth of ln(salt passage) a year over what its feed suggested.
    pub growth: Belief,
}

/// What the lives of many membranes taught: small, and the order of the lessons
/// does not matter.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lessons {
    start: Belief,
    growth: Belief,
}

impl Lessons {
    /// Common practice alone, of the population of rigs.
    #[must_use]
    pub fn none() -> Self {
        Self {
            start: Belief {
                mean: NEW_LOG_PASSAGE,
                variance: START_HYPER * START_HYPER,
            },
            growth: Belief {
                mean: 1.0,
                variance: GROWTH_HYPER * GROWTH_HYPER,
            },
        }
    }

    /// Learns from a life on another rig of the outfit.
    pub fn learn(&mut self, lesson: &Lesson) {
        let start_spread = START_BETWEEN.powi(2) + START_WITHIN.powi(2);
        let growth_spread = GROWTH_BETWEEN.powi(2) + GROWTH_WITHIN.powi(2);
        if let Some(start) = lesson.start {
            self.start = combine(self.start, widen(start, start_spread));
        }
        self.growth = combine(self.growth, widen(lesson.growth, growth_spread));
    }

    /// What to expect of a new membrane on a rig with this feed and these
    /// earlier lives: (ln salt passage when new, growth a year).
    #[must_use]
    pub fn expect(&self, feed_ppm: f64, own: &[Lesson]) -> (Belief, Belief) {
        let mut start = widen(self.start, START_BETWEEN.powi(2));
        let mut growth = widen(self.growth, GROWTH_BETWEEN.powi(2));
        for lesson in own {
            if let Some(seen) = lesson.start {
                start = combine(start, widen(seen, START_WITHIN.powi(2)));
            }
            growth = combine(growth, widen(lesson.growth, GROWTH_WITHIN.powi(2)));
        }
        let usual = usual_growth(feed_ppm);
        let growth = widen(growth, GROWTH_WITHIN.powi(2));
        (
            widen(start, START_WITHIN.powi(2)),
            Belief {
                mean: growth.mean * usual,
                variance: growth.variance * usual * usual,
            },
        )
    }
}

impl Default for Lessons {
    fn default() -> Self {
        Self::none()
    }
}

/// Growth of ln(salt passage) a year that common practice (no source) suggests
/// at a feed, ppm: from 95 % to 80 % is ln 4, which 150 ppm take some 2.8 years
/// for and 500 ppm some 1.5. Within 0.35 to 1.2.
#[must_use]
pub fn usual_growth(feed_ppm: f64) -> f64 {
    (0.50 * (feed_ppm / 150.0).max(0.0).sqrt()).clamp(0.35, 1.2)
}

/// What is known of a membrane's age on its first day here.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Age {
    /// It is new: its change was logged, or the readings say so.
    New,
    /// It was told, years.
    Told(f64),
    /// Nobody knows.
    Unknown,
}

/// The belief of a membrane's first day, by what is known of its `age`. The yearly
/// wave and the warmth are the site's, so they are carried over from the membrane before.
#[must_use]
pub fn first_belief(age: Age, expected: &Expected, before: Option<&Trend>) -> Trend {
    let growth = expected.growth;
    let start = match age {
        Age::New => expected.start,
        Age::Told(years) => {
            let worn = growth.mean * years;
            let variance = expected.start.variance
                + growth.variance * years * years
                + (TOLD_AGE_SPREAD * worn).powi(2)
                + AGED_SPREAD * AGED_SPREAD * years;
            Belief {
                mean: expected.start.mean + worn,
                variance,
            }
        }
        Age::Unknown => UNKNOWN_AGE,
    };
    let side = if expected.southern { -1.0 } else { 1.0 };
    let wave = NORTHERN_WAVE.map(|amplitude| side * amplitude);
    let mut trend = Trend {
        mean: [start.mean, growth.mean, wave[0], wave[1], 0.0],
        covariance: [[0.0; STATES]; STATES],
    };
    trend.covariance[0][0] = start.variance;
    trend.covariance[1][1] = growth.variance;
    for i in 2..4 {
        trend.covariance[i][i] = WAVE_SPREAD * WAVE_SPREAD;
    }
    if let Some(old) = before {
        trend.adopt_site(old);
    }
    trend
}

fn widen(belief: Belief, variance: f64) -> Belief {
    Belief {
        mean: belief.mean,
        variance: belief.variance + variance,
    }
}

pub(super) fn combine(a: Belief, b: Belief) -> Belief {
    let (wa, wb) = (1.0 / a.variance.max(1e-9), 1.0 / b.variance.max(1e-9));
    Belief {
        mean: (a.mean * wa + b.mean * wb) / (wa + wb),
        variance: 1.0 / (wa + wb),
    }
}
