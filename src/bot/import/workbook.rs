//! The first sheet of a workbook (.xlsx) as text with tabs, so that it is read like any pasted rows.

use std::io::Cursor;

use calamine::{Data, Reader, Xlsx};

use crate::intake::MOST_ROWS;

/// The first sheet with anything in it; `None` where the bytes are no workbook.
pub fn text_of_workbook(bytes: &[u8]) -> Option<String> {
    // A workbook is a ZIP archive.
    if !bytes.starts_with(b"PK\x03\x04") {
        return None;
    }
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).ok()?;
    let names = book.sheet_names();
    let sheet = names
        .iter()
        .filter_map(|name| book.worksheet_range(name).ok())
        .find(|sheet| !sheet.is_empty())?;
    let mut writer = csv::WriterBuilder::new()
        .delimiter(b'\t')
        .flexible(true)
        .from_writer(Vec::new());
    // One row more than is read, so that a sheet with too many is refused and not cut.
    for row in sheet.rows().take(MOST_ROWS + 2) {
        writer.write_record(row.iter().map(cell)).ok()?;
    }
    String::from_utf8(writer.into_inner().ok()?).ok()
}

fn cell(data: &Data) -> String {
    let Data::DateTime(moment) = data else {
        return data.to_string();
    };
    let (year, month, day, hour, minute, second, _) = moment.to_ymd_hms_milli();
    let clock = format!("{hour:02}:{minute:02}:{second:02}");
    match (moment.as_f64() < 1.0, moment.as_f64().fract() == 0.0) {
        (true, _) => clock,
        (false, true) => format!("{year:04}-{month:02}-{day:02}"),
        (false, false) => format!("{year:04}-{month:02}-{day:02}T{clock}"),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test says by panicking what is wrong")]
mod tests {
    use rust_xlsxwriter::{ExcelDateTime, Format, Workbook};

    use super::*;
    use crate::intake::{Moment, Row, read};

    #[test]
    fn a_workbook_reads_like_the_rows_that_it_shows() {
        let mut book = Workbook::new();
        let sheet = book.add_worksheet();
        for (column, heading) in ["Furgo", "Fecha", "Red", "Ósmosis inversa", "Temp (°C)"]
            .iter()
            .enumerate()
        {
            sheet.write_string(0, column as u16, *heading).unwrap();
        }
        let day = Format::new().set_num_format("dd/mm/yyyy hh:mm");
        let taken = ExcelDateTime::from_ymd(2026, 3, 2).unwrap().and_hms(7, 40, 0).unwrap();
        sheet.write_string(1, 0, "Heron").unwrap();
        sheet.write_datetime_with_format(1, 1, taken, &day).unwrap();
        for (column, number) in [(2, 180.0), (3, 12.5), (4, 9.0)] {
            sheet.write_number(1, column, number).unwrap();
        }
        let intake = read(&text_of_workbook(&book.save_to_buffer().unwrap()).unwrap(), None).unwrap();
        let [Row::Reading(row)] = &intake.rows[..] else {
            unreachable!("one reading: {intake:?}")
        };
        assert_eq!(row.at, Moment::Local(jiff::civil::datetime(2026, 3, 2, 7, 40, 0, 0)));
        assert_eq!(
            (row.feed_ppm, row.permeate_ppm, row.temperature_c),
            (180.0, Some(12.5), Some(9.0))
        );
    }

    #[test]
    fn what_only_begins_like_a_workbook_holds_nothing() {
        assert_eq!(text_of_workbook(b"PK\x03\x04 and no more"), None);
        assert_eq!(text_of_workbook(b"rig,date,tap,ro\n"), None);
    }
}
