//! A table as comma-separated text (RFC 4180) that no spreadsheet runs.
//!
//! A text cell that begins with `=`, `+`, `-`, `@`, tab or carriage return would be
//! taken for a formula by a spreadsheet (OWASP, "CSV Injection"): it gets an
//! apostrophe in front. Numbers stay numbers, negative ones too.

use super::cell::Cell;

/// What a formula can begin with, as OWASP lists it.
const FORMULA_STARTS: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// The table with its titles, each line ending in CRLF.
#[must_use]
pub fn csv_rows(titles: &[String], rows: &[Vec<Cell>]) -> Vec<u8> {
    let mut lines = String::new();
    write_line(&mut lines, titles.iter().map(|title| defused(title)));
    for row in rows {
        write_line(&mut lines, row.iter().map(shown));
    }
    lines.into_bytes()
}

fn shown(cell: &Cell) -> String {
    match cell {
        Cell::Empty => String::new(),
        Cell::Text(text) => defused(text),
        Cell::Number(number) | Cell::Share(number) => number.to_string(),
        Cell::Date(date) => date.to_string(),
    }
}

/// Text that no spreadsheet takes for a formula. What reads as a number is left.
#[must_use]
pub fn defused(text: &str) -> String {
    let is_number = text.parse::<f64>().is_ok_and(f64::is_finite);
    if text.starts_with(FORMULA_STARTS) && !is_number {
        return format!("'{text}");
    }
    text.to_owned()
}

fn write_line(lines: &mut String, cells: impl Iterator<Item = String>) {
    let quoted: Vec<String> = cells.map(|cell| quoted(&cell)).collect();
    lines.push_str(&quoted.join(","));
    lines.push_str("\r\n");
}

/// A cell with a comma, quote or line end stands in quotes, its quotes doubled
/// (RFC 4180, section 2, rules 6 and 7).
fn quoted(cell: &str) -> String {
    if cell.contains(['"', ',', '\n', '\r']) {
        return format!("\"{}\"", cell.replace('"', "\"\""));
    }
    cell.to_owned()
}

#[cfg(test)]
#[allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test says by panicking what is wrong"
)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn a_formula_is_text_and_a_number_is_a_number() {
        for (text, told) in [
            ("=1+1", "'=1+1"),
            ("+cmd", "'+cmd"),
            ("-2+3", "'-2+3"),
            ("@SUM(A1)", "'@SUM(A1)"),
            ("\t=1", "'\t=1"),
            ("\r=1", "'\r=1"),
            ("-5", "-5"),
            ("+5.5", "+5.5"),
            ("-inf", "'-inf"),
            ("Heron", "Heron"),
            ("", ""),
        ] {
            assert_eq!(defused(text), told);
        }
    }

    #[test]
    fn another_reader_finds_the_same_cells() {
        let titles = [
            "rig, name".to_owned(),
            "change".to_owned(),
            "share".to_owned(),
            "day".to_owned(),
        ];
        let rows = [
            vec![
                Cell::text("He\"ron\"\nthe first"),
                Cell::Number(-5.25),
                Cell::Share(0.936),
                Cell::Date(date(2026, 3, 2)),
            ],
            vec![
                Cell::text("=HYPERLINK(\"x\")"),
                Cell::Empty,
                Cell::number(Some(f64::NAN)),
                Cell::Empty,
            ],
        ];
        let bytes = csv_rows(&titles, &rows);
        let mut reader = csv::Reader::from_reader(bytes.as_slice());
        assert_eq!(reader.headers().unwrap(), &["rig, name", "change", "share", "day"][..]);
        let read: Vec<_> = reader.records().map(Result::unwrap).collect();
        assert_eq!(read[0], ["He\"ron\"\nthe first", "-5.25", "0.936", "2026-03-02"][..]);
        assert_eq!(read[1], ["'=HYPERLINK(\"x\")", "", "", ""][..]);
    }
}
