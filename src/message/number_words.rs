//! Number words, as dictation writes them: "one eighty", "two hundred and five", "ciento sesenta y cinco y ocho".

use super::languages::{MOST_LANGUAGES, NumberWord, TABLES};
use super::senses::{Sense, Senses};
use super::tokens::{Kind, Number, Token};

/// Replaces runs of number words by numbers.
pub fn join(tokens: Vec<Token>) -> Vec<Token> {
    let any = |token: &Token| {
        token
            .word()
            .is_some_and(|word| TABLES.number(word).or_else(|| TABLES.nearest_number(word)).is_some())
    };
    let language = if tokens.iter().any(any) {
        likely_language(&tokens)
    } else {
        0
    };
    if language == 0 {
        return tokens;
    }
    let mut joined = Vec::with_capacity(tokens.len());
    let mut at = 0;
    while at < tokens.len() {
        // "A las dos diez" is a time.
        let of_clock = joined.last().is_some_and(|last: &Token| last.has(Sense::At));
        match take_number(&tokens[at..], language, of_clock) {
            Some((number, used)) => {
                let glued = tokens[at].glued;
                joined.push(Token {
                    kind: Kind::Number(number),
                    glued,
                    senses: Senses::default(),
                    spent: false,
                });
                at += used;
            }
            None => {
                joined.push(tokens[at].clone());
                at += 1;
            }
        }
    }
    joined
}

/// The value of a number word alone, of any language, for rigs that are called by number ("rig two").
pub fn value_of(word: &str) -> Option<f64> {
    TABLES
        .number(word)
        .filter(|number| !number.multiplies)
        .map(|number| number.value)
}

/// "once" is eleven in Spanish only: the language with the most number words in the message decides.
fn likely_language(tokens: &[Token]) -> u8 {
    let mut counts = [(0u32, 0u32); MOST_LANGUAGES];
    for word in tokens.iter().filter_map(Token::word) {
        let number = TABLES.number(word).or_else(|| TABLES.nearest_number(word));
        let known = TABLES.longest(word, |_| None).map_or(0, |(_, languages, _)| languages);
        for (index, count) in counts.iter_mut().enumerate() {
            count.0 += u32::from(number.is_some_and(|number| number.languages & (1 << index) != 0));
            // A word of this language only.
            count.1 += u32::from(known == 1 << index);
        }
    }
    // Equal counts go to the language of the other words, then to the first.
    let best = (0..counts.len()).rev().max_by_key(|&index| counts[index]);
    best.filter(|&index| counts[index].0 > 0).map_or(0, |index| 1 << index)
}

fn number_at(tokens: &[Token], at: usize, language: u8) -> Option<NumberWord> {
    let word = tokens.get(at)?.word()?;
    let number = TABLES.number(word).or_else(|| TABLES.nearest_number(word))?;
    (number.languages & language != 0).then_some(number)
}

fn take_number(tokens: &[Token], language: u8, of_clock: bool) -> Option<(Number, usize)> {
    if let Some(number) = take_digit_run(tokens, language) {
        return Some(number);
    }
    // "double oh"
    if tokens[0].has(Sense::Doubled) {
        let zero = number_at(tokens, 1, language).filter(|number| number.value == 0.0)?;
        return Some((in_words(zero.value), 2));
    }
    // "a hundred", "a dozen"
    let article = tokens[0].has(Sense::One) && number_at(tokens, 1, language).is_some_and(|n| n.value >= 12.0);
    let mut at = usize::from(article);
    let (mut total, mut current) = (0.0, 0.0);
    let start = at;
    while let Some(word) = number_at(tokens, at, language) {
        if word.multiplies {
            if word.value >= 1000.0 {
                total = f64::max(current, 1.0) * word.value;
                current = 0.0;
            } else if current < 100.0 {
                current = f64::max(current, 1.0) * word.value;
            } else {
                break;
            }
        } else {
            let first = at == start;
            let pairs = total == 0.0 && !of_clock && TABLES.grammar(language).digit_pairs;
            let pair = pairs && (1.0..10.0).contains(&current) && (10.0..100.0).contains(&word.value);
            let next = if pair {
                Some(current * 100.0 + word.value)
            } else {
                extend(current, word.value, first, language)
            };
            match next {
                Some(sum) if first || total > 0.0 || current > 0.0 => current = sum,
                _ => break,
            }
        }
        at += 1;
        at += joiner(tokens, at, total, current, language);
    }
    if at == start {
        return None;
    }
    let mut value = total + current;
    if let Some(decimal) = take_point(tokens, at, language) {
        value += decimal / 10.0;
        at += 2;
    } else if tokens.get(at).is_some_and(|token| token.has(Sense::AndHalf)) {
        value += 0.5;
        at += 1;
    }
    let mut number = in_words(value);
    number.shy = at == start + 1 && value <= 12.0;
    Some((number, at))
}

