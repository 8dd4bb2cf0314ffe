//! Which settings there are: a row each, with all that holds for it.

use serde::{Deserialize, Serialize};

use super::currency::Currency;
use super::hours::Weekday;
use super::value::{Held, Kind, Value};

/// A setting without its value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
#[allow(missing_docs)]
pub enum Field {
    Currency,
    Country,
    ResinPrice,
    MembranePrice,
    PrefilterPrice,
    MembraneLabour,
    ResinLabour,
    ResinLitres,
    LitresPerDay,
    BusyMonths,
    WearingLine,
    DueLine,
    SpentLine,
    SpotLine,
    WorkingDays,
    DayEnds,
    DayEndsOn(Weekday),
    DigestAt,
    Digest,
    Nudges,
    Notices,
    QuietHours,
    Meter,
    Degrees,
    PressureUnit,
    VolumeUnit,
    PrefilterDays,
    Membranes,
    ResinBed,
    Stands,
    Rated,
    ShortNames,
    TimeOff,
    Keep,
}

/// Whom a setting may hold for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// The outfit as a whole.
    Outfit,
    /// The outfit, or one rig otherwise.
    Either,
    /// One rig, and only that.
    Rig,
}

/// Who may set it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetBy {
    /// Money, hours, limits: an owner.
    Owner,
    /// What a rig is: an owner or lead.
    Leads,
    /// Of one rig anybody, of the outfit an owner or lead.
    WhoeverHasIt,
}

/// What a setting is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// What things cost.
    Prices,
    /// What a rig is made of, and what it gives.
    Parts,
    /// When prefilters are changed.
    Prefilters,
    /// When work is done and messages come.
    Hours,
    /// What is judged how.
    Limits,
    /// Units of readings.
    Units,
    /// The rig's names.
    Names,
    /// What is kept for how long.
    Data,
}

/// What a number counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Litres.
    Litres,
    /// A fraction, told in per cent.
    Share,
    /// Dissolved solids.
    Ppm,
}

use Group::{Data, Hours, Limits, Names, Parts, Prefilters, Prices, Units};
use Reach::{Either, Outfit, Rig};
use SetBy::{Leads, Owner, WhoeverHasIt};

/// All that holds for a setting.
#[derive(Debug)]
struct Row {
    field: Field,
    /// Its lasting name in the store; never changed.
    name: &'static str,
    group: Group,
    reach: Reach,
    set_by: SetBy,
    kind: Kind,
    /// What its number counts, where it has one.
    unit: Unit,
    /// What can be meant: a slip of the thumb must not become a price.
    bounds: (f64, f64),
    /// What the trade knows (common practice, no source); what lies beyond is asked about.
    usual: (f64, f64),
    /// What holds when nobody set it, as it is kept.
    default: Option<&'static str>,
    /// What somebody might set, for whoever asks what to type.
    example: Option<&'static str>,
    /// How it is called: of each group of keys in the tables of words, one. Such names mean the setting without a value.
    called: &'static [&'static [&'static str]],
}

const ANY: (f64, f64) = (f64::NEG_INFINITY, f64::INFINITY);

const fn row(field: Field, name: &'static str, group: Group, reach: Reach, set_by: SetBy, kind: Kind) -> Row {
    Row {
        field,
        name,
        group,
        reach,
        set_by,
        kind,
        unit: Unit::Litres,
        bounds: ANY,
        usual: ANY,
        default: None,
        example: None,
        called: &[],
    }
}

impl Row {
    const fn counting(self, unit: Unit) -> Self {
        Self { unit, ..self }
    }

    const fn within(self, least: f64, most: f64) -> Self {
        Self {
            bounds: (least, most),
            ..self
        }
    }

    const fn usually(self, least: f64, most: f64) -> Self {
        Self {
            usual: (least, most),
            ..self
        }
    }

    const fn otherwise(self, default: &'static str) -> Self {
        Self {
            default: Some(default),
            ..self
        }
    }

    const fn such_as(self, example: &'static str) -> Self {
        Self {
            example: Some(example),
            ..self
        }
    }

