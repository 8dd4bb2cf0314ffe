//! The rigs that the fleet's first sheet only counts: two columns of names, figures
//! and states.

use super::fleet_sheet::{Fleet, Row};
use super::mark;
use super::palette::{INK, QUIET, RULE, SAND};
use super::sheet::{Anchor, Area, Fill, SMALLEST, Sheet, hand};
use super::typeface::Weight;

/// Rows of a column.
const ROWS: usize = 12;
const TOP: f64 = 146.0;
const HIGH: f64 = 49.5;
/// Left edges of the columns, and their width.
const COLUMNS: [f64; 2] = [18.0, 552.0];
const WIDE: f64 = 510.0;

/// As many sheets as the rows need.
pub fn pages(fleet: &Fleet, rows: &[Row]) -> Vec<Sheet> {
    let pages: Vec<&[Row]> = rows.chunks(2 * ROWS).collect();
    let count = pages.len() + 1;
    let draw = |(nth, rows): (usize, &&[Row])| {
        let subline = fleet.rest.as_ref().map_or("", |rest| &rest.subline);
        let mut sheet = Sheet::titled(&fleet.headline, subline);
        for (column, rows) in COLUMNS.iter().zip(rows.chunks(ROWS)) {
            let mut top = TOP;
            for row in rows {
                draw_row(&mut sheet, *column, top, row);
                top += HIGH;
            }
            sheet.line(&[(*column, top), (column + WIDE, top)], RULE, 2.0, "");
        }
        let style = hand(SMALLEST, Weight::Regular, QUIET);
        let page = format!("{} / {count}", nth + 2);
        sheet.text((1044.0, 788.0), style, Anchor::End, &page, 300.0);
        sheet
    };
    pages.iter().enumerate().map(draw).collect()
}

fn draw_row(sheet: &mut Sheet, left: f64, top: f64, row: &Row) {
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
    let (middle, base) = (top + HIGH / 2.0, top + HIGH / 2.0 + 11.0);
    let ink = row.state.map_or(INK, mark::ink);
    if let Some(state) = row.state {
        mark::draw(sheet, (left + 26.0, middle), 0.72, state);
    }
    sheet.text(
        (left + 52.0, base),
        hand(32.0, Weight::Semi, INK),
        Anchor::Start,
        &row.name,
        200.0,
    );
    sheet.text(
        (left + 350.0, base),
        hand(32.0, Weight::Heavy, INK),
        Anchor::End,
        &row.value,
        92.0,
    );
    sheet.text(
        (left + 366.0, base),
        hand(SMALLEST, Weight::Semi, ink),
        Anchor::Start,
        &row.word,
        140.0,
    );
}
