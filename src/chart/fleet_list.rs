//! The sheets of a fleet: the first, and the rigs that it only counts: two columns of names and figures,
//! under the shape and the words of what is to be done, or of their state.

use super::fleet_sheet::{Fleet, Row, draw, shown};
use super::palette::INK;
use super::sheet::{Anchor, LEFT, RIGHT, SMALLEST, Sheet, Style};
use super::typeface::Weight;

/// Lines of a column, headings among them.
const LINES: usize = 12;
const TOP: f64 = 166.0;
const HIGH: f64 = 51.0;
/// Left edges of the columns, and their width.
const COLUMNS: [f64; 2] = [LEFT, 556.0];
const WIDE: f64 = RIGHT - 556.0;
/// Where names begin, and how far words stay away from each other.
const INDENT: f64 = 62.0;
const APART: f64 = 20.0;

/// A line of a column.
#[derive(Clone, Copy)]
enum Line<'a> {
    /// What is said of the rigs beneath.
    Heading(&'a Row),
    /// A rig, and its place in the order.
    Rig(usize, &'a Row),
}

/// The first sheet, and those that list the rigs which it only counts.
#[must_use]
pub fn pages(fleet: &Fleet) -> Vec<Sheet> {
    let rows: Vec<(usize, &Row)> = fleet.rigs.iter().enumerate().skip(shown(fleet.rigs.len())).collect();
    let columns = columns(&rows);
    let pages: Vec<&[Vec<Line<'_>>]> = columns.chunks(COLUMNS.len()).collect();
    let count = pages.len() + 1;
    let list = |(nth, columns): (usize, &&[Vec<Line<'_>>])| {
        let subline = format!("{} / {count}: {}", nth + 2, fleet.others);
        let mut sheet = Sheet::titled(&fleet.headline, &subline, None);
        for (left, lines) in COLUMNS.iter().zip(*columns) {
            let mut top = TOP;
            for line in lines {
                draw_line(&mut sheet, *left, top, *line);
                top += HIGH;
            }
        }
        sheet
    };
    std::iter::once(draw(fleet))
        .chain(pages.iter().enumerate().map(list))
        .collect()
}

/// Rows into columns: a heading stands above its first rig, and again at the top of a
/// column, never alone at the bottom.
fn columns<'a>(rows: &[(usize, &'a Row)]) -> Vec<Vec<Line<'a>>> {
    let mut columns: Vec<Vec<Line<'a>>> = Vec::new();
    let mut above = "";
    for &(nth, row) in rows {
        let is_new = row.words != above;
        let lines = columns.last().map_or(LINES, Vec::len);
        if lines + usize::from(is_new) >= LINES {
            columns.push(Vec::with_capacity(LINES));
        }
        let Some(column) = columns.last_mut() else { continue };
        if is_new || column.is_empty() {
            column.push(Line::Heading(row));
        }
        column.push(Line::Rig(nth, row));
        above = &row.words;
    }
    columns
}

fn draw_line(sheet: &mut Sheet, left: f64, top: f64, line: Line<'_>) {
    let (middle, base) = (top + HIGH / 2.0, top + HIGH / 2.0 + 15.0);
    let heavy = Style::of(SMALLEST, Weight::Heavy, INK);
    match line {
        Line::Heading(row) => {
            sheet.rule((left, top), (left + WIDE, top));
            row.mark.draw(sheet, (left + 26.0, middle), 0.78);
            let style = Style {
                ink: row.mark.ink(),
                ..heavy
            };
            sheet.text((left + INDENT, base), style, Anchor::Start, &row.words, WIDE - INDENT);
        }
        Line::Rig(nth, row) => {
            if row.is_job {
                let number = (nth + 1).to_string();
                sheet.text((left + 46.0, base), Style::SAID, Anchor::End, &number, INDENT);
            }
            let value = sheet.text((left + WIDE, base), heavy, Anchor::End, &row.value, 220.0);
            let room = value.left - left - INDENT - APART;
            sheet.text((left + INDENT, base), Style::SAID, Anchor::Start, &row.name, room);
        }
    }
}
