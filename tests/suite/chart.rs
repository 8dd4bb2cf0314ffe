//! The pictures, drawn from invented rigs by the real way: what must hold of each.
//!
//! With `TAPSIDE_PICTURES=FOLDER` the gallery is written there as PNGs, to be looked at.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use jiff::ToSpan;
use jiff::civil::{Date, date};
use resvg::tiny_skia::Pixmap;
use tapside::bot::pictures::{fleet, renewal_cost, resin_life, rig_history};
use tapside::chart::palette::Colour;
use tapside::chart::rig_history::Ahead;
use tapside::chart::sheet::{Area, HEIGHT, Placed, SMALLEST, WIDTH};
use tapside::chart::year_ahead::Membrane;
use tapside::chart::{Sheet, png};
use tapside::replies::Words;
use tapside::replies::pictures::state;
use tapside::replies::pictures::year::{self, Sum};
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
                    growth: 1.2,
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
    for count in [0, 1, 4, 7, 9, 60] {
        let scenes = scenes::fleet(count);
        let seen: Vec<_> = scenes.iter().map(Scene::seen).collect();
        for (page, sheet) in fleet(words, &seen, Limits::default(), TODAY).into_iter().enumerate() {
            sheets.push((format!("{tag}_fleet_{count}_{}", page + 1), sheet));
        }
    }
    let few = rarer::alone().into_iter().map(|(name, scene)| (name, vec![scene]));
    let more = [
        ("fine", rarer::in_order()),
        ("beds", rarer::beds()),
        ("one_job", rarer::one_job()),
    ];
    for (name, scenes) in few.chain(more) {
        let seen: Vec<_> = scenes.iter().map(Scene::seen).collect();
        let pages = fleet(words, &seen, Limits::default(), TODAY);
        sheets.extend(pages.into_iter().map(|sheet| (format!("{tag}_fleet_{name}"), sheet)));
    }
    for membranes in [0, 2, 8] {
        let facts = year_of(membranes, if membranes == 8 { 60 } else { 10 });
        sheets.push((format!("{tag}_year_{membranes}"), year::sheet(words, &facts)));
    }
    sheets
}

const TODAY: Date = date(2026, 11, 25);

/// An invented year.
fn year_of(membranes: usize, beds: i64) -> year::Facts<'static> {
    const RIGS: [&str; 8] = [
        "Otter",
        "Crane",
        "Trailer north",
        "Teal",
        "Swift",
        "Heron",
        "Mule",
        "Kestrel",
    ];
    let first = date(2026, 11, 1);
    let day = |days: i64| first.saturating_add(days.days());
    let membrane = |(nth, rig): (i64, &&str)| Membrane {
        rig: (*rig).to_owned(),
        when: Ahead {
            early: day(5 + 41 * nth),
            likely: day(20 + 44 * nth),
            late: (nth != 7).then(|| day(45 + 49 * nth)),
        },
    };
    let sum = |low, likely, high| Sum { low, likely, high };
    year::Facts {
        first,
        membranes: (0..).zip(&RIGS[..membranes]).map(membrane).collect(),
        resin: (0..beds).map(|nth| day(12 + nth * 340 / beds)).collect(),
        bed_litres: (beds == 10).then_some(25.0),
        prefilters: (0..4).map(|nth| day(40 + 91 * nth)).collect(),
        quarters: [
            sum(1620.0, 1820.0, 1980.0),
            sum(230.0, 430.0, 640.0),
            sum(430.0, 640.0, 870.0),
            sum(400.0, 610.0, 990.0),
        ],
        year: sum(3100.0, 3500.0, 4000.0),
        money: &dollars,
    }
}

/// What is wrong with the words of a sheet: their size, their place, what they touch.
pub fn faults(sheet: &Sheet) -> Vec<String> {
    let mut faults = Vec::new();
    for (nth, placed) in sheet.words().iter().enumerate() {
        let Placed { text, area, style } = placed;
        if style.size < SMALLEST {
            faults.push(format!("{text:?} is too small: {}", style.size));
        }
        if !Area::SHEET.encloses(area) {
            faults.push(format!("{text:?} leaves the margin: {area:?}"));
        }
        let apart = Area {
            left: area.left - 6.0,
            right: area.right + 6.0,
            ..*area
        };
        let met = sheet.words()[nth + 1..].iter().filter(|other| apart.meets(&other.area));
        faults.extend(met.map(|other| format!("{text:?} meets {:?}", other.text)));
    }
    faults
}

/// Words that stand out less than is asked from a pixel beneath them, and that pixel.
/// What is as dark as words (dots, lines of data, the floor, today) is found by it, too.
pub fn weak(sheet: &Sheet) -> Vec<String> {
    const LEAST: f64 = 5.8;
    let bare = pixels(&sheet.without_words());
    let weakest = |Placed { text, area, style }: &Placed| {
        let (left, right) = (area.left.max(0.0) as u32, (area.right as u32).min(WIDTH - 1));
        let (top, bottom) = (area.top.max(0.0) as u32, (area.bottom as u32).min(HEIGHT - 1));
        let places = (top..=bottom).flat_map(|y| (left..=right).map(move |x| (x, y)));
        let contrast = |(x, y): (u32, u32)| {
            let pixel = bare.pixel(x, y).unwrap();
            let colour = Colour(pixel.red(), pixel.green(), pixel.blue());
            (style.ink.contrast(colour), (x, y))
        };
        let (contrast, at) = places.map(contrast).min_by(|a, b| a.0.total_cmp(&b.0))?;
        (contrast < LEAST).then(|| format!("{text:?} has a contrast of {contrast:.1} at {at:?}"))
    };
    sheet.words().iter().filter_map(weakest).collect()
}

