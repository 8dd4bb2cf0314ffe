//! What the pages of help show to type is understood, and whatever can be
//! typed is named on one of them.

use std::collections::BTreeSet;

use tapside::grammar::{Rig, Scene, Topic};
use tapside::message::command::{self, Command};
use tapside::message::setting::{self, Field, Wish, WishFor};
use tapside::replies::words::LANGUAGES;

use crate::house::read;
use crate::words::texts_in;
use crate::world::World;

/// How an answer begins to something that was not understood.
const HINTS: [&str; 16] = [
    "I log water readings",
    "Solo entiendo lecturas",
    "When it's",
    "Cuando est",
    "A reading is two",
    "Una lectura son dos",
    "Like this: ",
    "Así: ",
    "What about",
    "No lo entendí",
    "I've no help on that",
    "De eso no tengo ayuda",
    "No rig called",
    "No hay ningún equipo",
    "There's nobody called",
    "Aquí nadie se llama",
];

/// A page, and what it shows to type: what stands behind the last colon of a
/// line that is no sentence, several between " | ".
struct Shown {
    topic: String,
    examples: Vec<String>,
}

fn pages(tag: &str) -> Vec<Shown> {
    let texts = texts_in(&format!("src/replies/{tag}"));
    let of_topic = |key: &str| {
        let page = texts
            .get(&key.replace("topic-", "page-"))
            .expect("a page for each topic");
        Shown {
            topic: texts[key].body.trim().to_owned(),
            examples: examples(&page.body),
        }
    };
    let topics = texts.keys().filter(|key| key.starts_with("topic-"));
    topics.map(|key| of_topic(key)).collect()
}

fn examples(text: &str) -> Vec<String> {
    let lines = text.lines().map(str::trim).filter(|line| !line.ends_with('.'));
    lines
        .filter_map(|line| Some(line.rsplit_once(": ")?.1))
        .flat_map(|shown| shown.split(" | "))
        .map(|shown| {
            let shown = shown.trim().replace("{ $rig }", "heron").replace("{ $other }", "mule");
            shown.replace("NAME", "crew").replace("NOMBRE", "crew")
        })
        .collect()
}

#[test]
fn examples_are_found_on_a_page() {
    let page = "The owner types:\n    Name, zone: name Blue Ladder | zone { $rig }\n    Kept: all of it.\n    *14";
    assert_eq!(examples(page), ["name Blue Ladder", "zone heron"]);
    for (tag, _) in LANGUAGES {
        let shown: usize = pages(tag).iter().map(|page| page.examples.len()).sum();
        assert!(shown > 100, "{tag}: {shown}");
    }
}

#[tokio::test]
async fn what_a_page_shows_is_understood_in_english() {
    all_understood("en", "help").await;
}

#[tokio::test]
async fn what_a_page_shows_is_understood_in_spanish() {
    all_understood("es", "ayuda").await;
}

