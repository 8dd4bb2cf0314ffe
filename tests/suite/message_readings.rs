//! Readings: one row a message, grouped by rule.

use tapside::grammar::{Rig, Scene, When, read};

use crate::message_scene::{check, id_of, scene, short};

#[test]
fn two_numbers_are_feed_and_permeate_whatever_parts_them() {
    check(
        &[
            ("lynx 180 12", "Lynx 180/12"),
            ("lynx 180/12", "Lynx 180/12"),
            ("lynx: 180 > 12", "Lynx 180/12"),
            ("180 -> 12 lynx", "Lynx 180/12"),
            ("lynx180/12", "Lynx 180/12"),
            ("lynx,180,12", "Lynx 180/12"),
            ("lynx 180-12", "Lynx 180/12"),
            ("LYNX 180 OVER 12", "Lynx 180/12"),
            ("lynx 1️⃣8️⃣0️⃣ ➡️ 1️⃣2️⃣", "Lynx 180/12"),
            ("lynx 18O/12", "Lynx 180/12"),
        ],
        &scene(),
    );
}

#[test]
fn labels_win_in_any_order() {
    check(
        &[
            ("lynx tap 180 ro 12", "Lynx 180/12"),
            ("lynx ro 12 tap 180", "Lynx 180/12"),
            ("lynx 180 in 12 out", "Lynx 180/12"),
            ("lynx out 12 in 180", "Lynx 180/12"),
            ("12 out of the membrane on lynx, 180 at the tap", "Lynx 180/12"),
            ("lynx tap 180 ro 12 glass 0", "Lynx 180/12/0"),
            ("lynx glass 0 tap 180 ro 12", "Lynx 180/12/0"),
            ("lynx t180 r12 d0", "Lynx 180/12/0"),
            ("lynx feeed 180 prem 12", "Lynx 180/12"),
            ("lynx before 180 after 12", "Lynx 180/12"),
        ],
        &scene(),
    );
}

#[test]
fn number_words_are_numbers() {
    check(
        &[
            ("lynx one eighty in and twelve out", "Lynx 180/12"),
            ("lynx two hundred and seven over sixteen", "Lynx 207/16"),
            ("lynx twelve fifty in ninety out", "Lynx 1250/90"),
            ("lynx tap three forty ro twenty and a half", "Lynx 340/20.5"),
            ("lynx ro a dozen tap a hundred and seventy", "Lynx 170/12"),
            ("lynx ciento setenta y dos y nueve", "Lynx 172/9"),
            ("lynx doscientos veinte y dieciocho", "Lynx 220/18"),
            ("lynx one eight four one six", "ask WhichIsWhich"),
        ],
        &scene(),
    );
}

#[test]
fn decimals_and_thousands() {
    check(
        &[
            ("lynx 205,5/17,5", "Lynx 205.5/17.5"),
            ("lynx 205.5 17.5", "Lynx 205.5/17.5"),
            ("lynx 1,180/95", "Lynx 1180/95"),
            ("lynx 180.12", "ask MissingReading"),
        ],
        &scene(),
    );
}

#[test]
fn units_are_converted() {
    check(
        &[
            ("lynx 180/12 11C 4 bar", "Lynx 180/12 11C 400kPa"),
            ("lynx 180 ppm 12 ppm, 50 F, 60 psi", "Lynx 180/12 10C 413.69kPa"),
            ("lynx 360 us / 24 us", "Lynx 180/12"),
            ("lynx tap 0.36 mS/cm ro 24 uS/cm", "Lynx 180/12"),
            (
                "lynx 180/12 making 2 l/min dumping 3 l/min",
                "Lynx 180/12 2lpm 3lpm waste",
            ),
            ("lynx 180/12 water is 50 degrees", "Lynx 180/12 10C"),
            (
                "lynx feed=190 perm=14 T=8.5C P=3.6bar Qp=1.8lpm Qc=3.2lpm",
                "Lynx 190/14 8.5C 360kPa 1.8lpm 3.2lpm waste",
            ),
        ],
        &scene(),
    );
    let fahrenheit = Scene {
        celsius: false,
        ..scene()
    };
    check(&[("lynx 180/12 41 degrees", "Lynx 180/12 5C")], &fahrenheit);
}

#[test]
fn the_raw_conductivity_is_kept_and_the_outfit_has_its_own_factor() {
    let scene = Scene {
        us_to_ppm: 0.7,
        ..scene()
    };
    let meaning = read("lynx ec 300/20", &scene);
    let feed = meaning.readings[0].feed.expect("a feed");
    assert_eq!((feed.ppm, feed.raw_us), (210.0, Some(300.0)));
}

