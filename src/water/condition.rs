//! Membrane states: words for the standardised rejection and its uncertainty.

use serde::{Deserialize, Serialize};

use super::forecast::{Crossing, Interval};
use super::settings::Limits;

/// The state of a membrane.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Condition {
    /// Good, and no line in sight.
    Good,
    /// Wear is under way.
    Fading,
    /// A new membrane is weighed: the money decides.
    Due,
    /// Done.
    Spent,
    /// Too few readings, or too far apart, to say.
    Unproven,
    /// A jump: look for a fault first.
    Fault,
}

/// Between which lines the rejection lies; kept, so that it does not flicker.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Band {
    /// Above the wearing line.
    High,
    /// Below the wearing line.
    Middle,
    /// Below the due line.
    Low,
    /// Below the spent line.
    Bottom,
}

/// How far above a line the rejection must come back before the better word returns.
const BACK_BY: f64 = 0.01;
/// A due line this near makes a membrane wearing, whatever its level.
const NEAR_SECONDS: i64 = 120 * 86_400;

/// An 80 % interval wider than this spans states: nothing is proven.
const WIDEST: f64 = 0.15;

/// The band of a rejection, given the band before: worse at the line, better only
/// a point above it.
#[must_use]
pub fn band(rejection: f64, limits: &Limits, before: Option<Band>) -> Band {
    let plain = |r: f64| {
        if r < limits.spent {
            Band::Bottom
        } else if r < limits.due {
            Band::Low
        } else if r < limits.wearing {
            Band::Middle
        } else {
            Band::High
        }
    };
    match before {
        None => plain(rejection),
        Some(before) => plain(rejection).max(plain(rejection - BACK_BY).min(before)),
    }
}

/// Everything that decides a state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grounds {
    /// Rejection now; `None` when too few readings.
    pub rejection: Option<Interval>,
    /// Its band.
    pub band: Option<Band>,
    /// Whether a fault stands.
    pub fault: bool,
    /// When the due line is crossed.
    pub due: Crossing,
    /// Whether the money says to renew now.
    pub pays_now: bool,
    /// Seen from.
    pub now: i64,
}

/// The state.
#[must_use]
pub fn condition(grounds: &Grounds) -> Condition {
    let (Some(rejection), Some(band)) = (grounds.rejection, grounds.band) else {
        return Condition::Unproven;
    };
    if rejection.high - rejection.low > WIDEST {
        return Condition::Unproven;
    }
    if grounds.fault {
        return Condition::Fault;
    }
    let near = matches!(grounds.due, Crossing::Within(range) if range.likely - grounds.now < NEAR_SECONDS);
    match band {
        Band::Bottom => Condition::Spent,
        Band::Low => Condition::Due,
        Band::Middle => Condition::Fading,
        Band::High if near || grounds.pays_now => Condition::Fading,
        Band::High => Condition::Good,
    }
}