fn pixels(sheet: &Sheet) -> Pixmap {
    Pixmap::decode_png(&png(sheet).unwrap()).unwrap()
}

#[test]
fn words_are_large_and_within_the_margin_and_meet_nothing() {
    for (tag, _) in LANGUAGES {
        for (name, sheet) in gallery(tag) {
            assert_eq!(faults(&sheet), [""; 0], "{name}");
        }
    }
}

#[test]
fn every_word_stands_out_from_the_worst_pixel_beneath_it() {
    for (tag, _) in LANGUAGES {
        for (name, sheet) in gallery(tag) {
            assert_eq!(weak(&sheet), [""; 0], "{name}");
        }
    }
}

/// A long name gives way; what is said of the rig is never cut.
#[test]
fn only_names_are_cut() {
    for (tag, _) in LANGUAGES {
        for (name, sheet) in gallery(tag) {
            let cut = sheet.words().iter().filter(|placed| placed.text.ends_with('…'));
            let names: Vec<String> = super::chart_scenes::fleet(60)
                .into_iter()
                .map(|scene| scene.name)
                .collect();
            let is_name = |placed: &&Placed| {
                let begun = placed.text.trim_end_matches('…').trim_end();
                names.iter().any(|name| name.starts_with(begun))
            };
            let cut: Vec<_> = cut.filter(|placed| !is_name(placed)).collect();
            assert!(cut.is_empty(), "{name}: {cut:?}");
        }
    }
}

/// Without this all that is asked of the words' areas would be hollow.
#[test]
fn letters_lie_where_the_sheet_says() {
    for (name, sheet) in gallery("es").iter().step_by(7) {
        let (with, without) = (pixels(sheet), pixels(&sheet.without_words()));
        let is_word = |x: f64, y: f64| {
            let holds = |placed: &Placed| {
                let area = placed.area;
                // The hook of a j reaches back before its beginning.
                (area.left - 5.0..=area.right + 3.0).contains(&x) && (area.top - 2.0..=area.bottom + 2.0).contains(&y)
            };
            sheet.words().iter().any(holds)
        };
        for (x, y) in (0..HEIGHT).flat_map(|y| (0..WIDTH).map(move |x| (x, y))) {
            let is_letter = with.pixel(x, y) != without.pixel(x, y);
            assert!(!is_letter || is_word(f64::from(x), f64::from(y)), "{name}: {x} {y}");
        }
    }
}

/// What stands on each picture, so that it is read as prose: axes, and what an earlier
/// picture said, left out.
#[test]
fn the_words_on_the_pictures() {
    for (tag, _) in LANGUAGES {
        let mut read = BTreeSet::new();
        let mut prose = String::new();
        for (name, sheet) in gallery(tag) {
            let _ = writeln!(prose, "{name}");
            for Placed { text, .. } in sheet.words() {
                let letters = text.chars().filter(|letter| letter.is_alphabetic()).count();
                if letters > 3 && read.insert(text.clone()) {
                    let _ = writeln!(prose, "  {text}");
                }
            }
        }
        insta::assert_snapshot!(format!("words_on_the_pictures_{tag}"), prose);
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
    let pages = fleet(Words::of(Some("en")), &seen, Limits::default(), TODAY);
    assert_eq!(pages.len(), 4);
    for scene in &scenes {
        let times: usize = pages.iter().map(|page| times(page, &scene.name)).sum();
        assert!(
            times == 1 || scene.name.len() > 12,
            "{} stands {times} times",
            scene.name
        );
    }
    assert_eq!(times(&pages[0], "54 more rigs: see the next picture"), 1);
}

fn times(sheet: &Sheet, text: &str) -> usize {
    sheet.words().iter().filter(|placed| placed.text == text).count()
}

#[test]
fn the_state_stands_in_words_on_the_history() {
    let words = Words::of(Some("en"));
    let states: Vec<_> = rigs()
        .iter()
        .filter_map(|(_, scene)| scene.assessment.condition)
        .collect();
    for condition in [
        Condition::Due,
        Condition::Fault,
        Condition::Good,
        Condition::Spent,
        Condition::Unproven,
    ] {
        assert!(
            states.contains(&condition),
            "no {condition:?} in the gallery: {states:?}"
        );
    }
    for (name, scene) in rigs() {
        let sheet = rig_history(words, &scene.seen()).unwrap();
        let state = state(words, scene.assessment.condition.unwrap());
        let title = sheet.words().iter().take(2).map(|placed| placed.text.to_lowercase());
        let title: Vec<String> = title.collect();
        assert!(title.join(" ").contains(&state), "{name}: {state} in {title:?}");
    }
}
