//! One rig's history: readings, the trend of the membrane with its band, what is
//! ahead down to the due line, and what was done.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::water::condition::Condition;
use crate::water::settings::Limits;

use super::axis::{Days, Heights, Tick, draw_today};
use super::mark;
use super::palette::{BLUE, BLUE_PALE, GROUND, INK, QUIET, RUST};
use super::rig_history_forecast::draw_forecast;
use super::sheet::{Anchor, Area, Fill, Point, SMALLEST, Sheet, hand};
use super::typeface::{self, Weight};

/// A reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dot {
    /// When it was taken.
    pub day: Date,
    /// Rejection as it was read, a fraction.
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

/// When the due line will be crossed.
#[derive(Clone, Debug, PartialEq)]
pub struct Ahead {
    /// Not before this.
    pub early: Date,
    /// As likely before as after.
    pub likely: Date,
    /// Hardly after this; none beyond what is looked at.
    pub late: Option<Date>,
    /// The range in words.
    pub words: String,
}

/// A jump, which is no wear.
#[derive(Clone, Debug, PartialEq)]
pub struct Jump {
    /// The day of the first reading after it.
    pub since: Date,
    /// When it was mended; none while it stands.
    pub until: Option<Date>,
    /// Rejection of the rig with it, a fraction.
    pub rejection: f64,
    /// What is to be done, beside the jump that stands.
    pub words: String,
}

/// The facts of the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct RigHistory {
    /// The finding.
    pub headline: String,
    /// The figures behind it.
    pub subline: String,
    /// The state and its word; none on a rig that has no membrane.
    pub state: Option<(Condition, String)>,
    /// Seen from.
    pub today: Date,
    /// The owner's lines.
    pub limits: Limits,
    /// Marks of the axis, which runs from the first to the last.
    pub levels: Vec<Tick>,
    /// All readings, oldest first.
    pub readings: Vec<Dot>,
    /// The membrane's level at reference conditions, a stretch for each membrane.
    pub trend: Vec<Vec<Level>>,
    /// The level from today on; empty where no trend is known.
    pub forecast: Vec<Level>,
    /// When the due line is crossed, where that is known and ahead.
    pub due: Option<Ahead>,
    /// Jumps, mended or not.
    pub jumps: Vec<Jump>,
    /// Days on which resin was changed.
    pub resin_changes: Vec<Date>,
    /// Days on which a membrane was changed, logged or presumed.
    pub membrane_changes: Vec<Date>,
    /// Short names of the months.
    pub months: [String; 12],
    /// The words on it.
    pub words: Words,
}

/// The words on the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// Above the line of today.
    pub today: String,
    /// Beside the trend.
    pub trend: String,
    /// Beside what is ahead.
    pub forecast: String,
    /// In the zone below the due line.
    pub due_zone: String,
    /// In the zone below the spent line.
    pub spent_zone: String,
    /// Before the lane of what was done to the resin.
    pub resin: String,
    /// At a change of membrane.
    pub membrane: String,
    /// In the key.
    pub reading: String,
    /// In the key.
    pub set_aside: String,
    /// In the key: how wide the band is.
    pub band: String,
    /// Where there is no reading.
    pub nothing: String,
}

/// Where the levels are drawn.
pub(super) const FRAME: Area = Area {
    left: 132.0,
    top: 196.0,
    right: 1044.0,
    bottom: 636.0,
};
const LANE: f64 = 674.0;
const KEY: f64 = 788.0;

/// Draws one rig's history.
#[must_use]
pub fn draw(facts: &RigHistory) -> Sheet {
    let mut sheet = Sheet::titled(&facts.headline, &facts.subline);
    let days = days_of(facts);
    let heights = Heights::of(&facts.levels, FRAME.top, FRAME.bottom);
    draw_zones(&mut sheet, facts, &heights);
    heights.draw(&mut sheet, &facts.levels, &FRAME);
    draw_limits(&mut sheet, facts, &heights);
    draw_resin(&mut sheet, facts, &days);
    draw_jumps(&mut sheet, facts, &days, &heights);
    for (nth, stretch) in facts.trend.iter().enumerate() {
        // An earlier membrane that fell off the axis is not drawn along its rim.
        let is_shown = |at: &&Level| nth + 1 == facts.trend.len() || at.mid > heights.low;
        let edge = |level: fn(&Level) -> f64| -> Vec<Point> {
            stretch
                .iter()
                .filter(is_shown)
                .map(|at| (days.x(at.day), heights.y(level(at))))
                .collect()
        };
        sheet.ribbon(&edge(|at| at.high), &edge(|at| at.low), Fill::Plain(BLUE_PALE));
        sheet.line(&edge(|at| at.mid), BLUE, 8.0, "");
    }
    draw_forecast(&mut sheet, facts, &days, &heights);
    draw_readings(&mut sheet, facts, &days, &heights);
    draw_today(&mut sheet, days.x(facts.today), &FRAME, &facts.words.today);
    draw_membranes(&mut sheet, facts, &days);
    name_things(&mut sheet, facts, &days, &heights);
    days.draw(&mut sheet, LANE + 14.0, &facts.months);
    draw_key(&mut sheet, facts);
    if facts.readings.is_empty() {
        let middle = (f64::midpoint(FRAME.left, days.x(facts.today)), 330.0);
        let style = hand(40.0, Weight::Semi, INK);
        sheet.text_over(middle, style, Anchor::Middle, &facts.words.nothing, 560.0);
    }
    sheet
}

