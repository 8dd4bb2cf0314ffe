//! The linear filter beneath the wear: a level, its growth, a yearly wave, and how
//! much warmer than the reference the rig's water is on the mean of the year.
//!
//! A Kalman filter for one scalar observation at a time; local linear trend with
//! a trigonometric season and a constant (Durbin & Koopman, Time Series Analysis by State Space
//! Methods, 2nd ed., sections 3.2 and 4.3). The tests run it as a local level
//! on the Nile series against published values.

use serde::{Deserialize, Serialize};

/// How many numbers the state has.
pub const STATES: usize = 5;
/// Where the site's own part of it begins: the wave and the warmth.
pub const SITE: usize = 2;
/// Where the warmth stands.
pub const WARMTH: usize = 4;

/// What the filter knows: mean and covariance of (level, growth a year, cosine
/// and sine of the yearly wave, warmth). The warmth is what the water's mean
/// temperature adds to the level; it is 0 and sure until a temperature is told,
/// so that the level is stated at the rig's own water until then. The level is a
/// natural logarithm here, but the algebra does not mind.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Trend {
    /// Mean of level, growth a year, cosine and sine amplitude, warmth.
    pub mean: [f64; STATES],
    /// Covariance of the same; it is symmetric, so that its lower half is kept.
    #[serde(with = "lower_half")]
    pub covariance: [[f64; STATES]; STATES],
}

/// The lower half of a symmetric matrix, row by row.
mod lower_half {
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    use super::STATES;

    const HALF: usize = STATES * (STATES + 1) / 2;

    pub fn serialize<S: Serializer>(matrix: &[[f64; STATES]; STATES], serializer: S) -> Result<S::Ok, S::Error> {
        let mut half = [0.0; HALF];
        let cells = matrix.iter().enumerate().flat_map(|(i, row)| row.iter().take(i + 1));
        for (kept, cell) in half.iter_mut().zip(cells) {
            *kept = *cell;
        }
        half.serialize(serializer)
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<[[f64; STATES]; STATES], D::Error> {
        let half = <[f64; HALF]>::deserialize(deserializer)?;
        let kept = |i: usize, j: usize| half[i.max(j) * (i.max(j) + 1) / 2 + i.min(j)];
        Ok(std::array::from_fn(|i| std::array::from_fn(|j| kept(i, j))))
    }
}

/// How fast the truth may wander, as variances a year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wander {
    /// Of the level.
    pub level: f64,
    /// Of the growth.
    pub growth: f64,
    /// Of each amplitude of the wave.
    pub wave: f64,
}

/// One scalar observation: `value` = `weights` . state + noise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Observation {
    /// What was seen.
    pub value: f64,
    /// How the state shows in it.
    pub weights: [f64; STATES],
    /// Variance of the noise.
    pub variance: f64,
}

/// What an observation adds to what was expected of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surprise {
    /// Observed minus expected.
    pub residual: f64,
    /// Variance of the residual.
    pub variance: f64,
}

impl Surprise {
    /// Residual in standard deviations.
    #[must_use]
    pub fn z(self) -> f64 {
        self.residual / self.variance.sqrt()
    }
}

impl Trend {
    /// Whether a temperature was told, so that the level is stated at the reference.
    #[must_use]
    pub fn has_warmth(&self) -> bool {
        self.covariance[WARMTH][WARMTH] > 0.0 || self.mean[WARMTH] != 0.0
    }

    /// Carries the belief `years` ahead; the level grows, the doubt with it.
    pub fn predict(&mut self, years: f64, wander: &Wander) {
        if years <= 0.0 {
            return;
        }
        self.mean[0] += self.mean[1] * years;
        let p = &mut self.covariance;
        let growth = p[1];
        for (level, growth) in p[0].iter_mut().zip(growth) {
            *level += years * growth;
        }
        for row in p.iter_mut() {
            row[0] += years * row[1];
        }
        // Growth wanders as Brownian motion; its integral moves the level.
        p[0][0] += wander.level * years + wander.growth * years.powi(3) / 3.0;
        let cross = wander.growth * years * years / 2.0;
        p[0][1] += cross;
        p[1][0] += cross;
        p[1][1] += wander.growth * years;
        p[2][2] += wander.wave * years;
        p[3][3] += wander.wave * years;
    }

    /// The yearly wave at an angle of the year, given by its cosine and sine.
    #[must_use]
    pub fn wave_at(&self, (cos, sin): (f64, f64)) -> f64 {
        self.mean[2] * cos + self.mean[3] * sin
    }

    /// What the water itself adds to the level at an angle of the year: the wave and the warmth.
    #[must_use]
    pub fn water_at(&self, angle: (f64, f64)) -> f64 {
        self.wave_at(angle) + self.mean[WARMTH]
    }

    /// Opens the warmth, of which nothing was told so far. `level_is_own` says that
    /// the level was learned from readings at the rig's own water: what is known
    /// then is the sum of the two, so that the doubt of the one is the other's.
    pub fn open_warmth(&mut self, variance: f64, level_is_own: bool) {
        if self.covariance[WARMTH][WARMTH] > 0.0 {
            return;
        }
        self.covariance[WARMTH][WARMTH] = variance;
        if level_is_own {
            self.covariance[0][0] += variance;
            self.covariance[0][WARMTH] -= variance;
            self.covariance[WARMTH][0] -= variance;
        }
    }

    /// Takes over what another belief knows of the site: its wave and its warmth.
    pub fn adopt_site(&mut self, other: &Self) {
        for i in SITE..STATES {
            self.mean[i] = other.mean[i];
            for j in SITE..STATES {
                self.covariance[i][j] = other.covariance[i][j];
            }
        }
    }

    /// What `seen` adds to the belief, before it is believed.
    #[must_use]
    pub fn surprise(&self, seen: &Observation) -> Surprise {
        let expected: f64 = (0..STATES).map(|i| seen.weights[i] * self.mean[i]).sum();
        let shared = self.shared(&seen.weights);
        let variance: f64 = (0..STATES).map(|i| seen.weights[i] * shared[i]).sum::<f64>() + seen.variance;
        Surprise {
            residual: seen.value - expected,
            variance,
        }
    }

    /// Believes `seen`, whose noise has `seen.variance`.
    pub fn update(&mut self, seen: &Observation) {
        let shared = self.shared(&seen.weights);
        let surprise = self.surprise(seen);
        let gain = shared.map(|s| s / surprise.variance);
        for ((mean, row), gain) in self.mean.iter_mut().zip(&mut self.covariance).zip(gain) {
            *mean += gain * surprise.residual;
            for (covariance, shared) in row.iter_mut().zip(shared) {
                *covariance -= gain * shared;
            }
        }
        // Rounding must not make the covariance lopsided over years of readings.
        for i in 0..STATES {
            self.covariance[i][i] = self.covariance[i][i].max(0.0);
            for j in 0..i {
                let even = f64::midpoint(self.covariance[i][j], self.covariance[j][i]);
                self.covariance[i][j] = even;
                self.covariance[j][i] = even;
            }
        }
    }

    /// Covariance of the state with what `weights` show of it.
    fn shared(&self, weights: &[f64; STATES]) -> [f64; STATES] {
        std::array::from_fn(|i| (0..STATES).map(|j| self.covariance[i][j] * weights[j]).sum())
    }
}
