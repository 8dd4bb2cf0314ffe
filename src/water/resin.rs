//! The resin bed: what it took up, what it can take, how many days are left.
//!
//! Load in grams of dissolved solids: litres x (feed x salt passage + 4 ppm)/1000.
//! The 4 ppm stand for carbon dioxide, which a membrane does not stop and a meter
//! hardly shows (common practice, no source). The salt passage is that of the water
//! that reached the bed: its temperature, its season, and a leak while one stands.
//! Capacity is 20 g per litre of mixed bed: a regenerated one is commonly rated 9000
//! grains as CaCO3 per cubic foot, 20.6 g/L. What a rig's own beds say against that
//! goes into its use ([`super::usage`]).

use serde::{Deserialize, Serialize};

use super::forecast::{Range, Z80};
use super::observation::ewma;
use super::usage::ToldLoad;

/// Carbon dioxide as it loads the bed, ppm.
pub(super) const CARBON_DIOXIDE_PPM: f64 = 4.0;
/// Capacity of mixed bed, g/L.
pub const GRAMS_PER_LITRE: f64 = 20.0;
/// A date is walked to day by day for so long, then week by week, to the end.
const DAILY_DAYS: f64 = 60.0;
const MOST_DAYS: f64 = 1500.0;
/// Share of the product at which the glass spots, from which on the bed is giving way.
const GIVING_WAY_SHARE: f64 = 0.3;
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
    /// The same by the litres told.
    pub told: ToldLoad,
    /// Load since then per unit of the bed fed raw: grams fed, for the balance.
    pub fed_g: f64,
    /// Litres since then.
    pub litres: f64,
    /// Readings of the membrane since then.
    pub readings: u32,
    /// Last two product readings, ppm, newest first, with their instants.
    pub product: [Option<(i64, f64)>; 2],
    /// Litres since then whose water no reading has told yet.
    pub untold_litres: f64,
    /// Grams of `load_g` that were counted by a reading taken after them.
    pub assumed_g: f64,
    /// Whether it was repacked since then.
    pub repacked: bool,
}

/// Water that comes to the bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Water {
    /// When, UTC seconds.
    pub at: i64,
    /// Litres over the litres told.
    pub used: f64,
    /// Dissolved solids of the tap, ppm.
    pub feed_ppm: f64,
    /// Share of them that reaches the bed.
    pub passage: f64,
}

/// A spent bed, for what it says of the use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spent {
    /// When it was put in, UTC seconds.
    pub from: i64,
    /// What it took up by the litres told.
    pub told: ToldLoad,
}

/// What a day ahead brings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Day {
    /// Grams to the bed.
    pub grams: f64,
    /// Working days in it, 0 to 1.
    pub work: f64,
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
    /// Product from which on the glass spots, ppm.
    pub spots_ppm: f64,
}

impl BedAssessment {
    /// The last product reading, if the glass spots with it, ppm.
    #[must_use]
    pub fn spots(&self) -> Option<f64> {
        self.product_ppm.filter(|ppm| *ppm >= self.spots_ppm)
    }
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

/// What a bed takes up, grams.
#[must_use]
pub fn capacity_g(resin_litres: f64) -> f64 {
    resin_litres * GRAMS_PER_LITRE
}

impl Bed {
    /// Loads the bed with `litres` of permeate, as told.
    pub fn load(&mut self, litres: f64, water: &Water) {
        let grams = litres * grams_per_litre(water.feed_ppm, water.passage);
        self.told.add(grams, water.at);
        self.load_g += water.used * grams;
        self.fed_g += water.used * litres * water.feed_ppm / 1000.0;
        self.litres += water.used * litres;
    }

    /// Lets litres, as told, of a water that no reading has told yet wait for one.
    pub fn await_water(&mut self, litres: f64) {
        self.untold_litres += litres;
    }

