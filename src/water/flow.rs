//! The flow that a rated element should give today, so that a weak morning is
//! told from a fouled membrane.

use serde::{Deserialize, Serialize};

use super::quantity::{Flow, Pressure, Temperature};
use super::temperature_factor::TemperatureFactor;

/// An element's rating: what it gives at its test conditions.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct RatedElement {
    /// Permeate flow at the test conditions, all elements together.
    pub flow: Flow,
    /// Net driving pressure of the test, about the gauge pressure less the osmotic.
    pub net_pressure: Pressure,
    /// Water temperature of the test.
    pub temperature: Temperature,
}

/// What the flow says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum FlowVerdict {
    /// As it should be at today's temperature and pressure.
    AsExpected,
    /// Weak, and cold water or low pressure is why.
    WeakConditions,
    /// Weaker than the conditions explain: fouled or scaled, or the valve is shut.
    Fouled,
    /// Far more than the element gives: an O-ring or the element leaks.
    TooMuch,
}

/// Flow seen against flow expected.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct FlowAssessment {
    /// Litres a minute seen.
    pub seen_lpm: f64,
    /// Litres a minute to expect today.
    pub expected_lpm: f64,
    /// What it says.
    pub verdict: FlowVerdict,
}

/// Flow to expect: rated flow x temperature factor x ratio of the net driving pressures.
///
/// # Errors
/// [`super::quantity::Refused`] when the numbers give no flow that a rig can have.
///
/// # References
/// ASTM D4516, turned round. 1800 US gal/day rated at 25 C give 1266 at 15 C and the same pressure.
pub fn expected_flow(
    rated: &RatedElement,
    temperature: Temperature,
    net_pressure: Pressure,
    factor: TemperatureFactor,
) -> Result<Flow, super::quantity::Refused> {
    let warmth = factor.at(temperature) / factor.at(rated.temperature);
    let push = net_pressure.kpa() / rated.net_pressure.kpa().max(1e-9);
    Flow::from_litres_per_minute(rated.flow.litres_per_minute() * warmth * push)
}

/// Tells a weak morning from a fouled membrane. A loss beyond 15 % is when
/// membranes are commonly cleaned or changed (common practice, no source).
///
/// # Errors
/// [`super::quantity::Refused`], as [`expected_flow`].
pub fn judge_flow(
    seen: Flow,
    rated: &RatedElement,
    temperature: Temperature,
    net_pressure: Pressure,
) -> Result<FlowAssessment, super::quantity::Refused> {
    let expected = expected_flow(rated, temperature, net_pressure, TemperatureFactor::HANDBOOK)?;
    let (seen_lpm, expected_lpm) = (seen.litres_per_minute(), expected.litres_per_minute());
    let verdict = if seen_lpm < 0.85 * expected_lpm {
        FlowVerdict::Fouled
    } else if seen_lpm > 1.30 * expected_lpm {
        FlowVerdict::TooMuch
    } else if expected_lpm < 0.85 * rated.flow.litres_per_minute() {
        FlowVerdict::WeakConditions
    } else {
        FlowVerdict::AsExpected
    };
    Ok(FlowAssessment {
        seen_lpm,
        expected_lpm,
        verdict,
    })
}
