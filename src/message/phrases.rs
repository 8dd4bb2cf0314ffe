//! Gives words their senses: the longest phrase of the tables, else the nearest word of the trade.

use std::borrow::Cow;

use super::languages::TABLES;
use super::senses::{Sense, Senses};
use super::tokens::{Kind, Token};

/// Joins the words of a phrase into one token and gives it the senses of the phrase.
pub fn join(tokens: Vec<Token>) -> Vec<Token> {
    let tokens = join_letter_and_digit(tokens);
    let texts: Vec<Option<Cow<str>>> = tokens.iter().map(text_of).collect();
    let mut joined: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut at = 0;
    while at < tokens.len() {
        let mut token = tokens[at].clone();
        let hit = texts[at]
            .as_deref()
            .and_then(|word| TABLES.longest(word, |next| texts.get(at + next)?.as_deref()));
        // A mark means something only within a phrase of several ("/help").
        let hit = hit.filter(|&(_, _, used)| used > 1 || token.word().is_some());
        let used = hit.map_or(1, |(_, _, used)| used);
        if let Some((senses, _, used)) = hit {
            token.senses = senses;
            // "how long" and "shall i" ask as their first words do.
            // "Esta mañana" asks nothing, though "esta" does.
            let plain = [
                Sense::Intent,
                Sense::Hypothetical,
                Sense::Morning,
                Sense::Afternoon,
                Sense::Evening,
                Sense::Period,
            ];
            let first = texts[at]
                .as_deref()
                .filter(|_| used > 1 && !senses.has_any(&plain))
                .map_or(Senses::default(), |word| TABLES.senses(word));
            for sense in [Sense::Asks, Sense::AsksFirst]
                .into_iter()
                .filter(|sense| first.has(*sense))
            {
                token.senses = token.senses.with(Senses::of(sense));
            }
        }
        if used > 1 {
            let words: Vec<&str> = texts[at..at + used].iter().filter_map(Option::as_deref).collect();
            token.kind = Kind::Word(words.join(" "));
        }
        joined.push(token);
        at += used;
    }
    joined
}

/// "b4", "gr8", "2day": words written with a digit.
fn join_letter_and_digit(tokens: Vec<Token>) -> Vec<Token> {
    let mut joined: Vec<Token> = Vec::with_capacity(tokens.len());
    for token in tokens {
        if let Some(last) = joined.last_mut().filter(|_| token.glued) {
            let word = match (&last.kind, &token.kind) {
                (Kind::Word(word), Kind::Number(number)) => format!("{word}{}", number.digits),
                (Kind::Number(number), Kind::Word(word)) => format!("{}{word}", number.digits),
                _ => String::new(),
            };
            if TABLES.senses(&word).has(Sense::WithDigit) {
                last.kind = Kind::Word(word);
                continue;
            }
        }
        joined.push(token);
    }
    joined
}

/// "red 180, ósmosis 12": Spanish for the mains, but in English a colour that rigs are named for, so that it
/// takes another Spanish label to tell.
fn tell_mains_from_colour(tokens: &mut [Token]) {
    let spanish = |token: &Token| matches!(token.word(), Some("osmosis" | "vidrio" | "cristal"));
    if !tokens.iter().any(spanish) {
        return;
    }
    for at in 1..tokens.len() {
        let mains =
            tokens[at].number().is_some() && tokens[at - 1].word() == Some("red") && tokens[at - 1].is_unknown();
        if mains {
            tokens[at - 1].senses = Senses::of(Sense::FeedWeak);
        }
    }
}

/// Words that no table knows get the senses of the word of the trade that is one slip away.
pub fn mend_slips(tokens: &mut [Token]) {
    tell_mains_from_colour(tokens);
    for at in 0..tokens.len() {
        // "otu 40": short words are mended only before a number.
        let before_number = tokens.get(at + 1).is_some_and(|next| next.number().is_some());
        let word = tokens[at]
            .word()
            .filter(|word| (2..=3).contains(&word.len()) && tokens[at].is_unknown() && before_number);
        let weak = word.and_then(|word| TABLES.nearest_short_label(word));
        if let Some(weak) = weak {
            tokens[at].senses = Senses::of(weak);
        }
    }
    for token in tokens.iter_mut().filter(|token| token.is_unknown()) {
        let near = token.word().and_then(|word| TABLES.nearest_trade_word(word));
        token.senses = near.unwrap_or_default();
    }
}

fn text_of(token: &Token) -> Option<Cow<'_, str>> {
    match &token.kind {
        Kind::Word(word) => Some(Cow::Borrowed(word)),
        Kind::Mark(mark) => Some(Cow::Owned(mark.to_string())),
        _ => None,
    }
}
