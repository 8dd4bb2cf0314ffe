//! The language tables: words and phrases with their senses, number words, ordinary words.
//!
//! A table is a text file beside this one. A line is `key: word, phrase of words, ...`; the keys are those of
//! [`Sense`], `numbers` (`twelve=12, hundred=*100`), `number grammar` (how number words join) and `ordinary` (words
//! that are never a slip for a rig's name). A word may carry a value (`january=1`). `#` begins a comment. A new
//! language is a new file and one line in [`SOURCES`]; DEVELOPERS.md has the translator's guide.

use std::collections::{HashMap, HashSet};
use std::sync::LazyLock;

use super::senses::{Sense, Senses};

const SOURCES: &[&str] = &[
    include_str!("languages/en.txt"),
    include_str!("languages/es.txt"),
    include_str!("languages/fr.txt"),
    include_str!("languages/pl.txt"),
    // Shows in the unit tests that a language more is a table more.
    #[cfg(test)]
    include_str!("../../tests/data/languages/de.txt"),
];

/// A language is a bit of a byte, in the order of [`SOURCES`].
pub const MOST_LANGUAGES: usize = 8;

/// What a number word is worth, and in which languages it is one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NumberWord {
    pub value: f64,
    /// "hundred", "thousand": multiplies what stands before it.
    pub multiplies: bool,
    pub languages: u8,
}

/// How the number words of a language join.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct NumberGrammar {
    /// "one eighty" is 180, "eleven forty" 1140.
    pub pairs: bool,
    /// "uno ochenta" is 180, but "once cuarenta" two numbers.
    pub digit_pairs: bool,
    /// "two hundred and five"
    pub and_behind_hundreds: bool,
    /// "sesenta y cinco"
    pub and_behind_tens: bool,
    /// "quatre-vingt-douze"
    pub twenties: bool,
}

#[derive(Default)]
pub struct Tables {
    phrases: HashMap<String, Vec<Phrase>>,
    /// Values that words carry, by sense and word.
    values: HashMap<(u8, String), String>,
    grammars: [NumberGrammar; MOST_LANGUAGES],
    numbers: HashMap<String, NumberWord>,
    ordinary: HashSet<String>,
    /// Words by their first letter, to look for slips of the thumb.
    by_letter: HashMap<u8, Vec<String>>,
    number_letters: HashMap<u8, Vec<String>>,
    short_labels: Vec<String>,
    misheard: Vec<String>,
}

struct Phrase {
    /// The words after the first.
    rest: Vec<String>,
    senses: Senses,
    languages: u8,
}

/// All languages together: crews mix them within a message.
pub static TABLES: LazyLock<Tables> = LazyLock::new(|| {
    let mut tables = Tables::default();
    for (source, index) in SOURCES.iter().take(MOST_LANGUAGES).zip(0u8..) {
        for line in source.lines() {
            // A line that cannot be read is left out here and fails a test.
            let _ = tables.add_line(line, 1 << index);
        }
    }
    tables.index();
    tables
});

