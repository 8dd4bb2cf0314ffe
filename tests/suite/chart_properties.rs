//! What must hold of a picture of any facts: words that are large, apart and dark enough,
//! whatever the history, the names, the sums and the language.

use jiff::ToSpan;
use jiff::civil::{Date, date};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use tapside::chart::Sheet;
use tapside::chart::resin_life::Bed;
use tapside::chart::rig_history::{Ahead, Dot, Fault, Level, Record};
use tapside::chart::year_ahead::Membrane;
use tapside::replies::Words;
use tapside::replies::membrane::DueLine;
use tapside::replies::pictures::fleet::{self, Rig};
use tapside::replies::pictures::resin::{self, Left};
use tapside::replies::pictures::year::{self, Sum};
use tapside::replies::pictures::{money, rig_history};
use tapside::replies::words::LANGUAGES;
use tapside::water::assess::Doubted;
use tapside::water::condition::Condition;
use tapside::water::jump::NextTest;
use tapside::water::settings::Limits;
use tapside::water::verdict::{Deed, Due};

use crate::chart::{faults, weak};

const NAMES: [&str; 6] = [
    "Otter",
    "Mule",
    "Van 12",
    "Trailer north yard",
    "Equipo del remolque azul de la nave norte",
    "WWWWWWWWWWWWWWWWWWWWWWWW",
];

fn name() -> impl Strategy<Value = &'static str> {
    prop::sample::select(NAMES.to_vec())
}

fn today() -> impl Strategy<Value = Date> {
    (0_i64..900).prop_map(|days| date(2025, 12, 20).saturating_add(days.days()))
}

fn condition() -> impl Strategy<Value = Condition> {
    prop::sample::select(vec![
        Condition::Good,
        Condition::Fading,
        Condition::Due,
        Condition::Spent,
        Condition::Unproven,
    ])
}

fn deed() -> impl Strategy<Value = Option<Deed>> {
    let day = date(2026, 3, 9);
    let membrane = |due: Due| Deed::NewMembrane {
        due,
        rejection: 0.81,
        waiting_per_month: None,
        rule_of_thumb_costs: None,
    };
    prop::option::of(prop::sample::select(vec![
        Deed::ChangeResin { product_ppm: 12.0 },
        Deed::RepackResin {
            product_ppm: 12.0,
            will_spot: true,
        },
        LEAK,
        Deed::ReadAgain {
            seen: 0.701,
            why: Doubted::Back,
        },
        membrane(Due::Now),
        membrane(Due::About {
            early: day,
            likely: day,
            late: day,
        }),
        membrane(Due::LineCrossed {
            priced: true,
            spent: false,
        }),
        membrane(Due::GlassDecides { spent: false }),
        Deed::ResinSoon {
            at_hand_by: day,
            change_by: day,
            working_days: [1.0, 2.0, 3.0],
        },
        Deed::Prefilters {
            due: day,
            overdue: false,
        },
        Deed::AskMembrane { since: day },
    ]))
}

const LEAK: Deed = Deed::FindLeak {
    since: date(2026, 3, 2),
    permeate_ppm: None,
    cause: None,
    next_test: NextTest::LookAtORings,
    costs_per_month: None,
};

fn limits() -> impl Strategy<Value = Limits> {
    (0.70_f64..0.92, 0.02_f64..0.08).prop_map(|(due, below)| Limits {
        due,
        spent: due - below,
        ..Limits::default()
    })
}

/// Holds the sheets of so many facts to the rules of words, and the first of each to
/// the pixels beneath them, in each language. The facts are the same at every run.
fn hold<T: std::fmt::Debug>(cases: u32, facts: impl Strategy<Value = T>, draw: impl Fn(Words, &T) -> Vec<Sheet>) {
    let config = Config {
        cases,
        failure_persistence: None,
        ..Config::default()
    };
    let chance = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let held = TestRunner::new_with_rng(config, chance).run(&facts, |facts| {
        for (tag, _) in LANGUAGES {
            let sheets = draw(Words::of(Some(tag)), &facts);
            let faults: Vec<String> = sheets.iter().flat_map(faults).collect();
            prop_assert_eq!(faults, Vec::<String>::new(), "{}", tag);
            let weak: Vec<String> = sheets.iter().take(1).flat_map(weak).collect();
            prop_assert_eq!(weak, Vec::<String>::new(), "{}", tag);
        }
        Ok(())
    });
    assert_eq!(held.map_err(|broken| broken.to_string()), Ok(()));
}

