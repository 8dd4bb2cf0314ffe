//! A setting's value as text for the store, and back. What a value may be is
//! checked here, so that a typed value and a stored one obey the same limits.

use super::amount::Amount;
use super::country::Country;
use super::currency::Currency;
use super::field::Field;
use super::hours::{Clock, Days, Weekday};
use super::{Degrees, Meter, PressureUnit, Rated, Setting, Stands, VolumeUnit};

/// Longest short name, and how many a rig may have.
const NAME_LETTERS: usize = 30;
const SHORT_NAMES: usize = 8;

/// How it is kept that nothing is deleted.
const EVERYTHING: &str = "everything";

impl From<Setting> for (Field, String) {
    fn from(setting: Setting) -> Self {
        (setting.field(), setting.value())
    }
}

impl TryFrom<(Field, String)> for Setting {
    type Error = String;

    fn try_from((field, value): (Field, String)) -> Result<Self, String> {
        Self::kept(field, &value).ok_or(value)
    }
}

impl Setting {
    /// The value as it is kept.
    pub fn value(&self) -> String {
        match self {
            Self::Currency(currency) => currency.code().to_owned(),
            Self::Country(country) => country.code().to_owned(),
            Self::ResinPrice(amount)
            | Self::MembranePrice(amount)
            | Self::PrefilterPrice(amount)
            | Self::MembraneLabour(amount)
            | Self::ResinLabour(amount) => amount.text(),
            Self::ResinLitres(number)
            | Self::LitresPerDay(number)
            | Self::WearingLine(number)
            | Self::DueLine(number)
            | Self::SpentLine(number)
            | Self::Meter(Meter::Conductivity(number)) => number.to_string(),
            Self::BusyMonths(months) => months.map(|percent| percent.to_string()).join(","),
            Self::WorkingDays(days) => days.text(),
            Self::DayEnds(clock) | Self::DayEndsOn(_, clock) => clock.text(),
            Self::DigestAt(day, clock) => format!("{} {}", day.text(), clock.text()),
            Self::Digest(on) | Self::Nudges(on) | Self::Notices(on) => if *on { "on" } else { "off" }.to_owned(),
            Self::QuietHours(None) => "off".to_owned(),
            Self::QuietHours(Some((from, to))) => format!("{}-{}", from.text(), to.text()),
            Self::Meter(Meter::Ppm) => "ppm".to_owned(),
            Self::Degrees(Degrees::Celsius) => "C".to_owned(),
            Self::Degrees(Degrees::Fahrenheit) => "F".to_owned(),
            Self::PressureUnit(PressureUnit::Bar) => "bar".to_owned(),
            Self::PressureUnit(PressureUnit::Psi) => "psi".to_owned(),
            Self::VolumeUnit(VolumeUnit::Litres) => "l".to_owned(),
            Self::VolumeUnit(VolumeUnit::Gallons) => "gal".to_owned(),
            Self::PrefilterDays(days) => days.to_string(),
            Self::Membranes(count) => count.to_string(),
            Self::ResinBed(there) => if *there { "yes" } else { "no" }.to_owned(),
            Self::Stands(Stands::Upright) => "upright".to_owned(),
            Self::Stands(Stands::Lying) => "lying".to_owned(),
            Self::Rated(rated) => format!(
                "{} {} {}",
                rated.gallons_per_day, rated.temperature_f, rated.pressure_psi
            ),
            Self::ShortNames(names) => names.join(","),
            Self::Keep(None) => EVERYTHING.to_owned(),
            Self::Keep(Some(years)) => years.to_string(),
        }
    }

