//! Days that are told in words: "on friday", "3 days ago", "in january", "hace 2 horas", "tomorrow".

use std::ops::Range;

use super::languages::TABLES;
use super::meaning::When;
use super::senses::Sense;
use super::tokens::Token;

const DAY_MINUTES: f64 = 1_440.0;
const PARTS: [Sense; 4] = [Sense::Membrane, Sense::Resin, Sense::Prefilter, Sense::ORing];

/// What a message tells besides its days, by which a word is a day of it or talk.
#[derive(Clone, Copy, Debug)]
pub(super) struct Told {
    /// Something was done to a rig or a part.
    pub deed: bool,
    /// A part was changed, not only something flushed.
    pub part_changed: bool,
    /// Said with a word that is done already: "changed", not only "new".
    done: bool,
    asks: bool,
    plans: bool,
    /// "That was ...": a correction of the time.
    it_was: bool,
    /// A name and values with nothing but small words.
    plain_reading: bool,
    /// At least two numbers.
    values: bool,
}

impl Told {
    pub fn of(tokens: &[Token]) -> Told {
        let any = |senses: &[Sense]| tokens.iter().any(|token| token.has_any(senses));
        let words = || tokens.iter().filter(|token| token.word().is_some());
        let part = any(&PARTS);
        let firmly = tokens
            .iter()
            .any(|token| token.has(Sense::Done) && !token.has_any(&[Sense::Filler, Sense::Intent]));
        let cared = any(&[Sense::Flushed, Sense::Repacked]);
        let asks = tokens
            .iter()
            .any(|token| token.is_mark('?') || token.has_any(&[Sense::QuestionMark, Sense::Asks]))
            || words().next().is_some_and(|first| first.has(Sense::AsksFirst));
        let plans = tokens.iter().any(|token| {
            let price = token.has_any(&[Sense::PriceWord, Sense::Currency, Sense::Month]);
            token.has_any(&[Sense::Intent, Sense::Not, Sense::Modal]) && !price && token.word() != Some("may")
        });
        let values = tokens.iter().filter(|token| token.number().is_some()).count() >= 2;
        // "Lynx was 180/12 last friday" tells of old times; "lynx last friday 180 12" is a late message.
        let plain = |token: &Token| {
            token.has_any(&[
                Sense::Feed,
                Sense::FeedWeak,
                Sense::Permeate,
                Sense::PermeateWeak,
                Sense::Product,
            ]) || token.has_any(&[
                Sense::Greeting,
                Sense::Article,
                Sense::DayLink,
                Sense::At,
                Sense::And,
                Sense::Ppm,
            ]) || is_day_word(token)
        };
        Told {
            deed: part && (firmly || any(&[Sense::Fresh])) || cared,
            part_changed: part && (firmly || any(&[Sense::Fresh])),
            done: firmly || cared,
            asks,
            plans,
            it_was: any(&[Sense::ItWas]) && tokens.iter().all(|token| token.mention().is_none()),
            plain_reading: values && words().all(plain),
            values,
        }
    }
}

fn is_day_word(token: &Token) -> bool {
    weekday_of(token).is_some()
        || month_of(token).is_some()
        || token.has_any(&[Sense::Stretch, Sense::Ago, Sense::AgoBefore, Sense::Period])
        || ends_in_ago(token).is_some()
        || token.has_any(&[Sense::Morning, Sense::Afternoon, Sense::Evening])
}

