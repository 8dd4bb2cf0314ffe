//! When a reading was taken: clock times, dates and words like "this morning". What it reads counts as no value.

use super::meaning::When;
use super::senses::Sense;
use super::tokens::{Number, Token};

/// Finds the time, if any, and marks its tokens as spent.
pub fn take(tokens: &mut [Token], day_first: bool) -> Option<When> {
    let mut clock = None;
    let mut date = None;
    for at in 0..tokens.len() {
        if tokens[at].spent || tokens[at].number().is_none() {
            continue;
        }
        if let Some((found, used)) = iso_date(&tokens[at..]).or_else(|| date_with_month(tokens, at)) {
            spend(&mut tokens[at..at + used]);
            date = date.or(Some(found));
        } else if let Some((hour, minute, used)) = clock_time(tokens, at) {
            spend(&mut tokens[at..at + used]);
            clock = clock.or(Some((hour, minute)));
        }
    }
    for at in 0..tokens.len() {
        if let Some((found, used)) = slash_date(tokens, at, day_first, clock.is_some()) {
            spend(&mut tokens[at..at + used]);
            date = date.or(Some(found));
        }
    }
    let word = tokens.iter().find_map(word_time);
    match (date, clock, word) {
        (Some((year, month, day)), hour_minute, _) => Some(When::On {
            year,
            month,
            day,
            hour_minute,
        }),
        (None, Some((hour, minute)), word) => {
            let days_back = match word {
                Some(When::DaysBack(days)) => days,
                _ => 0,
            };
            Some(When::At {
                days_back,
                hour,
                minute,
            })
        }
        (None, None, word) => word,
    }
}

fn spend(tokens: &mut [Token]) {
    tokens.iter_mut().for_each(|token| token.spent = true);
}

fn whole(token: Option<&Token>) -> Option<u32> {
    let number = token?.number()?;
    (number.decimals == 0 && number.value < 10_000.0).then_some(number.value as u32)
}

fn clock_time(tokens: &[Token], at: usize) -> Option<(u8, u8, usize)> {
    let number = tokens[at].number()?;
    let next = tokens.get(at + 1);
    let half_of_day = |index: usize| {
        let token = tokens.get(index)?;
        let sense = [(Sense::Am, 0), (Sense::Pm, 12)]
            .into_iter()
            .find(|(sense, _)| token.has(*sense))?;
        (token.word() != Some("morning")).then_some(sense.1)
    };
    // 7:40, 7:40 pm, 10h30
    let parted = next.is_some_and(|next| next.glued && (next.is_mark(':') || next.word() == Some("h")));
    let minutes = tokens
        .get(at + 2)
        .filter(|token| token.glued)
        .and_then(|token| token.number());
    if let (true, Some(minutes)) = (parted, minutes) {
        let fits = minutes.digits.len() == 2 && minutes.decimals == 0 && minutes.value < 60.0 && number.value < 24.0;
        if fits {
            let half = half_of_day(at + 3);
            let hour = in_day(number.value, half)?;
            return Some((hour, minutes.value as u8, 3 + usize::from(half.is_some())));
        }
    }
    // 8am, 7.40 pm
    if let Some(half) = half_of_day(at + 1).filter(|_| number.value < 13.0 && !number.in_words) {
        let minute = ((number.value.fract() * 100.0).round()) as u8;
        let fits = number.decimals == 0 || (number.decimals == 2 && minute < 60);
        return fits.then_some((in_day(number.value.trunc(), Some(half))?, minute, 2));
    }
    // "at 8", "a las 8", when nothing else claims the number
    let behind_at = at > 0 && tokens[at - 1].has(Sense::At);
    let free = next.is_none_or(|next| !next.glued && !measures(next));
    let others = tokens
        .iter()
        .filter(|token| token.number().is_some() && !token.spent)
        .count();
    let hour = number.decimals == 0 && (5.0..=22.0).contains(&number.value);
    (behind_at && free && hour && others > 2).then_some((number.value as u8, 0, 1))
}

fn measures(token: &Token) -> bool {
    token.has_any(&[
        Sense::Degrees,
        Sense::Celsius,
        Sense::Fahrenheit,
        Sense::Psi,
        Sense::Bar,
        Sense::Kpa,
        Sense::LitresPerMinute,
        Sense::GallonsPerMinute,
        Sense::Ppm,
        Sense::MicroSiemens,
        Sense::Feed,
        Sense::FeedWeak,
        Sense::Permeate,
        Sense::PermeateWeak,
    ]) || token.is_any_mark("/>%°")
}

fn in_day(hour: f64, half: Option<i32>) -> Option<u8> {
    let hour = hour as i32;
    let hour = match half {
        Some(half) => hour % 12 + half,
        None => hour,
    };
    u8::try_from(hour).ok().filter(|&hour| hour < 24)
}

