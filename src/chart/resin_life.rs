//! The resin of a rig: how each bed filled up, how long it lasted, and how long the
//! one in use will.
//!
//! Beds that last ever less stand beside each other, so that a membrane which lets
//! more through is seen at the resin, too.

use jiff::ToSpan;
use jiff::civil::Date;

use super::axis::{Days, Heights, Tick, days_between, draw_today};
use super::palette::{BLUE, BLUE_PALE, INK, QUIET, RUST};
use super::rig_history::Ahead;
use super::sheet::{Anchor, Area, Fill, Point, SMALLEST, Sheet, hand};
use super::typeface::{self, Weight};

/// A bed of resin.
#[derive(Clone, Debug, PartialEq)]
pub struct Bed {
    /// When it was put in.
    pub since: Date,
    /// When it was taken out; none for the one in use.
    pub until: Option<Date>,
    /// Share of what a bed holds that it had taken up, by day. Empty where the load
    /// is not known.
    pub load: Vec<(Date, f64)>,
    /// How long it lasted, or lasts so far, in words.
    pub lasted: String,
}

/// The facts of the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct ResinLife {
    /// The finding.
    pub headline: String,
    /// The figures behind it.
    pub subline: String,
    /// Seen from.
    pub today: Date,
    /// Marks of the axis of load, from 0 up.
    pub shares: Vec<Tick>,
    /// The beds, oldest first; the last is in use.
    pub beds: Vec<Bed>,
    /// When the bed in use will be full.
    pub full: Option<Ahead>,
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
    /// At the line of a full bed.
    pub full: String,
    /// Before the lane of how long beds lasted.
    pub lasted: String,
    /// In the key: what the filled shape is.
    pub load: String,
    /// In the key: what the hatched shape is.
    pub forecast: String,
    /// Where no change of resin is known.
    pub nothing: String,
}

/// Beds that are shown: more would be too narrow for their words.
pub const BEDS: usize = 8;
const FRAME: Area = Area {
    left: 132.0,
    top: 196.0,
    right: 1044.0,
    bottom: 580.0,
};
/// A bed narrower than this has no room for its days.
const NARROWEST: f64 = 24.0;
const LANE: f64 = 634.0;
const KEY: f64 = 788.0;

/// Draws the resin of a rig.
#[must_use]
pub fn draw(facts: &ResinLife) -> Sheet {
    let mut sheet = Sheet::titled(&facts.headline, &facts.subline);
    let beds = &facts.beds[facts.beds.len().saturating_sub(BEDS)..];
    let Some(first) = beds.first() else {
        sheet.text(
            (540.0, 400.0),
            hand(40.0, Weight::Semi, INK),
            Anchor::Middle,
            &facts.words.nothing,
            1000.0,
        );
        return sheet;
    };
    let ahead = facts
        .full
        .as_ref()
        .map(|full| full.late.unwrap_or(full.likely.saturating_add(21.days())));
    // Room to the right, so that the present bed is not squeezed against the rim.
    let room = days_between(first.since, facts.today) / 2;
    let last = ahead
        .map_or(facts.today, |late| late.max(facts.today))
        .saturating_add(4.days());
    let last = last.max(facts.today.saturating_add(room.days()));
    let days = Days::over(first.since, last, FRAME.left, FRAME.right);
    let heights = Heights::of(&facts.shares, FRAME.top, FRAME.bottom);
    let knows_load = beds.iter().any(|bed| bed.load.len() > 1);
    if knows_load {
        heights.draw(&mut sheet, &facts.shares, &FRAME);
        let full = heights.y(1.0);
        sheet.line(&[(FRAME.left, full), (FRAME.right, full)], INK, 5.0, "");
    }
    for bed in beds {
        draw_bed(&mut sheet, facts, bed, &days, &heights);
    }
    draw_ahead(&mut sheet, facts, beds, &days, &heights);
    draw_today(
        &mut sheet,
        days.x(facts.today),
        &Area {
            bottom: LANE + 20.0,
            ..FRAME
        },
        &facts.words.today,
    );
    if knows_load {
        let style = hand(SMALLEST, Weight::Semi, INK);
        let half = typeface::width(&typeface::drawable(&facts.words.full), style.size, style.weight) / 2.0;
        let y = heights.y(1.0) - 16.0;
        let lines: Vec<Point> = beds
            .iter()
            .flat_map(|bed| &bed.load)
            .map(|&(day, share)| (days.x(day), heights.y(share)))
            .chain([(days.x(facts.today), y)])
            .collect();
        let places: Vec<Point> = (0..14)
            .map(|nth| (FRAME.left + half + 10.0 + 60.0 * f64::from(nth), y))
            .collect();
        sheet.text_where_free(&places, style, &facts.words.full, &FRAME, &lines);
    }
    let style = hand(SMALLEST, Weight::Regular, QUIET);
    sheet.text(
        (FRAME.left - 14.0, LANE + 10.0),
        style,
        Anchor::End,
        &facts.words.lasted,
        FRAME.left - 20.0,
    );
    days.draw(&mut sheet, LANE + 36.0, &facts.months);
    draw_key(&mut sheet, facts, knows_load);
    sheet
}

