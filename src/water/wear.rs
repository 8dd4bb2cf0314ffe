//! One membrane's life, followed reading by reading: wear, blunders, jumps.
//!
//! The state is a local linear trend of ln(salt passage) with a yearly wave
//! ([`super::trend`]); noise has heavy tails, so a blunder is weighed down and
//! set aside. Every step is O(1).

use serde::{Deserialize, Serialize};

use super::jump::Suspicion;
use super::observation::{Doubt, Seen, USUAL_SPREAD, after_years, year_angle, years_between};
use super::prior::{Age, Belief, Expected, Lesson, first_belief, usual_growth};
use super::trend::{Observation, Trend, WARMTH, Wander};

/// How fast a membrane's truth wanders on a rig of usual scatter, variances a year
/// (tuned on simulated rigs).
pub const WANDER: Wander = Wander {
    level: 0.18 * 0.18,
    growth: 0.16 * 0.16,
    wave: 0.03 * 0.03,
};
/// How the wander of the level, a standard deviation in a year, follows the scatter,
/// and its least.
const WANDER_PER_SPREAD: f64 = 0.8;
const LEAST_WANDER: f64 = 0.05;
/// Error of the level that more readings do not mend, as a share of the scatter.
const LASTING_SHARE: f64 = 0.2;
/// Error of the temperature rule as a share of what it corrects: 2 to 3 %/C are in print.
const RULE_SHARE: f64 = 0.30;
/// How far the readings lie above the membrane's own on the whole, as a share of the
/// scatter: most of what goes wrong with a cup makes it read high.
const HIGH_BY: f64 = 0.25;
/// What a temperature may say of the rig's water before any was told, as a variance of
/// ln(salt passage): some 6 C to either side.
const WARMTH_OPEN: f64 = 0.13 * 0.13;
/// What another meter may change in ln(salt passage).
const METER_SPREAD: f64 = 0.15;
/// Readings until jumps are looked for again, after what explains one.
pub(super) const SETTLING_READINGS: u32 = 3;
/// Scatter from site to site, a standard deviation of ln: where learning starts,
/// and its limits.
const SPREAD_FIRST: f64 = USUAL_SPREAD;
const SPREAD_LIMITS: (f64, f64) = (0.04, 0.30);
/// Tails of the noise: readings too high are commoner (an unrinsed cup, water not
/// run in) than readings too low.
const HIGH_TAIL: (f64, f64) = (4.0, 2.5);
const LOW_TAIL: (f64, f64) = (8.0, 3.2);
/// A weight below this sets a reading aside.
const SET_ASIDE_BELOW: f64 = 0.5;
/// Readings before jumps are looked for.
const JUMPS_FROM: u32 = 5;
/// A fault that nobody repaired in this time is the membrane's new truth.
pub const FAULT_LASTS_SECONDS: i64 = 60 * 86_400;
/// How long a lapsed fault is remembered, from its beginning.
const LAPSED_KEPT_SECONDS: i64 = 240 * 86_400;
/// Readings set aside in a row before the belief opens up, and how far.
const ASIDE_RUN: i32 = 3;
const OPEN_UP: f64 = 0.30;
/// A logged change this soon after a presumed one is that one, logged late.
const LOGGED_LATE_SECONDS: i64 = 60 * 86_400;

/// How a life began.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Beginning {
    /// The change was logged.
    Logged(i64),
    /// The readings say so, and nobody confirmed it yet.
    Presumed(i64),
    /// Before the first reading, at about this instant as told.
    Told(i64),
    /// Before the first reading, nobody knows when.
    Unknown,
}

/// How fast a membrane's truth wanders on a rig that scatters by `spread`.
#[must_use]
pub fn wander(spread: f64) -> Wander {
    let level = (WANDER.level.sqrt() + WANDER_PER_SPREAD * (spread - USUAL_SPREAD)).max(LEAST_WANDER);
    Wander {
        level: level * level,
        ..WANDER
    }
}

