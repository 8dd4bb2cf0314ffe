//! The fleet on one sheet: the jobs numbered in their order, then the rigs without one.
//!
//! Of up to three jobs each has a line that falls to the floor, beside the figure that
//! decides; of more, the first has. A sheet holds seven rows; of a larger fleet it shows
//! the six most urgent rigs, and `fleet_list::pages` adds sheets that list all others.

use jiff::civil::Date;

use super::axis::Days;
use super::mark::Mark;
use super::palette::{GROUND, INK, SAND, STONE_DARK};
use super::sheet::{Anchor, Area, LEFT, Point, RIGHT, SMALLEST, Sheet, Style, WIDTH};
use super::typeface::{self, Weight};

/// A rig's row.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The rig.
    pub name: String,
    /// The shape of its state, or of its job.
    pub mark: Mark,
    /// What is to be done, where it has a job; else its state.
    pub words: String,
    /// The figure that decides; empty where there is none.
    pub value: String,
    /// What the figure is; empty where it needs no words.
    pub noun: String,
    /// Something is to be done.
    pub is_job: bool,
    /// The line over the span of the sheet, a stretch for each membrane or bed: 1 is new
    /// and 0 the floor.
    pub line: Vec<Vec<(Date, f64)>>,
}

/// The facts of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Fleet {
    /// The finding.
    pub headline: String,
    /// The deed.
    pub subline: String,
    /// First day of the lines.
    pub since: Date,
    /// Last day of the lines.
    pub today: Date,
    /// All rigs: those with a job first, the most urgent first.
    pub rigs: Vec<Row>,
    /// How many have no row, in words.
    pub more: String,
    /// Beneath the headline of the sheets that list them.
    pub others: String,
    /// What the lines and their floor are.
    pub legend: String,
}

/// Rows of a sheet.
const ROWS: usize = 7;
const TOP: f64 = 166.0;
const BOTTOM: f64 = 730.0;
/// A row of one line of words.
const SMALL_ROW: f64 = 68.0;
/// Where names begin.
const NAME: f64 = 178.0;
/// The least width of a line that is seen to fall.
const LEAST_LINE: f64 = 130.0;
/// The strip below the floor.
const STRIP: f64 = 34.0;

/// How many of so many rigs get a row of their own on the first sheet.
#[must_use]
pub fn shown(rigs: usize) -> usize {
    if rigs > ROWS { ROWS - 1 } else { rigs }
}

/// How the rows share the sheet.
struct Plan {
    /// Heights of the rows that have a line.
    large: Vec<f64>,
    /// Height and number of columns of all others.
    small: (f64, usize),
}

fn plan(rows: usize, jobs: usize, space: f64) -> Plan {
    #[allow(clippy::cast_precision_loss)]
    let each = |height: f64, rows: usize| height / rows.max(1) as f64;
    if jobs == 0 && rows <= 4 {
        return Plan {
            large: vec![each(space, rows).min(188.0); rows],
            small: (0.0, 1),
        };
    }
    for (first, next) in [(176.0, 150.0), (152.0, 132.0)] {
        let large: Vec<f64> = (0..jobs).map(|nth| if nth == 0 { first } else { next }).collect();
        let left = space - large.iter().sum::<f64>();
        for columns in [1, 2] {
            let height = each(left, (rows - jobs).div_ceil(columns));
            if jobs <= 3 && height >= SMALL_ROW - 2.0 {
                return Plan {
                    large,
                    small: (height.min(120.0), columns),
                };
            }
        }
    }
    Plan {
        large: vec![154.0],
        small: (SMALL_ROW, 1),
    }
}

