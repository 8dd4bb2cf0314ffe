//! One cell of a sheet: numbers and instants as people write them.

use chrono::{DateTime, NaiveDate, NaiveDateTime, NaiveTime};

/// An instant with the offset that it was written with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Instant {
    /// UTC seconds.
    pub at: i64,
    /// Offset east of UTC, seconds.
    pub offset: i32,
}

/// What a query asks for: an instant, or a whole day by the rig's own clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AsOf {
    /// An instant.
    Instant(Instant),
    /// The end of this day, counted from 1970-01-01, at whatever offset the rig's readings have.
    Day(i64),
}

/// A number; `decimal_comma` says that "12,5" means 12.5 in this sheet.
pub fn number(text: &str, decimal_comma: bool) -> Result<f64, &'static str> {
    let plain = if decimal_comma {
        text.replace(',', ".")
    } else {
        text.to_owned()
    };
    match plain.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        _ => Err("is not a number"),
    }
}

/// An instant in ISO 8601 with offset.
pub fn instant(text: &str) -> Result<Instant, &'static str> {
    if let Ok(time) = DateTime::parse_from_rfc3339(text) {
        return Ok(Instant {
            at: time.timestamp(),
            offset: time.offset().local_minus_utc(),
        });
    }
    let zoned = text
        .strip_suffix(['Z', 'z'])
        .map_or_else(|| text.to_owned(), |local| format!("{local}+00:00"));
    for format in [
        "%Y-%m-%dT%H:%M:%S%.f%z",
        "%Y-%m-%d %H:%M:%S%.f%z",
        "%Y-%m-%dT%H:%M%z",
        "%Y-%m-%d %H:%M%z",
        "%Y%m%dT%H%M%S%z",
    ] {
        if let Ok(time) = DateTime::parse_from_str(&zoned, format) {
            return Ok(Instant {
                at: time.timestamp(),
                offset: time.offset().local_minus_utc(),
            });
        }
    }
    if local(text).is_some() || day(text).is_some() {
        return Err("needs a time and an offset, as in 2026-03-02T07:40:00+01:00");
    }
    Err("is not a time, as in 2026-03-02T07:40:00+01:00")
}

/// An instant, or a day alone (its start in UTC): services are often noted by day.
pub fn instant_or_day(text: &str) -> Result<Instant, &'static str> {
    match day(text) {
        Some(date) => Ok(Instant {
            at: date * 86_400,
            offset: 0,
        }),
        None => instant(text),
    }
}

/// What a query asks for; a time without offset is taken as UTC.
pub fn as_of(text: &str) -> Result<AsOf, &'static str> {
    if let Some(date) = day(text) {
        return Ok(AsOf::Day(date));
    }
    if let Some(time) = local(text) {
        return Ok(AsOf::Instant(Instant {
            at: time.and_utc().timestamp(),
            offset: 0,
        }));
    }
    instant(text).map(AsOf::Instant)
}

/// The date of an instant at an offset, in ISO 8601.
pub fn date(at: i64, offset: i32) -> Option<NaiveDate> {
    DateTime::from_timestamp(at.checked_add(i64::from(offset))?, 0).map(|time| time.date_naive())
}

fn day(text: &str) -> Option<i64> {
    let date = NaiveDate::parse_from_str(text, "%Y-%m-%d").ok()?;
    Some(date.and_time(NaiveTime::MIN).and_utc().timestamp() / 86_400)
}

fn local(text: &str) -> Option<NaiveDateTime> {
    [
        "%Y-%m-%dT%H:%M:%S%.f",
        "%Y-%m-%d %H:%M:%S%.f",
        "%Y-%m-%dT%H:%M",
        "%Y-%m-%d %H:%M",
    ]
    .iter()
    .find_map(|format| NaiveDateTime::parse_from_str(text, format).ok())
}
