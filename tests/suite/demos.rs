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
    money_costs_es: "money-costs-es.txt",
    money_costs: "money-costs.txt",
    money_resin_es: "money-resin-es.txt",
    money_resin: "money-resin.txt",
    money_verdicts_es: "money-verdicts-es.txt",
    money_verdicts: "money-verdicts.txt",
    money_without_resin_es: "money-without-resin-es.txt",
    money_without_resin: "money-without-resin.txt",
    readings_es: "readings-es.txt",
    readings: "readings.txt",
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