    const fn called(self, called: &'static [&'static [&'static str]]) -> Self {
        Self { called, ..self }
    }
}

/// More than nothing.
const SOME: f64 = 0.001;
const MOST: f64 = f64::INFINITY;

/// The settings, in the order in which they are listed.
const TABLE: [Row; 40] = [
    row(Field::ResinPrice, "resin-price", Prices, Either, Owner, Kind::Money)
        .within(SOME, MOST)
        .usually(1.5, 60.0)
        .such_as("9")
        .called(&[&["resin"], &["price"]]),
    row(
        Field::MembranePrice,
        "membrane-price",
        Prices,
        Either,
        Owner,
        Kind::Money,
    )
    .within(SOME, MOST)
    .usually(30.0, 2000.0)
    .such_as("180")
    .called(&[&["membrane"], &["price"]]),
    row(
        Field::PrefilterPrice,
        "prefilter-price",
        Prices,
        Either,
        Owner,
        Kind::Money,
    )
    .within(SOME, MOST)
    .usually(2.0, 400.0)
    .such_as("25")
    .called(&[&["prefilter"], &["price"]]),
    row(
        Field::MembraneLabour,
        "membrane-labour",
        Prices,
        Either,
        Owner,
        Kind::Money,
    )
    .such_as("40")
    .called(&[&["labour"]]),
    row(Field::ResinLabour, "resin-labour", Prices, Either, Owner, Kind::Money)
        .such_as("15")
        .called(&[&["labour"], &["resin"]]),
    row(Field::Currency, "currency", Prices, Outfit, Owner, Kind::Currency)
        .such_as("EUR")
        .called(&[&["currency"]]),
    row(
        Field::LitresPerDay,
        "litres-per-day",
        Parts,
        Either,
        Leads,
        Kind::Number,
    )
    .within(10.0, 50_000.0)
    .usually(40.0, 8000.0)
    .such_as("800")
    .called(&[&["perday"], &["litre", "gallon", "volume"]]),
    row(Field::ResinLitres, "resin-litres", Parts, Either, Leads, Kind::Number)
        .within(0.5, 500.0)
        .usually(2.0, 200.0)
        .such_as("25")
        .called(&[&["resin", "bed"]]),
    row(Field::BusyMonths, "busy-months", Hours, Outfit, Owner, Kind::Months)
        .such_as("100,100,100,100,100,150,150,150,100,100,100,100")
        .called(&[&["busy"]]),
    row(Field::WorkingDays, "working-days", Hours, Outfit, Owner, Kind::Days)
        .otherwise("mon,tue,wed,thu,fri")
        .called(&[&["working"]]),
    row(Field::DayEnds, "day-ends", Hours, Either, Owner, Kind::Clock)
        .usually(11.0, 22.0)
        .otherwise("17:00")
        .called(&[&["ends"]]),
    day_ends_on(Weekday::Monday, "day-ends-mon"),
    day_ends_on(Weekday::Tuesday, "day-ends-tue"),
    day_ends_on(Weekday::Wednesday, "day-ends-wed"),
    day_ends_on(Weekday::Thursday, "day-ends-thu"),
    day_ends_on(Weekday::Friday, "day-ends-fri"),
    day_ends_on(Weekday::Saturday, "day-ends-sat"),
    day_ends_on(Weekday::Sunday, "day-ends-sun"),
    row(Field::TimeOff, "time-off", Hours, Either, WhoeverHasIt, Kind::DaysOff)
        .such_as("2026-12-24/2027-01-03 off")
        .called(&[&["timeoff"]]),
    row(Field::DigestAt, "digest-at", Hours, Outfit, Owner, Kind::DayAt)
        .otherwise("mon 07:00")
        .called(&[&["digest"]]),
    row(Field::Digest, "digest", Hours, Outfit, Owner, Kind::Switch).otherwise("on"),
    row(Field::Nudges, "nudges", Hours, Either, Owner, Kind::Switch)
        .otherwise("on")
        .called(&[&["reminders"]]),
    row(Field::Notices, "notices", Hours, Outfit, Owner, Kind::Switch)
        .otherwise("on")
        .called(&[&["notices"]]),
    row(Field::QuietHours, "quiet-hours", Hours, Outfit, Owner, Kind::Between)
        .otherwise("20:00-07:00")
        .called(&[&["quiet"]]),
    line(Field::WearingLine, "wearing-line")
        .otherwise("0.9")
        .called(&[&["wearing"]]),
    line(Field::DueLine, "due-line").otherwise("0.85").called(&[&["due"]]),
    line(Field::SpentLine, "spent-line")
        .otherwise("0.8")
        .called(&[&["spent"]]),
    row(Field::SpotLine, "spot-line", Limits, Outfit, Owner, Kind::Number)
        .counting(Unit::Ppm)
        .within(1.0, 100.0)
        .usually(2.0, 30.0)
        .otherwise("10")
        .called(&[&["spots"]]),
    row(Field::Country, "country", Limits, Outfit, Owner, Kind::Country)
        .such_as("US")
        .called(&[&["country"]]),
    row(Field::Meter, "meter", Units, Outfit, Owner, Kind::Meter)
        .otherwise("ppm")
        .called(&[&["meter"]]),
    row(Field::Degrees, "degrees", Units, Outfit, Owner, Kind::Degrees)
        .otherwise("C")
        .called(&[&["degrees"]]),
    row(
        Field::PressureUnit,
        "pressure-unit",
        Units,
        Outfit,
        Owner,
        Kind::Pressure,
    )
    .otherwise("bar")
    .called(&[&["pressure"]]),
    row(Field::VolumeUnit, "volume-unit", Units, Outfit, Owner, Kind::Volume)
        .otherwise("l")
        .called(&[&["volume"]]),
    row(
        Field::PrefilterDays,
        "prefilter-days",
        Prefilters,
        Either,
        Leads,
        Kind::Count,
    )
    .within(7.0, 1500.0)
    .usually(14.0, 730.0)
    .otherwise("180")
    .called(&[&["prefilter"]]),
    row(Field::Membranes, "membranes", Parts, Rig, Leads, Kind::Count)
        .within(1.0, 8.0)
        .such_as("2")
        .called(&[&["membrane"]]),
    row(Field::ResinBed, "resin-bed", Parts, Rig, Leads, Kind::Bed).such_as("no"),
    row(Field::Stands, "stands", Parts, Rig, Leads, Kind::Stands)
        .such_as("lying")
        .called(&[&["upright", "lying"]]),
    row(Field::Rated, "rated", Parts, Either, Leads, Kind::Rated)
        .such_as("150 77 60")
        .called(&[&["rated"]]),
    row(Field::ShortNames, "short-names", Names, Rig, Leads, Kind::Names)
        .such_as("H")
        .called(&[&["called"]]),
    // With less than a year nothing would be known of a membrane's wear.
    row(Field::Keep, "keep-years", Data, Outfit, Owner, Kind::Years)
        .within(1.0, 50.0)
        .otherwise("everything"),
];

const fn day_ends_on(day: Weekday, name: &'static str) -> Row {
    row(Field::DayEndsOn(day), name, Hours, Either, Owner, Kind::Clock)
        .usually(11.0, 22.0)
        .such_as("13:00")
}

/// A line of the rejection, a fraction.
const fn line(field: Field, name: &'static str) -> Row {
    row(field, name, Limits, Outfit, Owner, Kind::Number)
        .counting(Unit::Share)
        .within(0.3, 0.99)
        .usually(0.6, 0.98)
}

impl From<Field> for String {
    fn from(field: Field) -> Self {
        field.name().to_owned()
    }
}

impl TryFrom<String> for Field {
    type Error = String;

