//! Units: what a unit's word means, and how a value in it becomes one in the unit that is kept.

use super::senses::{Sense, Senses};

/// A unit that a crew may type.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unit {
    /// Parts per million, which is mg/L in fresh water.
    Ppm,
    /// Conductivity: so many uS/cm at 25 C.
    MicroSiemens(f64),
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Degrees, which of the two the outfit says.
    Degrees,
    /// A pressure: so many kPa.
    Pressure(f64),
    /// A flow: so many litres a minute.
    Flow(f64),
}

/// kPa in a pound-force per square inch (NIST SP 811, appendix B.8: 6.894 757 kPa).
pub const KPA_PER_PSI: f64 = 6.894_757;
/// Litres in a US liquid gallon (NIST SP 811, appendix B.8: 3.785 412 L).
pub const LITRES_PER_GALLON: f64 = 3.785_412;
const KPA_PER_BAR: f64 = 100.0;

const TABLE: [(Sense, Unit); 11] = [
    (Sense::us, Unit::MicroSiemens(1.0)),
    (Sense::ms, Unit::MicroSiemens(1000.0)),
    (Sense::ppm, Unit::Ppm),
    (Sense::fahrenheit, Unit::Fahrenheit),
    (Sense::celsius, Unit::Celsius),
    (Sense::degrees, Unit::Degrees),
    (Sense::psi, Unit::Pressure(KPA_PER_PSI)),
    (Sense::bar, Unit::Pressure(KPA_PER_BAR)),
    (Sense::kpa, Unit::Pressure(1.0)),
    (Sense::lpm, Unit::Flow(1.0)),
    (Sense::gpm, Unit::Flow(LITRES_PER_GALLON)),
];

impl Unit {
    /// The unit that a word with these senses is.
    pub fn of(senses: Senses) -> Option<Unit> {
        TABLE
            .iter()
            .find(|(sense, _)| senses.has(*sense))
            .map(|(_, unit)| *unit)
    }

    /// Whether the unit alone says what is measured: bare degrees are as often the weather's.
    pub fn is_plain(self) -> bool {
        !self.is_solids() && self != Unit::Degrees
    }

    /// Whether it measures dissolved solids.
    pub fn is_solids(self) -> bool {
        matches!(self, Unit::Ppm | Unit::MicroSiemens(_))
    }
}

/// Degrees Celsius of a temperature in Fahrenheit.
pub fn celsius_of_fahrenheit(value: f64) -> f64 {
    (value - 32.0) / 1.8
}
