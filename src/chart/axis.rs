//! From values and days to pixels, and where an axis is marked.

use jiff::civil::{Date, date};
use jiff::{Span, ToSpan};

use super::palette::{INK, QUIET, RULE};
use super::sheet::{Anchor, Area, Sheet, hand};
use super::typeface::{self, Weight};

/// A mark on an axis of values, with its words.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// The value.
    pub at: f64,
    /// What stands beside it.
    pub label: String,
}

/// Round marks that embrace a span of values: steps of 1, 2 or 5 times a power of
/// ten, at most `most` of them. The axis runs from the first to the last.
#[must_use]
pub fn ticks(low: f64, high: f64, most: u32, say: impl Fn(f64) -> String) -> Vec<Tick> {
    // Values that are all one still want an axis, as wide as a float can tell.
    let (low, high) = (low.min(high), high.max(low + 1e-6 * low.abs().max(1e-3)));
    let rough = (high - low) / f64::from(most.max(2) - 1);
    let power = 10_f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0, 20.0]
        .into_iter()
        .map(|factor| factor * power)
        .find(|step| (high / step).ceil() - (low / step).floor() < f64::from(most))
        .unwrap_or(20.0 * power);
    let (from, to) = ((low / step + 1e-9).floor(), (high / step - 1e-9).ceil());
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let steps = (to - from).clamp(1.0, f64::from(most)) as u32;
    (0..=steps)
        .map(|nth| (from + f64::from(nth)) * step)
        .map(|at| Tick { at, label: say(at) })
        .collect()
}

/// An axis of values, upwards.
#[derive(Clone, Copy, Debug)]
pub struct Heights {
    /// Value at the bottom.
    pub low: f64,
    /// Value at the top.
    pub high: f64,
    /// Pixel of the bottom.
    pub bottom: f64,
    /// Pixel of the top.
    pub top: f64,
}

impl Heights {
    /// The axis that the marks span.
    #[must_use]
    pub fn of(ticks: &[Tick], top: f64, bottom: f64) -> Self {
        let low = ticks.iter().map(|tick| tick.at).fold(f64::INFINITY, f64::min);
        let high = ticks.iter().map(|tick| tick.at).fold(f64::NEG_INFINITY, f64::max);
        let (low, high) = if low < high { (low, high) } else { (0.0, 1.0) };
        Self { low, high, bottom, top }
    }

    /// Where a value stands; one off the axis stands at its end.
    #[must_use]
    pub fn y(&self, value: f64) -> f64 {
        let share = (value.clamp(self.low, self.high) - self.low) / (self.high - self.low);
        self.bottom - share * (self.bottom - self.top)
    }

    /// Draws its lines and words, left of `frame`.
    pub fn draw(&self, sheet: &mut Sheet, ticks: &[Tick], frame: &Area) {
        for tick in ticks {
            let y = self.y(tick.at);
            sheet.line(&[(frame.left, y), (frame.right, y)], RULE, 2.0, "");
            let room = frame.left - 20.0;
            sheet.text(
                (frame.left - 14.0, y + 11.0),
                hand(32.0, Weight::Regular, QUIET),
                Anchor::End,
                &tick.label,
                room,
            );
        }
    }
}

/// An axis of days, from left to right.
#[derive(Clone, Copy, Debug)]
pub struct Days {
    /// Day at the left.
    pub first: Date,
    /// Day at the right.
    pub last: Date,
    /// Pixel of the left.
    pub left: f64,
    /// Pixel of the right.
    pub right: f64,
}

impl Days {
    /// An axis of at least a week.
    #[must_use]
    pub fn over(first: Date, last: Date, left: f64, right: f64) -> Self {
        let last = last.max(first.saturating_add(7.days()));
        Self {
            first,
            last,
            left,
            right,
        }
    }

    /// Where a day stands; one off the axis stands at its end.
    #[must_use]
    pub fn x(&self, day: Date) -> f64 {
        let share = f64::from(days_between(self.first, day)) / f64::from(days_between(self.first, self.last).max(1));
        self.left + share.clamp(0.0, 1.0) * (self.right - self.left)
    }

    /// Whether a day is on it.
    #[must_use]
    pub fn shows(&self, day: Date) -> bool {
        (self.first..=self.last).contains(&day)
    }

