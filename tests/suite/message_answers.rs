//! Answers to an open question: every button has a text that does the same.

use tapside::grammar::{Ask, Label, Meaning, Scene, read};

use crate::message_scene::{compare, id_of, scene, short};

fn asked(text: &str) -> Ask {
    read(text, &scene())
        .ask
        .unwrap_or_else(|| panic!("a question about {text:?}"))
}

fn answer(first: &str, second: &str) -> Meaning {
    read(
        second,
        &Scene {
            open: Some(asked(first)),
            ..scene()
        },
    )
}

fn check(first: &str, rows: &[(&str, &str)]) {
    compare(
        rows.iter()
            .map(|(second, expected)| ((first, second), *expected, short(&answer(first, second)))),
    );
}

#[test]
fn which_rig() {
    check(
        "180 12",
        &[
            ("lynx", "Lynx 180/12"),
            ("it was the badger", "Badger 180/12"),
            ("seal", "Grey Seal 180/12"),
            ("dunno", "-"),
            ("someone saw a badger behind the shop last night", "-"),
            ("badger 214/19", "Badger 214/19"),
        ],
    );
    check("changed resin", &[("lynx", "resin Lynx")]);
    check("tap 180", &[("lynx", "ask MissingReading")]);
}

#[test]
fn unknown_rig() {
    check("ferret 180/12", &[("lynx", "Lynx 180/12")]);
    check("trailer d 180/12", &[("trailer c", "Trailer C 180/12")]);
}

#[test]
fn numbers_that_answer_fall_as_any_others_do() {
    check(
        "lynx 180/9 or 180/12",
        &[
            ("180 9", "Lynx 180/9"),
            ("180 9 2", "Lynx 180/9/2"),
            ("9 180", "ask Swapped"),
        ],
    );
}

#[test]
fn which_way_round() {
    check(
        "lynx 12/180",
        &[
            ("yes", "Lynx 180/12"),
            ("other way round", "Lynx 180/12"),
            ("as sent", "Lynx 12/180"),
            ("180 12", "Lynx 180/12"),
            ("no its 60 and 35", "Lynx 60/35"),
            ("forget it", "dropped"),
            ("i will check", "-"),
            ("ok", "-"),
            ("ok see you then", "-"),
        ],
    );
}

#[test]
fn missing_reading() {
    check(
        "lynx 180",
        &[
            ("12", "Lynx 180/12"),
            ("ro 12", "Lynx 180/12"),
            ("twelve", "Lynx 180/12"),
            ("180/12", "Lynx 180/12"),
            ("on it", "-"),
        ],
    );
}

#[test]
fn is_that_right() {
    check(
        "lynx 1800/12",
        &[
            ("keep", "Lynx 1800/12"),
            ("yes", "Lynx 1800/12"),
            ("no", "dropped"),
            ("180/12", "Lynx 180/12"),
        ],
    );
}

#[test]
fn the_text_of_a_button_does_what_the_button_does() {
    for first in [
        "180 12",
        "tap 180",
        "lynx 12/180",
        "lynx 180/0",
        "lynx 1800/9",
        "trailer 180/12",
        "lynx 180 12 40 7",
        "van 4 180/12",
    ] {
        let ask = asked(first);
        assert!(ask.choices.len() <= 3, "{first}");
        for choice in &ask.choices {
            let meaning = answer(first, &choice.says);
            let context = format!("{first} / {}", choice.says);
            match choice.label {
                Label::Rig(rig) => {
                    let rigs = meaning
                        .readings
                        .iter()
                        .chain(meaning.ask.iter().flat_map(|ask| &ask.drafts));
                    assert!(
                        rigs.clone().count() == 1 && rigs.clone().all(|draft| draft.rig == Some(rig)),
                        "{context}"
                    );
                }
                Label::Pair { feed, permeate } => {
                    let reading = &meaning.readings[0];
                    assert_eq!(
                        (reading.feed.unwrap().ppm, reading.permeate.unwrap().ppm),
                        (feed, permeate),
                        "{context}"
                    );
                }
                Label::AsSent | Label::Keep => assert_eq!(meaning.readings, ask.drafts, "{context}"),
                Label::UsedUp | Label::Changed | Label::Another | Label::Undo | Label::Leave => {}
                Label::Drop | Label::Same => assert!(meaning.dropped && meaning.readings.is_empty(), "{context}"),
                Label::Product(ppm) => {
                    let draft = &meaning.ask.as_ref().expect("the RO outlet is asked").drafts[0];
                    assert_eq!(draft.product.unwrap().ppm, ppm, "{context}");
                }
            }
        }
    }
}

