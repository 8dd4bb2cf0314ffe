//! Checked quantities: a number with its unit, refused when it cannot be meant.
//!
//! Each type keeps one unit inside and converts exactly: the factors are
//! definitions (international pound, inch and gallon), not roundings.

use std::fmt;

use serde::{Deserialize, Serialize};

/// Kilopascals in one pound-force per square inch: 0.453 592 37 kg x
/// 9.806 65 m/s2 / (0.0254 m)2, exact by definition (NIST SP 811, B.8).
pub const KPA_PER_PSI: f64 = 6.894_757_293_168_361;
/// Kilopascals in one bar, exact by definition.
pub const KPA_PER_BAR: f64 = 100.0;
/// Litres in one US gallon: 231 cubic inches, exact by definition.
pub const LITRES_PER_US_GALLON: f64 = 3.785_411_784;
/// Litres in one imperial gallon, exact by definition.
pub const LITRES_PER_IMPERIAL_GALLON: f64 = 4.546_09;
/// Grams in one grain, exact by definition.
pub const GRAMS_PER_GRAIN: f64 = 0.064_798_91;
/// Litres in one cubic foot, exact by definition.
pub const LITRES_PER_CUBIC_FOOT: f64 = 28.316_846_592;
const MINUTES_PER_DAY: f64 = 1440.0;

/// What a refused number was meant to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Quantity {
    /// Dissolved solids, ppm (mg/L).
    Solids,
    /// Conductivity, uS/cm.
    Conductivity,
    /// Meter factor, ppm per uS/cm.
    MeterFactor,
    /// Water temperature, degrees Celsius.
    Temperature,
    /// Gauge pressure, kPa.
    Pressure,
    /// Volume, litres.
    Volume,
    /// Flow, litres a minute.
    Flow,
    /// A share of a whole, 0 to 1.
    Share,
}

/// A number that no quantity of this kind can have.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Refused {
    /// What the number was meant to be.
    pub quantity: Quantity,
    /// The number as it came, in the unit that the quantity keeps.
    pub value: f64,
    /// The least value accepted, in the same unit.
    pub least: f64,
    /// The greatest value accepted, in the same unit.
    pub most: f64,
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (name, unit) = match self.quantity {
            Quantity::Solids => ("dissolved solids", " ppm"),
            Quantity::Conductivity => ("conductivity", " uS/cm"),
            Quantity::MeterFactor => ("meter factor", " ppm per uS/cm"),
            Quantity::Temperature => ("water temperature", " C"),
            Quantity::Pressure => ("gauge pressure", " kPa"),
            Quantity::Volume => ("volume", " L"),
            Quantity::Flow => ("flow", " L/min"),
            Quantity::Share => ("share", ""),
        };
        if !self.value.is_finite() {
            return write!(f, "{name} must be a number");
        }
        write!(
            f,
            "{name} of {}{unit} is outside {} to {}{unit}",
            self.value, self.least, self.most
        )
    }
}

impl std::error::Error for Refused {}

fn within(quantity: Quantity, value: f64, least: f64, most: f64) -> Result<f64, Refused> {
    if (least..=most).contains(&value) {
        return Ok(value);
    }
    Err(Refused {
        quantity,
        value,
        least,
        most,
    })
}

/// Dissolved solids in ppm, which is mg/L in fresh water: 0 to 100 000.
///
/// # Examples
/// ```
/// use tapside::water::quantity::Ppm;
/// assert_eq!(Ppm::new(180.0).unwrap().ppm(), 180.0);
/// assert!(Ppm::new(-1.0).is_err());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
pub struct Ppm(f64);

impl Ppm {
    /// # Errors
    /// [`Refused`] below 0, above 100 000 (brine, not a tap) or not a number.
    pub fn new(ppm: f64) -> Result<Self, Refused> {
        within(Quantity::Solids, ppm, 0.0, 100_000.0).map(Self)
    }

    /// The value in ppm.
    #[must_use]
    pub fn ppm(self) -> f64 {
        self.0
    }
}

