//! What heads a digest, and what became of the last one.

use jiff::civil::date;
use tapside::digest::followed::Outcome;
use tapside::digest::headline::{Headline, Want};
use tapside::digest::week::{Done, PersonWeek, RigWeek};
use tapside::digest::{Kind, Week, decide};
use tapside::domain::Role;
use tapside::water::history::ServiceKind;
use tapside::water::resin::BedState;

use crate::digest_fleet::{TODAY, asked, bed, empty, leaking, prefilters_due, silent, sound, with_bed};

#[test]
fn all_is_well_only_where_nothing_is_asked_for() {
    let person = |readings| PersonWeek {
        id: 2,
        name: "Ben".to_owned(),
        role: Role::Crew,
        readings,
        readings_before: 9,
    };
    let mut cold = sound(1, "Heron");
    cold.water = Some((4.0, TODAY));
    let of = |rig: RigWeek, readings| {
        let week = Week {
            rigs: vec![rig],
            people: vec![person(readings)],
            frost_said_on: None,
            ..empty()
        };
        decide(&week).headline
    };
    assert_eq!(of(sound(1, "Heron"), 3), Headline::Calm { read: 1, unread: 0 });
    let wants = |kind, name: &str| {
        Headline::Wants(vec![Want {
            kind,
            names: vec![name.to_owned()],
        }])
    };
    assert_eq!(of(cold, 3), wants(Kind::Frost, ""));
    assert_eq!(of(sound(1, "Heron"), 0), wants(Kind::QuietPerson, "Ben"));
}

#[test]
fn what_was_asked_for_is_followed() {
    let mut changed = sound(1, "Otter");
    changed.services = vec![Done {
        what: ServiceKind::Membrane,
        on: date(2026, 2, 26),
    }];
    let mut mended = sound(2, "Kestrel");
    mended.jump = leaking(sound(2, "Kestrel"), 9.0, 31.0).jump.map(|mut jump| {
        jump.closed_on = Some(date(2026, 2, 27));
        jump
    });
    let mut said = leaking(sound(5, "Adder"), 9.0, 31.0);
    said.services = vec![Done {
        what: ServiceKind::ORing,
        on: date(2026, 2, 25),
    }];
    let week = Week {
        rigs: vec![
            changed,
            mended,
            prefilters_due(sound(3, "Swift"), -9),
            sound(4, "Mule"),
            said,
            silent(
                with_bed(sound(6, "Wren"), bed(BedState::Holding, 3.0, None)),
                date(2026, 2, 20),
            ),
        ],
        decisions: vec![
            asked(Kind::NewMembrane, 1, 2),
            asked(Kind::FindLeak, 2, 1),
            asked(Kind::Prefilters, 3, 2),
            asked(Kind::ResinSoon, 4, 1),
            asked(Kind::FindLeak, 5, 1),
            asked(Kind::ResinSoon, 99, 1),
            asked(Kind::ResinSoon, 6, 1),
        ],
        ..empty()
    };
    let digest = decide(&week);
    let told: Vec<(&str, Outcome)> = (digest.followed.iter())
        .map(|followed| (followed.name.as_str(), followed.outcome))
        .collect();
    assert_eq!(
        told,
        [
            // Nobody read it, so nobody knows how its resin is.
            ("Wren", Outcome::Open),
            ("Swift", Outcome::Open),
            ("Adder", Outcome::SaidDone(date(2026, 2, 25))),
            ("Kestrel", Outcome::Done(Some(date(2026, 2, 27)))),
            ("Otter", Outcome::Done(Some(date(2026, 2, 26)))),
            ("Mule", Outcome::NoLonger),
        ]
    );
    // What is still open is counted on and keeps its date.
    let decisions = digest.decisions();
    let swift = decisions.iter().find(|decision| decision.rig == Some(3)).unwrap();
    assert_eq!((swift.mondays, swift.since), (3, date(2026, 2, 16)));
    let jumps: Vec<&str> = digest.jumps_closed.iter().map(|(rig, _)| rig.as_str()).collect();
    assert_eq!(jumps, ["Kestrel"]);
}
