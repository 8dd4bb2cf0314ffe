//! Numbers that must not become readings unseen: limits, guesses, wishes, other people's, phone and job numbers.

use crate::message_scene::{check, own, scene};

#[test]
fn limits_and_targets_are_no_readings() {
    check(
        &[
            ("dont let lynx go above 25", "-"),
            ("if lynx gets over 30 ppm swap the membrane", "-"),
            ("need lynx under 10 ppm before friday", "-"),
            ("lynx no pasa de 25 ppm en cristal", "-"),
            ("lynx 180/12 customer wants it under 10", "Lynx 180/12"),
            ("lynx 180 over 12", "Lynx 180/12"),
        ],
        &scene(),
    );
}

#[test]
fn what_was_not_read_from_a_meter_is_asked() {
    check(
        &[
            ("lynx probably 180/12 havent checked", "ask Implausible"),
            ("didnt test lynx, assume 180/12 same as yesterday", "ask Implausible"),
            ("say lynx hits 180/40", "ask Implausible"),
            ("type it like lynx 180 12", "-"),
            ("se manda así: lynx 180/12", "-"),
        ],
        &scene(),
    );
}

#[test]
fn phone_job_and_house_numbers_are_no_values() {
    check(
        &[
            ("lynx crew 07700 900 123", "-"),
            ("lynx llama al 645 345 123", "-"),
            ("lynx 180/12 ring me on 07700 900123", "Lynx 180/12"),
            ("lynx job 3381 180/12", "Lynx 180/12"),
            ("unit 5 the works, lynx 180/12", "Lynx 180/12"),
            ("lynx at 14 mill lane 180/12", "Lynx 180/12"),
            ("lynx 180/12 mileage 84210", "Lynx 180/12"),
            ("lynx 20-30 mins", "-"),
        ],
        &scene(),
    );
}

#[test]
fn other_rigs_and_other_people_do_not_count_as_the_own_rig() {
    check(
        &[
            ("the new van 180/12", "ask UnknownRig"),
            ("customers tap 180", "-"),
            ("filled up 60 in, 40 left", "-"),
            ("180/12", "Lynx 180/12"),
            ("late one: 180 12 from this morning", "Lynx 180/12"),
        ],
        &own(),
    );
}

#[test]
fn a_percentage_alone_wants_its_two_readings() {
    check(
        &[
            ("lynx 93%", "ask MissingReading"),
            ("lynx at 93 percent", "ask MissingReading"),
            ("lynx 180/12 93%", "Lynx 180/12"),
            ("lynx battery 80%", "-"),
            ("93%", "-"),
        ],
        &scene(),
    );
}

#[test]
fn labels_bind_by_order_comma_and_preposition() {
    check(
        &[
            ("lynx 52F 180 12", "Lynx 180/12 11.11C"),
            ("lynx conductivity 400 / 30", "Lynx 200/15"),
            ("lynx 15 from 200 tap", "Lynx 200/15"),
            ("pulling 372 off the main and 33 out the ro on lynx", "Lynx 372/33"),
            ("lynx the big number is 167 and the small one is 10", "Lynx 167/10"),
            (
                "lynx three oh five on the way in thirty three on the way out",
                "Lynx 305/33",
            ),
            ("lynx 188;14", "Lynx 188/14"),
            ("lynx 180/12 ran 5 mins first", "Lynx 180/12"),
        ],
        &scene(),
    );
}