#[test]
fn rigs_are_found_by_part_number_and_slip() {
    check(
        &[
            ("bagder 214/19", "Badger 214/19"),
            ("seal 150/9", "Grey Seal 150/9"),
            ("greyseal 150/9", "Grey Seal 150/9"),
            ("GS 150/9", "Grey Seal 150/9"),
            ("v3 190/14", "Van 3 190/14"),
            ("van three 190 14", "Van 3 190/14"),
            ("#3 190/14", "Van 3 190/14"),
            ("trailer 190/14", "ask WhichRig"),
            ("trailer d 190/14", "ask UnknownRig"),
            ("van 4 190/14", "ask UnknownRig"),
            ("ferret 190/14", "ask UnknownRig"),
            ("grey badger 190/14", "ask WhichRig"),
        ],
        &scene(),
    );
}

#[test]
fn several_rigs_in_one_message() {
    check(
        &[
            ("lynx 180/12, badger 214/19", "Lynx 180/12; Badger 214/19"),
            ("180/12 lynx\n214/19 badger", "Lynx 180/12; Badger 214/19"),
            (
                "Lynx\ntap 180\nro 12\nBadger\ntap 214\nro 19",
                "Lynx 180/12; Badger 214/19",
            ),
            (
                "the tap is 190 for all. lynx 13 badger 17",
                "Lynx 190/13; Badger 190/17",
            ),
            ("1) lynx 180/12\n2) van 3 190/14", "Lynx 180/12; Van 3 190/14"),
            ("lynx 180/12 badger 19/214", "Lynx 180/12; ask Swapped"),
            ("lynx 180/12 ferret 190/13", "Lynx 180/12; ask UnknownRig"),
        ],
        &scene(),
    );
}

#[test]
fn what_is_doubtful_is_asked() {
    check(
        &[
            ("lynx 12/180", "ask Swapped"),
            ("lynx 180/180", "ask Implausible"),
            ("lynx 1800/9", "ask Implausible"),
            ("lynx 180/0", "ask WhichIsWhich"),
            ("lynx 180 12 40 7", "ask WhichIsWhich"),
            ("lynx 180", "ask MissingReading"),
            ("lynx 180/?", "ask MissingReading"),
            ("lynx tap 180 glass 0", "ask MissingReading"),
            ("lynx rejection 91%", "ask MissingReading"),
            ("180/12", "ask WhichRig"),
            ("lynx 180/12?", "ask Implausible"),
        ],
        &scene(),
    );
}

#[test]
fn three_falling_numbers_end_at_the_glass() {
    check(
        &[
            ("lynx 180/12/0", "Lynx 180/12/0"),
            ("lynx 180 12 1", "Lynx 180/12/1"),
            ("lynx 180 12 30", "ask WhichIsWhich"),
        ],
        &scene(),
    );
}

#[test]
fn a_slip_within_the_message_is_mended() {
    check(
        &[
            ("lynx 310 and 91 i mean 19", "Lynx 310/19"),
            ("lynx tap 205-209 say 207, ro 18", "Lynx 207/18"),
            ("lynx, i mean badger 214/19", "Badger 214/19"),
        ],
        &scene(),
    );
}

#[test]
fn other_numbers_are_no_readings() {
    check(
        &[
            ("lynx got fined 60 quid, 30 within 10 days", "-"),
            ("lynx 24/7", "-"),
            ("lynx at 310 juniper, badger at 22 hazel", "-"),
            ("lynx to orchard lane 10-30", "-"),
            ("dentist at 180 high street at 12", "-"),
            ("type it like this, for example \"Lynx 180/12\"", "-"),
        ],
        &scene(),
    );
    check(
        &[
            ("ticket #4410 lynx 230/17", "Lynx 230/17"),
            ("lynx 350/40 on 11/4", "Lynx 350/40"),
        ],
        &scene(),
    );
}

#[test]
fn what_was_not_measured_now_is_no_reading() {
    check(
        &[
            ("lynx normally reads 180/12", "-"),
            ("lynx used to be 180/12", "-"),
            ("lynx target 180/5", "-"),
            ("lynx was 180/12 last month", "-"),
            ("lynx not 180/12", "-"),
            ("lynx tap was 180 yesterday 210 today ro 14", "ask WhichIsWhich"),
        ],
        &scene(),
    );
}

