//! Slots over years and zones: one for each local date, in order, whatever
//! the clocks do there.

use jiff::civil::{Date, Time, Weekday, date, time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use tapside::schedule::{Week, due, local_date, local_time, slot_on};

/// Zones with every kind of habit: half-hour and two-hour shifts (Lord Howe,
/// Troll), odd offsets (Kathmandu, Chatham, St Johns), shifts at midnight (Havana,
/// Beirut, Cairo), a shift back for Ramadan (Casablanca), rules given up
/// meanwhile (Sao Paulo, Mexico City).
const ZONES: [&str; 18] = [
    "Australia/Lord_Howe",
    "Asia/Kathmandu",
    "Pacific/Chatham",
    "Antarctica/Troll",
    "America/Havana",
    "Asia/Beirut",
    "Africa/Cairo",
    "Africa/Casablanca",
    "America/St_Johns",
    "America/Sao_Paulo",
    "America/Mexico_City",
    "America/New_York",
    "America/Los_Angeles",
    "Europe/London",
    "Europe/Madrid",
    "Australia/Sydney",
    "Pacific/Auckland",
    "UTC",
];
const TIMES: [(i8, i8); 10] = [
    (0, 0),
    (0, 30),
    (1, 0),
    (1, 30),
    (2, 0),
    (2, 30),
    (3, 0),
    (7, 0),
    (17, 0),
    (23, 59),
];

fn at(text: &str) -> i64 {
    text.parse::<Timestamp>().unwrap().as_second()
}

#[test]
fn seven_years_in_every_zone_give_one_slot_for_each_local_date_in_order() {
    let (from, until) = (at("2020-01-01T00:00:00Z"), at("2027-01-01T00:00:00Z"));
    let mut count = 0;
    for name in ZONES {
        let zone = TimeZone::get(name).unwrap();
        for (hour, minute) in TIMES {
            let told = time(hour, minute, 0, 0);
            let week = Week::daily(told);
            // Looked for in uneven steps, as a host that is sometimes asleep does.
            let mut steps = [3_600, 86_400, 60, 500_000, 7_200, 43_201].iter().cycle();
            let (mut now, mut slots) = (from, Vec::new());
            while now < until {
                let next = (now + steps.next().unwrap()).min(until);
                slots.extend(due(&zone, &week, now, next));
                now = next;
            }
            let first = slots.first().unwrap().date;
            for (slot, expected) in slots.iter().zip(first.series(1.day())) {
                assert_eq!(slot.date, expected, "{name} {told}");
                assert_eq!(local_date(&zone, slot.at), Some(slot.date), "{name} {told}");
                let shown = local_time(&zone, slot.at).unwrap();
                let is_after_a_gap = shown > told && !exists(&zone, slot.date, told);
                assert!(shown == told || is_after_a_gap, "{name} {told} {shown} on {expected}");
            }
            assert!(slots.windows(2).all(|pair| pair[0].at < pair[1].at), "{name} {told}");
            count += slots.len();
        }
    }
    assert!(count >= 460_000 - 18 * 10, "{count}");
}

/// Whether the clocks of a zone show a time on a date at all: its minutes are
/// walked through, without the code under test.
fn exists(zone: &TimeZone, date: Date, told: Time) -> bool {
    let noon = date.to_datetime(Time::midnight());
    let around = TimeZone::UTC.to_timestamp(noon).unwrap().as_second();
    (-16 * 60..40 * 60).any(|minutes| {
        let local = zone.to_datetime(Timestamp::from_second(around + minutes * 60).unwrap());
        local.date() == date && local.time() == told
    })
}

/// Each line follows from the rule of the IANA time zone database for that zone
/// (files `northamerica`, `europe`, `africa`, `asia`, `australasia`, `antarctica`; rules
/// from memory), worked out by hand.
#[test]
fn shifts_of_every_kind_are_met() {
    for (zone, on, (hour, minute), expected) in [
        // Forward an hour at 00:00 on the second Sunday of March.
        ("America/Havana", date(2026, 3, 8), (0, 30), "2026-03-08T05:30:00Z"),
        // Forward an hour at 00:00 on the last Sunday of March.
        ("Asia/Beirut", date(2026, 3, 29), (0, 30), "2026-03-28T22:30:00Z"),
        // Forward an hour at 00:00 on the last Friday of April.
        ("Africa/Cairo", date(2026, 4, 24), (0, 30), "2026-04-23T22:30:00Z"),
        // Forward two hours at 01:00 UTC on the last Sunday of March.
        ("Antarctica/Troll", date(2026, 3, 29), (1, 30), "2026-03-29T01:30:00Z"),
        // Back half an hour at 02:00 on the first Sunday of April: 01:45 comes twice.
        ("Australia/Lord_Howe", date(2026, 4, 5), (1, 45), "2026-04-04T14:45:00Z"),
        // Back an hour at 03:45 on the first Sunday of April: 03:00 comes twice.
        ("Pacific/Chatham", date(2026, 4, 5), (3, 0), "2026-04-04T13:15:00Z"),
        // 5:45 ahead all year.
        ("Asia/Kathmandu", date(2026, 7, 1), (7, 0), "2026-07-01T01:15:00Z"),
    ] {
        let slot = slot_on(&TimeZone::get(zone).unwrap(), on, time(hour, minute, 0, 0)).unwrap();
        assert_eq!(slot.at, at(expected), "{zone}");
        assert_eq!(slot.date, on, "{zone}");
    }
}

#[test]
fn an_outfit_that_moves_to_another_zone_keeps_one_slot_a_date() {
    let monday = Week::weekly(Weekday::Monday, time(7, 0, 0, 0));
    let seen = |zone: &str, now: &str| {
        due(&TimeZone::get(zone).unwrap(), &monday, at(now) - 86_400, at(now))
            .first()
            .map(|slot| slot.date)
    };
    // Sent in Auckland's morning; the same Monday morning in Madrid comes half
    // a day later, under the same date, so that its key is taken.
    assert_eq!(seen("Pacific/Auckland", "2026-03-01T18:00:00Z"), Some(date(2026, 3, 2)));
    assert_eq!(seen("Europe/Madrid", "2026-03-02T06:00:00Z"), Some(date(2026, 3, 2)));
    // Moved east past the hour: the slot is within the window, sent late.
    assert_eq!(seen("Europe/Madrid", "2026-03-02T05:59:00Z"), None);
    assert_eq!(seen("Asia/Kathmandu", "2026-03-02T05:59:00Z"), Some(date(2026, 3, 2)));
}
