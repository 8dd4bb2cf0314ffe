//! Dates in numbers: "27/2", "27.02.", "15/01/26", "2026-11-24", "24 november".

use super::days::{Told, month_of};
use super::labels::{self, Role};
use super::meaning::Scene;
use super::senses::Sense;
use super::tokens::{Number, Token};

/// The feed of soft water looks like the day of a month.
const SOFT_WATER_PPM: f64 = 45.0;

/// Year, month and day.
pub(super) type Date = (Option<i16>, u8, u8);

/// A date, how many tokens from its first number on say it, and whether it may be a value instead.
pub(super) struct Found {
    pub date: Date,
    pub used: usize,
    pub unsure: bool,
}

fn whole(token: Option<&Token>) -> Option<u32> {
    let number = token?.number()?;
    (number.decimals == 0 && number.value < 10_000.0 && !number.in_words).then_some(number.value as u32)
}

fn valid(year: Option<u32>, month: u32, day: u32) -> Option<Date> {
    let fits = (1..=12).contains(&month) && (1..=31).contains(&day);
    fits.then_some((year.map(|year| year as i16), month as u8, day as u8))
}

/// 2026-11-24
pub(super) fn iso(tokens: &[Token]) -> Option<(Date, usize)> {
    let year = whole(tokens.first()).filter(|year| (2000..2100).contains(year))?;
    let marks = tokens.get(1)?.is_any_mark("-/.") && tokens.get(3)?.is_any_mark("-/.");
    let date = valid(Some(year), whole(tokens.get(2))?, whole(tokens.get(4))?)?;
    marks.then_some((date, 5))
}

/// "24 november", "march 12th", "1 may", "3 de junio de 2025"; the tokens from `from` on.
pub(super) fn with_month(tokens: &[Token], at: usize) -> Option<(Date, std::ops::Range<usize>)> {
    let day = whole(tokens.get(at)).filter(|day| (1..=31).contains(day))?;
    // "180 12 in january": the phrase is no part of the value before it.
    let single = |index: usize| {
        tokens
            .get(index)
            .filter(|token| token.word().is_some_and(|word| !word.contains(' ')))
    };
    let named = |index: usize| {
        month_of(single(index)?)
            .map(u32::from)
            .or_else(|| may(tokens, index, at))
    };
    let link = |index: usize| usize::from(tokens.get(index).is_some_and(|token| token.has(Sense::MonthLink)));
    let year = |index: usize| whole(tokens.get(index)).filter(|year| (2000..2100).contains(year));
    let of = link(at + 1);
    let (month, from, to) = match named(at + 1 + of) {
        Some(month) => (month, at, at + 2 + of),
        None => {
            let before = at.checked_sub(1)?;
            (named(before)?, before, at + 1 + of)
        }
    };
    let link_behind = link(to);
    match year(to + link_behind) {
        Some(year) => Some((valid(Some(year), month, day)?, from..to + link_behind + 1)),
        None => Some((valid(None, month, day)?, from..to)),
    }
}

/// "On 1 may", "may 3rd": the verb has another word behind it.
fn may(tokens: &[Token], index: usize, day: usize) -> Option<u32> {
    let last = usize::max(index, day);
    let ordinal = usize::from(tokens.get(last + 1).is_some_and(|token| token.has(Sense::MonthLink)));
    let ends = tokens
        .get(last + 1 + ordinal)
        .is_none_or(|next| next.word().is_none() || next.has_any(&[Sense::At, Sense::Currency]));
    (tokens.get(index)?.word() == Some("may") && ends).then_some(5)
}

/// A date in numbers at `at`. A pair of readings looks the same, so that something must speak for a date: a year, "on",
/// a clock time, a service, or a whole reading beside it.
pub(super) fn numeric(tokens: &[Token], at: usize, told: &Told, clock: bool, scene: &Scene) -> Option<Found> {
    let token = &tokens[at];
    let joined = at > 0 && token.glued && tokens[at - 1].is_any_mark("/.-:,$£€");
    if token.spent || joined {
        return None;
    }
    let before = at.checked_sub(1).map(|last| &tokens[last]);
    let behind_on = before.is_some_and(|token| token.has(Sense::DateBefore));
    if let Some(found) = decimal(tokens, at, told, clock) {
        return Some(found);
    }
    let a = whole(Some(token))?;
    let b = tokens
        .get(at + 2)
        .filter(|token| !token.spent)
        .and_then(|token| whole(Some(token)))?;
    let mark = tokens.get(at + 1).filter(|mark| mark.is_any_mark("/.-"))?;
    let third = tokens
        .get(at + 3)
        .filter(|token| token.is_any_mark("/.-") && token.glued);
    let third = third.and(tokens.get(at + 4)).filter(|token| token.glued);
    let year = whole(third).filter(|year| (2000..2100).contains(year) || (20..40).contains(year) && a <= 31 && b <= 31);
    if third.is_some_and(|token| token.number().is_some()) && year.is_none() {
        return None;
    }
    let others = tokens
        .iter()
        .enumerate()
        .filter(|(index, token)| token.number().is_some() && !token.spent && *index != at && *index != at + 2);
    let date = in_order(a, b, scene.month_first);
    let counted = |token: &Token| token.has_any(&[Sense::Counted, Sense::Minutes]) && !token.has(Sense::Currency);
    let free = tokens
        .get(at + 3)
        .is_none_or(|next| !counted(next) && !next.is_any_mark("%°"));
    let slashed = mark.is_mark('/') || mark.glued && tokens[at + 2].glued && mark.is_mark('.');
    let dashed = mark.is_mark('-') && mark.glued && tokens[at + 2].glued && told.part_changed;
    let of_deed = told.deed && (slashed || dashed) && free && date.is_some() && !is_soft(tokens, at, scene);
    let beside_reading = slashed && free && date.is_some() && (1..=31).contains(&a) && has_own_reading(tokens, at);
    let speaks = year.is_some() || behind_on || clock && others.count() == 0 || of_deed || beside_reading;
    if !speaks {
        return None;
    }
    // "Heron 20/3 flushed" may be a reading of soft water.
    let deed_follows = !tokens[..at]
        .iter()
        .any(|token| token.has_any(&[Sense::Flushed, Sense::Repacked]));
    let unsure = of_deed && !told.part_changed && deed_follows && !(behind_on || year.is_some() || beside_reading);
    let (month, day) = date?;
    let year_told = year.map(|year| if year < 100 { 2000 + year } else { year });
    Some(Found {
        date: valid(year_told, month, day)?,
        used: if year.is_some() { 5 } else { 3 },
        unsure,
    })
}