    /// The setting that a field's kept value makes; none if it cannot be meant.
    pub fn kept(field: Field, value: &str) -> Option<Self> {
        let setting = match field {
            Field::Currency => Self::Currency(Currency::of_code(value)?),
            Field::Country => Self::Country(Country::of_code(value)?),
            Field::ResinPrice => Self::ResinPrice(Amount::kept(value)?),
            Field::MembranePrice => Self::MembranePrice(Amount::kept(value)?),
            Field::PrefilterPrice => Self::PrefilterPrice(Amount::kept(value)?),
            Field::MembraneLabour => Self::MembraneLabour(Amount::kept(value)?),
            Field::ResinLabour => Self::ResinLabour(Amount::kept(value)?),
            Field::ResinLitres => Self::ResinLitres(value.parse().ok()?),
            Field::LitresPerDay => Self::LitresPerDay(value.parse().ok()?),
            Field::BusyMonths => Self::BusyMonths(months(value)?),
            Field::WearingLine => Self::WearingLine(value.parse().ok()?),
            Field::DueLine => Self::DueLine(value.parse().ok()?),
            Field::SpentLine => Self::SpentLine(value.parse().ok()?),
            Field::WorkingDays => Self::WorkingDays(Days::kept(value)?),
            Field::DayEnds => Self::DayEnds(Clock::typed(value, None)?),
            Field::DayEndsOn(day) => Self::DayEndsOn(day, Clock::typed(value, None)?),
            Field::DigestAt => {
                let (day, clock) = value.split_once(' ')?;
                Self::DigestAt(Weekday::kept(day)?, Clock::typed(clock, None)?)
            }
            Field::Digest => Self::Digest(switch(value)?),
            Field::Nudges => Self::Nudges(switch(value)?),
            Field::Notices => Self::Notices(switch(value)?),
            Field::QuietHours if value == "off" => Self::QuietHours(None),
            Field::QuietHours => {
                let (from, to) = value.split_once('-')?;
                Self::QuietHours(Some((Clock::typed(from, None)?, Clock::typed(to, None)?)))
            }
            Field::Meter if value == "ppm" => Self::Meter(Meter::Ppm),
            Field::Meter => Self::Meter(Meter::Conductivity(value.parse().ok()?)),
            Field::Degrees => Self::Degrees(one_of(value, [("C", Degrees::Celsius), ("F", Degrees::Fahrenheit)])?),
            Field::PressureUnit => {
                Self::PressureUnit(one_of(value, [("bar", PressureUnit::Bar), ("psi", PressureUnit::Psi)])?)
            }
            Field::VolumeUnit => Self::VolumeUnit(one_of(
                value,
                [("l", VolumeUnit::Litres), ("gal", VolumeUnit::Gallons)],
            )?),
            Field::PrefilterDays => Self::PrefilterDays(value.parse().ok()?),
            Field::Membranes => Self::Membranes(value.parse().ok()?),
            Field::ResinBed => Self::ResinBed(one_of(value, [("yes", true), ("no", false)])?),
            Field::Stands => Self::Stands(one_of(value, [("upright", Stands::Upright), ("lying", Stands::Lying)])?),
            Field::Rated => Self::Rated(rated(value)?),
            Field::ShortNames => Self::ShortNames(value.split(',').map(str::to_owned).collect()),
            Field::Keep if value == EVERYTHING => Self::Keep(None),
            Field::Keep => Self::Keep(Some(value.parse().ok()?)),
        };
        setting.is_plausible().then_some(setting)
    }

    /// Whether a value can be meant: a slip of the thumb must not become a price.
    pub fn is_plausible(&self) -> bool {
        match self {
            Self::ResinPrice(amount) | Self::MembranePrice(amount) | Self::PrefilterPrice(amount) => {
                *amount > Amount::default()
            }
            Self::ResinLitres(litres) => (0.5..=500.0).contains(litres),
            Self::LitresPerDay(litres) => (10.0..=50_000.0).contains(litres),
            Self::WearingLine(line) | Self::DueLine(line) | Self::SpentLine(line) => (0.3..=0.99).contains(line),
            Self::BusyMonths(months) => {
                months.iter().all(|percent| *percent <= 500) && months.iter().any(|percent| *percent > 0)
            }
            Self::Meter(Meter::Conductivity(factor)) => (0.3..=1.0).contains(factor),
            Self::PrefilterDays(days) => (7..=1500).contains(days),
            Self::Membranes(count) => (1..=8).contains(count),
            Self::Rated(rated) => {
                (10.0..=20_000.0).contains(&rated.gallons_per_day)
                    && (32.0..=120.0).contains(&rated.temperature_f)
                    && (5.0..=600.0).contains(&rated.pressure_psi)
            }
            Self::ShortNames(names) => {
                (1..=SHORT_NAMES).contains(&names.len()) && names.iter().all(|name| is_short_name(name))
            }
            Self::QuietHours(Some((from, to))) => from != to,
            // With less than a year nothing would be known of a membrane's wear.
            Self::Keep(Some(years)) => (1..=50).contains(years),
            _ => true,
        }
    }
}

