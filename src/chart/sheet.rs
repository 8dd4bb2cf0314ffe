//! A sheet of SVG that shapes and words are put on.
//!
//! It remembers where words stand, so that further ones find a free place and a test
//! can see that none lies upon another.

use std::fmt::Write as _;

use super::palette::{AMBER_PALE, Colour, GROUND, INK, QUIET, STONE, STONE_DARK};
use super::typeface::{self, FAMILY, Weight};

/// Width of every picture, pixels.
pub const WIDTH: u32 = 1080;
/// Height of every picture, pixels.
pub const HEIGHT: u32 = 810;
/// The smallest letter, pixels: less is not read at arm's length in the sun.
pub const SMALLEST: f64 = 30.0;
/// How far from the rim things begin.
pub const MARGIN: f64 = 36.0;

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
pub struct Hand {
    /// Size, pixels.
    pub size: f64,
    /// How bold.
    pub weight: Weight,
    /// Their colour.
    pub ink: Colour,
}

/// Letters of a size, a weight and a colour.
#[must_use]
pub const fn hand(size: f64, weight: Weight, ink: Colour) -> Hand {
    Hand { size, weight, ink }
}

/// What an area is filled with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fill {
    /// A colour.
    Plain(Colour),
    /// Below a limit: stripes falling to the left, the wider apart the milder.
    Limit,
    /// Far below a limit: the same, denser.
    Spent,
    /// Ahead of us: stripes falling to the right.
    Ahead,
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
    /// Whether two areas share more than an edge.
    #[must_use]
    pub fn meets(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    /// Whether a point lies in it.
    #[must_use]
    pub fn holds(&self, (x, y): Point) -> bool {
        (self.left..=self.right).contains(&x) && (self.top..=self.bottom).contains(&y)
    }
}

/// Words on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// What is written, as it is drawn.
    pub text: String,
    /// Where.
    pub area: Area,
    /// How.
    pub hand: Hand,
}

/// A sheet.
#[derive(Clone, Debug, Default)]
pub struct Sheet {
    body: String,
    words: Vec<Placed>,
}

impl Sheet {
    /// The headline, which is the finding, and the line beneath it.
    #[must_use]
    pub fn titled(headline: &str, subline: &str) -> Self {
        let mut sheet = Self::default();
        let room = f64::from(WIDTH) - 2.0 * MARGIN;
        // A long finding is set smaller before it is cut.
        let size = typeface::fitting_size(headline, &[54.0, 48.0, 42.0, 38.0], Weight::Heavy, room);
        let style = hand(size, Weight::Heavy, INK);
        sheet.text((MARGIN, 74.0), style, Anchor::Start, headline, room);
        let size = typeface::fitting_size(subline, &[36.0, 33.0, SMALLEST], Weight::Regular, room);
        let style = hand(size, Weight::Regular, QUIET);
        sheet.text((MARGIN, 124.0), style, Anchor::Start, subline, room);
        sheet
    }

    /// The words on it.
    #[must_use]
    pub fn words(&self) -> &[Placed] {
        &self.words
    }

    /// A rectangle.
    pub fn area(&mut self, area: &Area, fill: Fill) {
        let (w, h) = (area.right - area.left, area.bottom - area.top);
        if w <= 0.0 || h <= 0.0 {
            return;
        }
        self.put(format_args!(
            r#"<rect x="{:.1}" y="{:.1}" width="{w:.1}" height="{h:.1}" fill="{}"/>"#,
            area.left,
            area.top,
            paint(fill)
        ));
    }

