//! The fleet on one sheet: a row a rig, the most urgent first, all on one scale.
//!
//! Letters under 30 px are not read in the sun, so a sheet holds seven rows and no
//! more. Of a larger fleet it shows the six most urgent rigs and counts the others by
//! state; [`pages`] adds sheets that list all others by state, in two columns of twelve lines.

use jiff::civil::Date;

use crate::water::condition::Condition;
use crate::water::settings::Limits;

use super::axis::{Days, Heights};
use super::fleet_list;
use super::mark;
use super::palette::{GROUND, INK, QUIET, RULE, SAND};
use super::sheet::{Anchor, Area, Fill, Point, SMALLEST, Sheet, hand};
use super::typeface::{self, Weight};

/// A rig's row.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The rig.
    pub name: String,
    /// Its state; none on a rig without a membrane.
    pub state: Option<Condition>,
    /// The state's word.
    pub word: String,
    /// Standardised rejection, or what stands in its place.
    pub value: String,
    /// The resin, short; empty where nothing is known.
    pub resin: String,
    /// Somebody should act: the row stands out.
    pub urgent: bool,
    /// Standardised rejection over the span of the sheet, a stretch for each membrane.
    pub trend: Vec<Vec<(Date, f64)>>,
}

/// The rigs that have no row, counted.
#[derive(Clone, Debug, PartialEq)]
pub struct Rest {
    /// How many they are, in words.
    pub words: String,
    /// Beneath the headline of the sheets that list them.
    pub subline: String,
    /// How many of each state, in words; the most urgent state first.
    pub counts: Vec<(Condition, String)>,
}

/// The facts of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Fleet {
    /// The finding.
    pub headline: String,
    /// What the sheet shows.
    pub subline: String,
    /// First day of the trends.
    pub since: Date,
    /// Last day of the trends.
    pub today: Date,
    /// The owner's lines.
    pub limits: Limits,
    /// All rigs, the most urgent first.
    pub rigs: Vec<Row>,
    /// Those beyond [`shown`].
    pub rest: Option<Rest>,
    /// In the key: what the hatching means; none where no rig has a trend.
    pub zone: Option<String>,
    /// In the place of rows, where there is no rig.
    pub nothing: String,
}

/// Rows of a sheet.
const ROWS: usize = 7;
const TOP: f64 = 146.0;
const BOTTOM: f64 = 742.0;
const KEY: f64 = 788.0;
const TALLEST_ROW: f64 = 196.0;
const TREND: (f64, f64) = (334.0, 604.0);

/// How many of so many rigs get a row of their own on the first sheet.
#[must_use]
pub fn shown(rigs: usize) -> usize {
    if rigs > ROWS { ROWS - 1 } else { rigs }
}

/// The first sheet, and those that list the rigs which it only counts.
#[must_use]
pub fn pages(fleet: &Fleet) -> Vec<Sheet> {
    let mut pages = vec![draw(fleet)];
    let rest = fleet.rigs.get(shown(fleet.rigs.len())..).unwrap_or_default();
    pages.extend(fleet_list::pages(fleet, rest));
    pages
}

/// Draws the first sheet.
#[must_use]
pub fn draw(fleet: &Fleet) -> Sheet {
    let mut sheet = Sheet::titled(&fleet.headline, &fleet.subline);
    let shown = shown(fleet.rigs.len());
    let rows = shown + usize::from(shown < fleet.rigs.len());
    #[allow(clippy::cast_precision_loss)]
    let height = ((BOTTOM - TOP) / rows.max(1) as f64).min(TALLEST_ROW);
    let mut top = TOP;
    for row in &fleet.rigs[..shown] {
        draw_row(&mut sheet, fleet, row, top, height);
        top += height;
    }
    if let Some(rest) = fleet.rest.as_ref().filter(|_| shown < fleet.rigs.len()) {
        rule(&mut sheet, top);
        draw_rest(&mut sheet, rest, top + height / 2.0);
        top += height;
    }
    rule(&mut sheet, top);
    if fleet.rigs.is_empty() {
        sheet.text(
            (540.0, 400.0),
            hand(40.0, Weight::Semi, INK),
            Anchor::Middle,
            &fleet.nothing,
            1000.0,
        );
    } else if let Some(zone) = &fleet.zone {
        let swatch = Area {
            left: 36.0,
            top: KEY - 26.0,
            right: 92.0,
            bottom: KEY + 4.0,
        };
        sheet.area(&swatch, Fill::Limit);
        sheet.line(&[(swatch.left, swatch.top), (swatch.right, swatch.top)], INK, 3.0, "");
        sheet.text(
            (110.0, KEY),
            hand(SMALLEST, Weight::Regular, QUIET),
            Anchor::Start,
            zone,
            930.0,
        );
    }
    sheet
}

fn rule(sheet: &mut Sheet, y: f64) {
    sheet.line(&[(18.0, y), (1062.0, y)], RULE, 2.0, "");
}

