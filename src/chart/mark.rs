//! A state as a shape, always beside its word.
//!
//! The shapes are of our own making, from the trade's matter. A membrane is a drop of
//! water that runs dry: full, half, a last rest, empty and on the floor; in dashes where
//! it is too early to tell. A fault is no wear, so it is no drop but a joint whose flanges
//! gape, with a drop beneath. A bed is a vessel, filled as far as its resin still holds.
//! They differ in outline and in how much is dark, so grey is enough.

use crate::water::condition::Condition;

use super::palette::{BLUE, Colour, GROUND, INK, QUIET, RUST};
use super::sheet::{Area, Point, Sheet};

/// A shape of size 1 is about 50 px high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Mark {
    /// The state of a membrane.
    Membrane(Condition),
    /// A bed of resin.
    Bed {
        /// Share of it that still holds, 0 to 1.
        left: f64,
        /// It has to be changed or repacked now.
        urgent: bool,
    },
    /// A prefilter.
    Prefilter,
}

/// The drop of size 1: its tip above the middle, and the circle it hangs into.
const TIP: f64 = -25.0;
const BELLY: f64 = 6.0;
const RADIUS: f64 = 17.0;

impl Mark {
    /// A bed that was put in or will be bought.
    pub const FRESH_BED: Self = Self::Bed {
        left: 1.0,
        urgent: false,
    };

    /// Its colour, for its words and its line.
    #[must_use]
    pub fn ink(self) -> Colour {
        match self {
            Self::Membrane(Condition::Good) => BLUE,
            Self::Membrane(Condition::Spent | Condition::Fault) | Self::Bed { urgent: true, .. } => RUST,
            Self::Membrane(Condition::Unproven) => QUIET,
            Self::Membrane(Condition::Fading | Condition::Due) | Self::Bed { .. } | Self::Prefilter => INK,
        }
    }

    /// Draws it about a point.
    pub fn draw(self, sheet: &mut Sheet, (x, y): Point, size: f64) {
        let ink = self.ink();
        let place =
            |points: &[Point]| -> Vec<Point> { points.iter().map(|(dx, dy)| (x + dx * size, y + dy * size)).collect() };
        let area = |left: f64, top: f64, right: f64, bottom: f64| Area {
            left: x + left * size,
            top: y + top * size,
            right: x + right * size,
            bottom: y + bottom * size,
        };
        let rim = Some((ink, 5.5 * size));
        match self {
            Self::Membrane(Condition::Unproven) => {
                let around = place(&drop(TIP, BELLY, RADIUS, TIP));
                sheet.shape(&around, GROUND, None);
                // One dash and one gap are a sixteenth of the way about it.
                for dash in around.chunks(4) {
                    sheet.line(&dash[..dash.len().min(3)], ink, 5.0 * size);
                }
            }
            Self::Membrane(Condition::Fault) => {
                for (left, top, right, bottom) in [
                    (-28.0, -21.0, -9.0, -7.0),
                    (9.0, -21.0, 28.0, -7.0),
                    (-12.0, -28.0, -4.5, 0.0),
                    (4.5, -28.0, 12.0, 0.0),
                ] {
                    sheet.area(&area(left, top, right, bottom), ink);
                }
                sheet.shape(&place(&drop(2.0, 17.0, 9.0, 2.0)), ink, None);
            }
            Self::Membrane(state) => {
                sheet.shape(&place(&drop(TIP, BELLY, RADIUS, TIP)), GROUND, rim);
                let level = match state {
                    Condition::Good => 1.0,
                    Condition::Fading => 0.55,
                    Condition::Due => 0.22,
                    _ => 0.0,
                };
                if level > 0.0 {
                    sheet.shape(&place(&drop(TIP, BELLY, RADIUS, 23.0 - 48.0 * level)), ink, None);
                } else {
                    sheet.area(&area(-25.0, 20.0, 25.0, 29.0), ink);
                }
            }
            Self::Bed { left, .. } => {
                let vessel = [
                    (-6.0, -26.0),
                    (6.0, -26.0),
                    (6.0, -17.0),
                    (15.0, -12.0),
                    (15.0, 25.0),
                    (-15.0, 25.0),
                    (-15.0, -12.0),
                    (-6.0, -17.0),
                ];
                sheet.shape(&place(&vessel), GROUND, rim);
                if left > 0.0 {
                    sheet.area(&area(-15.0, 25.0 - 38.0 * left.min(1.0), 15.0, 25.0), ink);
                }
            }
            Self::Prefilter => {
                let body = [(-13.0, -26.0), (13.0, -26.0), (13.0, 26.0), (-13.0, 26.0)];
                sheet.shape(&place(&body), ink, rim);
                for down in [-12.0, 0.0, 12.0] {
                    sheet.area(&area(-10.0, down - 2.0, 10.0, down + 2.0), GROUND);
                }
            }
        }
    }
}

/// The outline of the part of a drop that lies below a height: a tip, and the middle
/// and radius of the circle that it hangs into. It begins and ends at the height.
fn drop(tip: f64, middle: f64, radius: f64, from: f64) -> Vec<Point> {
    const STEPS: u32 = 32;
    let bottom = middle + radius;
    // Closer together where the outline turns.
    let share = |nth: u32| (f64::from(nth) / f64::from(STEPS) * std::f64::consts::FRAC_PI_2).sin();
    let right: Vec<Point> = (0..=STEPS)
        .map(|nth| from + (bottom - from) * share(nth))
        .map(|height| (half_width(tip, middle, radius, height), height))
        .collect();
    let left = right.iter().rev().map(|&(half, height)| (-half, height));
    right.iter().copied().chain(left).collect()
}

/// Half the width of a drop at a height: straight from the tip until it touches the
/// circle.
fn half_width(tip: f64, middle: f64, radius: f64, height: f64) -> f64 {
    let reach = middle - tip;
    let touches = middle - radius * radius / reach;
    if height < touches {
        (height - tip) * radius / (reach * reach - radius * radius).sqrt()
    } else {
        (radius * radius - (height - middle).powi(2)).max(0.0).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drop_is_round_below_and_pointed_above() {
        let half = |height| half_width(TIP, BELLY, RADIUS, height);
        assert!(half(TIP) < 1e-9);
        assert!((half(BELLY) - RADIUS).abs() < 1e-9);
        assert!(half(BELLY + RADIUS) < 1e-9);
        // No kink where the straight part meets the circle.
        let touches = BELLY - RADIUS * RADIUS / (BELLY - TIP);
        assert!((half(touches - 1e-6) - half(touches + 1e-6)).abs() < 1e-3);
    }
}
