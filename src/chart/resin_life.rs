//! The resin of a rig: each bed falls from fresh to used up, with the days that it was
//! in, and how long the one in use will last.
//!
//! Beds that last ever less stand beside each other, so that a membrane which lets
//! more through is seen at the resin, too.

use jiff::civil::Date;

use super::axis::{Days, Months, days_between, draw_label, draw_top, places_about};
use super::mark::Mark;
use super::palette::{BLUE, INK, PALE, QUIET, RUST, STONE};
use super::rig_history::Ahead;
use super::sheet::{Anchor, Area, LEFT, Point, RIGHT, SMALLEST, Sheet, Style};
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
}

/// The facts of the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct ResinLife {
    /// The finding.
    pub headline: String,
    /// The figures behind it.
    pub subline: String,
    /// How much is left.
    pub mark: Mark,
    /// Seen from.
    pub today: Date,
    /// The beds, oldest first; the last is in use.
    pub beds: Vec<Bed>,
    /// When the bed in use will be used up, and its words in two lines.
    pub used_up: Option<(Ahead, [String; 2])>,
    /// Why the bed in use has to go, beside the floor: it is past it by days, or the
    /// glass shows it.
    pub over: Option<String>,
    /// The words on it.
    pub labels: Labels,
}

/// The words on the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Labels {
    /// Above the line of today.
    pub today: String,
    /// What the axis is.
    pub axis: String,
    /// Its marks: fresh, half, used up.
    pub levels: [String; 3],
    /// How long the first bed was in, with the word "days".
    pub first_days: String,
    /// What a slope is.
    pub legend: String,
    /// Where no change of resin is known.
    pub nothing: String,
    /// Short names of the months.
    pub months: Months,
}

/// Beds that are shown: more would be too narrow for their days.
pub const BEDS: usize = 8;
const TOP: f64 = 232.0;
const FLOOR: f64 = 547.0;
const BOTTOM: f64 = 642.0;

/// Draws the resin of a rig.
#[must_use]
pub fn draw(facts: &ResinLife) -> Sheet {
    let mut sheet = Sheet::titled(&facts.headline, &facts.subline, Some(facts.mark));
    let labels = &facts.labels;
    let quiet = |sheet: &mut Sheet, text: &str| {
        let size = typeface::fitting_size(text, 46.0, SMALLEST, Weight::Medium, RIGHT - LEFT);
        let style = Style::of(size, Weight::Medium, QUIET);
        sheet.text((LEFT, 772.0), style, Anchor::Start, text, RIGHT - LEFT);
    };
    let beds = &facts.beds[facts.beds.len().saturating_sub(BEDS)..];
    let Some(first) = beds.first() else {
        Mark::Bed {
            left: 0.0,
            urgent: false,
        }
        .draw(&mut sheet, (540.0, 370.0), 4.0);
        let style = Style::of(46.0, Weight::Semi, INK);
        sheet.text((540.0, 570.0), style, Anchor::Middle, &labels.nothing, RIGHT - LEFT);
        return sheet;
    };
    let widest = labels
        .levels
        .iter()
        .map(|word| Style::of(SMALLEST, Weight::Heavy, INK).width(word));
    let frame = Area {
        left: LEFT + 16.0 + widest.fold(0.0, f64::max),
        top: TOP,
        right: RIGHT,
        bottom: BOTTOM,
    };
    let days = days_of(facts, first, &frame);
    sheet.area(&Area { top: FLOOR, ..frame }, STONE);
    let knows_load = beds.iter().any(|bed| bed.load.len() > 1);
    for (share, word) in [1.0, 0.5, 0.0].into_iter().zip(&labels.levels).filter(|_| knows_load) {
        if share > 0.0 {
            sheet.rule((frame.left, y(share)), (frame.right, y(share)));
        }
        draw_label(&mut sheet, frame.left, y(share), word, share == 0.0);
    }
    for (nth, bed) in beds.iter().enumerate() {
        draw_bed(&mut sheet, facts, bed, &days, nth == 0);
    }
    sheet.line(&[(frame.left, FLOOR), (frame.right, FLOOR)], INK, 6.0);
    let today = days.x(facts.today);
    let axis = if knows_load { labels.axis.as_str() } else { "" };
    draw_top(&mut sheet, axis, today, &frame, &labels.today);
    for (nth, bed) in beds.iter().enumerate() {
        draw_days(&mut sheet, facts, bed, &days, nth == 0);
    }
    days.draw(&mut sheet, frame.bottom + 8.0, &labels.months);
    if let Some(over) = &facts.over {
        let style = Style::of(48.0, Weight::Heavy, RUST);
        sheet.text(
            (today + 20.0, FLOOR + 62.0),
            style,
            Anchor::Start,
            over,
            RIGHT - today - 14.0,
        );
    }
    draw_ahead(&mut sheet, facts, &days);
    quiet(&mut sheet, &labels.legend);
    sheet
}

/// Where what is left of a bed stands.
fn y(left: f64) -> f64 {
    (FLOOR - (FLOOR - TOP) * left.min(1.0)).min(BOTTOM - 22.0)
}

