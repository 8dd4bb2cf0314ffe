//! Times: of the day, days back, dates. Each belongs to the clause in which it stands.

use super::item::Item;
use super::role::Role;
use crate::domain::meaning::When;
use crate::language::lexer::Form;
use crate::language::lexicon::LEXICON;
use crate::language::senses::{SLOTS, Sense, Senses, UNITS};

/// The time of day of a time, if it has one.
fn clock_of(when: When) -> Option<(u8, u8)> {
    match when {
        When::At { hour, minute, .. } => Some((hour, minute)),
        When::Weekday { hour_minute, .. } | When::DayOfMonth { hour_minute, .. } | When::On { hour_minute, .. } => {
            hour_minute
        }
        _ => None,
    }
}

/// Two parts of one time: a day and a time of that day.
pub fn join(a: When, b: When) -> When {
    let halves = |when: When| matches!(when, When::Morning | When::Afternoon | When::Evening);
    match (a, b) {
        (When::DaysBack(days_back), When::At { hour, minute, .. })
        | (When::At { hour, minute, .. }, When::DaysBack(days_back)) => When::At {
            days_back,
            hour,
            minute,
        },
        (When::DaysBack(0), half) | (half, When::DaysBack(0)) if halves(half) => half,
        (When::DaysBack(days), half) | (half, When::DaysBack(days)) if halves(half) => When::DaysBack(days),
        (half, at @ When::At { .. }) | (at @ When::At { .. }, half) if halves(half) => afternoon(half, at),
        (day, time) | (time, day) if with_clock(day, clock_of(time)).is_some() && is_bare_clock(time) => {
            with_clock(day, clock_of(time)).unwrap_or(day)
        }
        (a, _) => a,
    }
}

fn is_bare_clock(when: When) -> bool {
    matches!(when, When::At { days_back: 0, .. })
}

/// "This afternoon at 3" is 15:00.
fn afternoon(half: When, at: When) -> When {
    match at {
        When::At {
            days_back,
            hour,
            minute,
        } if half != When::Morning && hour < 12 => When::At {
            days_back,
            hour: hour + 12,
            minute,
        },
        at => at,
    }
}

fn with_clock(day: When, clock: Option<(u8, u8)>) -> Option<When> {
    clock?;
    match day {
        When::Weekday {
            weekday, before_today, ..
        } => Some(When::Weekday {
            weekday,
            before_today,
            hour_minute: clock,
        }),
        When::DayOfMonth { day, .. } => Some(When::DayOfMonth {
            day,
            hour_minute: clock,
        }),
        When::On { year, month, day, .. } => Some(When::On {
            year,
            month,
            day,
            hour_minute: clock,
        }),
        _ => None,
    }
}

/// A date as typed; year 0 was not written.
pub fn on(year: i16, month: u8, day: u8) -> When {
    When::On {
        year: (year != 0).then_some(year),
        month,
        day,
        hour_minute: None,
    }
}

fn at_clock(hour: u8, minute: u8) -> Role {
    Role::Time(When::At {
        days_back: 0,
        hour,
        minute,
    })
}

/// The clock time that the number at `at` is, if its neighbours say so.
pub fn clock(items: &[Item], at: usize, value: f64, form: Form) -> Option<Role> {
    let next = items.get(at + 1).filter(|item| item.mark.is_none());
    let prev = at.checked_sub(1).map(|i| &items[i]);
    let after_noon = next.is_some_and(|next| next.is(Sense::pm));
    let of_day = |hour: u8| if after_noon && hour < 12 { hour + 12 } else { hour };
    let limits = prev.is_some_and(|p| p.any(Senses::of([Sense::until, Sense::datebefore])));
    if let Form::Clock(hour, minute) = form {
        return Some(if limits {
            Role::Explained
        } else {
            at_clock(of_day(hour), minute)
        });
    }
    // "half past 7", "quarter to 8"; "7 past 8" is rare and is no reading either.
    if let Some(before) = prev.filter(|p| p.is(Sense::clockbefore) && value <= 24.0) {
        let minutes = value as i32 * 60 + before.value;
        return Some(at_clock(
            of_day((minutes.rem_euclid(1440) / 60) as u8),
            (minutes.rem_euclid(60)) as u8,
        ));
    }
    let at_word = prev.is_some_and(|p| p.is(Sense::at) && p.is_word());
    let whole = value <= 24.0 && value.fract() == 0.0;
    let dotted = form == Form::Decimal && value < 24.0 && value.fract() < 0.6;
    let half_day = next.is_some_and(|n| n.any(Senses::of([Sense::am, Sense::pm])));
    let unit = next.is_some_and(|n| n.any(UNITS) && !half_day);
    if !(whole || dotted) || !(limits || at_word || half_day) || unit {
        return None;
    }
    // "at 14 mill lane"
    let street = |item: &Item| item.is(Sense::street) && item.is_word();
    if at_word
        && items[at + 1..]
            .iter()
            .take(3)
            .take_while(|item| item.is_word())
            .any(street)
    {
        return Some(Role::Explained);
    }
    // "at 12/180" and "tap at 18 ro 2" are no times.
    let pair = items
        .get(at + 1)
        .is_some_and(|n| n.mark == Some('/') || n.num.is_some());
    let labelled = at
        .checked_sub(2)
        .is_some_and(|i| items[i].any(SLOTS) || items[i].is_name());
    if at_word && !half_day && (pair || labelled) {
        return None;
    }
    // "lunch at 12"
    let other = at
        .checked_sub(2)
        .is_some_and(|i| items[i].is(Sense::numbered) && items[i].is_word());
    if limits || at_word && other {
        return Some(Role::Explained);
    }
    let minute = (value.fract() * 100.0).round() as u8;
    Some(at_clock(of_day(value.trunc() as u8), minute))
}

