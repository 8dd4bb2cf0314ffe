//! Conductivity to 25 C, and to ppm.

use super::quantity::{Conductivity, MeterFactor, Ppm, Refused, Temperature};

/// Conductivity at 25 C by the linear compensation k/(1 + 0.0191 (t - 25)).
///
/// # Errors
/// [`Refused`] when the result is more than [`Conductivity`] accepts.
///
/// # References
/// Standard Methods 2510 B. 1321 uS/cm at 25.5 C: 1308.5.
pub fn to_25c_linear(seen: Conductivity, temperature: Temperature) -> Result<Conductivity, Refused> {
    Conductivity::new(seen.us_per_cm() / (1.0 + 0.0191 * (temperature.celsius() - 25.0)))
}

/// Factor f25 that brings the conductivity of a natural water to 25 C; `None`
/// outside the table's 0 to 35.9 C.
///
/// # References
/// ISO 7888:1985, table of f25, read at 0, 5, 10.2, 20, 22, 25 and 30 C in an
/// instrument manual. f25 = exp(a d + b d2 + c d3), d = t - 25, was fitted to these
/// values for this project and lies within 0.0005 of each. 5 C gives 1.643.
#[must_use]
pub fn iso7888_factor(temperature: Temperature) -> Option<f64> {
    let t = temperature.celsius();
    if !(0.0..=35.9).contains(&t) {
        return None;
    }
    let d = t - 25.0;
    Some((d * (-0.021_104_22 + d * (1.419_523e-4 - d * 2.231_016e-6))).exp())
}

/// Which solution a meter's ppm scale stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// Sodium chloride.
    Nacl,
    /// 40 % sodium sulfate, 40 % sodium bicarbonate, 20 % sodium chloride.
    Natural442,
}

/// The factor of a scale at a conductivity (25 C): it grows a little with the
/// level, which a meter with one factor ignores. Linear in ln k between the
/// printed values, constant beyond them.
///
/// # References
/// Conductivity-to-TDS factor table, general conductivity instrument manual, appendix B.
///
/// # Errors
/// [`Refused`] never in practice: the table lies within [`MeterFactor`].
pub fn scale_factor(scale: Scale, at_25c: Conductivity) -> Result<MeterFactor, Refused> {
    const NACL: [(f64, f64); 4] = [(23.0, 0.4652), (84.0, 0.4529), (447.0, 0.4821), (1413.0, 0.4969)];
    const NATURAL: [(f64, f64); 3] = [(23.0, 0.6409), (84.0, 0.6012), (1413.0, 0.7077)];
    let table: &[(f64, f64)] = match scale {
        Scale::Nacl => &NACL,
        Scale::Natural442 => &NATURAL,
    };
    let logs: Vec<(f64, f64)> = table.iter().map(|(k, f)| (k.ln(), *f)).collect();
    let log = at_25c
        .us_per_cm()
        .max(1e-9)
        .ln()
        .clamp(logs[0].0, logs[logs.len() - 1].0);
    MeterFactor::new(interpolate(&logs, log))
}

/// Conductivity at 25 C of a water that shows `solids` on a scale.
///
/// # Errors
/// [`Refused`] beyond [`Conductivity`].
///
/// # References
/// [`scale_factor`] turned round. 300 ppm on the 442 scale: about 451 uS/cm.
pub fn from_scale(scale: Scale, solids: Ppm) -> Result<Conductivity, Refused> {
    let mut seen = Conductivity::from_ppm(solids, MeterFactor::NACL)?;
    // The factor hardly moves with the level, so this settles in a few rounds.
    for _ in 0..20 {
        seen = Conductivity::from_ppm(solids, scale_factor(scale, seen)?)?;
    }
    Ok(seen)
}

/// Conductivity of a dilute salt, uS/cm: molar conductivity (S cm2/mol) x mol/L x 1000.
///
/// # Errors
/// [`Refused`] beyond [`Conductivity`].
///
/// # References
/// Standard Methods 2510, table 2510:I: 0.005 M KCl, 143.6 S cm2/mol, 717.5 uS/cm.
pub fn from_molar(molar_conductivity: f64, mol_per_litre: f64) -> Result<Conductivity, Refused> {
    Conductivity::new(molar_conductivity * mol_per_litre * 1000.0)
}

/// Straight between the two nearest points.
fn interpolate(points: &[(f64, f64)], x: f64) -> f64 {
    let last = points.len() - 2;
    let i = points
        .windows(2)
        .position(|pair| x <= pair[1].0)
        .unwrap_or(last)
        .min(last);
    let ((x0, y0), (x1, y1)) = (points[i], points[i + 1]);
    y0 + (y1 - y0) * (x - x0) / (x1 - x0)
}
