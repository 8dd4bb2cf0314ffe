//! A rig with a fault that stands: the season small, the last weeks large, so that the
//! few readings since the fall are seen. Dashes show the membrane without the fault.

use jiff::ToSpan;
use jiff::civil::Date;

use super::axis::{Days, Heights, days_between, draw_label, places_about};
use super::mark::Mark;
use super::palette::{BLUE, GROUND, INK, QUIET, RUST, STONE};
use super::rig_history::{Dot, Record};
use super::sheet::{Anchor, Area, LEFT, Point, RIGHT, SMALLEST, Sheet, Style};
use super::typeface::{self, Weight};
use crate::water::condition::Condition;

/// The words on the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Labels {
    /// The finding.
    pub headline: String,
    /// From which level to which it fell.
    pub subline: String,
    /// What the axis is.
    pub axis: String,
    /// What the large panel shows.
    pub lately: String,
    /// From when to when the small panel is.
    pub season: String,
    /// How much was lost.
    pub lost: String,
    /// The RO reading before and after; empty where it is not known.
    pub permeate: String,
    /// What the dashes are, in two lines or in one.
    pub alone: [String; 2],
    /// In the zone below the floor.
    pub due_zone: String,
    /// The day of the fall.
    pub since: String,
    /// The last day.
    pub today: String,
    /// Where to look.
    pub deed: String,
}

/// The panels: the season, and the last weeks.
const SEASON: (f64, f64) = (150.0, 372.0);
const LATELY: (f64, f64) = (408.0, RIGHT);
const TOP: f64 = 226.0;
const BOTTOM: f64 = 660.0;

/// The first day of the last weeks: three of them, or as many as show ten days before.
#[must_use]
pub fn lately_from(since: Date, today: Date) -> Date {
    let weeks = (days_between(since, today) + 10 + 6) / 7;
    today.saturating_sub(i64::from(weeks.max(3) * 7).days())
}

/// Draws the fault that stands since `since` and brought the rig down to `seen`, while
/// the membrane alone is at `alone`.
#[must_use]
pub fn draw(
    record: &Record,
    (since, seen, alone): (Date, f64, f64),
    labels: &Labels,
    percent: &dyn Fn(f64) -> String,
) -> Sheet {
    let mark = Mark::Membrane(Condition::Fault);
    let mut sheet = Sheet::titled(&labels.headline, &labels.subline, Some(mark));
    let heights = heights_of(record, seen, alone);
    let from = lately_from(since, record.today);
    let first = record.readings.first().map_or(from, |dot| dot.day);
    let has_season = first < from;
    // Dots and the last day keep off the edges.
    let (left, right) = (if has_season { LATELY.0 } else { SEASON.0 }, LATELY.1);
    let lately = Days::over(from, record.today, left + 16.0, right - 24.0);
    let season = Days::over(first, from, SEASON.0 + 8.0, SEASON.1 - 8.0);
    let panels = [Some((left, right)), has_season.then_some(SEASON)];
    let floor = heights.y(record.limits.due);
    for &(left, right) in panels.iter().flatten() {
        let below = Area {
            left,
            top: floor,
            right,
            bottom: BOTTOM,
        };
        sheet.area(&below, STONE);
    }
    for mark in heights.marks(&[record.limits.due], 0.05) {
        let (y, is_floor) = (heights.y(mark), (mark - record.limits.due).abs() < 1e-9);
        for &(left, right) in panels.iter().flatten() {
            if is_floor {
                sheet.line(&[(left, y), (right, y)], INK, 6.0);
            } else {
                sheet.rule((left, y), (right, y));
            }
        }
        draw_label(&mut sheet, SEASON.0, y, &percent(mark), is_floor);
    }
    if has_season {
        draw_trend(&mut sheet, record, since, &season, &heights, 8.0);
        draw_readings(&mut sheet, &record.readings, &season, &heights, 7.0);
        let middle = f64::midpoint(SEASON.0, SEASON.1);
        let room = SEASON.1 - SEASON.0 + 12.0;
        sheet.text(
            (middle, BOTTOM + 62.0),
            Style::QUIET,
            Anchor::Middle,
            &labels.season,
            room,
        );
    }
    draw_trend(&mut sheet, record, since, &lately, &heights, 10.0);
    draw_fall(&mut sheet, (since, seen, alone), &lately, &heights);
    draw_readings(&mut sheet, &record.readings, &lately, &heights, 12.0);
    sheet.text(
        (LEFT, TOP - 26.0),
        Style::QUIET,
        Anchor::Start,
        &labels.axis,
        left - LEFT - 16.0,
    );
    let lately_at = (left.max(LEFT + Style::QUIET.width(&labels.axis) + 24.0), TOP - 26.0);
    sheet.text(
        lately_at,
        Style::SAID,
        Anchor::Start,
        &labels.lately,
        RIGHT - lately_at.0,
    );
    draw_days(&mut sheet, labels, lately.x(since), lately.x(record.today));
    name_things(
        &mut sheet,
        labels,
        (lately.x(since), heights.y(seen)),
        heights.y(alone),
        (left, floor),
    );
    let size = typeface::fitting_size(&labels.deed, 46.0, SMALLEST, Weight::Semi, RIGHT - LEFT);
    let style = Style::of(size, Weight::Semi, INK);
    sheet.text((LEFT, 786.0), style, Anchor::Start, &labels.deed, RIGHT - LEFT);
    sheet
}

