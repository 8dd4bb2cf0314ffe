//! What a setting may be set to, by kind: as text for the store and back, and as a number for its bounds.

use super::amount::Amount;
use super::country::Country;
use super::currency::Currency;
use super::hours::{Clock, Days, Weekday};
use crate::water::days_off::{DaysOff, MOST_SPANS};

/// Longest short name, and how many a rig may have.
const NAME_LETTERS: usize = 30;
const SHORT_NAMES: usize = 8;

/// How it is kept that nothing is deleted.
const EVERYTHING: &str = "everything";

/// The kinds of values, and the type that each holds.
macro_rules! kinds {
    ($($(#[$meaning:meta])* $kind:ident($type:ty),)*) => {
        /// What kind of value a setting takes.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Kind {
            $($(#[$meaning])* $kind,)*
        }

        /// A value of one of the kinds.
        #[derive(Clone, Debug, PartialEq)]
        pub enum Value {
            $($(#[$meaning])* $kind($type),)*
        }

        impl Value {
            /// What kind of value it is.
            pub fn kind(&self) -> Kind {
                match self {
                    $(Self::$kind(_) => Kind::$kind,)*
                }
            }

            /// The value as it is kept.
            pub fn text(&self) -> String {
                match self {
                    $(Self::$kind(value) => value.text(),)*
                }
            }

            /// The value of a kind that was kept as this text; none if no such value has it.
            pub fn kept(kind: Kind, text: &str) -> Option<Self> {
                Some(match kind {
                    $(Kind::$kind => Self::$kind(<$type as Kept>::kept(text)?),)*
                })
            }
        }

        $(
            impl From<$type> for Value {
                fn from(value: $type) -> Self {
                    Self::$kind(value)
                }
            }

            impl Held for $type {
                fn of(value: &Value) -> Option<&Self> {
                    match value {
                        Value::$kind(value) => Some(value),
                        _ => None,
                    }
                }
            }
        )*
    };
}

kinds! {
    /// Money.
    Money(Amount),
    /// A measure in the setting's own unit.
    Number(f64),
    /// How many.
    Count(u16),
    /// On or off.
    Switch(bool),
    /// A time of day.
    Clock(Clock),
    /// Days of the week.
    Days(Days),
    /// A day of the week and a time.
    DayAt((Weekday, Clock)),
    /// From one time of day to another; none: never.
    Between(Option<(Clock, Clock)>),
    /// How busy each month is, from January on, per cent of an ordinary one.
    Months([u16; 12]),
    /// What meters show.
    Meter(Meter),
    /// The unit of bare degrees.
    Degrees(Degrees),
    /// A unit of pressure.
    Pressure(PressureUnit),
    /// A unit of volume.
    Volume(VolumeUnit),
    /// Whether a bed of resin follows the membrane.
    Bed(Bed),
    /// How a bed stands.
    Stands(Stands),
    /// A country.
    Country(Country),
    /// A currency.
    Currency(Currency),
    /// What one membrane gives at its test conditions.
    Rated(Rated),
    /// Other names of a rig.
    Names(Vec<String>),
    /// Spans of days on which nobody works, or the rig does not.
    DaysOff(Vec<DaysOff>),
    /// Years; none: for good.
    Years(Option<u16>),
}

/// A type of which one kind of value is.
pub trait Held: Clone + Into<Value> {
    /// What a value holds, if it is of this type.
    fn of(value: &Value) -> Option<&Self>;
}

/// A type that is kept as text.
trait Kept: Sized {
    fn text(&self) -> String;
    fn kept(text: &str) -> Option<Self>;
}

/// Closed choices, and how each is kept.
macro_rules! choices {
    ($($(#[$meaning:meta])* $type:ident { $($(#[$of_one:meta])* $one:ident = $text:literal,)* })*) => {
        $(
            $(#[$meaning])*
            #[derive(Clone, Copy, Debug, PartialEq, Eq)]
            #[allow(missing_docs)]
            pub enum $type {
                $($(#[$of_one])* $one,)*
            }

            impl Kept for $type {
                fn text(&self) -> String {
                    match self {
                        $(Self::$one => $text,)*
                    }
                    .to_owned()
                }

                fn kept(text: &str) -> Option<Self> {
                    match text {
                        $($text => Some(Self::$one),)*
                        _ => None,
                    }
                }
            }
        )*
    };
}

choices! {
    /// The unit of bare degrees.
    Degrees { Celsius = "C", Fahrenheit = "F", }
    /// A unit of pressure.
    PressureUnit { Bar = "bar", Psi = "psi", }
    /// A unit of volume.
    VolumeUnit {
        Litres = "l",
        /// US gallons.
        Gallons = "gal",
    }
    /// Whether a bed of resin follows the membrane; without one the readings are tap and RO.
    Bed { There = "yes", Absent = "no", }
    /// How a resin bed stands: on its side, loosely packed resin lets water slip over the top.
    Stands { Upright = "upright", Lying = "lying", }
}

/// What a meter shows when nothing else is said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meter {
    /// Dissolved solids. Conductivity that is sent with its unit is turned with the usual factor.
    Ppm,
    /// Conductivity at 25 C; ppm per uS/cm to turn it with.
    Conductivity(f64),
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

impl Kind {
    /// All values of a kind that has few, as they are kept.
    pub fn choices(self) -> &'static [&'static str] {
        match self {
            Self::Switch => &["on", "off"],
            Self::Degrees => &["C", "F"],
            Self::Pressure => &["bar", "psi"],
            Self::Volume => &["l", "gal"],
            Self::Bed => &["yes", "no"],
            Self::Stands => &["upright", "lying"],
            _ => &[],
        }
    }
}

impl Value {
    /// The number that bounds are for; none where a value is no measure.
    pub(super) fn measure(&self) -> Option<f64> {
        Some(match self {
            Self::Money(amount) => amount.main(),
            Self::Number(number) | Self::Meter(Meter::Conductivity(number)) => *number,
            Self::Count(count) | Self::Years(Some(count)) => f64::from(*count),
            Self::Clock(clock) => f64::from(clock.hour()),
            _ => return None,
        })
    }

    /// Whether it can be meant at all, whatever it is set for.
    pub(super) fn is_sound(&self) -> bool {
        match self {
            Self::Number(number) => number.is_finite(),
            Self::Meter(Meter::Conductivity(factor)) => (0.3..=1.0).contains(factor),
            Self::Months(months) => {
                months.iter().all(|percent| *percent <= 500) && months.iter().any(|percent| *percent > 0)
            }
            Self::Rated(rated) => {
                (10.0..=20_000.0).contains(&rated.gallons_per_day)
                    && (32.0..=120.0).contains(&rated.temperature_f)
                    && (5.0..=600.0).contains(&rated.pressure_psi)
            }
            Self::Names(names) => {
                (1..=SHORT_NAMES).contains(&names.len()) && names.iter().all(|name| is_short_name(name))
            }
            Self::DaysOff(spans) => (1..=MOST_SPANS).contains(&spans.len()),
            Self::Between(Some((from, to))) => from != to,
            _ => true,
        }
    }
}

/// A short name has a letter, so that it is told from a number.
fn is_short_name(name: &str) -> bool {
    let letters = name.chars().count();
    (1..=NAME_LETTERS).contains(&letters)
        && name.trim() == name
        && name.chars().any(char::is_alphabetic)
        && !name.chars().any(|letter| letter.is_control() || letter == ',')
}

/// What is written and read by methods of its own.
macro_rules! kept_by_its_own {
    ($($type:ty: $text:expr, $kept:expr;)*) => {
        $(
            impl Kept for $type {
                fn text(&self) -> String {
                    $text(self)
                }

                fn kept(text: &str) -> Option<Self> {
                    $kept(text)
                }
            }
        )*
    };
}

kept_by_its_own! {
    Amount: |amount: &Self| Amount::text(*amount), Amount::kept;
    f64: f64::to_string, |text: &str| text.parse().ok();
    u16: u16::to_string, |text: &str| text.parse().ok();
    bool: |on: &bool| if *on { "on" } else { "off" }.to_owned(), switch;
    Clock: |clock: &Self| Clock::text(*clock), |text| Clock::typed(text, None);
    Days: |days: &Self| Days::text(*days), Days::kept;
    (Weekday, Clock): |(day, at): &Self| format!("{} {}", day.text(), at.text()), day_at;
    Option<(Clock, Clock)>: between_text, between;
    [u16; 12]: |months: &Self| months.map(|percent| percent.to_string()).join(","), months;
    Country: |country: &Self| country.code().to_owned(), Country::of_code;
    Currency: |currency: &Self| currency.code().to_owned(), Currency::of_code;
    Vec<DaysOff>: |spans: &Self| spans.iter().map(DaysOff::text).collect::<Vec<_>>().join(","), days_off;
    Vec<String>: |names: &Self| names.join(","), |text: &str| Some(text.split(',').map(str::to_owned).collect());
}

impl Kept for Meter {
    fn text(&self) -> String {
        match self {
            Self::Ppm => "ppm".to_owned(),
            Self::Conductivity(factor) => factor.to_string(),
        }
    }

    fn kept(text: &str) -> Option<Self> {
        match text {
            "ppm" => Some(Self::Ppm),
            factor => Some(Self::Conductivity(factor.parse().ok()?)),
        }
    }
}

impl Kept for Rated {
    fn text(&self) -> String {
        format!("{} {} {}", self.gallons_per_day, self.temperature_f, self.pressure_psi)
    }

    fn kept(text: &str) -> Option<Self> {
        let mut numbers = text.split(' ').map(|number| number.parse().ok());
        let rated = Self {
            gallons_per_day: numbers.next()??,
            temperature_f: numbers.next()??,
            pressure_psi: numbers.next()??,
        };
        numbers.next().is_none().then_some(rated)
    }
}

impl Kept for Option<u16> {
    fn text(&self) -> String {
        self.map_or_else(|| EVERYTHING.to_owned(), |years| years.to_string())
    }

    fn kept(text: &str) -> Option<Self> {
        match text {
            EVERYTHING => Some(None),
            years => Some(Some(years.parse().ok()?)),
        }
    }
}

fn days_off(text: &str) -> Option<Vec<DaysOff>> {
    text.split(',').map(DaysOff::kept).collect()
}

fn switch(text: &str) -> Option<bool> {
    ["off", "on"].iter().position(|known| *known == text).map(|at| at == 1)
}

fn day_at(text: &str) -> Option<(Weekday, Clock)> {
    let (day, clock) = text.split_once(' ')?;
    Some((Weekday::kept(day)?, Clock::typed(clock, None)?))
}

fn between_text(times: &Option<(Clock, Clock)>) -> String {
    times.map_or_else(
        || "off".to_owned(),
        |(from, to)| format!("{}-{}", from.text(), to.text()),
    )
}

fn between(text: &str) -> Option<Option<(Clock, Clock)>> {
    if text == "off" {
        return Some(None);
    }
    let (from, to) = text.split_once('-')?;
    Some(Some((Clock::typed(from, None)?, Clock::typed(to, None)?)))
}

fn months(text: &str) -> Option<[u16; 12]> {
    let percents: Option<Vec<u16>> = text.split(',').map(|percent| percent.parse().ok()).collect();
    percents?.try_into().ok()
}
