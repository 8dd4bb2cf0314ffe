//! What to buy for the next two weeks, with sums.

use jiff::civil::Date;

use crate::water::prefilter;
use crate::water::resin::BedState;

use super::membrane_need::{self, Behind, MembraneNeed};
use super::resin_need::beds_needed;
use super::rig_findings;
use super::week::{Lack, RigWeek, Week};

/// Weeks that the resin is counted for.
const WEEKS_AHEAD: f64 = 2.0;

/// The shopping list. Money is in the outfit's currency.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shopping {
    /// What to buy: at most one of each good.
    pub purchases: Vec<Purchase>,
    /// Rigs whose resin cannot be counted, and what is missing for it.
    pub resin_uncounted: Vec<(String, Vec<Lack>)>,
    /// Rigs whose prefilters were never logged.
    pub prefilters_unlogged: Vec<String>,
    /// Rigs whose membrane is below its line, but nobody can say whether a new one
    /// pays; whether prices are told, so that only readings are missing.
    pub membranes_to_weigh: Vec<(String, bool)>,
    /// Rigs without resin whose glass or line may want a new membrane.
    pub glass_decides: Vec<String>,
    /// Rigs whose membrane somebody put off, and until when.
    pub membranes_put_off: Vec<(String, Date)>,
    /// Rigs with a fault that stands: nothing is bought for their membranes.
    pub faulty: Vec<String>,
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

/// The list for a week: the one that the digest shows and that an answer about
/// buying tells.
#[must_use]
pub fn list(week: &Week) -> Shopping {
    let mut rigs: Vec<&RigWeek> = week.rigs.iter().collect();
    rigs.sort_by(|a, b| (&a.name, a.id).cmp(&(&b.name, b.id)));
    let mut shopping = Shopping::default();
    let (mut resin, mut prefilters, mut membranes) = (Vec::new(), Vec::new(), Vec::new());
    for rig in rigs {
        let name = || rig.name.clone();
        match resin_litres(rig, week.today) {
            Some(litres) if litres > 0.0 => {
                resin.push((name(), litres, rig.resin_price.map(|price| price * litres)));
            }
            Some(_) => {}
            None => shopping.resin_uncounted.push((name(), rig.resin_lacks.clone())),
        }
        if rig_findings::prefilters(&rig.assessment, week.today, week.utc_offset_seconds).is_some() {
            prefilters.push((name(), 1.0, rig.prefilter_price));
        }
        if rig.readings > 0 && rig.assessment.prefilter.state == prefilter::State::NeverLogged {
            shopping.prefilters_unlogged.push(name());
        }
        let need = membrane_need::of(&rig.assessment, rig.behind, week.today, week.utc_offset_seconds);
        match (need, rig.membrane_put_off_until) {
            (MembraneNeed::Buy | MembraneNeed::Weigh { .. } | MembraneNeed::GlassDecides { .. }, Some(until)) => {
                shopping.membranes_put_off.push((name(), until));
            }
            (MembraneNeed::Buy | MembraneNeed::GlassDecides { spent: true }, None) => {
                membranes.push((name(), rig.membranes, rig.membrane_price));
            }
            (MembraneNeed::GlassDecides { spent: false }, None) => shopping.glass_decides.push(name()),
            (MembraneNeed::Weigh { priced, .. }, None) => shopping.membranes_to_weigh.push((name(), priced)),
            (MembraneNeed::FaultFirst, _) => shopping.faulty.push(name()),
            (MembraneNeed::Nothing | MembraneNeed::Plan(_), _) => {}
        }
    }
    let purchases = [
        purchase(Good::Resin, resin),
        purchase(Good::Prefilters, prefilters),
        purchase(Good::Membrane, membranes),
    ];
    shopping.purchases = purchases.into_iter().flatten().collect();
    shopping
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
/// be counted. A bed that slips is repacked before any is bought, and none is
/// bought for a rig that is laid up.
fn resin_litres(rig: &RigWeek, today: Date) -> Option<f64> {
    let is_spent = rig.assessment.bed_state() == Some(BedState::Exhausted);
    if rig.behind != Behind::Resin || (rig_findings::is_laid_up(rig, today) && !is_spent) {
        return Some(0.0);
    }
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
