//! Dates and times of day as spreadsheets write them.

use jiff::civil::{Date, DateTime, Time};
use jiff::tz::Offset;

use super::Moment;

/// No rig's record is of a year outside these; such a date is a slip.
const YEARS: std::ops::RangeInclusive<i16> = 1990..=2099;

/// Months by the first letters of their names in English and Spanish.
const MONTHS: [&[&str]; 12] = [
    &["jan", "ene"],
    &["feb"],
    &["mar"],
    &["apr", "abr"],
    &["may"],
    &["jun"],
    &["jul"],
    &["aug", "ago"],
    &["sep", "set"],
    &["oct"],
    &["nov"],
    &["dec", "dic"],
];

/// Which number of 3/4/2026 is the day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Order {
    /// 3 April.
    DayFirst,
    /// March 4.
    MonthFirst,
}

/// The order that the written dates leave open to nobody: a number above 12 is
/// a day. Day first where no date needs it.
///
/// # Errors
/// One of the dates, if they could all be read either way.
pub fn order_of<'a>(written: impl Iterator<Item = &'a str>) -> Result<Order, String> {
    let mut unclear = None;
    for text in written {
        let Some((first, second, _)) = slashed(day_part(text).0) else {
            continue;
        };
        if first > 12 {
            return Ok(Order::DayFirst);
        }
        if second > 12 {
            return Ok(Order::MonthFirst);
        }
        if first != second {
            unclear.get_or_insert(text);
        }
    }
    unclear.map_or(Ok(Order::DayFirst), |text| Err(text.to_owned()))
}

/// A day with or without a time, and perhaps a time of day beside it. A day
/// alone counts as its noon.
pub fn moment(text: &str, clock: Option<&str>, order: Order) -> Option<Moment> {
    let (date, rest) = named_month(text).or_else(|| {
        let (day, rest) = day_part(text);
        Some((date(day, order)?, rest.to_owned()))
    })?;
    if !YEARS.contains(&date.year()) {
        return None;
    }
    let (time, offset) = match (rest.trim(), clock) {
        ("", None) => (Time::constant(12, 0, 0, 0), None),
        ("", Some(clock)) => time(clock)?,
        (rest, _) => time(rest)?,
    };
    let local = DateTime::from_parts(date, time);
    Some(match offset {
        None => Moment::Local(local),
        Some(offset) => Moment::Instant(offset.to_timestamp(local).ok()?.as_second()),
    })
}

/// `14 February 2026`, `Feb 14, 2026`, `14-feb-26 7:40`, `14 de febrero de 2026`: the
/// date, and what follows it.
fn named_month(text: &str) -> Option<(Date, String)> {
    let mut parts = text
        .split([' ', ',', '-', '/', '.'])
        .filter(|part| !part.is_empty() && !part.eq_ignore_ascii_case("de"));
    let (first, second, year) = (parts.next()?, parts.next()?, parts.next()?);
    let month = |name: &str| {
        let name = name.to_lowercase();
        let found = MONTHS
            .iter()
            .position(|starts| starts.iter().any(|start| name.starts_with(start)))?;
        i8::try_from(found + 1).ok()
    };
    let (month, day) = month(first)
        .map(|month| (month, second))
        .or_else(|| Some((month(second)?, first)))?;
    let day = day.trim_end_matches(|letter: char| letter.is_alphabetic());
    let date = Date::new(year_of(year)?, month, day.parse().ok()?).ok()?;
    // The time keeps its own marks: what follows is cut from the text as it stands.
    let rest = text
        .rfind(year)
        .and_then(|at| text.get(at + year.len()..))
        .unwrap_or_default();
    Some((date, rest.trim_start_matches([' ', ',', 'T']).to_owned()))
}

/// The day, and what follows it.
fn day_part(text: &str) -> (&str, &str) {
    let end = text.find(['T', 't', ' ', ',']).unwrap_or(text.len());
    let (day, rest) = text.split_at(end);
    (day, rest.trim_start_matches(['T', 't', ' ', ',']))
}

/// Three numbers with a slash or a hyphen between them, the year last.
fn slashed(day: &str) -> Option<(i8, i8, i16)> {
    let mark = ['/', '-'].into_iter().find(|mark| day.contains(*mark))?;
    let mut parts = day.split(mark);
    let (first, second, year) = (parts.next()?, parts.next()?, parts.next()?);
    if parts.next().is_some() || first.len() > 2 {
        return None;
    }
    Some((first.parse().ok()?, second.parse().ok()?, year_of(year)?))
}

fn year_of(text: &str) -> Option<i16> {
    let year: i16 = text.parse().ok()?;
    match text.len() {
        2 => Some(2000 + year),
        4 => Some(year),
        _ => None,
    }
}

