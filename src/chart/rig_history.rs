//! One rig's history: readings, the trend of the membrane with its band, what is
//! ahead down to the floor, and what was done.

use jiff::civil::Date;

use crate::water::settings::Limits;

use super::axis::{Days, Heights, Months, days_between, draw_label, draw_top, places_about};
use super::mark::Mark;
use super::palette::{BLUE, GROUND, INK, PALE, PALEST, QUIET, STONE, STONE_DARK};
use super::sheet::{Anchor, Area, Point, RIGHT, Sheet, Style};
use super::typeface::Weight;

/// A reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dot {
    /// When it was taken.
    pub day: Date,
    /// Rejection, stated as the trend is, a fraction.
    pub rejection: f64,
    /// It is set aside and counts for nothing.
    pub set_aside: bool,
}

/// A level with its 80 % interval on a day, fractions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// The day.
    pub day: Date,
    /// The 0.1 quantile.
    pub low: f64,
    /// The median.
    pub mid: f64,
    /// The 0.9 quantile.
    pub high: f64,
}

/// Days between which the floor is met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ahead {
    /// Not before this.
    pub early: Date,
    /// As likely before as after.
    pub likely: Date,
    /// Hardly after this; none beyond what is looked at.
    pub late: Option<Date>,
}

/// A fault, which is no wear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fault {
    /// The day of the first reading with it.
    pub since: Date,
    /// When it was mended; none while it stands.
    pub until: Option<Date>,
    /// Rejection of the rig with it, a fraction.
    pub rejection: f64,
}

/// What is known of a rig's membranes.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// Seen from.
    pub today: Date,
    /// The owner's lines: `due` is the floor.
    pub limits: Limits,
    /// All readings, oldest first.
    pub readings: Vec<Dot>,
    /// The membrane's level, a stretch for each membrane.
    pub trend: Vec<Vec<Level>>,
    /// The level from today on; empty where no trend is known.
    pub forecast: Vec<Level>,
    /// When the floor is met, where that is known and ahead.
    pub due: Option<Ahead>,
    /// Faults, mended or not.
    pub faults: Vec<Fault>,
    /// Days on which resin was changed.
    pub resin_changes: Vec<Date>,
    /// Days on which a membrane was changed, logged or presumed.
    pub membrane_changes: Vec<Date>,
}

/// The words on the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Labels {
    /// The finding.
    pub headline: String,
    /// The figures behind it.
    pub subline: String,
    /// The state.
    pub mark: Mark,
    /// What the axis of values is.
    pub axis: String,
    /// Above the line of today.
    pub today: String,
    /// When the floor is met, in two lines.
    pub due: Option<[String; 2]>,
    /// In the zone below the floor.
    pub due_zone: String,
    /// In the zone below the spent line.
    pub spent_zone: String,
    /// What the dots are.
    pub dots: String,
    /// What the rings are.
    pub rings: String,
    /// Before the lane of what was done to the resin.
    pub resin: String,
    /// At a change of membrane.
    pub membrane: String,
    /// At a fault that was mended.
    pub fault: String,
    /// Where there is no reading, in its place.
    pub nothing: String,
    /// Short names of the months.
    pub months: Months,
}

const TOP: f64 = 226.0;
const BOTTOM: f64 = 650.0;
const LANE: f64 = 750.0;
/// A zone lower than this has no room for its word.
const LEAST_ZONE: f64 = 54.0;