fn draw_row(sheet: &mut Sheet, fleet: &Fleet, row: &Row, top: f64, height: f64) {
    if row.urgent {
        let band = Area {
            left: 18.0,
            top: top + 3.0,
            right: 1062.0,
            bottom: top + height - 3.0,
        };
        sheet.area(&band, Fill::Plain(SAND));
    }
    rule(sheet, top);
    let middle = top + height / 2.0;
    let ink = row.state.map_or(INK, mark::ink);
    if let Some(state) = row.state {
        mark::draw(sheet, (60.0, middle), 1.0, state);
    }
    draw_name(sheet, (98.0, middle), &row.name, TREND.0 - 98.0 - 16.0);
    draw_trend(sheet, fleet, row, top, height);
    sheet.text(
        (762.0, middle + 17.0),
        hand(48.0, Weight::Heavy, INK),
        Anchor::End,
        &row.value,
        140.0,
    );
    let second = !row.resin.is_empty();
    let lift = if second { -5.0 } else { 12.0 };
    let room = 1062.0 - 788.0 - 8.0;
    let size = typeface::fitting_size(&row.word, &[36.0, 33.0, SMALLEST], Weight::Heavy, room);
    let style = hand(size, Weight::Heavy, ink);
    sheet.text((788.0, middle + lift), style, Anchor::Start, &row.word, room);
    if second {
        sheet.text(
            (788.0, middle + 31.0),
            hand(SMALLEST, Weight::Regular, INK),
            Anchor::Start,
            &row.resin,
            room,
        );
    }
}

/// A name in the room there is: one line, else two smaller ones, the last shortened.
fn draw_name(sheet: &mut Sheet, (x, middle): Point, name: &str, room: f64) {
    let large = hand(40.0, Weight::Semi, INK);
    if typeface::width(&typeface::drawable(name), large.size, large.weight) <= room {
        sheet.text((x, middle + 14.0), large, Anchor::Start, name, room);
        return;
    }
    let small = hand(33.0, Weight::Semi, INK);
    let lines = typeface::broken(name, small.size, small.weight, room, 2);
    let first = if lines.len() == 1 { middle + 12.0 } else { middle - 6.0 };
    for (line, y) in lines.iter().zip([first, first + 34.0]) {
        sheet.text((x, y), small, Anchor::Start, line, room);
    }
}

fn draw_trend(sheet: &mut Sheet, fleet: &Fleet, row: &Row, top: f64, height: f64) {
    if row.state.is_none() {
        return;
    }
    let ink = row.state.map_or(INK, mark::ink);
    let days = Days::over(fleet.since, fleet.today, TREND.0, TREND.1);
    let heights = Heights {
        low: fleet.limits.spent - 0.06,
        high: 1.0,
        bottom: top + height - 8.0,
        top: top + 8.0,
    };
    let due = heights.y(fleet.limits.due);
    let zone = Area {
        left: TREND.0,
        top: due,
        right: TREND.1,
        bottom: heights.bottom,
    };
    sheet.area(&zone, Fill::Limit);
    sheet.line(&[(TREND.0, due), (TREND.1, due)], INK, 2.5, "");
    let stretches: Vec<Vec<Point>> = row
        .trend
        .iter()
        .map(|stretch| stretch.iter().filter(|(day, _)| days.shows(*day)))
        .map(|shown| shown.map(|&(day, level)| (days.x(day), heights.y(level))).collect())
        .filter(|stretch: &Vec<Point>| !stretch.is_empty())
        .collect();
    for (nth, stretch) in stretches.iter().enumerate() {
        if nth > 0 {
            // A new membrane breaks the line.
            let x = stretch[0].0;
            sheet.line(&[(x, heights.top), (x, heights.bottom)], INK, 3.0, "");
        }
        if nth + 1 < stretches.len() {
            sheet.line(stretch, QUIET, 4.0, "1 8");
        } else {
            sheet.line(stretch, ink, 6.0, "");
        }
    }
    if let Some(&end) = stretches.last().and_then(|stretch| stretch.last()) {
        sheet.disc(end, 9.0, ink, Some((GROUND, 3.0)));
    }
}

/// The others, counted: on one line, or on two where the words are long.
fn draw_rest(sheet: &mut Sheet, rest: &Rest, middle: f64) {
    const RIGHT: f64 = 1062.0;
    let style = hand(36.0, Weight::Heavy, INK);
    let first = sheet
        .text((36.0, middle + 13.0), style, Anchor::Start, &rest.words, 300.0)
        .right
        + 44.0;
    let style = hand(32.0, Weight::Semi, INK);
    let width = |words: &str| typeface::width(&typeface::drawable(words), style.size, style.weight) + 24.0;
    let whole: f64 = rest.counts.iter().map(|(_, words)| width(words) + 36.0).sum();
    let (mut x, mut y) = (first, middle);
    let wraps = first + whole - 36.0 > RIGHT;
    if wraps {
        y -= 21.0;
    }
    for (state, words) in &rest.counts {
        if x + width(words) > RIGHT {
            if !wraps || y > middle {
                break;
            }
            (x, y) = (first, middle + 21.0);
        }
        mark::draw(sheet, (x, y), 0.7, *state);
        sheet.text((x + 24.0, y + 11.0), style, Anchor::Start, words, f64::INFINITY);
        x += width(words) + 36.0;
    }
}
