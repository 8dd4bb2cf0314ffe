//! Answers to a flush nudge, and times of several readings.

use tapside::grammar::{Scene, When, read};

use crate::message_scene::{self, compare, id_of, pair, scene, short};

fn nudged() -> Scene {
    Scene {
        nudged: vec![id_of("Lynx")],
        ..scene()
    }
}

fn check(rows: &[(&str, &str)]) {
    message_scene::check(rows, &nudged());
}

#[test]
fn done() {
    check(&[
        ("done", "flush Lynx"),
        ("\u{1f44d}", "flush Lynx"),
        ("lynx flushed", "flush Lynx"),
        ("flushed 10 mins", "flush Lynx 10 min"),
        ("ya está", "flush Lynx"),
        ("not done", "-"),
        ("badger flushed", "flush Badger"),
    ]);
}

#[test]
fn later() {
    check(&[
        ("in 30 minutes", "later Lynx 30 min"),
        ("lynx in 30 min", "later Lynx 30 min"),
        ("give me half an hour", "later Lynx 30 min"),
        ("in an hour", "later Lynx 60 min"),
        ("en 20 minutos", "later Lynx 20 min"),
        ("en media hora", "later Lynx 30 min"),
        ("later", "later Lynx"),
        ("luego", "later Lynx"),
        ("remind me later", "later Lynx"),
    ]);
}

#[test]
fn not_used() {
    check(&[
        ("not used", "not used Lynx"),
        ("didnt use it today", "not used Lynx"),
        ("lynx not used", "not used Lynx"),
        ("stayed in the yard", "not used Lynx"),
        ("no la usamos hoy", "not used Lynx"),
    ]);
}

#[test]
fn one_rig_was_asked_about() {
    check(&[
        ("yes", "flush Lynx"),
        ("sí", "flush Lynx"),
        ("ya quedó", "flush Lynx"),
        ("ya lo lavé", "flush Lynx"),
        ("no", "later Lynx"),
        ("on it", "later Lynx"),
        ("ahora lo hago", "later Lynx"),
        ("give me 20", "later Lynx 20 min"),
        ("dame un cuarto de hora", "later Lynx 15 min"),
        ("en 10 min", "later Lynx 10 min"),
        ("ok", "-"),
        ("yes we did three jobs", "-"),
    ]);
}

#[test]
fn two_rigs_were_asked_about() {
    let two = Scene {
        nudged: vec![id_of("Lynx"), id_of("Badger")],
        // What was read last is not moved by a "no".
        last: vec![pair("Badger", 180.0, 12.0)],
        ..scene()
    };
    message_scene::check(
        &[
            ("lynx wasn't out today, badger flushed", "flush Badger; not used Lynx"),
            ("badger wasn't used, lynx flushed", "flush Lynx; not used Badger"),
            ("lynx no salió, badger lavado", "flush Badger; not used Lynx"),
            ("badger yes lynx no", "flush Badger; later Lynx"),
            ("badger sí, lynx no", "flush Badger; later Lynx"),
            ("badger done", "flush Badger"),
            ("badger done lynx in 20 min", "flush Badger; later Lynx 20 min"),
            ("both done", "flush Lynx; flush Badger"),
            ("lynx and badger done", "flush Lynx; flush Badger"),
            ("los dos lavados", "flush Lynx; flush Badger"),
            ("not used", "not used Lynx; not used Badger"),
            ("later", "later Lynx; later Badger"),
            ("ninguno salió", "not used Lynx; not used Badger"),
            ("done", "ask WhichRig"),
            ("yes", "ask WhichRig"),
            ("flushed badger, lynx not used", "flush Badger; not used Lynx"),
            ("van 3 flushed", "flush Van 3"),
        ],
        &two,
    );
}

#[test]
fn without_a_nudge_these_are_talk() {
    message_scene::check(
        &["in 30 minutes", "later", "done", "luego"].map(|text| (text, "-")),
        &scene(),
    );
}

#[test]
fn each_reading_has_its_own_time() {
    let at = |hour, minute| {
        Some(When::At {
            days_back: 0,
            hour,
            minute,
        })
    };
    let table = [
        ("lynx 172/11 at 7, badger 207/18 at 7:20", [at(7, 0), at(7, 20)]),
        ("7.10am lynx 172/11, 7.25am badger 207/18", [at(7, 10), at(7, 25)]),
        ("7:05 lynx 172/11\n7:20 badger 207/18", [at(7, 5), at(7, 20)]),
    ];
    compare(table.map(|(text, expected)| {
        let meaning = read(text, &scene());
        let times: Vec<_> = meaning.readings.iter().map(|reading| reading.when).collect();
        (
            text,
            format!("Lynx 172/11; Badger 207/18 {expected:?}"),
            format!("{} {times:?}", short(&meaning)),
        )
    }));
}

#[test]
fn clocks_in_words() {
    let table = [];
    compare(table.map(|(text, hour, minute)| {
        let meaning = read(text, &scene());
        let at = When::At {
            days_back: 0,
            hour,
            minute,
        };
        let when = meaning.readings.first().and_then(|reading| reading.when);
        (
            text,
            format!("Lynx 180/12 {:?}", Some(at)),
            format!("{} {when:?}", short(&meaning)),
        )
    }));
}
