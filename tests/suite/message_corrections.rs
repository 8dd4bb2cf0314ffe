//! Corrections of the last reading.

use tapside::message::{Scene, read};

use crate::message_scene::{pair, scene, short};

fn check(rows: &[(&str, &str)], scene: &Scene) {
    for (text, expected) in rows {
        assert_eq!(&short(&read(text, scene)), expected, "{text}");
    }
}

fn after_one() -> Scene {
    Scene {
        last: vec![pair("Lynx", 180.0, 12.0)],
        ..scene()
    }
}

#[test]
fn one_value_is_changed() {
    check(
        &[
            ("*14", "correct Lynx: ? _/14"),
            ("14*", "correct Lynx: ? _/14"),
            ("*190", "correct Lynx: ? 190/_"),
            ("my bad 190", "correct Lynx: ? 190/_"),
            ("ro was 21", "correct Lynx: ? _/21"),
            ("tap was 190 not 180", "correct Lynx: ? 190/_"),
            ("should be 14", "correct Lynx: ? _/14"),
            ("14 not 12", "correct Lynx: ? _/14"),
            ("di is 0 btw", "correct Lynx: ? _/_/0"),
            ("temp was 11", "correct Lynx: ? _/_ 11C"),
            ("psi was 58", "correct Lynx: ? _/_ 399.9kPa"),
            ("correction lynx 190/14", "correct Lynx: ? 190/14"),
            ("perdón, 14", "correct Lynx: ? _/14"),
        ],
        &after_one(),
    );
}

#[test]
fn it_was_another_rig() {
    check(
        &[
            ("that was badger", "correct Lynx: Badger _/_"),
            ("sorry, badger not lynx", "correct Lynx: Badger _/_"),
            ("me equivoqué, era badger", "correct Lynx: Badger _/_"),
        ],
        &after_one(),
    );
}

#[test]
fn a_reading_is_withdrawn() {
    check(
        &[
            ("scrap that", "void Lynx"),
            ("undo", "void Lynx"),
            ("delete that please", "void Lynx"),
            ("scrap that mate wrong meter", "void Lynx"),
            ("borra eso", "void Lynx"),
        ],
        &after_one(),
    );
    check(
        &[("delete badger's reading from 8am, it was a mistake", "void Badger")],
        &scene(),
    );
}

#[test]
fn of_several_readings_the_right_one_is_changed() {
    let two = Scene {
        last: vec![pair("Lynx", 180.0, 12.0), pair("Badger", 214.0, 19.0)],
        ..scene()
    };
    check(
        &[
            ("badger 24 not 19", "correct Badger: ? _/24"),
            ("24 not 19", "correct Badger: ? _/24"),
            (
                "swap those two round",
                "correct Lynx: ? 214/19; correct Badger: ? 180/12",
            ),
        ],
        &two,
    );
}

#[test]
fn an_older_reading_is_named_by_its_rig() {
    check(
        &[
            ("lynx ro 15 not 12", "correct Lynx: ? _/15"),
            ("lynx shouldve been 156 not 165", "correct Lynx: ? 156/_"),
            ("lynx should be 12 not 120", "correct Lynx: ? _/12"),
        ],
        &scene(),
    );
}

#[test]
fn new_readings_and_talk_are_no_corrections() {
    check(
        &[
            ("badger 214/19", "Badger 214/19"),
            ("and badger 214/19", "Badger 214/19"),
            ("lynx 200/12", "Lynx 200/12"),
            ("sorry lads running late", "-"),
            ("sorry im 10 mins late", "-"),
            ("that was a long day", "-"),
            ("wait no", "-"),
        ],
        &after_one(),
    );
}
