//! Each setting by what it needs to be said: topics, and a value of its kind. One row a way of meaning it; the wordings
//! are in the tables of words.

use super::Field;

/// What kind of value a row takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Says {
    /// Money, perhaps for a unit or a pack of resin.
    Price,
    /// Litres.
    Volume,
    /// Litres on a working day.
    PerDay,
    /// A rejection in per cent.
    Line,
    /// Dissolved solids.
    Ppm,
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
    /// Spans of dates, each with a reason.
    DaysOff,
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
    pub value: Says,
}

const fn row(
    field: Field,
    needs: &'static [&'static [&'static str]],
    may: &'static [&'static str],
    value: Says,
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
    row(Field::ShortNames, &[&["called"]], &[], Says::Names),
    row(Field::Rated, &[&["rated"]], &["membrane", "each"], Says::Rated),
    row(
        Field::ResinLabour,
        &[&["labour"], &["resin"]],
        &["price", "each", "bed"],
        Says::Price,
    ),
    row(
        Field::MembraneLabour,
        &[&["labour"]],
        &["membrane", "price", "each"],
        Says::Price,
    ),
    row(
        Field::ResinPrice,
        &[&["resin", "bag"]],
        &["price", "bag", "each", "deed"],
        Says::Price,
    ),
    row(
        Field::MembranePrice,
        &[&["membrane"]],
        &["price", "each", "deed"],
        Says::Price,
    ),
    row(
        Field::PrefilterPrice,
        &[&["prefilter"]],
        &["price", "each", "deed"],
        Says::Price,
    ),
    row(Field::LitresPerDay, &[&["perday"]], &["volume"], Says::PerDay),
    row(
        Field::ResinLitres,
        &[&["resin", "bed", "cubicfoot"]],
        &["bed", "volume"],
        Says::Volume,
    ),
    row(
        Field::PrefilterDays,
        &[&["prefilter"], &["every"]],
        &["deed"],
        Says::Every,
    ),
    row(Field::Membranes, &[&["membrane"]], &[], Says::Count),
    row(
        Field::WearingLine,
        &[&["wearing"]],
        &["membrane", "line", "under", "tell", "percent"],
        Says::Line,
    ),
    row(
        Field::SpentLine,
        &[&["spent"]],
        &["membrane", "line", "under", "tell", "percent"],
        Says::Line,
    ),
    row(
        Field::DueLine,
        &[&["due"]],
        &["membrane", "line", "under", "tell", "percent"],
        Says::Line,
    ),
    row(
        Field::DueLine,
        &[&["tell"], &["under"], &["membrane", "percent"]],
        &["line", "percent", "membrane"],
        Says::Line,
    ),
    row(
        Field::SpotLine,
        &[&["spots"]],
        &["line", "under", "over", "tell", "ppm"],
        Says::Ppm,
    ),
    row(
        Field::SpotLine,
        &[&["tell"], &["glass"], &["over"]],
        &["ppm"],
        Says::Ppm,
    ),
    row(
        Field::BusyMonths,
        &[&["month_of"], &["busy", "twice", "half"]],
        &["percent"],
        Says::Busy,
    ),
    row(
        Field::WorkingDays,
        &[&["working"], &["weekday", "weekdays", "everyday"]],
        &["not"],
        Says::Days,
    ),
    row(Field::WorkingDays, &[&["shut"], &["weekday"]], &["working"], Says::Days),
    row(Field::DayEnds, &[&["ends"]], &["working", "perday"], Says::DayEnd),
    row(
        Field::DigestAt,
        &[&["digest"], &["weekday", "clock"]],
        &["tell"],
        Says::DigestTime,
    ),
    row(Field::QuietHours, &[&["quiet"]], &[], Says::Quiet),
    row(
        Field::QuietHours,
        &[&["nothing"], &["after", "before"]],
        &[],
        Says::Quiet,
    ),
    row(Field::Digest, &[&["digest"], &["on", "off", "not"]], &[], Says::Switch),
    row(
        Field::Nudges,
        &[&["reminders"], &["on", "off", "not"]],
        &["reminders", "toflush"],
        Says::Switch,
    ),
    row(
        Field::Notices,
        &[&["notices"], &["on", "off", "not"]],
        &[],
        Says::Switch,
    ),
    row(Field::Meter, &[&["meter"], &["us", "ppm"]], &["per"], Says::Meter),
    row(
        Field::Degrees,
        &[&["degrees"], &["celsius", "fahrenheit"]],
        &[],
        Says::Choice(&[("celsius", "C"), ("fahrenheit", "F")]),
    ),
    row(
        Field::PressureUnit,
        &[&["pressure"], &["psi", "bar"]],
        &[],
        Says::Choice(&[("psi", "psi"), ("bar", "bar")]),
    ),
    row(
        Field::VolumeUnit,
        &[&["volume"], &["litre", "gallon"]],
        &[],
        Says::Choice(&[("litre", "l"), ("gallon", "gal")]),
    ),
    row(
        Field::ResinBed,
        &[&["hasbed", "nobed"]],
        &[],
        Says::Choice(&[("hasbed", "yes"), ("nobed", "no")]),
    ),
    row(
        Field::Stands,
        &[&["upright", "lying"]],
        &["bed"],
        Says::Choice(&[("upright", "upright"), ("lying", "lying")]),
    ),
    row(Field::TimeOff, &[&["timeoff"]], &[], Says::DaysOff),
    row(Field::Keep, &[&["keep"]], &["all"], Says::Years),
    row(Field::Country, &[&["country"]], &[], Says::Country),
    row(Field::Currency, &[&["currency"]], &[], Says::Currency),
];

#[cfg(test)]
mod tests {
    use super::super::said::is_key;
    use super::*;

    #[test]
    fn rows_name_no_key_that_the_tables_lack() {
        let choices = |row: &'static Row| match row.value {
            Says::Choice(choices) => choices.iter().map(|(key, _)| *key).collect(),
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
        let of_names = Field::all().flat_map(|field| field.called().iter().copied().flatten().copied());
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
