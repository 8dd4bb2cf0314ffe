//! Questions of the crew.

use tapside::grammar::Scene;

use crate::message_scene::{check, id_of, scene};

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
            ("/status", "fleet ?"),
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
            ("who logged 300 for lynx?", "whologged Lynx"),
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

#[test]
fn parts_are_asked_after_in_any_order() {
    check(
        &[
            ("resin how long on lynx", "resinwhen Lynx"),
            ("hows the resin on lynx", "resinwhen Lynx"),
            ("lynx resin", "resinwhen Lynx"),
            ("resin days lynx", "resinwhen Lynx"),
            ("cómo va la resina de lynx", "resinwhen Lynx"),
            ("how is the membrane on lynx holding up", "membranewhen Lynx"),
            ("lynx membrane when", "membranewhen Lynx"),
            ("which rigs need a membrane", "membranewhen ?"),
            ("last resin change lynx?", "history Lynx"),
            ("when did we last change the resin on lynx", "history Lynx"),
        ],
        &scene(),
    );
}

#[test]
fn past_days_are_history() {
    check(
        &[
            ("what was lynx on monday", "history Lynx"),
            ("lynx last 10 readings", "history Lynx"),
            ("last 5 readings for lynx", "history Lynx"),
            ("last numbers for lynx", "lastreading Lynx"),
            ("whats the tap on lynx", "lastreading Lynx"),
        ],
        &scene(),
    );
}

#[test]
fn the_whole_fleet_and_what_it_needs() {
    check(
        &[
            ("status?", "fleet ?"),
            ("show me the fleet", "fleet ?"),
            ("which rigs need attention", "fleet ?"),
            ("cómo están todos", "fleet ?"),
            ("did everyone log", "quiet ?"),
            ("what should i order", "shopping ?"),
            ("any news on lynx", "status Lynx"),
        ],
        &scene(),
    );
}

#[test]
fn without_a_name_the_own_rig_is_meant() {
    let own = Scene {
        own_rig: Some(id_of("Lynx")),
        ..scene()
    };
    check(
        &[
            ("how's the resin", "resinwhen Lynx"),
            ("membrane?", "membranewhen Lynx"),
            ("whats my rejection", "rejection Lynx"),
            ("what is rejection", "explain ? Rejection"),
            ("am i due a membrane", "membranewhen Lynx"),
        ],
        &own,
    );
}

#[test]
fn why_and_who_and_pictures() {
    check(
        &[
            ("why is lynx due", "why Lynx Due"),
            ("how come badger is wearing", "why Badger Fading"),
            ("why does lynx need a membrane", "why Lynx Membrane Membrane"),
            ("por qué toca la membrana de lynx?", "why Lynx Membrane Due"),
            ("why was lynx 40 this morning when it was 20 on friday?", "trend Lynx"),
            ("lynx chart", "picture Lynx"),
            ("show me a graph of lynx", "picture Lynx"),
            ("gráfica de lynx", "picture Lynx"),
            ("lynx trend", "trend Lynx"),
            ("who logged lynx yesterday", "whologged Lynx Yesterday"),
            ("who changed the resin on lynx", "whologged Lynx Resin"),
            ("who hasnt logged today", "quiet ?"),
        ],
        &scene(),
    );
}

#[test]
fn rigs_are_compared_and_the_worst_are_asked_for() {
    check(
        &[
            ("compare lynx and badger", "compare Lynx; compare Badger"),
            ("compara lynx y badger", "compare Lynx; compare Badger"),
            ("which rigs are the worst", "fleet ?"),
            ("which ones need work", "fleet ?"),
        ],
        &scene(),
    );
}

#[test]
fn money_is_asked_for_with_part_price_and_time() {
    check(
        &[
            ("how much did lynx cost us last year", "cost Lynx LastYear"),
            ("how much have we spent on resin", "cost ? Resin"),
            ("lynx cost?", "cost Lynx"),
            ("cuánto nos costó lynx el año pasado", "cost Lynx LastYear"),
            ("what if resin costs 12?", "whatif ? Resin 12"),
            ("what if resin costs 20% more?", "whatif ? Resin +20%"),
            ("what if resin was 50 % dearer?", "whatif ? Resin +50%"),
            ("what if resin is 20 % cheaper?", "whatif ? Resin -20%"),
            ("what if membranes go up 15 percent?", "whatif ? Membrane +15%"),
            ("y si la resina cuesta un 20 % más?", "whatif ? Resin +20%"),
            ("y si la resina fuera un 10% más barata?", "whatif ? Resin -10%"),
            ("what if a membrane was $400 on lynx", "whatif Lynx Membrane 400"),
            ("y si la resina cuesta 12?", "whatif ? Resin 12"),
            ("lynx costs too much in fuel", "-"),
        ],
        &scene(),
    );
}

#[test]
fn words_are_explained() {
    check(
        &[
            ("what does due mean?", "explain ? Due"),
            ("what do you mean by sound", "explain ? Good"),
            ("whats permeate", "explain ? Permeate"),
            ("qué significa gastada", "explain ? Spent"),
            ("whats the tap on lynx", "lastreading Lynx"),
            ("what u wearing", "-"),
        ],
        &scene(),
    );
}

#[test]
fn costs_are_asked_of_months_and_years() {
    check(
        &[
            (
                "what did lynx cost in 2025?",
                "cost Lynx Months { year: Some(2025), from: 1, to: Some(12) }",
            ),
            (
                "what did lynx cost in february?",
                "cost Lynx Months { year: None, from: 2, to: Some(2) }",
            ),
            (
                "what did lynx cost since january?",
                "cost Lynx Months { year: None, from: 1, to: None }",
            ),
            ("what did lynx cost last quarter?", "cost Lynx LastQuarter"),
            (
                "what did lynx cost from january to march 2025?",
                "cost Lynx Months { year: Some(2025), from: 1, to: Some(3) }",
            ),
            (
                "¿cuánto costó lynx en 2025?",
                "cost Lynx Months { year: Some(2025), from: 1, to: Some(12) }",
            ),
            (
                "¿cuánto costó lynx en enero?",
                "cost Lynx Months { year: None, from: 1, to: Some(1) }",
            ),
        ],
        &scene(),
    );
}

#[test]
fn prefilters_and_flushes_of_all_are_asked_about() {
    check(
        &[
            ("prefilters lynx?", "status Lynx"),
            ("has everyone flushed", "flushstatus ?"),
            ("which rigs are not flushed", "flushstatus ?"),
        ],
        &scene(),
    );
}
