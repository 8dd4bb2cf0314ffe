//! Words and phrases with their senses, from one table a language.
//!
//! A table line is `key: phrase, phrase=value, ...`; an indented line goes on with the one before, `#` begins a remark.
//! The key is a [`Sense`], or after `?` a [`Subject`]. A number word's value may be a factor: `hundred=*100`.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::lexer::{Kind, Token, lex};
use super::senses::{Sense, Senses, Subject, Subjects};

/// The languages, in the order of the tables.
pub const LANGUAGES: usize = 4;
const TABLES: [&str; LANGUAGES] = [
    include_str!("words/en.txt"),
    include_str!("words/es.txt"),
    include_str!("words/fr.txt"),
    include_str!("words/pl.txt"),
];
/// Words that only number, or that are nobody's slip, speak for no language.
const SPEAKS_FOR_NONE: Senses = Senses::of([Sense::num, Sense::ordinary]);
/// A phrase has at most so many words.
pub const LONGEST: usize = 8;

/// What the tables say of a phrase.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Entry {
    /// What it does in a clause.
    pub senses: Senses,
    /// What a question with it is about.
    pub subjects: Subjects,
    /// The value of a number word, weekday or month; below zero a factor.
    pub value: i32,
    /// The name that the table gives with `=name`, as a place in [`Lexicon::name`].
    pub name: u16,
}

impl Entry {
    fn is_empty(&self) -> bool {
        self.senses.is_empty() && self.subjects.is_empty()
    }
    fn add(&mut self, other: &Entry) {
        self.senses = self.senses.and(other.senses);
        self.subjects = self.subjects.and(other.subjects);
        self.value = if other.value != 0 { other.value } else { self.value };
        self.name = if other.name != 0 { other.name } else { self.name };
    }
}

/// All phrases of all tables.
pub struct Lexicon {
    words: HashMap<String, u32>,
    edges: HashMap<(u32, u32), u32>,
    nodes: Vec<[Entry; LANGUAGES]>,
    /// By the first letter: single words, for slips of the thumb.
    by_letter: HashMap<u8, Vec<(String, u32)>>,
    names: Vec<String>,
}

/// The languages that a stretch of text speaks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spoken {
    languages: [bool; LANGUAGES],
    sure: bool,
}

/// The tables, read once.
pub static LEXICON: LazyLock<Lexicon> = LazyLock::new(|| Lexicon::read(&TABLES));

/// The entries of a table with their keys; an indented line goes on with the one before.
pub fn entries(table: &str) -> Vec<(String, String)> {
    let mut lines: Vec<(&str, String)> = Vec::new();
    for line in table.lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
        if let (true, Some(last)) = (line.starts_with(' '), lines.last_mut()) {
            last.1.push(' ');
            last.1.push_str(line.trim());
        } else if let Some((key, rest)) = line.split_once(':') {
            lines.push((key.trim(), rest.to_string()));
        }
    }
    let split = |(key, rest): (&str, String)| {
        let entries: Vec<_> = rest
            .split(',')
            .map(|entry| (key.to_string(), entry.trim().to_string()))
            .collect();
        entries
    };
    lines
        .into_iter()
        .flat_map(split)
        .filter(|(_, entry)| !entry.is_empty())
        .collect()
}

impl Lexicon {
    fn read(tables: &[&str; LANGUAGES]) -> Lexicon {
        let mut all = Lexicon {
            words: HashMap::new(),
            edges: HashMap::new(),
            nodes: vec![[Entry::default(); LANGUAGES]],
            by_letter: HashMap::new(),
            names: vec![String::new()],
        };
        for (language, table) in tables.iter().enumerate() {
            for (key, entry) in entries(table) {
                all.add(language, &key, &entry);
            }
        }
        let mut singles: Vec<(String, u32)> = all.words.iter().map(|(word, id)| (word.clone(), *id)).collect();
        singles.sort();
        for (word, id) in singles {
            if let (Some(first), Some(node)) = (word.bytes().next(), all.edges.get(&(0, id))) {
                all.by_letter.entry(first).or_default().push((word, *node));
            }
        }
        all
    }

