//! Deeds and values of several rigs in one message: whose is what.

use tapside::grammar::{Scene, read};
use tapside::message::setting::{self, Amount, Field, Wish};

use crate::message_scene::{self, id_of, scene, short};

fn check(rows: &[(&str, &str)]) {
    let mut scene = Scene {
        may_speak_for_all: true,
        ..scene()
    };
    let di_only = id_of("Trailer B");
    scene.fleet.iter_mut().for_each(|rig| rig.di_only = rig.id == di_only);
    message_scene::check(rows, &scene);
}

#[test]
fn a_deed_told_before_its_rig_is_not_the_next_ones() {
    check(&[
        (
            "flushed lynx, changed resin badger, trailer b 180 1",
            "Trailer B 180/_/1; flush Lynx; resin Badger",
        ),
        ("new resin lynx, badger 160 9", "Badger 160/9; resin Lynx"),
        ("new filters lynx, new resin badger", "prefilter Lynx; resin Badger"),
        ("new resin on lynx and flushed badger", "resin Lynx; flush Badger"),
        ("flushed lynx changed resin badger", "flush Lynx; resin Badger"),
        (
            "yesterday i changed the resin on lynx and the filters on badger",
            "resin Lynx; prefilter Badger",
        ),
        (
            "changed the resin on lynx and badger filters",
            "resin Lynx; prefilter Badger",
        ),
        (
            "ayer cambié la resina de lynx y los filtros de badger",
            "resin Lynx; prefilter Badger",
        ),
        (
            "lavé lynx, cambié resina badger, trailer b 180 1",
            "Trailer B 180/_/1; flush Lynx; resin Badger",
        ),
        (
            "flushed lynx, badger and van 3",
            "flush Lynx; flush Badger; flush Van 3",
        ),
        ("flushed lynx and badger 180 12", "Badger 180/12; flush Lynx"),
        ("lynx flushed, not badger", "flush Lynx"),
        ("badger is next, flushed lynx", "flush Lynx"),
        ("lynx pendiente, badger lavado", "flush Badger"),
        ("lynx flushed and badger too", "flush Lynx; flush Badger"),
        ("lynx lavado, badger también", "flush Lynx; flush Badger"),
        (
            "flushed lynx and badger, new filters van 3",
            "flush Lynx; flush Badger; prefilter Van 3",
        ),
    ]);
}

#[test]
fn a_deed_behind_a_rig_is_not_the_one_befores() {
    check(&[
        ("lynx 180 12 badger flushed", "Lynx 180/12; flush Badger"),
        ("lynx 180 12 badger lavado", "Lynx 180/12; flush Badger"),
        (
            "lynx 180 12 badger new resin £140",
            "Lynx 180/12; resin Badger for 140 £",
        ),
        (
            "lynx 180 12, badger resina nueva 140 libras",
            "Lynx 180/12; resin Badger for 140 libras",
        ),
        (
            "lynx 180/12, badger 200/15, both flushed",
            "Lynx 180/12; Badger 200/15; flush Lynx; flush Badger",
        ),
        (
            "lynx 180/12\nbadger 200/15\nlos dos lavados",
            "Lynx 180/12; Badger 200/15; flush Lynx; flush Badger",
        ),
        (
            "lynx 180 12, badger 200 15 and flushed them both",
            "Lynx 180/12; Badger 200/15; flush Lynx; flush Badger",
        ),
        ("lynx wasn't out today, badger flushed", "flush Badger"),
        ("lynx no salió, badger lavado", "flush Badger"),
    ]);
}

#[test]
fn what_is_wanted_for_one_rig_is_wanted_for_the_next() {
    check(&[
        ("need to change the resin on lynx and the filters on badger", "-"),
        ("need new resin for lynx, changed filters on badger", "prefilter Badger"),
        ("lynx needs new resin, badger flushed", "flush Badger"),
    ]);
}

#[test]
fn values_between_two_names_are_asked_about() {
    check(&[("lynx 180 12 on the way to badger", "Lynx 180/12")]);
}

#[test]
fn what_lies_on_a_shelf_was_bought_or_waits_is_not_done() {
    let nothing = [
        "lynx new membrane is in the shed",
        "badger new membrane in the shed",
        "lynx new resin in garage",
        "got new resin for lynx",
        "got new filters for badger",
        "lynx to be flushed",
        "lynx should be flushed",
        "can someone put new resin in badger",
        "need to put new resin in badger",
        "lynx membrana nueva pedida",
        "badger membrana nueva encargada",
        "compré la membrana nueva de badger",
        "llegó la resina nueva de lynx",
        "compré resina nueva para lynx",
        "badger resina nueva cuando llegue",
        "lynx filtros nuevos encargados",
        "badger pendiente de lavado",
        "la resina nueva de lynx está en el almacén",
        "put the new membrane in the shed",
        "put lynx on the list for new filters",
        "lave lynx por favor",
        "lynx to get new filters",
        "lynx filtros nuevos por poner",
    ];
    check(&nothing.map(|text| (text, "-")));
    check(&[
        ("put new resin in lynx", "resin Lynx"),
        ("lynx got new resin", "resin Lynx"),
        ("lynx new membrane is in", "membrane Lynx"),
        ("compré y cambié la resina de lynx", "resin Lynx"),
        ("new membrane in van 3", "membrane Van 3"),
        ("new membrane in lynx, the old one is in the shed", "membrane Lynx"),
    ]);
}

