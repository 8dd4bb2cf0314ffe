//! Invented outfits of 1, 7 and 60 rigs for the digest's tests.

use jiff::civil::{Date, date};
use tapside::digest::notes::{Now, RigNow};
use tapside::digest::week::{Decision, Done, Jump, Off, PersonWeek, RigWeek};
use tapside::digest::{Kind, Week};
use tapside::domain::Role;
use tapside::water::assess::{Fault, Question, assess};
use tapside::water::condition::Condition;
use tapside::water::forecast::{Interval, Range};
use tapside::water::history::ServiceKind;
use tapside::water::jump::{Cause, NextTest};
use tapside::water::prefilter;
use tapside::water::prior::Lessons;
use tapside::water::renewal_verdict::{Renewal, RuleOfThumb, Verdict};
use tapside::water::resin::{BedAssessment, BedState};
use tapside::water::rig::History;
use tapside::water::settings::Settings;
use tapside::water::verdict::Behind;

/// Monday, and 07:00 UTC on it.
pub const TODAY: Date = date(2026, 3, 2);
pub const NOW: i64 = 1_772_434_800;
pub const DAY: i64 = 86_400;

/// What the last digest asked for.
pub fn asked(kind: Kind, rig: i64, mondays: u32) -> Decision {
    let weeks_ago = date(2026, 2, 23) - jiff::Span::new().days(7 * (i64::from(mondays) - 1));
    Decision {
        kind,
        rig: Some(rig),
        person: None,
        since: weeks_ago,
        mondays,
    }
}

/// A week without rigs.
pub fn empty() -> Week {
    Week {
        outfit: "Blue Ladder".to_owned(),
        from: date(2026, 2, 23),
        to: date(2026, 3, 1),
        today: TODAY,
        utc_offset_seconds: 0,
        southern: false,
        rigs: Vec::new(),
        people: Vec::new(),
        decisions: Vec::new(),
        frost_said_on: Some(date(2025, 11, 10)),
        was_closed: false,
    }
}

/// A sound rig that worked and was flushed every day.
pub fn sound(id: i64, name: &str) -> RigWeek {
    let mut assessment = assess(&History::default(), &Settings::default(), &Lessons::default(), NOW);
    assessment.condition = Some(Condition::Good);
    assessment.rejection = Some(around(0.936));
    assessment.points_per_year = Some(1.8);
    assessment.readings_used = 40;
    assessment.last_reading_at = Some(NOW - 3 * DAY);
    assessment.resin = Some(bed(BedState::Holding, 24.0, Some(0.0)));
    assessment.prefilter = prefilter::Assessment {
        state: prefilter::State::InDate,
        age_days: Some(60.0),
        litres: 9000.0,
        due_at: Some(NOW + 120 * DAY),
    };
    RigWeek {
        id,
        name: name.to_owned(),
        has_membrane: true,
        manual_flush: true,
        assessment,
        litres_per_workday: Some(400.0),
        resin_litres: Some(6.0),
        bed_workdays: Some(30.0),
        workdays_per_week: 5.0,
        behind: Behind::Resin,
        resin_lacks: Vec::new(),
        resin_price: Some(9.0),
        membranes: 1.0,
        membrane_price: Some(160.0),
        membrane_put_off_until: None,
        prefilter_price: Some(28.0),
        readings: 5,
        readings_before: 19,
        last_reading_on: Some(date(2026, 2, 27)),
        days_worked: 5,
        days_flushed: 5,
        jump: None,
        services: Vec::new(),
        is_preserved: false,
        off: Off::default(),
        set_aside: 0,
        water: Some((11.0, date(2026, 2, 27))),
    }
}

/// A bed with so many working days left, at five a week.
pub fn bed(state: BedState, working_days: f64, product_ppm: Option<f64>) -> BedAssessment {
    let after = |days: f64| NOW + (days * 7.0 / 5.0 * 86_400.0) as i64;
    let days = [0.5 * working_days, working_days, 1.5 * working_days];
    BedAssessment {
        state,
        used_share: 0.5,
        empty: Some(Range {
            early: after(days[0]),
            likely: after(days[1]),
            late: Some(after(days[2])),
        }),
        working_days: Some(days),
        product_ppm,
        product_rise_ppm: None,
        spots_ppm: 10.0,
    }
}

fn around(mid: f64) -> Interval {
    Interval {
        low: mid - 0.012,
        mid,
        high: mid + 0.01,
    }
}

/// A renewal with this verdict.
pub fn renewal(verdict: Verdict, waiting_per_month: f64) -> Renewal {
    Renewal {
        verdict,
        best_rejection: 0.86,
        running_cost_per_year: 640.0,
        resin_cost_per_year: 760.0,
        mean_cost_per_year: 420.0,
        waiting_per_month,
        rule_of_thumb: Some(RuleOfThumb {
            on: NOW + 200 * DAY,
            extra_cost: 142.0,
        }),
        sensitivity: None,
    }
}

