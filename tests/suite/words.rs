//! The test of the words: every text that the code asks for is there, none is
//! there for nothing, and each language has the same texts with the same
//! values.
#![allow(clippy::panic, reason = "a test says by panicking what is wrong")]

use std::collections::{BTreeMap, BTreeSet};

use fluent_bundle::FluentResource;

use crate::house::source::Source;
use crate::house::{files, read, shown};

use tapside::message::setting::{Field, Setting};
use tapside::replies::settings::key;
use tapside::replies::words::LANGUAGES;

const ENGLISH: &str = "src/replies/en";

#[test]
fn every_text_asked_for_is_there_and_none_for_nothing() {
    let texts = texts_in(ENGLISH);
    let sources: Vec<_> = files("src", "rs")
        .iter()
        .map(|path| (shown(path), read(path)))
        .collect();
    let mut wrong = unmatched(&texts, &sources);
    // Those of settings are made of their lasting names.
    let of_settings = keys_of_settings();
    wrong.retain(|wrong| {
        !of_settings
            .iter()
            .any(|key| wrong.contains(&format!(" {key} is asked for nowhere")))
    });
    wrong.extend(of_settings.into_iter().filter(|key| !texts.contains_key(key)));
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn every_language_has_the_same_texts_with_the_same_values() {
    let english = texts_in(ENGLISH);
    let mut wrong = Vec::new();
    for (tag, _) in LANGUAGES {
        let folder = format!("src/replies/{tag}");
        wrong.extend(unlike(&english, &texts_in(&folder), &folder));
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn every_file_of_texts_is_built_in() {
    let built_in: Vec<&str> = LANGUAGES.iter().flat_map(|(_, texts)| *texts).copied().collect();
    for path in files("src/replies", "ftl") {
        assert!(built_in.contains(&read(&path).as_str()), "{}", shown(&path));
    }
}

/// The texts of a language: all files of its folder.
pub fn texts_in(folder: &str) -> BTreeMap<String, Text> {
    let mut texts = BTreeMap::new();
    for path in files(folder, "ftl") {
        for (key, text) in texts_of(&shown(&path), &read(&path)) {
            let place = text.place.clone();
            assert!(
                texts.insert(key.clone(), text).is_none(),
                "{place}: {key} is there twice"
            );
        }
    }
    texts
}

/// One text: where it stands and what it takes in.
#[derive(Debug, Default, PartialEq)]
pub struct Text {
    pub place: String,
    /// What stands behind its key, as written.
    pub body: String,
    /// `$rig` is `rig`.
    pub values: BTreeSet<String>,
    /// Other texts that it quotes: `{ state-good }`.
    quotes: BTreeSet<String>,
}

/// The texts of a file, by key.
fn texts_of(file: &str, content: &str) -> BTreeMap<String, Text> {
    if let Err((_, errors)) = FluentResource::try_new(content.to_owned()) {
        panic!("{file}: {errors:?}");
    }
    let mut texts: BTreeMap<String, Text> = BTreeMap::new();
    let mut open = None;
    for (number, line) in content.lines().enumerate() {
        if line.starts_with('#') {
            continue;
        }
        let mut body = line;
        if let (true, Some((key, rest))) = (
            line.starts_with(|letter: char| letter.is_ascii_alphabetic()),
            line.split_once('='),
        ) {
            let key = key.trim().to_owned();
            let text = Text {
                place: format!("{file}:{}", number + 1),
                ..Text::default()
            };
            assert!(
                texts.insert(key.clone(), text).is_none(),
                "{file}:{}: {key} is there twice",
                number + 1
            );
            (open, body) = (Some(key), rest);
        }
        if let Some(text) = open.as_ref().and_then(|key| texts.get_mut(key)) {
            text.body.push_str(body.trim());
            text.body.push('\n');
            read_placeables(body, text);
        }
    }
    texts
}

/// What stands after `{`, or after `$` anywhere, in one line.
fn read_placeables(line: &str, text: &mut Text) {
    let name = |rest: &str| -> String {
        rest.chars()
            .take_while(|letter| letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_'))
            .collect()
    };
    for rest in line.split('{').skip(1) {
        let inside = rest.trim_start();
        if let Some(value) = inside.strip_prefix('$') {
            text.values.insert(name(value));
        } else if inside.starts_with(|letter: char| letter.is_ascii_lowercase()) {
            text.quotes.insert(name(inside));
        }
    }
}

/// Keys asked for and not there, and the reverse. A key counts as asked for
/// when it stands whole in the code.
fn unmatched(texts: &BTreeMap<String, Text>, sources: &[(String, String)]) -> Vec<String> {
    let mut wrong = Vec::new();
    let quoted = texts.values().flat_map(|text| &text.quotes);
    let mut asked: BTreeSet<&str> = quoted.map(String::as_str).collect();
    for key in asked.iter().filter(|key| !texts.contains_key(**key)) {
        wrong.push(format!("{ENGLISH}: a text quotes {key}, which is not there"));
    }
    for (file, content) in sources {
        let source = Source::read(content);
        for literal in &source.literals {
            let key = literal.text.as_str();
            if let Some((known, _)) = texts.get_key_value(key) {
                asked.insert(known);
            } else if is_said(&source.code[..literal.at]) || file.starts_with("src/replies/") && looks_like_a_key(key) {
                wrong.push(format!("{file}:{}: {key} is not in {ENGLISH}", source.line(literal.at)));
            }
        }
    }
    let unused = texts.iter().filter(|(key, _)| !asked.contains(key.as_str()));
    wrong.extend(unused.map(|(key, text)| {
        format!(
            "{}: {key} is asked for nowhere (keys stand whole in the code, so that they can be found)",
            text.place
        )
    }));
    wrong
}

/// The keys of settings.
fn keys_of_settings() -> Vec<String> {
    let more = [(Field::QuietHours, "off"), (Field::Meter, "0.5"), (Field::Keep, "5")];
    let few = Field::all().flat_map(|field| field.kind().choices().iter().map(move |text| (field, *text)));
    let kept = few.chain(more).filter_map(|(field, text)| Setting::kept(field, text));
    let shown = Field::all()
        .flat_map(|field| [field.default(), field.example()])
        .flatten();
    kept.chain(shown).map(|setting| key(&setting)).collect()
}

/// Whether a string after this code is the key of `.say(` or `.plain(`.
fn is_said(before: &str) -> bool {
    let before = before.trim_end();
    [".say(", ".plain("].iter().any(|call| before.ends_with(call))
}

/// `change-up`, but not `up`, `-`, `en-US` or a sentence.
fn looks_like_a_key(text: &str) -> bool {
    let is_part = |part: &str| {
        !part.is_empty()
            && part
                .chars()
                .all(|letter| letter.is_ascii_lowercase() || letter.is_ascii_digit())
    };
    text.contains('-') && text.starts_with(|letter: char| letter.is_ascii_lowercase()) && text.split('-').all(is_part)
}

/// How the texts of `file` differ from the English ones.
fn unlike(english: &BTreeMap<String, Text>, other: &BTreeMap<String, Text>, file: &str) -> Vec<String> {
    let mut wrong = Vec::new();
    for (key, text) in english {
        match other.get(key) {
            None => wrong.push(format!("{file}: {key} is missing")),
            Some(found) if found.values != text.values => {
                wrong.push(format!(
                    "{}: {key} takes {:?}, in English {:?}",
                    found.place, found.values, text.values
                ));
            }
            Some(_) => {}
        }
    }
    let extra = other.iter().filter(|(key, _)| !english.contains_key(*key));
    wrong.extend(extra.map(|(key, text)| format!("{}: {key} is not in {ENGLISH}", text.place)));
    wrong
}

#[cfg(test)]
mod tests {
    use super::{ENGLISH, texts_of, unlike, unmatched};

    const TEXTS: &str = "# The reading\ngreeting = Hello { $name }\nrig-count = { $count ->\n    [one] 1 rig\n   *[other] { $count } { noun } of { $owner }\n  }\nnoun = rigs\n";

    fn wrong_in(file: &str, code: &str) -> Vec<String> {
        unmatched(&texts_of(ENGLISH, TEXTS), &[(file.to_owned(), code.to_owned())])
    }

    #[test]
    fn what_is_asked_for_and_there_is_right() {
        let code = "fn f() { words\n.say(\n\"greeting\", [(\"name\", x)]); let key = if y { \"rig-count\" } else { \"up\" }; }";
        assert_eq!(wrong_in("src/replies/a.rs", code), Vec::<String>::new());
    }

    #[test]
    fn a_missing_text_is_told_where_it_is_asked_for() {
        let known = "let a = [\"greeting\", \"rig-count\"];\n";
        for (file, code, told) in [
            (
                "src/bot/a.rs",
                "words.plain(\"farewell\")",
                "src/bot/a.rs:2: farewell is not in src/replies/en",
            ),
            (
                "src/replies/a.rs",
                "let key = \"rig-cuont\";",
                "src/replies/a.rs:2: rig-cuont is not in src/replies/en",
            ),
        ] {
            assert_eq!(wrong_in(file, &format!("{known}{code}")), [told]);
        }
    }

    #[test]
    fn a_text_that_nothing_asks_for_is_told() {
        let in_a_comment =
            "let a = \"greeting\"; // \"rig-count\"\n#[cfg(test)]\nmod tests { const K: &str = \"rig-count\"; }";
        let wrong = wrong_in("src/replies/a.rs", in_a_comment);
        assert_eq!(wrong.len(), 1, "{wrong:?}");
        assert!(
            wrong[0].starts_with("src/replies/en:3: rig-count is asked for nowhere"),
            "{wrong:?}"
        );
    }

    #[test]
    fn another_language_must_have_the_same() {
        let other = "greeting = Hola { $nombre }\nnoun = equipos\nfarewell = Adios\n";
        assert_eq!(
            unlike(&texts_of(ENGLISH, TEXTS), &texts_of("es.ftl", other), "es.ftl"),
            [
                "es.ftl:1: greeting takes {\"nombre\"}, in English {\"name\"}",
                "es.ftl: rig-count is missing",
                "es.ftl:3: farewell is not in src/replies/en",
            ]
        );
        assert!(unlike(&texts_of(ENGLISH, TEXTS), &texts_of(ENGLISH, TEXTS), "es.ftl").is_empty());
    }
}
