//! From values and days to pixels, and where an axis is marked.

use jiff::ToSpan;
use jiff::civil::{Date, date};

use super::palette::{INK, QUIET};
use super::sheet::{Anchor, Area, LEFT, Point, RIGHT, SMALLEST, Sheet, Style};
use super::typeface::Weight;

/// Short names of the months, January first.
pub type Months = [String; 12];

/// Between labels of an axis of values, pixels.
const LABELS_APART: f64 = 54.0;
/// More marks than this are a grid that nobody reads.
const MARKS: usize = 4;

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
    /// Where a value stands; one off the axis stands at its end.
    #[must_use]
    pub fn y(&self, value: f64) -> f64 {
        let share = (value.clamp(self.low, self.high) - self.low) / (self.high - self.low).max(1e-9);
        self.bottom - share * (self.bottom - self.top)
    }

    /// Values to mark, at most four and no closer than their labels are high: those
    /// that matter, then round ones, in steps of `step`, from the top.
    #[must_use]
    pub fn marks(&self, that_matter: &[f64], step: f64) -> Vec<f64> {
        let mut marks: Vec<f64> = Vec::new();
        let mut round = (self.high / step).floor() * step;
        let mut candidates = that_matter.to_vec();
        while round >= self.low {
            candidates.push(round);
            round -= step;
        }
        for value in candidates {
            let apart = |&other: &f64| (self.y(other) - self.y(value)).abs() >= LABELS_APART;
            if marks.len() < MARKS && (self.low..=self.high).contains(&value) && marks.iter().all(apart) {
                marks.push(value);
            }
        }
        marks
    }
}

