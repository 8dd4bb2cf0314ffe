//! Values around which the words say that nobody has just read them here: nothing is recorded, or it is asked.

use crate::message_scene::{check, own, scene};

#[test]
fn sample_messages_are_no_readings() {
    check(
        &[
            ("lads remember: tap first then ro, like \"lynx 180/12\"", "-"),
            ("the bot wants \"lynx 180/12\", nothing fancy", "-"),
            ("write lynx 180/12, not lynx 12/180", "-"),
            ("lynx 180/12 is how you write it", "-"),
            ("try sending lynx 180/12", "-"),
            ("chicos, mandadlo así: lynx 180/12", "-"),
            ("hay que escribir lynx 180/12", "-"),
            ("lynx tap is like 180 and ro like 12", "Lynx 180/12"),
        ],
        &scene(),
    );
}

#[test]
fn wished_and_foretold_values_are_no_readings() {
    check(
        &[
            ("lynx must be 180/9 or better", "-"),
            ("call me when lynx is 180/30", "-"),
            ("mañana lynx dará 180/12", "-"),
            ("lynx 180/12 will be back at 5", "Lynx 180/12"),
            ("lynx 180/12 must be the cold", "Lynx 180/12"),
            ("lynx 180/12 could be worse", "Lynx 180/12"),
            ("lynx 180/12 needs looking at", "Lynx 180/12"),
        ],
        &scene(),
    );
}

#[test]
fn values_of_long_ago_are_no_readings() {
    check(
        &[
            ("last summer lynx did 180/12", "-"),
            ("lynx used to do 180/8", "-"),
            ("a month ago lynx was 180/12", "-"),
            ("with the old membrane lynx read 180/40", "-"),
            ("lynx was 180/8 when it was new", "-"),
            ("el verano pasado lynx daba 180/12", "-"),
            ("lynx an hour ago 180/12", "Lynx 180/12"),
        ],
        &scene(),
    );
}

#[test]
fn what_others_say_is_asked() {
    check(
        &[
            ("tom says lynx is 180/12", "ask Implausible"),
            ("mick had lynx at 205/10 i think", "ask Implausible"),
            ("dave got 160/12 on lynx", "ask Implausible"),
            ("tell dave lynx is 160/12", "ask Implausible"),
            ("lynx 160/12 says dave", "ask Implausible"),
            ("lynx 160/12 presumably", "ask Implausible"),
            ("lynx 160/12, told dave", "Lynx 160/12"),
            ("ran it 5 minutes like you said and got 160/12 on lynx", "Lynx 160/12"),
            ("the sticker on lynx says 180/9", "ask Implausible"),
            ("you wrote lynx 180/12", "ask Implausible"),
            ("pedro dice que lynx está en 180/12", "ask Implausible"),
            (
                "the sheet says new ones do 180 to 9 but mine is lynx 182 to 15",
                "Lynx 182/15",
            ),
            ("meter says 180/12 on lynx", "Lynx 180/12"),
            ("lynx says 180/12", "Lynx 180/12"),
            ("lynx 180/12 customer says windows look great", "Lynx 180/12"),
            ("el medidor dice 180/12 en lynx", "Lynx 180/12"),
        ],
        &scene(),
    );
}

#[test]
fn doubted_and_withdrawn_values_are_asked() {
    check(
        &[
            ("lynx 180/12 cant be right", "ask Implausible"),
            ("lynx 180/12 just kidding", "ask Implausible"),
            ("meter broke so just use 205/10 for lynx", "ask Implausible"),
            ("lynx 180/12 no puede ser", "ask Implausible"),
            ("lynx 180/12 not bad", "Lynx 180/12"),
            ("lynx 180/12 no joke", "Lynx 180/12"),
            ("sorry forgot lynx 205/16", "Lynx 205/16"),
            ("lynx 180/12 no está mal", "Lynx 180/12"),
        ],
        &scene(),
    );
}

#[test]
fn numbers_of_other_things_are_no_values() {
    check(
        &[
            ("lynx battery 12.6 and 13.1", "-"),
            ("lynx tyres 36/32", "-"),
            ("threshold for lynx 205/40", "ask Implausible"),
            ("van 4, 25/11 at 08:05 feed 180, permeate 14", "ask UnknownRig"),
            ("lynx 180/12 battery 12.8v", "Lynx 180/12"),
            ("lynx 180/12 mileage 45210", "Lynx 180/12"),
            ("lynx at queens road 205/16", "Lynx 205/16"),
        ],
        &scene(),
    );
    check(&[("be there in 20", "-"), ("180/12", "Lynx 180/12")], &own());
}

#[test]
fn a_second_pair_in_another_frame_leaves_the_first() {
    check(
        &[
            ("lynx 180/12, spec sheet says 180/9", "Lynx 180/12"),
            ("lynx 180/12, last week it was 180/9", "Lynx 180/12"),
            ("last month it was 180/9, now lynx is 182/15", "Lynx 182/15"),
        ],
        &scene(),
    );
}

#[test]
fn a_slashed_pair_keeps_its_order() {
    check(
        &[
            ("lynx 180/12 new membrane in", "Lynx 180/12; membrane Lynx"),
            ("lynx 180/12 in the book", "Lynx 180/12"),
            ("lynx 180/12 before the flush", "Lynx 180/12"),
            ("lynx out 12/180 in", "Lynx 180/12"),
        ],
        &scene(),
    );
}

#[test]
fn parts_that_are_chosen_or_nearly_changed_are_no_services() {
    check(
        &[
            ("nearly flushed lynx", "-"),
            ("lynx new membrane or more resin", "-"),
            ("i would have changed the resin on lynx", "-"),
            ("casi cambio la membrana de lynx", "-"),
            (
                "lynx new di in, badger new prefilters in",
                "resin Lynx; prefilter Badger",
            ),
            ("lynx flushed nearly forgot", "flush Lynx"),
        ],
        &scene(),
    );
}
