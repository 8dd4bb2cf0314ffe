//! Why a rig has its state, rigs beside each other, who logged what.

use jiff::civil::Date;

use crate::water::assess::Basis;
use crate::water::assess::Reason;
use crate::water::condition::Condition;
use crate::water::verdict::Level;
use crate::water::verdict::Told;

use super::Words;
use super::figures::{self, spoken};
use super::reading::{state_word, told_word};

/// A rig's level, what it rests on, and its state.
pub fn level(words: Words, rig: &str, level: &Level, held: Told) -> String {
    let (low, high) = (
        figures::whole_percent(level.rejection.low),
        figures::whole_percent(level.rejection.high),
    );
    let key = match level.basis {
        Basis::Corrected => "level-corrected",
        Basis::AsRead => "level-as-read",
    };
    let basis = words.say(key, [("readings", i64::from(level.readings).into())]);
    let (percent, state) = (figures::percent(words, level.rejection.mid), told_word(words, held));
    // While a jump stands the level is that of the membrane without it.
    let key = match held {
        Told::State(Condition::Fault) => "membrane-level-leak",
        _ => "membrane-level",
    };
    words.say(
        key,
        [
            ("rig", rig.into()),
            ("percent", (&percent).into()),
            ("low", (&low).into()),
            ("high", (&high).into()),
            ("basis", (&basis).into()),
            ("state", (&state).into()),
        ],
    )
}

/// A reason in a sentence; none where there is no level to give a reason for.
pub fn reason(words: Words, reason: Reason) -> Option<String> {
    Some(match reason {
        Reason::NoReadings | Reason::FewReadings { .. } => return None,
        Reason::TrendNotYetKnown { readings, days } => words.say(
            "why-trend",
            [
                ("readings", i64::from(readings).into()),
                ("days", i64::from(days.max(1)).into()),
            ],
        ),
        Reason::LastReadingOld { days } => words.say("why-old", [("days", i64::from(days).into())]),
        Reason::Jumped => words.plain("why-jumped"),
        Reason::MembraneChangePresumed => words.plain("why-presumed"),
        Reason::MembraneAgeUnknown => words.plain("why-age"),
        Reason::LevelBelow { line } => {
            let line = figures::plain_number(words, line * 100.0);
            words.say("why-level", [("line", (&line).into())])
        }
        Reason::DueLineNear => words.plain("why-near"),
        Reason::RenewalPays => words.plain("why-pays"),
        Reason::Steady => words.plain("why-steady"),
    })
}

/// Why a rig without a membrane is as it is.
pub fn without_membrane(words: Words, rig: &str, product_ppm: f64) -> String {
    let ppm = figures::ppm(words, product_ppm);
    words.say("why-di", [("rig", rig.into()), ("ppm", (&ppm).into())])
}

/// A rig that has no level to compare.
pub fn without_level(words: Words, rig: &str, has_membrane: bool) -> String {
    let key = if has_membrane { "compare-none" } else { "compare-di" };
    let state = state_word(words, Condition::Unproven);
    words.say(key, [("rig", rig.into()), ("state", (&state).into())])
}

/// Somebody, and how often on each rig.
pub struct Logged {
    /// First name; none when the person is forgotten.
    pub name: Option<String>,
    /// Rig and count.
    pub rigs: Vec<(String, i64)>,
}

/// Who logged what between two dates.
pub fn who(words: Words, people: &[Logged], days: (Date, Date), today: Date) -> String {
    let span = spoken::span(words, days, today, figures::day);
    let span = [("span", (&span).into())];
    if people.is_empty() {
        return words.say("who-none", span);
    }
    let mut lines = vec![words.say("who-title", span)];
    lines.extend(people.iter().map(|one| {
        let rigs = one
            .rigs
            .iter()
            .map(|(rig, count)| format!("{rig} {count}"))
            .collect::<Vec<_>>();
        let name = one.name.clone().unwrap_or_else(|| words.plain("somebody"));
        words.say(
            "who-line",
            [("name", (&name).into()), ("rigs", (&rigs.join(", ")).into())],
        )
    }));
    lines.join("\n")
}

/// Who last did something to rigs: rig, day, name.
pub fn who_did(words: Words, done: &[(String, Date, Option<String>)], today: Date) -> String {
    if done.is_empty() {
        return words.plain("who-service-none");
    }
    let line = |(rig, day, name): &(String, Date, Option<String>)| {
        let name = name.clone().unwrap_or_else(|| words.plain("somebody"));
        let day = spoken::on_day(words, *day, today);
        words.say(
            "who-service",
            [("rig", rig.into()), ("day", (&day).into()), ("name", (&name).into())],
        )
    };
    done.iter().map(line).collect::<Vec<_>>().join("\n")
}