    fn try_from(name: String) -> Result<Self, String> {
        Self::named(&name).ok_or(name)
    }
}

impl Field {
    /// All of them, in the order in which they are listed.
    pub fn all() -> impl Iterator<Item = Self> {
        TABLE.iter().map(|row| row.field)
    }

    fn row(self) -> &'static Row {
        TABLE.iter().find(|row| row.field == self).unwrap_or(&TABLE[0])
    }

    /// Its lasting name in the store.
    pub fn name(self) -> &'static str {
        self.row().name
    }

    /// The field of a lasting name.
    pub fn named(name: &str) -> Option<Self> {
        TABLE.iter().find(|row| row.name == name).map(|row| row.field)
    }

    /// Whom it may hold for.
    pub fn reach(self) -> Reach {
        self.row().reach
    }

    /// Who may set it.
    pub fn set_by(self) -> SetBy {
        self.row().set_by
    }

    /// What it is about.
    pub fn group(self) -> Group {
        self.row().group
    }

    /// What kind of value it takes.
    pub fn kind(self) -> Kind {
        self.row().kind
    }

    /// What its number counts, where it has one.
    pub fn unit(self) -> Unit {
        self.row().unit
    }

    /// What is said of it besides a value, of each group one: for its default, its example, and what is asked.
    pub(super) fn called(self) -> &'static [&'static [&'static str]] {
        self.row().called
    }

    /// What holds when nobody set it.
    pub fn default(self) -> Option<Setting> {
        Setting::kept(self, self.row().default?)
    }

    /// What somebody might set.
    pub fn example(self) -> Option<Setting> {
        Setting::kept(self, self.row().example?)
    }

    /// The setting with this value, which is of its kind.
    pub fn to(self, value: impl Into<Value>) -> Setting {
        let value = value.into();
        debug_assert_eq!(value.kind(), self.kind(), "{self:?}");
        Setting { field: self, value }
    }
}

/// One thing that is set, with its value.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "(Field, String)", into = "(Field, String)")]
pub struct Setting {
    field: Field,
    value: Value,
}

impl From<Setting> for (Field, String) {
    fn from(setting: Setting) -> Self {
        (setting.field, setting.text())
    }
}

impl TryFrom<(Field, String)> for Setting {
    type Error = String;

