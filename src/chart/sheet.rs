//! A sheet of SVG that shapes and words are put on.
//!
//! Words lie above all shapes. The sheet remembers where words and dark shapes are, so
//! that further words find a free place and a test can see that none meets another.

use std::fmt::Write as _;

use super::palette::{Colour, GROUND, INK, QUIET, RULE};
use super::typeface::{self, FAMILY, Weight};

/// Width of every picture, pixels.
pub const WIDTH: u32 = 1080;
/// Height of every picture, pixels.
pub const HEIGHT: u32 = 810;
/// The smallest letter, pixels: 2.5 mm where a phone shows the picture 65 mm wide.
pub const SMALLEST: f64 = 42.0;
/// Where words begin, and where they end.
pub const LEFT: f64 = 36.0;
/// See [`LEFT`].
pub const RIGHT: f64 = 1044.0;
/// Between words side by side, and between words and what they must not touch.
const APART: f64 = 6.0;
/// So many places, the nearest first, are tried before words cross a line of the grid.
const NEAR: usize = 250;

/// A point, pixels from the upper left corner.
pub type Point = (f64, f64);

/// Which part of a text stands at its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// How letters look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// Size, pixels.
    pub size: f64,
    /// How bold.
    pub weight: Weight,
    /// Their colour.
    pub ink: Colour,
}

impl Style {
    /// The smallest letters, for what is read last: axes.
    pub const QUIET: Self = Self::of(SMALLEST, Weight::Medium, QUIET);
    /// The smallest letters of words beside things.
    pub const SAID: Self = Self::of(SMALLEST, Weight::Semi, INK);

    /// Letters of a size, a weight and a colour.
    #[must_use]
    pub const fn of(size: f64, weight: Weight, ink: Colour) -> Self {
        Self { size, weight, ink }
    }

    /// Width of a text in these letters, as it is drawn.
    #[must_use]
    pub fn width(&self, text: &str) -> f64 {
        typeface::width(&typeface::drawable(text), self.size, self.weight)
    }
}

/// A rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Lower edge.
    pub bottom: f64,
}

impl Area {
    /// Where words may stand.
    pub const SHEET: Self = Self {
        left: LEFT - 12.0,
        top: 16.0,
        right: RIGHT + 12.0,
        bottom: 800.0,
    };

    /// Whether two areas share more than an edge.
    #[must_use]
    pub fn meets(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    /// Whether another lies in it.
    #[must_use]
    pub fn encloses(&self, other: &Self) -> bool {
        self.left <= other.left && other.right <= self.right && self.top <= other.top && other.bottom <= self.bottom
    }

    fn holds(&self, (x, y): Point) -> bool {
        (self.left..=self.right).contains(&x) && (self.top..=self.bottom).contains(&y)
    }

    fn wider(&self, by: f64) -> Self {
        Self {
            left: self.left - by,
            top: self.top - by / 2.0,
            right: self.right + by,
            bottom: self.bottom + by / 2.0,
        }
    }
}

/// Words on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// What is written, as it is drawn.
    pub text: String,
    /// Where its letters are.
    pub area: Area,
    /// How.
    pub style: Style,
}

/// A sheet.
#[derive(Clone, Debug, Default)]
pub struct Sheet {
    shapes: String,
    letters: String,
    words: Vec<Placed>,
    /// Points of dark shapes, close enough that no word slips between them.
    dark: Vec<Point>,
    /// The same of the grid, which words cross only where there is no other place.
    grid: Vec<Point>,
}

impl Sheet {
    /// The words on it.
    #[must_use]
    pub fn words(&self) -> &[Placed] {
        &self.words
    }

    /// The shapes alone, to see what lies beneath the words.
    #[must_use]
    pub fn without_words(&self) -> Self {
        Self {
            letters: String::new(),
            words: Vec::new(),
            ..self.clone()
        }
    }

