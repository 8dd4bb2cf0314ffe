//! When a reading was taken: clock times, dates and words like "this morning". What it reads counts as no value.

use super::days::Told;
use super::meaning::{Scene, When};
use super::senses::{Sense, Senses};
use super::tokens::{Kind, Token};
use super::{clock, dates, days};

/// What a message says of times: one for all, or one for each of its readings.
#[derive(Clone, Debug, Default)]
pub struct Times {
    day: Option<When>,
    /// Where a part was changed of which the day behind it tells: the values before it are of another time.
    deed_of_day: Option<usize>,
    /// Something is said of now besides.
    now: bool,
    /// Where each clock time stands, hour and minute.
    clocks: Vec<(usize, u8, u8)>,
    /// A number looks like a date and may be a value.
    pub unsure: bool,
}

impl Times {
    /// The time of the whole message.
    pub fn of_all(&self) -> Option<When> {
        self.with_clock(self.clocks.first())
    }

    /// The time of one reading of several: `place` of `count`, with the numbers at `indices`.
    pub fn of_one(&self, place: usize, count: usize, indices: &[usize], first_number: usize) -> Option<When> {
        // "Resin changed 5 days ago, now 180/12"
        let of_deed = self.deed_of_day.is_some_and(|deed| first_number < deed || self.now);
        if of_deed && self.clocks.is_empty() {
            return None;
        }
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
        let hour_minute = Some((hour, minute));
        // "This afternoon at 4"
        let half = if matches!(self.day, Some(When::Afternoon | When::Evening)) && hour < 12 {
            12
        } else {
            0
        };
        let at = |hour: u8| When::At {
            days_back: 0,
            hour,
            minute,
        };
        Some(match self.day {
            None => at(hour),
            Some(day) => match day {
                When::On { year, month, day, .. } => When::On {
                    year,
                    month,
                    day,
                    hour_minute,
                },
                When::Weekday {
                    weekday, before_today, ..
                } => When::Weekday {
                    weekday,
                    before_today,
                    hour_minute,
                },
                When::DayOfMonth { day, .. } => When::DayOfMonth { day, hour_minute },
                When::DaysBack(days_back) => When::At {
                    days_back,
                    hour,
                    minute,
                },
                told @ (When::InMonth { .. } | When::LastMonth | When::Ahead) => told,
                _ => at(hour + half),
            },
        })
    }
}

/// Finds the times and marks their tokens as spent.
pub fn take(tokens: &mut [Token], scene: &Scene) -> Times {
    let told = Told::of(tokens);
    let mut clocks = Vec::new();
    let mut day: Option<(When, usize)> = None;
    let mut unsure = false;
    let on = |(year, month, day)| When::On {
        year,
        month,
        day,
        hour_minute: None,
    };
    for at in 0..tokens.len() {
        if tokens[at].spent {
            continue;
        }
        if let Some((found, span)) = days::day_at(tokens, at, &told) {
            spend(&mut tokens[span]);
            day = day.or(Some((found, at)));
            continue;
        }
        if tokens[at].number().is_none() {
            continue;
        }
        if let Some((found, used)) = dates::iso(&tokens[at..]) {
            spend(&mut tokens[at..at + used]);
            day = day.or(Some((on(found), at)));
        } else if let Some((found, span)) = dates::with_month(tokens, at) {
            spend(&mut tokens[span]);
            day = day.or(Some((on(found), at)));
        } else if let Some((found, span)) = days::day_of_month(tokens, at, &told) {
            spend(&mut tokens[span]);
            day = day.or(Some((found, at)));
        } else if let Some((hour, minute, span)) = clock::time_at(tokens, at) {
            spend(&mut tokens[span]);
            clocks.push((at, hour, minute));
        }
    }
    for at in 0..tokens.len() {
        if let Some(found) = dates::numeric(tokens, at, &told, !clocks.is_empty(), scene) {
            unsure |= found.unsure;
            if !found.unsure {
                spend(&mut tokens[at..at + found.used]);
                day = day.or(Some((on(found.date), at)));
            }
        }
    }
    let day = day.or_else(|| (0..tokens.len()).find_map(|at| Some((word_time(&tokens[at])?, at))));
    let changed = |token: &Token| {
        token.has(Sense::Fresh) || token.has(Sense::Done) && !token.has_any(&[Sense::Filler, Sense::Intent])
    };
    let deed_of_day = day
        .and_then(|(_, at)| tokens[..at].iter().rposition(changed))
        .filter(|_| told.deed);
    Times {
        day: day.map(|(day, _)| day),
        deed_of_day,
        now: tokens.iter().any(|token| token.has_any(&[Sense::Now, Sense::Today])),
        clocks,
        unsure,
    }
}

/// What says a time says nothing else: neither minutes nor a price, nor that something is only supposed or planned.
fn spend(tokens: &mut [Token]) {
    for token in tokens {
        token.spent = true;
        let of_time = Senses::of(Sense::OfTime);
        match token.kind {
            // The point behind a date ends no sentence.
            Kind::Mark('.') => token.kind = Kind::Mark(' '),
            Kind::Number(_) => token.senses = of_time,
            Kind::Word(_) if token.has_any(&OF_OTHERS) => {
                token.senses = token.senses.without(&OF_OTHERS).with(of_time);
            }
            _ => {}
        }
    }
}

const OF_OTHERS: [Sense; 10] = [
    Sense::Hypothetical,
    Sense::Later,
    Sense::Intent,
    Sense::Modal,
    Sense::Counted,
    Sense::Minutes,
    Sense::Hour,
    Sense::HalfHour,
    Sense::Postpone,
    Sense::OtherNumber,
];

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
