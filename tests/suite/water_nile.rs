//! The filter as a local level on the Nile series, for the published values.

use tapside::water::trend::{Observation, Trend, Wander};

use crate::water_series::NILE;

const EPS: f64 = 15_099.0;
const ETA: f64 = 1_469.1;

fn wander(eta: f64) -> Wander {
    Wander {
        level: eta,
        growth: 0.0,
        wave: 0.0,
    }
}

fn level(mean: f64, variance: f64) -> Trend {
    let mut trend = Trend {
        mean: [mean, 0.0, 0.0, 0.0, 0.0],
        covariance: [[0.0; 5]; 5],
    };
    trend.covariance[0][0] = variance;
    trend
}

fn seen(value: f64, eps: f64) -> Observation {
    Observation {
        value,
        weights: [1.0, 0.0, 0.0, 0.0, 0.0],
        variance: eps,
    }
}

/// Filters a series from a diffuse start (the first value is taken as it is) and
/// gives the state predicted for each time from the second on, and the last filtered.
fn predicted(series: &[f64], eps: f64, eta: f64) -> (Vec<Trend>, Trend) {
    let mut now = level(series[0], eps);
    let mut states = Vec::new();
    for &value in &series[1..] {
        now.predict(1.0, &wander(eta));
        states.push(now);
        now.update(&seen(value, eps));
    }
    (states, now)
}

/// Smoothed level of a year: the forward filter and the filter of the reversed
/// series, put together by precision.
pub fn smoothed(year: f64, eps: f64, eta: f64) -> f64 {
    let at = (year - 1871.0) as usize;
    let mut reversed = NILE.to_vec();
    reversed.reverse();
    let (forward, backward) = (predicted(&NILE, eps, eta).0, predicted(&reversed, eps, eta).0);
    let mut parts = vec![(NILE[at], eps)];
    if at > 0 {
        parts.push((forward[at - 1].mean[0], forward[at - 1].covariance[0][0]));
    }
    if at < NILE.len() - 1 {
        let state = backward[NILE.len() - 2 - at];
        parts.push((state.mean[0], state.covariance[0][0]));
    }
    let precision: f64 = parts.iter().map(|(_, v)| 1.0 / v).sum();
    parts.iter().map(|(m, v)| m / v).sum::<f64>() / precision
}

pub fn forecast_error(ahead: f64) -> f64 {
    let (_, mut last) = predicted(&NILE, EPS, ETA);
    last.predict(ahead, &wander(ETA));
    last.surprise(&seen(0.0, EPS)).variance.sqrt()
}

/// Log-likelihood with a wide start instead of a diffuse one, the first left out.
pub fn log_likelihood_approximate(start_variance: f64) -> f64 {
    let (eps, eta) = most_likely_for(|eps, eta| approximate(start_variance, eps, eta));
    approximate(start_variance, eps, eta)
}

fn approximate(start_variance: f64, eps: f64, eta: f64) -> f64 {
    let mut now = level(0.0, start_variance);
    let mut sum = 0.0;
    for (i, &value) in NILE.iter().enumerate() {
        let surprise = now.surprise(&seen(value, eps));
        if i > 0 {
            sum -= 0.5 * ((std::f64::consts::TAU * surprise.variance).ln() + surprise.z().powi(2));
        }
        now.update(&seen(value, eps));
        now.predict(1.0, &wander(eta));
    }
    sum
}

/// Durbin & Koopman, section 2.10.2: concentrated diffuse log-likelihood without its constants.
pub fn concentrated_log_likelihood(q: f64) -> f64 {
    let (squares, logs) = concentrated_parts(q);
    let n = (NILE.len() - 1) as f64;
    -0.5 * n * (squares / n).ln() - 0.5 * logs
}

fn concentrated_parts(q: f64) -> (f64, f64) {
    let states = predicted(&NILE, 1.0, q).0;
    states
        .iter()
        .zip(&NILE[1..])
        .fold((0.0, 0.0), |(squares, logs), (state, &value)| {
            let surprise = state.surprise(&seen(value, 1.0));
            (squares + surprise.z().powi(2), logs + surprise.variance.ln())
        })
}

/// Most likely variances (eps, eta): the ratio by golden section, the scale in closed form.
pub fn most_likely() -> (f64, f64) {
    let (mut low, mut high) = (0.01_f64.ln(), 1.0_f64.ln());
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    for _ in 0..80 {
        let (a, b) = (high - golden * (high - low), low + golden * (high - low));
        if concentrated_log_likelihood(a.exp()) > concentrated_log_likelihood(b.exp()) {
            high = b;
        } else {
            low = a;
        }
    }
    let q = f64::midpoint(low, high).exp();
    let eps = concentrated_parts(q).0 / (NILE.len() - 1) as f64;
    (eps, q * eps)
}

/// Climbs from the diffuse optimum by ever smaller steps.
fn most_likely_for(likelihood: impl Fn(f64, f64) -> f64) -> (f64, f64) {
    let (mut eps, mut eta) = most_likely();
    let mut step = 0.02;
    while step > 1e-7 {
        let around = [
            (1.0 + step, 1.0),
            (1.0 - step, 1.0),
            (1.0, 1.0 + step),
            (1.0, 1.0 - step),
        ];
        let here = likelihood(eps, eta);
        match around.iter().find(|(a, b)| likelihood(eps * a, eta * b) > here) {
            Some((a, b)) => (eps, eta) = (eps * a, eta * b),
            None => step /= 2.0,
        }
    }
    (eps, eta)
}

#[test]
fn the_smoothed_variance_of_1871_is_the_published_one() {
    // Durbin & Koopman, exact diffuse smoother: 4032.158.
    let mut reversed = NILE.to_vec();
    reversed.reverse();
    let state = predicted(&reversed, EPS, ETA).0[98];
    let variance = 1.0 / (1.0 / EPS + 1.0 / state.covariance[0][0]);
    assert!((variance - 4032.158).abs() < 0.01, "{variance}");
}
