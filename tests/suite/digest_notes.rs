//! What is said between two digests: each once, most important first.

use jiff::civil::{Date, date};
use tapside::digest::notes::{Now, Said, Topic, due};
use tapside::water::condition::Condition;
use tapside::water::renewal_verdict::Verdict;
use tapside::water::resin::BedState;

use crate::digest_fleet::{
    TODAY, bed, di_only, leaking, now, now_of, prefilters_due, preserved, renewal, silent, sound, unlogged, with_bed,
    worn,
};

fn topics(now: &Now, said: &[Said]) -> Vec<Topic> {
    due(now, said).iter().map(|note| note.topic).collect()
}

fn said(topic: Topic, on: Date) -> Said {
    Said {
        topic,
        rig: (topic != Topic::Frost).then_some(1),
        on,
        again_on: None,
    }
}

#[test]
fn each_fact_makes_its_note_due() {
    let rig = || sound(1, "Otter");
    let pays = || worn(rig(), 0.84, Condition::Due, renewal(Verdict::Now, 38.0));
    for (name, rig, mondays, wanted) in [
        ("well", rig(), 0, vec![]),
        (
            "spots",
            with_bed(rig(), bed(BedState::Exhausted, 0.0, Some(12.0))),
            0,
            vec![Topic::Resin],
        ),
        (
            "half a day left",
            with_bed(rig(), bed(BedState::Holding, 0.5, None)),
            0,
            vec![Topic::Resin],
        ),
        (
            "three days left",
            with_bed(rig(), bed(BedState::Holding, 3.0, None)),
            0,
            vec![],
        ),
        ("pays, first Monday", pays(), 1, vec![]),
        ("pays, second Monday", pays(), 2, vec![Topic::Membrane]),
        ("paid last week, not now", rig(), 2, vec![]),
        ("pays, but leaks", leaking(pays(), 9.0, 31.0), 2, vec![]),
        ("idle for 4 days", silent(rig(), date(2026, 2, 26)), 0, vec![]),
        (
            "idle for 5 days",
            silent(rig(), date(2026, 2, 25)),
            0,
            vec![Topic::Idle5],
        ),
        (
            "idle for 13 days",
            silent(rig(), date(2026, 2, 17)),
            0,
            vec![Topic::Idle5],
        ),
        (
            "idle for 14 days",
            silent(rig(), date(2026, 2, 16)),
            0,
            vec![Topic::Idle14],
        ),
        (
            "idle for 30 days",
            silent(rig(), date(2026, 1, 31)),
            0,
            vec![Topic::Idle30],
        ),
        ("laid up", silent(rig(), date(2025, 12, 30)), 0, vec![]),
        (
            "idle in preservative",
            preserved(silent(rig(), date(2026, 1, 31))),
            0,
            vec![],
        ),
        (
            "idle, nothing to dry out",
            silent(di_only(rig()), date(2026, 2, 16)),
            0,
            vec![],
        ),
        ("filters overdue", prefilters_due(rig(), -1), 0, vec![Topic::Prefilters]),
        ("reads like new", unlogged(rig()), 0, vec![Topic::AskMembrane]),
    ] {
        let mut rig = now_of(&rig);
        rig.membrane_mondays = mondays;
        assert_eq!(topics(&now(vec![rig]), &[]), wanted, "{name}");
    }
}

#[test]
fn nothing_is_said_twice_of_one_matter() {
    let spent = now_of(&with_bed(sound(1, "Otter"), bed(BedState::Exhausted, 0.0, Some(12.0))));
    let here = now(vec![spent]);
    let yesterday = date(2026, 3, 1);
    assert_eq!(topics(&here, &[said(Topic::Resin, yesterday)]), []);
    // The resin was changed on 2 February: what was said before that was of
    // another bed.
    assert_eq!(topics(&here, &[said(Topic::Resin, date(2026, 2, 1))]), [Topic::Resin]);
    // Another topic or another rig says nothing of this one.
    assert_eq!(topics(&here, &[said(Topic::Prefilters, yesterday)]), [Topic::Resin]);
    let other = Said {
        rig: Some(2),
        ..said(Topic::Resin, yesterday)
    };
    assert_eq!(topics(&here, &[other]), [Topic::Resin]);
}

#[test]
fn what_was_put_off_comes_again_once() {
    let here = now(vec![now_of(&prefilters_due(sound(1, "Otter"), -9))]);
    let put_off = |again_on| Said {
        again_on: Some(again_on),
        ..said(Topic::Prefilters, date(2026, 2, 23))
    };
    assert_eq!(topics(&here, &[put_off(date(2026, 3, 3))]), []);
    assert_eq!(topics(&here, &[put_off(TODAY)]), [Topic::Prefilters]);
    assert_eq!(topics(&here, &[put_off(TODAY), said(Topic::Prefilters, TODAY)]), []);
}

#[test]
fn a_standing_rig_is_spoken_of_at_each_step() {
    let idle = |last| now(vec![now_of(&silent(sound(1, "Otter"), last))]);
    let fifteen_days = idle(date(2026, 2, 15));
    assert_eq!(
        topics(&fifteen_days, &[said(Topic::Idle5, date(2026, 2, 20))]),
        [Topic::Idle14]
    );
    assert_eq!(topics(&fifteen_days, &[said(Topic::Idle14, date(2026, 3, 1))]), []);
    // It worked in between: a new rest begins.
    assert_eq!(
        topics(&fifteen_days, &[said(Topic::Idle14, date(2026, 2, 1))]),
        [Topic::Idle14]
    );
}

#[test]
fn frost_is_spoken_of_once_a_season() {
    let mut rig = now_of(&sound(1, "Otter"));
    rig.water = Some((4.0, TODAY));
    let here = now(vec![rig]);
    assert_eq!(topics(&here, &[]), [Topic::Frost]);
    assert_eq!(topics(&here, &[said(Topic::Frost, date(2025, 11, 10))]), []);
    assert_eq!(topics(&here, &[said(Topic::Frost, date(2025, 2, 10))]), [Topic::Frost]);
}

#[test]
fn the_most_important_comes_first() {
    let here = now(vec![
        now_of(&unlogged(sound(1, "Adder"))),
        now_of(&prefilters_due(sound(2, "Badger"), 3)),
        now_of(&prefilters_due(sound(3, "Crane"), -3)),
        now_of(&with_bed(sound(4, "Mule"), bed(BedState::Holding, 0.5, None))),
        now_of(&with_bed(sound(5, "Otter"), bed(BedState::Exhausted, 0.0, Some(12.0)))),
    ]);
    let notes = due(&here, &[]);
    let names: Vec<&str> = notes
        .iter()
        .filter_map(|note| note.rig.as_ref())
        .map(|(_, name)| name.as_str())
        .collect();
    assert_eq!(names, ["Otter", "Mule", "Crane", "Badger", "Adder"]);
}

#[test]
fn codes_name_their_topics() {
    for topic in Topic::ALL {
        assert_eq!(Topic::of_code(topic.code()), Some(topic));
    }
    assert_eq!(Topic::of_code("no such"), None);
}