#[test]
fn a_new_reading_supersedes_the_question() {
    let meaning = answer("lynx 12/180", "lynx 190/14");
    assert_eq!(short(&meaning), "Lynx 190/14");
    assert_eq!(meaning.readings[0].rig, Some(id_of("Lynx")));
}

#[test]
fn a_question_survives_storage() {
    let ask = asked("lynx 12/180");
    let stored = serde_json::to_string(&ask).expect("JSON");
    assert_eq!(serde_json::from_str::<Ask>(&stored).expect("an ask"), ask);
}

#[test]
fn ordinals_and_rig_numbers_choose() {
    check(
        "lynx 12/180",
        &[
            ("y", "Lynx 180/12"),
            ("first", "Lynx 180/12"),
            ("1", "Lynx 180/12"),
            ("tap 180", "Lynx 180/12"),
        ],
    );
    check(
        "180 12",
        &[("3", "Van 3 180/12"), ("new membrane in lynx", "membrane Lynx")],
    );
}

#[test]
fn one_number_mends_the_doubtful_one() {
    check(
        "lynx 180/120",
        &[
            ("12", "Lynx 180/12"),
            ("no its 12", "Lynx 180/12"),
            ("its 12 not 120", "Lynx 180/12"),
            ("checked twice", "Lynx 180/120"),
        ],
    );
}

#[test]
fn the_other_one_and_not_that_one() {
    let two = Scene {
        fleet: scene().fleet.into_iter().take(2).collect(),
        own_rig: None,
        ..scene()
    };
    let after = |text: &str, own_rig: Option<i64>| {
        let asked = read("180/12", &two);
        let open = Scene {
            open: asked.ask,
            own_rig,
            ..two.clone()
        };
        short(&read(text, &open))
    };
    compare(
        [
            ("not lynx", None, "Badger 180/12"),
            ("lynx i think", None, "Lynx 180/12"),
        ]
        .map(|(text, own, expected)| (text, expected, after(text, own))),
    );
}

#[test]
fn what_was_said_of_a_service_is_kept_for_its_rig() {
    check("flushed 12 min", &[("lynx", "flush Lynx 12 min")]);
    check("changed resin $85", &[("lynx", "resin Lynx for 85 $")]);
}

#[test]
fn a_doubtful_reading_is_no_yes_to_the_question_about_another() {
    check(
        "lynx 12 180",
        &[
            ("lynx 12 181", "ask Swapped"),
            ("12 181", "ask Swapped"),
            ("lynx 12 180", "ask Swapped"),
            ("lynx 9999 1", "ask Implausible"),
            ("180 12", "Lynx 180/12"),
            ("no", "ask Swapped"),
        ],
    );
    check(
        "lynx 180 120",
        &[("lynx 180 120", "ask Implausible"), ("9999 1", "ask Implausible")],
    );
}

#[test]
fn a_name_in_talk_is_no_answer() {
    check(
        "new membrane £180",
        &[
            ("lynx does about 700 l", "-"),
            ("lynx bag 25 l", "-"),
            ("lynx 25 litres", "-"),
            ("lynx está bien", "-"),
            ("it was the lynx mate", "membrane Lynx for 180 £"),
        ],
    );
    check(
        "180 12",
        &[
            ("1", "Lynx 180/12"),
            ("the first one", "Lynx 180/12"),
            ("yes", "ask WhichRig"),
            ("no", "ask WhichRig"),
        ],
    );
}
