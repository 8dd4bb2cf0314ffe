//! What a digest asks for and in which order: by table, and by what must hold
//! of any fleet.

use std::collections::BTreeSet;

use jiff::civil::date;
use proptest::prelude::*;
use tapside::digest::decide::MOST_ACTIONS;
use tapside::digest::headline::Headline;
use tapside::digest::shopping::Good;
use tapside::digest::week::Lack;
use tapside::digest::week::RigWeek;
use tapside::digest::{Digest, Kind, Week, decide};
use tapside::water::condition::Condition;
use tapside::water::forecast::Range;
use tapside::water::prefilter;
use tapside::water::renewal_verdict::Verdict;
use tapside::water::resin::BedState;
use tapside::water::verdict::Behind;
use tapside::water::verdict::{Deed, Due, Risk};

use crate::digest_fleet::{
    DAY, NOW, TODAY, bed, di_only, empty, flushed, leaking, prefilters_due, preserved, put_off, renewal, seven, silent,
    sixty, sound, sound_still, unlogged, with_bed, worn, worn_now,
};

fn of(rigs: Vec<RigWeek>) -> Digest {
    decide(&Week { rigs, ..empty() })
}

fn kinds(digest: &Digest) -> Vec<Kind> {
    digest.actions.iter().map(|action| action.kind).collect()
}

#[test]
fn each_fact_asks_for_its_action_and_for_no_other() {
    let rig = || sound(1, "Otter");
    let in_days = |days: i64| {
        let range = Range {
            early: NOW + days / 2 * DAY,
            likely: NOW + days * DAY,
            late: None,
        };
        worn(rig(), 0.86, Condition::Fading, renewal(Verdict::Later(range), -2.0))
    };
    let mut unpriced = worn_now(38.0);
    unpriced.assessment.renewal = None;
    let mut never = rig();
    never.assessment.prefilter.state = prefilter::State::NeverLogged;
    for (name, rig, wanted) in [
        ("sound", rig(), vec![]),
        (
            "spots",
            with_bed(rig(), bed(BedState::Exhausted, 0.0, Some(12.0))),
            vec![Kind::ChangeResin],
        ),
        (
            "slips",
            with_bed(rig(), bed(BedState::EarlyBreakthrough, 20.0, Some(6.0))),
            vec![Kind::RepackResin],
        ),
        (
            "three days of resin",
            with_bed(rig(), bed(BedState::Holding, 3.0, None)),
            vec![Kind::ResinSoon],
        ),
        // Five working days are a calendar week: the next digest still speaks in time.
        (
            "five days of resin",
            with_bed(rig(), bed(BedState::Holding, 5.0, None)),
            vec![],
        ),
        ("jumped", leaking(rig(), 9.0, 31.0), vec![Kind::FindLeak]),
        ("pays now", worn_now(38.0), vec![Kind::NewMembrane]),
        ("pays in 44 days", in_days(44), vec![Kind::PlanMembrane]),
        ("sound, and cheapest in 20 days", sound_still(in_days(20)), vec![]),
        ("pays now, but put off", put_off(worn_now(38.0)), vec![]),
        ("pays in 50 days", in_days(50), vec![]),
        (
            "spent, but the money says no",
            worn(rig(), 0.7, Condition::Spent, renewal(Verdict::NotInSight, -9.0)),
            vec![],
        ),
        ("due, without prices", unpriced, vec![Kind::NewMembrane]),
        // While it leaks nobody can say what the membrane is worth.
        (
            "due, but jumped",
            leaking(worn_now(38.0), 9.0, 31.0),
            vec![Kind::FindLeak],
        ),
        ("prefilters soon", prefilters_due(rig(), 9), vec![Kind::Prefilters]),
        ("prefilters never logged", never, vec![]),
        ("one flush missed", flushed(rig(), 4), vec![]),
        ("two flushes missed", flushed(rig(), 3), vec![Kind::Flush]),
        ("no membrane to flush", flushed(di_only(rig()), 0), vec![]),
        ("reads like new", unlogged(rig()), vec![Kind::AskMembrane]),
        (
            "silent for ten days",
            silent(rig(), date(2026, 2, 20)),
            vec![Kind::QuietRig],
        ),
        (
            "silent for fourteen days",
            silent(rig(), date(2026, 2, 16)),
            vec![Kind::IdleRig],
        ),
        ("laid up", silent(rig(), date(2025, 12, 30)), vec![]),
        ("in preservative", preserved(silent(rig(), date(2026, 1, 28))), vec![]),
        // What was not read goes on by the count, until it is laid up.
        (
            "resin of a silent rig",
            silent(with_bed(rig(), bed(BedState::Holding, 1.0, None)), date(2026, 2, 20)),
            vec![Kind::ResinSoon, Kind::QuietRig],
        ),
        (
            "resin of a rig that is laid up",
            silent(with_bed(rig(), bed(BedState::Holding, 1.0, None)), date(2025, 12, 30)),
            vec![],
        ),
    ] {
        assert_eq!(kinds(&of(vec![rig])), wanted, "{name}");
    }
}

