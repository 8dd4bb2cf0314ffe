//! When a reading was taken, as far as the message tells: local words into an
//! instant, never in the future.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

use crate::grammar::When;
use crate::schedule::slot_on;

/// The day that stands for a month whose day was not told.
const MIDDLE_OF_MONTH: i8 = 15;

/// Nobody speaks of "this afternoon" or "this evening" as past before these hours.
const AFTERNOON_MAY_BEGIN: i8 = 11;

const EVENING_MAY_BEGIN: i8 = 15;

/// The instant that `when` means in a message sent at `sent_at`.
pub(super) fn instant(when: Option<When>, sent_at: i64, zone: &TimeZone) -> i64 {
    when.and_then(|when| told(when, sent_at, zone))
        .map_or(sent_at, |at| at.min(sent_at))
}

/// Whether the words tell a time that is still to come when they are sent.
pub(super) fn is_ahead(when: Option<When>, sent_at: i64, zone: &TimeZone) -> bool {
    let Ok(sent) = Timestamp::from_second(sent_at) else {
        return false;
    };
    let local = zone.to_datetime(sent);
    match when {
        Some(When::Afternoon) => local.hour() < AFTERNOON_MAY_BEGIN,
        Some(When::Evening) => local.hour() < EVENING_MAY_BEGIN,
        Some(When::On {
            year: Some(year),
            month,
            day,
            ..
        }) => Date::new(year, month as i8, day as i8).is_ok_and(|date| date > local.date()),
        _ => false,
    }
}

