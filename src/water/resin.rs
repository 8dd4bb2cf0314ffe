//! The resin bed: what it took up, what it can take, how many days are left.
//!
//! Load in grams of dissolved solids: litres x (feed x salt passage + 4 ppm)/1000.
//! The 4 ppm stand for carbon dioxide, which a membrane does not stop and a meter
//! hardly shows (common practice, no source). Capacity starts at 20 g per litre of
//! mixed bed and is learned from the rig's own changes. A regenerated mixed bed is
//! commonly rated 9000 grains as CaCO3 per cubic foot, 20.6 g/L.

use serde::{Deserialize, Serialize};

use super::forecast::{Range, Z80};
use super::observation::ewma;

/// Carbon dioxide as it loads the bed, ppm.
pub(super) const CARBON_DIOXIDE_PPM: f64 = 4.0;
/// Capacity of mixed bed before the rig's own changes say otherwise, g/L.
pub const GRAMS_PER_LITRE: f64 = 20.0;
/// Weight of that first belief, in cycles, and how a cycle's weight fades.
const FIRST_WEIGHT: f64 = 2.0;
const FADE: f64 = 0.95;
/// Spread of one cycle's load about the capacity, relative.
const CYCLE_SPREAD: f64 = 0.30;
/// Product at which the glass spots, ppm (common practice, no source).
pub const SPOTS_FROM_PPM: f64 = 10.0;
/// Product at which the bed is giving way.
const GIVING_WAY_PPM: f64 = 3.0;
/// A breakthrough before this share of the capacity is early.
const EARLY_SHARE: f64 = 0.4;
/// Spread of a load that was counted by a later reading, relative (a judgement,
/// no source: taps and membranes differ so much from month to month).
const ASSUMED_SPREAD: f64 = 0.40;
const DAY: i64 = 86_400;

/// What is kept of the bed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Bed {
    /// Last change, UTC seconds; `None` before the first one known.
    pub changed_at: Option<i64>,
    /// Load since then, grams.
    pub load_g: f64,
    /// Load since then per unit of the bed fed raw: grams fed, for the balance.
    pub fed_g: f64,
    /// Litres since then.
    pub litres: f64,
    /// Readings of the membrane since then.
    pub readings: u32,
    /// Sum of the weights of past cycles, and of weight x load.
    pub cycles: f64,
    /// See `cycles`.
    pub cycles_g: f64,
    /// Last two product readings, ppm, newest first, with their instants.
    pub product: [Option<(i64, f64)>; 2],
    /// Litres since then whose water no reading has told yet.
    #[serde(default)]
    pub untold_litres: f64,
    /// Grams of `load_g` that were counted by a reading taken after them.
    #[serde(default)]
    pub assumed_g: f64,
    /// Whether it was repacked since then.
    #[serde(default)]
    pub repacked: bool,
}

/// How the bed stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum BedState {
    /// It holds.
    Holding,
    /// The product rises: order, and look daily.
    GivingWay,
    /// The glass will spot: change it before the next window.
    Exhausted,
    /// The product is high although the bed has taken little: loosely packed, or
    /// water slips past (a bed on its side). Repack it tight before buying.
    EarlyBreakthrough,
}

/// What can be said of the bed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct BedAssessment {
    /// How it stands.
    pub state: BedState,
    /// Share of the capacity used, 0 and up.
    pub used_share: f64,
    /// When it is empty; `None` when use is not known.
    pub empty: Option<Range>,
    /// Working days left: low, likely, high.
    pub working_days: Option<[f64; 3]>,
    /// Last product reading, ppm.
    pub product_ppm: Option<f64>,
    /// How the product moved between the last two readings of this bed, ppm.
    pub product_rise_ppm: Option<f64>,
}