const WORDS: [(Sense, When); 8] = [
    (Sense::daybefore, When::DaysBack(2)),
    (Sense::lastnight, When::DaysBack(1)),
    (Sense::yesterday, When::DaysBack(1)),
    (Sense::today, When::DaysBack(0)),
    (Sense::now, When::DaysBack(0)),
    (Sense::morning, When::Morning),
    (Sense::afternoon, When::Afternoon),
    (Sense::evening, When::Evening),
];

/// Gives time words, and numbers that are part of a time ("2 hours ago", "3 march"), their roles.
pub fn words(items: &[Item], roles: &mut [Role]) {
    for at in 0..items.len() {
        let item = &items[at];
        if item.num.is_some() {
            let when = ago(items, at).or_else(|| day_of_month(items, at));
            if let Some(when) = when.or_else(|| year_of_month(items, at)) {
                roles[at] = Role::Time(when);
            }
            continue;
        }
        if !item.is_word() {
            continue;
        }
        let before = at.checked_sub(1).map(|i| &items[i]);
        let last = before.is_some_and(|p| p.is(Sense::last) && p.is_word());
        let named = before.is_some_and(|p| p.is(Sense::prep) || p.is(Sense::last) || p.asks_from());
        if let Some(when) = past(item).or_else(|| one_ago(items, at)) {
            roles[at] = Role::Time(when);
        } else if item.is(Sense::month) && item.value > 0 && named {
            roles[at] = Role::Time(When::InMonth {
                year: None,
                month: item.value.clamp(1, 12) as u8,
            });
        } else if let Some((_, when)) = WORDS.iter().find(|(sense, _)| item.is(*sense) && *sense != Sense::now) {
            roles[at] = Role::Time(*when);
        } else if item.is(Sense::weekday) && (1..=7).contains(&item.value) {
            let after = items.get(at + 1).is_some_and(|n| n.is(Sense::last) && n.is_word());
            let weekday = item.value as u8;
            let before_today = last || after || item.words > 1;
            let when = Role::Time(When::Weekday {
                weekday,
                before_today,
                hour_minute: None,
            });
            roles[at] = when;
            if last {
                roles[at - 1] = when;
            }
        }
    }
}

impl Item {
    fn asks_from(&self) -> bool {
        self.asks(crate::language::Subject::from)
    }
}

/// "Last month", "in january": the tables give the month, or the name of the stretch.
fn past(item: &Item) -> Option<When> {
    if !item.is(Sense::past) {
        return None;
    }
    match LEXICON.name(item.name) {
        "last week" => Some(When::DaysBack(7)),
        "last month" => Some(When::LastMonth),
        _ if (1..=12).contains(&item.value) => Some(When::InMonth {
            year: None,
            month: item.value as u8,
        }),
        _ => None,
    }
}

/// "June 2025"
fn year_of_month(items: &[Item], at: usize) -> Option<When> {
    let month = items
        .get(at.checked_sub(1)?)
        .filter(|m| m.is(Sense::month) && m.value > 0)?;
    let year = items[at].value().filter(|year| (2000.0..2100.0).contains(year))?;
    Some(When::InMonth {
        year: Some(year as i16),
        month: month.value.clamp(1, 12) as u8,
    })
}

/// "A week ago", "hace una semana"
fn one_ago(items: &[Item], at: usize) -> Option<When> {
    let stretch = items.get(at).filter(|item| item.is(Sense::stretch))?;
    let before = at.checked_sub(1).map(|i| &items[i]);
    let marked = items.get(at + 1).is_some_and(|next| next.is(Sense::ago))
        || at.checked_sub(2).is_some_and(|i| items[i].is(Sense::ago))
        || before.is_some_and(|item| item.is(Sense::ago));
    let counted = before.is_some_and(|item| item.num.is_some());
    (marked && !counted).then(|| back(u32::try_from(stretch.value).unwrap_or(1)))
}

fn back(minutes: u32) -> When {
    match u16::try_from(minutes) {
        Ok(minutes) if minutes < 1440 => When::MinutesBack(minutes),
        _ => When::DaysBack((minutes / 1440).min(10_000) as u16),
    }
}

/// "2 hours ago", "hace 2 horas"
fn ago(items: &[Item], at: usize) -> Option<When> {
    let stretch = items.get(at + 1).filter(|n| n.is(Sense::stretch))?;
    let marked = items.get(at + 2).is_some_and(|n| n.is(Sense::ago))
        || at.checked_sub(1).is_some_and(|p| items[p].is(Sense::ago));
    let count = items[at].value().filter(|count| marked && *count < 10_000.0)?;
    let minutes = count as u32 * u32::try_from(stretch.value).unwrap_or(1).max(1);
    Some(back(minutes))
}

/// "3 march", "march 3", "3 de marzo"
fn day_of_month(items: &[Item], at: usize) -> Option<When> {
    let month = |i: usize| {
        items
            .get(i)
            .filter(|m| m.is(Sense::month) && m.value > 0)
            .map(|m| m.value as u8)
    };
    let linked = || {
        items
            .get(at + 1)
            .filter(|l| l.is(Sense::prep))
            .and_then(|_| month(at + 2))
    };
    let month = month(at + 1)
        .or_else(|| at.checked_sub(1).and_then(month))
        .or_else(linked)?;
    let day = items[at]
        .value()
        .filter(|day| (1.0..32.0).contains(day) && day.fract() == 0.0)?;
    Some(on(0, month, day as u8))
}