#[test]
fn talk_of_prices_tells_of_no_service_and_no_reading() {
    let nothing = [
        "put the resin price up to 12",
        "changed resin price to 10",
        "resin price changed to 10",
        "membrane price changed to 250",
        "prefilter price changed to 30",
        "lynx resin price changed to 10",
        "membrane price 1 200",
        "resin price 9 50",
        "precio membrana 3 500",
        "precio de la resina 9 50",
        "cambié el precio de la resina a 12",
    ];
    check(&nothing.map(|text| (text, "-")));
    check(&[
        ("lynx resin changed, 12 euros a litre", "resin Lynx"),
        ("lynx resin changed, price £140", "resin Lynx for 140 £"),
    ]);
}

#[test]
fn a_deed_beside_a_reading_takes_nothing_from_it() {
    check(&[
        ("lynx 200 14 already flushed", "Lynx 200/14; flush Lynx"),
        ("lynx 180 11 y ya lo lavé", "Lynx 180/11; flush Lynx"),
        ("lynx 180 11 y ya lavé", "Lynx 180/11; flush Lynx"),
        ("ya lavé lynx", "flush Lynx"),
        ("lynx ya lo lavé", "flush Lynx"),
        ("acabo de lavar lynx", "flush Lynx"),
    ]);
}

#[test]
fn a_remark_behind_a_reading_does_not_hide_it() {
    check(&[
        ("lynx 180 12 leaking", "Lynx 180/12"),
        ("lynx 180 12 spotting", "Lynx 180/12"),
        ("lynx 180 12 smells of chlorine", "Lynx 180/12"),
        ("lynx 180 12 huele a cloro", "Lynx 180/12"),
        ("lynx 180 12 gotea", "Lynx 180/12"),
        ("lynx 180 12 poca presión", "Lynx 180/12"),
        ("lynx 180 12 mucho frío", "Lynx 180/12"),
        ("lynx 180 12 low pressure", "Lynx 180/12"),
        ("lynx 180 12 high street", "Lynx 180/12"),
        ("lynx 180 12 pressure is poor", "Lynx 180/12"),
        ("lynx 180 12 tap is slow", "Lynx 180/12"),
        ("lynx 180 12 brush head broken", "Lynx 180/12"),
        ("lynx 180 12 el grifo va lento", "Lynx 180/12"),
        ("lynx 180 12 weak flow", "Lynx 180/12"),
        ("lynx 180 12 poco caudal", "Lynx 180/12"),
        ("lynx 180 12 pressure 55 psi", "Lynx 180/12 379.21kPa"),
    ]);
}

#[test]
fn spanish_hundreds_are_spoken_as_digit_and_tens() {
    check(&[
        ("lynx uno ochenta doce", "Lynx 180/12"),
        ("lynx uno noventa y cinco trece", "Lynx 195/13"),
        ("lynx dos veinte quince", "Lynx 220/15"),
        ("lynx dos diez quince", "Lynx 210/15"),
        ("lynx ochenta y cinco once", "Lynx 85/11"),
    ]);
}

#[test]
fn one_price_of_several_is_kept_for_none() {
    check(&[
        (
            "lynx and badger new resin £280",
            "resin Lynx; resin Badger; price left out",
        ),
        (
            "lynx y badger resina nueva 280 libras",
            "resin Lynx; resin Badger; price left out",
        ),
        ("lynx new resin £140", "resin Lynx for 140 £"),
        ("lynx resina nueva £140", "resin Lynx for 140 £"),
        ("lynx resina nueva 140 €", "resin Lynx for 140 €"),
    ]);
}

#[test]
fn each_rig_with_one_reading_is_asked_about() {
    let mut scene = scene();
    let first = read("lynx 180 badger 200 van 3 180", &scene);
    assert_eq!(short(&first), "ask MissingReading");
    scene.open = first.ask;
    let second = read("12", &scene);
    assert_eq!(short(&second), "Lynx 180/12; ask MissingReading");
    // Whoever names the rig may answer out of turn.
    let named = read("van 3 14", &scene);
    assert_eq!(short(&named), "Van 3 180/14; ask MissingReading");
    scene.open = second.ask;
    let third = read("15", &scene);
    assert_eq!(short(&third), "Badger 200/15; ask MissingReading");
}

#[test]
fn a_clear_sentence_about_a_price_sets_it() {
    let (resin, membrane, prefilter) = (Field::ResinPrice, Field::MembranePrice, Field::PrefilterPrice);
    let rows = [
        ("put the resin price up to 12", resin, 12.0),
        ("resin price changed to 10", resin, 10.0),
        ("changed resin price to 10", resin, 10.0),
        ("change the resin price to 12", resin, 12.0),
        ("our resin costs 11", resin, 11.0),
        ("the price of resin is now 12", resin, 12.0),
        ("heron resin price changed to 10", resin, 10.0),
        ("a new membrane is £240", membrane, 240.0),
        ("membrane price changed to 250", membrane, 250.0),
        ("membrane price 1 200", membrane, 1200.0),
        ("prefilter price changed to 30", prefilter, 30.0),
        ("sube el precio de la resina a 12", resin, 12.0),
        ("el precio de la resina ha subido a 12", resin, 12.0),
        ("nuestra resina cuesta 11", resin, 11.0),
        ("precio membrana 3 500", membrane, 3500.0),
        ("una membrana nueva cuesta 240", membrane, 240.0),
    ];
    for (text, setting, price) in rows {
        let wish = setting::read(text).map(|wished| wished.wish);
        let amount = Amount::of_main(price).expect("a price");
        assert_eq!(wish, Some(Wish::Set(setting.to(amount))), "{text}");
    }
    for text in [
        "resin price 9 50",
        "heron new resin £140",
        "heron resin changed £140",
        "the membrane is 12",
    ] {
        assert_eq!(setting::read(text), None, "{text}");
    }
}