/// The first sheet.
pub(super) fn draw(fleet: &Fleet) -> Sheet {
    let mut sheet = Sheet::titled(&fleet.headline, &fleet.subline, None);
    let rows = &fleet.rigs[..shown(fleet.rigs.len())];
    let jobs = rows.iter().filter(|row| row.is_job).count();
    let has_more = rows.len() < fleet.rigs.len();
    let plan = plan(rows.len(), jobs, BOTTOM - TOP - if has_more { SMALL_ROW } else { 0.0 });
    let (large, small) = rows.split_at(plan.large.len().min(rows.len()));
    let columns = Columns::of(large);
    let mut top = TOP;
    for (nth, (row, height)) in large.iter().zip(&plan.large).enumerate() {
        draw_large(&mut sheet, fleet, (nth, row), &columns, (top, top + height));
        top += height;
    }
    divide(&mut sheet, top);
    let (height, across) = plan.small;
    if across == 1 {
        let deed = deed_column(small);
        for (nth, row) in small.iter().enumerate() {
            draw_small(&mut sheet, (nth + large.len(), row), deed, (top + height / 2.0, height));
            top += height;
            divide(&mut sheet, top);
        }
    } else {
        for (nth, pair) in small.chunks(across).enumerate() {
            #[allow(clippy::cast_precision_loss)]
            let middle = top + height * (nth as f64 + 0.5);
            for (row, x) in pair.iter().zip([LEFT, 552.0]) {
                draw_half(&mut sheet, row, (x, middle));
            }
        }
        #[allow(clippy::cast_precision_loss)]
        let rows = small.len().div_ceil(across) as f64;
        top += height * rows;
        divide(&mut sheet, top);
    }
    if has_more {
        let style = Style::of(46.0, Weight::Semi, INK);
        sheet.text((LEFT, top + 50.0), style, Anchor::Start, &fleet.more, RIGHT - LEFT);
        divide(&mut sheet, top + SMALL_ROW);
    }
    if large.iter().any(|row| !row.line.is_empty()) {
        draw_floor(&mut sheet, (LEFT, LEFT + 72.0), 766.0, 24.0);
        sheet.text(
            (126.0, 786.0),
            Style::QUIET,
            Anchor::Start,
            &fleet.legend,
            RIGHT - 126.0,
        );
    }
    sheet
}

fn divide(sheet: &mut Sheet, y: f64) {
    sheet.rule((LEFT, y), (RIGHT, y));
}

/// Sizes of name and words of the first row with a line, and of the others.
fn sizes(nth: usize) -> (f64, f64) {
    if nth == 0 { (66.0, 48.0) } else { (58.0, 44.0) }
}

fn name_style(size: f64) -> Style {
    Style::of(size, Weight::Heavy, INK)
}

/// Where the lines stand: the words take what they need, the lines get the rest.
struct Columns {
    left: f64,
    right: f64,
}

impl Columns {
    fn of(rows: &[Row]) -> Self {
        let most = |width: &dyn Fn(usize, &Row) -> f64| {
            rows.iter()
                .enumerate()
                .map(|(nth, row)| width(nth, row))
                .fold(0.0, f64::max)
        };
        let figures = most(&|nth, row| {
            name_style(sizes(nth).0)
                .width(&row.value)
                .max(Style::SAID.width(&row.noun))
        });
        let right = RIGHT - figures - 32.0;
        let words = most(&|nth, row| Style::of(sizes(nth).1, Weight::Semi, INK).width(&row.words));
        let names = most(&|nth, row| name_style(sizes(nth).0).width(&row.name));
        // A name is cut before the line is lost.
        let names = names.min(right - LEAST_LINE - 30.0 - NAME);
        let least = NAME + words.max(names) + 30.0;
        Self {
            left: least.max(600.0_f64.min(right - LEAST_LINE)),
            right,
        }
    }
}

fn draw_large(sheet: &mut Sheet, fleet: &Fleet, (nth, row): (usize, &Row), columns: &Columns, (top, bottom): Point) {
    let (middle, ink) = (f64::midpoint(top, bottom), row.mark.ink());
    let (big, small) = sizes(nth);
    if nth == 0 && row.is_job {
        let band = Area {
            left: 0.0,
            top,
            right: f64::from(WIDTH),
            bottom,
        };
        sheet.area(&band, SAND);
    } else {
        divide(sheet, top);
    }
    if row.is_job {
        let number = (nth + 1).to_string();
        let style = Style { ink, ..name_style(big) };
        sheet.text((LEFT, middle + 0.36 * big), style, Anchor::Start, &number, 60.0);
    }
    row.mark
        .draw(sheet, (122.0, middle), if nth == 0 { 1.45 } else { 1.25 });
    let has_line = columns.right - columns.left >= LEAST_LINE && !row.line.is_empty();
    let room = if has_line { columns.left } else { columns.right } - 30.0 - NAME;
    let (above, below) = (middle - 12.0, middle + small - 2.0);
    let size = typeface::fitting_size(&row.name, big, 46.0, Weight::Heavy, room);
    sheet.text((NAME, above), name_style(size), Anchor::Start, &row.name, room);
    let words = Style::of(small, Weight::Semi, ink);
    sheet.text((NAME, below), words, Anchor::Start, &row.words, columns.right - NAME);
    if has_line {
        draw_line(sheet, fleet, row, columns, (top + 24.0, bottom - 22.0 - STRIP));
    }
    sheet.text((RIGHT, above), name_style(big), Anchor::End, &row.value, 400.0);
    sheet.text((RIGHT, below), Style::SAID, Anchor::End, &row.noun, 400.0);
}