    fn add(&mut self, language: usize, key: &str, entry: &str) {
        let (phrase, value) = entry
            .split_once('=')
            .map_or((entry, None), |(phrase, value)| (phrase, Some(value)));
        let mut said = Entry::default();
        if let Some(key) = key.strip_prefix('?') {
            let Some(subject) = Subject::named(key.trim()) else {
                return;
            };
            said.subjects = Subjects::of([subject]);
        } else {
            let Some(sense) = Sense::named(key) else { return };
            said.senses = Senses::of([sense]);
        }
        if let Some(value) = value.map(str::trim) {
            let number = value
                .strip_prefix('*')
                .map_or_else(|| value.parse(), |f| f.parse::<i32>().map(|f| -f));
            match number {
                Ok(number) => said.value = number,
                Err(_) => said.name = self.intern_name(value),
            }
        }
        let mut node = 0;
        for token in lex(phrase).tokens {
            let next = u32::try_from(self.words.len()).unwrap_or(u32::MAX) + 1;
            let word = *self.words.entry(token.text).or_insert(next);
            node = match self.edges.get(&(node, word)) {
                Some(&known) => known,
                None => {
                    let fresh = u32::try_from(self.nodes.len()).unwrap_or(0);
                    self.nodes.push([Entry::default(); LANGUAGES]);
                    self.edges.insert((node, word), fresh);
                    fresh
                }
            };
        }
        if let Some(entry) = self.nodes.get_mut(node as usize).filter(|_| node != 0) {
            entry[language].add(&said);
        }
    }

    fn intern_name(&mut self, name: &str) -> u16 {
        let known = self.names.iter().position(|other| other == name);
        let at = known.unwrap_or_else(|| {
            self.names.push(name.to_string());
            self.names.len() - 1
        });
        u16::try_from(at).unwrap_or(0)
    }

    /// The name that a table gave with `=name`.
    pub fn name(&self, entry: u16) -> &str {
        self.names.get(usize::from(entry)).map_or("", String::as_str)
    }

    /// The number of a word; 0 if no table has it.
    pub fn word(&self, text: &str) -> u32 {
        self.words.get(text).copied().unwrap_or(0)
    }

    /// The languages that the words show: a word that one language alone has speaks for it.
    pub fn spoken(&self, words: impl Iterator<Item = u32>) -> Spoken {
        let mut score = [0_u32; LANGUAGES];
        for word in words.filter(|word| *word != 0) {
            let Some(found) = self
                .edges
                .get(&(0, word))
                .and_then(|node| self.nodes.get(*node as usize))
            else {
                continue;
            };
            let mut those = found.iter().enumerate().filter(|(_, entry)| !entry.is_empty());
            if let (Some((language, entry)), None) = (those.next(), those.next()) {
                let speaks = !entry.senses.without(SPEAKS_FOR_NONE).is_empty() || !entry.subjects.is_empty();
                score[language] += u32::from(speaks);
            }
        }
        let most = score.iter().copied().max().unwrap_or(0);
        Spoken {
            languages: score.map(|one| 2 * one >= most),
            sure: most > 0,
        }
    }

    /// The same for a stretch of a text: its own languages if it shows any, else those of the whole.
    pub fn spoken_in(&self, words: impl Iterator<Item = u32>, whole: Spoken) -> Spoken {
        let own = self.spoken(words);
        if own.sure { own } else { whole }
    }

    fn at(&self, node: u32, spoken: Spoken) -> Option<Entry> {
        let found = self.nodes.get(node as usize)?;
        if found.iter().all(Entry::is_empty) {
            return None;
        }
        // A word of the languages spoken has their senses only; any other word has those of its own.
        let own = found
            .iter()
            .zip(spoken.languages)
            .any(|(one, spoken)| spoken && !one.is_empty());
        let mut out = Entry::default();
        for (one, spoken) in found.iter().zip(spoken.languages) {
            if spoken || !own {
                out.add(one);
            }
        }
        Some(out)
    }

