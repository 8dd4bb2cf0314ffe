//! Osmotic pressure, the pressure that is left to drive water, and the
//! solution-diffusion picture of a membrane. Gauge pressures in kPa throughout.

use super::quantity::{KPA_PER_PSI, Ppm, Temperature};

/// Osmotic pressure of brackish water, kPa: 0.2654 C (T + 273.15)/(1000 - C/1000),
/// C in mg/L as NaCl.
///
/// # References
/// ASTM D4516. 500 mg/L at 25 C: 39.584 kPa.
#[must_use]
pub fn osmotic_pressure_kpa(solids: Ppm, temperature: Temperature) -> f64 {
    let c = solids.ppm();
    0.2654 * c * (temperature.celsius() + 273.15) / (1000.0 - c / 1000.0)
}

/// Osmotic pressure by van 't Hoff, kPa: 2 M R T for the two ions of NaCl, with
/// M of 58.4428 g/mol and R = 8.31446 J/(mol K). 500 mg/L at 25 C: 42.417 kPa.
#[must_use]
pub fn osmotic_pressure_van_t_hoff_kpa(solids: Ppm, temperature: Temperature) -> f64 {
    2.0 * solids.ppm() / 58.4428 * 8.314_46 * (temperature.celsius() + 273.15) / 1000.0
}

/// Osmotic pressure of NaCl with its osmotic coefficient, kPa: van 't Hoff times
/// 1 - A sqrt(m)/(1 + 1.2 sqrt(m)) + m (0.0765 + 0.2664 exp(-2 sqrt(m))), A = 0.3915
/// at 25 C, m in mol/kg (taken as mol/L).
///
/// # References
/// Pitzer & Mayorga, J. Phys. Chem. 77 (1973) 2300-2308, parameters of NaCl (from
/// memory). 250 mg/L at 25 C: 20.7 kPa.
#[must_use]
pub fn osmotic_pressure_pitzer_kpa(solids: Ppm, temperature: Temperature) -> f64 {
    let m = solids.ppm() / 58_442.8;
    let root = m.sqrt();
    let coefficient = 1.0 - 0.3915 * root / (1.0 + 1.2 * root) + m * (0.0765 + 0.2664 * (-2.0 * root).exp());
    coefficient * osmotic_pressure_van_t_hoff_kpa(solids, temperature)
}

/// Rule of thumb of the trade: 1 psi for every 100 ppm, kPa. At 60 psi and 1000 ppm
/// 50 psi are left.
#[must_use]
pub fn osmotic_pressure_rule_kpa(solids: Ppm) -> f64 {
    solids.ppm() / 100.0 * KPA_PER_PSI
}

/// Osmotic pressure, bar, by pi = C (T + 320)/491 000, C under 20 000 mg/L
/// (handbook, from memory). 1000 mg/L at 25 C: 0.7026 bar.
#[must_use]
pub fn osmotic_pressure_handbook_bar(solids: Ppm, temperature: Temperature) -> f64 {
    solids.ppm() * (temperature.celsius() + 320.0) / 491_000.0
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

/// Rejection by solution-diffusion without polarisation: Jw = A (dP - dpi),
/// R = Jw/(Jw + B); 0 where no water is driven.
///
/// # Units
/// `water` A in LMH/bar, `salt` B in LMH, pressures in bar (any consistent set).
///
/// # References
/// Technical note quoting ASTM D4516, section 2.1: A 4, B 0.35, 4 bar against 0.4 give 0.976271.
#[must_use]
pub fn solution_diffusion_rejection(water: f64, salt: f64, pressure: f64, osmotic: f64) -> f64 {
    let flux = water * (pressure - osmotic);
    if flux <= 0.0 { 0.0 } else { flux / (flux + salt) }
}

/// How the salt passage follows 1 C when salt flux and water flux grow by these
/// factors at constant pressure: their ratio (1.06/1.03 = 1.0291, WQA Education
/// Kit, vol. X art. 4).
#[must_use]
pub fn passage_growth_per_c(salt_flux: f64, water_flux: f64) -> f64 {
    salt_flux / water_flux
}