/// Draws one rig's history; `percent` writes a fraction.
#[must_use]
pub fn draw(record: &Record, labels: &Labels, percent: &dyn Fn(f64) -> String) -> Sheet {
    let mut sheet = Sheet::titled(&labels.headline, &labels.subline, Some(labels.mark));
    let frame = Area {
        left: (Style::QUIET.width(&labels.resin) + 56.0).max(150.0),
        top: TOP,
        right: RIGHT,
        bottom: BOTTOM,
    };
    let (days, heights) = (days_of(record, labels, &frame), heights_of(record));
    let Limits { due, spent, .. } = record.limits;
    for (line, fill) in [(due, STONE), (spent, STONE_DARK)] {
        let top = heights.y(line);
        sheet.area(&Area { top, ..frame }, fill);
    }
    for mark in heights.marks(&[due, spent], 0.05) {
        let is_floor = (mark - due).abs() < 1e-9;
        if !is_floor {
            sheet.rule((frame.left, heights.y(mark)), (frame.right, heights.y(mark)));
        }
        draw_label(&mut sheet, frame.left, heights.y(mark), &percent(mark), is_floor);
    }
    let place = |day: Date, value: f64| (days.x(day), heights.y(value));
    draw_ahead(&mut sheet, record, &days, &heights);
    draw_trend(&mut sheet, record, &days, &heights);
    sheet.line(&[place(days.first, due), place(days.last, due)], INK, 6.0);
    for fault in &record.faults {
        let until = fault.until.unwrap_or(record.today);
        if days.shows(until) {
            let level = [place(fault.since, fault.rejection), place(until, fault.rejection)];
            sheet.dotted(&level, QUIET, 6.0);
        }
    }
    for &day in record.membrane_changes.iter().filter(|&&day| days.shows(day)) {
        sheet.line(&[(days.x(day), frame.top), (days.x(day), frame.bottom)], QUIET, 4.0);
    }
    draw_readings(&mut sheet, record, &days, &heights);
    draw_top(&mut sheet, &labels.axis, days.x(record.today), &frame, &labels.today);
    days.draw(&mut sheet, frame.bottom + 8.0, &labels.months);
    draw_resin(&mut sheet, record, &labels.resin, &days);
    draw_due(&mut sheet, record, labels, &days, &heights);
    name_things(&mut sheet, record, labels, &days, &heights);
    sheet
}

/// From the first reading on, six weeks at least, so that a young rig does not look like
/// an old one.
fn days_of(record: &Record, labels: &Labels, frame: &Area) -> Days {
    let first = record.readings.first().map_or(record.today, |dot| dot.day);
    let past = days_between(first, record.today).max(42);
    let ahead = record
        .forecast
        .last()
        .map_or(0, |level| days_between(record.today, level.day));
    // The words of what is ahead never meet the line of today.
    let words = labels.due.iter().flatten().zip(due_styles());
    let room = words.map(|(text, style)| style.width(text) + 44.0).fold(0.0, f64::max);
    let fifth = (frame.right - frame.left) / 5.0;
    let room = if record.forecast.is_empty() {
        room
    } else {
        room.max(fifth)
    };
    Days::about(record.today, past, ahead, room, frame.left, frame.right)
}

/// From below the spent line, the last membrane's trend and its readings, to above all.
/// A blunder, or an earlier membrane, far below is drawn at the rim, so that the rest is
/// not squeezed.
fn heights_of(record: &Record) -> Heights {
    let Limits { due, spent, .. } = record.limits;
    let kept = record.readings.iter().filter(|dot| !dot.set_aside);
    let highs = record.trend.iter().flatten().map(|level| level.high);
    let high = kept.map(|dot| dot.rejection).chain(highs).fold(due + 0.08, f64::max);
    let high = (high + 0.015).min(1.0);
    let levels = record.trend.last().into_iter().flatten().map(|level| level.low);
    let lately = record.readings.iter().rev().take(3).filter(|dot| !dot.set_aside);
    let low = levels.chain(lately.map(|dot| dot.rejection)).fold(spent, f64::min) - 0.015;
    // The zone below the spent line keeps the height of its word.
    let share = LEAST_ZONE / (BOTTOM - TOP);
    let low = low.min(spent - share / (1.0 - share) * (high - spent)).max(0.0);
    Heights {
        low,
        high,
        bottom: BOTTOM,
        top: TOP,
    }
}