/// Month and day of two numbers, in the order that the outfit writes where both can be.
fn in_order(a: u32, b: u32, month_first: bool) -> Option<(u32, u32)> {
    let fits = |month: u32, day: u32| ((1..=12).contains(&month) && (1..=31).contains(&day)).then_some((month, day));
    if month_first {
        fits(a, b).or_else(|| fits(b, a))
    } else {
        fits(b, a).or_else(|| fits(a, b))
    }
}

/// "14.12" beside a clock time, "27.02." and "12.4." with a point behind, as a date is written.
fn decimal(tokens: &[Token], at: usize, told: &Told, clock: bool) -> Option<Found> {
    let number = tokens[at]
        .number()
        .filter(|number| number.decimals > 0 && !number.in_words)?;
    let found = |unsure: bool, used: usize| decimal_date(number).map(|date| Found { date, used, unsure });
    let pointed = tokens.get(at + 1).is_some_and(|next| next.is_mark('.') && next.glued);
    let used = 1 + usize::from(pointed);
    if number.decimals == 2 && clock && number.digits.len() >= 3 {
        return found(false, used);
    }
    let zero = number.digits.starts_with('0') && number.digits.len() > 2
        || number.decimals == 2 && number.digits.chars().rev().nth(1) == Some('0');
    if told.deed && (pointed || zero && number.value >= 1.0) {
        return found(false, used);
    }
    // "160 8 1.3." may be the glass and the end of the sentence.
    let values = tokens[..at]
        .iter()
        .filter(|token| token.number().is_some() && !token.spent)
        .count();
    let ends = tokens
        .get(at + 2)
        .is_none_or(|next| next.word().is_none() && next.number().is_none());
    (pointed && values >= 2 && ends && number.value >= 1.0).then(|| found(!number.digits.starts_with('0'), used))?
}

fn decimal_date(number: &Number) -> Option<Date> {
    let scale = if number.decimals == 1 { 10.0 } else { 100.0 };
    let month = (number.value.fract() * scale).round() as u32;
    valid(None, month, number.value.trunc() as u32)
}

/// Whether the rig that is named has so soft a tap that "25/3" may be its reading.
fn is_soft(tokens: &[Token], at: usize, scene: &Scene) -> bool {
    let named = tokens
        .iter()
        .filter_map(Token::mention)
        .flat_map(|mention| &mention.rigs);
    let meant: Vec<i64> = named.copied().chain(scene.own_rig).collect();
    let zero = tokens[at].number().is_some_and(|number| number.digits.starts_with('0'))
        || tokens[at + 2]
            .number()
            .is_some_and(|number| number.digits.starts_with('0'));
    let soft = |id: &i64| {
        let rig = scene.fleet.iter().find(|rig| rig.id == *id);
        rig.and_then(|rig| rig.usual_feed_ppm)
            .is_some_and(|(low, _)| low < SOFT_WATER_PPM)
    };
    !zero && meant.iter().any(soft)
}

/// "Heron 03/03 180 12": two values of the same rig stand beside the pair.
fn has_own_reading(tokens: &[Token], at: usize) -> bool {
    let name = |index: &usize| tokens[*index].mention().is_some();
    let last = (0..at).rev().find(name);
    let next = |from: usize| (from..tokens.len()).find(name).unwrap_or(tokens.len());
    // A date before the first name is that one's.
    let (from, to) = match last {
        Some(last) => (last + 1, next(at)),
        None => {
            let first = next(at);
            (0, if first < tokens.len() { next(first + 1) } else { first })
        }
    };
    let indices: Vec<usize> = (from..to).filter(|index| !(at..at + 3).contains(index)).collect();
    let values: Vec<f64> = labels::bind(tokens, &indices)
        .into_iter()
        .filter(|one| matches!(one.role, None | Some(Role::Feed | Role::Permeate)))
        .map(|one| one.value)
        .collect();
    values.len() >= 2 && values.iter().any(|value| *value > 31.0)
}