    /// Marks months, or weeks where less than three months are shown, below `y`.
    /// The year stands with the first mark and with each January.
    pub fn draw(&self, sheet: &mut Sheet, y: f64, months: &[String; 12]) {
        let style = hand(32.0, Weight::Regular, QUIET);
        let mut free_from = f64::NEG_INFINITY;
        let mut year = None;
        for (day, by_week) in self.marks() {
            let x = self.x(day);
            let month = months
                .get(usize::from(day.month().unsigned_abs()) - 1)
                .map_or("", String::as_str);
            let words = match (by_week, year == Some(day.year())) {
                (true, _) => format!("{} {month}", day.day()),
                (false, true) => month.to_owned(),
                (false, false) => format!("{month} {}", day.year()),
            };
            let half = typeface::width(&typeface::drawable(&words), style.size, style.weight) / 2.0;
            let middle = x.clamp(half + 6.0, f64::from(super::sheet::WIDTH) - half - 6.0);
            // Words that would be pushed far from their mark are left out.
            if middle - half < free_from || (middle - x).abs() > 40.0 {
                continue;
            }
            sheet.line(&[(x, y), (x, y + 12.0)], QUIET, 3.0, "");
            sheet.text((middle, y + 46.0), style, Anchor::Middle, &words, f64::INFINITY);
            free_from = middle + half + 20.0;
            year = Some(day.year());
        }
    }

    fn marks(&self) -> Vec<(Date, bool)> {
        let span = days_between(self.first, self.last);
        let by_week = span < 80;
        let step: Span = match span {
            ..28 => 7.days(),
            28..80 => 14.days(),
            80..250 => 1.month(),
            250..500 => 2.months(),
            500..900 => 4.months(),
            _ => 6.months(),
        };
        let mut day = if by_week {
            self.first.saturating_add(2.days())
        } else {
            let first_of_month = date(self.first.year(), self.first.month(), 1);
            first_of_month.saturating_add(1.month())
        };
        let mut marks = Vec::new();
        while day <= self.last && marks.len() < 40 {
            marks.push((day, by_week));
            day = day.saturating_add(step);
        }
        marks
    }
}

/// Whole days from one day to another.
#[must_use]
pub fn days_between(from: Date, to: Date) -> i32 {
    from.until(to).map_or(0, |span| span.get_days())
}

/// The line of today, with its word above the frame.
pub fn draw_today(sheet: &mut Sheet, x: f64, frame: &Area, word: &str) {
    sheet.line(&[(x, frame.top - 8.0), (x, frame.bottom)], INK, 4.0, "");
    let style = hand(34.0, Weight::Heavy, INK);
    let half = typeface::width(&typeface::drawable(word), style.size, style.weight) / 2.0;
    // Right of the marks beside the frame, and within the sheet.
    let middle = x.clamp(frame.left - 8.0 + half, f64::from(super::sheet::WIDTH) - half - 8.0);
    sheet.text_over((middle, frame.top - 16.0), style, Anchor::Middle, word, f64::INFINITY);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_round_and_embrace_the_values() {
        for (low, high, marks) in [
            (0.803, 0.968, vec![0.80, 0.85, 0.90, 0.95, 1.0]),
            (412.0, 431.0, vec![410.0, 415.0, 420.0, 425.0, 430.0, 435.0]),
            (0.0, 1.3, vec![0.0, 0.5, 1.0, 1.5]),
        ] {
            let found = ticks(low, high, 6, |at| at.to_string());
            assert_eq!(found.len(), marks.len(), "{found:?}");
            for (tick, mark) in found.iter().zip(marks) {
                assert!((tick.at - mark).abs() < 1e-9, "{found:?}");
            }
        }
    }

    #[test]
    fn marks_hold_for_any_span() {
        for low in [-1e6, -3.7, 0.0, 0.012, 17.0, 9e8] {
            for width in [0.0, 1e-7, 0.4, 3.0, 12_345.0] {
                let found = ticks(low, low + width, 6, |_| String::new());
                assert!((2..=7).contains(&found.len()), "{low} {width}: {}", found.len());
            }
        }
    }

    #[test]
    fn days_run_to_the_right_and_values_upwards() {
        let days = Days::over(date(2026, 1, 1), date(2026, 12, 31), 100.0, 1000.0);
        let mut before = 0.0;
        for n in 0..365 {
            let x = days.x(date(2026, 1, 1).saturating_add(n.days()));
            assert!(x > before);
            before = x;
        }
        assert!((days.x(date(2025, 1, 1)) - 100.0).abs() < 1e-9);
        let heights = Heights {
            low: 0.8,
            high: 1.0,
            bottom: 600.0,
            top: 200.0,
        };
        assert!(heights.y(0.95) < heights.y(0.85));
        assert!((heights.y(0.2) - 600.0).abs() < 1e-9);
    }
}
