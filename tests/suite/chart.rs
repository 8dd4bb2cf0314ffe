//! The pictures, drawn from invented rigs by the real way: what must hold of each.
//!
//! With `TAPSIDE_PICTURES=FOLDER` the gallery is written there as PNGs, to be looked at.

use tapside::bot::pictures::{fleet, renewal_cost, resin_life, rig_history};
use tapside::chart::sheet::{HEIGHT, SMALLEST, WIDTH};
use tapside::chart::{Sheet, png};
use tapside::replies::Words;
use tapside::replies::words::LANGUAGES;
use tapside::water::condition::Condition;
use tapside::water::settings::Limits;

use crate::chart_rarer as rarer;
use crate::chart_scenes::{self as scenes, Plot, Scene, played};

fn dollars(amount: f64) -> String {
    format!("${amount:.0}")
}

/// Rigs whose four pictures are looked at.
fn rigs() -> Vec<(&'static str, Scene)> {
    vec![
        (
            "due",
            played(
                "Otter",
                Plot {
                    growth: 1.0,
                    slips: &[20, 55],
                    ..Plot::default()
                },
            ),
        ),
        (
            "leak",
            played(
                "Kestrel",
                Plot {
                    leak: Some((9, 0, 2.6)),
                    every: 2,
                    days: 200,
                    ..Plot::default()
                },
            ),
        ),
        (
            "sound",
            played(
                "Heron",
                Plot {
                    growth: 0.25,
                    days: 500,
                    ..Plot::default()
                },
            ),
        ),
        (
            "renewed",
            played(
                "Mule",
                Plot {
                    growth: 1.0,
                    renewed: Some(110),
                    leak: Some((260, 230, 2.2)),
                    days: 500,
                    ..Plot::default()
                },
            ),
        ),
        (
            "young",
            played(
                "Wren",
                Plot {
                    days: 20,
                    ..Plot::default()
                },
            ),
        ),
        (
            "unlogged",
            played(
                "Lynx",
                Plot {
                    logged: false,
                    start: 0.9,
                    growth: 0.6,
                    days: 160,
                    ..Plot::default()
                },
            ),
        ),
        (
            "spent",
            played(
                "Badger",
                Plot {
                    growth: 1.5,
                    days: 420,
                    every: 3,
                    ..Plot::default()
                },
            ),
        ),
        (
            "five_years",
            played(
                "Ibis",
                Plot {
                    days: 1800,
                    every: 3,
                    growth: 0.7,
                    renewed: Some(500),
                    ..Plot::default()
                },
            ),
        ),
        ("empty", scenes::scene("Newt", Vec::new(), scenes::priced())),
    ]
}

/// Every picture of the gallery in a language, by name.
pub fn gallery(tag: &str) -> Vec<(String, Sheet)> {
    let words = Words::of(Some(tag));
    let mut sheets = Vec::new();
    for (name, scene) in rigs().into_iter().chain(rarer::rigs()) {
        let seen = scene.seen();
        sheets.extend(rig_history(words, &seen).map(|sheet| (format!("{tag}_history_{name}"), sheet)));
        sheets.push((format!("{tag}_resin_{name}"), resin_life(words, &seen)));
        sheets.extend(renewal_cost(words, &seen, &dollars).map(|sheet| (format!("{tag}_money_{name}"), sheet)));
    }
    for count in [0, 1, 3, 7, 9, 60] {
        let scenes = scenes::fleet(count);
        let seen: Vec<_> = scenes.iter().map(Scene::seen).collect();
        let today = jiff::civil::date(2026, 11, 25);
        for (page, sheet) in fleet(words, &seen, Limits::default(), today).into_iter().enumerate() {
            sheets.push((format!("{tag}_fleet_{count}_{}", page + 1), sheet));
        }
    }
    let few = rarer::alone().into_iter().map(|(name, scene)| (name, vec![scene]));
    let more = [("fine", rarer::in_order()), ("beds", rarer::beds())];
    for (name, scenes) in few.chain(more) {
        let seen: Vec<_> = scenes.iter().map(Scene::seen).collect();
        let pages = fleet(words, &seen, Limits::default(), jiff::civil::date(2026, 11, 25));
        sheets.extend(pages.into_iter().map(|sheet| (format!("{tag}_fleet_{name}"), sheet)));
    }
    sheets
}

/// On the picture the words stand in two lines; here they are read in one.
#[test]
fn the_rule_of_thumb_is_told_beside_the_money() {
    let (_, scene) = rarer::rigs().into_iter().find(|(name, _)| *name == "kept").unwrap();
    let words = |tag| {
        let sheet = renewal_cost(Words::of(Some(tag)), &scene.seen(), &dollars).unwrap();
        let all: Vec<&str> = sheet.words().iter().map(|placed| placed.text.as_str()).collect();
        all.join(" ")
    };
    assert!(
        words("en").contains("80 % rule: mid Mar 2027, $69 dearer"),
        "{}",
        words("en")
    );
    assert!(
        words("es").contains("regla del 80 %: mediados de mar 2027, $69 más caro"),
        "{}",
        words("es")
    );
}

