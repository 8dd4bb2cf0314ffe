//! The digest and the notes as people read them.

use jiff::civil::date;
use tapside::digest::notes::{self, Note, Topic};
use tapside::digest::{Week, decide};
use tapside::message::setting::Currency;
use tapside::replies::notes::{Press, label, presses, text};
use tapside::replies::{Words, digest};
use tapside::water::condition::Condition;
use tapside::water::renewal_verdict::Verdict;
use tapside::water::resin::BedState;

use crate::digest_fleet::{
    TODAY, bed, now, now_of, one, prefilters_due, renewal, seven, silent, sixty, sound, unlogged, with_bed, worn,
};

fn english() -> Words {
    Words::of(Some("en"))
}

fn dollars() -> Option<Currency> {
    Currency::of_code("USD")
}

fn first(week: &Week) -> String {
    digest::first(english(), &decide(week), dollars())
}

fn more(week: &Week) -> Option<String> {
    digest::more::text(english(), &decide(week), dollars())
}

#[test]
fn one_rig_all_well_is_three_lines_and_no_button() {
    insta::assert_snapshot!(first(&one()), @r"
    All good: nothing to do on your rig this week.
    Blue Ladder, 23 Feb to 1 Mar: 1 rig, 5 readings.

    Heron 93.6%, good, loses 1.8 a year, resin 24 d, flushed 5/5
    ");
    assert_eq!(more(&one()), None);
}

#[test]
fn seven_rigs_read_top_down() {
    insta::assert_snapshot!(first(&seven()), @r"
    Mule will spot without new resin. Kestrel has a leak.
    Blue Ladder, 23 Feb to 1 Mar: 7 rigs, 30 readings.

    1. Mule: change the resin before the next window
        12 ppm at the glass will spot
    2. Kestrel: find the leak, check hoses, fittings and the bypass first
        RO 9 → 31 ppm since Tuesday, costing about $21 of resin a month
    3. Otter: new membrane now
        waiting costs about $38 a month; on the list since 16 Feb
    4. Badger: new resin by Friday
        carry it by Wednesday: it may run out sooner
    5. Swift: change the prefilters by 9 Mar

    Membranes: 4 good, 1 to plan for, 1 with a leak to find, 1 resin-only.
    Two weeks' shopping: 12 L of resin, 1 set of prefilters, 1 membrane, $296.
    Before opening a housing: water off, let the pressure out.
    ");
}

#[test]
fn sixty_rigs_fit_a_phone_message_with_room_to_spare() {
    for tag in ["en", "es"] {
        let (words, digest) = (Words::of(Some(tag)), decide(&sixty()));
        let (first, more) = (
            digest::first(words, &digest, dollars()),
            digest::more::text(words, &digest, dollars()).unwrap(),
        );
        assert!(first.encode_utf16().count() < 1200, "{first}");
        assert!(more.encode_utf16().count() <= digest::more::MOST_UNITS, "{more}");
        // Every rig is named.
        for rig in &digest.fleet {
            assert!(more.contains(&rig.name), "{}: {more}", rig.name);
        }
    }
}

#[test]
fn six_hundred_rigs_with_the_longest_names_still_fit() {
    let mut week = sixty();
    let long = |name: &str, nth: usize| format!("{name} {nth} {}", "\u{1F69A}".repeat(20));
    week.rigs = (0..10)
        .flat_map(|nth| {
            let rigs = sixty().rigs.into_iter();
            rigs.map(move |mut rig| {
                rig.id += 60 * nth as i64;
                rig.name = long(&rig.name, nth);
                rig
            })
        })
        .collect();
    for tag in ["en", "es"] {
        let (words, digest) = (Words::of(Some(tag)), decide(&week));
        let (first, more) = (
            digest::first(words, &digest, dollars()),
            digest::more::text(words, &digest, dollars()).unwrap(),
        );
        assert!(first.encode_utf16().count() <= 3600, "{first}");
        assert!(
            more.encode_utf16().count() <= digest::more::MOST_UNITS,
            "{}",
            more.encode_utf16().count()
        );
    }
}

/// One note of each topic and kind of facts.
fn every_note() -> Vec<Note> {
    let otter = |id| sound(id, "Otter");
    let mut weigh = worn(otter(6), 0.84, Condition::Due, renewal(Verdict::Now, 38.0));
    weigh.assessment.renewal = None;
    let rigs = [
        with_bed(otter(1), bed(BedState::Exhausted, 0.0, Some(12.0))),
        with_bed(otter(2), bed(BedState::GivingWay, 0.5, Some(4.0))),
        with_bed(otter(3), bed(BedState::Holding, 0.5, None)),
        worn(otter(4), 0.84, Condition::Due, renewal(Verdict::Now, 38.0)),
        worn(otter(5), 0.84, Condition::Due, renewal(Verdict::NotYetKnown, 38.0)),
        weigh,
        silent(otter(7), date(2026, 2, 25)),
        silent(otter(8), date(2026, 2, 15)),
        silent(otter(9), date(2026, 1, 25)),
        prefilters_due(otter(10), -4),
        prefilters_due(otter(11), 4),
        unlogged(otter(12)),
    ];
    let mut rigs: Vec<_> = rigs.iter().map(now_of).collect();
    for rig in &mut rigs {
        rig.membrane_mondays = 2;
        rig.water = None;
    }
    let mut seen = now(rigs);
    let mut all = notes::due(&seen, &[]);
    seen.rigs[0].water = Some((5.0, TODAY));
    all.extend(
        notes::due(&seen, &[])
            .into_iter()
            .filter(|note| note.topic == Topic::Frost),
    );
    all
}

#[test]
fn every_note_is_three_short_lines_at_most() {
    let notes = every_note();
    for topic in Topic::ALL {
        assert!(notes.iter().any(|note| note.topic == topic), "{topic:?}");
    }
    for note in &notes {
        for tag in ["en", "es"] {
            let words = Words::of(Some(tag));
            let told = text(words, note, TODAY, dollars());
            assert!(told.lines().count() <= 3, "{told}");
            assert!(told.lines().all(|line| line.chars().count() <= 110), "{told}");
            let labels: Vec<String> = presses(note.topic)
                .iter()
                .map(|press| label(words, note.topic, *press))
                .collect();
            assert!((1..=3).contains(&labels.len()));
            assert!(labels.iter().all(|label| label.chars().count() <= 20), "{labels:?}");
        }
    }
}

#[test]
fn notes_say_what_to_do_and_leave_the_cautions_to_come_behind() {
    let notes = every_note();
    let told = |topic: Topic| {
        let note = notes.iter().find(|note| note.topic == topic).unwrap();
        text(english(), note, TODAY, dollars())
    };
    insta::assert_snapshot!(told(Topic::Idle30), @r"
    No reading from Otter for 36 days.
    If it's parked, put the membrane in preservative, and keep it from frost.
    Before the next window, flush it well.
    ");
    insta::assert_snapshot!(told(Topic::Resin), @r"
    Otter: change the resin before the next window.
    12 ppm at the glass will spot.
    ");
    insta::assert_snapshot!(told(Topic::Membrane), @r"
    Otter 84.0%: a new membrane pays now.
    Waiting costs about $38 a month. Second week running.
    ");
    insta::assert_snapshot!(told(Topic::Frost), @r"
    Frost season.
    On cold nights keep the rigs warm, or drain them as the maker says.
    ");
    assert_eq!(label(english(), Topic::Idle5, Press::Done), "Flushed");
}