/// Electrical conductivity in uS/cm, as read: 0 to 200 000.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
pub struct Conductivity(f64);

impl Conductivity {
    /// # Errors
    /// [`Refused`] below 0, above 200 000 or not a number.
    pub fn new(us_per_cm: f64) -> Result<Self, Refused> {
        within(Quantity::Conductivity, us_per_cm, 0.0, 200_000.0).map(Self)
    }

    /// The value in uS/cm.
    #[must_use]
    pub fn us_per_cm(self) -> f64 {
        self.0
    }

    /// The ppm that a meter with this factor shows; the reading must be at, or
    /// compensated to, 25 C.
    ///
    /// # Errors
    /// [`Refused`] when the product is more than [`Ppm`] accepts.
    ///
    /// # Examples
    /// ```
    /// use tapside::water::quantity::{Conductivity, MeterFactor};
    /// let tap = Conductivity::new(360.0).unwrap();
    /// assert_eq!(tap.to_ppm(MeterFactor::NACL).unwrap().ppm(), 180.0);
    /// ```
    pub fn to_ppm(self, factor: MeterFactor) -> Result<Ppm, Refused> {
        Ppm::new(self.0 * factor.0)
    }

    /// The conductivity at 25 C that a meter with this factor shows as `solids`.
    ///
    /// # Errors
    /// [`Refused`] when the quotient is more than [`Conductivity`] accepts.
    pub fn from_ppm(solids: Ppm, factor: MeterFactor) -> Result<Self, Refused> {
        Self::new(solids.0 / factor.0)
    }
}

/// What a handheld meter multiplies uS/cm at 25 C with to show ppm: 0.3 to 1.
///
/// The factor cancels in a rejection as long as both readings use the same.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
pub struct MeterFactor(f64);

impl MeterFactor {
    /// The NaCl scale, 0.5: what most handheld meters use (0.465 to 0.503 over
    /// 23 to 2070 uS/cm in a published factor table).
    pub const NACL: Self = Self(0.5);
    /// A usual factor of natural waters, 0.64 (0.55 to 0.7).
    pub const NATURAL: Self = Self(0.64);

    /// # Errors
    /// [`Refused`] outside 0.3 to 1, where no meter scale lies.
    pub fn new(ppm_per_us: f64) -> Result<Self, Refused> {
        within(Quantity::MeterFactor, ppm_per_us, 0.3, 1.0).map(Self)
    }

    /// The factor, ppm per uS/cm.
    #[must_use]
    pub fn ppm_per_us(self) -> f64 {
        self.0
    }
}

/// Temperature of liquid water: -2 to 60 C (a hose on a frosty morning to the
/// limit of any spiral element).
///
/// # Examples
/// ```
/// use tapside::water::quantity::Temperature;
/// let warm = Temperature::from_fahrenheit(77.0).unwrap();
/// assert_eq!(warm.celsius(), 25.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
pub struct Temperature(f64);

impl Temperature {
    /// # Errors
    /// [`Refused`] outside -2 to 60 C.
    pub fn from_celsius(celsius: f64) -> Result<Self, Refused> {
        within(Quantity::Temperature, celsius, -2.0, 60.0).map(Self)
    }

    /// # Errors
    /// [`Refused`] outside 28.4 to 140 F; the refusal tells Celsius.
    pub fn from_fahrenheit(fahrenheit: f64) -> Result<Self, Refused> {
        Self::from_celsius((fahrenheit - 32.0) * 5.0 / 9.0)
    }

    /// Degrees Celsius.
    #[must_use]
    pub fn celsius(self) -> f64 {
        self.0
    }

    /// Degrees Fahrenheit.
    #[must_use]
    pub fn fahrenheit(self) -> f64 {
        self.0 * 9.0 / 5.0 + 32.0
    }
}

/// Pressure above the air's, as a gauge shows it: 0 to 10 000 kPa.
///
/// Gauge pressures only; nothing here mixes them with absolute ones.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
pub struct Pressure(f64);