/// Grams that load the bed for each litre.
///
/// # Examples
/// Feed 180 ppm at a salt passage of 0.05: 9 ppm and the carbon dioxide's 4.
/// ```
/// use tapside::water::resin::grams_per_litre;
/// assert!((grams_per_litre(180.0, 0.05) - 0.013).abs() < 1e-12);
/// ```
#[must_use]
pub fn grams_per_litre(feed_ppm: f64, salt_passage: f64) -> f64 {
    (feed_ppm * salt_passage + CARBON_DIOXIDE_PPM) / 1000.0
}

/// Litres that a bed of `resin_litres` with `capacity_g_per_litre` (as CaCO3)
/// gives at `load_mg_per_litre` (as CaCO3).
///
/// # Examples
/// 10 L of 0.4577 eq/L (22.883 g/L, 10 000 grains a cubic foot) at 10 mg/L: 22 883 L.
#[must_use]
pub fn litres_per_bed(resin_litres: f64, capacity_g_per_litre: f64, load_mg_per_litre: f64) -> f64 {
    resin_litres * capacity_g_per_litre * 1000.0 / load_mg_per_litre
}

/// mg/L of NaCl as mg/L of CaCO3: ratio of the equivalent weights, 50.0435/58.4428.
pub const CACO3_PER_NACL: f64 = 50.0435 / 58.4428;

impl Bed {
    /// What the bed takes up, grams, from common practice and its own cycles.
    #[must_use]
    pub fn capacity_g(&self, resin_litres: f64) -> f64 {
        (FIRST_WEIGHT * resin_litres * GRAMS_PER_LITRE + self.cycles_g) / (FIRST_WEIGHT + self.cycles)
    }

    /// Loads the bed with `litres` of permeate.
    pub fn load(&mut self, litres: f64, feed_ppm: f64, salt_passage: f64) {
        self.load_g += litres * grams_per_litre(feed_ppm, salt_passage);
        self.fed_g += litres * feed_ppm / 1000.0;
        self.litres += litres;
    }

    /// Lets litres of a water that no reading has told yet wait for one.
    pub fn await_water(&mut self, litres: f64) {
        self.untold_litres += litres;
    }

    /// Loads the bed with the litres that waited, by the first water that is known.
    pub fn settle(&mut self, feed_ppm: f64, salt_passage: f64) {
        let litres = std::mem::take(&mut self.untold_litres);
        self.assumed_g += litres * grams_per_litre(feed_ppm, salt_passage);
        self.load(litres, feed_ppm, salt_passage);
    }

    /// Takes a repacking: what was tasted before says nothing of it.
    pub fn repack(&mut self) {
        self.product = [None; 2];
        self.repacked = true;
    }

    /// Takes a product reading.
    pub fn taste(&mut self, at: i64, product_ppm: f64) {
        self.product = [Some((at, product_ppm)), self.product[0]];
    }

    /// Takes a change of resin and learns from the cycle that it ends. A bed that
    /// still gave clean water was changed early and only bounds the capacity.
    pub fn change(&mut self, at: i64, resin_litres: f64) {
        let capacity = self.capacity_g(resin_litres);
        let was_clean = self.product[0]
            .is_some_and(|(tasted, ppm)| at - tasted < 5 * DAY && ppm < 2.0 && Some(tasted) > self.changed_at);
        let plausible = (0.2 * capacity..=5.0 * capacity).contains(&self.load_g);
        // A load that is mostly assumed teaches nothing.
        let counted = self.assumed_g <= 0.5 * self.load_g;
        if self.changed_at.is_some() && counted && plausible && (!was_clean || self.load_g > capacity) {
            self.cycles = FADE * self.cycles + 1.0;
            self.cycles_g = FADE * self.cycles_g + self.load_g;
        }
        *self = Self {
            changed_at: Some(at),
            cycles: self.cycles,
            cycles_g: self.cycles_g,
            ..Self::default()
        };
    }

    /// Salt passage that the load balance of the cycle so far implies, when the
    /// bed is taken as spent now: (G/litres - 4 ppm)/feed. `None` without feed.
    #[must_use]
    pub fn implied_passage(&self, resin_litres: f64) -> Option<f64> {
        if self.changed_at.is_none() || self.fed_g <= 0.0 {
            return None;
        }
        let carbon_dioxide_g = self.litres * CARBON_DIOXIDE_PPM / 1000.0;
        let passage = (self.capacity_g(resin_litres) - carbon_dioxide_g) / self.fed_g;
        (0.005..0.6).contains(&passage).then_some(passage)
    }

