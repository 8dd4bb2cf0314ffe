//! Osmotic pressure, and the pressure that is left to drive water through a membrane.
//! Gauge pressures in kPa throughout.

use super::quantity::{Ppm, Temperature};

/// Osmotic pressure of brackish water, kPa: 0.2654 C (T + 273.15)/(1000 - C/1000),
/// C in mg/L as NaCl. Some 5 % below what the activity of NaCl gives (pyEQL 1.7.0) from
/// 250 to 2000 mg/L: a kPa or two beside the 300 and more of a tap.
///
/// # References
/// ASTM D4516. 500 mg/L at 25 C: 39.584 kPa.
#[must_use]
pub fn osmotic_pressure_kpa(solids: Ppm, temperature: Temperature) -> f64 {
    let c = solids.ppm();
    0.2654 * c * (temperature.celsius() + 273.15) / (1000.0 - c / 1000.0)
}

/// Gauge and osmotic pressures on both sides, in one unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pressures {
    /// Feed, gauge.
    pub feed: f64,
    /// Concentrate, gauge: the feed less the loss along the channel.
    pub concentrate: f64,
    /// Permeate, gauge.
    pub permeate: f64,
    /// Osmotic, mean of feed and brine.
    pub osmotic_feed_brine: f64,
    /// Osmotic, permeate.
    pub osmotic_permeate: f64,
}

/// Net driving pressure, in the unit of the parts:
/// (Pf + Pc)/2 - Pp - pi_fb + pi_p. May come out negative: then nothing flows.
///
/// # References
/// Water Treatment Plant Design (AWWA/ASCE), ch. 13, pp. 13.10-13.11: 100 and 90
/// psi of feed and concentrate, 5 of permeate, osmotic 5 and 15 (mean 10) and 0.5
/// leave 80.5 psi.
#[must_use]
pub fn net_driving_pressure(p: &Pressures) -> f64 {
    f64::midpoint(p.feed, p.concentrate) - p.permeate - p.osmotic_feed_brine + p.osmotic_permeate
}
