//! The linear filter beneath the wear: a level, its growth, and a yearly wave.
//!
//! A Kalman filter for one scalar observation at a time; local linear trend with
//! a trigonometric season (Durbin & Koopman, Time Series Analysis by State Space
//! Methods, 2nd ed., sections 3.2 and 4.3). The tests run it as a local level
//! on the Nile series against published values.

use serde::{Deserialize, Serialize};

/// What the filter knows: mean and covariance of (level, growth a year, cosine
/// and sine of the yearly wave). The level is a natural logarithm here, but the
/// algebra does not mind.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Trend {
    /// Mean of level, growth a year, cosine and sine amplitude.
    pub mean: [f64; 4],
    /// Covariance of the same.
    pub covariance: [[f64; 4]; 4],
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
    pub weights: [f64; 4],
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

    /// Natural log of the density of a scaled Student t at the residual, up to a
    /// constant that depends on `nu` alone: a blunder then costs any belief about
    /// the same, instead of deciding alone.
    #[must_use]
    pub fn log_density(self, nu: f64) -> f64 {
        let z = self.z();
        -0.5 * self.variance.ln() - f64::midpoint(nu, 1.0) * (z * z / nu).ln_1p()
    }
}

impl Trend {
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

    /// What `seen` adds to the belief, before it is believed.
    #[must_use]
    pub fn surprise(&self, seen: &Observation) -> Surprise {
        let expected: f64 = (0..4).map(|i| seen.weights[i] * self.mean[i]).sum();
        let shared = self.shared(&seen.weights);
        let variance: f64 = (0..4).map(|i| seen.weights[i] * shared[i]).sum::<f64>() + seen.variance;
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
        for i in 0..4 {
            self.covariance[i][i] = self.covariance[i][i].max(0.0);
            for j in 0..i {
                let even = f64::midpoint(self.covariance[i][j], self.covariance[j][i]);
                self.covariance[i][j] = even;
                self.covariance[j][i] = even;
            }
        }
    }

    /// Covariance of the state with what `weights` show of it.
    fn shared(&self, weights: &[f64; 4]) -> [f64; 4] {
        std::array::from_fn(|i| (0..4).map(|j| self.covariance[i][j] * weights[j]).sum())
    }
}
