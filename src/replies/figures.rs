//! The only place that formats a number or a date.

pub mod spoken;

use jiff::civil::Date;

use crate::message::setting::{Amount, Currency, Days, Degrees, PressureUnit, Side, VolumeUnit, Weekday};
use crate::water::quantity::LITRES_PER_US_GALLON;

use super::words::Words;

/// A fraction as a percentage with one decimal: 0.9333 -> `93.3%`, in Spanish `93,3 %`.
pub fn percent(words: Words, fraction: f64) -> String {
    let number = one_decimal(words, fraction * 100.0);
    words.say("percent", [("percent", (&number).into())])
}

/// A fraction as a whole percentage without its sign: 0.9333 -> `93`.
pub fn whole_percent(fraction: f64) -> String {
    format!("{:.0}", fraction * 100.0)
}

/// A month as it is told of something uncertain: `Mar 2027`.
pub fn month(words: Words, date: Date) -> String {
    let year = date.year().to_string();
    words.say(
        "month-year",
        [("month", i64::from(date.month()).into()), ("year", (&year).into())],
    )
}

/// The size of a change between two fractions, in points: `0.6`.
pub fn points(words: Words, change: f64) -> String {
    one_decimal(words, (change * 100.0).abs())
}

/// The change from one fraction to another as people see it: between the
/// figures that are shown, so that 93.3 to 93.4 is never "the same".
pub fn shown_change(then: f64, now: f64) -> f64 {
    let shown = |fraction: f64| (fraction * 1000.0).round();
    (shown(now) - shown(then)) / 1000.0
}

/// Whether a change of the rejection is within what a handheld meter can show on this tap: 0.7 points,
/// or one ppm at the RO outlet. Common practice, no source.
pub fn is_steady(change: f64, feed_ppm: f64) -> bool {
    let one_ppm = if feed_ppm > 0.0 { 1.0 / feed_ppm } else { 0.0 };
    change.abs() < f64::max(0.007, one_ppm) + 0.0005
}

/// Dissolved solids as a meter shows them: `180`, `30.5`, `0`.
pub fn ppm(words: Words, ppm: f64) -> String {
    let rounded = (ppm * 10.0).round() / 10.0;
    if rounded.fract() == 0.0 {
        format!("{rounded:.0}")
    } else {
        one_decimal(words, rounded)
    }
}

/// A number with one decimal, as the language writes it.
pub fn one_decimal(words: Words, number: f64) -> String {
    format!("{number:.1}").replace('.', &words.plain("decimal-mark"))
}

/// Money in the outfit's currency: `$9.50`, `9 zł`, `¥900`; without decimals
/// when they are nothing, and without a sign while the currency is not known.
pub fn money(words: Words, amount: Amount, currency: Option<Currency>) -> String {
    let digits = currency.map_or(2, Currency::digits);
    let minor = amount.minor(digits);
    let per_main = 10_i64.pow(u32::from(digits));
    let (whole, rest) = (minor / per_main, minor % per_main);
    let mut number = whole.to_string();
    if rest != 0 {
        number = format!(
            "{number}{}{rest:0>1$}",
            words.plain("decimal-mark"),
            usize::from(digits)
        );
    }
    let Some((sign, side)) = currency.map(Currency::sign) else {
        return number;
    };
    match side {
        Side::Before if sign.ends_with(char::is_alphabetic) => format!("{sign} {number}"),
        Side::Before => format!("{sign}{number}"),
        Side::After => format!("{number} {sign}"),
        Side::ByLanguage => words.say(
            "money-by-language",
            [("sign", sign.into()), ("number", (&number).into())],
        ),
    }
}

/// A computed sum, to the whole unit: `£45`, `£1,300`.
pub fn sum(words: Words, main: f64, currency: Option<Currency>) -> String {
    let amount = Amount::of_main(main.round().max(0.0)).unwrap_or_default();
    let text = money(words, amount, currency);
    let mark = words.plain("thousands-mark");
    let first = text.find(|letter: char| letter.is_ascii_digit()).unwrap_or_default();
    let (sign, rest) = text.split_at(first);
    let digits = rest.chars().take_while(char::is_ascii_digit).count();
    let (number, unit) = rest.split_at(digits);
    let mut grouped = String::from(sign);
    for (index, digit) in number.chars().enumerate() {
        if index > 0 && (digits - index) % 3 == 0 {
            grouped.push_str(&mark);
        }
        grouped.push(digit);
    }
    grouped + unit
}

