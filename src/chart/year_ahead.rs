//! The year ahead: what will be bought, when, and for how much. Membranes are bars of
//! days, resin and prefilters things to count, money a sum and a range a quarter.

use jiff::civil::Date;

use super::axis::{Days, months_later};
use super::mark::Mark;
use super::palette::{GROUND, INK, STONE};
use super::rig_history::Ahead;
use super::sheet::{Anchor, Area, LEFT, Point, SMALLEST, Sheet, Style};
use super::typeface::Weight;

/// A membrane that will be bought.
#[derive(Clone, Debug, PartialEq)]
pub struct Membrane {
    /// For which rig.
    pub rig: String,
    /// When.
    pub when: Ahead,
}

/// What a quarter costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Quarter {
    /// Its months.
    pub months: String,
    /// The sum.
    pub about: String,
    /// Its range.
    pub range: String,
}

/// The facts of the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct YearAhead {
    /// The finding.
    pub headline: String,
    /// The range, and how soon.
    pub subline: String,
    /// The first day of the first quarter.
    pub first: Date,
    /// Membranes.
    pub membranes: Vec<Membrane>,
    /// Days on which a bed of resin is bought.
    pub resin: Vec<Date>,
    /// Days on which prefilters are bought.
    pub prefilters: Vec<Date>,
    /// The four quarters.
    pub quarters: [Quarter; 4],
    /// The words on it.
    pub labels: Labels,
}

/// The words on the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Labels {
    /// Before the membranes.
    pub membrane: String,
    /// Before the resin.
    pub resin: String,
    /// How much a bed is; empty where beds differ.
    pub each: String,
    /// Before the prefilters.
    pub prefilters: String,
    /// Before the sums.
    pub about: String,
    /// Before their ranges.
    pub range: String,
}

const TOP: f64 = 172.0;
const FLOOR: f64 = 580.0;
const RIGHT: f64 = 1052.0;
/// Where the lanes of two membranes are, and of three.
const LANES: [&[f64]; 2] = [&[220.0, 296.0], &[202.0, 256.0, 310.0]];
const RESIN: f64 = 412.0;
const PREFILTERS: f64 = 524.0;
/// Things closer than this are counted by the quarter.
const THINGS_APART: f64 = 42.0;

/// Draws the year ahead.
#[must_use]
pub fn draw(facts: &YearAhead) -> Sheet {
    let mut sheet = Sheet::titled(&facts.headline, &facts.subline, None);
    let labels = &facts.labels;
    let before = [&labels.membrane, &labels.resin, &labels.prefilters];
    let widest = before.iter().map(|word| Style::SAID.width(word));
    let widest = widest.fold(Style::QUIET.width(&labels.each), f64::max);
    let left = (LEFT + widest + 20.0).max(260.0);
    let days = Days::over(facts.first, months_later(facts.first, 12), left, RIGHT);
    let quarter = |nth: i64| days.x(months_later(facts.first, 3 * nth));
    for nth in [0, 2] {
        let area = Area {
            left: quarter(nth),
            top: TOP,
            right: quarter(nth + 1),
            bottom: 796.0,
        };
        sheet.area(&area, STONE);
    }
    for y in [340.0, 474.0] {
        sheet.rule((LEFT, y), (RIGHT, y));
    }
    let mut word = |y: f64, style: Style, text: &str| {
        sheet.text((LEFT, y), style, Anchor::Start, text, left - LEFT - 8.0);
    };
    let resin_up = if labels.each.is_empty() { -14.0 } else { 8.0 };
    word(RESIN - resin_up, Style::SAID, &labels.resin);
    word(RESIN + 42.0, Style::QUIET, &labels.each);
    word(PREFILTERS + 14.0, Style::SAID, &labels.prefilters);
    word(714.0, Style::of(46.0, Weight::Heavy, INK), &labels.about);
    word(772.0, Style::QUIET, &labels.range);
    draw_things(&mut sheet, Mark::FRESH_BED, &facts.resin, &days, RESIN);
    draw_things(&mut sheet, Mark::Prefilter, &facts.prefilters, &days, PREFILTERS);
    sheet.line(&[(left, FLOOR), (RIGHT, FLOOR)], INK, 5.0);
    for month in 0..=12 {
        let x = days.x(months_later(facts.first, month));
        let long = if month % 3 == 0 { 20.0 } else { 12.0 };
        sheet.line(&[(x, FLOOR), (x, FLOOR + long)], INK, 4.0);
    }
    for (nth, told) in (0..).zip(&facts.quarters) {
        let middle = f64::midpoint(quarter(nth), quarter(nth + 1));
        let room = quarter(nth + 1) - quarter(nth) - 8.0;
        for (y, text, largest, weight) in [
            (642.0, &told.months, SMALLEST, Weight::Medium),
            (714.0, &told.about, 56.0, Weight::Heavy),
            (772.0, &told.range, 44.0, Weight::Medium),
        ] {
            let size = super::typeface::fitting_size(text, largest, SMALLEST, weight, room);
            sheet.text((middle, y), Style::of(size, weight, INK), Anchor::Middle, text, room);
        }
    }
    let drawn = draw_membranes(&mut sheet, &facts.membranes, &days);
    let rest = facts.membranes.len() - drawn;
    let y = if rest > 0 { 240.0 } else { 266.0 };
    sheet.text(
        (LEFT, y),
        Style::SAID,
        Anchor::Start,
        &labels.membrane,
        left - LEFT - 8.0,
    );
    if rest > 0 {
        let more = format!("+{rest}");
        sheet.text((LEFT, y + 50.0), Style::QUIET, Anchor::Start, &more, left - LEFT - 8.0);
    }
    sheet
}