/// A membrane's life so far.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Life {
    /// How it began.
    pub beginning: Beginning,
    /// The belief at `carried_to`; `None` before the first reading.
    pub trend: Option<Trend>,
    /// The instant to which `trend` is carried, UTC seconds.
    pub carried_to: i64,
    /// First reading of this life, UTC seconds.
    pub first_reading_at: i64,
    /// Readings used.
    pub readings: u32,
    /// Scatter from site to site, a standard deviation of ln(salt passage).
    pub spread: f64,
    /// Integral of the salt passage, seasons of water and use included, over the
    /// years since the beginning, or since the first reading where that was not seen.
    pub passed_years: f64,
    /// ln(salt passage) when it was new, as far as known.
    pub start: Belief,
    /// ln(salt passage) at the first readings here.
    pub first_level: Option<Belief>,
    /// Growth that the feed suggested, for lessons.
    pub usual_growth: f64,
    /// A rise that is watched.
    pub rise: Option<Suspicion>,
    /// A fall that is watched.
    pub fall: Option<Suspicion>,
    /// A rise that was decided on and stands.
    pub fault: Option<Suspicion>,
    /// A fault that nobody repaired in time and that became the truth; remembered
    /// a while, so that a late repair is not taken for a new membrane.
    pub lapsed: Option<Suspicion>,
    /// Whether this life already taught the outfit.
    pub taught: bool,
    /// Readings set aside in a row, positive when too high, negative when too low.
    pub aside_run: i32,
    /// Readings still to come before rises are looked for again, with another meter.
    pub unwatched_rises: u32,
    /// The same of falls, with another meter or after a repair.
    pub unwatched_falls: u32,
}

/// What a reading did to a life.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Heard {
    /// It was used.
    Used,
    /// It was set aside; the trend hardly moved.
    SetAside(Doubt),
    /// It decided that a jump began at this instant; readings since then stand.
    JumpSince(i64),
    /// It decided that a membrane was changed at about this instant, unlogged.
    RenewedSince(i64),
    /// It decided that the fault is repaired.
    Repaired,
}

impl Life {
    /// A life before its first reading.
    #[must_use]
    pub fn begin(beginning: Beginning) -> Self {
        Self {
            beginning,
            trend: None,
            carried_to: 0,
            first_reading_at: 0,
            readings: 0,
            spread: SPREAD_FIRST,
            passed_years: 0.0,
            start: Belief {
                mean: 0.0,
                variance: 1.0,
            },
            first_level: None,
            usual_growth: 0.0,
            rise: None,
            fall: None,
            fault: None,
            lapsed: None,
            taught: false,
            aside_run: 0,
            unwatched_rises: 0,
            unwatched_falls: 0,
        }
    }

    /// When it began, if known, presumed or told.
    #[must_use]
    pub fn began_at(&self) -> Option<i64> {
        match self.beginning {
            Beginning::Logged(at) | Beginning::Presumed(at) | Beginning::Told(at) => Some(at),
            Beginning::Unknown => None,
        }
    }

    /// When it was put in new, if that was seen: logged or presumed.
    #[must_use]
    pub fn new_at(&self) -> Option<i64> {
        match self.beginning {
            Beginning::Logged(at) | Beginning::Presumed(at) => Some(at),
            Beginning::Told(_) | Beginning::Unknown => None,
        }
    }

    /// The belief carried to `now`, without being told anything new. A fault too
    /// old to wait for is taken as the truth.
    #[must_use]
    pub fn belief_at(&self, now: i64) -> Option<Trend> {
        let mut trend = match &self.fault {
            Some(fault) if now - fault.since > FAULT_LASTS_SECONDS => fault.after,
            _ => self.trend?,
        };
        trend.predict(years_between(self.carried_to, now), &wander(self.spread));
        trend.covariance[0][0] += (LASTING_SHARE * self.spread).powi(2);
        trend.covariance[0][0] += (RULE_SHARE * trend.mean[WARMTH]).powi(2);
        Some(trend)
    }

    /// The fault that stands at `now`.
    #[must_use]
    pub fn fault_at(&self, now: i64) -> Option<&Suspicion> {
        self.fault
            .as_ref()
            .filter(|fault| now - fault.since <= FAULT_LASTS_SECONDS)
    }

    /// Salt passage that leaves the rig at an instant: with a leak that stands, at the
    /// water of that season. Wear since the last reading is the caller's to add.
    #[must_use]
    pub fn leaving_passage(&self, at: i64) -> Option<f64> {
        let belief = self.fault.as_ref().map(|fault| &fault.after).or(self.trend.as_ref())?;
        Some((belief.mean[0] + belief.water_at(year_angle(at))).exp().min(1.0))
    }

