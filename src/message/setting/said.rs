//! A text in the words of settings: each word or phrase with what it may say, each number with how it was written.

use std::collections::HashMap;
use std::sync::LazyLock;

use crate::language::lexer::{CURRENCIES, Form, Kind, MOST_TOKENS, Token, fold, lex};
use crate::language::lexicon::{LEXICON, entries};
use crate::language::senses::{Sense, Senses};
use crate::language::spelled;

use super::amount::typed_number;
use super::currency::is_money;

const TABLES: [&str; 2] = [include_str!("words/en.txt"), include_str!("words/es.txt")];
/// A phrase has at most so many words.
const LONGEST: usize = 7;

/// What a phrase may say: keys of the tables, with the values that they give.
type Meanings = Vec<(String, i32)>;

static PHRASES: LazyLock<HashMap<String, Meanings>> = LazyLock::new(|| {
    let mut phrases: HashMap<String, Meanings> = HashMap::new();
    for (key, entry) in TABLES.iter().flat_map(|table| entries(table)) {
        let (phrase, value) = entry.split_once('=').unwrap_or((&entry, ""));
        let meanings = phrases.entry(fold(phrase)).or_default();
        meanings.push((key, value.parse().unwrap_or_default()));
    }
    phrases
});

/// What a word is to a number in words.
fn spoken(token: Option<&Token>) -> spelled::Spoken {
    let entry = token
        .filter(|token| token.kind == Kind::Word)
        .and_then(|token| LEXICON.of_word(&token.text));
    let Some((token, entry)) = token.zip(entry) else {
        return spelled::Spoken::default();
    };
    let is = |sense| entry.senses.has(sense);
    spelled::Spoken {
        value: is(Sense::num).then_some(entry.value),
        and: is(Sense::and),
        joins_ones: is(Sense::and) && token.text.len() == 1,
        times: if is(Sense::doubled) {
            entry.value.clamp(2, 3) as u8
        } else {
            0
        },
        point: is(Sense::point),
        half: is(Sense::half),
    }
}

/// Whether a table has the key: rows name no others.
#[cfg(test)]
pub fn is_key(key: &str) -> bool {
    PHRASES.values().flatten().any(|(known, _)| *known == key)
}

/// The single words of topics, for slips of the thumb.
pub fn topic_words(is_topic: impl Fn(&str) -> bool) -> impl Iterator<Item = &'static str> {
    let is_one = move |entry: &(&'static String, &'static Meanings)| {
        !entry.0.contains(' ') && entry.1.iter().any(|(key, _)| is_topic(key))
    };
    PHRASES.iter().filter(is_one).map(|(word, _)| word.as_str())
}

/// What words say nothing of a setting by, wherever they stand.
const SMALL: Senses = Senses::of([
    Sense::filler,
    Sense::prep,
    Sense::article,
    Sense::be,
    Sense::shows,
    Sense::modal,
    Sense::now,
    Sense::all,
    Sense::both,
    Sense::too,
    Sense::you,
    Sense::vehicle,
    Sense::ordinary,
    Sense::and,
    Sense::has,
    Sense::at,
    Sense::each,
    Sense::it,
    Sense::settle,
    Sense::wfeed,
    Sense::wperm,
    Sense::chat,
]);

/// What a word of no table is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Other {
    /// It says nothing.
    Small,
    /// It has a meaning of its own elsewhere: a deed, a time, a doubt.
    Telling,
    /// The language does not know it: a name, or talk.
    Unknown,
}

/// A word, a phrase or a number.
#[derive(Clone, Debug)]
pub struct Item {
    /// Folded, words parted by blanks.
    pub text: String,
    senses: Option<&'static Meanings>,
    /// What a number is, as money and settings are typed: with separators of thousands.
    pub number: Option<f64>,
    /// How it was written.
    pub form: Option<Form>,
    /// Where it stands, in bytes.
    pub start: usize,
    /// Where it ends.
    pub end: usize,
    /// Where it ends without what stands behind an apostrophe.
    pub stem_end: usize,
}

impl Item {
    /// Whether it may say this.
    pub fn is(&self, key: &str) -> bool {
        self.value(key).is_some()
    }

    /// The value that the tables give it as this.
    pub fn value(&self, key: &str) -> Option<i32> {
        let senses = self.senses?;
        senses.iter().find(|(known, _)| *known == key).map(|(_, value)| *value)
    }