    /// A filled rectangle.
    pub fn area(&mut self, area: &Area, fill: Colour) {
        let Area {
            left,
            top,
            right,
            bottom,
        } = *area;
        self.shape(
            &[(left, top), (right, top), (right, bottom), (left, bottom)],
            fill,
            None,
        );
    }

    /// A line through points.
    pub fn line(&mut self, points: &[Point], ink: Colour, width: f64) {
        self.stroke(points, ink, width, "");
    }

    /// A line in round dashes: what is ahead.
    pub fn dotted(&mut self, points: &[Point], ink: Colour, width: f64) {
        self.stroke(points, ink, width, &format!("{} {}", 0.25 * width, 2.5 * width));
    }

    /// A thin line of the grid, which words may cross.
    pub fn rule(&mut self, from: Point, to: Point) {
        self.stroke(&[from, to], RULE, 2.5, "");
    }

    /// A bar between two ticks: a range of days on a level.
    pub fn range(&mut self, left: f64, right: Option<f64>, rim: f64, y: f64) {
        self.line(&[(left, y), (right.unwrap_or(rim), y)], INK, 18.0);
        // An end that is open has no tick.
        for x in [Some(left), right].into_iter().flatten() {
            self.line(&[(x, y - 22.0), (x, y + 22.0)], INK, 6.0);
        }
    }

