//! Days and estimates as they stand in a sentence: "by Thursday", "about $38".

use jiff::civil::Date;

use crate::message::setting::Currency;

use super::{Words, day, sum, whole};

/// More working days than anybody plans with.
const MANY_DAYS: i64 = 60;

/// A date without its year: `9 Mar`.
pub fn short_date(words: Words, date: Date) -> String {
    words.say(
        "date",
        [
            ("day", i64::from(date.day()).into()),
            ("month", i64::from(date.month()).into()),
        ],
    )
}

/// A day ahead as people say it: today, tomorrow, a weekday within the week,
/// else the date. A day that is past is told as [`day`] tells it.
pub fn coming_day(words: Words, date: Date, today: Date) -> String {
    match (date - today).get_days() {
        1 => words.plain("tomorrow"),
        2..=6 => words.say(
            "weekday",
            [("day", i64::from(date.weekday().to_monday_one_offset()).into())],
        ),
        _ => day(words, date, today),
    }
}

/// "by Thursday", "today".
pub fn by_day(words: Words, date: Date, today: Date) -> String {
    let day = coming_day(words, date, today);
    let ahead = i64::from((date - today).get_days());
    words.say("by-day", [("ahead", ahead.into()), ("day", (&day).into())])
}

/// "since Tuesday", "since yesterday".
pub fn since_day(words: Words, date: Date, today: Date) -> String {
    let told = day(words, date, today);
    let ago = i64::from((today - date).get_days());
    words.say("since-day", [("ago", ago.into()), ("day", (&told).into())])
}

/// "on Tuesday", "yesterday".
pub fn on_day(words: Words, date: Date, today: Date) -> String {
    let told = day(words, date, today);
    let ago = i64::from((today - date).get_days());
    words.say("on-day", [("ago", ago.into()), ("day", (&told).into())])
}

/// A stretch of days: "Monday to today", or of one day "today".
pub fn span(words: Words, (from, to): (Date, Date), today: Date, told: fn(Words, Date, Date) -> String) -> String {
    if from == to {
        return on_day(words, from, today);
    }
    let (from, to) = (told(words, from, today), told(words, to, today));
    words.say("days-span", [("from", (&from).into()), ("to", (&to).into())])
}

/// An estimated amount, rounded to two significant digits: 142.3 -> `$140`,
/// 38.4 -> `$38`. What is under one is told as one.
pub fn about(words: Words, amount: f64, currency: Option<Currency>) -> String {
    let mut step = 1.0;
    while amount.abs() / step >= 100.0 && step < 1e12 {
        step *= 10.0;
    }
    sum(words, ((amount / step).round() * step).max(1.0), currency)
}

/// Working days left: whole ones, and no more than anybody plans with.
pub fn working_days(days: f64) -> String {
    match whole(days.max(0.0)) {
        many if many > MANY_DAYS => format!("{MANY_DAYS}+"),
        days => days.to_string(),
    }
}

/// A water's temperature in both scales, whole degrees: whoever reads it need
/// not know the outfit's.
pub fn temperature(celsius: f64) -> String {
    format!("{} °C ({} °F)", whole(celsius), whole(celsius * 1.8 + 32.0))
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    fn words() -> Words {
        Words::of(Some("en"))
    }

    #[test]
    fn days_ahead_are_told_as_people_say_them() {
        let today = date(2026, 3, 2);
        for (when, told) in [
            (date(2026, 3, 2), "today"),
            (date(2026, 3, 3), "tomorrow"),
            (date(2026, 3, 5), "Thursday"),
            (date(2026, 3, 8), "Sunday"),
            (date(2026, 3, 9), "9 Mar"),
            (date(2026, 3, 1), "yesterday"),
            (date(2027, 1, 4), "4 Jan 2027"),
        ] {
            assert_eq!(coming_day(words(), when, today), told);
        }
    }

    #[test]
    fn a_day_takes_the_words_that_its_language_wants() {
        let today = date(2026, 3, 2);
        let spanish = Words::of(Some("es"));
        for (told, english, in_spanish) in [
            (
                by_day as fn(Words, Date, Date) -> String,
                ["by Thursday", "by tomorrow", "today"],
                ["antes del jueves", "para mañana", "hoy"],
            ),
            (
                |words, ahead, today| since_day(words, today - (ahead - today), today),
                ["since Friday", "since yesterday", "since today"],
                ["desde el viernes", "desde ayer", "desde hoy"],
            ),
            (
                |words, ahead, today| on_day(words, today - (ahead - today), today),
                ["on Friday", "yesterday", "today"],
                ["el viernes", "ayer", "hoy"],
            ),
        ] {
            for (at, ahead) in [date(2026, 3, 5), date(2026, 3, 3), today].into_iter().enumerate() {
                assert_eq!(told(words(), ahead, today), english[at]);
                assert_eq!(told(spanish, ahead, today), in_spanish[at]);
            }
        }
    }

    #[test]
    fn estimates_have_no_false_exactness() {
        for (amount, told) in [
            (142.3, "140"),
            (38.4, "38"),
            (99.6, "100"),
            (1250.0, "1,300"),
            (8.3, "8"),
            (0.2, "1"),
        ] {
            assert_eq!(about(words(), amount, None), told);
        }
        assert_eq!(temperature(6.0), "6 °C (43 °F)");
        assert_eq!(temperature(-1.0), "-1 °C (30 °F)");
        assert_eq!(working_days(6.4), "6");
        assert_eq!(working_days(-2.0), "0");
        assert_eq!(working_days(90.0), "60+");
    }
}
