//! Corrections of the last reading.

use tapside::message::Scene;

use crate::message_scene::{check, pair, scene};

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
            ("glass was 0 by the way", "correct Lynx: ? _/_/0"),
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
            ("perdón, era badger", "correct Lynx: Badger _/_"),
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
            ("delete that mate wrong cup", "void Lynx"),
            ("borra eso", "void Lynx"),
        ],
        &after_one(),
    );
    check(&[("remove badger's reading of 8am please", "void Badger")], &scene());
}

#[test]
fn of_several_readings_the_right_one_is_changed() {
    let two = Scene {
        last: vec![pair("Lynx", 180.0, 12.0), pair("Badger", 214.0, 19.0)],
        ..scene()
    };
    check(
        &[
            ("badger 25 not 19", "correct Badger: ? _/25"),
            ("24 not 19", "correct Badger: ? _/24"),
            ("swap them round", "correct Lynx: ? 214/19; correct Badger: ? 180/12"),
        ],
        &two,
    );
}

#[test]
fn an_older_reading_is_named_by_its_rig() {
    check(
        &[
            ("lynx ro 16 not 13", "correct Lynx: ? _/16"),
            ("lynx shouldve been 187 not 178", "correct Lynx: ? 187/_"),
            ("lynx should be 11 not 110", "correct Lynx: ? _/11"),
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
            ("sorry i cannot talk, see you in twenty", "-"),
            ("oops 4 of them got away", "-"),
            ("wait no", "-"),
        ],
        &after_one(),
    );
}

#[test]
fn no_and_not_deny_what_was_said() {
    check(
        &[
            ("no 21", "correct Lynx: ? _/21"),
            ("no, 21", "correct Lynx: ? _/21"),
            ("not 12 21", "correct Lynx: ? _/21"),
            ("not 12, 21", "correct Lynx: ? _/21"),
            ("no 190/21", "correct Lynx: ? 190/21"),
            ("change 12 to 21", "correct Lynx: ? _/21"),
            ("sorry meant 21", "correct Lynx: ? _/21"),
            ("correct that to 21", "correct Lynx: ? _/21"),
            ("*190/21", "correct Lynx: ? 190/21"),
            ("lynx was 21", "correct Lynx: ? _/21"),
            ("no es 12 es 21", "correct Lynx: ? _/21"),
            ("cambia a 21", "correct Lynx: ? _/21"),
        ],
        &after_one(),
    );
}

#[test]
fn the_reading_moves_to_the_rig_that_is_named() {
    check(
        &[
            ("wrong rig, badger", "correct Lynx: Badger _/_"),
            ("make that badger", "correct Lynx: Badger _/_"),
            ("change lynx to badger", "correct Lynx: Badger _/_"),
            ("put that on badger", "correct Lynx: Badger _/_"),
            ("*badger", "correct Lynx: Badger _/_"),
        ],
        &after_one(),
    );
}

#[test]
fn a_reason_may_follow_a_withdrawal() {
    check(
        &[
            ("scrap that dirty cup", "void Lynx"),
            ("ignore that cup wasn't rinsed", "void Lynx"),
            ("dont count that one", "void Lynx"),
            ("olvídalo", "void Lynx"),
            ("borra el último", "void Lynx"),
        ],
        &after_one(),
    );
}

#[test]
fn plans_and_talk_with_numbers_correct_nothing() {
    check(
        &[
            ("sorry running 20 late", "-"),
            ("make it 9 tomorrow", "-"),
            ("i can't make it tonight", "-"),
            ("no 21 is locked", "-"),
            ("delete my number", "-"),
            ("its 3 degrees out here", "-"),
        ],
        &after_one(),
    );
}

#[test]
fn a_whole_sentence_may_withdraw() {
    check(
        &[
            ("sorry ignore that i hadnt rinsed the cup", "void Lynx"),
            ("dont use that, meter was wet", "void Lynx"),
            ("perdón, olvida eso, el vaso estaba sucio", "void Lynx"),
            ("forget that meeting on friday", "-"),
            ("it was 9 degrees this morning brr", "-"),
            ("sorry i meant 8am tomorrow", "-"),
            ("sorry running 20 late", "-"),
        ],
        &after_one(),
    );
}
