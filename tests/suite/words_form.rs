//! The form of the texts: plurals, no English left in another language, and
//! nothing longer than a phone's screen.

use tapside::replies::Words;
use tapside::replies::words::LANGUAGES;

use crate::words::{Text, texts_in};

/// The values that are counted things.
const COUNTS: [&str; 3] = ["count", "readings", "uses"];
/// Texts in which a count stands alone, with no word that would bend by it.
const COUNT_ALONE: [&str; 26] = [
    "picture-fleet-wants",
    "exported",
    "imported",
    "import-undone",
    "import-known",
    "import-withdrawn",
    "import-ahead",
    "import-misnamed",
    "import-more-bad",
    // Said of two at least.
    "import-several",
    "invite-several",
    "membrane-not-yet",
    "picture-count",
    "picture-more",
    "digest-and-more",
    "digest-count-good",
    "digest-count-fading",
    "digest-count-due",
    "digest-count-spent",
    "digest-count-fault",
    "digest-count-unproven",
    "digest-count-di",
    "digest-quiet-name",
    "digest-table-left",
    "digest-wants-change-resin",
    // Takes its counts as ready text.
    "digest-week",
];
/// Words that no Spanish text has.
const ENGLISH: [&str; 14] = [
    "the", "and", "your", "with", "this", "that", "type", "reading", "tap", "glass", "flushed", "not", "for", "rig",
];
/// Commands that a text of another language shows in English: how to go back to it.
const SHOWS_ENGLISH: [&str; 2] = ["language-now", "page-settings"];
/// Texts that are the same in every language: figures, names and signs alone, or a word that both have.
const SAME: [&str; 22] = [
    "picture-ppm",
    "sheet-no",
    "digest-short-ppm",
    "digest-jump",
    "reading-verdict",
    "reading-verdict-short",
    "history-line",
    "history-line-di",
    "people-title",
    "people-line",
    "membrane-level",
    "date-year",
    "service-noted",
    "topic-digest",
    "label-pair",
    "echo-membrane",
    "decimal-mark",
    "month-year",
    "date",
    "list-and",
    "money-by-language",
    "settings-currency",
];
/// What a phone shows without a thumb: lines, and characters.
const SCREEN: (usize, usize) = (12, 700);
/// Pages that may be a little longer, since they are asked for.
const LONGER: [&str; 1] = ["page-safety"];

/// Whether a text is made of figures, signs and values alone.
fn has_words(text: &Text) -> bool {
    let mut depth = 0;
    text.body.chars().any(|letter| {
        match letter {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        depth == 0 && letter.is_alphabetic()
    })
}

#[test]
fn what_is_counted_is_told_in_singular_and_plural() {
    let mut wrong = Vec::new();
    for (tag, _) in LANGUAGES {
        for (key, text) in texts_in(&format!("src/replies/{tag}")) {
            let counted = COUNTS.iter().filter(|count| text.values.contains(**count));
            for count in counted.filter(|_| !COUNT_ALONE.contains(&key.as_str())) {
                // Unicode CLDR, plural rules (cardinal): English has one and other; Spanish one, many
                // (whole millions) and other, which the default stands for.
                let chosen = text.body.contains(&format!("{{ ${count} ->"));
                if !chosen || !text.body.contains("[one]") || !text.body.contains("*[other]") {
                    wrong.push(format!("{}: {key} counts ${count} without one and other", text.place));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn spanish_counts_by_the_rules_of_its_own() {
    let words = Words::of(Some("es"));
    for (count, told) in [
        (1, "1 equipo"),
        (0, "0 equipos"),
        (2, "2 equipos"),
        (1_000_000, "1000000 equipos"),
    ] {
        let said = words.say("fleet-title", [("outfit", "X".into()), ("count", count.into())]);
        assert!(said.contains(told), "{said}");
        assert_eq!(count == 1, !said.contains("equipos"), "{said}");
    }
}

#[test]
fn no_english_is_left_in_another_language() {
    let english = texts_in("src/replies/en");
    let mut wrong = Vec::new();
    for (tag, _) in LANGUAGES.iter().filter(|(tag, _)| *tag != "en") {
        for (key, text) in texts_in(&format!("src/replies/{tag}")) {
            let same = english.get(&key).is_some_and(|english| english.body == text.body);
            if same && has_words(&text) && !SAME.contains(&key.as_str()) {
                wrong.push(format!("{}: {key} is as in English", text.place));
            }
            let mut words = text
                .body
                .split(|letter: char| !letter.is_alphanumeric() && letter != '$' && letter != '-');
            let left = words.find(|word| ENGLISH.contains(&word.to_lowercase().as_str()));
            if let Some(left) = left.filter(|_| !SHOWS_ENGLISH.contains(&key.as_str())) {
                wrong.push(format!("{}: {key} says \"{left}\"", text.place));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn nothing_is_longer_than_a_phones_screen() {
    let mut wrong = Vec::new();
    for (tag, _) in LANGUAGES {
        for (key, text) in texts_in(&format!("src/replies/{tag}")) {
            // A choice shows one of its lines.
            let (lines, letters) = match text.body.contains("->") {
                true => (1, text.body.lines().map(|line| line.chars().count()).max().unwrap_or(0)),
                false => (text.body.lines().count(), text.body.chars().count()),
            };
            if (lines > SCREEN.0 || letters > SCREEN.1) && !LONGER.contains(&key.as_str()) {
                wrong.push(format!("{}: {key} has {lines} lines, {letters} characters", text.place));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}