/// What `current` becomes when `value` follows it; `None` when a new number begins.
fn extend(current: f64, value: f64, first: bool, language: u8) -> Option<f64> {
    if first {
        return Some(value);
    }
    let tens = current % 100.0;
    if value >= 100.0 {
        return (current == 0.0).then_some(value);
    }
    if current == 0.0 {
        return Some(value);
    }
    if tens == 0.0 && value > 0.0 {
        return Some(current + value);
    }
    let below_ten = (1.0..10.0).contains(&value);
    if tens >= 20.0 && tens % 10.0 == 0.0 && below_ten {
        return Some(current + value);
    }
    let grammar = TABLES.grammar(language);
    if grammar.twenties && (tens == 60.0 || tens == 80.0) && (10.0..20.0).contains(&value) {
        return Some(current + value);
    }
    // "one eighty", "three sixteen"
    let hundreds = (1.0..10.0).contains(&current) && value >= 10.0;
    // "eleven forty"
    let teens = (11.0..20.0).contains(&current) && value >= 20.0;
    if grammar.pairs && (hundreds || teens) {
        return Some(current * 100.0 + value);
    }
    None
}

/// "two hundred and five", "one thousand and sixty", "sesenta y cinco": one token more, if the number goes on behind it.
fn joiner(tokens: &[Token], at: usize, total: f64, current: f64, language: u8) -> usize {
    let Some(token) = tokens.get(at) else { return 0 };
    let Some(next) = number_at(tokens, at + 1, language).filter(|next| !next.multiplies) else {
        return 0;
    };
    if token.is_mark('-') && token.glued && extend(current, next.value, false, language).is_some() {
        return 1;
    }
    if !token.has(Sense::And) {
        return 0;
    }
    let tens = current % 100.0;
    let grammar = TABLES.grammar(language);
    let behind_tens = tens >= 20.0 && tens % 10.0 == 0.0 && (1.0..=11.0).contains(&next.value);
    let behind_hundreds = total + current >= 100.0 && tens == 0.0 && next.value < 100.0;
    let goes_on = grammar.and_behind_tens && behind_tens || grammar.and_behind_hundreds && behind_hundreds;
    usize::from(goes_on)
}

/// "twelve point five"
fn take_point(tokens: &[Token], at: usize, language: u8) -> Option<f64> {
    if !tokens.get(at)?.has(Sense::DecimalPoint) {
        return None;
    }
    number_at(tokens, at + 1, language)
        .map(|number| number.value)
        .filter(|&value| value < 10.0)
}

/// Three digits and more, one by one; two after a label are the same ("ro one two").
fn take_digit_run(tokens: &[Token], language: u8) -> Option<(Number, usize)> {
    let mut digits = String::new();
    let mut used = 0;
    while let Some(word) = number_at(tokens, used, language).filter(|word| !word.multiplies && word.value < 10.0) {
        digits.push(char::from_digit(word.value as u32, 10)?);
        used += 1;
    }
    // "one eight eighty" and "three one hundred" are no runs of digits.
    let goes_on = number_at(tokens, used, language).is_some();
    if used < 2 || goes_on || digits.len() > 9 {
        return None;
    }
    let value = digits.parse().ok()?;
    let all_zero = digits.bytes().all(|digit| digit == b'0');
    let number = Number {
        value,
        spelled: used > 3 && !all_zero,
        ..in_words(value)
    };
    Some((number, used))
}

fn in_words(value: f64) -> Number {
    Number {
        value,
        digits: String::new(),
        decimals: 0,
        in_words: true,
        shy: false,
        spelled: false,
    }
}
