//! When a reading was taken: clock times, dates and words like "this morning". What it reads counts as no value.

use super::clock;
use super::languages::TABLES;
use super::meaning::When;
use super::senses::Sense;
use super::tokens::{Number, Token};

/// What a message says of times: one for all, or one for each of its readings.
#[derive(Clone, Debug, Default)]
pub struct Times {
    day: Option<When>,
    /// Where each clock time stands, hour and minute.
    clocks: Vec<(usize, u8, u8)>,
}

impl Times {
    /// The time of the whole message.
    pub fn of_all(&self) -> Option<When> {
        self.with_clock(self.clocks.first())
    }

    /// The time of one reading of several: `place` of `count`, with the numbers at `indices`.
    pub fn of_one(&self, place: usize, count: usize, indices: &[usize], first_number: usize) -> Option<When> {
        let own = match self.clocks.len() {
            0 => return self.day,
            1 => self.clocks.first(),
            several if several == count => self.clocks.get(place),
            _ => {
                let inside = self
                    .clocks
                    .iter()
                    .filter(|(at, _, _)| count == 1 || indices.binary_search(at).is_ok());
                inside.min_by_key(|(at, _, _)| at.abs_diff(first_number))
            }
        };
        self.with_clock(own)
    }

    fn with_clock(&self, clock: Option<&(usize, u8, u8)>) -> Option<When> {
        let Some(&(_, hour, minute)) = clock else {
            return self.day;
        };
        match self.day {
            Some(When::On { year, month, day, .. }) => Some(When::On {
                year,
                month,
                day,
                hour_minute: Some((hour, minute)),
            }),
            Some(When::DaysBack(days_back)) => Some(When::At {
                days_back,
                hour,
                minute,
            }),
            _ => Some(When::At {
                days_back: 0,
                hour,
                minute,
            }),
        }
    }
}

/// Finds the times and marks their tokens as spent.
pub fn take(tokens: &mut [Token], day_first: bool) -> Times {
    let mut clocks = Vec::new();
    let mut date = None;
    for at in 0..tokens.len() {
        if tokens[at].spent || tokens[at].number().is_none() {
            continue;
        }
        if let Some((found, used)) = iso_date(&tokens[at..]).or_else(|| date_with_month(tokens, at)) {
            spend(&mut tokens[at..at + used]);
            date = date.or(Some(found));
        } else if let Some((hour, minute, span)) = clock::time_at(tokens, at) {
            spend(&mut tokens[span]);
            clocks.push((at, hour, minute));
        }
    }
    for at in 0..tokens.len() {
        if let Some((found, used)) = slash_date(tokens, at, day_first, !clocks.is_empty()) {
            spend(&mut tokens[at..at + used]);
            date = date.or(Some(found));
        }
    }
    let on = |(year, month, day)| When::On {
        year,
        month,
        day,
        hour_minute: None,
    };
    let day = date.map(on).or_else(|| tokens.iter().find_map(word_time));
    Times { day, clocks }
}

fn spend(tokens: &mut [Token]) {
    tokens.iter_mut().for_each(|token| token.spent = true);
}

fn whole(token: Option<&Token>) -> Option<u32> {
    let number = token?.number()?;
    (number.decimals == 0 && number.value < 10_000.0).then_some(number.value as u32)
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
            .then(|| TABLES.value(Sense::Month, token.word()?)?.parse::<u32>().ok())
            .flatten()
    };
    let of = usize::from(tokens.get(at + 1).is_some_and(|token| token.has(Sense::MonthLink)));
    if let Some(month) = named(Some(at + 1 + of)) {
        return Some((valid(None, month, day)?, 2 + of));
    }
    let month = named(at.checked_sub(1))?;
    Some((valid(None, month, day)?, 1))
}

/// "on 12/3", "14/12 at 9:30", "14.12.2026"; a pair of readings looks the same, so that something must speak for a date.
fn slash_date(tokens: &[Token], at: usize, day_first: bool, clock: bool) -> Option<(Date, usize)> {
    if tokens[at].spent {
        return None;
    }
    let first = tokens[at].number()?;
    let before = at.checked_sub(1).and_then(|last| tokens.get(last));
    let behind_on = before.is_some_and(|token| token.has(Sense::DateBefore));
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
    let morning = token.has(Sense::Morning) && !token.has(Sense::Am);
    let found = table
        .into_iter()
        .find(|(sense, _)| token.has(*sense))
        .map(|(_, when)| when);
    found.or(morning.then_some(When::Morning))
}