fn days_of(facts: &ResinLife, first: &Bed, frame: &Area) -> Days {
    let last = facts
        .used_up
        .as_ref()
        .map_or(facts.today, |(ahead, _)| ahead.late.unwrap_or(ahead.likely));
    let words = facts.used_up.iter().flat_map(|(_, words)| words).chain(&facts.over);
    let style = Style::of(48.0, Weight::Heavy, INK);
    let room = words
        .map(|text| style.width(text) + 40.0)
        .fold(frame.right / 8.0, f64::max);
    // Beyond the range of days stand its words.
    let ahead = days_between(facts.today, last) * 5 / 4 + 2;
    let past = days_between(first.since, facts.today).max(21).max(ahead);
    Days::about(facts.today, past, ahead, room, frame.left, frame.right)
}

/// A bed's slope, and its days below the floor.
fn draw_bed(sheet: &mut Sheet, facts: &ResinLife, bed: &Bed, days: &Days, is_first: bool) {
    let left = days.x(bed.since);
    let slope: Vec<Point> = bed
        .load
        .iter()
        .map(|&(day, share)| (days.x(day), y(1.0 - share)))
        .collect();
    let held: Vec<Point> = slope.iter().map(|&(x, y)| (x, y.min(FLOOR))).collect();
    if let (Some(begin), Some(end)) = (held.first(), held.last()) {
        let around: Vec<Point> = [(begin.0, FLOOR)]
            .into_iter()
            .chain(held.iter().copied())
            .chain([(end.0, FLOOR)])
            .collect();
        sheet.shape(&around, PALE, None);
        sheet.line(&held, BLUE, 9.0);
    }
    if !is_first {
        sheet.line(&[(left, FLOOR), (left, TOP)], BLUE, 4.0);
    }
    let is_over = bed.until.is_none() && facts.over.is_some();
    if is_over {
        let past: Vec<Point> = slope.iter().copied().filter(|point| point.1 > FLOOR).collect();
        if let (Some(begin), Some(end)) = (past.first(), past.last().filter(|_| past.len() > 1)) {
            let around = [(begin.0, FLOOR), (end.0, FLOOR), *end];
            sheet.shape(&around, RUST, Some((RUST, 8.0)));
        } else if let Some(end) = held.last() {
            // The count says that it holds; the glass, that it does not.
            let x = end.0 - 8.0;
            sheet.line(&[(x, end.1), (x, FLOOR + 30.0)], RUST, 10.0);
        }
    }
}

/// How long a bed was in, below the floor, where there is room.
fn draw_days(sheet: &mut Sheet, facts: &ResinLife, bed: &Bed, days: &Days, is_first: bool) {
    let until = bed.until.unwrap_or(facts.today);
    let (left, right) = (days.x(bed.since), days.x(until));
    let is_over = bed.until.is_none() && facts.over.is_some();
    let (largest, weight) = if bed.until.is_none() {
        (54.0, Weight::Heavy)
    } else {
        (46.0, Weight::Semi)
    };
    let ink = if is_over { RUST } else { INK };
    let number = days_between(bed.since, until).to_string();
    let strip = Area {
        left: left - 2.0,
        top: FLOOR,
        right: right + 2.0,
        bottom: BOTTOM,
    };
    let texts = [is_first.then_some(&facts.labels.first_days), Some(&number)];
    for (text, size) in texts
        .into_iter()
        .flatten()
        .flat_map(|text| [(text, largest), (text, SMALLEST)])
    {
        let style = Style::of(size, weight, ink);
        let at = (f64::midpoint(left, right) - style.width(text) / 2.0, FLOOR + 66.0);
        if sheet
            .text_where_free(&[at, (at.0 - 8.0, at.1)], style, text, &strip)
            .is_some()
        {
            return;
        }
    }
}

/// From today's rest to the floor, as a range of days.
fn draw_ahead(sheet: &mut Sheet, facts: &ResinLife, days: &Days) {
    let now = facts.beds.last().and_then(|bed| bed.load.last());
    let (Some((ahead, [first, second])), Some(&(_, share))) = (&facts.used_up, now) else {
        return;
    };
    let today = days.x(facts.today);
    sheet.dotted(&[(today, y(1.0 - share)), (days.x(ahead.likely), FLOOR)], BLUE, 8.0);
    let late = ahead.late.filter(|&late| days.shows(late)).map(|late| days.x(late));
    sheet.range(days.x(ahead.early), late, days.right, FLOOR);
    let frame = Area {
        left: today + 10.0,
        top: TOP,
        right: RIGHT + 12.0,
        bottom: FLOOR,
    };
    let found = Style::of(46.0, Weight::Heavy, INK);
    let near = (late.unwrap_or(days.right) - found.width(second) / 3.0, FLOOR - 110.0);
    let lines = [(Style::SAID, first.as_str()), (found, second.as_str())];
    sheet.lines_where_free(&places_about(near, &frame), &lines, &frame);
}
