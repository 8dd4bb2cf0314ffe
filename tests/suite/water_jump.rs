//! Jumps told from wear, repairs, and membranes changed without a word.

use tapside::water::assess::Question;
use tapside::water::condition::Condition;
use tapside::water::history::{Event, ServiceKind};
use tapside::water::jump::{Cause, NextTest};
use tapside::water::prior::Lessons;
use tapside::water::replay::lessons_of;

use crate::water_crew::{at, heard, said, service, settings, wearing};

/// The permeate of all readings from `from` to `to` times `factor`.
fn leaking(events: Vec<Event>, from: f64, to: f64, factor: f64) -> Vec<Event> {
    events
        .into_iter()
        .map(|event| match event {
            Event::Reading(mut r) if (at(from)..at(to)).contains(&r.at) => {
                r.permeate = r
                    .permeate
                    .map(|p| tapside::water::quantity::Ppm::new(p.ppm() * factor).unwrap());
                Event::Reading(r)
            }
            other => other,
        })
        .collect()
}

#[test]
fn a_leak_of_one_point_six_is_found_and_told_apart_from_the_membrane() {
    let events = leaking(wearing(0.4, 3.0, 140.0), 120.0, 999.0, 1.6);
    let said = said(&events, 140.0);
    assert_eq!(said.condition, Some(Condition::Fault));
    let fault = said.fault.unwrap();
    assert!((fault.since - at(120.0)).abs() <= 3 * 86_400, "{}", fault.since);
    assert!((1.4..1.8).contains(&fault.passage_ratio), "{}", fault.passage_ratio);
    assert_eq!(fault.causes[0], Cause::HoseOrConnection);
    // The membrane itself: 0.05 exp(0.4 x 140/365.25) = 0.0583.
    assert!((said.rejection.unwrap().mid - 0.9417).abs() < 0.006);
    assert!(fault.seen_rejection < 0.92);
}

#[test]
fn a_new_meter_that_shows_more_is_no_leak() {
    // 20 ppm were shown, 27 are now.
    let mut events = leaking(wearing(0.4, 3.0, 140.0), 120.0, 999.0, 1.35);
    assert!(said(&events, 140.0).fault.is_some(), "on the old meter it is one");
    let from = events.partition_point(|event| event.at() < at(119.0));
    events.insert(from, service(119.0, ServiceKind::Meter));
    let said = said(&events, 140.0);
    assert!(said.fault.is_none(), "{:?}", said.fault);
    // 1 - 0.0583 x 1.35: what the new meter shows is the level.
    assert!(
        (said.rejection.unwrap().mid - 0.9213).abs() < 0.01,
        "{:?}",
        said.rejection
    );
}

#[test]
fn a_new_meter_hides_no_leak_that_comes_later() {
    let mut events = leaking(wearing(0.4, 3.0, 200.0), 180.0, 999.0, 2.0);
    let from = events.partition_point(|event| event.at() < at(119.0));
    events.insert(from, service(119.0, ServiceKind::Meter));
    assert!(said(&events, 200.0).fault.is_some());
}

#[test]
fn wear_is_no_jump() {
    for day in (20..700).step_by(20) {
        assert!(
            said(&wearing(0.9, 3.0, f64::from(day)), f64::from(day)).fault.is_none(),
            "day {day}"
        );
    }
}

#[test]
fn one_bad_cup_is_no_jump() {
    let mut events = wearing(0.4, 3.0, 120.0);
    events.push(crate::water_crew::reading(121.0, 400.0, 90.0));
    assert!(said(&events, 121.0).fault.is_none());
}

#[test]
fn a_repair_ends_the_fault_and_restores_the_membrane() {
    let repaired = leaking(wearing(0.4, 3.0, 170.0), 120.0, 150.0, 2.0);
    assert!(said(&repaired[..52], 150.0).fault.is_some());
    let after = said(&repaired, 170.0);
    assert!(after.fault.is_none());
    // 0.05 exp(0.4 x 170/365.25) = 0.0602.
    assert!(
        (after.rejection.unwrap().mid - 0.9398).abs() < 0.006,
        "{:?}",
        after.rejection
    );
}

#[test]
fn a_fault_expires_and_the_level_becomes_the_truth() {
    let events = leaking(wearing(0.4, 3.0, 220.0), 120.0, 999.0, 1.8);
    let said = said(&events, 220.0);
    assert!(said.fault.is_none());
    // 0.05 exp(0.4 x 220/365.25) x 1.8 = 0.1145.
    assert!(
        (said.rejection.unwrap().mid - 0.8855).abs() < 0.012,
        "{:?}",
        said.rejection
    );
}

#[test]
fn readings_that_were_the_first_of_a_jump_stand_after_all() {
    let events = leaking(wearing(0.4, 3.0, 140.0), 120.0, 999.0, 2.0);
    let (_, doubts) = heard(&events);
    assert!(doubts.iter().all(Option::is_none), "{doubts:?}");
}

