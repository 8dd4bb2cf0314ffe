//! Days on which a rig does not work: a span of dates with a reason.

use jiff::civil::Date;

use super::dates::{days_between, shifted};
use crate::domain::time_off::Why;

/// An outfit or a rig keeps so many spans; the oldest make room.
pub const MOST_SPANS: usize = 12;

/// A span without an end counts as this many days for what is computed ahead: somebody will say when it is over.
/// Common practice, no source: about a winter.
pub const OPEN_DAYS: i64 = 90;

/// From so many days on a rig stands rather than rests. Common practice, no source.
pub const STANDS_DAYS: i64 = 5;

/// A span of days off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DaysOff {
    /// The first.
    pub from: Date,
    /// The first day of work after it; none while nobody knows.
    pub back: Option<Date>,
    /// The reason.
    pub why: Why,
}

impl DaysOff {
    /// A span from year, month and day; the end as the last day off. None if there are no such days or it ends before it
    /// begins.
    #[must_use]
    pub fn of(from: (i16, u8, u8), last: Option<(i16, u8, u8)>, why: Why) -> Option<Self> {
        let date = |(year, month, day)| Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok();
        let from = date(from)?;
        let back = match last {
            Some(last) => Some(shifted(date(last)?, 1)),
            None => None,
        };
        back.is_none_or(|back| back > from).then_some(Self { from, back, why })
    }

    /// Whether a day is one of them.
    #[must_use]
    pub fn holds(&self, day: Date) -> bool {
        self.from <= day && self.back.is_none_or(|back| day < back)
    }

    /// Whether the two have a day in common.
    #[must_use]
    pub fn meets(&self, other: &Self) -> bool {
        self.back.is_none_or(|back| other.from < back) && other.back.is_none_or(|back| self.from < back)
    }

    /// How many days; none while nobody knows.
    #[must_use]
    pub fn days(&self) -> Option<i64> {
        self.back.map(|back| days_between(self.from, back))
    }

    /// Whether it is long enough for the rig to stand: see [`STANDS_DAYS`].
    #[must_use]
    pub fn is_long(&self) -> bool {
        self.days().is_none_or(|days| days >= STANDS_DAYS)
    }

    /// The last day off.
    #[must_use]
    pub fn last(&self) -> Option<Date> {
        self.back.map(|back| shifted(back, -1))
    }

    /// As it is kept: `2026-12-24/2027-01-03 garage`, the second the day of work after it.
    #[must_use]
    pub fn text(&self) -> String {
        let back = self.back.map(|back| back.to_string()).unwrap_or_default();
        format!("{}/{back} {}", self.from, self.why.name())
    }

    /// What was kept so; none if it cannot be meant.
    #[must_use]
    pub fn kept(text: &str) -> Option<Self> {
        let (days, why) = text.split_once(' ')?;
        let (from, back) = days.split_once('/')?;
        let from: Date = from.parse().ok()?;
        let back = match back {
            "" => None,
            back => Some(back.parse().ok()?),
        };
        let why = Why::named(why)?;
        back.is_none_or(|back| back > from).then_some(Self { from, back, why })
    }
}

/// Spans with one more: what it meets gives way, since it was said last; the oldest go when there are too many.
#[must_use]
pub fn with(spans: &[DaysOff], new: DaysOff) -> Vec<DaysOff> {
    let mut spans: Vec<DaysOff> = spans.iter().filter(|old| !old.meets(&new)).copied().collect();
    spans.push(new);
    spans.sort_by_key(|span| span.from);
    spans.drain(..spans.len().saturating_sub(MOST_SPANS));
    spans
}

/// Spans with work again from a day on: one that holds the day ends before it, one that begins on it is gone.
#[must_use]
pub fn ended(spans: &[DaysOff], day: Date) -> Vec<DaysOff> {
    let end = |span: &DaysOff| match span {
        span if !span.holds(day) => Some(*span),
        span if span.from == day => None,
        span => Some(DaysOff {
            back: Some(day),
            ..*span
        }),
    };
    spans.iter().filter_map(end).collect()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    fn span(from: Date, back: Option<Date>) -> DaysOff {
        DaysOff {
            from,
            back,
            why: Why::Garage,
        }
    }

    #[test]
    fn a_span_holds_its_days_and_not_the_day_of_work_after_it() {
        let week = span(date(2026, 12, 24), Some(date(2027, 1, 3)));
        for (day, holds) in [
            (date(2026, 12, 23), false),
            (date(2026, 12, 24), true),
            (date(2027, 1, 2), true),
            (date(2027, 1, 3), false),
        ] {
            assert_eq!(week.holds(day), holds, "{day}");
        }
        assert_eq!(week.days(), Some(10));
        assert_eq!(DaysOff::kept(&week.text()), Some(week));
        let open = span(date(2026, 12, 24), None);
        assert!(open.holds(date(2030, 1, 1)) && open.is_long());
        assert_eq!(DaysOff::kept(&open.text()), Some(open));
    }

    #[test]
    fn what_cannot_be_meant_is_no_span() {
        for text in [
            "",
            "2026-12-24",
            "2026-12-24/2026-12-24 off",
            "2026-02-30/ off",
            "2026-12-24/ moon",
        ] {
            assert_eq!(DaysOff::kept(text), None, "{text}");
        }
        assert_eq!(DaysOff::of((2026, 2, 30), None, Why::Off), None);
        assert_eq!(DaysOff::of((2026, 2, 3), Some((2026, 2, 2)), Why::Off), None);
    }

    #[test]
    fn what_is_said_last_holds_and_a_day_of_work_ends_it() {
        let (first, second) = (
            span(date(2026, 12, 1), Some(date(2026, 12, 8))),
            span(date(2026, 12, 5), Some(date(2026, 12, 20))),
        );
        assert_eq!(with(&[first], second), [second]);
        let later = span(date(2026, 12, 24), None);
        assert_eq!(with(&[later], first), [first, later]);
        assert_eq!(
            ended(&[first, later], date(2026, 12, 3)),
            [span(first.from, Some(date(2026, 12, 3))), later]
        );
        assert_eq!(ended(&[first], date(2026, 12, 1)), []);
        assert_eq!(ended(&[first], date(2026, 12, 30)), [first]);
        let many = (1..=30).map(|day| span(date(2026, 10, day), Some(date(2026, 10, day + 1))));
        assert_eq!(many.fold(Vec::new(), |kept, new| with(&kept, new)).len(), MOST_SPANS);
    }
}
