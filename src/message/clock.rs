//! Clock times: "7:40", "8am", "half past seven", "a las siete y media".

use std::ops::Range;

use super::languages::TABLES;
use super::senses::Sense;
use super::tokens::Token;
use super::units;

/// The hour and minute that the number at `at` begins or belongs to, with the tokens that say it.
pub(super) fn time_at(tokens: &[Token], at: usize) -> Option<(u8, u8, Range<usize>)> {
    let parted = parted(tokens, at).or_else(|| half_of_day(tokens, at));
    let (hour, minute, used) = match parted {
        Some(found) => found,
        None => return in_words(tokens, at).or_else(|| alone(tokens, at)),
    };
    Some((hour, minute, at..at + used))
}

/// 7:40, 7:40 pm, 10h30
fn parted(tokens: &[Token], at: usize) -> Option<(u8, u8, usize)> {
    let number = tokens[at].number()?;
    let mark = tokens.get(at + 1).filter(|next| next.glued)?;
    let minutes = tokens.get(at + 2).filter(|token| token.glued)?.number()?;
    let fits = minutes.digits.len() == 2 && minutes.decimals == 0 && minutes.value < 60.0 && number.value < 24.0;
    if !fits || !(mark.is_mark(':') || mark.has(Sense::HourMark)) {
        return None;
    }
    let half = half_at(tokens, at + 3);
    let hour = in_day(number.value, half)?;
    Some((hour, minutes.value as u8, 3 + usize::from(half.is_some())))
}

/// 8am, 7.40 pm
fn half_of_day(tokens: &[Token], at: usize) -> Option<(u8, u8, usize)> {
    let number = tokens[at]
        .number()
        .filter(|number| number.value < 13.0 && !number.in_words)?;
    let half = half_at(tokens, at + 1)?;
    let minute = ((number.value.fract() * 100.0).round()) as u8;
    let fits = number.decimals == 0 || (number.decimals == 2 && minute < 60);
    fits.then_some((in_day(number.value.trunc(), Some(half))?, minute, 2))
}

/// "half 7", "quarter to eight", "7 y media", "ten to eight", "a las siete y media"
fn in_words(tokens: &[Token], at: usize) -> Option<(u8, u8, Range<usize>)> {
    let number = tokens[at].number().filter(|number| number.decimals == 0)?;
    let shift_of = |index: Option<usize>, sense: Sense| {
        let token = index
            .and_then(|index| tokens.get(index))
            .filter(|token| token.has(sense))?;
        TABLES.value(sense, token.word()?)?.parse::<i32>().ok()
    };
    let measured = tokens
        .get(at + 1)
        .is_some_and(|next| measures(next) || next.has(Sense::Counted) || units::behind(tokens, at).is_some());
    let whole = number.value.fract() == 0.0 && (1.0..=12.0).contains(&number.value);
    if let Some(shift) = shift_of(Some(at + 1), Sense::ClockBehind).filter(|_| whole) {
        let (hour, minute) = shifted(number.value as i32, shift)?;
        return Some((hour, minute, at..at + 2));
    }
    if let Some(shift) = shift_of(at.checked_sub(1), Sense::ClockBefore).filter(|_| whole && !measured) {
        let (hour, minute) = shifted(number.value as i32, shift)?;
        return Some((hour, minute, at - 1..at + 1));
    }
    // "Siete y media" was joined to 7.5 already.
    let behind_at = at > 0 && tokens[at - 1].has(Sense::At);
    if number.in_words && number.value.fract() == 0.5 && (1.0..13.0).contains(&number.value) && behind_at {
        return Some((number.value as u8, 30, at..at + 1));
    }
    // "ten to eight", beside the pair of a reading
    let sign = shift_of(Some(at + 1), Sense::ClockBetween)?;
    let hour = tokens.get(at + 2)?.number()?;
    let enough = free_numbers(tokens) >= 4 && number.value <= 30.0 && number.value % 5.0 == 0.0;
    let clock = (1.0..=12.0).contains(&hour.value) && hour.value.fract() == 0.0 && (number.in_words || sign > 0);
    if !(enough && clock) {
        return None;
    }
    let (hour, minute) = shifted(hour.value as i32, sign * number.value as i32)?;
    Some((hour, minute, at..at + 3))
}

/// "at 8", "a las 8", when nothing else claims the number and a pair stands beside it
fn alone(tokens: &[Token], at: usize) -> Option<(u8, u8, Range<usize>)> {
    let number = tokens[at].number()?;
    let behind_at = at > 0 && tokens[at - 1].has(Sense::At);
    let next = tokens.get(at + 1);
    let free = next.is_none_or(|next| (!next.glued || next.is_any_mark(",.;!:")) && !measures(next));
    // "This afternoon at 4"
    let late = tokens
        .iter()
        .any(|token| token.has_any(&[Sense::Afternoon, Sense::Evening]));
    let hours = if late { 1.0..=22.0 } else { 5.0..=22.0 };
    let hour = number.decimals == 0 && hours.contains(&number.value) && number.value.fract() == 0.0;
    // "That was at 8", "yesterday at 8" corrects the time of what was sent.
    let told_before = |token: &Token| token.has_any(&[Sense::ItWas, Sense::Yesterday, Sense::DayBefore]);
    let labels = |token: &Token| measures(token) || token.has(Sense::Product) || token.mention().is_some();
    let corrects = free_numbers(tokens) == 1 && tokens[..at].iter().any(told_before) && !tokens.iter().any(labels);
    (behind_at && free && hour && (free_numbers(tokens) > 2 || corrects)).then_some((number.value as u8, 0, at..at + 1))
}

fn free_numbers(tokens: &[Token]) -> usize {
    let free = |token: &&Token| token.number().is_some() && !token.spent;
    tokens.iter().filter(free).count()
}

fn shifted(hour: i32, minutes: i32) -> Option<(u8, u8)> {
    let minute_of_day = (hour * 60 + minutes).rem_euclid(24 * 60);
    Some((
        u8::try_from(minute_of_day / 60).ok()?,
        u8::try_from(minute_of_day % 60).ok()?,
    ))
}

/// 0 for the morning, 12 for the afternoon.
fn half_at(tokens: &[Token], at: usize) -> Option<i32> {
    let token = tokens.get(at)?;
    if token.has(Sense::Pm) {
        return Some(12);
    }
    token.has(Sense::Am).then_some(0)
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