impl Tables {
    /// The longest phrase that begins with `word`: its senses, languages and number of words.
    pub fn longest<'a>(
        &self,
        word: &str,
        mut next: impl FnMut(usize) -> Option<&'a str>,
    ) -> Option<(Senses, u8, usize)> {
        let phrases = self.phrases.get(word)?;
        phrases.iter().find_map(|phrase| {
            let fits = phrase
                .rest
                .iter()
                .enumerate()
                .all(|(at, part)| next(at + 1) == Some(part));
            fits.then_some((phrase.senses, phrase.languages, 1 + phrase.rest.len()))
        })
    }

    /// The senses of a word that stands alone.
    pub fn senses(&self, word: &str) -> Senses {
        self.longest(word, |_| None)
            .map_or(Senses::default(), |(senses, _, _)| senses)
    }

    /// What a word of this sense carries: "half" of a clock 30, "march" of the months 3.
    pub fn value(&self, sense: Sense, word: &str) -> Option<&str> {
        self.values.get(&(sense as u8, word.to_owned())).map(String::as_str)
    }

    /// All values that words of this sense carry.
    #[cfg(test)]
    pub fn values_of(&self, sense: Sense) -> impl Iterator<Item = &str> {
        let own = self.values.iter().filter(move |((of, _), _)| *of == sense as u8);
        own.map(|(_, value)| value.as_str())
    }

    pub fn grammar(&self, language: u8) -> NumberGrammar {
        let index = language.trailing_zeros() as usize;
        self.grammars.get(index).copied().unwrap_or_default()
    }

    pub fn number(&self, word: &str) -> Option<NumberWord> {
        self.numbers.get(word).copied()
    }

    /// A word that people write anyway, so that it is no slip for a rig's name.
    pub fn is_ordinary(&self, word: &str) -> bool {
        self.phrases.contains_key(word) || self.ordinary.contains(word) || self.numbers.contains_key(word)
    }

    /// The one word of the trade that is a slip of the thumb away, if `word` is no ordinary word.
    pub fn nearest_trade_word(&self, word: &str) -> Option<Senses> {
        if word.len() < 4 || self.is_ordinary(word) {
            return None;
        }
        // The first two letters may have changed places.
        let first = word.bytes().next();
        let second = word.as_bytes().get(1).copied().filter(|second| Some(*second) != first);
        let candidates = first
            .into_iter()
            .chain(second)
            .filter_map(|letter| self.by_letter.get(&letter))
            .flatten();
        let mut near = candidates.filter(|known| one_slip_apart(word.as_bytes(), known.as_bytes()));
        let first = self.senses(near.next()?);
        // "fitted" and "fitter" may both be near: then the senses must agree.
        near.all(|other| self.senses(other) == first).then_some(first)
    }

    /// Words that dictation writes as others.
    pub fn misheard(&self) -> impl Iterator<Item = &str> {
        self.misheard.iter().map(String::as_str)
    }

    /// The weak label ("out") that a word of two or three letters is a slip of.
    pub fn nearest_short_label(&self, word: &str) -> Option<Sense> {
        let known = self
            .short_labels
            .iter()
            .find(|known| one_slip_apart(word.as_bytes(), known.as_bytes()))?;
        let feed = self.senses(known).has_any(&[Sense::Feed, Sense::FeedWeak]);
        Some(if feed { Sense::FeedWeak } else { Sense::PermeateWeak })
    }

    /// The one number word that is a slip of the thumb or tongue away ("twennty"), if `word` is no ordinary word.
    pub fn nearest_number(&self, word: &str) -> Option<NumberWord> {
        if word.len() < 5 || self.is_ordinary(word) {
            return None;
        }
        let known = self.number_letters.get(word.as_bytes().first()?)?;
        let mut near = known
            .iter()
            .filter(|known| one_slip_apart(word.as_bytes(), known.as_bytes()));
        let first = self.number(near.next()?)?;
        near.all(|other| self.number(other) == Some(first)).then_some(first)
    }

    fn add_line(&mut self, line: &str, language: u8) -> Result<(), String> {
        let line = line.split('#').next().unwrap_or_default().trim();
        if line.is_empty() {
            return Ok(());
        }
        let (key, words) = line.split_once(':').ok_or_else(|| format!("no key in {line:?}"))?;
        let mut words = words.split(',').map(str::trim).filter(|word| !word.is_empty());
        match key.trim() {
            "numbers" => words.try_for_each(|word| self.add_number(word, language)),
            "number grammar" => words.try_for_each(|word| self.add_grammar(word, language)),
            "misheard" => {
                self.misheard.extend(words.map(fold));
                Ok(())
            }
            "ordinary" => {
                self.ordinary.extend(words.map(fold));
                Ok(())
            }
            key => {
                let sense = Sense::named(key).ok_or_else(|| format!("no such key: {key:?}"))?;
                words.for_each(|phrase| match phrase.split_once('=') {
                    Some((phrase, value)) => {
                        let known = (sense as u8, pieces(phrase).join(" "));
                        self.values.entry(known).or_insert_with(|| value.trim().to_owned());
                        self.add_phrase(phrase, sense, language);
                    }
                    None => self.add_phrase(phrase, sense, language),
                });
                Ok(())
            }
        }
    }

    fn add_grammar(&mut self, word: &str, language: u8) -> Result<(), String> {
        let index = language.trailing_zeros() as usize;
        let grammar = self.grammars.get_mut(index).ok_or("too many languages")?;
        let place = match word {
            "pairs" => &mut grammar.pairs,
            "digit pairs" => &mut grammar.digit_pairs,
            "and behind hundreds" => &mut grammar.and_behind_hundreds,
            "and behind tens" => &mut grammar.and_behind_tens,
            "twenties" => &mut grammar.twenties,
            _ => return Err(format!("no such number grammar: {word:?}")),
        };
        *place = true;
        Ok(())
    }

    fn add_number(&mut self, word: &str, language: u8) -> Result<(), String> {
        let (word, value) = word.split_once('=').ok_or_else(|| format!("no value: {word:?}"))?;
        let multiplies = value.trim().starts_with('*');
        let value: f64 = value
            .trim()
            .trim_start_matches('*')
            .parse()
            .map_err(|_| format!("no number: {value:?}"))?;
        let entry = self.numbers.entry(fold(word.trim())).or_insert(NumberWord {
            value,
            multiplies,
            languages: 0,
        });
        entry.languages |= language;
        Ok(())
    }

    fn add_phrase(&mut self, phrase: &str, sense: Sense, language: u8) {
        let mut words = pieces(phrase).into_iter();
        let Some(first) = words.next() else { return };
        let rest: Vec<String> = words.collect();
        let phrases = self.phrases.entry(first).or_default();
        let senses = Senses::of(sense);
        match phrases.iter_mut().find(|known| known.rest == rest) {
            Some(known) => {
                known.senses = known.senses.with(senses);
                known.languages |= language;
            }
            None => phrases.push(Phrase {
                rest,
                senses,
                languages: language,
            }),
        }
    }

    fn index(&mut self) {
        for word in self.numbers.keys().filter(|word| word.len() >= 5) {
            self.number_letters
                .entry(word.as_bytes()[0])
                .or_default()
                .push(word.clone());
        }
        let trade = [
            Sense::Feed,
            Sense::Permeate,
            Sense::Product,
            Sense::Membrane,
            Sense::Resin,
            Sense::Prefilter,
            Sense::Done,
            Sense::Repacked,
            Sense::Flushed,
            Sense::Temperature,
            Sense::Pressure,
        ];
        for (word, phrases) in &mut self.phrases {
            phrases.sort_by_key(|phrase| std::cmp::Reverse(phrase.rest.len()));
            let alone = phrases.iter().find(|phrase| phrase.rest.is_empty());
            if alone.is_some_and(|phrase| phrase.senses.has(Sense::ShortLabel)) {
                self.short_labels.push(word.clone());
            }
            if word.len() >= 4 && alone.is_some_and(|phrase| phrase.senses.has_any(&trade)) {
                self.by_letter.entry(word.as_bytes()[0]).or_default().push(word.clone());
            }
        }
    }
}