    /// Loads the bed with the litres that waited, by the first water that is known.
    pub fn settle(&mut self, water: &Water) {
        let litres = std::mem::take(&mut self.untold_litres);
        self.assumed_g += water.used * litres * grams_per_litre(water.feed_ppm, water.passage);
        self.load(litres, water);
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

    /// Takes a change of resin, and gives the spent bed where it teaches something. A
    /// bed that still gave clean water was changed early and only bounds the use.
    pub fn change(&mut self, at: i64, resin_litres: f64) -> Option<Spent> {
        let capacity = capacity_g(resin_litres);
        let was_clean = self.product[0]
            .is_some_and(|(tasted, ppm)| at - tasted < 5 * DAY && ppm < 2.0 && Some(tasted) > self.changed_at);
        let plausible = (0.2 * capacity..=5.0 * capacity).contains(&self.load_g);
        // A load that is mostly assumed teaches nothing.
        let counted = self.assumed_g <= 0.5 * self.load_g;
        let spent = self
            .changed_at
            .filter(|_| counted && plausible && (!was_clean || self.load_g > capacity))
            .map(|from| Spent { from, told: self.told });
        *self = Self {
            changed_at: Some(at),
            ..Self::default()
        };
        spent
    }

    /// Salt passage that the load balance of the cycle so far implies, when the
    /// bed is taken as spent now: (G/litres - 4 ppm)/feed. `None` without feed.
    #[must_use]
    pub fn implied_passage(&self, resin_litres: f64) -> Option<f64> {
        if self.changed_at.is_none() || self.fed_g <= 0.0 {
            return None;
        }
        let carbon_dioxide_g = self.litres * CARBON_DIOXIDE_PPM / 1000.0;
        let passage = (capacity_g(resin_litres) - carbon_dioxide_g) / self.fed_g;
        (0.005..0.6).contains(&passage).then_some(passage)
    }

    /// Assesses a bed of `resin_litres` at `now`. `ahead` tells what a day brings, by
    /// its instant; the load is known to within `spread`, of ln; the glass spots from `spots_ppm` on.
    #[must_use]
    pub fn assess(
        &self,
        now: i64,
        (resin_litres, spots_ppm): (f64, f64),
        spread: f64,
        ahead: impl Fn(i64) -> Day,
    ) -> BedAssessment {
        let giving_way_ppm = GIVING_WAY_SHARE * spots_ppm;
        let capacity = capacity_g(resin_litres);
        let used = self.load_g / capacity.max(1e-9);
        let of_this_bed = |tasted: &(i64, f64)| self.changed_at.is_none_or(|changed| tasted.0 >= changed);
        let last = self.product[0].filter(of_this_bed);
        let before = self.product[1].filter(of_this_bed);
        let known_load = self.changed_at.is_some();
        // A load that is not counted is no small one.
        let is_counted = known_load && ahead(now).grams > 0.0;
        let state = match last {
            // Where repacking did not help, it is the resin after all.
            Some((_, ppm)) if is_counted && used < EARLY_SHARE && ppm >= spots_ppm / 2.0 && !self.repacked => {
                BedState::EarlyBreakthrough
            }
            Some((_, ppm)) if ppm >= spots_ppm => BedState::Exhausted,
            Some((_, ppm)) if ppm >= giving_way_ppm => BedState::GivingWay,
            _ => BedState::Holding,
        };
        let spread = (spread * capacity).hypot(ASSUMED_SPREAD * self.assumed_g);
        let mut left = [-Z80, 0.0, Z80].map(|z| (capacity + z * spread - self.load_g).max(0.0));
        if let Some((_, ppm)) = last {
            // Near breakthrough the product says more than the balance.
            let most = capacity * 0.15 * ((spots_ppm - ppm) / spots_ppm).clamp(0.0, 1.0);
            if ppm >= giving_way_ppm {
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
        let days = is_counted.then(|| walk(now, left, ahead));
        BedAssessment {
            state,
            used_share: used,
            empty: days.map(|d| Range {
                early: later(now, d[0].0),
                likely: later(now, d[1].0),
                late: Some(later(now, d[2].0)),
            }),
            working_days: days.map(|d| d.map(|(_, working)| working)),
            product_ppm: last.map(|(_, ppm)| ppm),
            product_rise_ppm: last.zip(before).map(|((_, new), (_, old))| new - old),
            spots_ppm,
        }
    }
}

/// Calendar days and working days until each of three loads, the least first, has come
/// to the bed.
fn walk(now: i64, left: [f64; 3], ahead: impl Fn(i64) -> Day) -> [(f64, f64); 3] {
    let mut found = [(MOST_DAYS, 0.0); 3];
    let (mut days, mut working, mut come) = (0.0, 0.0, 0.0);
    let mut next = 0;
    while next < left.len() && days < MOST_DAYS {
        let step: f64 = if days < DAILY_DAYS { 1.0 } else { 7.0 };
        let Day { grams, work } = ahead(later(now, days + step / 2.0));
        while next < left.len() && left[next] <= come + grams * step {
            let part = ((left[next] - come) / grams.max(1e-9)).clamp(0.0, step);
            found[next] = (days + part, working + part * work);
            next += 1;
        }
        days += step;
        working += step * work;
        come += step * grams;
    }
    for beyond in found.iter_mut().skip(next) {
        *beyond = (MOST_DAYS, working);
    }
    found
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