async fn all_understood(tag: &str, help: &str) {
    let mut wrong = Vec::new();
    for page in pages(tag) {
        let mut world = World::new().await;
        world.desk.speaks("owner", tag);
        let told = world.says("owner", &format!("{help} {}", page.topic)).await;
        assert!(told.lines().count() >= 2, "{help} {}: {told}", page.topic);
        let shown = examples(told.trim_start_matches("bot: "));
        assert_eq!(shown.len(), page.examples.len(), "{told}");
        for example in &shown {
            world.says("owner", "add rigs heron, otter, mule").await;
            world.says("crew", "undo").await;
            world.says("owner", "mule 180 12").await;
            let answer = world.says("owner", example).await;
            let said = answer.trim_start_matches("bot: ");
            if said.is_empty() || HINTS.iter().any(|hint| said.starts_with(hint)) {
                wrong.push(format!("{}: {example}\n  {answer}", page.topic));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// The tables of commands in which no key may be missing from the pages.
fn keys(tag: &str) -> Vec<(String, Vec<String>)> {
    let table = read(format!("src/message/command/words/{tag}.txt").as_ref());
    let lines = table.lines().filter(|line| !line.starts_with('#'));
    let keys = lines.filter_map(|line| line.split_once(": "));
    keys.filter(|(key, _)| !key.contains('/'))
        .map(|(key, wordings)| (key.to_owned(), wordings.split(", ").map(str::to_owned).collect()))
        .collect()
}

/// Keys that are no more than another way to say what a page does name.
const SYNONYMS: [&str; 6] = ["help", "noun", "which language", "english", "spanish", "place"];

#[test]
fn every_command_is_named_on_a_page() {
    for (tag, _) in LANGUAGES {
        let shown: Vec<String> = pages(tag).into_iter().flat_map(|page| page.examples).collect();
        let missing: Vec<String> = keys(tag)
            .into_iter()
            .filter(|(key, _)| !SYNONYMS.contains(&key.as_str()))
            .filter(|(_, wordings)| {
                !shown
                    .iter()
                    .any(|shown| wordings.iter().any(|wording| words(wording, shown)))
            })
            .map(|(key, _)| key)
            .collect();
        assert!(missing.is_empty(), "{tag}: {missing:?}");
    }
}

/// Whether a text is so worded, something standing for the `*`.
fn words(wording: &str, text: &str) -> bool {
    let bare = |text: &str| text.trim_matches(['¿', '?', '/', ' ']).to_lowercase();
    let asks =
        wording.ends_with('?') == text.ends_with('?') || wording.starts_with("what") || wording.starts_with("qué");
    let text = bare(text);
    match wording.split_once('*') {
        None => bare(wording) == text,
        Some((before, after)) => {
            let (before, after) = (before.trim_start(), bare(after));
            asks && text.starts_with(before) && text.ends_with(&after) && text.len() > before.len() + after.len()
        }
    }
}

#[test]
fn every_setting_is_named_on_a_page() {
    for (tag, _) in LANGUAGES {
        let mut named = BTreeSet::new();
        for example in pages(tag).iter().flat_map(|page| &page.examples) {
            let wished = match command::read(example) {
                Some(Command::Setting(wished)) => Some(wished),
                _ => setting::read(example),
            };
            if let Some(WishFor {
                wish: Wish::Set(setting),
                ..
            }) = wished
            {
                named.insert(setting.field().name());
            }
        }
        // One day of the week stands for all; days off are told in plain words there.
        let missing: Vec<_> = Field::all()
            .map(Field::name)
            .filter(|name| !named.contains(name) && !name.starts_with("day-ends-") && *name != "time-off")
            .collect();
        assert!(missing.is_empty(), "{tag}: {missing:?}");
        assert!(named.iter().any(|name| name.starts_with("day-ends-")), "{tag}");
    }
}

/// Questions that get another one's answer, or that a command takes first.
const ALSO_SAID: [Topic; 8] = [
    Topic::WhoLogged,
    Topic::LastReading,
    Topic::Rejection,
    Topic::Help,
    Topic::Fleet,
    Topic::History,
    Topic::Picture,
    Topic::Explain,
];

#[test]
fn every_question_is_named_on_a_page() {
    let rig = |id, name: &str| Rig {
        id,
        name: name.to_owned(),
        ..Rig::default()
    };
    let scene = Scene {
        fleet: vec![rig(1, "Heron"), rig(2, "Otter")],
        ..Scene::default()
    };
    for (tag, _) in LANGUAGES {
        let shown = pages(tag);
        let asked: Vec<Topic> = shown
            .iter()
            .flat_map(|page| &page.examples)
            .flat_map(|example| tapside::grammar::read(example, &scene).queries)
            .map(|query| query.topic)
            .collect();
        for topic in TOPICS.iter().filter(|topic| !ALSO_SAID.contains(topic)) {
            assert!(asked.contains(topic), "{tag}: {topic:?}");
        }
    }
}

const TOPICS: [Topic; 19] = [
    Topic::Status,
    Topic::LastReading,
    Topic::Rejection,
    Topic::Trend,
    Topic::History,
    Topic::MembraneWhen,
    Topic::ResinWhen,
    Topic::FlushStatus,
    Topic::Fleet,
    Topic::Quiet,
    Topic::Shopping,
    Topic::Help,
    Topic::Why,
    Topic::Picture,
    Topic::WhoLogged,
    Topic::Compare,
    Topic::Explain,
    Topic::Cost,
    Topic::WhatIf,
];

/// The page that lists the pages leaves none out.
#[test]
fn every_page_is_listed() {
    for (tag, _) in LANGUAGES {
        let texts = texts_in(&format!("src/replies/{tag}"));
        let list = &texts["page-topics"].body;
        let listed: BTreeSet<&str> = list.split(|letter: char| !letter.is_alphabetic()).collect();
        for page in pages(tag) {
            let itself = ["topics", "temas"].contains(&page.topic.as_str());
            assert!(itself || listed.contains(page.topic.as_str()), "{tag}: {}", page.topic);
        }
    }
}
