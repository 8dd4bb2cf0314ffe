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
            ("whats lynx sitting at", "lastreading Lynx"),
            ("lynx last?", "lastreading Lynx"),
            ("whats the rejection on lynx", "rejection Lynx"),
            ("lynx trend", "trend Lynx"),
            ("what was lynx yesterday", "history Lynx"),
            ("when is lynx due a membrane", "membranewhen Lynx"),
            ("lynx membrane due?", "membranewhen Lynx"),
            ("how many days until lynx needs resin", "resinwhen Lynx"),
            ("has lynx been flushed", "flushstatus Lynx"),
            ("who hasnt logged today", "quiet ?"),
            ("what do we need to order", "shopping ?"),
            ("who's missing", "quiet ?"),
            ("shopping list", "shopping ?"),
            ("worst rig?", "fleet ?"),
            ("lynx resin?", "resinwhen Lynx"),
            ("lynx now?", "lastreading Lynx"),
            ("/status", "fleet ?"),
            ("how are all rigs", "fleet ?"),
            ("/help", "help ?"),
            ("where do i hold the meter for the ro", "help ?"),
            ("is 30 ok on the ro?", "help ?"),
        ],
        &scene(),
    );
}

#[test]
fn a_question_records_nothing() {
    check(
        &[
            ("if it was 190 in and 45 out is that ok", "help ?"),
            ("who logged 300 for lynx?", "lastreading Lynx"),
            ("with 200 in and 14 out, what rejection is that?", "rejection ?"),
        ],
        &scene(),
    );
}

#[test]
fn a_reading_may_stand_beside_a_question() {
    check(
        &[(
            "lynx 185/13 and when is badger due a membrane?",
            "Lynx 185/13; membranewhen Badger",
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
