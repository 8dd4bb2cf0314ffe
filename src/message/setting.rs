//! Everything that can be set for an outfit or for one rig: a closed list.
//!
//! Each has a lasting name and value text for the store (`kept`) and its ways of
//! being meant (`rows`, with a table of words a language).

mod amount;
mod country;
mod currency;
mod field;
mod hours;
mod kept;
mod nearest;
mod rows;
mod said;
mod typed;
mod values;
mod wish;

use serde::{Deserialize, Serialize};

pub use amount::Amount;
pub use country::{Country, Ways};
pub use currency::{Currency, Side};
pub use field::{Field, Reach, SetBy};
pub use hours::{Clock, Days, Weekday};
pub use nearest::{Meant, Nearest, nearest};
pub use typed::{answer, asks_what_is_set, read, read_among, read_each};
pub use wish::{Change, Wish, WishFor};

/// One thing that is set, with its value.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "(Field, String)", into = "(Field, String)")]
pub enum Setting {
    /// What the outfit pays with.
    Currency(Currency),
    /// Where it works; brings units, currency and seasons that were not set themselves.
    Country(Country),
    /// Resin, per litre.
    ResinPrice(Amount),
    /// One membrane.
    MembranePrice(Amount),
    /// One change of prefilters.
    PrefilterPrice(Amount),
    /// Labour to change the membranes.
    MembraneLabour(Amount),
    /// Labour to change the bed.
    ResinLabour(Amount),
    /// Litres of resin in the bed.
    ResinLitres(f64),
    /// Purified litres on a working day.
    LitresPerDay(f64),
    /// How busy each month is, from January on, per cent of an ordinary one.
    BusyMonths([u16; 12]),
    /// Below this rejection, a fraction, a membrane is wearing.
    WearingLine(f64),
    /// Below this one a new membrane is weighed.
    DueLine(f64),
    /// Below this one it is done.
    SpentLine(f64),
    /// The days on which crews work.
    WorkingDays(Days),
    /// When the working day ends.
    DayEnds(Clock),
    /// When it ends on one day of the week.
    DayEndsOn(Weekday, Clock),
    /// When owners get the digest.
    DigestAt(Weekday, Clock),
    /// Whether they get it.
    Digest(bool),
    /// Whether flush nudges are sent.
    Nudges(bool),
    /// Whether the other due messages are sent: resin, prefilters, membrane, idle rig, frost.
    Notices(bool),
    /// From when to when nothing is sent unasked; none: at any time.
    QuietHours(Option<(Clock, Clock)>),
    /// What the meters show.
    Meter(Meter),
    /// The unit of bare degrees.
    Degrees(Degrees),
    /// The unit in which pressures are told.
    PressureUnit(PressureUnit),
    /// The unit in which volumes are told.
    VolumeUnit(VolumeUnit),
    /// Days between changes of prefilters.
    PrefilterDays(u16),
    /// How many membranes the rig has.
    Membranes(u8),
    /// Whether a bed of resin follows the membrane; without one the readings are tap and RO.
    ResinBed(bool),
    /// How the resin bed stands.
    Stands(Stands),
    /// What one membrane is rated for.
    Rated(Rated),
    /// Other names of the rig.
    ShortNames(Vec<String>),
    /// How many years readings and services are kept; none: for good.
    Keep(Option<u16>),
}

/// What a meter shows when nothing else is said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meter {
    /// Dissolved solids. Conductivity that is sent with its unit is turned with the usual factor.
    Ppm,
    /// Conductivity at 25 C; ppm per uS/cm to turn it with.
    Conductivity(f64),
}

/// The unit of bare degrees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Degrees {
    Celsius,
    Fahrenheit,
}

/// A unit of pressure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum PressureUnit {
    Bar,
    Psi,
}

/// A unit of volume.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum VolumeUnit {
    Litres,
    /// US gallons.
    Gallons,
}

/// How a resin bed stands: on its side, loosely packed resin lets water slip over the top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Stands {
    Upright,
    Lying,
}

/// What one membrane gives at its test conditions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rated {
    /// US gallons a day.
    pub gallons_per_day: f64,
    /// Water temperature of the test, degrees Fahrenheit.
    pub temperature_f: f64,
    /// Gauge pressure of the test, psi.
    pub pressure_psi: f64,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A sample of each setting, for the tests of the parts.
    pub(super) fn samples() -> Vec<Setting> {
        let clock = |hour, minute| Clock::new(hour, minute).unwrap_or(Clock::MIDNIGHT);
        let amount = |main| Amount::of_main(main).unwrap_or_default();
        let mut samples = vec![
            Setting::ResinPrice(amount(9.0)),
            Setting::MembranePrice(amount(180.5)),
            Setting::PrefilterPrice(amount(25.0)),
            Setting::MembraneLabour(amount(0.0)),
            Setting::ResinLabour(amount(15.25)),
            Setting::ResinLitres(25.0),
            Setting::ResinLitres(22.712_470_704),
            Setting::LitresPerDay(800.0),
            Setting::BusyMonths([100, 100, 100, 100, 100, 150, 150, 150, 100, 100, 100, 60]),
            Setting::WearingLine(0.925),
            Setting::DueLine(0.85),
            Setting::SpentLine(0.8),
            Setting::WorkingDays(Days::MONDAY_TO_FRIDAY),
            Setting::DayEnds(clock(16, 30)),
            Setting::DigestAt(Weekday::Monday, clock(7, 0)),
            Setting::Digest(false),
            Setting::Nudges(true),
            Setting::Notices(false),
            Setting::QuietHours(Some((clock(20, 0), clock(7, 0)))),
            Setting::QuietHours(None),
            Setting::Meter(Meter::Ppm),
            Setting::Meter(Meter::Conductivity(0.64)),
            Setting::Degrees(Degrees::Fahrenheit),
            Setting::PressureUnit(PressureUnit::Psi),
            Setting::VolumeUnit(VolumeUnit::Gallons),
            Setting::PrefilterDays(90),
            Setting::Membranes(2),
            Setting::Stands(Stands::Lying),
            Setting::ResinBed(true),
            Setting::ResinBed(false),
            Setting::Rated(Rated {
                gallons_per_day: 150.0,
                temperature_f: 77.0,
                pressure_psi: 60.0,
            }),
            Setting::ShortNames(vec!["H".to_owned(), "big bird".to_owned()]),
            Setting::Keep(Some(5)),
            Setting::Keep(None),
        ];
        samples.extend(Currency::all().map(Setting::Currency));
        samples.extend(Country::all().map(Setting::Country));
        samples.extend(Weekday::ALL.map(|day| Setting::DayEndsOn(day, clock(13, 0))));
        samples
    }

    #[test]
    fn there_is_a_sample_of_every_setting() {
        for field in Field::all() {
            assert!(samples().iter().any(|sample| sample.field() == field), "{field:?}");
        }
    }
}
