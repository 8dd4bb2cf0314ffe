//! Stretches of time as dates.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::grammar::Span;

/// First and last day of a stretch of time; the last twelve months if none is said.
pub(super) fn days_of(span: Option<Span>, today: Date) -> (Date, Date) {
    let back = |days: i64| today.checked_sub(days.days()).unwrap_or(today);
    let monday = back(i64::from(today.weekday().to_monday_zero_offset()));
    let first = today.first_of_month();
    let before = |date: Date| date.yesterday().unwrap_or(date);
    match span {
        None => (
            today.checked_sub(1.year()).and_then(Date::tomorrow).unwrap_or(today),
            today,
        ),
        Some(Span::Today) => (today, today),
        Some(Span::Yesterday) => (back(1), back(1)),
        Some(Span::ThisWeek) => (monday, today),
        Some(Span::LastWeek) => (monday.checked_sub(7.days()).unwrap_or(monday), before(monday)),
        Some(Span::ThisMonth) => (first, today),
        Some(Span::LastMonth) => (before(first).first_of_month(), before(first)),
        Some(Span::ThisQuarter) => (quarter(today), today),
        Some(Span::LastQuarter) => (quarter(before(quarter(today))), before(quarter(today))),
        Some(Span::Months { year, from, to }) => months(year, from, to, today),
        Some(Span::ThisYear) => (today.first_of_year(), today),
        Some(Span::LastYear) => {
            let last = before(today.first_of_year());
            (last.first_of_year(), last)
        }
    }
}

/// The first day of a date's quarter.
fn quarter(date: Date) -> Date {
    let month = (date.month() - 1) / 3 * 3 + 1;
    Date::new(date.year(), month, 1).unwrap_or(date)
}

/// The days of some months; without a year, the latest that have begun.
fn months(year: Option<i16>, from: u8, to: Option<u8>, today: Date) -> (Date, Date) {
    let first = |year: i16, month: u8| Date::new(year, month as i8, 1).unwrap_or(today);
    let last_year = year.unwrap_or(
        match to.unwrap_or(from) as i8 > today.month() && from as i8 > today.month() {
            true => today.year() - 1,
            false => today.year(),
        },
    );
    let Some(to) = to else {
        return (first(last_year, from), today);
    };
    let end = first(last_year, to).last_of_month();
    // "From november to february" begins in the year before.
    let begin = first(last_year - i16::from(from > to), from);
    (begin, end.min(today.max(begin)))
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn stretches_of_time_are_calendar_ones() {
        // A Wednesday.
        let today = date(2026, 3, 4);
        let of = |year, from, to| Some(Span::Months { year, from, to });
        for (span, from, to) in [
            (None, date(2025, 3, 5), today),
            (Some(Span::ThisWeek), date(2026, 3, 2), today),
            (Some(Span::LastWeek), date(2026, 2, 23), date(2026, 3, 1)),
            (Some(Span::LastMonth), date(2026, 2, 1), date(2026, 2, 28)),
            (Some(Span::ThisYear), date(2026, 1, 1), today),
            (Some(Span::LastYear), date(2025, 1, 1), date(2025, 12, 31)),
            (Some(Span::ThisQuarter), date(2026, 1, 1), today),
            (Some(Span::LastQuarter), date(2025, 10, 1), date(2025, 12, 31)),
            (of(Some(2025), 1, Some(12)), date(2025, 1, 1), date(2025, 12, 31)),
            (of(None, 2, Some(2)), date(2026, 2, 1), date(2026, 2, 28)),
            (of(None, 6, Some(6)), date(2025, 6, 1), date(2025, 6, 30)),
            (of(None, 1, None), date(2026, 1, 1), today),
            (of(None, 11, None), date(2025, 11, 1), today),
            (of(Some(2025), 1, Some(3)), date(2025, 1, 1), date(2025, 3, 31)),
            (of(None, 11, Some(2)), date(2025, 11, 1), date(2026, 2, 28)),
        ] {
            assert_eq!(days_of(span, today), (from, to), "{span:?}");
        }
    }
}