/// Its membrane is worn to a level and the money says so.
pub fn worn(mut rig: RigWeek, level: f64, condition: Condition, money: Renewal) -> RigWeek {
    rig.assessment.rejection = Some(around(level));
    rig.assessment.condition = Some(condition);
    rig.assessment.points_per_year = Some(6.2);
    rig.assessment.renewal = Some(money);
    rig
}

/// Its membrane is due, and waiting costs so much a month.
pub fn worn_now(waiting: f64) -> RigWeek {
    worn(sound(1, "Otter"), 0.84, Condition::Due, renewal(Verdict::Now, waiting))
}

/// The money plans a membrane, but the rig is sound.
pub fn sound_still(mut rig: RigWeek) -> RigWeek {
    rig.assessment.condition = Some(Condition::Good);
    rig
}

/// Its owner put the membrane off.
pub fn put_off(mut rig: RigWeek) -> RigWeek {
    rig.membrane_put_off_until = Some(date(2026, 3, 20));
    rig
}

/// Its permeate jumped from one value to another three days before Friday.
pub fn leaking(mut rig: RigWeek, from_ppm: f64, to_ppm: f64) -> RigWeek {
    rig.assessment.condition = Some(Condition::Fault);
    rig.assessment.renewal = Some(renewal(Verdict::NotInSight, -20.0));
    rig.assessment.fault = Some(Fault {
        since: NOW - 6 * DAY,
        passage_ratio: 1.4,
        seen_rejection: 0.85,
        causes: vec![Cause::HoseOrConnection, Cause::ORing],
        next_test: NextTest::LookAtHosesAndBypass,
    });
    rig.jump = Some(Jump {
        opened_on: date(2026, 2, 24),
        closed_on: None,
        before_ppm: from_ppm,
        after_ppm: to_ppm,
    });
    rig
}

/// It has no membrane.
pub fn di_only(mut rig: RigWeek) -> RigWeek {
    rig.has_membrane = false;
    rig.manual_flush = false;
    rig.assessment.condition = None;
    rig.assessment.rejection = None;
    rig.assessment.points_per_year = None;
    rig
}

/// Nobody has read it since a date.
pub fn silent(mut rig: RigWeek, last: Date) -> RigWeek {
    rig.readings = 0;
    rig.days_worked = 0;
    rig.days_flushed = 0;
    rig.last_reading_on = Some(last);
    rig.assessment.last_reading_at = Some(NOW - i64::from((TODAY - last).get_days()) * DAY);
    rig
}

/// Its membrane lies in preservative.
pub fn preserved(mut rig: RigWeek) -> RigWeek {
    rig.is_preserved = true;
    rig
}

/// Its prefilters were due on a day counted from now.
pub fn prefilters_due(mut rig: RigWeek, days: i64) -> RigWeek {
    rig.assessment.prefilter.state = if days <= 0 {
        prefilter::State::Overdue
    } else {
        prefilter::State::DueSoon
    };
    rig.assessment.prefilter.due_at = Some(NOW + days * DAY);
    rig
}

/// It reads like a new membrane that nobody logged.
pub fn unlogged(mut rig: RigWeek) -> RigWeek {
    rig.assessment.question = Some(Question::WasMembraneChanged { since: NOW - 11 * DAY });
    rig
}

/// Its resin stands so.
pub fn with_bed(mut rig: RigWeek, bed: BedAssessment) -> RigWeek {
    rig.assessment.resin = Some(bed);
    rig
}

/// Flushed on so many of five days.
pub fn flushed(mut rig: RigWeek, days: u32) -> RigWeek {
    rig.days_flushed = days;
    rig
}

fn person(id: i64, name: &str, role: Role, readings: u32, readings_before: u32) -> PersonWeek {
    PersonWeek {
        id,
        name: name.to_owned(),
        role,
        readings,
        readings_before,
    }
}

/// One rig, all well.
pub fn one() -> Week {
    Week {
        rigs: vec![sound(1, "Heron")],
        people: vec![person(1, "Ana", Role::Owner, 5, 19)],
        ..empty()
    }
}