/// The words and marks of a phrase: "mg/l" has three.
fn pieces(phrase: &str) -> Vec<String> {
    let mut pieces: Vec<String> = Vec::new();
    for word in phrase.split_whitespace() {
        let mut inside = false;
        for c in fold(word).chars() {
            match (c.is_alphanumeric(), inside) {
                (true, true) => pieces.last_mut().into_iter().for_each(|word| word.push(c)),
                _ => pieces.push(c.to_string()),
            }
            inside = c.is_alphanumeric();
        }
    }
    pieces
}

/// Lower case, without accents.
pub fn fold(word: &str) -> String {
    if word.is_ascii() {
        return word.to_ascii_lowercase();
    }
    deunicode::deunicode(word).to_lowercase()
}

/// One letter changed, left out, doubled, added, or two neighbours swapped.
pub fn one_slip_apart(typed: &[u8], known: &[u8]) -> bool {
    let same_start = typed.iter().zip(known).take_while(|(a, b)| a == b).count();
    let (typed, known) = (&typed[same_start..], &known[same_start..]);
    let same_end = typed
        .iter()
        .rev()
        .zip(known.iter().rev())
        .take_while(|(a, b)| a == b)
        .count();
    let (typed, known) = (&typed[..typed.len() - same_end], &known[..known.len() - same_end]);
    match (typed, known) {
        ([], [_]) | ([_], []) | ([_], [_]) => true,
        ([a, b], [c, d]) => a == d && b == c,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_of_every_table_can_be_read() {
        let mut tables = Tables::default();
        for source in SOURCES {
            for line in source.lines() {
                assert_eq!(tables.add_line(line, 1), Ok(()), "{line}");
            }
        }
    }

    #[test]
    fn a_slip_is_one_touch_of_the_thumb() {
        for (typed, known) in [
            ("fedd", "feed"),
            ("pemr", "perm"),
            ("oit", "out"),
            ("flushd", "flushed"),
            ("taap", "tap"),
        ] {
            assert!(one_slip_apart(typed.as_bytes(), known.as_bytes()), "{typed} {known}");
        }
        for (typed, known) in [("feed", "feed"), ("food", "feed"), ("per", "perms")] {
            assert!(!one_slip_apart(typed.as_bytes(), known.as_bytes()), "{typed} {known}");
        }
    }
}