/// Bars of days in as few lanes as they need, the earliest first; gives how many found
/// a place.
fn draw_membranes(sheet: &mut Sheet, membranes: &[Membrane], days: &Days) -> usize {
    const APART: f64 = 24.0;
    let style = Style::of(46.0, Weight::Heavy, INK);
    let mut shown: Vec<&Membrane> = membranes
        .iter()
        .filter(|membrane| days.shows(membrane.when.early))
        .collect();
    shown.sort_by_key(|membrane| membrane.when.early);
    let lanes = if shown.len() <= 2 { LANES[0] } else { LANES[1] };
    let mut taken: Vec<f64> = vec![days.left; lanes.len()];
    let mut drawn = 0;
    for membrane in shown {
        let when = membrane.when;
        let from = days.x(when.early);
        let to = when.late.filter(|&late| days.shows(late)).map(|late| days.x(late));
        let end = to.unwrap_or(days.right);
        let wide = style.width(&membrane.rig).min(300.0);
        let name_before = |lane: f64| from - APART - wide >= lane;
        let name_after = end + APART + wide <= days.right;
        let fits = |lane: &f64| from >= *lane && (name_after || name_before(*lane));
        let Some(nth) = taken.iter().position(fits) else {
            continue;
        };
        let (y, at, anchor) = match name_after {
            true => (lanes[nth], end + APART, Anchor::Start),
            false => (lanes[nth], from - APART, Anchor::End),
        };
        taken[nth] = if name_after {
            end + 2.0 * APART + wide
        } else {
            end + APART
        };
        draw_bar(sheet, (from, to, days.x(when.likely)), days.right, y);
        sheet.text((at, y + 16.0), style, anchor, &membrane.rig, 300.0);
        drawn += 1;
    }
    drawn
}

fn draw_bar(sheet: &mut Sheet, (from, to, likely): (f64, Option<f64>, f64), rim: f64, y: f64) {
    sheet.range(from, to, rim, y);
    let around = [
        (likely, y - 26.0),
        (likely + 26.0, y),
        (likely, y + 26.0),
        (likely - 26.0, y),
    ];
    sheet.shape(&around, INK, Some((GROUND, 5.0)));
}

/// Things to count: each on its day, or where they are many, their number a quarter.
fn draw_things(sheet: &mut Sheet, mark: Mark, on: &[Date], days: &Days, y: f64) {
    let mut on: Vec<Date> = on.iter().copied().filter(|&day| days.shows(day)).collect();
    on.sort_unstable();
    let places: Vec<f64> = on.iter().map(|&day| days.x(day)).collect();
    if places.windows(2).all(|pair| pair[1] - pair[0] >= THINGS_APART) {
        let (first, last) = (days.left + 18.0, days.right - 18.0);
        for x in places {
            mark.draw(sheet, (x.clamp(first, last), y), 1.05);
        }
        return;
    }
    for nth in 0..4_i64 {
        let [from, to] = [nth, nth + 1].map(|nth| months_later(days.first, 3 * nth));
        let count = on.iter().filter(|&&day| (from..to).contains(&day)).count();
        if count == 0 {
            continue;
        }
        let middle: Point = (f64::midpoint(days.x(from), days.x(to)), y);
        mark.draw(sheet, (middle.0 - 42.0, y), 1.05);
        let style = Style::of(50.0, Weight::Heavy, INK);
        let text = format!("× {count}");
        sheet.text((middle.0 - 12.0, y + 18.0), style, Anchor::Start, &text, 120.0);
    }
}
