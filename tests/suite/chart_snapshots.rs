//! The drawings as they were agreed on: small facts by hand, each drawing a file. A
//! change of looks shows here; what must hold of any drawing is in `chart`.

use jiff::civil::date;
use tapside::chart::axis::Tick;
use tapside::chart::rig_history::{Ahead, Dot, Jump, Level, RigHistory, Words};
use tapside::chart::{fleet_sheet, renewal_cost, resin_life, rig_history};
use tapside::water::condition::Condition;
use tapside::water::settings::Limits;

fn ticks(marks: &[(f64, &str)]) -> Vec<Tick> {
    let tick = |&(at, label): &(f64, &str)| Tick {
        at,
        label: label.to_owned(),
    };
    marks.iter().map(tick).collect()
}

fn months() -> [String; 12] {
    std::array::from_fn(|nth| format!("M{}", nth + 1))
}

#[test]
fn a_history() {
    let level = |day, mid| Level {
        day,
        low: mid - 0.01,
        mid,
        high: mid + 0.01,
    };
    let facts = RigHistory {
        headline: "Otter: due about mid May".to_owned(),
        subline: "Rejects 88 %".to_owned(),
        state: Some((Condition::Wearing, "wearing".to_owned())),
        today: date(2026, 3, 1),
        limits: Limits::default(),
        levels: ticks(&[(0.75, "75 %"), (0.85, "85 %"), (1.0, "100 %")]),
        readings: [(2, 0.94, false), (30, 0.8, true), (58, 0.88, false)]
            .map(|(days, rejection, set_aside)| Dot {
                day: date(2026, 1, 1).saturating_add(jiff::Span::new().days(days)),
                rejection,
                set_aside,
            })
            .to_vec(),
        trend: vec![vec![level(date(2026, 1, 3), 0.94), level(date(2026, 3, 1), 0.88)]],
        forecast: vec![level(date(2026, 3, 1), 0.88), level(date(2026, 6, 1), 0.83)],
        due: Some(Ahead {
            early: date(2026, 4, 20),
            likely: date(2026, 5, 15),
            late: None,
            words: "not before late Apr".to_owned(),
        }),
        jumps: vec![Jump {
            since: date(2026, 2, 1),
            until: Some(date(2026, 2, 5)),
            rejection: 0.79,
            words: "jump 1 Feb".to_owned(),
        }],
        resin_changes: vec![date(2026, 2, 10)],
        membrane_changes: vec![date(2026, 1, 2)],
        months: months(),
        words: Words {
            today: "today".to_owned(),
            trend: "trend".to_owned(),
            forecast: "forecast".to_owned(),
            due_zone: "due below 85 %".to_owned(),
            spent_zone: "spent below 80 %".to_owned(),
            resin: "resin".to_owned(),
            membrane: "new membrane".to_owned(),
            reading: "reading".to_owned(),
            set_aside: "set aside".to_owned(),
            band: "band".to_owned(),
            nothing: "no readings".to_owned(),
        },
    };
    insta::assert_snapshot!(rig_history::draw(&facts).svg());
}

#[test]
fn a_fleet_of_all_states() {
    let row = |(nth, (state, word)): (usize, (Condition, &str))| fleet_sheet::Row {
        name: format!("Rig {nth}"),
        state: Some(state),
        word: word.to_owned(),
        value: "88 %".to_owned(),
        resin: if nth == 1 {
            String::new()
        } else {
            "resin: 6-13 days".to_owned()
        },
        urgent: nth < 3,
        trend: vec![
            vec![(date(2026, 1, 5), 0.9), (date(2026, 2, 1), 0.88)],
            vec![(date(2026, 2, 2), 0.95), (date(2026, 3, 1), 0.94)],
        ],
    };
    let states = [
        (Condition::Check, "check first"),
        (Condition::Spent, "spent"),
        (Condition::Due, "due"),
        (Condition::Wearing, "wearing"),
        (Condition::Unproven, "unproven"),
        (Condition::Sound, "sound"),
    ];
    let facts = fleet_sheet::Fleet {
        headline: "3 of 6 rigs need attention".to_owned(),
        subline: "most urgent first".to_owned(),
        since: date(2026, 1, 1),
        today: date(2026, 3, 1),
        limits: Limits::default(),
        rigs: states.into_iter().enumerate().map(row).collect(),
        rest: None,
        zone: Some("due below 85 %".to_owned()),
        nothing: "none".to_owned(),
    };
    let sheet = fleet_sheet::draw(&facts);
    for (_, word) in states {
        assert!(sheet.words().iter().any(|placed| placed.text == word), "{word}");
    }
    insta::assert_snapshot!(sheet.svg());
}

#[test]
fn a_resin() {
    let bed = |since, until, days: &str| resin_life::Bed {
        since,
        until,
        load: vec![(since, 0.0), (until.unwrap_or(date(2026, 3, 1)), 0.9)],
        lasted: days.to_owned(),
    };
    let facts = resin_life::ResinLife {
        headline: "Heron: resin for about 4 working days".to_owned(),
        subline: "2-6 working days left".to_owned(),
        today: date(2026, 3, 1),
        shares: ticks(&[(0.0, "0 %"), (0.5, "50 %"), (1.0, "100 %")]),
        beds: vec![
            bed(date(2026, 1, 1), Some(date(2026, 2, 4)), "34"),
            bed(date(2026, 2, 4), None, "25"),
        ],
        full: Some(Ahead {
            early: date(2026, 3, 3),
            likely: date(2026, 3, 6),
            late: Some(date(2026, 3, 10)),
            words: "2-6 working days".to_owned(),
        }),
        months: months(),
        words: resin_life::Words {
            today: "today".to_owned(),
            full: "full".to_owned(),
            lasted: "days".to_owned(),
            load: "taken up".to_owned(),
            forecast: "forecast".to_owned(),
            nothing: "none".to_owned(),
        },
    };
    insta::assert_snapshot!(resin_life::draw(&facts).svg());
}

#[test]
fn a_curve_of_costs() {
    let facts = renewal_cost::RenewalCost {
        headline: "Otter: a new membrane by mid May".to_owned(),
        subline: "Waiting saves".to_owned(),
        today: date(2026, 3, 1),
        costs: ticks(&[(400.0, "$400"), (500.0, "$500"), (600.0, "$600")]),
        curve: vec![
            (date(2026, 3, 1), 520.0),
            (date(2026, 5, 15), 450.0),
            (date(2026, 9, 1), 480.0),
            (date(2027, 3, 1), 590.0),
        ],
        cheapest: renewal_cost::Marked {
            on: date(2026, 5, 15),
            words: "mid May: $450 a year".to_owned(),
        },
        flat: (date(2026, 5, 1), date(2026, 7, 1)),
        rule: Some(renewal_cost::Marked {
            on: date(2026, 12, 1),
            words: "80 % rule: early Dec, $90 dearer".to_owned(),
        }),
        months: months(),
        words: renewal_cost::Words {
            today: "today".to_owned(),
            axis: "a year".to_owned(),
            flat: "as good".to_owned(),
        },
    };
    insta::assert_snapshot!(renewal_cost::draw(&facts).svg());
}