#[test]
fn the_own_rig_stands_in_only_for_a_bare_reading() {
    let scene = Scene {
        own_rig: Some(id_of("Badger")),
        ..scene()
    };
    check(
        &[
            ("214 19", "Badger 214/19"),
            ("tap 214 ro 19 thanks", "Badger 214/19"),
            ("lynx 180/12", "Lynx 180/12"),
            ("ferret 180/12", "ask UnknownRig"),
            ("214", "ask MissingReading"),
            ("got 214 tickets and 19 left over", "-"),
            ("see you at the school, 30 12", "-"),
        ],
        &scene,
    );
}

#[test]
fn a_rig_without_membrane_reads_tap_and_product() {
    let mut scene = scene();
    scene.fleet[0].di_only = true;
    check(
        &[
            ("lynx 180/2", "Lynx 180/_/2"),
            ("lynx tap 180 glass 0", "Lynx 180/_/0"),
            // The tap was never read.
            ("lynx 4", "ask MissingReading"),
        ],
        &scene,
    );
    // One number is the glass, beside the tap as it was read last.
    scene.fleet[0].last_feed_ppm = Some(210.0);
    check(
        &[
            ("lynx 4", "Lynx 210/_/4"),
            ("lynx 0", "Lynx 210/_/0"),
            ("lynx's at 12 ppm", "Lynx 210/_/12"),
            ("lynx reads 7", "Lynx 210/_/7"),
            ("lynx 190 3", "Lynx 190/_/3"),
            // As high as a tap: it may be that.
            ("lynx 250", "ask WhichIsWhich"),
            ("lynx 22C", "ask MissingReading"),
            ("badger 12", "ask MissingReading"),
        ],
        &scene,
    );
    let silent = [
        "lynx 3pm",
        "lynx £12",
        "lynx 12 windows left to do",
        "lynx needs 12 litres",
    ];
    for text in silent {
        assert!(read(text, &scene).readings.is_empty(), "{text}");
    }
}

#[test]
fn the_rigs_own_history_is_the_measure() {
    let mut scene = scene();
    scene.fleet[0] = Rig {
        usual_feed_ppm: Some((150.0, 190.0)),
        usual_permeate_ppm: Some((8.0, 12.0)),
        ..scene.fleet[0].clone()
    };
    check(
        &[
            ("lynx 165 31", "Lynx 165/31"),
            ("lynx 1800 90", "ask Implausible"),
            ("lynx 18 2", "ask Implausible"),
        ],
        &scene,
    );
}

#[test]
fn times_are_told_apart_from_values() {
    let rows = [
        (
            "lynx 180/12 at 7:40",
            When::At {
                days_back: 0,
                hour: 7,
                minute: 40,
            },
        ),
        (
            "7.40am lynx 180/12",
            When::At {
                days_back: 0,
                hour: 7,
                minute: 40,
            },
        ),
        (
            "a las 8 lynx 180/12",
            When::At {
                days_back: 0,
                hour: 8,
                minute: 0,
            },
        ),
        ("lynx 180/12 yesterday", When::DaysBack(1)),
        (
            "yesterday at 4pm lynx 180/12",
            When::At {
                days_back: 1,
                hour: 16,
                minute: 0,
            },
        ),
        ("this morning lynx 180/12", When::Morning),
        (
            "lynx 2026-03-02 08:15 180/12",
            When::On {
                year: Some(2026),
                month: 3,
                day: 2,
                hour_minute: Some((8, 15)),
            },
        ),
        (
            "lynx 180/12 on 3/2",
            When::On {
                year: None,
                month: 2,
                day: 3,
                hour_minute: None,
            },
        ),
    ];
    for (text, when) in rows {
        let meaning = read(text, &scene());
        assert_eq!(short(&meaning), "Lynx 180/12", "{text}");
        assert_eq!(meaning.readings[0].when, Some(when), "{text}");
    }
}

#[test]
fn spanish_french_and_polish_are_understood() {
    check(
        &[
            ("lynx grifo 180 osmosis 12", "Lynx 180/12"),
            ("lynx entrada 180 salida 12, en el cristal 0", "Lynx 180/12/0"),
            ("lynx 180 de llave y 12 de permeado", "Lynx 180/12"),
            ("lynx entrée 180 sortie 12", "Lynx 180/12"),
            ("lynx eau du réseau 180, perméat 12", "Lynx 180/12"),
            ("lynx kran 180 osmoza 12", "Lynx 180/12"),
            ("lynx wejście 180 wyjście 12", "Lynx 180/12"),
        ],
        &scene(),
    );
}
