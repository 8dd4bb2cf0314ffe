//! A workbook of tables (.xlsx): real numbers, real days, a header that stays.

use jiff::civil::DateTime;
use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Workbook, Worksheet, XlsxError,
};

use super::cell::Cell;

/// Characters in a sheet's name (ECMA-376, part 1, section 18.2.19).
const NAME_LETTERS: usize = 31;
/// Characters in a cell, the format's limit.
const CELL_LETTERS: usize = 32_767;
/// Columns narrower or wider than this, in characters, are no use.
const WIDTHS: (f64, f64) = (8.0, 60.0);

/// One sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Its name.
    pub name: String,
    /// Its columns' titles, with their units.
    pub titles: Vec<String>,
    /// Its rows, cells in the order of the titles.
    pub rows: Vec<Vec<Cell>>,
}

/// The workbook's file, made at `stamp_utc`, which is told, so that the same facts
/// give the same bytes.
///
/// # Errors
/// What the writer refuses: sheets beyond the format's size. Names and texts are
/// cut to what the format takes.
pub fn workbook(sheets: &[Sheet], stamp_utc: DateTime) -> Result<Vec<u8>, XlsxError> {
    let mut book = Workbook::new();
    if let Some(made) = instant(stamp_utc) {
        book.set_properties(&DocProperties::new().set_creation_datetime(&made));
    }
    let mut names: Vec<String> = Vec::new();
    for sheet in sheets {
        let name = free_name(&sheet.name, &names);
        fill(book.add_worksheet(), &name, sheet)?;
        names.push(name);
    }
    book.save_to_buffer()
}

fn fill(page: &mut Worksheet, name: &str, sheet: &Sheet) -> Result<(), XlsxError> {
    let header = Format::new()
        .set_bold()
        .set_text_wrap()
        .set_align(FormatAlign::Top)
        .set_border_bottom(FormatBorder::Thin);
    let day = Format::new().set_num_format("yyyy-mm-dd").set_align(FormatAlign::Top);
    let share = Format::new().set_num_format("0.0 %").set_align(FormatAlign::Top);
    let plain = Format::new().set_align(FormatAlign::Top);
    let wrapped = Format::new().set_text_wrap().set_align(FormatAlign::Top);
    page.set_name(name)?;
    for (column, title) in (0..).zip(&sheet.titles) {
        page.write_string_with_format(0, column, cut(title), &header)?;
        let cells = sheet.rows.iter().filter_map(|row| row.get(usize::from(column)));
        page.set_column_width(column, width(title, cells))?;
    }
    for (row, cells) in (1..).zip(&sheet.rows) {
        for (column, cell) in (0..).zip(cells) {
            match cell {
                Cell::Empty => continue,
                Cell::Text(text) => page.write_string_with_format(row, column, cut(text), &wrapped)?,
                Cell::Number(number) => page.write_number_with_format(row, column, *number, &plain)?,
                Cell::Share(number) => page.write_number_with_format(row, column, *number, &share)?,
                Cell::Date(date) => match instant(date.at(0, 0, 0, 0)) {
                    Some(at) => page.write_datetime_with_format(row, column, at, &day)?,
                    None => page.write_string_with_format(row, column, date.to_string(), &plain)?,
                },
            };
        }
    }
    page.set_freeze_panes(1, 1)?;
    if let (Some(last_column), Some(last_row)) = (
        (u16::try_from(sheet.titles.len()).ok()).and_then(|titles| titles.checked_sub(1)),
        u32::try_from(sheet.rows.len()).ok().filter(|rows| *rows > 0),
    ) {
        page.autofilter(0, 0, last_row, last_column)?;
    }
    Ok(())
}

/// The format counts days from 1900 on; an older one has no number.
fn instant(at: DateTime) -> Option<ExcelDateTime> {
    let year = u16::try_from(at.year()).ok()?;
    let day = ExcelDateTime::from_ymd(year, at.month().unsigned_abs(), at.day().unsigned_abs()).ok()?;
    let hour = u16::from(at.hour().unsigned_abs());
    day.and_hms(hour, at.minute().unsigned_abs(), at.second().unsigned_abs())
        .ok()
}

/// Wide enough for its longest cell, and for the longest word of its title.
fn width<'a>(title: &str, cells: impl Iterator<Item = &'a Cell>) -> f64 {
    let of_title = title.split(' ').map(|word| word.chars().count()).max().unwrap_or(0);
    let of_cells = cells
        .map(|cell| match cell {
            Cell::Empty => 0,
            Cell::Text(text) => text.lines().map(|line| line.chars().count()).max().unwrap_or(0),
            Cell::Number(_) | Cell::Share(_) => 8,
            Cell::Date(_) => 10,
        })
        .max()
        .unwrap_or(0);
    #[allow(clippy::cast_precision_loss)]
    let letters = of_title.max(of_cells) as f64;
    (letters + 3.0).clamp(WIDTHS.0, WIDTHS.1)
}