    fn try_from((field, text): (Field, String)) -> Result<Self, String> {
        Self::kept(field, &text).ok_or(text)
    }
}

impl Setting {
    /// The setting that a field's kept value makes; none if it cannot be meant.
    pub fn kept(field: Field, text: &str) -> Option<Self> {
        let value = Value::kept(field.kind(), text)?;
        Some(Self { field, value }).filter(Self::is_plausible)
    }

    /// Which setting this is.
    pub fn field(&self) -> Field {
        self.field
    }

    /// Its value.
    pub fn value(&self) -> &Value {
        &self.value
    }

    /// Its value, if it is of this type.
    pub fn get<T: Held>(&self) -> Option<T> {
        T::of(&self.value).cloned()
    }

    /// The value as it is kept.
    pub fn text(&self) -> String {
        self.value.text()
    }

    /// Whether a value can be meant.
    pub fn is_plausible(&self) -> bool {
        let (least, most) = self.field.row().bounds;
        let is_within = |measure| (least..=most).contains(&measure);
        self.value.is_sound() && self.value.measure().is_none_or(is_within)
    }

    /// Whether the trade knows such values: others are asked about. Prices are judged in the currencies whose unit is
    /// worth about as much as a euro, and more loosely where none is set.
    pub fn is_usual(&self, currency: Option<Currency>) -> bool {
        let (least, most) = self.field.row().usual;
        let is_money = self.field.kind() == Kind::Money;
        let is_alike =
            |currency: Currency| ["USD", "EUR", "GBP", "CAD", "AUD", "NZD", "CHF"].contains(&currency.code());
        let loosely = match currency {
            Some(currency) if is_money && !is_alike(currency) => return true,
            None if is_money => 5.0,
            _ => 1.0,
        };
        let is_within = |measure| (least / loosely..=most * loosely).contains(&measure);
        self.value.measure().is_none_or(is_within)
    }
}

#[cfg(test)]
mod tests {
    use super::super::country::Country;
    use super::*;
    use crate::water::settings::Limits;

    #[test]
    fn names_lead_back_to_their_fields() {
        for field in Field::all() {
            assert_eq!(Field::named(field.name()), Some(field));
        }
        assert_eq!(Field::named("colour"), None);
    }

    #[test]
    fn a_value_is_kept_and_comes_back() {
        let more = [
            (Field::ResinPrice, "9"),
            (Field::MembranePrice, "180.5"),
            (Field::MembraneLabour, "0"),
            (Field::ResinLitres, "22.712470704"),
            (Field::WearingLine, "0.925"),
            (Field::WorkingDays, "sat"),
            (Field::Digest, "off"),
            (Field::QuietHours, "off"),
            (Field::Meter, "0.64"),
            (Field::Degrees, "F"),
            (Field::PressureUnit, "psi"),
            (Field::VolumeUnit, "gal"),
            (Field::ResinBed, "yes"),
            (Field::Stands, "upright"),
            (Field::Rated, "150.5 77 60"),
            (Field::ShortNames, "H,big bird"),
            (Field::TimeOff, "2026-12-24/2027-01-03 off,2027-03-01/ garage"),
            (Field::Keep, "5"),
        ];
        let of_rows = Field::all().flat_map(|field| {
            let row = field.row();
            [row.default, row.example]
                .into_iter()
                .flatten()
                .map(move |text| (field, text))
        });
        let currencies = Currency::all().map(|one| (Field::Currency, one.code()));
        let countries = Country::all().map(|one| (Field::Country, one.code()));
        for (field, text) in of_rows.chain(more).chain(currencies).chain(countries) {
            let back = Setting::kept(field, text).map(|setting| setting.text());
            assert_eq!(back.as_deref(), Some(text), "{field:?}");
        }
    }

    #[test]
    fn a_default_or_an_example_is_a_usual_value() {
        for field in Field::all() {
            for shown in [field.row().default, field.row().example].into_iter().flatten() {
                let setting = Setting::kept(field, shown);
                assert!(
                    setting.is_some_and(|setting| setting.is_usual(None)),
                    "{field:?} {shown}"
                );
            }
            assert!(field.default().or_else(|| field.example()).is_some(), "{field:?}");
        }
    }

    #[test]
    fn the_lines_are_those_of_the_computation() {
        let usual = Limits::default();
        for (field, line) in [
            (Field::WearingLine, usual.wearing),
            (Field::DueLine, usual.due),
            (Field::SpentLine, usual.spent),
            (Field::SpotLine, usual.spots_ppm),
        ] {
            assert_eq!(field.default().and_then(|line| line.get()), Some(line));
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
            ("time-off", "2026-12-24/2026-12-24 off"),
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