    /// Another meter is read with from here on: the level may step, and that is no leak.
    pub fn change_meter(&mut self) {
        (self.rise, self.fall) = (None, None);
        (self.unwatched_rises, self.unwatched_falls) = (SETTLING_READINGS, SETTLING_READINGS);
        for trend in self
            .trend
            .iter_mut()
            .chain(self.fault.iter_mut().map(|fault| &mut fault.after))
        {
            trend.covariance[0][0] += METER_SPREAD * METER_SPREAD;
        }
    }

    /// Carries the life to `at`. `use_share` weighs the time between by how much
    /// the rig works (1 on average), for the money.
    pub fn carry(&mut self, at: i64, use_share: f64) {
        let years = years_between(self.carried_to, at);
        let Some(trend) = &mut self.trend else { return };
        if years <= 0.0 {
            return;
        }
        let before = trend.mean[0].exp();
        let wander = wander(self.spread);
        trend.predict(years, &wander);
        let season = trend.wave_at(year_angle(i64::midpoint(self.carried_to, at))).exp();
        self.passed_years += use_share * years * (season * f64::midpoint(before, trend.mean[0].exp())).min(1.0);
        for jump in [&mut self.fault, &mut self.lapsed].into_iter().flatten() {
            jump.before.predict(years, &wander);
            jump.after.predict(years, &wander);
        }
        self.lapsed = self.lapsed.filter(|lapsed| at - lapsed.since <= LAPSED_KEPT_SECONDS);
        self.carried_to = at;
    }

    /// Hears one reading, already seen as an observation without scatter: the
    /// scatter is this life's own. `denials` of an unlogged change are counted so
    /// far; `None` where this very reading is denied to be of a new membrane. O(1).
    pub fn hear(&mut self, at: i64, seen: &Seen, expected: &Expected, use_share: f64, denials: Option<u32>) -> Heard {
        if self.trend.is_none() {
            self.first(at, expected, None);
        }
        let years = years_between(self.carried_to, at);
        self.carry(at, use_share);
        if let Some(water) = &seen.water {
            self.learn_water(water);
        }
        let seen = Observation {
            value: seen.passage.value - HIGH_BY * self.spread,
            variance: seen.passage.variance + self.spread * self.spread,
            ..seen.passage
        };
        if self.fault.is_some() {
            return self.hear_while_faulty(at, &seen);
        }
        let Some(now) = self.trend else { return Heard::Used };
        let watch_rise = count_down(&mut self.unwatched_rises) && self.readings >= JUMPS_FROM;
        let watch_fall = count_down(&mut self.unwatched_falls) && self.readings >= JUMPS_FROM;
        if watch_rise && let Some(heard) = self.watch_rise(at, years, &now, &seen) {
            return heard;
        }
        if watch_fall
            && let Some(denials) = denials
            && let Some(heard) = self.watch_fall(at, years, &now, &seen, expected, denials)
        {
            return heard;
        }
        self.believe(&seen)
    }

    /// Learns the site's water from a told temperature.
    fn learn_water(&mut self, water: &Observation) {
        let level_is_own = self.readings > 0;
        let beliefs = self
            .trend
            .iter_mut()
            .chain(self.fault.iter_mut().map(|fault| &mut fault.after));
        for belief in beliefs {
            belief.open_warmth(WARMTH_OPEN, level_is_own);
            belief.update(water);
        }
    }

    /// What this life taught, once it is over or old enough.
    #[must_use]
    pub fn lesson(&self) -> Option<Lesson> {
        let trend = self.trend?;
        let age = years_between(self.first_reading_at, self.carried_to);
        if self.readings < 8 || age < 0.4 || self.usual_growth <= 0.0 {
            return None;
        }
        let seen_new = self.new_at().is_some();
        // Over the whole life the growth is better known than at its end.
        let growth = if seen_new && age > 0.0 {
            (trend.mean[0] - self.start.mean) / age
        } else {
            trend.mean[1]
        };
        let variance = if seen_new {
            (trend.covariance[0][0] + self.start.variance) / (age * age)
        } else {
            trend.covariance[1][1]
        };
        let usual = self.usual_growth;
        Some(Lesson {
            start: seen_new.then_some(self.start),
            growth: Belief {
                mean: growth / usual,
                variance: variance / (usual * usual),
            },
        })
    }

