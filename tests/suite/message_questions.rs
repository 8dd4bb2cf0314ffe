//! Questions of the crew.

use tapside::message::{Scene, read};

use crate::message_scene::{id_of, scene, short};

fn check(rows: &[(&str, &str)], scene: &Scene) {
    for (text, expected) in rows {
        assert_eq!(&short(&read(text, scene)), expected, "{text}");
    }
}

#[test]
fn topics() {
    check(
        &[
            ("how is lynx", "status Lynx"),
            ("lynx?", "status Lynx"),
            ("lynx", "status Lynx"),
            ("cómo va lynx?", "status Lynx"),
            ("whats lynx on atm", "lastreading Lynx"),
            ("lynx last?", "lastreading Lynx"),
            ("whats the rejection on lynx", "rejection Lynx"),
            ("lynx trend", "trend Lynx"),
            ("what was lynx yesterday", "history Lynx"),
            ("when is lynx due a membrane", "membranewhen Lynx"),
            ("lynx membrane due?", "membranewhen Lynx"),
            ("how long til lynx needs new resin", "resinwhen Lynx"),
            ("has lynx been flushed", "flushstatus Lynx"),
            ("who hasnt logged today", "quiet ?"),
            ("what do we need to order", "shopping ?"),
            ("/status", "fleet ?"),
            ("how are all rigs", "fleet ?"),
            ("/help", "help ?"),
            ("where do i put the probe for the ro", "help ?"),
            ("is 25 bad on the ro?", "help ?"),
        ],
        &scene(),
    );
}

#[test]
fn a_question_records_nothing() {
    check(
        &[
            ("if its 180 in and 40 out is that bad", "help ?"),
            ("did someone really log 400 for lynx?", "lastreading Lynx"),
            ("at 180 in and 12 out, what rejection is that?", "rejection ?"),
        ],
        &scene(),
    );
}

#[test]
fn a_reading_may_stand_beside_a_question() {
    check(
        &[(
            "lynx 180/12 and is badger due a membrane?",
            "Lynx 180/12; membranewhen Badger",
        )],
        &scene(),
    );
}

#[test]
fn we_are_the_own_rig() {
    let own = Scene {
        own_rig: Some(id_of("Badger")),
        ..scene()
    };
    check(&[("how are we doing", "status Badger")], &own);
}