fn told(when: When, sent_at: i64, zone: &TimeZone) -> Option<i64> {
    let local = zone.to_datetime(Timestamp::from_second(sent_at).ok()?);
    let today = local.date();
    let at = |date: Date, hour: i8, minute: i8| Some(slot_on(zone, date, Time::new(hour, minute, 0, 0).ok()?)?.at);
    let of_day = |date: Date, hour_minute: Option<(u8, u8)>| match hour_minute {
        Some((hour, minute)) => at(date, i8::try_from(hour).ok()?, i8::try_from(minute).ok()?),
        None if date == today => Some(sent_at),
        None => at(date, 12, 0),
    };
    match when {
        When::Morning => at(today, 8, 0),
        When::Afternoon => at(today, 14, 0),
        When::Evening => at(today, 19, 0),
        When::DaysBack(days) => {
            let date = today.checked_sub(i64::from(days).days()).ok()?;
            slot_on(zone, date, local.time()).map(|slot| slot.at)
        }
        When::At {
            days_back,
            hour,
            minute,
        } => {
            let date = today.checked_sub(i64::from(days_back).days()).ok()?;
            let meant = at(date, i8::try_from(hour).ok()?, i8::try_from(minute).ok()?)?;
            // "At 23:40", sent after midnight, was last night.
            if meant <= sent_at {
                Some(meant)
            } else {
                at(date.yesterday().ok()?, hour as i8, minute as i8)
            }
        }
        When::Weekday {
            weekday,
            before_today,
            hour_minute,
        } => {
            let back = i64::from((local.date().weekday().to_monday_one_offset() - weekday as i8).rem_euclid(7));
            let back = if back == 0 && before_today { 7 } else { back };
            let date = today.checked_sub(back.days()).ok()?;
            of_day(date, hour_minute)
        }
        When::DayOfMonth { day, hour_minute } => {
            let day = i8::try_from(day).ok()?;
            let mut month = today.first_of_month();
            while day > month.days_in_month() || (month + (i64::from(day) - 1).days()) > today {
                month = month.yesterday().ok()?.first_of_month();
            }
            of_day(month.checked_add((i64::from(day) - 1).days()).ok()?, hour_minute)
        }
        When::InMonth { year, month } => {
            let month = i8::try_from(month).ok()?;
            let last_year = year.is_none() && month > today.month();
            let year = year.unwrap_or(today.year() - i16::from(last_year));
            let middle = Date::new(year, month, MIDDLE_OF_MONTH).ok()?;
            let this_month = middle.first_of_month() == today.first_of_month();
            let date = if this_month && middle > today {
                middle.first_of_month()
            } else {
                middle
            };
            at(date, 12, 0)
        }
        When::LastMonth => {
            let last = today.first_of_month().yesterday().ok()?;
            at(Date::new(last.year(), last.month(), MIDDLE_OF_MONTH).ok()?, 12, 0)
        }
        When::MinutesBack(minutes) => Some(sent_at - i64::from(minutes) * 60),
        // A reading that is kept all the same is of now.
        When::Ahead => None,
        When::On {
            year,
            month,
            day,
            hour_minute,
        } => {
            let (hour, minute) = hour_minute.unwrap_or((12, 0));
            let (month, day) = (i8::try_from(month).ok()?, i8::try_from(day).ok()?);
            let mut date = Date::new(year.unwrap_or(today.year()), month, day).ok()?;
            if year.is_none() && date > today {
                date = Date::new(today.year() - 1, month, day).ok()?;
            }
            at(date, i8::try_from(hour).ok()?, i8::try_from(minute).ok()?)
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn at(text: &str) -> i64 {
        text.parse::<Timestamp>().unwrap().as_second()
    }

    #[test]
    fn local_words_become_instants_and_never_the_future() {
        let zone = TimeZone::get("Europe/Madrid").unwrap();
        let sent = at("2026-03-04T11:00:00Z");
        let clock = |days_back, hour, minute| When::At {
            days_back,
            hour,
            minute,
        };
        let weekday = |weekday, before_today| When::Weekday {
            weekday,
            before_today,
            hour_minute: None,
        };
        for (when, meant) in [
            (None, "2026-03-04T11:00:00Z"),
            (Some(clock(0, 7, 40)), "2026-03-04T06:40:00Z"),
            (Some(clock(1, 7, 40)), "2026-03-03T06:40:00Z"),
            (Some(clock(0, 23, 40)), "2026-03-03T22:40:00Z"),
            (Some(When::DaysBack(1)), "2026-03-03T11:00:00Z"),
            (Some(When::Morning), "2026-03-04T07:00:00Z"),
            (Some(When::Evening), "2026-03-04T11:00:00Z"),
            (
                Some(When::On {
                    year: None,
                    month: 12,
                    day: 24,
                    hour_minute: None,
                }),
                "2025-12-24T11:00:00Z",
            ),
            (Some(weekday(5, false)), "2026-02-27T11:00:00Z"),
            (Some(weekday(3, false)), "2026-03-04T11:00:00Z"),
            (Some(weekday(3, true)), "2026-02-25T11:00:00Z"),
            (
                Some(When::DayOfMonth {
                    day: 1,
                    hour_minute: None,
                }),
                "2026-03-01T11:00:00Z",
            ),
            (
                Some(When::DayOfMonth {
                    day: 31,
                    hour_minute: Some((8, 0)),
                }),
                "2026-01-31T07:00:00Z",
            ),
            (Some(When::InMonth { year: None, month: 6 }), "2025-06-15T10:00:00Z"),
            (Some(When::InMonth { year: None, month: 3 }), "2026-03-01T11:00:00Z"),
            (
                Some(When::InMonth {
                    year: Some(2024),
                    month: 1,
                }),
                "2024-01-15T11:00:00Z",
            ),
            (Some(When::LastMonth), "2026-02-15T11:00:00Z"),
            (Some(When::MinutesBack(120)), "2026-03-04T09:00:00Z"),
            (Some(When::Ahead), "2026-03-04T11:00:00Z"),
        ] {
            assert_eq!(instant(when, sent, &zone), at(meant), "{when:?}");
        }
    }

    #[test]
    fn what_is_still_to_come_is_known_by_the_local_hour() {
        let zone = TimeZone::get("Europe/Madrid").unwrap();
        let on = |year| {
            Some(When::On {
                year: Some(year),
                month: 5,
                day: 1,
                hour_minute: None,
            })
        };
        for (when, sent, ahead) in [
            (Some(When::Afternoon), "2026-03-04T06:40:00Z", true),
            (Some(When::Afternoon), "2026-03-04T12:40:00Z", false),
            (Some(When::Evening), "2026-03-04T12:40:00Z", true),
            (Some(When::Evening), "2026-03-04T16:40:00Z", false),
            (on(2026), "2026-03-04T16:40:00Z", true),
            (on(2025), "2026-03-04T16:40:00Z", false),
            (None, "2026-03-04T16:40:00Z", false),
        ] {
            assert_eq!(is_ahead(when, at(sent), &zone), ahead, "{when:?} at {sent}");
        }
    }
}