/// The floor, and the strip below it.
fn draw_floor(sheet: &mut Sheet, (left, right): Point, y: f64, strip: f64) {
    let below = Area {
        left,
        top: y,
        right,
        bottom: y + strip,
    };
    sheet.area(&below, STONE_DARK);
    sheet.line(&[(left, y), (right, y)], INK, 6.0);
}

/// A line that falls to its floor; a new membrane or bed lifts it again.
fn draw_line(sheet: &mut Sheet, fleet: &Fleet, row: &Row, columns: &Columns, (top, floor): Point) {
    let (days, ink) = (
        Days::over(fleet.since, fleet.today, columns.left, columns.right),
        row.mark.ink(),
    );
    draw_floor(sheet, (columns.left, columns.right), floor, STRIP);
    let y = |height: f64| (floor - (floor - top) * height).clamp(top - 8.0, floor + STRIP - 8.0);
    let stretches = row.line.iter().map(|stretch| {
        let shown = stretch.iter().filter(|(day, _)| days.shows(*day));
        shown
            .map(|&(day, height)| (days.x(day), y(height)))
            .collect::<Vec<Point>>()
    });
    let stretches: Vec<Vec<Point>> = stretches.filter(|stretch| !stretch.is_empty()).collect();
    for (nth, stretch) in stretches.iter().enumerate() {
        if nth > 0 {
            sheet.line(&[(stretch[0].0, floor - 4.0), stretch[0]], ink, 4.0);
        }
        sheet.line(stretch, ink, 9.0);
    }
    if let Some(&end) = stretches.last().and_then(|stretch| stretch.last()) {
        sheet.disc(end, 13.0, ink, (GROUND, 4.0));
    }
}

/// Where the words of the small rows begin: as far right as they all fit.
fn deed_column(rows: &[Row]) -> f64 {
    let most = |width: &dyn Fn(&Row) -> f64| rows.iter().map(width).fold(0.0, f64::max);
    let values = most(&|row| name_style(46.0).width(&row.value));
    let words = most(&|row| Style::SAID.width(&row.words));
    (RIGHT - values - 30.0 - words).min(490.0)
}

fn draw_small(sheet: &mut Sheet, (nth, row): (usize, &Row), deed: f64, (middle, height): Point) {
    let is_roomy = height > 80.0;
    let (name, mark, size) = if is_roomy {
        (NAME, 122.0, 1.15)
    } else {
        (160.0, 110.0, 0.95)
    };
    let (ink, style) = (row.mark.ink(), name_style(46.0));
    if row.is_job {
        let number = (nth + 1).to_string();
        sheet.text(
            (LEFT, middle + 16.0),
            Style { ink, ..style },
            Anchor::Start,
            &number,
            60.0,
        );
    }
    row.mark.draw(sheet, (mark, middle), size);
    let room = deed - name - 20.0;
    let largest = if is_roomy { 54.0 } else { 46.0 };
    let size = typeface::fitting_size(&row.name, largest, SMALLEST, Weight::Heavy, room);
    sheet.text((name, middle + 16.0), name_style(size), Anchor::Start, &row.name, room);
    let words = Style { ink, ..Style::SAID };
    sheet.text((deed, middle + 15.0), words, Anchor::Start, &row.words, RIGHT - deed);
    sheet.text((RIGHT, middle + 16.0), style, Anchor::End, &row.value, 300.0);
}

/// A rig in one of two columns: its name gives way to the word of its state.
fn draw_half(sheet: &mut Sheet, row: &Row, (x, middle): Point) {
    const WIDE: f64 = 492.0;
    row.mark.draw(sheet, (x + 28.0, middle), 0.95);
    let words = Style {
        ink: row.mark.ink(),
        ..Style::SAID
    };
    let room = WIDE - 66.0 - 18.0 - words.width(&row.words);
    let size = typeface::fitting_size(&row.name, 46.0, SMALLEST, Weight::Heavy, room);
    let at = (x + 66.0, middle + 15.0);
    let name = sheet.text(at, name_style(size), Anchor::Start, &row.name, room);
    let said = format!("{} {}", row.words, row.value);
    let left = WIDE - (name.right - x) - 18.0;
    let said = if words.width(&said) <= left { &said } else { &row.words };
    sheet.text((name.right + 18.0, middle + 15.0), words, Anchor::Start, said, left);
}