fn date(day: &str, order: Order) -> Option<Date> {
    if let Some((first, second, year)) = slashed(day) {
        let (day, month) = match order {
            Order::DayFirst => (first, second),
            Order::MonthFirst => (second, first),
        };
        return Date::new(year, month, day).ok();
    }
    let mark = ['-', '/', '.'].into_iter().find(|mark| day.contains(*mark))?;
    let parts: Vec<&str> = day.split(mark).collect();
    let [first, month, last] = parts[..] else {
        return None;
    };
    // With dots the day comes first wherever dates have dots.
    let (year, day) = if first.len() == 4 { (first, last) } else { (last, first) };
    Date::new(year_of(year)?, month.parse().ok()?, day.parse().ok()?).ok()
}

/// `7:40`, `07:40:12`, `7:40 pm`, `07:40:12.5+01:00`, `07:40Z`.
fn time(text: &str) -> Option<(Time, Option<Offset>)> {
    let text = text.trim().to_lowercase();
    let (text, offset) = offset_of(&text)?;
    let (text, afternoon) = match (text.strip_suffix("pm"), text.strip_suffix("am")) {
        (Some(text), _) => (text, Some(true)),
        (_, Some(text)) => (text, Some(false)),
        _ => (text, None),
    };
    // Where hours and minutes have a point between them, there is no colon.
    let mut parts = text.trim().split(if text.contains(':') { ':' } else { '.' });
    let hour: i8 = parts.next()?.parse().ok()?;
    let minute = parts.next().map_or(Some(0), |minute| minute.parse().ok())?;
    let second = parts
        .next()
        .map_or(Some(0), |second| second.split('.').next()?.parse().ok())?;
    let hour = match afternoon {
        Some(_) if !(1..=12).contains(&hour) => return None,
        Some(afternoon) => hour % 12 + if afternoon { 12 } else { 0 },
        None => hour,
    };
    Some((Time::new(hour, minute, second, 0).ok()?, offset))
}

/// What stands before an offset, and the offset.
fn offset_of(text: &str) -> Option<(&str, Option<Offset>)> {
    if let Some(before) = text.strip_suffix('z') {
        return Some((before, Some(Offset::UTC)));
    }
    let Some(at) = text.rfind(['+', '-']) else {
        return Some((text, None));
    };
    let (before, offset) = text.split_at(at);
    let sign = if offset.starts_with('-') { -1 } else { 1 };
    let digits: String = offset.chars().filter(char::is_ascii_digit).collect();
    let (hours, minutes): (i32, i32) = match digits.len() {
        2 => (digits.parse().ok()?, 0),
        4 => (digits.get(..2)?.parse().ok()?, digits.get(2..)?.parse().ok()?),
        _ => return None,
    };
    let seconds = sign * (hours * 3600 + minutes * 60);
    Some((before, Some(Offset::from_seconds(seconds).ok()?)))
}

#[cfg(test)]
mod tests {
    use jiff::civil::datetime;

    use super::*;

    #[test]
    fn days_and_times_are_read_in_their_usual_forms() {
        let local =
            |year, month, day, hour, minute| Some(Moment::Local(datetime(year, month, day, hour, minute, 0, 0)));
        for (text, clock, read) in [
            ("2026-03-02", None, local(2026, 3, 2, 12, 0)),
            ("2026-03-02T07:40", None, local(2026, 3, 2, 7, 40)),
            ("2026/3/2 7:40 pm", None, local(2026, 3, 2, 19, 40)),
            ("2.3.26", Some("07:40"), local(2026, 3, 2, 7, 40)),
            ("02/03/2026 12:05 am", None, local(2026, 3, 2, 0, 5)),
            ("2026-03-02T07:40:00+01:00", None, Some(Moment::Instant(1_772_433_600))),
            ("2026-03-02T06:40:00Z", None, Some(Moment::Instant(1_772_433_600))),
            ("Feb 12 2026", None, local(2026, 2, 12, 12, 0)),
            ("13-Feb-26", None, local(2026, 2, 13, 12, 0)),
            ("14 February 2026 7:40 am", None, local(2026, 2, 14, 7, 40)),
            ("2 de marzo de 2026", Some("7.40pm"), local(2026, 3, 2, 19, 40)),
            ("14/02/2026 7.40pm", None, local(2026, 2, 14, 19, 40)),
            ("1926-02-14", None, None),
            ("2026-02-30", None, None),
            ("yesterday", None, None),
            ("2026-03-02", Some("25:00"), None),
            ("2026-03-02", Some("13:00 pm"), None),
        ] {
            assert_eq!(moment(text, clock, Order::DayFirst), read, "{text} {clock:?}");
        }
    }

    #[test]
    fn a_number_above_twelve_tells_the_day() {
        assert_eq!(order_of(["3/4/2026", "3/25/2026"].into_iter()), Ok(Order::MonthFirst));
        assert_eq!(order_of(["3/4/2026", "25/3/2026"].into_iter()), Ok(Order::DayFirst));
        assert_eq!(order_of(["3/4/2026"].into_iter()), Err("3/4/2026".to_owned()));
        assert_eq!(order_of(["2026-03-04", "4/4/2026"].into_iter()), Ok(Order::DayFirst));
    }
}
