//! Each setting by what it needs to be said: topics, and a value of its kind. One row a way of meaning it; the wordings
//! are in the tables of words.

use super::Field;

/// What kind of value a row takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Value {
    /// Money, perhaps for a unit or a pack of resin.
    Price,
    /// Litres.
    Volume,
    /// Litres on a working day.
    PerDay,
    /// A rejection in per cent.
    Line,
    /// Days of the week.
    Days,
    /// A time of day, perhaps on one day of the week.
    DayEnd,
    /// A day of the week, a time, or both.
    DigestTime,
    /// From one time of day to another, or one of them, or off.
    Quiet,
    /// On or off.
    Switch,
    /// Months and how busy they are.
    Busy,
    /// What meters show.
    Meter,
    /// One of several words: a key and the kept value that it stands for.
    Choice(&'static [(&'static str, &'static str)]),
    /// A country.
    Country,
    /// A currency.
    Currency,
    /// Days between changes.
    Every,
    /// How many.
    Count,
    /// Flow, temperature and pressure of a test.
    Rated,
    /// The rest of the text: names.
    Names,
    /// Years, or for good.
    Years,
}

/// A way of meaning a setting.
#[derive(Debug)]
pub struct Row {
    /// The setting.
    pub field: Field,
    /// Of each group, one must be said.
    pub needs: &'static [&'static [&'static str]],
    /// What may be said besides small words and the value.
    pub may: &'static [&'static str],
    /// The value.
    pub value: Value,
}

const fn row(
    field: Field,
    needs: &'static [&'static [&'static str]],
    may: &'static [&'static str],
    value: Value,
) -> Row {
    Row {
        field,
        needs,
        may,
        value,
    }
}

/// More special ones first.
pub const ROWS: &[Row] = &[
    row(Field::ShortNames, &[&["called"]], &[], Value::Names),
    row(Field::Rated, &[&["rated"]], &["membrane", "each"], Value::Rated),
    row(
        Field::ResinLabour,
        &[&["labour"], &["resin"]],
        &["price", "each", "bed"],
        Value::Price,
    ),
    row(
        Field::MembraneLabour,
        &[&["labour"]],
        &["membrane", "price", "each"],
        Value::Price,
    ),
    row(
        Field::ResinPrice,
        &[&["resin", "bag"]],
        &["price", "bag", "each", "deed"],
        Value::Price,
    ),
    row(
        Field::MembranePrice,
        &[&["membrane"]],
        &["price", "each", "deed"],
        Value::Price,
    ),
    row(
        Field::PrefilterPrice,
        &[&["prefilter"]],
        &["price", "each", "deed"],
        Value::Price,
    ),
    row(Field::LitresPerDay, &[&["perday"]], &["volume"], Value::PerDay),
    row(
        Field::ResinLitres,
        &[&["resin", "bed"]],
        &["bed", "volume"],
        Value::Volume,
    ),
    row(
        Field::PrefilterDays,
        &[&["prefilter"], &["every"]],
        &["deed"],
        Value::Every,
    ),
    row(Field::Membranes, &[&["membrane"]], &[], Value::Count),
    row(
        Field::WearingLine,
        &[&["wearing"]],
        &["membrane", "line", "under", "tell", "percent"],
        Value::Line,
    ),
    row(
        Field::SpentLine,
        &[&["spent"]],
        &["membrane", "line", "under", "tell", "percent"],
        Value::Line,
    ),
    row(
        Field::DueLine,
        &[&["due"]],
        &["membrane", "line", "under", "tell", "percent"],
        Value::Line,
    ),
    row(
        Field::DueLine,
        &[&["tell"], &["under"], &["membrane"]],
        &["line", "percent"],
        Value::Line,
    ),
    row(
        Field::BusyMonths,
        &[&["month_of"], &["busy", "twice", "half"]],
        &["percent"],
        Value::Busy,
    ),
    row(
        Field::WorkingDays,
        &[&["working"], &["weekday", "weekdays", "everyday"]],
        &["not"],
        Value::Days,
    ),
    row(
        Field::WorkingDays,
        &[&["shut"], &["weekday"]],
        &["working"],
        Value::Days,
    ),
    row(Field::DayEnds, &[&["ends"]], &["working", "perday"], Value::DayEnd),
    row(
        Field::DigestAt,
        &[&["digest"], &["weekday", "clock"]],
        &["tell"],
        Value::DigestTime,
    ),
    row(Field::QuietHours, &[&["quiet"]], &[], Value::Quiet),
    row(Field::Digest, &[&["digest"], &["on", "off"]], &[], Value::Switch),
    row(Field::Nudges, &[&["reminders"], &["on", "off"]], &[], Value::Switch),
    row(Field::Notices, &[&["notices"], &["on", "off"]], &[], Value::Switch),
    row(Field::Meter, &[&["meter"], &["us", "ppm"]], &["per"], Value::Meter),
    row(
        Field::Degrees,
        &[&["degrees"], &["celsius", "fahrenheit"]],
        &[],
        Value::Choice(&[("celsius", "C"), ("fahrenheit", "F")]),
    ),
    row(
        Field::PressureUnit,
        &[&["pressure"], &["psi", "bar"]],
        &[],
        Value::Choice(&[("psi", "psi"), ("bar", "bar")]),
    ),
    row(
        Field::VolumeUnit,
        &[&["volume"], &["litre", "gallon"]],
        &[],
        Value::Choice(&[("litre", "l"), ("gallon", "gal")]),
    ),
    row(
        Field::ResinBed,
        &[&["hasbed", "nobed"]],
        &[],
        Value::Choice(&[("hasbed", "yes"), ("nobed", "no")]),
    ),
    row(
        Field::Stands,
        &[&["upright", "lying"]],
        &["bed"],
        Value::Choice(&[("upright", "upright"), ("lying", "lying")]),
    ),
    row(Field::Keep, &[&["keep"]], &["all"], Value::Years),
    row(Field::Country, &[&["country"]], &[], Value::Country),
    row(Field::Currency, &[&["currency"]], &[], Value::Currency),
];