/// The day that the words from `at` on tell, and the tokens that say it.
pub(super) fn day_at(tokens: &[Token], at: usize, told: &Told) -> Option<(When, Range<usize>)> {
    if told.asks {
        return None;
    }
    let about_us = (told.deed && !told.plans) || told.values || told.it_was;
    if !about_us {
        return None;
    }
    let token = &tokens[at];
    if let Some((minutes, span)) = ago(tokens, at) {
        let old = tokens[span.clone()].iter().any(|token| token.has(Sense::Hypothetical));
        return (!old || may_be_old(tokens, &span, told)).then(|| (back(minutes), span));
    }
    if let Some(found) = weekday_at(tokens, at, told) {
        return Some(found);
    }
    let span = at..at + 1;
    if token.has(Sense::Ahead) && told.values && stands_for_itself(tokens, &span) {
        return Some((When::Ahead, span));
    }
    let period = token.word().and_then(|word| TABLES.value(Sense::Period, word));
    let when = match period {
        Some("last week") => When::DaysBack(7),
        Some("last month") => When::LastMonth,
        _ => return month_alone(tokens, at, told),
    };
    (told.deed && may_be_old(tokens, &span, told)).then_some((when, span))
}

/// "New resin last friday", "lynx last friday 180 12": no talk of old times.
fn may_be_old(tokens: &[Token], span: &Range<usize>, told: &Told) -> bool {
    let outside = |at: &usize| !span.contains(at);
    let unknown = (0..tokens.len())
        .filter(outside)
        .filter(|&at| tokens[at].is_unknown())
        .count();
    let priced = |at: usize| {
        let beside = |index: Option<usize>| {
            let token = index.and_then(|index| tokens.get(index));
            token.is_some_and(|token| {
                token.is_any_mark("$£€") || token.has_any(&[Sense::Currency, Sense::PriceWord, Sense::Minutes])
            })
        };
        beside(at.checked_sub(1)) || beside(Some(at + 1))
    };
    let values = (0..tokens.len())
        .filter(outside)
        .filter(|&at| tokens[at].number().is_some() && !tokens[at].spent && !priced(at))
        .count();
    let deed = told.deed && !told.plans && values == 0 && unknown <= 1;
    deed || told.plain_reading || told.it_was && unknown == 0
}

fn back(minutes: f64) -> When {
    let days = (minutes / DAY_MINUTES).round();
    if minutes < DAY_MINUTES {
        When::MinutesBack(minutes as u16)
    } else {
        When::DaysBack(days as u16)
    }
}

/// "week ago" of a phrase: the unit.
fn ends_in_ago(token: &Token) -> Option<f64> {
    let (unit, ago) = token.word()?.rsplit_once(' ')?;
    let ago = TABLES.senses(ago).has(Sense::Ago);
    stretch(unit).filter(|_| ago)
}

fn stretch(word: &str) -> Option<f64> {
    TABLES.value(Sense::Stretch, word)?.parse().ok()
}

/// "3 days ago", "a week ago", "hace 2 horas", "hace un mes", in minutes.
fn ago(tokens: &[Token], at: usize) -> Option<(f64, Range<usize>)> {
    let unit = |index: usize| stretch(tokens.get(index)?.word()?);
    let count = |index: usize| tokens.get(index)?.number().map(|number| number.value);
    let one = |index: usize| {
        tokens
            .get(index)
            .is_some_and(|token| token.has_any(&[Sense::One, Sense::Filler]))
    };
    let ago = |index: usize| tokens.get(index).is_some_and(|token| token.has(Sense::Ago));
    let found = if tokens[at].has(Sense::AgoBefore) {
        match count(at + 1) {
            Some(count) => (count * unit(at + 2)?, at..at + 3),
            None if one(at + 1) && unit(at + 2).is_some() => (unit(at + 2)?, at..at + 3),
            None => (unit(at + 1)?, at..at + 2),
        }
    } else if let Some(whole) = tokens[at].word().and_then(ago_before_phrase) {
        (whole, at..at + 1)
    } else if let Some(count) = count(at) {
        match tokens.get(at + 1).and_then(ends_in_ago) {
            Some(unit) => (count * unit, at..at + 2),
            None if ago(at + 2) => (count * unit(at + 1)?, at..at + 3),
            None => return None,
        }
    } else if tokens[at].has(Sense::HalfHour) && ago(at + 1) {
        (30.0, at..at + 2)
    } else if let Some(unit) = ends_in_ago(&tokens[at]) {
        (unit, at..at + 1)
    } else {
        (unit(at).filter(|_| ago(at + 1))?, at..at + 2)
    };
    let (minutes, span) = found;
    // Farther back nobody tells by the day.
    (0.0..=400.0 * DAY_MINUTES)
        .contains(&minutes)
        .then_some((minutes, span))
}

