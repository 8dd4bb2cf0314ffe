//! Which scheduled messages fall due between two instants, in local time.
//! Pure: a zone and instants in, local dates out.
//!
//! A slot is keyed by its local date. A time that a spring gap skips runs
//! right after the gap; a time that an autumn fold repeats runs once, the
//! first time.

use jiff::civil::{Date, Time, Weekday};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

/// One due occurrence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slot {
    /// The local date that it belongs to.
    pub date: Date,
    /// When it falls due, UTC seconds.
    pub at: i64,
}

/// The slot of a local date.
pub fn slot_on(zone: &TimeZone, date: Date, time: Time) -> Option<Slot> {
    let at = zone
        .to_ambiguous_zoned_datetime(date.to_datetime(time))
        .compatible()
        .ok()?;
    Some(Slot {
        date,
        at: at.timestamp().as_second(),
    })
}

/// Local times by weekday; none on a day on which nothing is due.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Week([Option<Time>; 7]);

impl Week {
    /// The same time every day.
    pub fn daily(time: Time) -> Self {
        Self([Some(time); 7])
    }

    /// One time a week.
    pub fn weekly(day: Weekday, time: Time) -> Self {
        let mut week = Self::default();
        week.set(day, Some(time));
        week
    }

    /// Puts a day's time, or takes it away.
    pub fn set(&mut self, day: Weekday, time: Option<Time>) {
        self.0[index(day)] = time;
    }

    /// The time on a day of the week.
    pub fn on(&self, day: Weekday) -> Option<Time> {
        self.0[index(day)]
    }
}

fn index(day: Weekday) -> usize {
    day.to_monday_zero_offset().unsigned_abs().into()
}

/// The slots that fell due in `(after, until]`, oldest first; at most a week
/// back, since nothing is sent that late.
pub fn due(zone: &TimeZone, week: &Week, after: i64, until: i64) -> Vec<Slot> {
    let after = after.max(until - 7 * 86_400);
    let (Some(first), Some(last)) = (local_date(zone, after), local_date(zone, until)) else {
        return Vec::new();
    };
    let (Ok(first), Ok(last)) = (first.checked_sub(1.day()), last.checked_add(1.day())) else {
        return Vec::new();
    };
    first
        .series(1.day())
        .take_while(|date| *date <= last)
        .filter_map(|date| slot_on(zone, date, week.on(date.weekday())?))
        .filter(|slot| slot.at > after && slot.at <= until)
        .collect()
}

/// Whether a local time lies in a daily span that may run over midnight:
/// from `20:00` until `07:00`, say. The same time twice is no span.
pub fn within(time: Time, from: Time, until: Time) -> bool {
    if from <= until {
        from <= time && time < until
    } else {
        from <= time || time < until
    }
}

/// The local time of day at an instant.
pub fn local_time(zone: &TimeZone, at: i64) -> Option<Time> {
    Timestamp::from_second(at).ok().map(|at| zone.to_datetime(at).time())
}

/// The offset of a zone from UTC at an instant, seconds east.
#[must_use]
pub fn offset(zone: &TimeZone, at: i64) -> i64 {
    jiff::Timestamp::from_second(at).map_or(0, |at| i64::from(zone.to_offset(at).seconds()))
}

/// The local date at an instant.
pub fn local_date(zone: &TimeZone, at: i64) -> Option<Date> {
    Timestamp::from_second(at).ok().map(|at| zone.to_datetime(at).date())
}

/// The first instant of a local date, UTC seconds.
pub fn day_start(zone: &TimeZone, date: Date) -> Option<i64> {
    slot_on(zone, date, Time::midnight()).map(|slot| slot.at)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use jiff::civil::{date, time};

    use super::*;

    fn at(text: &str) -> i64 {
        text.parse::<Timestamp>().unwrap().as_second()
    }

    #[test]
    fn a_slot_is_due_once() {
        let zone = TimeZone::get("Europe/Madrid").unwrap();
        let half_past_four = Week::daily(time(16, 30, 0, 0));
        let slots = due(
            &zone,
            &half_past_four,
            at("2026-03-02T15:00:00Z"),
            at("2026-03-02T15:30:00Z"),
        );
        assert_eq!(
            slots,
            [Slot {
                date: date(2026, 3, 2),
                at: at("2026-03-02T15:30:00Z")
            }]
        );
        assert!(
            due(
                &zone,
                &half_past_four,
                at("2026-03-02T15:30:00Z"),
                at("2026-03-02T23:00:00Z")
            )
            .is_empty()
        );
    }

    #[test]
    fn a_week_has_its_own_time_on_each_day() {
        let zone = TimeZone::UTC;
        let mut week = Week::daily(time(17, 0, 0, 0));
        week.set(Weekday::Saturday, Some(time(13, 0, 0, 0)));
        week.set(Weekday::Sunday, None);
        let slots = due(&zone, &week, at("2026-03-06T17:00:00Z"), at("2026-03-09T17:00:00Z"));
        assert_eq!(
            slots.iter().map(|slot| slot.at).collect::<Vec<_>>(),
            [at("2026-03-07T13:00:00Z"), at("2026-03-09T17:00:00Z")]
        );
    }

    #[test]
    fn a_span_may_run_over_midnight() {
        let (evening, morning) = (time(20, 0, 0, 0), time(7, 0, 0, 0));
        for (hour, quiet) in [(19, false), (20, true), (23, true), (0, true), (6, true), (7, false)] {
            assert_eq!(within(time(hour, 0, 0, 0), evening, morning), quiet, "{hour}");
            assert_eq!(within(time(hour, 0, 0, 0), morning, evening), !quiet, "{hour}");
        }
        assert!(!within(evening, evening, evening));
    }

    #[test]
    fn a_time_in_the_spring_gap_runs_after_it_and_in_the_autumn_fold_once() {
        let zone = TimeZone::get("Europe/Madrid").unwrap();
        let early = Week::daily(time(2, 30, 0, 0));
        let spring = due(&zone, &early, at("2026-03-28T12:00:00Z"), at("2026-03-29T12:00:00Z"));
        assert_eq!(
            spring,
            [Slot {
                date: date(2026, 3, 29),
                at: at("2026-03-29T01:30:00Z")
            }]
        );
        let autumn = due(&zone, &early, at("2026-10-24T12:00:00Z"), at("2026-10-25T12:00:00Z"));
        assert_eq!(
            autumn,
            [Slot {
                date: date(2026, 10, 25),
                at: at("2026-10-25T00:30:00Z")
            }]
        );
    }
}