/// What is said of a setting besides its value: for its default, its example, and what is asked.
pub const NAMES: &[(Field, &[&[&str]])] = &[
    (Field::ResinLabour, &[&["labour"], &["resin"]]),
    (Field::MembraneLabour, &[&["labour"]]),
    (Field::ResinPrice, &[&["resin"], &["price"]]),
    (Field::MembranePrice, &[&["membrane"], &["price"]]),
    (Field::PrefilterPrice, &[&["prefilter"], &["price"]]),
    (Field::LitresPerDay, &[&["perday"], &["litre", "gallon", "volume"]]),
    (Field::ResinLitres, &[&["resin", "bed"]]),
    (Field::PrefilterDays, &[&["prefilter"]]),
    (Field::Membranes, &[&["membrane"]]),
    (Field::WearingLine, &[&["wearing"]]),
    (Field::SpentLine, &[&["spent"]]),
    (Field::DueLine, &[&["due"]]),
    (Field::BusyMonths, &[&["busy"]]),
    (Field::WorkingDays, &[&["working"]]),
    (Field::DayEnds, &[&["ends"]]),
    (Field::DigestAt, &[&["digest"]]),
    (Field::QuietHours, &[&["quiet"]]),
    (Field::Nudges, &[&["reminders"]]),
    (Field::Notices, &[&["notices"]]),
    (Field::Meter, &[&["meter"]]),
    (Field::Degrees, &[&["degrees"]]),
    (Field::PressureUnit, &[&["pressure"]]),
    (Field::VolumeUnit, &[&["volume"]]),
    (Field::Stands, &[&["upright", "lying"]]),
    (Field::Rated, &[&["rated"]]),
    (Field::ShortNames, &[&["called"]]),
    (Field::Country, &[&["country"]]),
    (Field::Currency, &[&["currency"]]),
];

#[cfg(test)]
mod tests {
    use super::super::said::is_key;
    use super::*;

    #[test]
    fn rows_name_no_key_that_the_tables_lack() {
        let choices = |row: &'static Row| match row.value {
            Value::Choice(choices) => choices.iter().map(|(key, _)| *key).collect(),
            _ => Vec::new(),
        };
        let of_rows = ROWS.iter().flat_map(|row| {
            row.needs
                .iter()
                .copied()
                .flatten()
                .chain(row.may)
                .copied()
                .chain(choices(row))
        });
        let of_names = NAMES
            .iter()
            .flat_map(|(_, needs)| needs.iter().copied().flatten().copied());
        for key in of_rows.chain(of_names).filter(|key| *key != "clock") {
            assert!(is_key(key), "{key}");
        }
    }

    #[test]
    fn every_setting_has_a_row() {
        for field in Field::all().filter(|field| !matches!(field, Field::DayEndsOn(_))) {
            assert!(ROWS.iter().any(|row| row.field == field), "{field:?}");
        }
    }
}