/// "hace un mes", one phrase of the tables.
fn ago_before_phrase(word: &str) -> Option<f64> {
    let (first, rest) = word.split_once(' ')?;
    let unit = rest.rsplit(' ').next()?;
    stretch(unit).filter(|_| TABLES.senses(first).has(Sense::AgoBefore))
}

fn weekday_of(token: &Token) -> Option<(u8, bool)> {
    let word = token.word()?;
    let day = |word: &str| TABLES.value(Sense::Weekday, word)?.parse::<u8>().ok();
    if let Some(weekday) = day(word) {
        return Some((weekday, word.contains(' ')));
    }
    let (_, last) = word.rsplit_once(' ').filter(|_| token.has(Sense::Hypothetical))?;
    Some((day(last)?, true))
}

/// "On friday", "last friday", "el lunes pasado", "el domingo 1".
fn weekday_at(tokens: &[Token], at: usize, told: &Told) -> Option<(When, Range<usize>)> {
    let (weekday, before_today) = weekday_of(&tokens[at])?;
    let mut span = at..at + 1;
    if before_today {
        if !may_be_old(tokens, &span, told) {
            return None;
        }
    } else if !stands_for_itself(tokens, &span) || told.plans {
        return None;
    }
    // "El domingo 1" tells the day of the month too.
    let numbers = tokens.iter().filter(|token| token.number().is_some()).count();
    let number = tokens.get(at + 1).and_then(Token::number);
    let day = number.filter(|number| number.is_short_whole() && (1.0..=31.0).contains(&number.value));
    let named_month = tokens
        .get(at + 2..at + 4)
        .is_some_and(|next| next.iter().any(|token| month_of(token).is_some()));
    if let Some(day) = day
        && numbers == 1
        && !named_month
    {
        span.end += 1;
        let day = day.value as u8;
        return Some((When::DayOfMonth { day, hour_minute: None }, span));
    }
    // "New resin friday" may be a plan.
    if !(before_today || told.done || told.values || told.it_was) {
        return None;
    }
    let when = When::Weekday {
        weekday,
        before_today,
        hour_minute: None,
    };
    Some((when, span))
}

/// Beside a name, a value, a deed or the edge of the message: "see you friday, lynx 180 12" tells no day of the reading.
fn stands_for_itself(tokens: &[Token], span: &Range<usize>) -> bool {
    let substance = |token: &Token| {
        token.mention().is_some()
            || token.number().is_some()
            || token.has_any(&[Sense::Flushed, Sense::Fresh, Sense::Repacked, Sense::ItWas])
            || token.has(Sense::Done) && !token.has(Sense::Filler)
            || token.has_any(&PARTS)
            || token.has_any(&[Sense::Morning, Sense::Afternoon, Sense::Evening])
    };
    let before = tokens[..span.start].iter().rfind(|token| {
        !(token.has(Sense::DayLink) || token.has(Sense::Article) && !token.has_any(&[Sense::Not, Sense::Intent]))
    });
    let behind = tokens[span.end..].iter().find(|token| !token.is_mark(':'));
    let ends = |token: &Token| {
        token.word().is_none() && token.mention().is_none() && token.number().is_none()
            || token.has_any(&[Sense::At, Sense::Currency, Sense::PriceWord, Sense::Month])
    };
    let opens = |token: &Token| matches!(token.kind, super::tokens::Kind::Break) || token.is_any_mark(".;");
    let begins = before.is_none_or(|token| substance(token) || opens(token));
    let goes_on = behind.is_none_or(|token| substance(token) || ends(token));
    begins && goes_on && (before.is_some_and(&substance) || behind.is_some_and(substance))
}