fn heights_of(record: &Record, seen: f64, alone: f64) -> Heights {
    let due = record.limits.due;
    let levels = record.trend.last().into_iter().flatten();
    let high = levels.map(|level| level.mid).fold(alone.max(due + 0.05), f64::max) + 0.03;
    let low = seen.min(due - 0.04) - 0.03;
    Heights {
        low: low.max(0.0),
        high: high.min(1.0),
        bottom: BOTTOM,
        top: TOP,
    }
}

/// The membrane's level, until the fall.
fn draw_trend(sheet: &mut Sheet, record: &Record, since: Date, days: &Days, heights: &Heights, width: f64) {
    for stretch in &record.trend {
        let shown = stretch
            .iter()
            .filter(|level| days.shows(level.day) && level.day < since);
        let points: Vec<Point> = shown.map(|level| (days.x(level.day), heights.y(level.mid))).collect();
        sheet.line(&points, BLUE, width);
    }
}

fn draw_fall(sheet: &mut Sheet, (since, seen, alone): (Date, f64, f64), days: &Days, heights: &Heights) {
    let (x, right) = (days.x(since) - 14.0, days.x(days.last));
    let (above, below) = (heights.y(alone), heights.y(seen));
    sheet.line(&[(x, above), (x, below), (right.max(x + 20.0), below)], RUST, 10.0);
    sheet.dotted(&[(x + 32.0, above), (right, above)], BLUE, 6.0);
}

fn draw_readings(sheet: &mut Sheet, readings: &[Dot], days: &Days, heights: &Heights, radius: f64) {
    for dot in readings.iter().filter(|dot| days.shows(dot.day)) {
        let at = (days.x(dot.day), heights.y(dot.rejection));
        if dot.set_aside {
            sheet.disc(at, radius, GROUND, (INK, 4.0));
        } else {
            sheet.disc(at, radius, INK, (GROUND, 3.0));
        }
    }
}

/// The day of the fall and today below the panel.
fn draw_days(sheet: &mut Sheet, labels: &Labels, since: f64, today: f64) {
    let style = Style::of(SMALLEST, Weight::Heavy, INK);
    for x in [since, today] {
        sheet.line(&[(x, BOTTOM + 8.0), (x, BOTTOM + 22.0)], QUIET, 4.0);
    }
    let word = sheet.text((RIGHT, BOTTOM + 62.0), style, Anchor::End, &labels.today, 300.0);
    let room = word.left - 16.0 - SEASON.1 - 20.0;
    let half = style.width(&labels.since) / 2.0;
    let middle = since.min(word.left - 16.0 - half);
    sheet.text((middle, BOTTOM + 62.0), style, Anchor::Middle, &labels.since, room);
}

fn name_things(sheet: &mut Sheet, labels: &Labels, fall: Point, above: f64, (left, floor): Point) {
    let frame = Area {
        left,
        top: TOP - 8.0,
        right: RIGHT + 12.0,
        bottom: BOTTOM,
    };
    let lost = Style::of(46.0, Weight::Heavy, RUST);
    let wide = lost.width(&labels.lost).max(Style::SAID.width(&labels.permeate));
    // Beside the fall, half way down.
    let near = (fall.0 - 40.0 - wide, f64::midpoint(above, fall.1));
    let places = places_about(near, &frame);
    let lines = [(lost, labels.lost.as_str()), (Style::SAID, labels.permeate.as_str())];
    if sheet.lines_where_free(&places, &lines, &frame).is_none() {
        sheet.text_where_free(&places, lost, &labels.lost, &frame);
        let beneath = places_about((near.0, near.1 + 50.0), &frame);
        sheet.text_where_free(&beneath, Style::SAID, &labels.permeate, &frame);
    }
    let blue = Style {
        ink: BLUE,
        ..Style::SAID
    };
    // Beneath the dashes if the fall is long enough ago, else beside what was before it.
    let [first, second] = &labels.alone;
    let wide = blue.width(first).max(blue.width(second));
    let since = Area {
        left: fall.0,
        bottom: floor,
        ..frame
    };
    let places = places_about((RIGHT - wide, above + 66.0), &since);
    let lines = [(blue, first.as_str()), (blue, second.as_str())];
    if sheet.lines_where_free(&places, &lines, &since).is_none() {
        let whole = format!("{first} {second}");
        let near = (fall.0 - 40.0 - blue.width(&whole), above + 66.0);
        sheet.text_where_free(&places_about(near, &frame), blue, &whole, &frame);
    }
    let zone = Area {
        top: floor + 4.0,
        ..frame
    };
    let state = Style::of(44.0, Weight::Semi, INK);
    sheet.text_where_free(
        &places_about((left + 16.0, BOTTOM - 20.0), &zone),
        state,
        &labels.due_zone,
        &zone,
    );
}