    /// What the tables say of one word.
    pub fn get(&self, word: u32, spoken: Spoken) -> Option<Entry> {
        self.edges.get(&(0, word)).and_then(|node| self.at(*node, spoken))
    }

    /// What the tables say of one word in any language.
    pub fn of_word(&self, text: &str) -> Option<Entry> {
        let all = Spoken {
            languages: [true; LANGUAGES],
            sure: true,
        };
        self.get(self.word(text), all)
    }

    /// The longest phrase that the words begin with: how many words it takes, and what it says.
    pub fn longest(&self, words: impl Iterator<Item = u32>, spoken: Spoken) -> Option<(usize, Entry)> {
        let mut node = 0;
        let mut best = None;
        for (place, word) in words.take(LONGEST).enumerate() {
            let Some(&next) = self.edges.get(&(node, word)).filter(|_| word != 0) else {
                break;
            };
            node = next;
            best = self.at(node, spoken).map(|entry| (place + 1, entry)).or(best);
        }
        best
    }

    /// A slip of one letter for a word that has one of the senses `wanted`.
    pub fn near(&self, typed: &str, wanted: Senses, spoken: Spoken) -> Option<Entry> {
        let first = typed.bytes().next()?;
        let wide = typed.len() >= 4;
        if typed.len() < 2 || wanted.is_empty() {
            return None;
        }
        let fits = |word: &str| {
            let close = if wide {
                word.len() >= 4 && word.len().abs_diff(typed.len()) <= 1
            } else if typed.len() == 2 {
                word.len() == 3
            } else {
                // In three letters only a swap of two of them is a slip.
                let sorted = |text: &str| {
                    let mut bytes = text.as_bytes().to_vec();
                    bytes.sort_unstable();
                    bytes
                };
                word.len() == typed.len() && sorted(word) == sorted(typed)
            };
            close && strsim::osa_distance(word, typed) == 1
        };
        self.by_letter.get(&first)?.iter().find_map(|(word, node)| {
            // A slip is made in the language that is spoken.
            let own = self.nodes.get(*node as usize)?.iter().zip(spoken.languages);
            own.into_iter()
                .find(|(one, spoken)| *spoken && one.senses.any(wanted))?;
            let entry = self.at(*node, spoken)?;
            // A slip of a short word for a number may be any word.
            let number = entry.senses.has(Sense::num) && typed.len() < 5;
            (!number && fits(word)).then_some(entry)
        })
    }

    /// The numbers of the words of a cut text.
    pub fn words_of(&self, tokens: &[Token]) -> Vec<u32> {
        let word = |token: &Token| match token.kind {
            Kind::Newline => 0,
            _ => self.word(&token.text),
        };
        tokens.iter().map(word).collect()
    }
}

/// What stands behind a first word that has one of these senses: the name in "the heron".
pub fn behind(text: &str, senses: Senses) -> Option<&str> {
    let (first, rest) = text.trim_start().split_once(char::is_whitespace)?;
    let said = LEXICON.of_word(&super::lexer::fold(first))?.senses;
    said.any(senses).then(|| rest.trim_start())
}

#[cfg(test)]
mod tests {
    use super::super::senses::OWNERS;
    use super::*;

    #[test]
    fn every_key_of_the_tables_is_known() {
        for table in TABLES {
            for (key, entry) in entries(table) {
                let known = match key.strip_prefix('?') {
                    Some(subject) => Subject::named(subject.trim()).is_some(),
                    None => Sense::named(&key).is_some(),
                };
                assert!(known, "{key}: {entry}");
            }
        }
    }

    #[test]
    fn a_word_has_one_owner() {
        for node in &LEXICON.nodes {
            for entry in node {
                let owners: Vec<&str> = OWNERS
                    .iter()
                    .filter(|(_, group)| entry.senses.any(*group))
                    .map(|(name, _)| *name)
                    .collect();
                assert!(owners.len() <= 1, "{} is {owners:?}", entry.senses.keys());
            }
        }
    }
}
