//! The flow that a rated element should give today, so that a weak morning is
//! told from a fouled membrane.

use serde::{Deserialize, Serialize};

use super::history::Reading;
use super::osmosis::{Pressures, net_driving_pressure, osmotic_pressure_kpa};
use super::quantity::{Flow, Ppm, Pressure, Share, Temperature};
use super::rejection::{feed_brine_factor, recovery};
use super::temperature_factor::TemperatureFactor;

/// Permeate's osmotic pressure over the feed-brine mean, on brackish water.
const PERMEATE_OSMOTIC_SHARE: f64 = 0.05;

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
    /// Litres a minute to expect at its temperature and pressure.
    pub expected_lpm: f64,
    /// Share of what it should give: seen over expected.
    pub share: f64,
    /// What it says.
    pub verdict: FlowVerdict,
}

/// What a flow is judged from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum FlowInput {
    /// What the element is rated to give, and at which conditions.
    Rating,
    /// A reading of the permeate flow.
    Flow,
    /// The water's temperature beside that reading.
    Temperature,
    /// The pressure beside it.
    Pressure,
}

/// The flow of a rig, or what is missing to judge it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum FlowFinding {
    /// It was judged, by the reading of this instant (UTC seconds).
    Judged {
        /// When it was read, UTC seconds.
        at: i64,
        /// What it says.
        flow: FlowAssessment,
    },
    /// These are missing.
    Missing(Vec<FlowInput>),
}

/// Judges the last flow that was read; `None` where neither a rating nor a flow was told.
#[must_use]
pub fn find_flow(reading: Option<&Reading>, rated: Option<&RatedElement>) -> Option<FlowFinding> {
    if reading.is_none() && rated.is_none() {
        return None;
    }
    let seen = reading.and_then(|reading| reading.permeate_flow);
    let (celsius, gauge) = (reading.and_then(|r| r.temperature), reading.and_then(|r| r.pressure));
    let (Some(reading), Some(rated), Some(seen), Some(celsius), Some(gauge)) = (reading, rated, seen, celsius, gauge)
    else {
        let inputs = [
            (rated.is_none(), FlowInput::Rating),
            (seen.is_none(), FlowInput::Flow),
            (reading.is_some() && celsius.is_none(), FlowInput::Temperature),
            (reading.is_some() && gauge.is_none(), FlowInput::Pressure),
        ];
        let missing = inputs
            .into_iter()
            .filter_map(|(is_missing, input)| is_missing.then_some(input));
        return Some(FlowFinding::Missing(missing.collect()));
    };
    let fed = reading
        .waste_flow
        .and_then(|waste| Flow::from_litres_per_minute(seen.litres_per_minute() + waste.litres_per_minute()).ok());
    let share = fed
        .and_then(|fed| recovery(seen, fed).ok())
        .and_then(|share| Share::new(share).ok());
    let net = net_pressure(gauge, reading.feed, celsius, share)?;
    let flow = judge_flow(seen, rated, celsius, net).ok()?;
    Some(FlowFinding::Judged { at: reading.at, flow })
}

/// Pressure that is left to drive water at a gauge pressure: less the osmotic pressure of
/// the feed, concentrated as the recovery says where it is known; `None` beyond any rig's.
#[must_use]
pub fn net_pressure(gauge: Pressure, feed: Ppm, temperature: Temperature, recovery: Option<Share>) -> Option<Pressure> {
    let factor = recovery.and_then(|share| feed_brine_factor(share).ok()).unwrap_or(1.0);
    let osmotic = osmotic_pressure_kpa(Ppm::new(factor * feed.ppm()).ok()?, temperature);
    let net = net_driving_pressure(&Pressures {
        feed: gauge.kpa(),
        concentrate: gauge.kpa(),
        permeate: 0.0,
        osmotic_feed_brine: osmotic,
        osmotic_permeate: PERMEATE_OSMOTIC_SHARE * osmotic,
    });
    Pressure::from_kpa(net.max(0.0)).ok()
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
) -> Result<Flow, super::quantity::Refused> {
    let factor = TemperatureFactor::HANDBOOK;
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
    let expected = expected_flow(rated, temperature, net_pressure)?;
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
        share: seen_lpm / expected_lpm.max(1e-9),
        verdict,
    })
}
