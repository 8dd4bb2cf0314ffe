//! Units behind a number, and values in the units that are kept.

use super::meaning::{Reading, Scene, Solids};
use super::senses::Sense;
use super::tokens::Token;
use crate::water::quantity::{Conductivity, Flow, MeterFactor, Pressure, Temperature};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    Ppm,
    MicroSiemens,
    MilliSiemens,
    Celsius,
    Fahrenheit,
    /// Degrees of the outfit's own unit.
    Degrees,
    Psi,
    Bar,
    Kpa,
    LitresPerMinute,
    GallonsPerMinute,
    Minutes,
}

/// No tap water is warmer than this in Celsius: bare degrees above it are Fahrenheit.
const WARMEST_TAP_C: f64 = 45.0;
/// Water at fewer degrees Fahrenheit is ice: bare degrees below it are Celsius.
const COLDEST_TAP_F: f64 = 32.0;

/// The unit that stands behind the number at `at`, if any.
pub fn behind(tokens: &[Token], at: usize) -> Option<Unit> {
    let mut next = tokens.get(at + 1)?;
    let mut second = tokens.get(at + 2);
    let degree_sign = next.is_mark('°');
    if degree_sign {
        (next, second) = match second {
            Some(after) => (after, tokens.get(at + 3)),
            None => return Some(Unit::Degrees),
        };
    }
    // "180 12 55F 60psi": behind a pair a letter on the number is its unit.
    let third = next.glued && tokens[..at].iter().filter(|token| token.number().is_some()).count() >= 2;
    // "61 F" is Fahrenheit; "180 f 12 p" is a label: a number right behind the letter tells.
    // "52F 180 12": two bare numbers behind the letter are the pair.
    let leads = next.glued
        && second.is_some_and(|token| token.number().is_some() && !token.glued)
        && tokens
            .get(at + 3)
            .is_some_and(|token| token.number().is_some() || token.is_any_mark("/>"));
    let labels_by_letter = next.word() == Some("f")
        && !degree_sign
        && second.is_some_and(|token| token.number().is_some())
        && !third
        && !leads;
    let number = tokens[at].number().map_or(0.0, |number| number.value);
    if next.word() == Some("f") && !labels_by_letter && (degree_sign || (COLDEST_TAP_F..=120.0).contains(&number)) {
        return Some(Unit::Fahrenheit);
    }
    let table = [
        (Sense::Fahrenheit, Unit::Fahrenheit),
        (Sense::Celsius, Unit::Celsius),
        (Sense::Degrees, Unit::Degrees),
        (Sense::MicroSiemens, Unit::MicroSiemens),
        (Sense::MilliSiemens, Unit::MilliSiemens),
        (Sense::Psi, Unit::Psi),
        (Sense::Bar, Unit::Bar),
        (Sense::Kpa, Unit::Kpa),
        (Sense::LitresPerMinute, Unit::LitresPerMinute),
        (Sense::GallonsPerMinute, Unit::GallonsPerMinute),
        (Sense::Minutes, Unit::Minutes),
        (Sense::Ppm, Unit::Ppm),
    ];
    let found = table
        .into_iter()
        .find(|(sense, _)| next.has(*sense))
        .map(|(_, unit)| unit);
    found.or(degree_sign.then_some(Unit::Degrees))
}

/// Degrees Celsius; `None` when no water has this temperature.
pub fn temperature_c(value: f64, unit: Option<Unit>, outfit_uses_celsius: bool) -> Option<f64> {
    let celsius = match unit {
        Some(Unit::Celsius) => true,
        Some(Unit::Fahrenheit) => false,
        _ if value > WARMEST_TAP_C => false,
        _ if value < COLDEST_TAP_F => true,
        _ => outfit_uses_celsius,
    };
    let temperature = if celsius {
        Temperature::from_celsius(value)
    } else {
        Temperature::from_fahrenheit(value)
    };
    temperature.ok().map(Temperature::celsius)
}

/// Gauge pressure in kPa. Bare numbers up to 16 are bar, larger ones psi: a tap gives 2-6 bar, 30-90 psi (common
/// practice, no source).
pub fn pressure_kpa(value: f64, unit: Option<Unit>) -> Option<f64> {
    let pressure = match unit {
        Some(Unit::Bar) => Pressure::from_bar(value),
        Some(Unit::Kpa) => Pressure::from_kpa(value),
        Some(Unit::Psi) => Pressure::from_psi(value),
        _ if value <= 16.0 => Pressure::from_bar(value),
        _ => Pressure::from_psi(value),
    };
    pressure.ok().map(Pressure::kpa)
}

/// Litres a minute.
pub fn flow_lpm(value: f64, unit: Option<Unit>) -> Option<f64> {
    let flow = match unit {
        Some(Unit::GallonsPerMinute) => Flow::from_us_gallons_per_minute(value),
        _ => Flow::from_litres_per_minute(value),
    };
    flow.ok().map(Flow::litres_per_minute)
}

/// Solids in ppm; conductivity by the outfit's meter factor, with the raw value kept.
pub fn solids(value: f64, conductivity: bool, us_to_ppm: f64) -> Option<Solids> {
    if !conductivity {
        return Some(Solids {
            ppm: value,
            raw_us: None,
        });
    }
    let factor = MeterFactor::new(us_to_ppm).unwrap_or(MeterFactor::NACL);
    let ppm = Conductivity::new(value)
        .and_then(|conductivity| conductivity.to_ppm(factor))
        .ok()?;
    Some(Solids {
        ppm: ppm.ppm(),
        raw_us: Some(value),
    })
}

/// The unit of solids; a bare number has the unit that the outfit's meters show.
pub fn of_solids(unit: Option<Unit>, scene: &Scene) -> Option<Unit> {
    unit.or(scene.reads_conductivity.then_some(Unit::MicroSiemens))
}

/// Solids of a number with its own unit.
pub fn solids_of(value: f64, unit: Option<Unit>, us_to_ppm: f64) -> Option<Solids> {
    match unit {
        Some(Unit::MilliSiemens) => solids(value * 1000.0, true, us_to_ppm),
        unit => solids(value, unit == Some(Unit::MicroSiemens), us_to_ppm),
    }
}

/// Whether anything but the rig and the time was said.
pub fn says_values(reading: &Reading) -> bool {
    let solids = reading.feed.is_some() || reading.permeate.is_some() || reading.product.is_some();
    let others = [
        reading.temperature_c,
        reading.pressure_kpa,
        reading.permeate_lpm,
        reading.waste_lpm,
    ];
    solids || others.iter().any(Option::is_some)
}