    /// A line through points; `dash` as in SVG, empty for a whole line.
    pub fn line(&mut self, points: &[Point], ink: Colour, width: f64, dash: &str) {
        if points.len() < 2 {
            return;
        }
        let dash = if dash.is_empty() {
            String::new()
        } else {
            format!(r#" stroke-dasharray="{dash}""#)
        };
        self.put(format_args!(
            r#"<path d="{}" stroke="{ink}" stroke-width="{width}"{dash} stroke-linejoin="round" stroke-linecap="round" fill="none"/>"#,
            path(points)
        ));
    }

    /// The area between an upper and a lower edge.
    pub fn ribbon(&mut self, upper: &[Point], lower: &[Point], fill: Fill) {
        let around: Vec<Point> = upper.iter().chain(lower.iter().rev()).copied().collect();
        self.shape(&around, fill, None);
    }

    /// A closed shape, with a rim if one is wanted.
    pub fn shape(&mut self, points: &[Point], fill: Fill, rim: Option<(Colour, f64)>) {
        if points.len() < 3 {
            return;
        }
        let rim = rim.map_or_else(String::new, |(ink, width)| {
            format!(r#" stroke="{ink}" stroke-width="{width}" stroke-linejoin="round""#)
        });
        self.put(format_args!(
            r#"<path d="{}Z" fill="{}"{rim}/>"#,
            path(points),
            paint(fill)
        ));
    }

    /// A disc, with a rim if one is wanted.
    pub fn disc(&mut self, (x, y): Point, radius: f64, fill: Colour, rim: Option<(Colour, f64)>) {
        let rim = rim.map_or_else(String::new, |(ink, width)| {
            format!(r#" stroke="{ink}" stroke-width="{width}""#)
        });
        self.put(format_args!(
            r#"<circle cx="{x:.1}" cy="{y:.1}" r="{radius}" fill="{fill}"{rim}/>"#
        ));
    }

    /// A diamond.
    pub fn diamond(&mut self, (x, y): Point, radius: f64, fill: Colour) {
        let around = [(x, y - radius), (x + radius, y), (x, y + radius), (x - radius, y)];
        self.shape(&around, Fill::Plain(fill), Some((GROUND, 2.0)));
    }

    /// Writes a text, at most `room` wide; gives the area that it takes.
    pub fn text(&mut self, at: Point, hand: Hand, anchor: Anchor, text: &str, room: f64) -> Area {
        let text = typeface::fitted(text, hand.size, hand.weight, room);
        let area = area_of(at, hand, anchor, &text);
        self.write(at, hand, anchor, &text, "");
        self.remember(text, area, hand);
        area
    }

    /// Writes a text with a rim of the ground, for words that may lie over a line.
    pub fn text_over(&mut self, at: Point, hand: Hand, anchor: Anchor, text: &str, room: f64) -> Area {
        let text = typeface::fitted(text, hand.size, hand.weight, room);
        let area = area_of(at, hand, anchor, &text);
        let rim = format!(r#" stroke="{GROUND}" stroke-width="9" stroke-linejoin="round""#);
        self.write(at, Hand { ink: GROUND, ..hand }, anchor, &text, &rim);
        self.write(at, hand, anchor, &text, "");
        self.remember(text, area, hand);
        area
    }

    /// Writes a text over what is there, at the first of some places where it lies
    /// within `frame`, touches no other words and none of `points`. If there is none
    /// it is left out: it only names what the key or the headline names as well.
    pub fn text_where_free(
        &mut self,
        places: &[Point],
        hand: Hand,
        text: &str,
        frame: &Area,
        points: &[Point],
    ) -> bool {
        let text = typeface::drawable(text);
        let free = places.iter().find(|&&at| {
            let area = area_of(at, hand, Anchor::Middle, &text);
            area.left >= frame.left
                && area.right <= frame.right
                && area.top >= frame.top
                && area.bottom <= frame.bottom
                && !self.words.iter().any(|placed| placed.area.meets(&area))
                && !points.iter().any(|&point| area.holds(point))
        });
        if let Some(&at) = free {
            self.text_over(at, hand, Anchor::Middle, &text, f64::INFINITY);
        }
        free.is_some()
    }

    /// The sheet as a whole SVG document.
    #[must_use]
    pub fn svg(&self) -> String {
        let stripes = |name: &str, turn: i8, apart: u8, wide: u8, ground: Colour, ink: Colour| {
            format!(
                r#"<pattern id="{name}" width="{apart}" height="{apart}" patternUnits="userSpaceOnUse" patternTransform="rotate({turn})"><rect width="{apart}" height="{apart}" fill="{ground}"/><rect width="{wide}" height="{apart}" fill="{ink}"/></pattern>"#
            )
        };
        format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" font-family="{FAMILY}"><defs>{}{}{}</defs><rect width="{WIDTH}" height="{HEIGHT}" fill="{GROUND}"/>{}</svg>"#,
            stripes("limit", 45, 18, 3, STONE, STONE_DARK),
            stripes("spent", 45, 12, 5, STONE, STONE_DARK),
            stripes("ahead", -45, 12, 3, AMBER_PALE, Colour(0xD9, 0x9B, 0x5F)),
            self.body
        )
    }

    fn put(&mut self, shape: std::fmt::Arguments<'_>) {
        // Writing to a String cannot fail.
        let _ = self.body.write_fmt(shape);
        self.body.push('\n');
    }

    fn write(&mut self, (x, y): Point, hand: Hand, anchor: Anchor, text: &str, rim: &str) {
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        self.put(format_args!(
            r#"<text x="{x:.1}" y="{y:.1}" font-size="{}" font-weight="{}" text-anchor="{anchor}" fill="{}"{rim}>{}</text>"#,
            hand.size,
            hand.weight.css(),
            hand.ink,
            escaped(text)
        ));
    }

    fn remember(&mut self, text: String, area: Area, hand: Hand) {
        if !text.is_empty() {
            self.words.push(Placed { text, area, hand });
        }
    }
}

/// The area of a text: its letters' widths, and its heights from accent to descender.
#[must_use]
pub fn area_of((x, y): Point, hand: Hand, anchor: Anchor, text: &str) -> Area {
    let width = typeface::width(text, hand.size, hand.weight);
    let left = match anchor {
        Anchor::Start => x,
        Anchor::Middle => x - width / 2.0,
        Anchor::End => x - width,
    };
    Area {
        left,
        top: y - 0.76 * hand.size,
        right: left + width,
        bottom: y + 0.22 * hand.size,
    }
}

fn paint(fill: Fill) -> String {
    match fill {
        Fill::Plain(colour) => colour.to_string(),
        Fill::Limit => "url(#limit)".to_owned(),
        Fill::Spent => "url(#spent)".to_owned(),
        Fill::Ahead => "url(#ahead)".to_owned(),
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
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            letter => escaped.push(letter),
        }
    }
    escaped
}