/// Membranes that wear, one to three in the span, with what is ahead and a fault.
fn histories() -> impl Strategy<Value = rig_history::Facts<'static>> {
    let span = (1_i64..730, 1_i64..20, 0.75_f64..0.99, 0.0_f64..0.3);
    let ahead = (0_i64..300, 1_i64..200, any::<bool>(), any::<bool>());
    let extra = (0_usize..3, prop::option::of(1_i64..80), any::<bool>(), 3_i64..60);
    (name(), today(), condition(), limits(), span, ahead, extra).prop_map(
        |(rig, today, condition, limits, span, ahead, extra)| {
            let ((days, every, start, loss), (early, wide, has_due, is_open)) = (span, ahead);
            let (changes, fault, corrected, resin_every) = extra;
            let first = today.saturating_sub(days.days());
            let share = |day: i64| day as f64 / days as f64;
            let level = |day: i64| {
                let stretches = (changes + 1) as f64;
                let worn = share(day) * stretches - (share(day) * stretches).floor();
                (start - loss * worn).clamp(0.01, 0.995)
            };
            let at = |day: i64, mid: f64, half: f64| Level {
                day: first.saturating_add(day.days()),
                low: (mid - half).max(0.0),
                mid,
                high: (mid + half).min(1.0),
            };
            let step = usize::try_from(every).unwrap();
            let all: Vec<Level> = (0..=days).step_by(step).map(|day| at(day, level(day), 0.01)).collect();
            let cut = all.len().div_ceil(changes + 1);
            let now = level(days);
            let until = if has_due { early + wide } else { days / 2 };
            let ahead = |days: i64| today.saturating_add(days.days());
            let forecast = (0..until).step_by(5).map(|day| Level {
                day: ahead(day),
                low: (now - 0.0012 * day as f64).max(0.0),
                mid: (now - 0.0006 * day as f64).max(0.0),
                high: now,
            });
            let fault = fault.filter(|_| condition != Condition::Unproven).map(|since| Fault {
                since: today.saturating_sub(since.min(days).days()),
                until: None,
                rejection: now - 0.1,
            });
            rig_history::Facts {
                rig,
                condition: if fault.is_some() { Condition::Fault } else { condition },
                level: (condition != Condition::Unproven).then_some((now - 0.01, now, now + 0.004)),
                readings_used: days / every,
                corrected,
                due: match has_due {
                    true => DueLine::Within {
                        early: ahead(early),
                        likely: ahead(early + wide / 2),
                        late: (!is_open).then(|| ahead(early + wide)),
                    },
                    false => DueLine::NotInSight,
                },
                advice: has_due.then(|| rig_history::Advice::About(ahead(early))),
                permeate_ppm: fault.map(|_| (12.0, 134.0)),
                record: Record {
                    today,
                    limits,
                    readings: (0..=days)
                        .step_by(step)
                        .map(|day| Dot {
                            day: first.saturating_add(day.days()),
                            rejection: (level(day) + 0.01 * ((day * 7919 % 13) as f64 / 6.0 - 1.0)).min(1.0),
                            set_aside: day % 29 == 3,
                        })
                        .collect(),
                    trend: all.chunks(cut.max(1)).map(<[Level]>::to_vec).collect(),
                    forecast: forecast.collect(),
                    due: None,
                    faults: fault.into_iter().collect(),
                    resin_changes: (0..days)
                        .step_by(usize::try_from(resin_every).unwrap())
                        .map(|day| first.saturating_add(day.days()))
                        .collect(),
                    membrane_changes: all.chunks(cut.max(1)).skip(1).map(|stretch| stretch[0].day).collect(),
                },
            }
        },
    )
}

#[test]
fn any_history_can_be_read() {
    hold(24, histories(), |words, facts| {
        let sheet = rig_history::sheet(words, facts.clone());
        if facts.condition == Condition::Fault {
            // How much was lost is what the picture is for: it always finds its place.
            let lost = words.say("picture-lost", [("points", 10.into())]);
            assert!(
                sheet.words().iter().any(|placed| placed.text == lost),
                "{lost} is missing"
            );
        }
        vec![sheet]
    });
}

#[test]
fn any_resin_can_be_read() {
    let left = prop_oneof![
        Just(Left::Unknown),
        Just(Left::Nothing),
        Just(Left::Loose),
        (0.0_f64..90.0).prop_map(|likely| Left::Days([0.6 * likely, likely, 1.5 * likely])),
    ];
    let beds = prop::collection::vec(1_i64..90, 0..12);
    let facts = (name(), today(), left, beds, 0.0_f64..1.3, any::<bool>());
    hold(24, facts, |words, (rig, today, left, lasted, load, knows)| {
        let mut since = today.saturating_sub(lasted.iter().sum::<i64>().days());
        let mut beds = Vec::new();
        for (nth, days) in lasted.iter().enumerate() {
            let until = since.saturating_add(days.days());
            let is_last = nth + 1 == lasted.len();
            let full = if is_last { *load } else { 0.98 };
            let load = (0..=*days).map(|day| (since.saturating_add(day.days()), full * day as f64 / *days as f64));
            beds.push(Bed {
                since,
                until: (!is_last).then_some(until),
                load: if *knows { load.collect() } else { Vec::new() },
            });
            since = until;
        }
        let facts = resin::Facts {
            rig,
            today: *today,
            beds,
            left: *left,
            product_ppm: matches!(left, Left::Nothing | Left::Loose).then_some(14.0),
            sized: *knows,
            used_up: match left {
                Left::Days(days) => Some(days.map(|days| today.saturating_add((days as i64 * 7 / 5).days()))),
                _ => None,
            },
        };
        vec![resin::sheet(words, facts)]
    });
}