fn draw_bed(sheet: &mut Sheet, facts: &ResinLife, bed: &Bed, days: &Days, heights: &Heights) {
    let until = bed.until.unwrap_or(facts.today);
    let (left, right) = (days.x(bed.since), days.x(until));
    let edge: Vec<Point> = bed
        .load
        .iter()
        .map(|&(day, share)| (days.x(day), heights.y(share)))
        .collect();
    let base = [(left, heights.bottom), (right, heights.bottom)];
    sheet.ribbon(&edge, &base, Fill::Plain(BLUE_PALE));
    sheet.line(&edge, BLUE, 7.0, "");
    if let (Some(&end), Some(_)) = (edge.last(), bed.until) {
        sheet.line(&[end, (right, heights.bottom)], BLUE, 4.0, "");
    }
    if right - left < NARROWEST {
        return;
    }
    // The lane: how long it lasted, from bar to bar.
    let ink = if bed.until.is_some() { INK } else { BLUE };
    sheet.line(&[(left + 4.0, LANE), (right - 4.0, LANE)], ink, 5.0, "");
    for x in [left + 4.0, right - 4.0] {
        sheet.line(&[(x, LANE - 10.0), (x, LANE + 10.0)], ink, 4.0, "");
    }
    let lane = Area {
        top: FRAME.bottom + 4.0,
        bottom: LANE + 30.0,
        left: FRAME.left - 6.0,
        right: 1074.0,
    };
    let middle = f64::midpoint(left, right);
    sheet.text_where_free(
        &[(middle, LANE - 20.0)],
        hand(34.0, Weight::Heavy, ink),
        &bed.lasted,
        &lane,
        &[],
    );
}

/// From today's load to the line of a full bed, as a range.
fn draw_ahead(sheet: &mut Sheet, facts: &ResinLife, beds: &[Bed], days: &Days, heights: &Heights) {
    let now = beds.last().and_then(|bed| bed.load.last());
    let (Some(full), Some(&(_, share))) = (&facts.full, now) else {
        return;
    };
    let y = heights.y(1.0);
    let from = (days.x(facts.today), heights.y(share));
    let (left, right) = (days.x(full.early), full.late.map_or(FRAME.right, |late| days.x(late)));
    sheet.shape(&[from, (left, y), (right, y)], Fill::Ahead, None);
    sheet.line(&[from, (days.x(full.likely), y)], RUST, 7.0, "3 16");
    sheet.line(&[(left, y), (right, y)], RUST, 14.0, "");
    for x in [Some(left), full.late.map(|_| right)].into_iter().flatten() {
        sheet.line(&[(x, y - 16.0), (x, y + 16.0)], RUST, 6.0, "");
    }
    sheet.diamond((days.x(full.likely), y), 19.0, RUST);
    let style = hand(SMALLEST, Weight::Heavy, RUST);
    let half = typeface::width(&typeface::drawable(&full.words), style.size, style.weight) / 2.0;
    let most = (1064.0 - half).max(FRAME.left + half);
    let middle = f64::midpoint(left, right)
        .max(days.x(facts.today) + half + 10.0)
        .clamp(FRAME.left + half, most);
    sheet.text_over(
        (middle, y - 34.0),
        style,
        Anchor::Middle,
        &full.words,
        FRAME.right - FRAME.left,
    );
}

fn draw_key(sheet: &mut Sheet, facts: &ResinLife, knows_load: bool) {
    if !knows_load {
        return;
    }
    let style = hand(SMALLEST, Weight::Regular, QUIET);
    let swatch = |x: f64| Area {
        left: x,
        top: KEY - 24.0,
        right: x + 34.0,
        bottom: KEY + 4.0,
    };
    sheet.area(&swatch(36.0), Fill::Plain(BLUE_PALE));
    sheet.line(&[(36.0, KEY - 24.0), (70.0, KEY - 24.0)], BLUE, 5.0, "");
    let area = sheet.text((84.0, KEY), style, Anchor::Start, &facts.words.load, 460.0);
    if facts.full.is_some() {
        let x = area.right + 44.0;
        sheet.area(&swatch(x), Fill::Ahead);
        sheet.text(
            (x + 48.0, KEY),
            style,
            Anchor::Start,
            &facts.words.forecast,
            1044.0 - x - 48.0,
        );
    }
}
