//! When a reading was taken, as far as the message tells: local words into an
//! instant, never in the future.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

use crate::message::When;
use crate::schedule::slot_on;

/// The instant that `when` means in a message sent at `sent_at`.
pub(super) fn instant(when: Option<When>, sent_at: i64, zone: &TimeZone) -> i64 {
    when.and_then(|when| told(when, sent_at, zone))
        .map_or(sent_at, |at| at.min(sent_at))
}

fn told(when: When, sent_at: i64, zone: &TimeZone) -> Option<i64> {
    let local = zone.to_datetime(Timestamp::from_second(sent_at).ok()?);
    let today = local.date();
    let at = |date: Date, hour: i8, minute: i8| Some(slot_on(zone, date, Time::new(hour, minute, 0, 0).ok()?)?.at);
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
        ] {
            assert_eq!(instant(when, sent, &zone), at(meant), "{when:?}");
        }
    }
}
