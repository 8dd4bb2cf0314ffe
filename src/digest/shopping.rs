//! What to buy for the next two weeks, with sums.

use jiff::civil::Date;

use crate::water::prefilter;
use crate::water::verdict::{Behind, Deed, Due, Resin, is_laid_up};

use super::resin_need::beds_needed;
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
    // What is away for all of that time wants nothing.
    let mut rigs: Vec<&RigWeek> = week.rigs.iter().filter(|rig| rig.off.ahead < 1.0).collect();
    rigs.sort_by(|a, b| (&a.name, a.id).cmp(&(&b.name, b.id)));
    let mut shopping = Shopping::default();
    let (mut resin, mut prefilters, mut membranes) = (Vec::new(), Vec::new(), Vec::new());
    for rig in rigs {
        let name = || rig.name.clone();
        let verdict = rig.verdict(week.utc_offset_seconds);
        match resin_litres(rig, verdict.resin, week.utc_offset_seconds) {
            Some(litres) if litres > 0.0 => {
                resin.push((name(), litres, rig.resin_price.map(|price| price * litres)));
            }
            Some(_) => {}
            None => shopping.resin_uncounted.push((name(), rig.resin_lacks.clone())),
        }
        if rig.readings > 0 && rig.assessment.prefilter.state == prefilter::State::NeverLogged {
            shopping.prefilters_unlogged.push(name());
        }
        if rig.assessment.fault.is_some() {
            shopping.faulty.push(name());
        }
        for deed in &verdict.deeds {
            match deed {
                Deed::Prefilters { .. } => prefilters.push((name(), 1.0, rig.prefilter_price)),
                Deed::NewMembrane { due, .. } => match (due, rig.membrane_put_off_until) {
                    (Due::About { .. }, _) => {}
                    (_, Some(until)) => shopping.membranes_put_off.push((name(), until)),
                    (Due::Now | Due::GlassDecides { spent: true }, None) => {
                        membranes.push((name(), rig.membranes, rig.membrane_price));
                    }
                    (Due::GlassDecides { spent: false }, None) => shopping.glass_decides.push(name()),
                    (Due::LineCrossed { priced, .. }, None) => shopping.membranes_to_weigh.push((name(), *priced)),
                },
                _ => {}
            }
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
fn resin_litres(rig: &RigWeek, left: Resin, utc_offset_seconds: i64) -> Option<f64> {
    let is_idle = is_laid_up(&rig.assessment, utc_offset_seconds) && left != Resin::Nothing;
    if rig.behind != Behind::Resin || is_idle {
        return Some(0.0);
    }
    let litres = rig.resin_litres?;
    let left = match left {
        Resin::Loose => return Some(0.0),
        Resin::Nothing => 0.0,
        Resin::Days([_, likely, _]) => likely,
        Resin::Unknown => return None,
    };
    let ahead = WEEKS_AHEAD * rig.workdays_per_week * (1.0 - rig.off.ahead);
    Some(f64::from(beds_needed(ahead, left, rig.bed_workdays)) * litres)
}
