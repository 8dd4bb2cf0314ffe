//! A state as a shape, always beside its word.
//!
//! The shapes are of our own making, from the trade's matter: a drop of water that
//! runs dry as the membrane wears. Full: sound. Down to a half: wearing. A last rest
//! at the bottom: due. Empty and struck through: spent. A drop in dashes is not yet
//! known: unproven. A jump is no wear, so it is no drop: a block with a step in it
//! says check. They differ in outline and in how much is dark, so grey is enough; the
//! colour only repeats whether somebody has to act.

use crate::water::condition::Condition;

use super::palette::{BLUE, Colour, GROUND, INK, QUIET, RUST};
use super::sheet::{Fill, Point, Sheet};

/// The drop of size 1: its tip above the middle, and the circle it hangs into.
const TIP: f64 = -25.0;
const BELLY: f64 = 6.0;
const RADIUS: f64 = 17.0;

/// The ink of a state, for its words and its line.
#[must_use]
pub fn ink(state: Condition) -> Colour {
    match state {
        Condition::Sound => BLUE,
        Condition::Wearing => INK,
        Condition::Due | Condition::Spent | Condition::Check => RUST,
        Condition::Unproven => QUIET,
    }
}

/// Draws the mark of a state about a point.
pub fn draw(sheet: &mut Sheet, middle: Point, size: f64, state: Condition) {
    let ink = ink(state);
    if state == Condition::Check {
        return draw_step(sheet, middle, size, ink);
    }
    let rim = drop(middle, size, TIP);
    let empty = Fill::Plain(GROUND);
    match state {
        Condition::Unproven => {
            sheet.shape(&rim, empty, None);
            let mut dashes = rim;
            dashes.extend(dashes.first().copied());
            sheet.line(
                &dashes,
                ink,
                4.5 * size,
                &format!("{:.1} {:.1}", 6.0 * size, 9.0 * size),
            )
        }
        Condition::Sound => sheet.shape(&rim, Fill::Plain(ink), Some((ink, 4.0 * size))),
        Condition::Wearing => {
            sheet.shape(&rim, empty, Some((ink, 4.5 * size)));
            sheet.shape(&drop(middle, size, 2.0), Fill::Plain(ink), None);
        }
        Condition::Due => {
            sheet.shape(&rim, empty, Some((ink, 4.5 * size)));
            sheet.shape(&drop(middle, size, 11.0), Fill::Plain(ink), None);
        }
        Condition::Spent | Condition::Check => {
            sheet.shape(&rim, empty, Some((ink, 4.5 * size)));
            let (x, y) = middle;
            let strike = [(x - 19.0 * size, y + 21.0 * size), (x + 19.0 * size, y - 15.0 * size)];
            sheet.line(&strike, GROUND, 12.0 * size, "");
            sheet.line(&strike, ink, 6.0 * size, "");
        }
    }
}

/// The outline of the part of a drop that lies below a height.
fn drop((x, y): Point, size: f64, from: f64) -> Vec<Point> {
    const STEPS: u32 = 16;
    let bottom = BELLY + RADIUS;
    let heights = (0..=STEPS).map(|nth| from + (bottom - from) * f64::from(nth) / f64::from(STEPS));
    let right: Vec<Point> = heights.map(|height| (half_width(height), height)).collect();
    let left = right.iter().rev().map(|&(half, height)| (-half, height));
    right
        .iter()
        .copied()
        .chain(left)
        .map(|(dx, dy)| (x + dx * size, y + dy * size))
        .collect()
}

/// Half the width of a drop of size 1 at a height: straight from the tip until it
/// touches the circle.
fn half_width(height: f64) -> f64 {
    let reach = BELLY - TIP;
    let touches = BELLY - RADIUS * RADIUS / reach;
    if height < touches {
        (height - TIP) * RADIUS / (reach * reach - RADIUS * RADIUS).sqrt()
    } else {
        (RADIUS * RADIUS - (height - BELLY).powi(2)).max(0.0).sqrt()
    }
}

fn draw_step(sheet: &mut Sheet, (x, y): Point, size: f64, ink: Colour) {
    let half = 20.0 * size;
    let block = [
        (x - half, y - half),
        (x + half, y - half),
        (x + half, y + half),
        (x - half, y + half),
    ];
    sheet.shape(&block, Fill::Plain(ink), Some((ink, 5.0 * size)));
    let at = |dx: f64, dy: f64| (x + dx * size, y + dy * size);
    let step = [at(-14.0, -8.0), at(-1.0, -8.0), at(-1.0, 10.0), at(14.0, 10.0)];
    sheet.line(&step, GROUND, 6.0 * size, "");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drop_is_round_below_and_pointed_above() {
        assert!(half_width(TIP) < 1e-9);
        assert!((half_width(BELLY) - RADIUS).abs() < 1e-9);
        assert!(half_width(BELLY + RADIUS) < 1e-9);
        // No kink where the straight part meets the circle.
        let touches = BELLY - RADIUS * RADIUS / (BELLY - TIP);
        assert!((half_width(touches - 1e-6) - half_width(touches + 1e-6)).abs() < 1e-3);
    }
}
