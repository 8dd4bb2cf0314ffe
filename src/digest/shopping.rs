//! What to buy for the next two weeks, with sums.

use crate::water::prefilter;
use crate::water::resin::BedState;

use super::action::{Action, Finding, Kind, Window};
use super::resin_need::beds_needed;
use super::week::{RigWeek, Week};

/// Weeks that the resin is counted for.
const WEEKS_AHEAD: f64 = 2.0;

/// The shopping list. Money is in the outfit's currency.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shopping {
    /// What to buy: at most one of each good.
    pub purchases: Vec<Purchase>,
    /// Rigs whose resin cannot be counted: its size, the litres a day or its
    /// last change are not told.
    pub resin_uncounted: Vec<String>,
    /// Rigs whose prefilters were never logged.
    pub prefilters_unlogged: Vec<String>,
    /// Rigs whose membrane is below its line, but without prices nobody can say
    /// whether a new one pays.
    pub membranes_to_weigh: Vec<String>,
}

/// Something to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Purchase {
    /// What.
    pub good: Good,
    /// For which rigs, and how much for each, most pressing or else by name.
    pub rigs: Vec<(String, f64)>,
    /// How much in all: litres of resin, sets of prefilters, membranes.
    pub quantity: f64,
    /// What it costs, of those rigs whose price is told; none if of no rig.
    pub cost: Option<f64>,
    /// Rigs without a price, which the cost leaves out.
    pub unpriced: usize,
}

/// What can be bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Good {
    /// DI resin, litres.
    Resin,
    /// Prefilters, sets.
    Prefilters,
    /// Membranes.
    Membrane,
}

impl Shopping {
    /// The sum of what is priced; none when nothing is.
    #[must_use]
    pub fn total(&self) -> Option<f64> {
        let costs: Vec<f64> = self.purchases.iter().filter_map(|purchase| purchase.cost).collect();
        (!costs.is_empty()).then(|| costs.iter().sum())
    }

    /// Whether the sum leaves something out.
    #[must_use]
    pub fn total_is_partial(&self) -> bool {
        self.purchases.iter().any(|purchase| purchase.unpriced > 0)
    }
}

/// The list for a week whose findings are `actions` and `later`.
#[must_use]
pub fn list(week: &Week, actions: &[Action], later: &[Action]) -> Shopping {
    let mut rigs: Vec<&RigWeek> = week.rigs.iter().collect();
    rigs.sort_by(|a, b| (&a.name, a.id).cmp(&(&b.name, b.id)));
    // Resin is counted for rigs that were read: the others may stand.
    let works = |rig: &&&RigWeek| rig.readings > 0;
    let found = |kind: Kind| actions.iter().chain(later).filter(move |action| action.kind == kind);
    let wanted = |kind: Kind, buys: fn(&Finding) -> bool| -> Vec<&RigWeek> {
        let items = found(kind).flat_map(|action| &action.items);
        let ids = items
            .filter(|item| buys(&item.finding))
            .filter_map(|item| item.subject.rig());
        ids.filter_map(|id| week.rigs.iter().find(|rig| rig.id == id)).collect()
    };
    let resin = rigs.iter().filter(works).filter_map(|rig| {
        let litres = resin_litres(rig).filter(|litres| *litres > 0.0)?;
        let price = rig.prices.map(|prices| prices.resin_per_litre * litres);
        Some((rig.name.clone(), litres, price))
    });
    let prefilters = wanted(Kind::Prefilters, |_| true);
    let membranes = wanted(Kind::NewMembrane, |finding| !is_to_weigh(finding));
    let purchases = [
        purchase(Good::Resin, resin.collect()),
        purchase(
            Good::Prefilters,
            (prefilters.iter())
                .map(|rig| (rig.name.clone(), 1.0, rig.prefilter_price))
                .collect(),
        ),
        purchase(
            Good::Membrane,
            (membranes.iter())
                .map(|rig| (rig.name.clone(), 1.0, rig.membrane_price))
                .collect(),
        ),
    ];
    let names = |rigs: Vec<&RigWeek>| rigs.iter().map(|rig| rig.name.clone()).collect();
    Shopping {
        purchases: purchases.into_iter().flatten().collect(),
        resin_uncounted: names(
            rigs.iter()
                .filter(works)
                .filter(|rig| rig.has_bed && resin_litres(rig).is_none())
                .copied()
                .collect(),
        ),
        prefilters_unlogged: names(
            rigs.iter()
                .filter(works)
                .filter(|rig| never_logged(rig))
                .copied()
                .collect(),
        ),
        membranes_to_weigh: names(wanted(Kind::NewMembrane, is_to_weigh)),
    }
}

fn is_to_weigh(finding: &Finding) -> bool {
    let Finding::NewMembrane { window, .. } = finding else {
        return false;
    };
    matches!(window, Window::LineCrossed { .. })
}

fn purchase(good: Good, rigs: Vec<(String, f64, Option<f64>)>) -> Option<Purchase> {
    if rigs.is_empty() {
        return None;
    }
    let prices: Vec<f64> = rigs.iter().filter_map(|(_, _, price)| *price).collect();
    Some(Purchase {
        good,
        quantity: rigs.iter().map(|(_, quantity, _)| quantity).sum(),
        cost: (!prices.is_empty()).then(|| prices.iter().sum()),
        unpriced: rigs.len() - prices.len(),
        rigs: rigs.into_iter().map(|(name, quantity, _)| (name, quantity)).collect(),
    })
}

/// Litres of resin that a rig wants in the weeks ahead; `None` when they cannot
/// be counted. A bed that slips is repacked before any is bought.
fn resin_litres(rig: &RigWeek) -> Option<f64> {
    let litres = rig.resin_litres?;
    let bed = rig.assessment.resin?;
    let left = match bed.state {
        BedState::EarlyBreakthrough => return Some(0.0),
        BedState::Exhausted => 0.0,
        BedState::Holding | BedState::GivingWay => bed.working_days?[1],
    };
    let ahead = WEEKS_AHEAD * rig.workdays_per_week;
    Some(f64::from(beds_needed(ahead, left, rig.bed_workdays)) * litres)
}

fn never_logged(rig: &RigWeek) -> bool {
    rig.assessment.prefilter.state == prefilter::State::NeverLogged
}