#[test]
fn glass_comes_first_then_faults_then_money_then_supplies_then_habits_then_silence() {
    let digest = decide(&seven());
    assert_eq!(
        kinds(&digest),
        [
            Kind::ChangeResin,
            Kind::FindLeak,
            Kind::NewMembrane,
            Kind::ResinSoon,
            Kind::Prefilters
        ]
    );
    let later: Vec<Kind> = digest.later.iter().map(|action| action.kind).collect();
    assert_eq!(later, [Kind::Flush, Kind::QuietRig, Kind::QuietPerson]);
}

#[test]
fn within_an_action_the_dearest_stands_first() {
    let rigs = [("Adder", 12.0), ("Badger", 61.0), ("Crane", 38.0)]
        .into_iter()
        .zip(1..);
    let digest = of(rigs
        .map(|((name, waiting), id)| worn(sound(id, name), 0.84, Condition::Due, renewal(Verdict::Now, waiting)))
        .collect());
    let names: Vec<&str> = digest.actions[0].items.iter().map(|item| item.subject.name()).collect();
    assert_eq!(names, ["Badger", "Crane", "Adder"]);
}

#[test]
fn an_overdue_filter_comes_before_a_flush() {
    let late = of(vec![
        prefilters_due(sound(1, "Otter"), -9),
        flushed(sound(2, "Heron"), 1),
    ]);
    assert_eq!(kinds(&late), [Kind::Prefilters, Kind::Flush]);
}

#[test]
fn a_week_without_readings_says_so() {
    let mut week = seven();
    for rig in &mut week.rigs {
        *rig = silent(rig.clone(), date(2026, 2, 20));
    }
    let digest = decide(&week);
    let last = Some(date(2026, 2, 20));
    assert_eq!(digest.headline, Headline::NoReadings { last, rests: false });
    let all = digest.actions.iter().chain(&digest.later);
    assert!(all.into_iter().any(|action| action.kind == Kind::QuietRig));
    let bought: Vec<Good> = digest.shopping.purchases.iter().map(|purchase| purchase.good).collect();
    assert!(bought.contains(&Good::Resin), "by the count: {bought:?}");
    for rig in &mut week.rigs {
        rig.is_preserved = true;
    }
    assert_eq!(decide(&week).headline, Headline::NoReadings { last, rests: true });
}

#[test]
fn the_bill_is_the_sum_by_hand() {
    let shopping = decide(&seven()).shopping;
    let told: Vec<(Good, f64, Option<f64>)> = (shopping.purchases.iter())
        .map(|purchase| (purchase.good, purchase.quantity, purchase.cost))
        .collect();
    // Mule and Badger each want one bed of 6 L at 9; Swift a set at 28; Otter a
    // membrane at 160.
    assert_eq!(
        told,
        [
            (Good::Resin, 12.0, Some(108.0)),
            (Good::Prefilters, 1.0, Some(28.0)),
            (Good::Membrane, 1.0, Some(160.0)),
        ]
    );
    assert_eq!(shopping.total(), Some(296.0));
}

#[test]
fn what_has_no_price_or_size_is_named_and_not_summed() {
    let soon = |id, name| with_bed(sound(id, name), bed(BedState::Holding, 3.0, None));
    let (mut unpriced, mut unsized_bed) = (soon(2, "Otter"), soon(3, "Mule"));
    unpriced.resin_price = None;
    unsized_bed.resin_litres = None;
    unsized_bed.resin_lacks = vec![Lack::BedSize];
    let shopping = of(vec![soon(1, "Heron"), unpriced, unsized_bed]).shopping;
    assert_eq!(shopping.total(), Some(54.0));
    assert!(shopping.total_is_partial());
    assert_eq!(shopping.purchases[0].quantity, 12.0);
    assert_eq!(shopping.resin_uncounted, [("Mule".to_owned(), vec![Lack::BedSize])]);
}

#[test]
fn codes_name_their_kinds() {
    let codes: BTreeSet<&str> = Kind::ALL.into_iter().map(Kind::code).collect();
    assert_eq!(codes.len(), Kind::ALL.len());
    for kind in Kind::ALL {
        assert_eq!(Kind::of_code(kind.code()), Some(kind));
    }
    assert_eq!(Kind::of_code("no such"), None);
}

