//! Lambert's W function, principal branch: the w with w exp(w) = x.

use std::f64::consts::E;

/// W0(x) for x >= -1/e, dimensionless; `None` below -1/e or when x is not a number.
///
/// # References
/// Corless et al., "On the Lambert W function", Adv. Comput. Math. 5 (1996) 329-359:
/// series at the branch point (4.22), asymptote (4.18), Halley's iteration (5.9).
///
/// # Examples
/// W0(1) is the omega constant.
/// ```
/// use tapside::water::lambert::lambert_w0;
/// assert!((lambert_w0(1.0).unwrap() - 0.567_143_290_409_783_8).abs() < 1e-15);
/// ```
#[must_use]
pub fn lambert_w0(x: f64) -> Option<f64> {
    const BRANCH_POINT: f64 = -1.0 / E;
    if x.is_nan() || x < BRANCH_POINT - 1e-15 {
        return None;
    }
    if x == f64::INFINITY {
        return Some(x);
    }
    let mut w = first_guess(x);
    for _ in 0..20 {
        let exp = w.exp();
        let miss = w * exp - x;
        let slope = exp * (w + 1.0);
        if slope <= 0.0 {
            break;
        }
        let step = miss / (slope - (w + 2.0) * miss / (2.0 * w + 2.0));
        w -= step;
        if step.abs() <= 1e-15 * w.abs().max(1e-3) {
            break;
        }
    }
    Some(w.max(-1.0))
}

fn first_guess(x: f64) -> f64 {
    if x < -0.25 {
        let p = (2.0 * (E * x + 1.0)).max(0.0).sqrt();
        return -1.0 + p - p * p / 3.0 + 11.0 / 72.0 * p * p * p;
    }
    if x < 3.0 {
        return x.ln_1p() * 0.75;
    }
    let log = x.ln();
    log - log.ln()
}
