//! Rows that somebody brings, as text: readings, services, rigs out of a
//! spreadsheet, read line by line. Forgiving with headings, separators and
//! dates; what cannot be read is named, never guessed.

mod dates;
mod headings;
mod odd;
mod rows;

use csv::{ReaderBuilder, StringRecord, Trim};
use jiff::civil::DateTime;

use dates::Order;
use headings::{Heading, Headings};
use rows::Marks;

pub use headings::Kind;
pub use rows::{ReadingRow, RigRow, Row, ServiceRow};

/// The most rows that are read at once.
pub const MOST_ROWS: usize = 20_000;

/// When something was, as far as a row tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moment {
    /// UTC seconds.
    Instant(i64),
    /// By a clock on the wall, wherever that hangs.
    Local(DateTime),
}

/// What was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Intake {
    /// What the rows are.
    pub kind: Kind,
    /// What could be read.
    pub rows: Vec<Row>,
    /// What could not.
    pub bad: Vec<Bad>,
    /// What could, and looks like a slip.
    pub odd: Vec<Bad>,
    /// Headings that say nothing to us; their columns are left out.
    pub left_out: Vec<String>,
    /// Rows that were withdrawn where they come from; they are left out.
    pub withdrawn: usize,
}

/// A row that could not be read, or that looks like a slip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bad {
    /// Its line, from 1.
    pub line: u64,
    /// What stands in the cell, or nothing.
    pub cell: String,
    /// What is wrong.
    pub why: Why,
}

/// What can be wrong with a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// No rig is named.
    NoRig,
    /// No time, or none that is one.
    NoTime,
    /// No tap reading, or none that is a number.
    NoFeed,
    /// Neither an RO nor a glass reading.
    NoSecond,
    /// A cell that should be a number is none.
    NoNumber,
    /// A number that no meter or gauge shows.
    TooFar,
    /// No service that we know.
    NoService,
    /// A quotation mark that does not close.
    OpenQuote,
    /// The RO is not below the tap.
    Risen,
    /// The tap is far from what it is on this rig's other rows.
    FarTap,
}

/// Why nothing was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// There is nothing.
    Empty,
    /// The first line does not name the columns that are needed.
    NoHeadings,
    /// More rows than [`MOST_ROWS`].
    TooMany,
    /// Dates such as 3/4/2026: nothing tells the day from the month. One of them.
    UnclearDates(String),
}

/// Reads rows. `day_first` says of 3/4/2026 that it is 3 April, if somebody said.
///
/// # Errors
/// [`Unreadable`] if nothing could be read.
pub fn read(text: &str, day_first: Option<bool>) -> Result<Intake, Unreadable> {
    let text = text.trim_start_matches('\u{feff}');
    let Some((skipped, first)) = (1..).zip(text.lines()).find(|(_, line)| !line.trim().is_empty()) else {
        return Err(Unreadable::Empty);
    };
    let separator = separator_of(first);
    let mut reader = ReaderBuilder::new()
        .delimiter(separator)
        .flexible(true)
        .trim(Trim::All)
        .has_headers(true)
        .from_reader(text.as_bytes());
    let headings = reader.headers().map_err(|_| Unreadable::NoHeadings)?;
    let headings = Headings::read(headings).ok_or(Unreadable::NoHeadings)?;
    let mut records: Vec<(u64, StringRecord)> = Vec::new();
    for record in reader.into_records() {
        if records.len() >= MOST_ROWS {
            return Err(Unreadable::TooMany);
        }
        // Text of any shape is a record here: rows may differ in length, and bytes were made text before.
        if let Ok(record) = record {
            records.push((record.position().map_or(skipped, csv::Position::line), record));
        }
    }
    let written = records
        .iter()
        .filter_map(|(_, record)| headings.cell(record, Heading::Date));
    let order = match day_first {
        Some(true) => Order::DayFirst,
        Some(false) => Order::MonthFirst,
        None => dates::order_of(written).map_err(Unreadable::UnclearDates)?,
    };
    let marks = Marks {
        decimal_comma: separator != b',',
        of_columns: rows::decimal_marks(records.iter().map(|(_, record)| record)),
    };
    let mut intake = Intake {
        kind: headings.kind(),
        rows: Vec::new(),
        bad: Vec::new(),
        odd: Vec::new(),
        left_out: headings.left_out(),
        withdrawn: 0,
    };
    let mut rows = Vec::new();
    for (line, record) in records {
        if record.iter().all(str::is_empty) {
            continue;
        }
        if headings.cell(&record, Heading::Withdrawn).is_some() {
            intake.withdrawn += 1;
            continue;
        }
        let cells = rows::Cells {
            record: &record,
            headings: &headings,
            order,
            marks: &marks,
        };
        match cells.row() {
            Ok(row) => rows.push((line, row)),
            Err((cell, why)) => intake.bad.push(Bad { line, cell, why }),
        }
    }
    intake.odd = odd::odd(&rows);
    intake.rows = rows.into_iter().map(|(_, row)| row).collect();
    Ok(intake)
}

