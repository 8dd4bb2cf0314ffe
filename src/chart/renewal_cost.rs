//! Money over time, "why now": what membrane and resin cost a year, by the month in
//! which the membrane is renewed.

use jiff::civil::Date;

use super::axis::{Days, Heights, Tick};
use super::palette::{BLUE, BLUE_PALE, GROUND, INK, QUIET, RUST};
use super::sheet::{Anchor, Area, Fill, Hand, Point, SMALLEST, Sheet, hand};
use super::typeface::{self, Weight};

/// A day with its words.
#[derive(Clone, Debug, PartialEq)]
pub struct Marked {
    /// The day.
    pub on: Date,
    /// What is said of it.
    pub words: String,
}

/// The facts of the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct RenewalCost {
    /// The finding.
    pub headline: String,
    /// The figures behind it.
    pub subline: String,
    /// Seen from.
    pub today: Date,
    /// Marks of the axis of money a year.
    pub costs: Vec<Tick>,
    /// Cost a year if renewed on a day, from today on.
    pub curve: Vec<(Date, f64)>,
    /// Where it is least.
    pub cheapest: Marked,
    /// From when to when it hardly matters.
    pub flat: (Date, Date),
    /// The rule of thumb beside it.
    pub rule: Option<Marked>,
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
    /// What the axis of money is.
    pub axis: String,
    /// In the key: what the shaded days are.
    pub flat: String,
}

const FRAME: Area = Area {
    left: 150.0,
    top: 240.0,
    right: 1044.0,
    bottom: 664.0,
};
const KEY: f64 = 788.0;
/// From line to line of words in the frame.
const LINE: f64 = 40.0;
/// A longer line would reach from one thing named to the next.
const LONGEST: f64 = 480.0;

/// Draws the money over time.
#[must_use]
pub fn draw(facts: &RenewalCost) -> Sheet {
    let mut sheet = Sheet::titled(&facts.headline, &facts.subline);
    let last = facts.curve.last().map_or(facts.today, |&(day, _)| day);
    let days = Days::over(facts.today, last, FRAME.left, FRAME.right);
    let heights = Heights::of(&facts.costs, FRAME.top, FRAME.bottom);
    let flat = Area {
        left: days.x(facts.flat.0),
        right: days.x(facts.flat.1),
        ..FRAME
    };
    sheet.area(&flat, Fill::Plain(BLUE_PALE));
    heights.draw(&mut sheet, &facts.costs, &FRAME);
    let curve: Vec<Point> = facts
        .curve
        .iter()
        .map(|&(day, cost)| (days.x(day), heights.y(cost)))
        .collect();
    let style = hand(SMALLEST, Weight::Regular, QUIET);
    sheet.text(
        (36.0, FRAME.top - 70.0),
        style,
        Anchor::Start,
        &facts.words.axis,
        1000.0,
    );
    // Beside its line, not above: the axis of money has its words there.
    sheet.line(
        &[(FRAME.left, FRAME.top - 34.0), (FRAME.left, FRAME.bottom)],
        INK,
        4.0,
        "",
    );
    let today = hand(34.0, Weight::Heavy, INK);
    sheet.text(
        (FRAME.left + 12.0, FRAME.top - 14.0),
        today,
        Anchor::Start,
        &facts.words.today,
        400.0,
    );
    let on_curve = |day: Date| (days.x(day), height_at(&curve, days.x(day)).unwrap_or(FRAME.bottom));
    if let Some(rule) = &facts.rule {
        let at = on_curve(rule.on);
        sheet.line(&[(at.0, FRAME.top), (at.0, FRAME.bottom)], RUST, 4.0, "12 12");
    }
    let least = on_curve(facts.cheapest.on);
    sheet.line(&[least, (least.0, FRAME.bottom)], BLUE, 4.0, "");
    sheet.line(&curve, INK, 8.0, "");
    sheet.diamond(least, 21.0, BLUE);
    let mut taken = dense(&curve);
    if let Some(rule) = &facts.rule {
        let at = on_curve(rule.on);
        sheet.disc(at, 13.0, GROUND, Some((RUST, 6.0)));
        taken.extend((0..48).map(|nth| (at.0, FRAME.top + f64::from(nth) * 9.0)));
        taken.extend([
            (at.0 - 20.0, at.1),
            (at.0 + 20.0, at.1),
            (at.0, at.1 + 20.0),
            (at.0 + 15.0, at.1 + 15.0),
        ]);
    }
    taken.extend((-2..=2).map(|nth| (least.0 + 10.0 * f64::from(nth), least.1)));
    taken.extend((0..48).map(|nth| (least.0, least.1 + f64::from(nth) * 9.0)));
    let blue = hand(34.0, Weight::Heavy, BLUE);
    name(&mut sheet, least, blue, &facts.cheapest.words, &taken);
    if let Some(rule) = &facts.rule {
        name(
            &mut sheet,
            on_curve(rule.on),
            hand(34.0, Weight::Heavy, RUST),
            &rule.words,
            &taken,
        );
    }
    days.draw(&mut sheet, FRAME.bottom + 6.0, &facts.months);
    let swatch = Area {
        left: 36.0,
        top: KEY - 24.0,
        right: 70.0,
        bottom: KEY + 4.0,
    };
    sheet.area(&swatch, Fill::Plain(BLUE_PALE));
    sheet.text((84.0, KEY), style, Anchor::Start, &facts.words.flat, 960.0);
    sheet
}