    /// Assesses the bed at `now`, when `daily_g` grams come to it on an average
    /// calendar day and the rig works `days_per_week`. The range carries the
    /// spread of one cycle and what is not yet learned.
    #[must_use]
    pub fn assess(&self, now: i64, resin_litres: f64, daily_g: f64, days_per_week: f64) -> BedAssessment {
        let capacity = self.capacity_g(resin_litres);
        let used = self.load_g / capacity.max(1e-9);
        let of_this_bed = |tasted: &(i64, f64)| self.changed_at.is_none_or(|changed| tasted.0 >= changed);
        let last = self.product[0].filter(of_this_bed);
        let before = self.product[1].filter(of_this_bed);
        let known_load = self.changed_at.is_some();
        // A load that is not counted is no small one.
        let is_counted = known_load && daily_g > 0.0;
        let state = match last {
            // Where repacking did not help, it is the resin after all.
            Some((_, ppm)) if is_counted && used < EARLY_SHARE && ppm >= SPOTS_FROM_PPM / 2.0 && !self.repacked => {
                BedState::EarlyBreakthrough
            }
            Some((_, ppm)) if ppm >= SPOTS_FROM_PPM => BedState::Exhausted,
            Some((_, ppm)) if ppm >= GIVING_WAY_PPM => BedState::GivingWay,
            _ => BedState::Holding,
        };
        let spread = CYCLE_SPREAD * capacity / (1.0 + 0.5 * self.cycles).sqrt().min(2.0);
        let spread = spread.hypot(ASSUMED_SPREAD * self.assumed_g);
        let mut left = [-Z80, 0.0, Z80].map(|z| (capacity + z * spread - self.load_g).max(0.0));
        if let Some((_, ppm)) = last {
            // Near breakthrough the product says more than the balance.
            let most = capacity * 0.15 * ((SPOTS_FROM_PPM - ppm) / SPOTS_FROM_PPM).clamp(0.0, 1.0);
            if ppm >= GIVING_WAY_PPM {
                left = left.map(|g| g.min(most));
            }
            if state == BedState::Exhausted {
                left = [0.0; 3];
            }
            // A bed that tastes clean although the balance says spent holds a while yet.
            if ppm < 1.0 && left[1] <= 0.0 {
                left[1] = 0.05 * capacity;
                left[2] = left[2].max(0.15 * capacity);
            }
        }
        let days = is_counted.then(|| left.map(|g| g / daily_g));
        BedAssessment {
            state,
            used_share: used,
            empty: days.map(|d| Range {
                early: later(now, d[0]),
                likely: later(now, d[1]),
                late: Some(later(now, d[2])),
            }),
            working_days: days.map(|d| d.map(|days| days * days_per_week / 7.0)),
            product_ppm: last.map(|(_, ppm)| ppm),
            product_rise_ppm: last.zip(before).map(|((_, new), (_, old))| new - old),
        }
    }
}

/// Updates what is known of the litres on a working day, from one day's figure. A
/// figure far from what the owner told is a counter's or a week's, and is left out.
#[must_use]
pub fn learn_litres(known: Option<f64>, told: Option<f64>, day_litres: f64) -> Option<f64> {
    if told.is_some_and(|told| !(0.4 * told..=2.5 * told).contains(&day_litres)) {
        return known;
    }
    let before = known.or(told).unwrap_or(day_litres);
    Some(ewma(before, day_litres.clamp(0.2 * before, 5.0 * before), 0.1))
}

fn later(now: i64, days: f64) -> i64 {
    #[allow(clippy::cast_possible_truncation)]
    let seconds = (days.clamp(0.0, 36_500.0) * 86_400.0).round() as i64;
    now.saturating_add(seconds)
}