/// A volume in the outfit's unit: `25 litres`, `6.6 gallons`.
pub fn volume(words: Words, litres: f64, unit: VolumeUnit) -> String {
    let (key, value) = match unit {
        VolumeUnit::Litres => ("litres", litres),
        VolumeUnit::Gallons => ("gallons", litres / LITRES_PER_US_GALLON),
    };
    words.say(key, [("value", (&plain_number(words, value)).into())])
}

/// A number with as many decimals as it needs, two at most: `25`, `0.64`, `92.5`.
pub fn plain_number(words: Words, number: f64) -> String {
    let text = format!("{number:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    text.replace('.', &words.plain("decimal-mark"))
}

/// A water temperature in the unit in which it is told: `22.5 °C`, `61 °F`.
pub fn temperature(words: Words, (value, unit): (f64, Degrees)) -> String {
    match unit {
        Degrees::Celsius => format!("{} °C", plain_number(words, (value * 10.0).round() / 10.0)),
        Degrees::Fahrenheit => format!("{} °F", plain_number(words, value.round())),
    }
}

/// A pressure in the unit in which it is told: `3.5 bar`, `58 psi`.
pub fn pressure(words: Words, (value, unit): (f64, PressureUnit)) -> String {
    match unit {
        PressureUnit::Bar => format!("{} bar", plain_number(words, (value * 10.0).round() / 10.0)),
        PressureUnit::Psi => format!("{} psi", plain_number(words, value.round())),
    }
}

/// A number to its last digit: `7.25`, and `7.2340`, since three digits behind
/// a mark could be thousands.
pub fn exact_number(words: Words, number: f64) -> String {
    let text = number.to_string();
    let thousands = text.split_once('.').is_some_and(|(_, decimals)| decimals.len() == 3);
    let text = if thousands { format!("{text}0") } else { text };
    text.replace('.', &words.plain("decimal-mark"))
}

/// A day of the week.
pub fn weekday(words: Words, day: Weekday) -> String {
    let number = day.from_monday() as i64 + 1;
    words.say("weekday", [("day", number.into())])
}

/// Days of the week: from one to another where three or more follow each other.
pub fn weekdays(words: Words, days: Days) -> String {
    let mut runs: Vec<(Weekday, Weekday)> = Vec::new();
    for day in days.days() {
        match runs.last_mut() {
            Some((_, last)) if last.from_monday() + 1 == day.from_monday() => *last = day,
            _ => runs.push((day, day)),
        }
    }
    let told = |(first, last): &(Weekday, Weekday)| {
        let (from, to) = (weekday(words, *first), weekday(words, *last));
        match last.from_monday() - first.from_monday() {
            0 => from,
            1 => format!("{from}, {to}"),
            _ => format!("{from} - {to}"),
        }
    };
    runs.iter().map(told).collect::<Vec<_>>().join(", ")
}

/// A month's short name, 1 to 12.
pub fn month_name(words: Words, month: i8) -> String {
    words.say("month", [("month", i64::from(month).into())])
}

/// A day as people say it: today, yesterday, a weekday within the week, else
/// the date, with its year if that is another one.
pub fn day(words: Words, date: Date, today: Date) -> String {
    match (today - date).get_days() {
        0 => words.plain("today"),
        1 => words.plain("yesterday"),
        2..=6 => words.say(
            "weekday",
            [("day", i64::from(date.weekday().to_monday_one_offset()).into())],
        ),
        _ => full_day(words, date, today),
    }
}

/// A day as a date, with its year if that is not this one: `12 Mar`.
pub fn full_day(words: Words, date: Date, today: Date) -> String {
    let short = words.say(
        "date",
        [
            ("day", i64::from(date.day()).into()),
            ("month", i64::from(date.month()).into()),
        ],
    );
    if date.year() == today.year() {
        return short;
    }
    let year = date.year().to_string();
    words.say("date-year", [("date", (&short).into()), ("year", (&year).into())])
}

/// An uncertain day, the less exact the farther: `mid Dec`, `Feb 2027`, `2029`.
pub fn rough(words: Words, date: Date, today: Date) -> String {
    match (date - today).get_days() {
        ..=300 => {}
        301..=540 => return month(words, date),
        _ => return date.year().to_string(),
    }
    let part: i64 = match date.day() {
        1..=10 => 1,
        11..=20 => 2,
        _ => 3,
    };
    let rough = words.say(
        "rough-date",
        [("part", part.into()), ("month", i64::from(date.month()).into())],
    );
    if date.year() == today.year() {
        return rough;
    }
    let year = date.year().to_string();
    words.say("date-year", [("date", (&rough).into()), ("year", (&year).into())])
}

/// A text with its first letter large.
pub fn capital(text: &str) -> String {
    // "¿" stands before the first letter.
    let (mark, sentence) = text.split_at(if text.starts_with('¿') { '¿'.len_utf8() } else { 0 });
    let mut letters = sentence.chars();
    let first = letters.next().map(char::to_uppercase);
    mark.chars().chain(first.into_iter().flatten()).chain(letters).collect()
}

/// A number of things, rounded, as one that chooses a plural.
pub fn whole(number: f64) -> i64 {
    #[allow(clippy::cast_possible_truncation)]
    let whole = number.round().clamp(-1e12, 1e12) as i64;
    whole
}

/// A range of working days, as far as anybody plans: `6-13`, `20-60+`, `60+`.
pub fn planned_span(low: f64, high: f64) -> String {
    let (low, high) = (spoken::working_days(low), spoken::working_days(high));
    if low == high {
        return low;
    }
    format!("{low}-{high}")
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    fn words() -> Words {
        Words::of(Some("en"))
    }

    #[test]
    fn a_reading_shows_as_on_the_meter() {
        assert_eq!(ppm(words(), 180.0), "180");
        assert_eq!(ppm(words(), 30.5), "30.5");
        assert_eq!(ppm(words(), 0.0), "0");
        assert_eq!(ppm(words(), 11.96), "12");
    }

    #[test]
    fn a_change_is_told_between_the_figures_that_are_shown() {
        let change = shown_change(168.0 / 180.0, 169.0 / 181.0);
        assert_eq!(
            (percent(words(), 168.0 / 180.0), percent(words(), 169.0 / 181.0)),
            ("93.3%".to_owned(), "93.4%".to_owned())
        );
        assert_eq!(points(words(), change), "0.1");
        assert!(is_steady(change, 180.0), "one ppm of a tap of 180 is 0.6 points");
        assert!(is_steady(-0.0099, 100.0), "one ppm of a tap of 100 is a point");
        assert!(!is_steady(-0.0099, 400.0));
    }

    #[test]
    fn a_percentage_has_one_decimal() {
        assert_eq!(percent(words(), 0.93333), "93.3%");
        assert_eq!(percent(words(), 1.0), "100.0%");
    }

    #[test]
    fn uncertain_days_are_told_roughly() {
        let today = date(2026, 3, 4);
        for (when, told) in [
            (date(2026, 3, 10), "early Mar"),
            (date(2026, 12, 11), "mid Dec"),
            (date(2026, 1, 21), "late Jan"),
            (date(2027, 2, 28), "Feb 2027"),
            (date(2028, 6, 1), "2028"),
        ] {
            assert_eq!(rough(words(), when, today), told);
        }
        assert_eq!(planned_span(5.6, 12.7), "6-13");
        assert_eq!(planned_span(20.0, 90.0), "20-60+");
        assert_eq!(planned_span(303.0, 686.0), "60+");
    }

    #[test]
    fn days_are_told_as_people_say_them() {
        let today = date(2026, 3, 4);
        for (when, told) in [
            (date(2026, 3, 4), "today"),
            (date(2026, 3, 3), "yesterday"),
            (date(2026, 3, 1), "Sunday"),
            (date(2026, 2, 26), "Thursday"),
            (date(2026, 2, 25), "25 Feb"),
            (date(2025, 12, 31), "31 Dec 2025"),
        ] {
            assert_eq!(day(words(), when, today), told);
        }
    }
}
