//! Services: done, not intended, denied or asked.

use tapside::grammar::Scene;

use crate::message_scene::{check, id_of, scene};

#[test]
fn what_was_done_is_a_service() {
    check(
        &[
            ("lynx flushed", "flush Lynx"),
            ("flushed lynx 10 min", "flush Lynx 10 min"),
            ("flusshed lynx 10mn", "flush Lynx 10 min"),
            ("lynx flush ✅", "flush Lynx"),
            ("flushing lynx now", "flush Lynx"),
            ("lynx flushing now", "flush Lynx"),
            ("new membrane in lynx", "membrane Lynx"),
            ("lynx resin changed", "resin Lynx"),
            ("lynx di repacked", "repack Lynx"),
            ("lynx carbon and sediment replaced", "prefilter Lynx"),
            ("changed the o ring on lynx", "o-ring Lynx"),
            ("lynx resin had had it, replaced it", "resin Lynx"),
            ("he cambiado la resina de lynx", "resin Lynx"),
            ("membrana nueva en lynx", "membrane Lynx"),
            ("enjuagué lynx 10 min", "flush Lynx 10 min"),
            ("j'ai changé la résine sur lynx", "resin Lynx"),
            ("new meter on lynx", "meter Lynx"),
            ("lynx: fitted a new tds meter", "meter Lynx"),
            ("new meter on lynx, 180 12", "Lynx 180/12; meter Lynx"),
            ("medidor nuevo en lynx", "meter Lynx"),
        ],
        &scene(),
    );
}

#[test]
fn several_rigs_and_parts() {
    check(
        &[
            ("flushed lynx and badger", "flush Lynx; flush Badger"),
            ("lynx flushed ✅ badger flushed ✅", "flush Lynx; flush Badger"),
            ("both trailers flushed", "flush Trailer B; flush Trailer C"),
            (
                "new carbon blocks on b and c trailers",
                "prefilter Trailer B; prefilter Trailer C",
            ),
            ("lynx di done badger membrane done", "resin Lynx; membrane Badger"),
            (
                "lynx membrane fitted, prefilters fitted",
                "membrane Lynx; prefilter Lynx",
            ),
        ],
        &scene(),
    );
}

#[test]
fn intended_denied_or_asked_is_none() {
    check(
        &[
            ("lynx needs new resin", "-"),
            ("will flush lynx later", "-"),
            ("lynx not flushed, too late", "-"),
            ("forgot to flush lynx", "-"),
            ("replacing the membrane on lynx next week", "-"),
            ("flush every rig tonight", "-"),
            ("swap the resin on lynx today please", "-"),
            ("order resin for lynx", "-"),
            ("new membrane arrived for lynx", "-"),
            ("hay que cambiar la resina de lynx", "-"),
            ("did anyone flush lynx", "flushstatus Lynx"),
        ],
        &scene(),
    );
}

#[test]
fn a_reading_and_a_service_in_one_message() {
    check(
        &[
            ("lynx 180/12 flushed", "Lynx 180/12; flush Lynx"),
            (
                "lynx 185/13 flushed. badger 220/21 not flushed",
                "Lynx 185/13; Badger 220/21; flush Lynx",
            ),
            ("lynx di changed 180/12/0", "Lynx 180/12/0; resin Lynx"),
            ("lynx 180/12, needs resin", "Lynx 180/12"),
        ],
        &scene(),
    );
}

#[test]
fn all_flushed_counts_from_those_who_may_speak_for_all() {
    let mut lead = Scene {
        may_speak_for_all: true,
        ..scene()
    };
    lead.fleet[1].worked_today = false;
    lead.fleet[2].manual_flush = false;
    check(
        &[(
            "all flushed",
            "flush Lynx; flush Trailer B; flush Trailer C; flush Grey Seal",
        )],
        &lead,
    );
    check(&[("all flushed", "ask WhichRig")], &scene());
}

#[test]
fn without_a_rig_the_own_one_is_meant() {
    let own = Scene {
        own_rig: Some(id_of("Badger")),
        ..scene()
    };
    check(
        &[
            ("flushed 10 mins", "flush Badger 10 min"),
            ("changed resin", "resin Badger"),
        ],
        &own,
    );
    check(&[("changed resin", "ask WhichRig")], &scene());
}

#[test]
fn an_answer_to_a_nudge() {
    let nudged = Scene {
        nudged: vec![id_of("Lynx")],
        ..scene()
    };
    check(
        &[
            ("done", "flush Lynx"),
            ("👍", "flush Lynx"),
            ("flushed", "flush Lynx"),
            ("not yet, one more street", "-"),
            ("ok", "-"),
            ("will do", "-"),
            ("not used", "not used Lynx"),
            ("badger flushed", "flush Badger"),
        ],
        &nudged,
    );
}

#[test]
fn a_deed_behind_a_link_is_of_the_rig_behind_it() {
    let meaning = tapside::grammar::read("lynx 180 12 & flushed badger", &crate::message_scene::scene());
    assert_eq!(crate::message_scene::short(&meaning), "Lynx 180/12; flush Badger");
}

#[test]
fn a_flush_is_told_around_the_name() {
    for (text, expected) in [
        ("flushing lynx now", "flush Lynx"),
        ("gave lynx a flush", "flush Lynx"),
        ("done flush on lynx", "flush Lynx"),
        ("will give lynx a flush", "-"),
    ] {
        let meaning = tapside::grammar::read(text, &crate::message_scene::scene());
        assert_eq!(crate::message_scene::short(&meaning), expected, "{text}");
    }
}

#[test]
fn a_price_is_kept_as_it_was_said() {
    check(
        &[
            ("new resin lynx $85", "resin Lynx for 85 $"),
            ("lynx resin changed £64.50", "resin Lynx for 64.5 £"),
            ("cambié la resina de lynx, 60 euros", "resin Lynx for 60 euros"),
            ("membrana nueva en lynx, $1,800", "membrane Lynx for 1800 $"),
            ("lynx resin changed, 12 euros a litre", "resin Lynx"),
        ],
        &scene(),
    );
}

#[test]
fn what_is_spared_still_waits_or_is_put_off_is_not_done() {
    check(
        &[
            ("lynx still not flushed", "-"),
            ("should have flushed lynx", "-"),
            ("lynx 180/12 could do with a new membrane", "Lynx 180/12"),
            ("lynx membrane being swapped today", "-"),
            ("flushed the lynx rig before rolling up", "flush Lynx"),
            ("new o-ring on lynx", "o-ring Lynx"),
            ("repacked lynx", "repack Lynx"),
            ("lynx compactada", "repack Lynx"),
            ("trailer b and c flushed", "flush Trailer B; flush Trailer C"),
            ("ya enjuagué lynx y la badger", "flush Lynx; flush Badger"),
        ],
        &scene(),
    );
}
