//! What waiting costs: membrane and resin a year, by the month in which the membrane is
//! renewed, as bars from nought.

use super::mark::Mark;
use super::palette::{BLUE, GROUND, INK};
use super::sheet::{Anchor, Area, LEFT, RIGHT, SMALLEST, Sheet, Style};
use super::typeface::Weight;

/// A month of renewal.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// The month.
    pub month: String,
    /// What resin costs a year, in the currency of all bars.
    pub resin: f64,
    /// What the membrane costs a year.
    pub membrane: f64,
    /// The sum, or what it is dearer than the first.
    pub figure: String,
    /// As good as the cheapest.
    pub is_flat: bool,
}

/// The facts of the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct RenewalCost {
    /// The finding.
    pub headline: String,
    /// The figures behind it.
    pub subline: String,
    /// The state of the membrane.
    pub mark: Mark,
    /// The months, the first of them now.
    pub bars: Vec<Bar>,
    /// When the rule of thumb would renew, as a place among the bars (0 is the first,
    /// 0.5 half way to the second), and its words.
    pub rule: Option<(f64, String)>,
    /// What the bars are.
    pub axis: String,
    /// Beside the upper parts.
    pub membrane: String,
    /// Beside the lower parts.
    pub resin: String,
    /// Below the bars that are as good as the cheapest.
    pub flat: String,
}

const TOP: f64 = 278.0;
const FLOOR: f64 = 650.0;

/// Draws what waiting costs.
#[must_use]
pub fn draw(facts: &RenewalCost) -> Sheet {
    let mut sheet = Sheet::titled(&facts.headline, &facts.subline, Some(facts.mark));
    let figure = Style::of(44.0, Weight::Heavy, INK);
    let side = Style::SAID.width(&facts.membrane).max(Style::SAID.width(&facts.resin));
    let right = RIGHT - side - 18.0;
    // No more bars than have room for their figures.
    let widest = facts.bars.iter().map(|bar| {
        figure.width(&bar.figure).max(
            Style {
                size: SMALLEST,
                ..figure
            }
            .width(&bar.month),
        )
    });
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let most = ((right - LEFT) / (widest.fold(80.0, f64::max) + 6.0)) as usize;
    let bars = &facts.bars[..facts.bars.len().min(most)];
    #[allow(clippy::cast_precision_loss)]
    let step = ((right - LEFT) / bars.len().max(1) as f64).min(200.0);
    let highest = bars.iter().map(|bar| bar.resin + bar.membrane).fold(1e-9, f64::max);
    let y = |amount: f64| FLOOR - (FLOOR - TOP) * amount / highest;
    let (mut left, mut flat) = (LEFT, None);
    for bar in bars {
        let middle = left + step / 2.0;
        let (top, between) = (y(bar.resin + bar.membrane), y(bar.resin));
        for (top, bottom, fill) in [(top, between, GROUND), (between, FLOOR, BLUE)] {
            let (left, right) = (left + 8.0, left + step - 8.0);
            let around = [(left, top), (right, top), (right, bottom), (left, bottom)];
            sheet.shape(&around, fill, Some((INK, 5.0)));
        }
        let style = if bar.is_flat {
            figure
        } else {
            Style::of(44.0, Weight::Semi, INK)
        };
        sheet.text((middle, top - 16.0), style, Anchor::Middle, &bar.figure, step);
        let style = Style {
            size: SMALLEST,
            ..style
        };
        sheet.text((middle, FLOOR + 50.0), style, Anchor::Middle, &bar.month, step);
        left += step;
        if bar.is_flat {
            let from = flat.map_or(left - step, |(from, _): (f64, f64)| from);
            flat = Some((from, left));
        }
    }
    sheet.line(&[(LEFT, FLOOR), (left, FLOOR)], INK, 6.0);
    if let Some(last) = bars.last() {
        let middles = [
            (last.resin + last.membrane / 2.0, &facts.membrane),
            (last.resin / 2.0, &facts.resin),
        ];
        // The upper word gives way to the lower one where the parts are thin.
        let resin = y(middles[1].0).min(FLOOR - 20.0);
        let membrane = y(middles[0].0).min(resin - 54.0);
        let blue = Style {
            ink: BLUE,
            ..Style::SAID
        };
        sheet.text(
            (left + 18.0, membrane + 14.0),
            Style::SAID,
            Anchor::Start,
            &facts.membrane,
            side + 1.0,
        );
        sheet.text(
            (left + 18.0, resin + 14.0),
            blue,
            Anchor::Start,
            &facts.resin,
            side + 1.0,
        );
    }
    sheet.text((LEFT, 204.0), Style::QUIET, Anchor::Start, &facts.axis, RIGHT - LEFT);
    let rule = facts.rule.as_ref().map(|(at, words)| (LEFT + step * (at + 0.5), words));
    draw_feet(&mut sheet, flat, &facts.flat, rule);
    sheet
}

/// Below the months: the bracket of the bars that are as good, and the month of the
/// rule of thumb, each with its words, side by side.
fn draw_feet(sheet: &mut Sheet, flat: Option<(f64, f64)>, words: &str, rule: Option<(f64, &String)>) {
    const APART: f64 = 28.0;
    let heavy = Style::of(44.0, Weight::Heavy, INK);
    let mut feet: Vec<(f64, Style, &str)> = Vec::new();
    if let Some((from, to)) = flat {
        let (left, right) = (from + 8.0, to - 8.0);
        sheet.line(
            &[(left, 716.0), (left, 730.0), (right, 730.0), (right, 716.0)],
            INK,
            6.0,
        );
        feet.push((f64::midpoint(left, right), heavy, words));
    }
    if let Some((x, words)) = rule.filter(|(x, _)| *x < RIGHT) {
        sheet.shape(
            &[(x, 714.0), (x - 16.0, 738.0), (x + 16.0, 738.0)],
            INK,
            Some((GROUND, 5.0)),
        );
        feet.push((x, Style::SAID, words));
    }
    feet.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut free_to = RIGHT;
    for nth in (0..feet.len()).rev() {
        let (middle, style, words) = feet[nth];
        let before: f64 = feet[..nth]
            .iter()
            .map(|(_, style, words)| style.width(words) + APART)
            .sum();
        let wide = style.width(words);
        let left = (middle - wide / 2.0).min(free_to - wide).max(LEFT + before);
        let area = sheet.text((left, 786.0), style, Anchor::Start, words, Area::SHEET.right - left);
        free_to = area.left - APART;
    }
}