    /// Takes a logged change of membrane: the next life, or this one when it was
    /// only logged late.
    #[must_use]
    pub fn renew(&self, at: i64, expected: &Expected) -> Self {
        if let Beginning::Presumed(since) = self.beginning
            && at - since <= LOGGED_LATE_SECONDS
        {
            return Self {
                beginning: Beginning::Logged(at.min(since)),
                ..self.clone()
            };
        }
        let mut life = Self::begin(Beginning::Logged(at));
        life.spread = self.spread;
        life.first(at, expected, self.trend.as_ref());
        life
    }

    pub(super) fn first(&mut self, at: i64, expected: &Expected, before: Option<&Trend>) {
        let (age, from) = match (self.new_at(), expected.age_years.filter(|_| before.is_none())) {
            (Some(new), _) => (Age::New, new.min(at)),
            (None, Some(years)) => {
                self.beginning = Beginning::Told(after_years(at, -years));
                (Age::Told(years), at)
            }
            (None, None) => (Age::Unknown, at),
        };
        self.trend = Some(first_belief(age, expected, before));
        self.start = expected.start;
        self.usual_growth = usual_growth(expected.feed_ppm);
        self.carried_to = from;
        self.first_reading_at = at;
    }

    pub(super) fn believe(&mut self, seen: &Observation) -> Heard {
        let Some(trend) = &mut self.trend else {
            return Heard::Used;
        };
        let (weight, z) = trust(trend, seen);
        let surprise = trend.surprise(seen);
        trend.update(&Observation {
            variance: seen.variance / weight,
            ..*seen
        });
        self.readings += 1;
        self.learn_spread(z, surprise.variance, weight);
        self.note_beginning();
        if weight >= SET_ASIDE_BELOW {
            self.aside_run = 0;
            return Heard::Used;
        }
        self.note_set_aside(z);
        Heard::SetAside(Doubt::UnlikeTrend)
    }

    /// Until the belief has settled, the first level is learned with the level, and so
    /// is the level when it was new where that was seen.
    fn note_beginning(&mut self) {
        let Some(trend) = &self.trend else { return };
        let back = |years: f64| Belief {
            mean: trend.mean[0] - trend.mean[1] * years,
            variance: trend.covariance[0][0] + 0.04 * years,
        };
        let since = |from: i64| years_between(from, self.carried_to);
        if let Some(new) = self.new_at()
            && (self.readings <= 12 || since(new) < 0.25)
        {
            self.start = back(since(new));
        }
        if self.readings <= 12 || since(self.first_reading_at) < 0.25 {
            self.first_level = Some(back(since(self.first_reading_at)));
        }
    }

    /// Several in a row on one side that no jump explains are no blunders: the
    /// belief opens up and follows them.
    fn note_set_aside(&mut self, z: f64) {
        let side = if z > 0.0 { 1 } else { -1 };
        self.aside_run = if self.aside_run.signum() == side {
            self.aside_run + side
        } else {
            side
        };
        if self.aside_run.abs() < ASIDE_RUN || self.rise.is_some() || self.fall.is_some() {
            return;
        }
        if let Some(trend) = &mut self.trend {
            trend.covariance[0][0] += OPEN_UP * OPEN_UP;
        }
        self.aside_run = 0;
    }

    /// Learns the scatter: where surprises are larger than expected it grows.
    fn learn_spread(&mut self, z: f64, variance: f64, weight: f64) {
        if weight < 0.2 {
            return;
        }
        let rate = (1.0 / (f64::from(self.readings) + 6.0)).max(0.03);
        let excess = (z * z).min(5.0) * 1.06 - 1.0;
        let square = super::observation::ewma(
            self.spread * self.spread,
            self.spread * self.spread + variance * excess,
            rate,
        );
        self.spread = square.max(0.0).sqrt().clamp(SPREAD_LIMITS.0, SPREAD_LIMITS.1);
    }
}

/// How far a reading is trusted, 0 to 1, and its surprise in standard deviations.
pub(super) fn trust(trend: &Trend, seen: &Observation) -> (f64, f64) {
    let z = trend.surprise(seen).z();
    let (nu, limit) = if z > 0.0 { HIGH_TAIL } else { LOW_TAIL };
    let weight = ((nu + 1.0) / (nu + z * z)).min(1.0);
    (if z.abs() > limit { 0.1 * weight } else { weight }, z)
}

/// Counts a reading down; true where none was left to wait for.
fn count_down(left: &mut u32) -> bool {
    let none_left = *left == 0;
    *left = left.saturating_sub(1);
    none_left
}