/// From the first reading to the end of the forecast; at least six weeks back and
/// three ahead, so that a young rig does not look like an old one.
fn days_of(facts: &RigHistory) -> Days {
    let first = facts.readings.first().map_or(facts.today, |dot| dot.day);
    let soon = facts.today.saturating_add(21.days());
    let last = facts.forecast.last().map_or(soon, |level| level.day.max(soon));
    Days::over(
        first.min(facts.today.saturating_sub(42.days())),
        last,
        FRAME.left,
        FRAME.right,
    )
}

/// Below a line: hatched, so that it reads without colour.
fn draw_zones(sheet: &mut Sheet, facts: &RigHistory, heights: &Heights) {
    let (due, spent) = (heights.y(facts.limits.due), heights.y(facts.limits.spent));
    sheet.area(
        &Area {
            top: due,
            bottom: spent,
            ..FRAME
        },
        Fill::Limit,
    );
    sheet.area(&Area { top: spent, ..FRAME }, Fill::Spent);
}

fn draw_limits(sheet: &mut Sheet, facts: &RigHistory, heights: &Heights) {
    for (line, width) in [(facts.limits.due, 5.0), (facts.limits.spent, 3.0)] {
        if (heights.low..heights.high).contains(&line) {
            let y = heights.y(line);
            sheet.line(&[(FRAME.left, y), (FRAME.right, y)], INK, width, "");
        }
    }
}

fn draw_resin(sheet: &mut Sheet, facts: &RigHistory, days: &Days) {
    if facts.resin_changes.is_empty() {
        return;
    }
    let style = hand(SMALLEST, Weight::Regular, QUIET);
    sheet.text(
        (FRAME.left - 18.0, LANE + 10.0),
        style,
        Anchor::End,
        &facts.words.resin,
        FRAME.left - 24.0,
    );
    let shown: Vec<f64> = facts
        .resin_changes
        .iter()
        .filter(|&&day| days.shows(day))
        .map(|&day| days.x(day))
        .collect();
    let radius = if shown.len() > 16 { 10.0 } else { 14.0 };
    for x in shown {
        sheet.diamond((x, LANE), radius, INK);
    }
}

/// The span of a jump, and the level that it brought the rig down to.
fn draw_jumps(sheet: &mut Sheet, facts: &RigHistory, days: &Days, heights: &Heights) {
    for jump in &facts.jumps {
        let (left, right) = (days.x(jump.since), days.x(jump.until.unwrap_or(facts.today)));
        let y = heights.y(jump.rejection);
        sheet.line(&[(left, y), (right.max(left + 10.0), y)], RUST, 7.0, "");
        sheet.line(&[(left, FRAME.top), (left, FRAME.bottom)], RUST, 4.0, "12 12");
    }
}

fn draw_readings(sheet: &mut Sheet, facts: &RigHistory, days: &Days, heights: &Heights) {
    // Many readings are drawn smaller, so that they stay dots.
    let radius = if facts.readings.len() > 150 { 4.5 } else { 6.5 };
    // Of an earlier membrane that fell off the axis nothing is left at the rim.
    let since = facts.membrane_changes.last().copied().unwrap_or(days.first);
    let is_shown = |dot: &&Dot| days.shows(dot.day) && (dot.day >= since || dot.rejection > heights.low);
    for dot in facts.readings.iter().filter(is_shown) {
        let at = (days.x(dot.day), heights.y(dot.rejection));
        if dot.set_aside {
            sheet.disc(at, radius + 2.0, GROUND, Some((INK, 3.5)));
        } else {
            sheet.disc(at, radius, INK, Some((GROUND, 1.5)));
        }
    }
}

fn draw_membranes(sheet: &mut Sheet, facts: &RigHistory, days: &Days) {
    let style = hand(SMALLEST, Weight::Semi, BLUE);
    let half = typeface::width(&typeface::drawable(&facts.words.membrane), style.size, style.weight) / 2.0;
    let above = Area {
        left: 6.0,
        top: 134.0,
        right: 1074.0,
        bottom: FRAME.top,
    };
    for &day in facts.membrane_changes.iter().rev().filter(|&&day| days.shows(day)) {
        let x = days.x(day);
        sheet.line(&[(x, FRAME.top - 8.0), (x, FRAME.bottom)], BLUE, 4.0, "");
        let beside = [x, x + half - 10.0, x - half + 10.0].map(|middle| (middle, FRAME.top - 18.0));
        sheet.text_where_free(&beside, style, &facts.words.membrane, &above, &[]);
    }
}

