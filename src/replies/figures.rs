//! The only place that formats a number or a date.

use jiff::civil::Date;

use super::words::Words;

/// A fraction as a percentage with one decimal: 0.9333 -> `93.3 %`.
pub fn percent(words: Words, fraction: f64) -> String {
    format!("{} %", one_decimal(words, fraction * 100.0))
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

/// Whether a change is too small to show with one decimal.
pub fn is_no_change(change: f64) -> bool {
    (change * 100.0).abs() < 0.05
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
        _ => {
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
    }
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
            ("93.3 %".to_owned(), "93.4 %".to_owned())
        );
        assert_eq!(points(words(), change), "0.1");
        assert!(!is_no_change(change));
        assert!(is_no_change(shown_change(0.9331, 0.9333)));
    }

    #[test]
    fn a_percentage_has_one_decimal() {
        assert_eq!(percent(words(), 0.93333), "93.3 %");
        assert_eq!(percent(words(), 1.0), "100.0 %");
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