impl Setting {
    /// Whether the trade knows such values (common practice, no source): others are asked about. Prices are judged in the
    /// currencies whose unit is worth about as much as a euro, and more loosely where none is set.
    pub fn is_usual(&self, currency: Option<Currency>) -> bool {
        let loosely = if currency.is_none() { 5.0 } else { 1.0 };
        let alike = currency
            .is_none_or(|currency| ["USD", "EUR", "GBP", "CAD", "AUD", "NZD", "CHF"].contains(&currency.code()));
        let price = |amount: &Amount, least: f64, most: f64| {
            !alike || (least / loosely..=most * loosely).contains(&amount.main())
        };
        match self {
            Self::ResinPrice(amount) => price(amount, 1.5, 60.0),
            Self::MembranePrice(amount) => price(amount, 30.0, 2000.0),
            Self::PrefilterPrice(amount) => price(amount, 2.0, 400.0),
            Self::ResinLitres(litres) => (2.0..=200.0).contains(litres),
            Self::LitresPerDay(litres) => (40.0..=8000.0).contains(litres),
            Self::WearingLine(line) | Self::DueLine(line) | Self::SpentLine(line) => (0.6..=0.98).contains(line),
            Self::DayEnds(clock) | Self::DayEndsOn(_, clock) => (11..=22).contains(&clock.hour()),
            Self::PrefilterDays(days) => (14..=730).contains(days),
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

fn switch(value: &str) -> Option<bool> {
    one_of(value, [("on", true), ("off", false)])
}

fn one_of<T: Copy>(value: &str, choices: [(&str, T); 2]) -> Option<T> {
    choices.into_iter().find(|(text, _)| *text == value).map(|(_, one)| one)
}

fn months(value: &str) -> Option<[u16; 12]> {
    let percents: Option<Vec<u16>> = value.split(',').map(|percent| percent.parse().ok()).collect();
    percents?.try_into().ok()
}

fn rated(value: &str) -> Option<Rated> {
    let mut numbers = value.split(' ').map(|number| number.parse().ok());
    let rated = Rated {
        gallons_per_day: numbers.next()??,
        temperature_f: numbers.next()??,
        pressure_psi: numbers.next()??,
    };
    numbers.next().is_none().then_some(rated)
}

#[cfg(test)]
mod tests {
    use super::super::tests::samples;
    use super::*;

    #[test]
    fn a_value_is_kept_and_comes_back() {
        for setting in samples() {
            let back = Setting::kept(setting.field(), &setting.value());
            assert_eq!(back.as_ref(), Some(&setting), "{}", setting.value());
        }
    }

    #[test]
    fn what_cannot_be_meant_is_refused() {
        for (name, value) in [
            ("resin-price", "0"),
            ("resin-price", "-9"),
            ("resin-price", "9.1234"),
            ("resin-litres", "NaN"),
            ("resin-litres", "inf"),
            ("due-line", "85"),
            ("working-days", ""),
            ("day-ends", "24:00"),
            ("quiet-hours", "07:00-07:00"),
            ("meter", "0"),
            ("busy-months", "1,2"),
            ("short-names", "12"),
            ("short-names", "H,"),
            ("rated", "150 77"),
            ("currency", "XYZ"),
        ] {
            let field = Field::named(name);
            assert!(field.is_some(), "{name}");
            assert_eq!(
                field.and_then(|field| Setting::kept(field, value)),
                None,
                "{name} {value}"
            );
        }
    }
}