/// What stands on each picture, so that it is read as prose: axes and the large fleet
/// left out.
#[test]
fn the_words_on_the_pictures() {
    for (tag, _) in LANGUAGES {
        let told: Vec<String> = gallery(tag)
            .iter()
            .filter(|(name, _)| !name.contains("fleet_60"))
            .map(|(name, sheet)| format!("{name}\n{}", lines_of(sheet)))
            .collect();
        insta::assert_snapshot!(format!("words_on_the_pictures_{tag}"), told.join("\n\n"));
    }
}

/// The texts of a sheet that are more than a number or a month, each once.
fn lines_of(sheet: &Sheet) -> String {
    let mut lines: Vec<String> = Vec::new();
    for placed in sheet.words() {
        let told = placed.text.chars().filter(|letter| letter.is_alphabetic()).count();
        let line = format!("  {}", placed.text);
        if told > 3 && !lines.contains(&line) {
            lines.push(line);
        }
    }
    lines.join("\n")
}

#[test]
fn words_lie_within_the_sheet_and_not_upon_each_other() {
    for (tag, _) in LANGUAGES {
        for (name, sheet) in gallery(tag) {
            for (nth, placed) in sheet.words().iter().enumerate() {
                let area = placed.area;
                assert!(
                    area.left >= 0.0
                        && area.top >= 0.0
                        && area.right <= f64::from(WIDTH)
                        && area.bottom <= f64::from(HEIGHT),
                    "{name}: {placed:?} is off the sheet"
                );
                assert!(placed.hand.size >= SMALLEST, "{name}: {placed:?} is too small");
                for other in &sheet.words()[nth + 1..] {
                    assert!(
                        !area.meets(&other.area),
                        "{name}: {:?} lies upon {:?}",
                        placed.text,
                        other.text
                    );
                }
            }
        }
    }
}

#[test]
fn the_gallery_can_be_written_out() {
    let Some(folder) = std::env::var_os("TAPSIDE_PICTURES").map(std::path::PathBuf::from) else {
        return;
    };
    std::fs::create_dir_all(&folder).unwrap();
    for (tag, _) in LANGUAGES {
        for (name, sheet) in gallery(tag) {
            std::fs::write(folder.join(format!("{name}.png")), png(&sheet).unwrap()).unwrap();
        }
    }
}

#[test]
fn readings_and_beds_lie_within_their_frame() {
    for (name, sheet) in gallery("en") {
        let svg = sheet.svg();
        let read = resvg::usvg::roxmltree::Document::parse(&svg).unwrap();
        for circle in read.descendants().filter(|node| node.has_tag_name("circle")) {
            let at = |name: &str| {
                circle
                    .attribute(name)
                    .and_then(|value| value.parse::<f64>().ok())
                    .unwrap()
            };
            let (x, y) = (at("cx"), at("cy"));
            // Of a history the frame's; what lies below it is the key.
            if name.contains("history") && y < 700.0 {
                assert!(
                    (132.0..=1044.0).contains(&x) && (196.0..=636.0).contains(&y),
                    "{name}: {x} {y}"
                );
            }
            assert!(
                (0.0..=f64::from(WIDTH)).contains(&x) && (0.0..=f64::from(HEIGHT)).contains(&y),
                "{name}: {x} {y}"
            );
        }
    }
}

#[test]
fn the_same_facts_give_the_same_picture() {
    let again = gallery("es");
    for ((name, sheet), (_, other)) in gallery("es").iter().zip(&again) {
        assert_eq!(sheet.svg(), other.svg(), "{name}");
    }
}

#[test]
fn a_large_fleet_is_shown_counted_and_listed_in_full() {
    let scenes = scenes::fleet(60);
    let seen: Vec<_> = scenes.iter().map(Scene::seen).collect();
    let pages = fleet(
        Words::of(Some("en")),
        &seen,
        Limits::default(),
        jiff::civil::date(2026, 11, 25),
    );
    assert_eq!(pages.len(), 4);
    for scene in &scenes {
        let times: usize = pages.iter().map(|page| times(page, &scene.name)).sum();
        assert!(
            times == 1 || scene.name.len() > 12,
            "{} stands {times} times",
            scene.name
        );
    }
    assert_eq!(times(&pages[0], "54 more:"), 1);
}

fn times(sheet: &Sheet, text: &str) -> usize {
    sheet.words().iter().filter(|placed| placed.text == text).count()
}

#[test]
fn the_state_stands_in_words_on_the_history() {
    let states: Vec<_> = rigs()
        .iter()
        .filter_map(|(_, scene)| scene.assessment.condition)
        .collect();
    for state in [
        Condition::Due,
        Condition::Check,
        Condition::Sound,
        Condition::Spent,
        Condition::Unproven,
    ] {
        assert!(states.contains(&state), "no {state:?} in the gallery: {states:?}");
    }
    for (tag, _) in LANGUAGES {
        let words = Words::of(Some(tag));
        for (name, scene) in rigs() {
            let sheet = rig_history(words, &scene.seen()).unwrap();
            let word = tapside::replies::reading::state_word(words, scene.assessment.condition.unwrap());
            assert_eq!(times(&sheet, &word), 1, "{tag} {name}: {word}");
        }
    }
}
