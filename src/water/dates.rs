//! Local dates of instants, and days between dates.

use std::time::Duration;

use jiff::civil::Date;

const DAY: i64 = 86_400;

/// The local date of an instant (UTC seconds) at an offset from UTC (seconds
/// east). An instant beyond the calendar gives its nearest end.
///
/// # Examples
/// 2026-03-02 23:30 UTC is the third one hour east.
/// ```
/// use jiff::civil::date;
/// use tapside::water::dates::local_date;
/// assert_eq!(local_date(1_772_494_200, 0), date(2026, 3, 2));
/// assert_eq!(local_date(1_772_494_200, 3600), date(2026, 3, 3));
/// ```
#[must_use]
pub fn local_date(at: i64, utc_offset_seconds: i64) -> Date {
    let days = at.saturating_add(utc_offset_seconds).div_euclid(DAY);
    shifted(Date::constant(1970, 1, 1), days)
}

/// The date `days` later, or earlier.
#[must_use]
pub fn shifted(date: Date, days: i64) -> Date {
    let span = Duration::from_secs(days.unsigned_abs().saturating_mul(DAY.unsigned_abs()));
    if days < 0 {
        date.checked_sub(span).unwrap_or(Date::MIN)
    } else {
        date.checked_add(span).unwrap_or(Date::MAX)
    }
}

/// Days from one date to another; negative when `to` is earlier.
#[must_use]
pub fn days_between(from: Date, to: Date) -> i64 {
    i64::from((to - from).get_days())
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn dates_shift_over_months_and_leap_days() {
        assert_eq!(shifted(date(2028, 2, 28), 1), date(2028, 2, 29));
        assert_eq!(shifted(date(2026, 3, 1), -1), date(2026, 2, 28));
        assert_eq!(days_between(date(2026, 2, 26), date(2026, 3, 2)), 4);
        assert_eq!(days_between(date(2026, 3, 2), date(2026, 2, 26)), -4);
        assert_eq!(days_between(date(2025, 3, 2), date(2026, 3, 2)), 365);
    }

    #[test]
    fn an_instant_beyond_the_calendar_is_its_end() {
        assert_eq!(local_date(i64::MAX, 3600), Date::MAX);
        assert_eq!(local_date(i64::MIN, -3600), Date::MIN);
    }
}