    fn stroke(&mut self, points: &[Point], ink: Colour, width: f64, dash: &str) {
        if points.len() < 2 {
            return;
        }
        self.remember(points, ink == RULE);
        let dash = match dash {
            "" => String::new(),
            dash => format!(r#" stroke-dasharray="{dash}" stroke-linecap="round""#),
        };
        let path = path(points);
        self.put(format_args!(
            r#"<path d="{path}" stroke="{ink}" stroke-width="{width}"{dash} stroke-linejoin="round" fill="none"/>"#,
        ));
    }

    /// A closed shape, with a rim if one is wanted.
    pub fn shape(&mut self, points: &[Point], fill: Colour, rim: Option<(Colour, f64)>) {
        if points.len() < 3 {
            return;
        }
        if fill.is_dark() || rim.is_some_and(|(ink, _)| ink.is_dark()) {
            let around: Vec<Point> = points.iter().chain(points.first()).copied().collect();
            self.remember(&around, false);
        }
        let rim = rim.map_or_else(String::new, |(ink, width)| {
            format!(r#" stroke="{ink}" stroke-width="{width:.1}" stroke-linejoin="round""#)
        });
        let path = path(points);
        self.put(format_args!(r#"<path d="{path}Z" fill="{fill}"{rim}/>"#));
    }

    /// A reading: a dot, or a ring where it counts for nothing.
    pub fn disc(&mut self, (x, y): Point, radius: f64, fill: Colour, rim: (Colour, f64)) {
        self.remember(&[(x - radius, y), (x + radius, y)], false);
        self.remember(&[(x, y - radius), (x, y + radius)], false);
        let (ink, width) = rim;
        self.put(format_args!(
            r#"<circle cx="{x:.1}" cy="{y:.1}" r="{radius}" fill="{fill}" stroke="{ink}" stroke-width="{width}"/>"#
        ));
    }

    /// Writes a text, at most `room` wide; gives the area that it takes.
    pub fn text(&mut self, at: Point, style: Style, anchor: Anchor, text: &str, room: f64) -> Area {
        let text = typeface::fitted(text, style.size, style.weight, room);
        let area = area_of(at, style, anchor, &text);
        let (x, y) = at;
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        // Writing to a String cannot fail.
        let _ = writeln!(
            self.letters,
            r#"<text x="{x:.1}" y="{y:.1}" font-size="{}" font-weight="{}" text-anchor="{anchor}" fill="{}">{}</text>"#,
            style.size,
            style.weight.css(),
            style.ink,
            escaped(&text)
        );
        if !text.is_empty() {
            self.words.push(Placed { text, area, style });
        }
        area
    }

    /// Writes a text from the first of some places where it lies within `frame` and
    /// touches no other words and no dark shape. If there is none it is left out: it
    /// only names what another picture, or the headline, names as well.
    pub fn text_where_free(&mut self, places: &[Point], style: Style, text: &str, frame: &Area) -> Option<Area> {
        self.lines_where_free(places, &[(style, text)], frame)
    }

    /// The same for lines of words, one beneath the other, that stay together.
    pub fn lines_where_free(&mut self, places: &[Point], lines: &[(Style, &str)], frame: &Area) -> Option<Area> {
        let areas = |(x, y): Point| {
            let mut base = y;
            lines.iter().map(move |(style, text)| {
                let area = area_of((x, base), *style, Anchor::Start, &typeface::drawable(text));
                base += 1.16 * style.size;
                area
            })
        };
        let free = |&at: &Point| areas(at).all(|area| frame.encloses(&area) && self.is_free(&area));
        let crosses = |&at: &Point| {
            areas(at)
                .map(|area| area.wider(APART))
                .any(|area| self.grid.iter().any(|&point| area.holds(point)))
        };
        // Off the grid if that is near; some inks are not dark enough upon it at all.
        let may_cross = lines.iter().all(|(style, _)| style.ink == INK);
        let near = if may_cross { NEAR } else { usize::MAX };
        let open = places.iter().take(near).find(|at| free(at) && !crosses(at));
        let on_grid = || places.iter().filter(|_| may_cross).find(|at| free(at));
        let &(x, mut base) = open.or_else(on_grid)?;
        let mut last = None;
        for (style, text) in lines {
            last = Some(self.text((x, base), *style, Anchor::Start, text, f64::INFINITY));
            base += 1.16 * style.size;
        }
        last
    }

    /// Whether words in an area would touch nothing.
    #[must_use]
    pub fn is_free(&self, area: &Area) -> bool {
        let area = area.wider(APART);
        !self.words.iter().any(|placed| placed.area.meets(&area)) && !self.dark.iter().any(|&point| area.holds(point))
    }

    /// The sheet as a whole SVG document.
    #[must_use]
    pub fn svg(&self) -> String {
        format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" font-family="{FAMILY}"><rect width="{WIDTH}" height="{HEIGHT}" fill="{GROUND}"/>{}{}</svg>"#,
            self.shapes, self.letters
        )
    }

    fn put(&mut self, shape: std::fmt::Arguments<'_>) {
        let _ = writeln!(self.shapes, "{shape}");
    }

    fn remember(&mut self, line: &[Point], is_grid: bool) {
        let kept = if is_grid { &mut self.grid } else { &mut self.dark };
        for pair in line.windows(2) {
            let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
            let steps = ((x1 - x0).hypot(y1 - y0) / 6.0).ceil().clamp(1.0, 300.0);
            let mut step = 0.0;
            while step <= steps {
                kept.push((x0 + (x1 - x0) * step / steps, y0 + (y1 - y0) * step / steps));
                step += 1.0;
            }
        }
    }
}

/// Where a headline begins.
#[must_use]
pub fn headline_left(has_mark: bool) -> f64 {
    if has_mark { 128.0 } else { LEFT }
}

fn area_of((x, y): Point, style: Style, anchor: Anchor, text: &str) -> Area {
    let width = typeface::width(text, style.size, style.weight);
    let (above, below) = typeface::reach(text, style.size, style.weight);
    let left = match anchor {
        Anchor::Start => x,
        Anchor::Middle => x - width / 2.0,
        Anchor::End => x - width,
    };
    Area {
        left,
        top: y - above,
        right: left + width,
        bottom: y + below,
    }
}

fn path(points: &[Point]) -> String {
    let mut path = String::with_capacity(points.len() * 12);
    for (nth, (x, y)) in points.iter().enumerate() {
        let _ = write!(path, "{}{x:.1} {y:.1}", if nth == 0 { 'M' } else { 'L' });
    }
    path
}

/// A text as XML holds it. What XML forbids outright (control characters) is no
/// letter of the typeface and never comes here.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            letter => escaped.push(letter),
        }
    }
    escaped
}