/// The month that a word names, alone or at the end of a phrase ("in january").
pub(super) fn month_of(token: &Token) -> Option<u8> {
    let word = token.word()?;
    let month = |word: &str| TABLES.value(Sense::Month, word)?.parse::<u8>().ok();
    let phrase = || word.rsplit_once(' ').filter(|_| token.has(Sense::Hypothetical));
    month(word).or_else(|| month(phrase()?.1))
}

/// "In january", "june 2025": a month without its day, of something that was done.
fn month_alone(tokens: &[Token], at: usize, told: &Told) -> Option<(When, Range<usize>)> {
    let year_at = |index: usize| {
        let number = tokens.get(index)?.number()?;
        let year = number.decimals == 0 && (2000.0..2100.0).contains(&number.value);
        year.then_some(number.value as i16)
    };
    // "In may" is two words, of which one has other uses.
    let in_may = tokens[at].word() == Some("may")
        && at > 0
        && tokens[at - 1].word() == Some("in")
        && tokens.get(at + 1).is_none_or(|next| next.word().is_none())
        || tokens[at].word() == Some("may") && year_at(at + 1).is_some();
    let month = if in_may { 5 } else { month_of(&tokens[at])? };
    let number = |index: Option<usize>| index.and_then(|index| tokens.get(index)?.number());
    let link = usize::from(tokens.get(at + 1).is_some_and(|token| token.has(Sense::MonthLink)));
    let year = year_at(at + 1 + link);
    // "12 march" and "march 12" are dates.
    let with_day = year.is_none() && number(Some(at + 1)).is_some_and(|day| day.value <= 31.0)
        || number(at.checked_sub(1)).is_some()
        || at > 1 && tokens[at - 1].has(Sense::MonthLink) && number(Some(at - 2)).is_some();
    if with_day {
        return None;
    }
    let span = at..at + if year.is_some() { 2 + link } else { 1 };
    let alone = tokens[at].has(Sense::Hypothetical) || year.is_some() || in_may;
    (alone && told.deed && may_be_old(tokens, &span, told)).then_some((When::InMonth { year, month }, span))
}

/// "On the 3rd", "el día 1": a day of the month alone.
pub(super) fn day_of_month(tokens: &[Token], at: usize, told: &Told) -> Option<(When, Range<usize>)> {
    let number = tokens[at].number()?;
    let fits = number.decimals == 0 && (1.0..=31.0).contains(&number.value);
    if !fits || told.asks || !told.deed || told.plans {
        return None;
    }
    let word = |index: usize| tokens.get(index).and_then(Token::word);
    let before = at.checked_sub(1);
    let ordinal = tokens
        .get(at + 1)
        .is_some_and(|next| next.glued && matches!(next.word(), Some("st" | "nd" | "rd" | "th")));
    let article = before.is_some_and(|last| tokens[last].has(Sense::Article));
    let ends = tokens
        .get(at + 2)
        .is_none_or(|next| next.word().is_none() || next.has(Sense::At));
    if ordinal && article && ends {
        let when = When::DayOfMonth {
            day: number.value as u8,
            hour_minute: None,
        };
        return Some((when, at..at + 2));
    }
    // "El día 1"
    let named_day = before.is_some_and(|last| word(last).is_some_and(|word| stretch(word) == Some(DAY_MINUTES)));
    let article = at > 1 && tokens[at - 2].has(Sense::DayLink);
    let ends = tokens
        .get(at + 1)
        .is_none_or(|next| !next.has(Sense::MonthLink) && next.number().is_none());
    (named_day && article && ends).then(|| {
        let when = When::DayOfMonth {
            day: number.value as u8,
            hour_minute: None,
        };
        (when, at - 1..at + 1)
    })
}
