//! The words on pictures: a function for each takes figures, states and dates, words
//! them, and has them drawn by [`crate::chart`].

pub mod fleet;
pub mod money;
pub mod resin;
pub mod rig_history;
pub mod year;

use jiff::civil::Date;

use crate::chart::sheet::{RIGHT, SMALLEST, headline_left};
use crate::chart::typeface::{Weight, drawable, width};

use super::figures::capital;
pub use super::reading::state_word as state;
use super::{Words, figures};

/// Short names of the months, January first.
fn months(words: Words) -> [String; 12] {
    std::array::from_fn(|nth| figures::month_name(words, i8::try_from(nth).map_or(1, |nth| nth + 1)))
}

fn whole_percent(words: Words, fraction: f64) -> String {
    let percent = figures::whole_percent(fraction);
    words.say("percent", [("percent", (&percent).into())])
}

/// A headline about a rig, as `say` words it. A name that leaves no room for the rest is
/// cut, never what is to be done.
fn headline(rig: &str, has_mark: bool, say: impl Fn(&str) -> String) -> String {
    let room = RIGHT - headline_left(has_mark);
    let rig = drawable(rig);
    let mut said = say(&rig);
    for (end, _) in rig.char_indices().rev() {
        if end == 0 || width(&drawable(&said), SMALLEST, Weight::Heavy) <= room {
            break;
        }
        said = say(&format!("{}\u{2026}", rig[..end].trim_end()));
    }
    said
}

/// A headline about a rig and nothing else.
fn named(words: Words, key: &str, rig: &str) -> String {
    headline(rig, true, |rig| words.say(key, [("rig", rig.into())]))
}

/// A headline about a rig and a date.
fn dated(words: Words, key: &str, rig: &str, date: Date, today: Date) -> String {
    let date = figures::rough(words, date, today);
    headline(rig, true, |rig| {
        words.say(key, [("rig", rig.into()), ("date", (&date).into())])
    })
}

/// A month, with its year where that is not this one: `Nov`, `Jan 27`.
fn month(words: Words, date: Date, today: Date) -> String {
    let month = figures::month_name(words, date.month());
    if date.year() == today.year() {
        return month;
    }
    format!("{month} {:02}", date.year() % 100)
}

/// A span of months, no more exact than it is: `Nov`, `Nov – Dec`, `Nov – Jan 27`.
fn month_span(words: Words, early: Date, late: Date, today: Date) -> String {
    let (from, to) = (month(words, early, today), month(words, late, today));
    if from == to {
        return from;
    }
    format!("{from} \u{2013} {to}")
}

/// A day by its number and month: `13 Oct`.
fn day(words: Words, date: Date) -> String {
    format!("{} {}", date.day(), figures::month_name(words, date.month()))
}

/// An amount that is not known better than to two figures.
pub fn about(amount: f64) -> f64 {
    let power = 10_f64.powf(amount.abs().max(1.0).log10().floor() - 1.0).max(1.0);
    (amount / power).round() * power
}
