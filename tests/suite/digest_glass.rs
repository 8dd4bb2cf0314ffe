//! A rig whose RO water goes to the glass as it is: no price decides about its
//! membrane, and no resin is counted.

use tapside::digest::shopping::Good;
use tapside::digest::week::RigWeek;
use tapside::digest::{Digest, Kind, Week, decide};
use tapside::water::condition::Condition;
use tapside::water::renewal_verdict::Verdict;
use tapside::water::verdict::Behind;
use tapside::water::verdict::{Deed, Due};

use crate::digest_fleet::{empty, leaking, put_off, renewal, sound, worn};

fn of(rig: &RigWeek) -> Digest {
    decide(&Week {
        rigs: vec![rig.clone()],
        ..empty()
    })
}

/// A rig without resin, at a level, whose glass wants a new membrane or not.
fn on_glass(level: f64, condition: Condition, wants_new: bool) -> RigWeek {
    let mut rig = worn(sound(1, "Otter"), level, condition, renewal(Verdict::Now, 38.0));
    rig.assessment.renewal = None;
    rig.resin_litres = None;
    rig.behind = Behind::Glass { wants_new };
    rig
}

/// Whether a membrane is asked for, bought, or up to the glass.
fn membrane(rig: &RigWeek) -> (bool, bool, bool) {
    let digest = of(rig);
    let items = digest.actions.iter().flat_map(|action| &action.items);
    let asked = items.filter(|item| item.deed.kind() == Kind::NewMembrane);
    let asked: Vec<_> = asked.collect();
    for item in &asked {
        assert!(
            matches!(
                item.deed,
                Deed::NewMembrane {
                    due: Due::GlassDecides { .. },
                    waiting_per_month: None,
                    ..
                }
            ),
            "{item:?}"
        );
    }
    let shopping = digest.shopping;
    assert!(shopping.membranes_to_weigh.is_empty());
    assert!(shopping.resin_uncounted.is_empty());
    let bought = shopping
        .purchases
        .iter()
        .any(|purchase| purchase.good == Good::Membrane);
    (!asked.is_empty(), bought, !shopping.glass_decides.is_empty())
}

#[test]
fn the_glass_decides_where_no_resin_follows() {
    for (rig, told) in [
        (on_glass(0.79, Condition::Spent, false), (true, true, false)),
        (on_glass(0.84, Condition::Due, false), (true, false, true)),
        (on_glass(0.91, Condition::Good, true), (true, false, true)),
        (on_glass(0.91, Condition::Good, false), (false, false, false)),
    ] {
        assert_eq!(membrane(&rig), told, "{:?}", rig.assessment.condition);
        let (asked, ..) = told;
        assert_eq!(!rig.verdict(0).deeds.is_empty(), asked);
    }
}

#[test]
fn a_fault_comes_before_the_glass() {
    let rig = leaking(on_glass(0.79, Condition::Spent, true), 12.0, 40.0);
    assert_eq!(membrane(&rig), (false, false, false));
    assert_eq!(of(&rig).shopping.faulty, ["Otter"]);
}

#[test]
fn what_was_put_off_stays_out_though_the_glass_spots() {
    let rig = put_off(on_glass(0.84, Condition::Due, true));
    assert_eq!(membrane(&rig), (false, false, false));
    assert_eq!(of(&rig).shopping.membranes_put_off.len(), 1);
}
