//! Conversations are replayed: the demos, which a newcomer reads, and those
//! that show the rarer answers, one for each room of answers and language.
//! `UPDATE=1` rewrites them, and the difference is read as prose.

use std::path::Path;

use tapside::play;

use crate::database::fresh_url;

const RARER: &str = "tests/conversations";

#[tokio::test]
async fn demo_conversations_read_as_they_stand() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-conversations");
    let files = play::conversations(&folder).unwrap();
    assert!(files.len() >= 3, "at least three conversations");
    for file in files {
        reads_as_it_stands(&file).await;
    }
}

/// A test for each conversation of the rarer answers, so that they are played side by side.
macro_rules! rarer {
    ($($name:ident: $file:literal,)*) => {
        $(
            #[tokio::test]
            async fn $name() {
                let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(RARER);
                reads_as_it_stands(&folder.join($file)).await;
            }
        )*
        const PLAYED: &[&str] = &[$($file),*];
    };
}

rarer! {
    asking_questions_es: "asking-questions-es.txt",
    asking_questions: "asking-questions.txt",
    danger_and_second_thoughts_es: "danger-and-second-thoughts-es.txt",
    danger_and_second_thoughts: "danger-and-second-thoughts.txt",
    data_exportar_e_importar: "data-exportar-e-importar.txt",
    data_exports_and_sheets: "data-exports-and-sheets.txt",
    data_guardar_y_cerrar: "data-guardar-y-cerrar.txt",
    data_kept_and_closed: "data-kept-and-closed.txt",
    days: "days.txt",
    dias: "dias.txt",
    digest_asked_es: "digest-asked-es.txt",
    digest_asked: "digest-asked.txt",
    digest_many_es: "digest-many-es.txt",
    digest_many: "digest-many.txt",
    digest_membranes_es: "digest-membranes-es.txt",
    digest_membranes: "digest-membranes.txt",
    digest_notes_es: "digest-notes-es.txt",
    digest_notes_membranes_es: "digest-notes-membranes-es.txt",
    digest_notes_membranes: "digest-notes-membranes.txt",
    digest_notes: "digest-notes.txt",
    digest_one_of_each_es: "digest-one-of-each-es.txt",
    digest_one_of_each: "digest-one-of-each.txt",
    digest_read_again_es: "digest-read-again-es.txt",
    digest_read_again: "digest-read-again.txt",
    es_figures: "es-figures.txt",
    figures: "figures.txt",
    help_hints_es: "help-hints-es.txt",
    help_hints: "help-hints.txt",
    help_pages_es: "help-pages-es.txt",
    help_pages: "help-pages.txt",
    help_words_es: "help-words-es.txt",
    help_words: "help-words.txt",
    help_wrong_input_es: "help-wrong-input-es.txt",
    help_wrong_input: "help-wrong-input.txt",
    money_costs_es: "money-costs-es.txt",
    money_costs: "money-costs.txt",
    money_resin_es: "money-resin-es.txt",
    money_resin: "money-resin.txt",
    money_verdicts_es: "money-verdicts-es.txt",
    money_verdicts: "money-verdicts.txt",
    money_without_resin_es: "money-without-resin-es.txt",
    money_without_resin: "money-without-resin.txt",
    nudges_evening_es: "nudges-evening-es.txt",
    nudges_evening: "nudges-evening.txt",
    people_come_and_go: "people-come-and-go.txt",
    people_entran_y_salen: "people-entran-y-salen.txt",
    planes: "planes.txt",
    plans: "plans.txt",
    readings_es: "readings-es.txt",
    readings_jump_and_new_es: "readings-jump-and-new-es.txt",
    readings: "readings.txt",
    settings_all_es: "settings-all-es.txt",
    settings_all: "settings-all.txt",
    setup_one_by_one: "setup-one-by-one.txt",
    setup_una_por_una: "setup-una-por-una.txt",
    time_off_es: "time-off-es.txt",
    time_off: "time-off.txt",
    told_twice_es: "told-twice-es.txt",
    told_twice: "told-twice.txt",
    two_rigs_en: "two-rigs-en.txt",
    two_rigs_es: "two-rigs-es.txt",
    year_ahead_es: "year-ahead-es.txt",
    year_ahead: "year-ahead.txt",
}

#[test]
fn every_conversation_is_played() {
    let files = play::conversations(&Path::new(env!("CARGO_MANIFEST_DIR")).join(RARER)).unwrap();
    let names: Vec<_> = files
        .iter()
        .map(|file| file.file_name().unwrap().to_str().unwrap())
        .collect();
    assert_eq!(names, PLAYED, "in the order of their names");
}

async fn reads_as_it_stands(file: &Path) {
    let text = std::fs::read_to_string(file).unwrap();
    let mut guards = Vec::new();
    let fresh = async || {
        let (url, guard) = fresh_url().await;
        guards.push(guard);
        Ok(url)
    };
    let played = play::play(&text, fresh, false).await.unwrap();
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(file, &played.script).unwrap();
        return;
    }
    assert!(
        played.differences.is_empty(),
        "{}: {:#?}",
        file.display(),
        played.differences
    );
}
