//! The rigs that the fleet's first sheet only counts: two columns of names and
//! figures, under the word and the shape of their state.

use super::fleet_sheet::{Fleet, Row};
use super::mark;
use super::palette::{INK, QUIET, RULE, SAND};
use super::sheet::{Anchor, Area, Fill, SMALLEST, Sheet, hand};
use super::typeface::Weight;

/// Lines of a column, headings among them.
const LINES: usize = 12;
const TOP: f64 = 146.0;
const HIGH: f64 = 49.5;
/// Left edges of the columns, and their width.
const COLUMNS: [f64; 2] = [18.0, 552.0];
const WIDE: f64 = 510.0;

/// A line of a column.
#[derive(Clone, Copy)]
enum Line<'a> {
    /// The state of the rigs beneath.
    State(&'a Row),
    /// A rig.
    Rig(&'a Row),
}

/// As many sheets as the rows, most urgent first, need.
pub fn pages(fleet: &Fleet, rows: &[Row]) -> Vec<Sheet> {
    let columns = columns(rows);
    let pages: Vec<&[Vec<Line<'_>>]> = columns.chunks(COLUMNS.len()).collect();
    let count = pages.len() + 1;
    let subline = fleet.rest.as_ref().map_or("", |rest| &rest.subline);
    let draw = |(nth, columns): (usize, &&[Vec<Line<'_>>])| {
        let mut sheet = Sheet::titled(&fleet.headline, subline);
        for (left, lines) in COLUMNS.iter().zip(*columns) {
            let mut top = TOP;
            for line in lines {
                draw_line(&mut sheet, *left, top, *line);
                top += HIGH;
            }
            sheet.line(&[(*left, top), (left + WIDE, top)], RULE, 2.0, "");
        }
        let style = hand(SMALLEST, Weight::Regular, QUIET);
        let page = format!("{} / {count}", nth + 2);
        sheet.text((1044.0, 788.0), style, Anchor::End, &page, 300.0);
        sheet
    };
    pages.iter().enumerate().map(draw).collect()
}

/// Rows into columns: a state stands above its first rig, and again at the top of a
/// column, never alone at the bottom.
fn columns(rows: &[Row]) -> Vec<Vec<Line<'_>>> {
    let mut columns: Vec<Vec<Line<'_>>> = Vec::new();
    let mut above = None;
    for row in rows {
        let is_full = columns.last().is_none_or(|column| column.len() >= LINES);
        let needs_state = row.state.is_some() && (is_full || row.state != above);
        let is_last = columns.last().is_some_and(|column| column.len() + 1 == LINES);
        if is_full || (needs_state && is_last) {
            columns.push(Vec::with_capacity(LINES));
        }
        let Some(column) = columns.last_mut() else { continue };
        if needs_state || (column.is_empty() && row.state.is_some()) {
            column.push(Line::State(row));
        }
        column.push(Line::Rig(row));
        above = row.state;
    }
    columns
}

fn draw_line(sheet: &mut Sheet, left: f64, top: f64, line: Line<'_>) {
    let (middle, base) = (top + HIGH / 2.0, top + HIGH / 2.0 + 11.0);
    match line {
        Line::State(row) => {
            let ink = row.state.map_or(INK, mark::ink);
            sheet.line(&[(left, top), (left + WIDE, top)], INK, 2.0, "");
            if let Some(state) = row.state {
                mark::draw(sheet, (left + 26.0, middle), 0.72, state);
            }
            let style = hand(32.0, Weight::Heavy, ink);
            sheet.text((left + 52.0, base), style, Anchor::Start, &row.word, WIDE - 60.0);
        }
        Line::Rig(row) => {
            if row.urgent {
                let band = Area {
                    left,
                    top: top + 2.0,
                    right: left + WIDE,
                    bottom: top + HIGH - 2.0,
                };
                sheet.area(&band, Fill::Plain(SAND));
            }
            sheet.line(&[(left, top), (left + WIDE, top)], RULE, 2.0, "");
            // A rig without a membrane has no state: its glass stands for it.
            let value = if row.state.is_some() { &row.value } else { &row.word };
            let style = hand(32.0, Weight::Heavy, INK);
            let figure = sheet.text((left + WIDE - 10.0, base), style, Anchor::End, value, 220.0);
            let style = hand(32.0, Weight::Semi, INK);
            sheet.text(
                (left + 52.0, base),
                style,
                Anchor::Start,
                &row.name,
                figure.left - left - 72.0,
            );
        }
    }
}