/// Levels as the upper and lower edge of a band, and the line within it.
fn edges(levels: &[Level], days: &Days, heights: &Heights) -> [Vec<Point>; 3] {
    let edge = |value: fn(&Level) -> f64| {
        let shown = levels.iter().filter(|level| days.shows(level.day));
        shown
            .map(|level| (days.x(level.day), heights.y(value(level))))
            .collect()
    };
    [
        edge(|level| level.high),
        edge(|level| level.mid),
        edge(|level| level.low),
    ]
}

fn ribbon(upper: &[Point], lower: &[Point]) -> Vec<Point> {
    upper.iter().chain(lower.iter().rev()).copied().collect()
}

fn draw_trend(sheet: &mut Sheet, record: &Record, days: &Days, heights: &Heights) {
    for (nth, stretch) in record.trend.iter().enumerate() {
        // An earlier membrane that fell off the axis is not drawn along its rim.
        let is_last = nth + 1 == record.trend.len();
        let shown = stretch.iter().filter(|level| is_last || level.mid > heights.low);
        let [upper, middle, lower] = edges(&shown.copied().collect::<Vec<Level>>(), days, heights);
        if is_last {
            sheet.shape(&ribbon(&upper, &lower), PALE, None);
            sheet.line(&middle, BLUE, 10.0);
        } else {
            sheet.line(&middle, QUIET, 5.0);
        }
    }
}

/// What is ahead is the same blue, open and in dashes, until it leaves the axis.
fn draw_ahead(sheet: &mut Sheet, record: &Record, days: &Days, heights: &Heights) {
    let [upper, middle, lower] = edges(&record.forecast, days, heights);
    sheet.shape(&ribbon(&upper, &lower), PALEST, None);
    for (edge, width) in [(&upper, 3.0), (&lower, 3.0), (&middle, 8.0)] {
        let off = edge.iter().position(|&(_, y)| y >= heights.bottom);
        sheet.dotted(&edge[..off.unwrap_or(edge.len())], BLUE, width);
    }
}

fn draw_readings(sheet: &mut Sheet, record: &Record, days: &Days, heights: &Heights) {
    // Of an earlier membrane that fell off the axis nothing is left at the rim.
    let since = record.membrane_changes.last().copied().unwrap_or(days.first);
    let is_shown = |dot: &&Dot| days.shows(dot.day) && (dot.day >= since || dot.rejection > heights.low);
    let shown: Vec<&Dot> = record.readings.iter().filter(is_shown).collect();
    // Many are drawn smaller, so that they stay dots; few are all there is to see.
    let (radius, rim) = match shown.len() {
        0..10 => (12.0, 2.0),
        10..60 => (8.0, 2.0),
        60..150 => (5.5, 1.5),
        _ => (4.5, 1.0),
    };
    for dot in shown {
        let at = (days.x(dot.day), heights.y(dot.rejection));
        if dot.set_aside {
            sheet.disc(at, radius + 2.0, GROUND, (INK, 3.5));
        } else {
            sheet.disc(at, radius, INK, (GROUND, rim));
        }
    }
}

fn draw_resin(sheet: &mut Sheet, record: &Record, word: &str, days: &Days) {
    let shown = record.resin_changes.iter().filter(|&&day| days.shows(day));
    let shown: Vec<f64> = shown.map(|&day| days.x(day)).collect();
    if shown.is_empty() {
        return;
    }
    sheet.text((days.left - 26.0, LANE + 16.0), Style::QUIET, Anchor::End, word, 300.0);
    // Vessels that would lie upon each other are bars.
    let closest = shown
        .windows(2)
        .map(|pair| pair[1] - pair[0])
        .fold(f64::INFINITY, f64::min);
    for x in shown {
        if closest < 32.0 {
            sheet.line(
                &[(x, LANE - 20.0), (x, LANE + 20.0)],
                INK,
                (closest / 2.0).clamp(2.0, 6.0),
            );
        } else {
            Mark::FRESH_BED.draw(sheet, (x, LANE), 0.8);
        }
    }
}

fn due_styles() -> [Style; 2] {
    [Style::SAID, Style::of(46.0, Weight::Heavy, INK)]
}