/// Words in one or two lines beside a point of the curve: at the nearest place where
/// they cover nothing. There is always one above or below a curve this smooth; if not,
/// the headline says it.
fn name(sheet: &mut Sheet, point: Point, style: Hand, words: &str, taken: &[Point]) {
    let width = |line: &String| typeface::width(line, style.size, style.weight);
    let in_two = || {
        // The narrowest two lines that hold all of it.
        let rooms = (8..27).map(|nth| 20.0 * f64::from(nth));
        rooms
            .map(|room| typeface::broken(words, style.size, style.weight, room, 2))
            .find(|lines| !lines.iter().any(|line| line.ends_with('\u{2026}')))
    };
    let in_one = vec![typeface::drawable(words)];
    // One line where it is short and fits near by, else two.
    let in_one = Some(in_one).filter(|lines| lines.iter().all(|line| width(line) <= LONGEST));
    for (lines, near) in [(in_one, 60.0), (in_two(), f64::INFINITY)] {
        let Some(lines) = lines else { continue };
        let wide = lines.iter().map(width).fold(0.0, f64::max);
        #[allow(clippy::cast_precision_loss)]
        let high = LINE * lines.len() as f64;
        let Some((x, y)) = nearest_free(sheet, point, (wide + 16.0, high + 12.0), near, taken) else {
            continue;
        };
        let mut base = y - high / 2.0 + 0.76 * style.size;
        for line in &lines {
            sheet.text_over((x, base), style, Anchor::Middle, line, f64::INFINITY);
            base += LINE;
        }
        return;
    }
}

/// The middle of the free area of a size that is nearest to a point.
fn nearest_free(sheet: &Sheet, point: Point, (wide, high): Point, near: f64, taken: &[Point]) -> Option<Point> {
    let about = |(x, y): Point| Area {
        left: x - wide / 2.0,
        top: y - high / 2.0,
        right: x + wide / 2.0,
        bottom: y + high / 2.0,
    };
    let free = |&place: &Point| {
        let area = about(place);
        area.left >= FRAME.left + 2.0
            && area.right <= FRAME.right + 16.0
            && area.top >= FRAME.top
            && area.bottom <= FRAME.bottom
            && !taken.iter().any(|&point| area.holds(point))
            && !sheet.words().iter().any(|placed| placed.area.meets(&area))
    };
    // How far the words' nearest edge is.
    let distance = |&place: &Point| {
        let area = about(place);
        let (dx, dy) = (
            point.0.clamp(area.left, area.right) - point.0,
            point.1.clamp(area.top, area.bottom) - point.1,
        );
        dx.hypot(dy)
    };
    let mut places: Vec<Point> = (0..46)
        .flat_map(|column| (0..44).map(move |row| (20.0 * f64::from(column), 10.0 * f64::from(row))))
        .map(|(right, down)| (FRAME.left + right, FRAME.top + down))
        .filter(|place| distance(place) <= near)
        .collect();
    places.sort_by(|a, b| distance(a).total_cmp(&distance(b)));
    places.into_iter().find(free)
}

/// The height of a line at a place.
fn height_at(line: &[Point], x: f64) -> Option<f64> {
    let pair = line.windows(2).find(|pair| (pair[0].0..=pair[1].0).contains(&x))?;
    let share = (x - pair[0].0) / (pair[1].0 - pair[0].0).max(1e-9);
    Some(pair[0].1 + share * (pair[1].1 - pair[0].1))
}

/// Points along a line, close enough that no words slip between them.
fn dense(line: &[Point]) -> Vec<Point> {
    line.windows(2)
        .flat_map(|pair| {
            (0..4).map(|nth| {
                let share = f64::from(nth) / 4.0;
                (
                    pair[0].0 + share * (pair[1].0 - pair[0].0),
                    pair[0].1 + share * (pair[1].1 - pair[0].1),
                )
            })
        })
        .collect()
}