/// Seven rigs, one of each trouble.
pub fn seven() -> Week {
    let money = renewal(Verdict::Now, 38.4);
    let mut adder = silent(sound(6, "Adder"), date(2026, 2, 20));
    adder.services = vec![Done {
        what: ServiceKind::Resin,
        on: date(2026, 2, 24),
    }];
    Week {
        rigs: vec![
            sound(1, "Heron"),
            worn(sound(2, "Otter"), 0.841, Condition::Due, money),
            leaking(sound(3, "Kestrel"), 9.0, 31.0),
            with_bed(sound(4, "Mule"), bed(BedState::Exhausted, 0.0, Some(12.0))),
            flushed(prefilters_due(sound(5, "Swift"), 7), 2),
            adder,
            with_bed(di_only(sound(7, "Badger")), bed(BedState::Holding, 3.0, Some(1.0))),
        ],
        people: vec![
            person(1, "Ana", Role::Owner, 0, 0),
            person(2, "Ben", Role::Lead, 22, 80),
            person(3, "Carla", Role::Crew, 0, 18),
        ],
        decisions: vec![asked(Kind::NewMembrane, 2, 2), asked(Kind::ResinSoon, 6, 1)],
        ..empty()
    }
}

/// Sixty rigs, most of them well.
pub fn sixty() -> Week {
    let names = NAMES.split_whitespace();
    let rigs = names.zip(1..=60).map(|(name, id)| {
        let rig = sound(id, name);
        let level = 0.91 + 0.0007 * id as f64;
        match id {
            4 | 23 => with_bed(rig, bed(BedState::Exhausted, 0.0, Some(10.0 + id as f64 / 4.0))),
            7 | 31 | 44 | 52 => with_bed(rig, bed(BedState::Holding, 2.0 + id as f64 / 30.0, Some(1.0))),
            11 => leaking(rig, 9.0, 31.0),
            40 => leaking(rig, 12.0, 22.0),
            2 => worn(rig, 0.838, Condition::Due, renewal(Verdict::Now, 38.4)),
            17 => worn(rig, 0.781, Condition::Spent, renewal(Verdict::Now, 61.0)),
            29 => worn(rig, 0.862, Condition::Fading, renewal(LATER, -4.0)),
            5 | 19 | 33 | 47 => prefilters_due(rig, id - 20),
            13 | 21 | 38 => flushed(rig, 1),
            8 | 57 => silent(rig, date(2026, 2, 20)),
            9 => silent(rig, date(2026, 1, 28)),
            50 => unlogged(rig),
            14 | 28 | 42 | 56 => di_only(rig),
            _ => worn(rig, level, Condition::Good, renewal(Verdict::NotInSight, -9.0)),
        }
    });
    Week {
        outfit: "Blue Ladder".to_owned(),
        rigs: rigs.collect(),
        people: (1..=40)
            .map(|id| person(id, &format!("Crew {id}"), Role::Crew, u32::from(id % 9 != 0) * 7, 24))
            .collect(),
        decisions: vec![
            asked(Kind::FindLeak, 11, 2),
            asked(Kind::ResinSoon, 12, 1),
            asked(Kind::Prefilters, 5, 3),
            asked(Kind::QuietRig, 3, 1),
        ],
        ..empty()
    }
}

/// A new membrane pays in about a month.
pub const LATER: Verdict = Verdict::Later(Range {
    early: NOW + 10 * DAY,
    likely: NOW + 30 * DAY,
    late: Some(NOW + 70 * DAY),
});

const NAMES: &str = "Heron Otter Kestrel Mule Swift Adder Badger Crane Dingo Egret Falcon Gannet Hare Ibis Jackal \
    Koala Lynx Marten Newt Osprey Puffin Quail Raven Stoat Tapir Urchin Vole Weasel Yak Zebra Auk Bison Civet Dipper \
    Eland Ferret Gecko Hoopoe Impala Jay Kudu Lemur Mink Numbat Okapi Pika Quoll Rook Shrew Tern Uakari Viper \
    Wombat Xerus Wren Plover Siskin Dunlin Bittern Curlew";

/// The outfit between two digests: the rig as it stands now.
pub fn now_of(rig: &RigWeek) -> RigNow {
    RigNow {
        behind: rig.behind,
        id: rig.id,
        name: rig.name.clone(),
        has_membrane: rig.has_membrane,
        assessment: rig.assessment.clone(),
        last_used_on: rig.last_reading_on,
        is_preserved: rig.is_preserved,
        is_off: rig.off.away.is_some(),
        last_reading_on: rig.last_reading_on,
        resin_changed_on: Some(date(2026, 2, 2)),
        prefilters_changed_on: Some(date(2025, 9, 1)),
        membrane_mondays: 0,
        water: rig.water,
    }
}

/// These rigs on Monday, Tuesday being the next working day.
pub fn now(rigs: Vec<RigNow>) -> Now {
    Now {
        today: TODAY,
        next_workday: date(2026, 3, 3),
        utc_offset_seconds: 0,
        southern: false,
        rigs,
    }
}