#[test]
fn an_unlogged_new_membrane_is_asked_about_never_assumed() {
    let mut events = wearing(1.0, 3.0, 400.0);
    let new: Vec<Event> = wearing(0.3, 3.0, 60.0)
        .into_iter()
        .filter_map(|event| match event {
            Event::Reading(mut r) => {
                r.at += 402 * 86_400;
                Some(Event::Reading(r))
            }
            Event::Service(_) => None,
        })
        .collect();
    events.extend(new);
    let asked = said(&events, 440.0);
    let Some(Question::WasMembraneChanged { since }) = asked.question else {
        panic!("not asked: {asked:?}")
    };
    assert!((since - at(403.0)).abs() <= 7 * 86_400);
    assert!(asked.rejection.unwrap().mid > 0.94);
    // The crew says yes, and logs it on the right day: nothing is left to ask.
    let mut yes = events.clone();
    yes.push(service(402.0, ServiceKind::Membrane));
    assert_eq!(said(&yes, 440.0).question, None);
    // The crew says no: nothing is presumed, and the life goes on.
    let mut no = events;
    no.push(service(430.0, ServiceKind::SameMembrane));
    let said = said(&no, 440.0);
    assert_eq!(said.question, None);
    assert_eq!(said.membrane_since, Some(at(0.0)));
}

#[test]
fn a_denied_change_ends_no_life_that_the_fleet_learns_from() {
    // A fall as of a new membrane at day 282, and a logged change at day 360.
    let mut asked = wearing(1.0, 3.0, 280.0);
    asked.extend(wearing(0.3, 3.0, 60.0).into_iter().filter_map(|event| match event {
        Event::Reading(mut reading) => {
            reading.at += 282 * 86_400;
            Some(Event::Reading(reading))
        }
        Event::Service(_) => None,
    }));
    asked.push(service(360.0, ServiceKind::Membrane));
    let mut denied = asked.clone();
    denied.push(service(350.0, ServiceKind::SameMembrane));
    let taught = |events| lessons_of(&[(events, settings())]);
    let (two_lives, one_life) = (taught(asked), taught(denied));
    // The one life went on and ended better than it looked in between: less growth over all of it.
    let growth = |lessons: &Lessons| lessons.expect(150.0, &[]).1.mean;
    assert!(
        growth(&one_life) < 0.8 * growth(&two_lives),
        "{one_life:?} {two_lives:?}"
    );
}

#[test]
fn the_next_test_begins_with_the_cheapest() {
    let (list, test) = tapside::water::jump::causes(3, false, false);
    assert_eq!((list[0], test), (Cause::HoseOrConnection, NextTest::RunRinseReadAgain));
    assert_eq!(*list.last().unwrap(), Cause::Misread);
    let (list, test) = tapside::water::jump::causes(8, true, false);
    assert_eq!(
        (list[0], test),
        (Cause::ChlorinePastCarbon, NextTest::TestChlorineAfterCarbon)
    );
    let (list, test) = tapside::water::jump::causes(8, false, true);
    assert_eq!((list[0], test), (Cause::ORing, NextTest::LookAtORings));
}

#[test]
fn two_clear_readings_suffice_for_a_leak() {
    let mut events = wearing(0.4, 3.0, 120.0);
    for day in [121.0, 123.0] {
        assert!(said(&events, day).fault.is_none());
        events.push(crate::water_crew::reading(day, 400.0, 46.0));
    }
    assert!(said(&events, 123.0).fault.is_some());
}

#[test]
fn a_leak_is_the_clearer_the_quieter_the_rig() {
    // x1.3 on a rig that hardly scatters, and on one that does so by a fifth.
    let noisy = |events: Vec<Event>| -> Vec<Event> {
        let wobble = [0.8, 1.3, 1.0, 0.75, 1.25, 0.9, 1.1, 0.7, 1.35];
        let mut nth = 0;
        events
            .into_iter()
            .map(|event| match event {
                Event::Reading(mut r) => {
                    nth += 1;
                    r.permeate = r
                        .permeate
                        .map(|p| tapside::water::quantity::Ppm::new(p.ppm() * wobble[nth % 9]).unwrap());
                    Event::Reading(r)
                }
                other => other,
            })
            .collect()
    };
    let quiet = leaking(wearing(0.4, 3.0, 150.0), 130.0, 999.0, 1.35);
    assert!(said(&quiet, 150.0).fault.is_some());
    assert!(said(&noisy(quiet), 150.0).fault.is_none());
}

#[test]
fn a_new_meter_that_was_noted_is_no_leak() {
    let events = leaking(wearing(0.4, 3.0, 140.0), 120.0, 999.0, 1.5);
    let told = tapside::water::settings::Settings {
        new_meter_at: Some(at(119.0)),
        ..settings()
    };
    let fault = |settings: &tapside::water::settings::Settings| {
        let (history, _) = tapside::water::replay::replay(&events, settings, &Lessons::none());
        tapside::water::assess::assess(&history, settings, &Lessons::none(), at(140.0)).fault
    };
    assert!(fault(&settings()).is_some());
    assert_eq!(fault(&told), None);
}

#[test]
fn an_unlogged_new_membrane_is_asked_about_after_two_readings() {
    let mut events = wearing(1.2, 3.0, 400.0);
    for day in [402.0, 405.0] {
        assert_eq!(said(&events, day).question, None);
        events.push(crate::water_crew::reading(day, 400.0, 19.0));
    }
    assert!(said(&events, 405.0).question.is_some());
}

#[test]
fn a_denied_change_makes_the_next_question_rarer() {
    // A fall to 60 % of what it was, twice; after the first the crew says that it is the same membrane.
    let fall = |denied: bool| {
        let mut events = wearing(0.9, 3.0, 400.0);
        if denied {
            events.push(service(150.0, ServiceKind::SameMembrane));
        }
        let level = 400.0 * 0.05 * (0.9_f64 * 400.0 / 365.25).exp();
        let mut day = 401.0;
        for _ in 0..2 {
            events.push(crate::water_crew::reading(day, 400.0, (0.45 * level).round()));
            day += 3.0;
        }
        said(&events, day).question
    };
    assert!(fall(false).is_some());
    assert_eq!(fall(true), None);
}