/// Bytes of a file as text: UTF-8, UTF-16 with its mark, else Latin-1.
pub fn text_of(bytes: &[u8]) -> String {
    let wide = |bytes: &[u8], unit: fn([u8; 2]) -> u16| {
        let units: Vec<u16> = bytes
            .chunks_exact(2)
            .filter_map(|pair| pair.try_into().ok().map(unit))
            .collect();
        String::from_utf16_lossy(&units)
    };
    let text = match bytes {
        [0xff, 0xfe, rest @ ..] => wide(rest, u16::from_le_bytes),
        [0xfe, 0xff, rest @ ..] => wide(rest, u16::from_be_bytes),
        _ => String::from_utf8(bytes.to_vec()).unwrap_or_else(|_| bytes.iter().map(|byte| char::from(*byte)).collect()),
    };
    text.replace('\0', "")
}

/// The separator that stands most often in the first line.
fn separator_of(first: &str) -> u8 {
    let count = |separator: u8| first.bytes().filter(|byte| *byte == separator).count();
    [b'\t', b';', b',']
        .into_iter()
        .max_by_key(|separator| count(*separator))
        .unwrap_or(b',')
}

#[cfg(test)]
#[allow(
    clippy::panic,
    clippy::unwrap_used,
    reason = "a test says by panicking what is wrong"
)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn readings(text: &str) -> Vec<ReadingRow> {
        let intake = read(text, None).unwrap_or_else(|why| panic!("{why:?}: {text}"));
        assert_eq!(intake.bad, [], "{text}");
        let reading = |row| match row {
            Row::Reading(reading) => Some(reading),
            _ => None,
        };
        intake.rows.into_iter().filter_map(reading).collect()
    }

    #[test]
    fn headings_separators_and_decimal_marks_are_forgiven() {
        for text in [
            "rig,time,feed_ppm,permeate_ppm\nHeron,2026-03-02T07:40:00,180,12.5",
            "Van;Date;Time;Tap;RO\nHeron;02.03.2026;07:40;180;12,5",
            "\u{feff}Equipo\tFecha\tHora\tRed (ppm)\tÓsmosis\r\nHeron\t2026-03-02\t7:40\t180\t12,5\r\n",
            "RIG, When, Tap TDS, RO TDS\n Heron , 2026-03-02 07:40 , 180 , 12.5 \n\n",
        ] {
            let rows = readings(text);
            assert_eq!(rows.len(), 1, "{text}");
            assert_eq!((rows[0].rig.as_str(), rows[0].feed_ppm), ("Heron", 180.0), "{text}");
            assert_eq!(rows[0].permeate_ppm, Some(12.5), "{text}");
            let at = jiff::civil::datetime(2026, 3, 2, 7, 40, 0, 0);
            assert_eq!(rows[0].at, Moment::Local(at), "{text}");
        }
    }

    #[test]
    fn units_are_read_in_the_heading_or_in_the_cell() {
        for (heading, cell) in [
            ("°C", "25"),
            ("Temp (°C)", "25"),
            ("temp", "77 F"),
            ("temp", "25C"),
            ("temperature", "25 °C"),
            ("Temp °F", "77"),
        ] {
            let rows = readings(&format!("rig;date;tap;ro;{heading}\nHeron;2026-03-02;180;12;{cell}\n"));
            let celsius = rows[0].temperature_c.unwrap();
            assert!((celsius - 25.0).abs() < 1e-9, "{heading} {cell}: {celsius}");
        }
        // 60 psi are 413.7 kPa (NIST SP 811, B.8), 4 bar 400.
        for (heading, cell, kpa) in [
            ("pressure", "60 psi", 413.7),
            ("pressure", "60", 413.7),
            ("Presión", "4", 400.0),
            ("pressure", "4 bar", 400.0),
            ("Pressure (psi)", "60", 413.7),
            ("pressure", "400", 400.0),
        ] {
            let rows = readings(&format!("rig;date;tap;ro;{heading}\nHeron;2026-03-02;180;12;{cell}\n"));
            let read = rows[0].pressure_kpa.unwrap();
            assert!((read - kpa).abs() < 0.05, "{heading} {cell}: {read}");
        }
    }

    #[test]
    fn a_column_tells_its_own_decimal_mark() {
        let rows = readings("rig;date;tap;ro\nHeron;2026-03-02;1.250;12,5\nHeron;2026-03-03;1180,5;13\n");
        let feeds: Vec<f64> = rows.iter().map(|row| row.feed_ppm).collect();
        assert_eq!(feeds, [1250.0, 1180.5]);
        let rows = readings("rig\tdate\ttap\tro\nHeron\t2026-03-02\t1,250\t12.5\nHeron\t2026-03-03\t1180.5\t13\n");
        let feeds: Vec<f64> = rows.iter().map(|row| row.feed_ppm).collect();
        assert_eq!(feeds, [1250.0, 1180.5]);
        let mixed = read(
            "rig;date;tap;ro\nHeron;2026-03-02;180,5;12,5\nHeron;2026-03-03;1.25.3;13\n",
            None,
        )
        .unwrap();
        assert_eq!((mixed.rows.len(), mixed.bad.len()), (1, 1), "{mixed:?}");
    }

    #[test]
    fn a_year_beyond_sense_is_named() {
        let intake = read(
            "rig,date,tap,ro\nHeron,2126-03-02,180,12\nHeron,2026-03-02,180,12\n",
            None,
        )
        .unwrap();
        let bad: Vec<_> = intake
            .bad
            .iter()
            .map(|bad| (bad.line, bad.cell.as_str(), bad.why))
            .collect();
        assert_eq!((intake.rows.len(), bad), (1, vec![(2, "2126-03-02", Why::NoTime)]));
    }

    #[test]
    fn a_bad_line_is_named_and_the_others_are_read() {
        let text = "rig,date,tap,ro\nHeron,2026-03-02,180,12\nHeron,2026-03-03,many,12\n,2026-03-04,180,12\n\
                    Heron,2026-13-04,180,12\nHeron,2026-03-05,180,\nHeron,2026-03-06,180,\"1,200\"\n";
        let intake = read(text, None).unwrap_or_else(|why| panic!("{why:?}"));
        assert_eq!(intake.rows.len(), 1);
        let bad: Vec<(u64, &str, Why)> = intake
            .bad
            .iter()
            .map(|bad| (bad.line, bad.cell.as_str(), bad.why))
            .collect();
        assert_eq!(
            bad,
            [
                (3, "many", Why::NoFeed),
                (4, "", Why::NoRig),
                (5, "2026-13-04", Why::NoTime),
                (6, "", Why::NoSecond),
                (7, "1,200", Why::NoNumber),
            ]
        );
        let open = read(
            "rig,date,tap,ro\nHeron,2026-03-02,180,12\n\"Heron,2026-03-03,180,12\nOtter,2026-03-03,1,1\n",
            None,
        );
        let bad = open.map(|intake| {
            (
                intake.rows.len(),
                intake.bad.iter().map(|bad| (bad.line, bad.why)).collect(),
            )
        });
        assert_eq!(bad, Ok((1, vec![(3, Why::OpenQuote)])));
    }

    #[test]
    fn a_date_that_nothing_tells_day_from_month_is_asked_about() {
        let unclear = "rig,date,tap,ro\nHeron,03/04/2026,180,12\n";
        assert_eq!(read(unclear, None), Err(Unreadable::UnclearDates("03/04/2026".into())));
        let at = |month, day| Moment::Local(jiff::civil::datetime(2026, month, day, 12, 0, 0, 0));
        for (first, month, day) in [(true, 4, 3), (false, 3, 4)] {
            match read(unclear, Some(first)).map(|intake| intake.rows) {
                Ok(rows) => assert!(matches!(&rows[..], [Row::Reading(row)] if row.at == at(month, day))),
                Err(why) => panic!("{why:?}"),
            }
        }
        let clear = "rig,date,tap,ro\nHeron,03/04/2026,180,12\nHeron,25/04/2026,180,12\n";
        assert_eq!(readings(clear)[0].at, at(4, 3));
    }

    #[test]
    fn services_and_rigs_are_told_by_their_headings() {
        let services = read("rig;date;service;minutes\nHeron;2026-03-02;Resina nueva;\n", None);
        assert!(matches!(
            services.map(|intake| (intake.kind, intake.rows)),
            Ok((Kind::Services, rows)) if matches!(&rows[..], [Row::Service(row)] if row.what == crate::domain::ServiceKind::Resin)
        ));
        let rigs = read("rig,kind,flush,colour\nHeron,di,itself,red\n", None);
        assert!(matches!(
            rigs.map(|intake| (intake.kind, intake.left_out, intake.rows)),
            Ok((Kind::Rigs, left_out, rows)) if left_out == ["colour"]
                && matches!(&rows[..], [Row::Rig(row)] if row.di_only && row.flushes_itself)
        ));
        assert_eq!(read("name,age\nanna,3", None), Err(Unreadable::NoHeadings));
        assert_eq!(read(" \n ", None), Err(Unreadable::Empty));
    }

    #[test]
    fn a_file_is_read_in_the_usual_encodings() {
        assert_eq!(text_of("Señor".as_bytes()), "Señor");
        assert_eq!(text_of(b"Se\xf1or"), "Señor");
        assert_eq!(text_of(b"\xff\xfeS\0e\0\xf1\0"), "Señ");
    }

    proptest! {
        #[test]
        fn no_text_is_too_odd(text in "(\\PC|\n|,|;|\t|\"){0,200}", first in proptest::option::of(any::<bool>())) {
            let headed = format!("rig,date,tap,ro\n{text}");
            let _ = read(&text, first);
            let _ = read(&headed, first);
        }
    }
}