/// Any rig, in any mixture of troubles.
fn any_rig(id: i64) -> impl Strategy<Value = RigWeek> {
    (0u8..7, 0u8..5, -20i64..30, 0u32..6, 0i64..80, any::<[bool; 4]>()).prop_map(
        move |(resin, money, filter, flushes, silent_days, [leaks, reads_like_new, no_membrane, no_prices])| {
            let mut rig = sound(id, &format!("Rig {id}"));
            rig = match resin {
                0 => with_bed(rig, bed(BedState::Exhausted, 0.0, Some(14.0))),
                1 => with_bed(rig, bed(BedState::EarlyBreakthrough, 9.0, Some(11.0))),
                2 => with_bed(rig, bed(BedState::Holding, 2.0, None)),
                3 => with_bed(rig, bed(BedState::GivingWay, 4.0, Some(4.0))),
                _ => rig,
            };
            rig = match money {
                0 => worn(rig, 0.82, Condition::Due, renewal(Verdict::Now, 20.0 + id as f64)),
                1 => worn(rig, 0.82, Condition::Due, renewal(Verdict::NotYetKnown, 0.0)),
                2 => worn(rig, 0.75, Condition::Spent, renewal(Verdict::NotInSight, -8.0)),
                _ => rig,
            };
            if filter < 14 {
                rig = prefilters_due(rig, filter);
            }
            rig = flushed(rig, flushes.min(5));
            if leaks {
                rig = leaking(rig, 9.0, 25.0);
            }
            if reads_like_new {
                rig = unlogged(rig);
            }
            if no_membrane {
                rig = di_only(rig);
            }
            if no_prices {
                (rig.resin_price, rig.membrane_price) = (None, None);
                rig.assessment.renewal = None;
            }
            if silent_days > 8 {
                rig = silent(rig, TODAY - jiff::Span::new().days(silent_days));
            }
            rig
        },
    )
}

fn any_fleet() -> impl Strategy<Value = Vec<RigWeek>> {
    (1i64..25).prop_flat_map(|count| (1..=count).map(any_rig).collect::<Vec<_>>())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_order_in_which_rigs_are_handed_in_changes_nothing(rigs in any_fleet(), turn in 0usize..25) {
        let week = Week { rigs: rigs.clone(), ..seven() };
        let mut turned = rigs;
        turned.reverse();
        let by = turn % turned.len();
        turned.rotate_left(by);
        prop_assert_eq!(decide(&week), decide(&Week { rigs: turned, ..seven() }));
    }

    #[test]
    fn there_are_never_more_than_five_actions_and_none_is_lost(rigs in any_fleet()) {
        let digest = of(rigs);
        prop_assert!(digest.actions.len() <= MOST_ACTIONS);
        prop_assert!(digest.later.is_empty() || digest.actions.len() == MOST_ACTIONS);
        let all: Vec<Kind> = digest.actions.iter().chain(&digest.later).map(|action| action.kind).collect();
        let once: BTreeSet<Kind> = all.iter().copied().collect();
        prop_assert_eq!(once.len(), all.len());
        let risks: Vec<Risk> = all.iter().map(|kind| kind.risk()).collect();
        prop_assert!(risks.is_sorted(), "{:?}", risks);
    }

    #[test]
    fn every_action_is_backed_by_a_fact(rigs in any_fleet()) {
        let digest = of(rigs.clone());
        for item in digest.actions.iter().chain(&digest.later).flat_map(|action| &action.items) {
            let Some(rig) = rigs.iter().find(|rig| Some(rig.id) == item.subject.rig()) else { continue };
            let facts = &rig.assessment;
            let backed = match &item.deed {
                Deed::ChangeResin { product_ppm } => facts.will_spot() && *product_ppm >= 10.0,
                Deed::RepackResin { .. } => facts.bed_state() == Some(BedState::EarlyBreakthrough),
                Deed::ResinSoon { .. } => facts.resin.unwrap().working_days.unwrap()[1] < 7.0,
                Deed::FindLeak { .. } => facts.fault.is_some(),
                Deed::ReadAgain { .. } => facts.seen.unwrap().doubted.is_some(),
                Deed::NewMembrane { due: Due::Now, .. } => facts.renewal.unwrap().pays_now(),
                Deed::NewMembrane { due: Due::About { .. }, .. } =>
                    matches!(facts.renewal.unwrap().verdict, Verdict::Later(_)),
                Deed::NewMembrane { due: Due::LineCrossed { priced, .. }, .. } =>
                    facts.renewal.is_some() == *priced && facts.rejection.unwrap().mid < 0.85,
                Deed::NewMembrane { due: Due::GlassDecides { .. }, .. } =>
                    rig.behind == Behind::Glass { wants_new: true }
                        || rig.behind != Behind::Resin && facts.rejection.unwrap().mid < 0.85,
                Deed::Prefilters { .. } => facts.prefilter.due_at.unwrap() <= NOW + 14 * DAY,
                Deed::Flush { worked, flushed } => rig.manual_flush && worked > flushed,
                Deed::AskMembrane { .. } => facts.question.is_some(),
                Deed::IdleRig { .. } | Deed::QuietRig { .. } => rig.readings == 0,
                Deed::Frost { .. } | Deed::QuietPerson { .. } => false,
            };
            prop_assert!(backed, "{:?}", item);
        }
    }
}

#[test]
fn sixty_rigs_share_five_actions() {
    let digest = decide(&sixty());
    let counts: Vec<(Kind, usize)> = (digest.actions.iter())
        .map(|action| (action.kind, action.items.len()))
        .collect();
    assert_eq!(
        counts,
        [
            (Kind::ChangeResin, 2),
            (Kind::FindLeak, 2),
            (Kind::NewMembrane, 2),
            (Kind::ResinSoon, 4),
            (Kind::Prefilters, 4),
        ]
    );
}