/// A mark of an axis of values: its words left of the frame.
pub fn draw_label(sheet: &mut Sheet, left: f64, y: f64, text: &str, matters: bool) {
    let style = if matters {
        Style::of(SMALLEST, Weight::Heavy, INK)
    } else {
        Style::QUIET
    };
    sheet.text((left - 16.0, y + 15.0), style, Anchor::End, text, left - 40.0);
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

/// From mark to mark of an axis of days.
#[derive(Clone, Copy)]
enum Step {
    Days(i64),
    Months(i8),
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

    /// An axis that shows `past` days up to today and `ahead` days of what is to come,
    /// which gets at least `room` pixels and at most half of the width.
    #[must_use]
    pub fn about(today: Date, past: i32, ahead: i32, room: f64, left: f64, right: f64) -> Self {
        let share = (room / (right - left)).clamp(0.06, 0.5);
        #[allow(clippy::cast_possible_truncation)]
        let least = (f64::from(past) * share / (1.0 - share)).ceil() as i32;
        let ahead = ahead.clamp(least, past.max(least));
        let (first, last) = (
            today.saturating_sub(i64::from(past).days()),
            today.saturating_add(i64::from(ahead).days()),
        );
        Self::over(first, last, left, right)
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

    /// Marks months below `y`, as many as there is room for, or days where the axis is
    /// short. The year stands at the axis and with each January.
    pub fn draw(&self, sheet: &mut Sheet, y: f64, months: &Months) {
        let is_short = days_between(self.first, self.last) < 75;
        let steps: &[Step] = match is_short {
            true => &[Step::Days(7), Step::Days(14), Step::Days(28)],
            false => &[1, 2, 3, 4, 6, 12].map(Step::Months),
        };
        let all: Vec<Vec<(f64, String)>> = steps.iter().map(|&step| self.labels(step, months)).collect();
        let half = |text: &str| Style::QUIET.width(text) / 2.0;
        let fits = |labels: &&Vec<(f64, String)>| {
            let mut pairs = labels.windows(2);
            pairs.all(|pair| pair[1].0 - half(&pair[1].1) - pair[0].0 - half(&pair[0].1) >= 14.0)
        };
        for (x, text) in all.iter().find(fits).into_iter().flatten() {
            sheet.line(&[(*x, y), (*x, y + 14.0)], QUIET, 4.0);
            sheet.text((*x, y + 54.0), Style::QUIET, Anchor::Middle, text, f64::INFINITY);
        }
        let year = self.first.year().to_string();
        let places = [(self.left - 16.0 - 2.0 * half(&year), y + 54.0)];
        sheet.text_where_free(&places, Style::QUIET, &year, &Area::SHEET);
    }

    /// Where labels stand, and what they say; those that would leave the axis are left out.
    fn labels(&self, step: Step, months: &Months) -> Vec<(f64, String)> {
        let mut day = match step {
            Step::Days(_) => self.first.saturating_add(2.days()),
            Step::Months(_) => date(self.first.year(), self.first.month(), 1),
        };
        let mut labels = Vec::new();
        while day <= self.last && labels.len() < 40 {
            let month = months.get(usize::from(day.month().unsigned_abs()) - 1);
            let month = month.map_or("", String::as_str);
            let text = match step {
                Step::Days(_) => format!("{} {month}", day.day()),
                Step::Months(_) if day.month() == 1 => format!("{month} {}", day.year() % 100),
                Step::Months(_) => month.to_owned(),
            };
            let is_in_step = match step {
                Step::Days(_) => true,
                Step::Months(step) => (day.month() - 1) % step == 0,
            };
            let (x, half) = (self.x(day), Style::QUIET.width(&text) / 2.0);
            if day >= self.first && is_in_step && x - half >= self.left + 4.0 && x + half <= RIGHT + 12.0 {
                labels.push((x, text));
            }
            day = match step {
                Step::Days(days) => day.saturating_add(days.days()),
                Step::Months(_) => day.saturating_add(1.month()),
            };
        }
        labels
    }
}

/// Whole days from one day to another.
#[must_use]
pub fn days_between(from: Date, to: Date) -> i32 {
    from.until(to).map_or(0, |span| span.get_days())
}

/// The same day so many months later, or the last one of that month.
#[must_use]
pub fn months_later(day: Date, months: i64) -> Date {
    day.saturating_add(months.months())
}

/// What the axis of values is, and the line of today with its word, above the frame.
pub fn draw_top(sheet: &mut Sheet, axis: &str, x: f64, frame: &Area, today: &str) {
    let base = frame.top - 32.0;
    sheet.line(&[(x, frame.top - 14.0), (x, frame.bottom)], INK, 5.0);
    let style = Style::of(44.0, Weight::Heavy, INK);
    let half = style.width(today) / 2.0;
    let middle = x.clamp(LEFT + half, RIGHT - half);
    let word = sheet.text((middle, base), style, Anchor::Middle, today, f64::INFINITY);
    sheet.text((LEFT, base), Style::QUIET, Anchor::Start, axis, word.left - LEFT - 16.0);
}

/// Places in a frame where words may begin, the nearest to a point first.
#[must_use]
pub fn places_about((x, y): Point, frame: &Area) -> Vec<Point> {
    let mut places: Vec<Point> = (0..46)
        .flat_map(|column| (0..44).map(move |row| (20.0 * f64::from(column), 12.0 * f64::from(row))))
        .map(|(right, down)| (frame.left + 8.0 + right, frame.top + down))
        .filter(|&(left, base)| left < frame.right && base < frame.bottom)
        .collect();
    let distance = |&(left, base): &Point| (left - x).hypot(1.5 * (base - y));
    places.sort_by(|a, b| distance(a).total_cmp(&distance(b)));
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEIGHTS: Heights = Heights {
        low: 0.76,
        high: 0.97,
        bottom: 650.0,
        top: 226.0,
    };

    #[test]
    fn what_matters_is_marked_first_and_labels_keep_apart() {
        let marks = HEIGHTS.marks(&[0.85, 0.80], 0.05);
        assert_eq!(marks.len(), 4, "{marks:?}");
        assert!((marks[0] - 0.85).abs() < 1e-9 && (marks[2] - 0.95).abs() < 1e-9);
        // A line of 83 % leaves no room for the round 85 %.
        let marks = HEIGHTS.marks(&[0.83, 0.79], 0.05);
        assert!(marks.iter().all(|mark| (mark - 0.85).abs() > 1e-9), "{marks:?}");
    }

    #[test]
    fn what_is_ahead_gets_its_room_and_no_more_than_half() {
        let today = date(2026, 11, 8);
        for (past, ahead) in [(42, 0), (170, 12), (170, 4000), (900, 60)] {
            let days = Days::about(today, past, ahead, 200.0, 150.0, 1044.0);
            let room = 1044.0 - days.x(today);
            assert!((200.0..=455.0).contains(&room), "{past} {ahead}: {room}");
        }
    }

    #[test]
    fn days_run_to_the_right_and_values_upwards() {
        let days = Days::over(date(2026, 1, 1), date(2026, 12, 31), 100.0, 1000.0);
        let xs: Vec<f64> = (0..365)
            .map(|n| days.x(date(2026, 1, 1).saturating_add(n.days())))
            .collect();
        assert!(xs.windows(2).all(|pair| pair[0] < pair[1]));
        assert!((days.x(date(2025, 1, 1)) - 100.0).abs() < 1e-9);
        assert!(HEIGHTS.y(0.95) < HEIGHTS.y(0.85));
        assert!((HEIGHTS.y(0.2) - 650.0).abs() < 1e-9);
    }

    #[test]
    fn months_are_marked_as_often_as_there_is_room() {
        let months: Months = std::array::from_fn(|nth| {
            [
                "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
            ][nth]
                .to_owned()
        });
        let marked = |first: Date, last: Date| {
            let mut sheet = Sheet::default();
            Days::over(first, last, 150.0, 1044.0).draw(&mut sheet, 650.0, &months);
            let words: Vec<String> = sheet.words().iter().map(|placed| placed.text.clone()).collect();
            words.join(" ")
        };
        assert_eq!(
            marked(date(2026, 5, 20), date(2027, 1, 20)),
            "Jun Jul Aug Sep Oct Nov Dec Jan 27 2026"
        );
        assert_eq!(
            marked(date(2025, 12, 20), date(2027, 2, 20)),
            "Mar May Jul Sep Nov Jan 27 2025"
        );
        assert_eq!(
            marked(date(2025, 1, 20), date(2027, 2, 20)),
            "Apr Jul Oct Jan 26 Apr Jul Oct Jan 27 2025"
        );
        // A week is 128 px here and "17 Nov" with its gap more: every second one has room.
        assert_eq!(
            marked(date(2026, 11, 1), date(2026, 12, 20)),
            "17 Nov 1 Dec 15 Dec 2026"
        );
    }
}
