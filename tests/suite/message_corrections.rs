//! Corrections of the last reading.

use tapside::grammar::{Price, Scene, Service, What, When, read};

use crate::message_scene::{check, id_of, pair, scene, short};

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
            ("no 21 is locked", "-"),
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
            ("sorry i meant 8am tomorrow", "-"),
            ("sorry running 20 late", "-"),
        ],
        &after_one(),
    );
}

#[test]
fn a_name_among_other_words_moves_no_reading() {
    check(
        &[
            ("no time for badger", "-"),
            ("don't use badger", "-"),
            ("not doing badger today", "-"),
            ("no badger for me", "-"),
            ("not with badger", "-"),
            ("badger no good", "-"),
            ("badger didn't start", "-"),
            ("never badger again", "-"),
            ("it was badger weather", "-"),
            ("that was badger all over", "-"),
            ("badger not done", "-"),
            ("didn't change resin on badger", "-"),
            ("no tengo badger", "-"),
            ("badger no", "-"),
            ("badger no lo hice", "-"),
            ("no cambié la resina de badger", "-"),
            ("not lynx, badger", "correct Lynx: Badger _/_"),
            ("no, that was badger", "correct Lynx: Badger _/_"),
            ("oh no that was badger not lynx", "correct Lynx: Badger _/_"),
        ],
        &after_one(),
    );
}

#[test]
fn a_clock_time_moves_the_reading_and_changes_no_value() {
    for text in [
        "that was yesterday at 8",
        "that was at 8",
        "eso fue a las 8",
        "eso fue ayer a las 8",
        "fue a las 8 de la mañana",
        "era de ayer a las 8:00",
    ] {
        let meaning = read(text, &after_one());
        assert_eq!(short(&meaning), "correct Lynx: ? _/_", "{text}");
        let back = u16::from(text.contains("yesterday") || text.contains("ayer"));
        let at = When::At {
            days_back: back,
            hour: 8,
            minute: 0,
        };
        assert_eq!(meaning.corrections[0].change.when, Some(at), "{text}");
    }
}

#[test]
fn in_a_group_only_what_plainly_corrects_does() {
    let mut overheard = Scene {
        overheard: true,
        just_sent: false,
        ..after_one()
    };
    let rows = [
        ("make it 10", "-", "correct Lynx: ? _/10"),
        ("i meant 10", "-", "correct Lynx: ? _/10"),
        ("no, 10", "-", "correct Lynx: ? _/10"),
        ("*10", "correct Lynx: ? _/10", "correct Lynx: ? _/10"),
        ("ro was 10", "correct Lynx: ? _/10", "correct Lynx: ? _/10"),
        (
            "not lynx, badger",
            "correct Lynx: Badger _/_",
            "correct Lynx: Badger _/_",
        ),
    ];
    for (text, later, at_once) in rows {
        overheard.just_sent = false;
        assert_eq!(short(&read(text, &overheard)), later, "{text}");
        overheard.just_sent = true;
        assert_eq!(short(&read(text, &overheard)), at_once, "{text} at once");
    }
}

#[test]
fn a_reading_is_deleted_by_its_values() {
    let meaning = read("delete lynx 180 12", &after_one());
    assert_eq!(short(&meaning), "void Lynx");
    assert_eq!(meaning.corrections[0].change.feed.map(|feed| feed.ppm), Some(180.0));
}

#[test]
fn what_was_sent_last_is_corrected() {
    let service = Service {
        rig: id_of("Lynx"),
        what: What::Resin,
        minutes: None,
        price: Some(Price {
            amount: 120.0,
            currency: None,
        }),
        when: None,
    };
    let scene = Scene {
        last: vec![pair("Badger", 200.0, 14.0)],
        last_services: vec![service],
        ..scene()
    };
    let rows = [
        ("that was yesterday", "when DaysBack(1)"),
        ("*130", "price 130"),
        ("it cost 130", "price 130"),
        ("not lynx, badger", "rig 2"),
        ("sorry that was badger", "rig 2"),
        ("scrap that", "void"),
        ("badger 214/19", "none"),
    ];
    for (text, expected) in rows {
        let meaning = read(text, &scene);
        assert!(meaning.corrections.is_empty(), "{text}");
        let told = meaning.amends.first().map_or("none".to_owned(), |amend| {
            let parts = [
                amend.void.then(|| "void".to_owned()),
                amend.rig.map(|rig| format!("rig {rig}")),
                amend.when.map(|when| format!("when {when:?}")),
                amend.price.as_ref().map(|price| format!("price {}", price.amount)),
            ];
            parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
        });
        assert_eq!(told, expected, "{text}");
    }
    assert_eq!(
        short(&read("ro was 21", &scene)),
        "correct Badger: ? _/21",
        "a label names a reading"
    );
}
