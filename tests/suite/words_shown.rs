//! Every text that the bot can say is shown whole in a test or in a demo, so
//! that somebody has read it in its place. Of a text that chooses (singular or
//! plural, today or tomorrow) every choice has to be shown.
//!
//! What stands in the tests' strings, in the snapshots and in the demos is
//! searched for each text, its values standing for anything. A text that is
//! little else than values is found easily: here the test cannot be strict.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement, Resource, Variant, VariantKey};
use fluent_syntax::parser::parse;
use regex::{Regex, escape};

use tapside::replies::words::LANGUAGES;

use crate::house::source::Source;
use crate::house::{files, read, shown};

type Texts<'a> = BTreeMap<&'a str, &'a Pattern<String>>;

/// What a value may stand for: something on one line.
const VALUE: &str = r"[^\n]+?";
/// What a value may stand for that has lines of its own.
const LINES: &str = r"[^\n]*(?:\n[^\n]*){0,24}?";

/// Texts that lost the conversation which showed them, when the reader and the figures changed. Each wants one again; one
/// that is shown must leave this list.
const WANT_A_CONVERSATION: [&str; 46] = [
    "en/digest: digest-leak-since",
    "en/money: resin-short-last",
    "en/money: resin-short-early",
    "en/money: prefilters-overdue",
    "en/people: chat-taken",
    "es/data: did-rename-rig",
    "es/digest: digest-leak-since",
    "es/digest: preserved-since",
    "es/membrane: level-corrected",
    "es/money: resin-short-last",
    "es/money: resin-short-early",
    "es/money: prefilters-overdue",
    "es/people: chat-taken",
    "en/asking: ask-which-rig-named",
    "en/digest: digest-wants-resin-soon[other]",
    "en/digest: digest-membrane-pays",
    "en/digest: digest-many-resin-soon",
    "en/digest: digest-many-plan-membrane",
    "en/digest: note-membrane-pays",
    "en/help: try-parts",
    "en/money: money-now",
    "en/money: money-about",
    "en/money: resin-short-by-glass",
    "en/money: why-pays",
    "en/pictures: picture-fleet-fine[one]",
    "en/pictures: picture-in-use",
    "en/reading: reading-will-spot-no-resin",
    "es/asking: ask-which-rig-named",
    "es/digest: digest-wants-resin-soon[other]",
    "es/digest: digest-membrane-pays",
    "es/digest: digest-membrane-between-saves",
    "es/digest: digest-many-resin-soon",
    "es/digest: digest-many-plan-membrane",
    "es/digest: note-resin-low-ppm",
    "es/digest: note-membrane-pays",
    "es/figures: days-span[ayer]",
    "es/help: try-parts",
    "es/money: money-now",
    "es/money: money-about",
    "es/money: resin-done-by-glass",
    "es/money: resin-short-by-glass",
    "es/money: why-pays",
    "es/pictures: picture-due",
    "es/pictures: picture-fleet-fine[one]",
    "es/pictures: picture-in-use",
    "es/reading: reading-will-spot-no-resin",
];

#[test]
fn every_text_is_shown_in_a_test_or_a_demo() {
    let shown = everything_shown();
    let mut missing = Vec::new();
    for (tag, _) in LANGUAGES {
        let files = files(&format!("src/replies/{tag}"), "ftl");
        let families: Vec<_> = files
            .iter()
            .map(|file| (file.file_stem().unwrap().to_str().unwrap(), parse(read(file)).unwrap()))
            .collect();
        let all: Texts = families.iter().flat_map(|(_, texts)| texts_in(texts)).collect();
        for (family, texts) in &families {
            for (key, pattern) in texts_in(texts) {
                for (choice, form) in forms(pattern, &all) {
                    if !Regex::new(&form).unwrap().is_match(&shown) {
                        missing.push(format!("{tag}/{family}: {key}{choice}"));
                    }
                }
            }
        }
    }
    let known: Vec<String> = WANT_A_CONVERSATION.map(str::to_owned).to_vec();
    let shown_again: Vec<_> = known.iter().filter(|text| !missing.contains(text)).collect();
    assert!(shown_again.is_empty(), "shown again: {shown_again:?}");
    missing.retain(|text| !known.contains(text));
    assert!(
        missing.is_empty(),
        "\n{}\nnot shown: {}\n",
        missing.join("\n"),
        missing.len()
    );
}

/// The texts of a file by key.
fn texts_in(resource: &Resource<String>) -> impl Iterator<Item = (&str, &Pattern<String>)> {
    resource.body.iter().filter_map(|entry| match entry {
        Entry::Message(message) => Some((message.id.name.as_str(), message.value.as_ref()?)),
        _ => None,
    })
}