/// A name that the format takes and no other sheet has.
fn free_name(wanted: &str, taken: &[String]) -> String {
    let allowed: String = wanted
        .chars()
        .filter(|letter| !letter.is_control() && !['[', ']', ':', '*', '?', '/', '\\', '\''].contains(letter))
        .collect();
    let plain: String = allowed.trim().chars().take(NAME_LETTERS).collect();
    let is_free =
        |name: &str| !name.is_empty() && !taken.iter().any(|taken| taken.to_lowercase() == name.to_lowercase());
    if is_free(&plain) {
        return plain;
    }
    (2..)
        .map(|number| {
            let number = format!(" {number}");
            let start: String = plain.chars().take(NAME_LETTERS - number.len()).collect();
            format!("{start}{number}").trim().to_owned()
        })
        .find(|name| is_free(name))
        .unwrap_or_default()
}

fn cut(text: &str) -> String {
    text.chars().take(CELL_LETTERS / 2).collect()
}

#[cfg(test)]
#[allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test says by panicking what is wrong"
)]
mod tests {
    use std::io::Cursor;

    use calamine::{Data, Reader, Xlsx};
    use jiff::civil::date;

    use super::*;

    const STAMP: DateTime = date(2026, 3, 2).at(7, 0, 5, 0);

    fn read(bytes: Vec<u8>) -> Xlsx<Cursor<Vec<u8>>> {
        Xlsx::new(Cursor::new(bytes)).unwrap()
    }

    fn sheet(name: &str, rows: Vec<Vec<Cell>>) -> Sheet {
        Sheet {
            name: name.to_owned(),
            titles: ["rig", "RO, ppm", "rejection, %", "day"].map(str::to_owned).to_vec(),
            rows,
        }
    }

    #[test]
    fn another_reader_finds_numbers_shares_and_days() {
        let row = vec![
            Cell::text("=Heron"),
            Cell::Number(12.5),
            Cell::Share(0.936),
            Cell::Date(date(2026, 3, 2)),
        ];
        let empty = vec![Cell::text("Otter"), Cell::Empty, Cell::share(None), Cell::date(None)];
        let bytes = workbook(&[sheet("Fleet", vec![row, empty]), sheet("Key", Vec::new())], STAMP).unwrap();
        let mut book = read(bytes);
        assert_eq!(book.sheet_names(), ["Fleet", "Key"]);
        let fleet = book.worksheet_range("Fleet").unwrap();
        assert_eq!(fleet.get_value((0, 1)), Some(&Data::String("RO, ppm".to_owned())));
        assert_eq!(fleet.get_value((1, 0)), Some(&Data::String("=Heron".to_owned())));
        assert_eq!(fleet.get_value((1, 1)), Some(&Data::Float(12.5)));
        assert_eq!(fleet.get_value((1, 2)), Some(&Data::Float(0.936)));
        // 2026-03-02 is day 46083 of the 1900 date system: 1970-01-01 is 25569, and
        // the day is number 20514 from there.
        let Some(Data::DateTime(day)) = fleet.get_value((1, 3)) else {
            panic!("{:?}", fleet.get_value((1, 3)));
        };
        assert_eq!(day.as_f64(), 46_083.0);
        assert_eq!(fleet.get_value((2, 1)), Some(&Data::Empty));
    }

    #[test]
    fn names_that_the_format_refuses_are_mended() {
        let long = "x".repeat(40);
        let sheets = ["a/b", "A[B]", "", "", &long].map(|name| sheet(name, Vec::new()));
        let book = read(workbook(&sheets, STAMP).unwrap());
        assert_eq!(book.sheet_names(), ["ab", "AB 2", "2", "3", &"x".repeat(31)]);
    }

    #[test]
    fn what_cannot_be_a_day_is_text() {
        let row = vec![Cell::Empty, Cell::Empty, Cell::Empty, Cell::Date(date(1200, 1, 1))];
        let mut book = read(workbook(&[sheet("Fleet", vec![row])], STAMP).unwrap());
        let fleet = book.worksheet_range("Fleet").unwrap();
        assert_eq!(fleet.get_value((1, 3)), Some(&Data::String("1200-01-01".to_owned())));
    }

    #[test]
    fn the_same_facts_give_the_same_bytes() {
        let make = || workbook(&[sheet("Fleet", vec![vec![Cell::text("Heron")]])], STAMP).unwrap();
        assert_eq!(make(), make());
    }
}