#[test]
fn what_waiting_costs_can_be_read_of_any_sums() {
    let money = prop::sample::select(vec!["$", "£", "€ ", "CHF "]);
    let sums = (1.0_f64..60_000.0, 0.02_f64..0.95, -0.3_f64..0.6);
    let days = (0_i64..500, 0_i64..300, prop::option::of(1_i64..700));
    let facts = (name(), today(), condition(), money, sums, days);
    hold(24, facts, |words, (rig, today, condition, sign, sums, days)| {
        let ((whole, share, growth), (best, flat, rule)) = (*sums, *days);
        let on = |days: i64| today.saturating_add(days.days());
        let write = |amount: f64| format!("{sign}{amount:.0}");
        let facts = money::Facts {
            rig,
            condition: *condition,
            today: *today,
            curve: (0..100)
                .map(|week| money::Cost {
                    on: on(7 * week),
                    whole: whole * (1.0 + growth * week as f64 / 52.0).max(0.3),
                    membrane: whole * 0.3 * share,
                })
                .collect(),
            best: on(best),
            flat: (on(best - flat / 2), on(best + flat)),
            waiting_per_month: whole * growth / 12.0,
            rule: rule.map(|days| money::Rule {
                line: 0.8,
                on: on(days),
                dearer: whole * 0.1,
            }),
            money: &write,
        };
        vec![money::sheet(words, &facts)]
    });
}

#[test]
fn a_fleet_of_one_to_sixty_can_be_read() {
    let rig = (name(), condition(), deed(), 0.5_f64..0.99, 0.0_f64..40.0, any::<bool>());
    let facts = (today(), prop::collection::vec(rig, 1..=60));
    hold(16, facts, |words, (today, rigs)| {
        let since = today.saturating_sub(182.days());
        let rigs = rigs
            .iter()
            .enumerate()
            .map(|(nth, (name, condition, deed, level, days, has_membrane))| {
                let fall = |from: f64, to: f64| {
                    let day = |week: i64| {
                        (
                            since.saturating_add((7 * week).days()),
                            from + (to - from) * week as f64 / 26.0,
                        )
                    };
                    vec![(0..=26).map(day).collect::<Vec<_>>()]
                };
                Rig {
                    name: format!("{name} {nth}"),
                    condition: has_membrane.then_some(*condition),
                    level: (*has_membrane && *condition != Condition::Unproven).then_some(*level),
                    before_leak: (*deed == Some(LEAK)).then_some(0.94),
                    product_ppm: (nth % 3 == 0).then_some(*days),
                    resin: match nth % 4 {
                        0 => Left::Unknown,
                        1 => Left::Nothing,
                        _ => Left::Days([0.5 * days, *days, 2.0 * days]),
                    },
                    bed_left: Some(days / 40.0),
                    deed: *deed,
                    trend: fall(0.95, *level),
                    beds: fall(1.0, days / 40.0),
                }
            });
        fleet::sheets(words, rigs.collect(), Limits::default(), since, *today)
    });
}

#[test]
fn any_year_ahead_can_be_read() {
    let membrane = (name(), 0_i64..340, 0_i64..200, any::<bool>());
    let many = prop::collection::vec(membrane, 0..9);
    let things = || prop::collection::vec(0_i64..364, 0..70);
    let facts = (1_i8..=12, many, things(), things(), 1.0_f64..90_000.0);
    hold(24, facts, |words, (month, membranes, resin, prefilters, sum)| {
        let first = date(2026, *month, 1);
        let on = |days: &i64| first.saturating_add(days.days());
        let sum = |share: f64| Sum {
            low: 0.7 * share * sum,
            likely: share * sum,
            high: 1.4 * share * sum,
        };
        let facts = year::Facts {
            first,
            membranes: membranes
                .iter()
                .map(|(rig, early, wide, is_open)| Membrane {
                    rig: (*rig).to_owned(),
                    when: Ahead {
                        early: on(early),
                        likely: on(&(early + wide / 2)),
                        late: (!is_open).then(|| on(&(early + wide))),
                    },
                })
                .collect(),
            resin: resin.iter().map(on).collect(),
            bed_litres: (resin.len() % 2 == 0).then_some(25.0),
            prefilters: prefilters.iter().map(on).collect(),
            quarters: [0.4, 0.1, 0.3, 0.2].map(sum),
            year: sum(1.0),
            money: &|amount| format!("£{amount:.0}"),
        };
        vec![year::sheet(words, &facts)]
    });
}

/// A name gives way, what is to be done does not.
#[test]
fn a_headline_keeps_the_deed_whatever_the_name() {
    for (tag, deed) in [("en", ": no resin forecast yet"), ("es", ": resina aún sin calcular")] {
        for rig in NAMES {
            let facts = resin::Facts {
                rig,
                today: date(2026, 11, 25),
                beds: Vec::new(),
                left: Left::Unknown,
                product_ppm: None,
                sized: false,
                used_up: None,
            };
            let sheet = resin::sheet(Words::of(Some(tag)), facts);
            assert!(sheet.words()[0].text.ends_with(deed), "{:?}", sheet.words()[0]);
        }
    }
}