#[test]
fn a_text_that_is_not_shown_is_found() {
    let resource =
        parse("a = { $rig } is\n    fit { $n ->\n    [one] today\n   *[other] soon\n  }\n".to_owned()).unwrap();
    let Entry::Message(message) = &resource.body[0] else {
        panic!("a text")
    };
    let forms = forms(message.value.as_ref().unwrap(), &Texts::new());
    let found = |shown: &str| -> Vec<&str> {
        forms
            .iter()
            .filter(|(_, form)| Regex::new(form).unwrap().is_match(shown))
            .map(|(choice, _)| choice.as_str())
            .collect()
    };
    assert_eq!(found("Heron is\nfit today"), ["[one]"]);
    assert_eq!(found("Heron is\nfit soon"), ["[other]"]);
    assert!(found("Heron is\nnot fit today").is_empty());
    assert!(found("Heron is fit today").is_empty());
    assert!(found("Heron is\nfit todayish").is_empty());
}

/// The forms of a text, one for each choice in it: which choice, and what
/// matches it.
fn forms(pattern: &Pattern<String>, texts: &Texts) -> Vec<(String, String)> {
    let mut choices = BTreeSet::new();
    choices_in(pattern, &mut choices);
    if choices.is_empty() {
        choices.insert((0, String::new()));
    }
    choices
        .into_iter()
        .map(|choice| {
            let mut said = 0;
            let form = form(pattern, texts, &choice, &mut said);
            (choice.1, whole(&form))
        })
        .collect()
}

/// The choices of a text: which of its choosing places, and which key there.
fn choices_in(pattern: &Pattern<String>, choices: &mut BTreeSet<(usize, String)>) {
    let mut place = 0;
    let mut open = vec![pattern];
    while let Some(pattern) = open.pop() {
        for element in &pattern.elements {
            if let PatternElement::Placeable {
                expression: Expression::Select { variants, .. },
            } = element
            {
                choices.extend(variants.iter().map(|variant| (place, key_of(variant))));
                place += 1;
            }
        }
    }
}

fn key_of(variant: &Variant<String>) -> String {
    match &variant.key {
        VariantKey::Identifier { name } | VariantKey::NumberLiteral { value: name } => format!("[{name}]"),
    }
}

/// What matches a text with one of its choices made, and any other open.
fn form(pattern: &Pattern<String>, texts: &Texts, choice: &(usize, String), place: &mut usize) -> String {
    let mut form = String::new();
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => form.push_str(&escape(value)),
            PatternElement::Placeable {
                expression: Expression::Select { variants, .. },
            } => {
                let here = *place == choice.0 && !choice.1.is_empty();
                *place += 1;
                let open: Vec<_> = variants
                    .iter()
                    .filter(|variant| !here || key_of(variant) == choice.1)
                    .map(|variant| form_of_variant(&variant.value, texts))
                    .collect();
                form.push_str(&format!("(?:{})", open.join("|")));
            }
            PatternElement::Placeable {
                expression: Expression::Inline(inline),
            } => form.push_str(&inline_form(inline, texts)),
        }
    }
    form
}

fn form_of_variant(pattern: &Pattern<String>, texts: &Texts) -> String {
    form(pattern, texts, &(0, String::new()), &mut 0)
}

fn inline_form(inline: &InlineExpression<String>, texts: &Texts) -> String {
    match inline {
        InlineExpression::StringLiteral { value } | InlineExpression::NumberLiteral { value } => escape(value),
        InlineExpression::MessageReference { id, .. } => texts
            .get(id.name.as_str())
            .map_or_else(|| VALUE.to_owned(), |quoted| form_of_variant(quoted, texts)),
        _ => VALUE.to_owned(),
    }
}

/// A form that matches whole words only, and whose values on a line of their
/// own may have several lines.
fn whole(form: &str) -> String {
    let lines: Vec<_> = form
        .split('\n')
        .map(|line| match line.trim() {
            line if line == VALUE || line.is_empty() => LINES.to_owned(),
            line => line.to_owned(),
        })
        .collect();
    format!("(?mi)(?:^|[^\\w]){}(?:[^\\w]|$)", lines.join("\n"))
}

/// All that tests and demos show, its lines without margin and speaker.
fn everything_shown() -> String {
    static SPEAKER: LazyLock<Regex> = LazyLock::new(|| Regex::new(r"(?m)^ *(?:bot(?: to [^:\n]+)?: )?").unwrap());
    let mut all = String::new();
    for path in files("tests/suite", "rs") {
        if shown(&path).ends_with("words_shown.rs") {
            continue;
        }
        for literal in Source::read(&read(&path)).literals {
            let text = literal.text.replace("\\\"", "\"").replace("\\n", "\n");
            all.push_str(&text);
            all.push('\n');
        }
    }
    for path in files("tests/suite/snapshots", "snap")
        .iter()
        .chain(&files("demo-conversations", "txt"))
        .chain(&files("tests/conversations", "txt"))
    {
        all.push_str(&read(path));
        all.push('\n');
    }
    SPEAKER.replace_all(&all, "").into_owned()
}
