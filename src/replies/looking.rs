//! Answers to questions: one rig, its history, the fleet.

use jiff::civil::Date;

use super::Words;
use super::figures;
use super::reading::{Deed, Figures, echo, told_word};
use crate::water::verdict::Told;

/// A reading as it is looked up.
#[derive(Clone, Debug, PartialEq)]
pub struct Past {
    /// What was read.
    pub figures: Figures,
    /// Rejection and the word beside it, on a rig with a membrane.
    pub membrane: Option<(f64, Told)>,
    /// Whether a new membrane was put in since.
    pub replaced: bool,
    /// The local date on which it was taken.
    pub day: Date,
}

/// One rig now: its last reading and when it was last looked after.
pub struct Rig<'a> {
    /// The rig's name.
    pub name: &'a str,
    /// Its last reading.
    pub last: Option<&'a Past>,
    /// What is to be done first, ready.
    pub deed: Option<String>,
    /// When its resin was last changed, on a rig that has resin.
    pub resin_on: Option<Option<Date>>,
    /// When it was last flushed, on a rig that is flushed by hand.
    pub flushed_on: Option<Option<Date>>,
    /// When its prefilters are due, if their change is logged, and whether that is past.
    pub prefilters: Option<(bool, Date)>,
    /// How to text a reading of it.
    pub example: &'a str,
}

/// How one rig is.
pub fn rig(words: Words, rig: &Rig<'_>, today: Date) -> String {
    let Some(last) = rig.last else {
        return words.say(
            "rig-none-yet",
            [("rig", rig.name.into()), ("example", rig.example.into())],
        );
    };
    let mut lines = vec![
        headline(words, rig.name, last, "rig-verdict"),
        last_taken(words, last, today),
    ];
    lines.extend(rig.deed.clone());
    let told = |date: Option<Date>| date.map_or_else(|| words.plain("never"), |date| figures::day(words, date, today));
    let (resin, flush) = (rig.resin_on.map(told), rig.flushed_on.map(told));
    lines.extend(match (&resin, &flush) {
        (Some(resin), Some(flush)) => {
            Some(words.say("rig-services", [("resin", resin.into()), ("flush", flush.into())]))
        }
        (Some(resin), None) => Some(words.say("rig-services-resin", [("resin", resin.into())])),
        (None, Some(flush)) => Some(words.say("rig-services-flush", [("flush", flush.into())])),
        (None, None) => None,
    });
    lines.extend(rig.prefilters.map(|(overdue, due)| {
        let day = figures::full_day(words, due, today);
        let key = if overdue {
            "prefilters-overdue"
        } else {
            "prefilters-due"
        };
        words.say(key, [("day", (&day).into())])
    }));
    lines.join("\n")
}

/// A reading and its day.
pub fn last_taken(words: Words, last: &Past, today: Date) -> String {
    let (day, echo) = (figures::day(words, last.day, today), echo(words, last.figures));
    let key = match last.replaced {
        true => "rig-last-taken-before",
        false => "rig-last-taken",
    };
    words.say(key, [("echo", (&echo).into()), ("day", (&day).into())])
}

fn headline(words: Words, rig: &str, past: &Past, key: &str) -> String {
    match past.membrane {
        Some(_) if past.replaced => words.say("rig-new-membrane", [("rig", rig.into())]),
        Some((rejection, state)) => {
            let (percent, state) = (figures::percent(words, rejection), told_word(words, state));
            words.say(
                key,
                [
                    ("rig", rig.into()),
                    ("percent", (&percent).into()),
                    ("state", (&state).into()),
                ],
            )
        }
        None if past.figures.permeate_ppm.is_some() => words.say("rig-no-rejection", [("rig", rig.into())]),
        None => {
            let ppm = past
                .figures
                .product_ppm
                .map(|ppm| figures::ppm(words, ppm))
                .unwrap_or_default();
            words.say("reading-verdict-di", [("rig", rig.into()), ("ppm", (&ppm).into())])
        }
    }
}

/// A rig's readings, newest first.
pub fn history(words: Words, rig: &str, past: &[Past], example: &str, today: Date) -> String {
    if past.is_empty() {
        return words.say("rig-none-yet", [("rig", rig.into()), ("example", example.into())]);
    }
    let mut lines = vec![words.say("history-title", [("rig", rig.into())])];
    lines.extend(past.iter().map(|past| {
        let (day, echo) = (figures::day(words, past.day, today), echo(words, past.figures));
        let day_and_echo = [("day", (&day).into()), ("echo", (&echo).into())];
        match past.membrane {
            Some((rejection, _)) => {
                let [day, echo] = day_and_echo;
                words.say(
                    "history-line",
                    [day, echo, ("percent", (&figures::percent(words, rejection)).into())],
                )
            }
            None => words.say("history-line-di", day_and_echo),
        }
    }));
    lines.join("\n")
}

/// The whole fleet, a line a rig: its name, its last reading, what is to be done first.
pub fn fleet(words: Words, outfit: &str, rigs: &[(String, Option<Past>, Option<Deed>)], today: Date) -> String {
    if rigs.is_empty() {
        return words.plain("fleet-empty");
    }
    let mut lines = vec![words.say(
        "fleet-title",
        [("outfit", outfit.into()), ("count", (rigs.len() as i64).into())],
    )];
    lines.extend(rigs.iter().map(|(name, last, deed)| {
        let told = match last {
            None => words.say("fleet-line-none", [("rig", name.into())]),
            Some(last) if last.replaced => headline(words, name, last, "reading-verdict"),
            Some(last) => {
                let day = figures::day(words, last.day, today);
                format!("{}, {day}", headline(words, name, last, "reading-verdict"))
            }
        };
        match deed {
            Some(deed) => words.say("deed-short", [("told", (&told).into()), ("what", (&deed.what).into())]),
            None => told,
        }
    }));
    lines.join("\n")
}

/// Which rigs nobody has read for some days.
pub fn quiet(words: Words, rigs: &[(String, Option<Date>)], today: Date) -> String {
    if rigs.is_empty() {
        return words.plain("quiet-none");
    }
    let mut lines = vec![words.plain("quiet-title")];
    lines.extend(rigs.iter().map(|(name, day)| match day {
        Some(day) => words.say(
            "quiet-line",
            [
                ("rig", name.into()),
                ("day", (&figures::day(words, *day, today)).into()),
            ],
        ),
        None => words.say("fleet-line-none", [("rig", name.into())]),
    }));
    lines.join("\n")
}
