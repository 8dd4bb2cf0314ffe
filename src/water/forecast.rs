//! When a line will be crossed: an instant with a range, or why it is not known.

use serde::{Deserialize, Serialize};

use super::observation::after_years;
use super::trend::Trend;
use super::wear::WANDER;

/// Half the width of an 80 % interval in standard deviations: the 0.9 quantile
/// of the standard normal.
pub const Z80: f64 = 1.281_551_565_545;
/// Model error of the level in ln(salt passage), beside the filter's own doubt.
const MODEL_SPREAD: f64 = 0.03;
/// Nothing is promised further ahead.
const HORIZON_YEARS: f64 = 3.0;

/// Readings and days before a trend or a date is told.
pub const TREND_FROM_READINGS: u32 = 8;
/// See [`TREND_FROM_READINGS`].
pub const TREND_FROM_SECONDS: i64 = 45 * 86_400;

/// A value with its 80 % interval.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Interval {
    /// The 0.1 quantile.
    pub low: f64,
    /// The median.
    pub mid: f64,
    /// The 0.9 quantile.
    pub high: f64,
}

/// A range of instants, UTC seconds; an end beyond the horizon is `None`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Range {
    /// Not before this.
    pub early: i64,
    /// As likely before as after.
    pub likely: i64,
    /// Hardly after this.
    pub late: Option<i64>,
}

/// When the rejection crosses a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Crossing {
    /// Below it already.
    Already,
    /// In this range.
    Within(Range),
    /// Not within the three years that are looked at.
    NotInSight,
    /// Too few readings, or too few days, for a trend.
    NotYetKnown,
}

/// The rejection at the belief's own time with its 80 % interval, fractions.
#[must_use]
pub fn rejection_interval(trend: &Trend) -> Interval {
    let spread = Z80 * level_spread(trend);
    let at = |log_passage: f64| (1.0 - log_passage.exp()).clamp(0.0, 1.0);
    Interval {
        low: at(trend.mean[0] + spread),
        mid: at(trend.mean[0]),
        high: at(trend.mean[0] - spread),
    }
}

/// Standard deviation of ln(salt passage) at the belief's own time.
#[must_use]
pub fn level_spread(trend: &Trend) -> f64 {
    (trend.covariance[0][0] + MODEL_SPREAD * MODEL_SPREAD).sqrt()
}

/// Growth of ln(salt passage) a year to plan with. A membrane does not heal:
/// where the belief allows negative growth, its mean above zero is taken.
///
/// # References
/// Mean of a normal truncated at zero: m + s phi(m/s)/Phi(m/s) (Johnson, Kotz &
/// Balakrishnan, Continuous Univariate Distributions 1, 13.10.1).
#[must_use]
pub fn planning_growth(trend: &Trend) -> f64 {
    let (mean, spread) = (trend.mean[1], trend.covariance[1][1].max(1e-12).sqrt());
    let z = mean / spread;
    if z > 3.0 {
        return mean;
    }
    if z < -4.0 {
        return 0.02;
    }
    let density = (-0.5 * z * z).exp() / (2.0 * std::f64::consts::PI).sqrt();
    (mean + spread * density / normal_below(z)).max(0.02)
}

/// When the rejection falls below `line` (a fraction), seen from `now`, the time
/// of the belief.
#[must_use]
pub fn crossing(trend: &Trend, line: f64, now: i64) -> Crossing {
    let target = (1.0 - line).max(1e-6).ln();
    let gap = target - trend.mean[0];
    if gap <= 0.0 {
        return Crossing::Already;
    }
    let likely = gap / planning_growth(trend);
    if likely > HORIZON_YEARS {
        return Crossing::NotInSight;
    }
    let early = quantile_crossing(trend, gap, Z80).unwrap_or(likely).min(likely);
    let late = quantile_crossing(trend, gap, -Z80).map(|years| years.max(likely));
    Crossing::Within(Range {
        early: after_years(now, early),
        likely: after_years(now, likely),
        late: late.map(|years| after_years(now, years)),
    })
}

/// The rejection `years` after the belief's own time with its 80 % interval, as
/// [`crossing`] sees it: where its ends cross a line, the range begins and ends.
#[must_use]
pub fn interval_after(trend: &Trend, years: f64) -> Interval {
    let level = trend.mean[0] + planning_growth(trend) * years;
    let spread = Z80 * variance_after(trend, years).sqrt();
    let at = |log_passage: f64| (1.0 - log_passage.exp()).clamp(0.0, 1.0);
    Interval {
        low: at(level + spread),
        mid: at(level),
        high: at(level - spread),
    }
}

/// Variance of ln(salt passage) `years` after the belief's own time.
fn variance_after(trend: &Trend, years: f64) -> f64 {
    let p = &trend.covariance;
    let variance = p[0][0]
        + 2.0 * years * p[0][1]
        + years * years * p[1][1]
        + WANDER.level * years
        + WANDER.growth * years.powi(3) / 3.0
        + MODEL_SPREAD * MODEL_SPREAD;
    variance.max(0.0)
}

/// Years until the quantile `z` of the level has closed the gap.
fn quantile_crossing(trend: &Trend, gap: f64, z: f64) -> Option<f64> {
    let growth = planning_growth(trend);
    let above = |years: f64| growth * years + z * variance_after(trend, years).sqrt() >= gap;
    if !above(HORIZON_YEARS) {
        return None;
    }
    let (mut low, mut high) = (0.0, HORIZON_YEARS);
    for _ in 0..12 {
        let middle = f64::midpoint(low, high);
        if above(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some(high)
}

/// Standard normal distribution function.
///
/// # References
/// Abramowitz & Stegun, 26.2.17; absolute error below 7.5e-8.
#[must_use]
pub fn normal_below(z: f64) -> f64 {
    let t = 1.0 / (1.0 + 0.231_641_9 * z.abs());
    let poly =
        t * (0.319_381_530 + t * (-0.356_563_782 + t * (1.781_477_937 + t * (-1.821_255_978 + t * 1.330_274_429))));
    let tail = (-0.5 * z * z).exp() / (2.0 * std::f64::consts::PI).sqrt() * poly;
    if z >= 0.0 { 1.0 - tail } else { tail }
}