/// The days in which the floor is met, and their words right of today.
fn draw_due(sheet: &mut Sheet, record: &Record, labels: &Labels, days: &Days, heights: &Heights) {
    let (Some(due), Some([first, second])) = (record.due, &labels.due) else {
        return;
    };
    let floor = heights.y(record.limits.due);
    let is_shown = days.shows(due.early);
    let late = due.late.filter(|&late| days.shows(late)).map(|late| days.x(late));
    let middle = f64::midpoint(days.x(due.early), late.unwrap_or(days.right));
    if is_shown {
        sheet.range(days.x(due.early), late, days.right, floor);
    }
    let today = days.x(record.today);
    let ahead = Area {
        left: today + 12.0,
        top: heights.top - 10.0,
        right: days.right + 12.0,
        bottom: heights.bottom,
    };
    let [said, found] = due_styles();
    let wide = said.width(first).max(found.width(second));
    let places = places_about((middle - wide / 2.0, floor - 150.0), &ahead);
    let Some(words) = sheet.lines_where_free(&places, &[(said, first), (found, second)], &ahead) else {
        return;
    };
    // From the words to the bar that they are about.
    let x = middle.clamp(words.left + 20.0, words.right);
    if is_shown && words.bottom + 30.0 < floor && (x - middle).abs() < 1.0 {
        sheet.line(&[(x, words.bottom + 12.0), (x, floor - 8.0)], INK, 4.0);
    }
}

/// Words beside the things they name, where nothing is covered by them.
fn name_things(sheet: &mut Sheet, record: &Record, labels: &Labels, days: &Days, heights: &Heights) {
    let frame = Area {
        left: days.left,
        top: heights.top - 8.0,
        right: days.right,
        bottom: heights.bottom,
    };
    let Limits { due, spent, .. } = record.limits;
    let (floor, bottom) = (heights.y(due), heights.y(spent));
    let state = Style::of(44.0, Weight::Semi, INK);
    for (top, end, word) in [
        (floor, bottom, &labels.due_zone),
        (bottom, frame.bottom, &labels.spent_zone),
    ] {
        let zone = Area {
            top: top + 3.0,
            bottom: end,
            ..frame
        };
        let base = f64::midpoint(top, end) + 15.0;
        let places: Vec<Point> = (0..44)
            .map(|nth| (frame.left + 16.0 + 20.0 * f64::from(nth), base))
            .collect();
        sheet.text_where_free(&places, state, word, &zone);
    }
    let above = Area {
        bottom: floor - 3.0,
        ..frame
    };
    if record.readings.is_empty() {
        let style = Style::of(46.0, Weight::Semi, INK);
        let at = (frame.left + 16.0, f64::midpoint(frame.top, floor));
        sheet.text_where_free(&places_about(at, &above), style, &labels.nothing, &above);
        return;
    }
    for &day in record.membrane_changes.iter().rev().filter(|&&day| days.shows(day)) {
        let near = places_about((days.x(day) + 14.0, heights.top + 30.0), &frame);
        sheet.text_where_free(&near[..near.len().min(160)], Style::SAID, &labels.membrane, &frame);
    }
    let past = Area {
        right: days.x(record.today) - 8.0,
        ..frame
    };
    for fault in record.faults.iter().filter(|fault| days.shows(fault.since)) {
        let last = past.right - Style::SAID.width(&labels.fault) - 8.0;
        let near = (days.x(fault.since).min(last), heights.y(fault.rejection) - 50.0);
        sheet.text_where_free(&places_about(near, &past), Style::SAID, &labels.fault, &past);
    }
    let lower_left = (frame.left + 16.0, floor - 34.0);
    let mut places = places_about(lower_left, &above);
    places.extend(places_about(lower_left, &past));
    sheet.text_where_free(&places, Style::SAID, &labels.dots, &past);
    if record.readings.iter().any(|dot| dot.set_aside && days.shows(dot.day)) {
        sheet.text_where_free(&places, Style::SAID, &labels.rings, &past);
    }
}