    /// What it is if no table has it.
    pub fn other(&self) -> Option<Other> {
        if self.senses.is_some() || self.number.is_some() {
            return None;
        }
        Some(match LEXICON.of_word(&self.text) {
            Some(entry) if entry.senses.is_empty() || entry.senses.without(SMALL).is_empty() => Other::Small,
            Some(_) => Other::Telling,
            None => Other::Unknown,
        })
    }
}

/// A text that was cut, with what it asks.
#[derive(Debug)]
pub struct Said<'a> {
    /// As it was typed.
    pub text: &'a str,
    /// Its words and numbers.
    pub items: Vec<Item>,
    /// It has a question mark.
    pub asks: bool,
}

impl<'a> Said<'a> {
    /// Cuts a text; none if it has more than a line or more words than a setting.
    pub fn cut(text: &'a str, most: usize) -> Option<Self> {
        let tokens = lex(text).tokens;
        if tokens.len() > MOST_TOKENS.min(most * 2) {
            return None;
        }
        let mut items = Vec::new();
        let mut asks = false;
        let mut at = 0;
        while let Some(token) = tokens.get(at) {
            let longest = (1..=LONGEST.min(tokens.len() - at)).rev().find_map(|count| {
                let texts: Vec<&str> = tokens[at..at + count].iter().map(|token| token.text.as_str()).collect();
                let phrase = texts.join(" ");
                let last = &tokens[at + count - 1];
                // "resin's gone up"
                let stem = phrase.get(..phrase.len() - last.text.len() + last.stem);
                [Some(phrase.as_str()), stem].into_iter().flatten().find_map(|phrase| {
                    let senses = PHRASES.get(phrase)?;
                    Some((count, phrase.to_owned(), senses))
                })
            });
            let (start, _) = token.span;
            if let Some((count, text, senses)) = longest {
                let last = &tokens[at + count - 1];
                items.push(Item {
                    text,
                    senses: Some(senses),
                    number: None,
                    form: None,
                    start,
                    end: last.span.1,
                    stem_end: last.span.1,
                });
                at += count;
                continue;
            }
            if let Some((count, value)) =
                spelled::number(|ahead| spoken(tokens.get(at + ahead))).filter(|(count, _)| at + count <= tokens.len())
            {
                let end = tokens[at + count - 1].span.1;
                items.push(Item {
                    text: token.text.clone(),
                    senses: None,
                    number: Some(value),
                    form: Some(Form::Words),
                    start,
                    end,
                    stem_end: end,
                });
                at += count;
                continue;
            }
            at += 1;
            // "7,2360": more decimals than a reading has.
            let mut end = token.span.1;
            while token.is_number()
                && let [mark, rest, ..] = &tokens[at..]
                && matches!(mark.kind, Kind::Mark(',' | '.'))
                && rest.is_number()
                && mark.glued
                && rest.glued
            {
                (at, end) = (at + 2, rest.span.1);
            }
            let number = match token.kind {
                Kind::Newline => return None,
                Kind::Mark('?') => {
                    asks = true;
                    continue;
                }
                Kind::Mark('-') => None,
                Kind::Mark(mark) if CURRENCIES.contains(&mark) => None,
                Kind::Mark(_) | Kind::Emoji(_) => continue,
                Kind::Word => None,
                Kind::Number(value, form) => {
                    let typed = text.get(token.span.0..end).unwrap_or_default();
                    let plain = typed.trim_matches(|letter: char| !letter.is_ascii_digit());
                    Some((typed_number(plain).unwrap_or(value), form))
                }
            };
            items.push(Item {
                text: token.text.clone(),
                senses: None,
                number: number.map(|(value, _)| value),
                form: number.map(|(_, form)| form),
                start,
                end,
                stem_end: if token.stem < token.text.len() {
                    start + token.stem
                } else {
                    end
                },
            });
        }
        (items.len() <= most).then_some(Self { text, items, asks })
    }

    /// Whether an item is a sign or a word of money.
    pub fn is_money(&self, at: usize) -> bool {
        self.items.get(at).is_some_and(|item| {
            item.number.is_none() && (is_money(&item.text) || item.text.starts_with(|sign| CURRENCIES.contains(&sign)))
        })
    }

    /// The text from one item to another, as it was typed.
    pub fn typed(&self, from: usize, to: usize) -> &'a str {
        match (self.items.get(from), self.items.get(to)) {
            (Some(first), Some(last)) => self.text.get(first.start..last.stem_end).unwrap_or_default(),
            _ => "",
        }
    }
}
