//! What is asked instead of recorded: strange names, values said twice, blurred words; and units that look like names.

use crate::message_scene::{self, scene};

fn check(rows: &[(&str, &str)]) {
    message_scene::check(rows, &scene());
}

#[test]
fn a_strange_name_and_falling_numbers_are_asked() {
    check(&[
        ("falcon 180 12", "ask UnknownRig"),
        ("falcon: 180 12", "ask UnknownRig"),
        ("truck 7 180/12", "ask UnknownRig"),
        ("truck 7: 180 12", "ask UnknownRig"),
        ("truck 7 perfect is 180/12", "ask UnknownRig"),
        ("falcon 12 10", "-"),
        ("lynx 0 0", "ask Implausible"),
    ]);
}

#[test]
fn a_value_said_twice_is_asked() {
    check(&[("lynx 180 12 or maybe 21", "ask WhichIsWhich")]);
}

#[test]
fn glued_units_are_units() {
    check(&[
        ("LYNX 180 12 55F 60psi", "Lynx 180/12 12.78C 413.69kPa"),
        ("lynx 180 12 13c 4bar", "Lynx 180/12 13C 400kPa"),
        ("lynx 180/12 perm 1.5lpm waste 3lpm", "Lynx 180/12 1.5lpm 3lpm waste"),
    ]);
}

#[test]
fn house_numbers_and_blurred_number_words_are_not_recorded() {
    check(&[
        ("lynx to do 180 and 12 high st", "-"),
        ("lynx entran 180 salen 12", "Lynx 180/12"),
    ]);
}

#[test]
fn what_is_remembered_of_long_ago_is_no_reading() {
    check(&[
        ("remember last winter when lynx went 180 in and 60 out", "-"),
        ("te acuerdas que lynx daba 180 y 60", "-"),
    ]);
}

#[test]
fn spoken_thousands_go_on_behind_an_and() {
    check(&[
        ("lynx feed one thousand and sixty permeate eighty eight", "Lynx 1060/88"),
        ("lynx feed two hundred and six permeate twelve", "Lynx 206/12"),
    ]);
}
