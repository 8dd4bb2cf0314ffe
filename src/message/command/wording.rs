//! How commands are worded: a table a language, matched word by word.
//!
//! A table is a text file in `words/`. A line is `key: wording, wording`; in a
//! wording a `*` stands for one word or more that are handed on as typed, and
//! a `?` at its end for a question mark. A key with a slash (`role/lead`)
//! gives the names of something. A new language is a new file and one line in
//! [`SOURCES`].

use std::sync::LazyLock;

use deunicode::deunicode;

const SOURCES: [&str; 2] = [include_str!("words/en.txt"), include_str!("words/es.txt")];

/// What only asks is the same with a question mark behind it.
const ASKS: [&str; 8] = [
    "help",
    "help on",
    "meaning",
    "noun",
    "fleet",
    "people",
    "who logged",
    "history of",
];

/// How like a known name a slip must be, by Jaro-Winkler.
const NEAR: f64 = 0.88;

/// One way to word a command.
struct Wording {
    key: &'static str,
    /// The words before the `*`; all words, if there is none.
    before: Vec<String>,
    /// The words after the `*`, if there is one.
    after: Option<Vec<String>>,
}

/// All wordings, the most telling first: a known beginning before a known end, many words before few.
static WORDINGS: LazyLock<Vec<Wording>> = LazyLock::new(|| {
    let mut wordings: Vec<Wording> = lines()
        .filter(|(key, _)| !key.contains('/'))
        .flat_map(|(key, list)| list.split(',').map(move |worded| wording(key, worded)))
        .collect();
    wordings.sort_by_key(|wording| {
        let words = wording.before.len() + wording.after.as_ref().map_or(0, Vec::len);
        (wording.before.is_empty(), std::cmp::Reverse(words))
    });
    wordings
});

/// Names: key and folded name.
static NAMES: LazyLock<Vec<(&str, String)>> = LazyLock::new(|| {
    lines()
        .filter(|(key, _)| key.contains('/'))
        .flat_map(|(key, list)| list.split(',').map(move |name| (key, fold(name.trim()))))
        .collect()
});

/// Lower case, without accents.
fn fold(text: &str) -> String {
    deunicode(text).to_lowercase()
}

/// Key and wordings of all lines of all tables.
fn lines() -> impl Iterator<Item = (&'static str, &'static str)> {
    SOURCES
        .iter()
        .flat_map(|source| source.lines())
        .filter(|line| !line.starts_with('#'))
        .filter_map(|line| line.split_once(':'))
        .map(|(key, list)| (key.trim(), list.trim()))
}

fn wording(key: &'static str, worded: &str) -> Wording {
    let mut words = worded.split_whitespace().map(fold);
    let before = words.by_ref().take_while(|word| word != "*").collect();
    let after = worded.contains('*').then(|| words.collect());
    Wording { key, before, after }
}

/// The commands that a text may be, likeliest first: key, and what stands for the `*`.
pub fn find(text: &str) -> impl Iterator<Item = (&'static str, &str)> {
    let words = without_politeness(words_of(text));
    WORDINGS.iter().filter_map(move |wording| {
        let unmarked = match words.split_last() {
            Some((last, words)) if last.folded == "?" && ASKS.contains(&wording.key) => words,
            _ => &words,
        };
        let rest = fitting(wording, unmarked)?;
        Some((wording.key, text.get(rest).unwrap_or_default().trim()))
    })
}

/// A word as it is compared, and where it stands.
struct Word {
    folded: String,
    from: usize,
    to: usize,
}

/// The words of a text; a question mark at its end is one of them.
fn words_of(text: &str) -> Vec<Word> {
    let mut words: Vec<Word> = Vec::new();
    let place = |part: &str| part.as_ptr() as usize - text.as_ptr() as usize;
    for part in text.split_whitespace() {
        let bare = part.trim_start_matches('¿').trim_end_matches(['?', ',', ':', '!']);
        let from = place(bare);
        if !bare.is_empty() {
            words.push(Word {
                folded: fold(bare),
                from,
                to: from + bare.len(),
            });
        }
        if part.ends_with('?') {
            words.push(Word {
                folded: "?".to_owned(),
                from: from + bare.len(),
                to: place(part) + part.len(),
            });
        }
    }
    words
}