impl Pressure {
    /// # Errors
    /// [`Refused`] outside 0 to 10 000 kPa.
    pub fn from_kpa(kpa: f64) -> Result<Self, Refused> {
        within(Quantity::Pressure, kpa, 0.0, 10_000.0).map(Self)
    }

    /// # Errors
    /// [`Refused`] outside 0 to 10 000 kPa.
    pub fn from_psi(psi: f64) -> Result<Self, Refused> {
        Self::from_kpa(psi * KPA_PER_PSI)
    }

    /// # Errors
    /// [`Refused`] outside 0 to 10 000 kPa.
    pub fn from_bar(bar: f64) -> Result<Self, Refused> {
        Self::from_kpa(bar * KPA_PER_BAR)
    }

    /// Kilopascals, gauge.
    #[must_use]
    pub fn kpa(self) -> f64 {
        self.0
    }

    /// Pounds per square inch, gauge.
    #[must_use]
    pub fn psi(self) -> f64 {
        self.0 / KPA_PER_PSI
    }

    /// Bar, gauge.
    #[must_use]
    pub fn bar(self) -> f64 {
        self.0 / KPA_PER_BAR
    }
}

/// A volume of water: 0 to 10 000 000 L.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
pub struct Volume(f64);

impl Volume {
    /// # Errors
    /// [`Refused`] outside 0 to 10 000 000 L.
    pub fn from_litres(litres: f64) -> Result<Self, Refused> {
        within(Quantity::Volume, litres, 0.0, 1e7).map(Self)
    }

    /// # Errors
    /// [`Refused`] outside 0 to 10 000 000 L.
    pub fn from_us_gallons(gallons: f64) -> Result<Self, Refused> {
        Self::from_litres(gallons * LITRES_PER_US_GALLON)
    }

    /// # Errors
    /// [`Refused`] outside 0 to 10 000 000 L.
    pub fn from_imperial_gallons(gallons: f64) -> Result<Self, Refused> {
        Self::from_litres(gallons * LITRES_PER_IMPERIAL_GALLON)
    }

    /// Litres.
    #[must_use]
    pub fn litres(self) -> f64 {
        self.0
    }
}

/// A flow of water: 0 to 10 000 L/min.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
pub struct Flow(f64);

impl Flow {
    /// # Errors
    /// [`Refused`] outside 0 to 10 000 L/min.
    pub fn from_litres_per_minute(lpm: f64) -> Result<Self, Refused> {
        within(Quantity::Flow, lpm, 0.0, 10_000.0).map(Self)
    }

    /// # Errors
    /// [`Refused`] outside 0 to 10 000 L/min.
    pub fn from_us_gallons_per_minute(gpm: f64) -> Result<Self, Refused> {
        Self::from_litres_per_minute(gpm * LITRES_PER_US_GALLON)
    }

    /// From US gallons a day, as elements are rated.
    ///
    /// # Errors
    /// [`Refused`] outside 0 to 10 000 L/min.
    pub fn from_us_gallons_per_day(gpd: f64) -> Result<Self, Refused> {
        Self::from_litres_per_minute(gpd * LITRES_PER_US_GALLON / MINUTES_PER_DAY)
    }

    /// Litres a minute.
    #[must_use]
    pub fn litres_per_minute(self) -> f64 {
        self.0
    }

    /// US gallons a day.
    #[must_use]
    pub fn us_gallons_per_day(self) -> f64 {
        self.0 / LITRES_PER_US_GALLON * MINUTES_PER_DAY
    }
}

/// A share of a whole, 0 to 1 (a recovery, a rejection limit).
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
pub struct Share(f64);

impl Share {
    /// # Errors
    /// [`Refused`] outside 0 to 1.
    pub fn new(fraction: f64) -> Result<Self, Refused> {
        within(Quantity::Share, fraction, 0.0, 1.0).map(Self)
    }

    /// The share as a fraction, 0 to 1.
    #[must_use]
    pub fn fraction(self) -> f64 {
        self.0
    }
}