/// Words beside the things they name, where nothing is covered by them.
fn name_things(sheet: &mut Sheet, facts: &RigHistory, days: &Days, heights: &Heights) {
    let mut taken: Vec<Point> = facts
        .readings
        .iter()
        .map(|dot| (days.x(dot.day), heights.y(dot.rejection)))
        .collect();
    let trend: Vec<Point> = facts
        .trend
        .iter()
        .flatten()
        .map(|at| (days.x(at.day), heights.y(at.mid)))
        .collect();
    taken.extend(&trend);
    for pair in trend.windows(2) {
        taken.push((f64::midpoint(pair[0].0, pair[1].0), f64::midpoint(pair[0].1, pair[1].1)));
    }
    for day in facts
        .membrane_changes
        .iter()
        .chain(facts.jumps.iter().map(|jump| &jump.since))
    {
        taken.extend((0..24).map(|nth| (days.x(*day), FRAME.top + f64::from(nth) * 19.0)));
    }
    taken.extend((0..24).map(|nth| (days.x(facts.today), FRAME.top + f64::from(nth) * 19.0)));
    for line in [facts.limits.due, facts.limits.spent] {
        taken.extend((0..60).map(|nth| (FRAME.left + f64::from(nth) * 16.0, heights.y(line))));
    }
    // The jump that stands first: it is the finding.
    let (standing, mended): (Vec<&Jump>, Vec<&Jump>) = facts.jumps.iter().partition(|jump| jump.until.is_none());
    for jump in standing.into_iter().chain(mended.into_iter().rev()) {
        let style = if jump.until.is_none() {
            hand(34.0, Weight::Heavy, RUST)
        } else {
            hand(SMALLEST, Weight::Semi, RUST)
        };
        let (left, right) = (days.x(jump.since), days.x(jump.until.unwrap_or(facts.today)));
        let y = heights.y(jump.rejection);
        let half = typeface::width(&typeface::drawable(&jump.words), style.size, style.weight) / 2.0;
        let places: Vec<Point> = [12.0, -36.0, 60.0, -84.0]
            .into_iter()
            .flat_map(|down| [(right + half + 16.0, y + down), (left - half - 16.0, y + down)])
            .collect();
        sheet.text_where_free(&places, style, &jump.words, &FRAME, &taken);
    }
    for (line, words) in [
        (facts.limits.due, &facts.words.due_zone),
        (facts.limits.spent, &facts.words.spent_zone),
    ] {
        let style = hand(SMALLEST, Weight::Semi, INK);
        let half = typeface::width(&typeface::drawable(words), style.size, style.weight) / 2.0;
        let y = heights.y(line) + 36.0;
        let places = [
            FRAME.left + half + 14.0,
            FRAME.right - half - 14.0,
            days.x(facts.today) - half - 14.0,
        ];
        sheet.text_where_free(&places.map(|x| (x, y)), style, words, &FRAME, &taken);
    }
    let places: Vec<Point> = [50, 40, 60, 30, 70, 20, 80]
        .into_iter()
        .filter_map(|percent| trend.get(trend.len() * percent / 100).copied())
        .flat_map(|(x, y)| [(x, y + 84.0), (x, y - 52.0), (x, y + 112.0), (x, y - 84.0)])
        .collect();
    sheet.text_where_free(
        &places,
        hand(34.0, Weight::Semi, BLUE),
        &facts.words.trend,
        &FRAME,
        &taken,
    );
}

/// The key, and the state with its shape at its right end.
fn draw_key(sheet: &mut Sheet, facts: &RigHistory) {
    let style = hand(SMALLEST, Weight::Regular, QUIET);
    let mut right = FRAME.right;
    if let Some((state, word)) = &facts.state {
        let ink = mark::ink(*state);
        let area = sheet.text((right, KEY), hand(34.0, Weight::Heavy, ink), Anchor::End, word, 260.0);
        mark::draw(sheet, (area.left - 30.0, KEY - 12.0), 0.9, *state);
        right = area.left - 70.0;
    }
    let mut x = MARGIN_OF_KEY;
    let has_aside = facts.readings.iter().any(|dot| dot.set_aside);
    let items = [
        (!facts.readings.is_empty(), &facts.words.reading),
        (has_aside, &facts.words.set_aside),
        (!facts.trend.is_empty(), &facts.words.band),
    ];
    for (nth, (shown, words)) in items.into_iter().enumerate() {
        let width = typeface::width(&typeface::drawable(words), style.size, style.weight);
        if !shown || x + 26.0 + width > right {
            continue;
        }
        match nth {
            0 => sheet.disc((x, KEY - 10.0), 8.0, INK, None),
            1 => sheet.disc((x, KEY - 10.0), 9.0, GROUND, Some((INK, 3.5))),
            _ => {
                let swatch = Area {
                    left: x - 12.0,
                    top: KEY - 24.0,
                    right: x + 16.0,
                    bottom: KEY + 4.0,
                };
                sheet.area(&swatch, Fill::Plain(BLUE_PALE));
                sheet.line(&[(x - 10.0, KEY - 10.0), (x + 14.0, KEY - 10.0)], BLUE, 6.0, "");
            }
        }
        sheet.text((x + 24.0, KEY), style, Anchor::Start, words, f64::INFINITY);
        x += 24.0 + width + 40.0;
    }
}

const MARGIN_OF_KEY: f64 = 46.0;