/// "Could you ... please": says nothing about the command.
fn without_politeness(mut words: Vec<Word>) -> Vec<Word> {
    let is_polite = |word: &Word| named("polite", &word.folded).is_some();
    let last = words
        .iter()
        .rposition(|word| !is_polite(word))
        .map_or(0, |last| last + 1);
    words.truncate(last);
    let first = words.iter().position(|word| !is_polite(word)).unwrap_or(words.len());
    words.split_off(first)
}

/// Where in the text the `*` of a wording stands, if the wording fits; an empty place without one.
fn fitting(wording: &Wording, words: &[Word]) -> Option<std::ops::Range<usize>> {
    let same = |known: &[String], typed: &[Word]| known.iter().zip(typed).all(|(known, typed)| *known == typed.folded);
    let Some(after) = &wording.after else {
        return (words.len() == wording.before.len() && same(&wording.before, words)).then_some(0..0);
    };
    let end = words.len().checked_sub(after.len())?;
    let rest = words.get(wording.before.len()..end)?;
    let fits = same(&wording.before, words) && same(after, &words[end..]);
    Some(rest.first().filter(|_| fits)?.from..rest.last()?.to)
}

/// What a name names among the keys of a kind: `named("role", "encargado")` is `lead`.
pub fn named(kind: &str, name: &str) -> Option<&'static str> {
    let name = fold(name.trim());
    of_kind(kind).find(|(_, known)| *known == name).map(|(key, _)| key)
}

/// As [`named`], or the nearest name if it is near enough for a slip of the thumb.
pub fn nearly_named(kind: &str, name: &str) -> Option<&'static str> {
    let folded = fold(name.trim());
    let likeness = |known: &str| strsim::jaro_winkler(known, &folded);
    let nearest = || {
        of_kind(kind)
            .map(|(key, known)| (key, likeness(known)))
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .filter(|(_, likeness)| *likeness >= NEAR && folded.len() >= 4)
            .map(|(key, _)| key)
    };
    named(kind, name).or_else(nearest)
}

/// The first name whose words are these, slips of the thumb mended.
pub fn slip_of(kind: &str, name: &str) -> Option<&'static str> {
    let folded = fold(name.trim());
    let near = |known: &str| {
        known.split_whitespace().count() == folded.split_whitespace().count()
            && known
                .split_whitespace()
                .zip(folded.split_whitespace())
                .all(|(known, word)| strsim::jaro_winkler(known, word) >= NEAR)
    };
    of_kind(kind).find(|(_, known)| near(known)).map(|(key, _)| key)
}

fn of_kind(kind: &str) -> impl Iterator<Item = (&'static str, &'static str)> {
    NAMES.iter().filter_map(move |(key, name)| {
        let key = key.strip_prefix(kind)?.strip_prefix('/')?;
        Some((key, name.as_str()))
    })
}

/// The keys of one language's table, and those of its names, for the tests.
#[cfg(test)]
pub fn keys() -> Vec<Vec<&'static str>> {
    let keys_of = |source: &'static str| {
        let lines = source.lines().filter(|line| !line.starts_with('#'));
        lines
            .filter_map(|line| line.split_once(':'))
            .map(|(key, _)| key.trim())
            .collect()
    };
    SOURCES.iter().map(|source| keys_of(source)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_star_is_handed_on_as_typed_whatever_the_language() {
        for (text, key, rest) in [
            ("Add  rig  Big   Blue", "add rigs", "Big   Blue"),
            ("AÑADIR equipo Ñandú", "add rigs", "Ñandú"),
            ("heron is di only", "di only", "heron"),
            ("¿Qué significa agotada?", "meaning", "agotada"),
            ("heron ?", "look", "heron"),
        ] {
            assert!(find(text).any(|found| found == (key, rest)), "{text}");
        }
        assert_eq!(find("?").count(), 0);
        assert_eq!(find("").count(), 0);
    }

    #[test]
    fn a_name_is_found_in_every_language_and_by_a_slip() {
        assert_eq!(named("role", "Dueña"), Some("owner"));
        assert_eq!(named("role", "boss of it all"), None);
        assert_eq!(nearly_named("page", "resinn"), Some("resin"));
        assert_eq!(nearly_named("page", "qqqq"), None);
    }

    #[test]
    fn every_language_words_the_same_keys() {
        let keys: Vec<std::collections::BTreeSet<&str>> =
            keys().into_iter().map(|keys| keys.into_iter().collect()).collect();
        for other in &keys[1..] {
            let odd: Vec<_> = keys[0].symmetric_difference(other).collect();
            assert!(odd.is_empty(), "{odd:?}");
        }
    }
}