type Date = (Option<i16>, u8, u8);

fn valid(year: Option<u32>, month: u32, day: u32) -> Option<Date> {
    let fits = (1..=12).contains(&month) && (1..=31).contains(&day);
    fits.then_some((year.map(|year| year as i16), month as u8, day as u8))
}

/// 2026-11-24
fn iso_date(tokens: &[Token]) -> Option<(Date, usize)> {
    let year = whole(tokens.first()).filter(|year| (2000..2100).contains(year))?;
    let marks = tokens.get(1)?.is_any_mark("-/.") && tokens.get(3)?.is_any_mark("-/.");
    let date = valid(Some(year), whole(tokens.get(2))?, whole(tokens.get(4))?)?;
    marks.then_some((date, 5))
}

/// "24 november", "march 12th"
fn date_with_month(tokens: &[Token], at: usize) -> Option<(Date, usize)> {
    let day = whole(tokens.get(at))?;
    let named = |index: Option<usize>| {
        let token = index.and_then(|index| tokens.get(index))?;
        token
            .has(Sense::Month)
            .then(|| token.word().and_then(month_of))
            .flatten()
    };
    let of = usize::from(
        tokens
            .get(at + 1)
            .is_some_and(|token| matches!(token.word(), Some("de" | "of" | "th" | "st"))),
    );
    if let Some(month) = named(Some(at + 1 + of)) {
        return Some((valid(None, month, day)?, 2 + of));
    }
    let month = named(at.checked_sub(1))?;
    Some((valid(None, month, day)?, 1))
}

/// English and Spanish months agree, to the letter or nearly, in how they begin.
fn month_of(word: &str) -> Option<u32> {
    let begins = [
        "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
    ];
    let spanish = [
        "ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic",
    ];
    let at = |list: [&str; 12]| list.iter().position(|begin| word.starts_with(begin));
    at(begins).or_else(|| at(spanish)).map(|index| index as u32 + 1)
}

/// "on 12/3", "14/12 at 9:30", "14.12.2026"; a pair of readings looks the same, so that something must speak for a date.
fn slash_date(tokens: &[Token], at: usize, day_first: bool, clock: bool) -> Option<(Date, usize)> {
    if tokens[at].spent {
        return None;
    }
    let first = tokens[at].number()?;
    let before = at.checked_sub(1).and_then(|last| tokens.get(last));
    let behind_on =
        before.is_some_and(|token| matches!(token.word(), Some("on" | "el" | "le" | "due" | "until" | "by")));
    if first.decimals == 2 && clock && first.digits.len() >= 3 {
        return decimal_date(first).map(|date| (date, 1));
    }
    let a = whole(tokens.get(at))?;
    let b = tokens
        .get(at + 2)
        .filter(|token| !token.spent)
        .and_then(|token| whole(Some(token)))?;
    let marks = tokens.get(at + 1)?.is_any_mark("/.-");
    let year = tokens
        .get(at + 3)
        .filter(|token| token.is_any_mark("/.-"))
        .and_then(|_| whole(tokens.get(at + 4)));
    let year = year.filter(|year| (2000..2100).contains(year) || (20..40).contains(year) && a <= 31 && b <= 12);
    let others = tokens
        .iter()
        .enumerate()
        .filter(|(index, token)| token.number().is_some() && !token.spent && *index != at && *index != at + 2);
    let speaks_for_date = year.is_some() || behind_on || (clock && others.count() == 0);
    if !marks || !speaks_for_date {
        return None;
    }
    let (day, month) = if (day_first && b <= 12) || a > 12 {
        (a, b)
    } else {
        (b, a)
    };
    let year_used = year.map(|year| if year < 100 { 2000 + year } else { year });
    Some((valid(year_used, month, day)?, if year.is_some() { 5 } else { 3 }))
}

/// 14.12 beside a clock time
fn decimal_date(number: &Number) -> Option<Date> {
    let month = (number.value.fract() * 100.0).round() as u32;
    valid(None, month, number.value.trunc() as u32)
}

fn word_time(token: &Token) -> Option<When> {
    let table = [
        (Sense::DayBefore, When::DaysBack(2)),
        (Sense::LastNight, When::DaysBack(1)),
        (Sense::Yesterday, When::DaysBack(1)),
        (Sense::Afternoon, When::Afternoon),
        (Sense::Evening, When::Evening),
    ];
    let morning = token.has(Sense::Morning) && token.word().is_some_and(|word| word != "am" && word != "buenos dias");
    let found = table
        .into_iter()
        .find(|(sense, _)| token.has(*sense))
        .map(|(_, when)| when);
    found.or(morning.then_some(When::Morning))
}
