//! A jump told from wear: two beliefs compete for the readings.
//!
//! Wear moves the salt passage by a few percent a month; a leak, a bypass or a
//! new membrane moves it overnight. From a first surprising reading on, a second
//! belief ("it stepped here") is followed beside the ordinary one, and their
//! log-likelihood ratio is summed and cut off at zero (Page's cumulative sum,
//! Biometrika 41 (1954) 100-115; Montgomery, Statistical Quality Control, ch. 9).
//! The density has heavy tails, so one blunder decides nothing.

use serde::{Deserialize, Serialize};

use super::trend::{Observation, Trend, Wander};

/// Degrees of freedom of the noise when beliefs are weighed.
const NU: f64 = 4.0;
/// What one reading may add to or take from a sum.
const MOST_FOR: f64 = 2.2;
const MOST_AGAINST: f64 = 2.5;
/// A leak's usual step in ln(salt passage), and its spread: x1.65, x1.1 to x2.5.
const LEAK_STEP: f64 = 0.50;
const LEAK_SPREAD: f64 = 0.30;
/// A smaller step is not told from noise: nothing is promised under x1.3.
const LEAST_STEP: f64 = 0.35;
const LEAST_READINGS: u32 = 3;
/// The sum that decides, natural log units.
const DECIDED: f64 = 6.0;
/// A climb longer than this is wear.
const LONGEST_READINGS: u32 = 9;
const LONGEST_SECONDS: i64 = 60 * 86_400;

/// One step of a cumulative sum that never falls below zero.
///
/// # References
/// Montgomery, Statistical Quality Control, 8th ed., eq. 9.2: C+ = max(0, x - (mu + K) + C+).
#[must_use]
pub fn page_sum(sum: f64, increment: f64) -> f64 {
    (sum + increment).max(0.0)
}

/// A step that is suspected, or that was decided on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Suspicion {
    /// The first reading after the step, UTC seconds.
    pub since: i64,
    /// Readings since then.
    pub readings: u32,
    /// Log-likelihood ratio for the step, cut off at zero.
    pub sum: f64,
    /// The belief as it was just before the step, carried forward unseen.
    pub before: Trend,
    /// The belief if it stepped.
    pub after: Trend,
}

impl Suspicion {
    /// Salt passage after over before the step.
    #[must_use]
    pub fn ratio(&self) -> f64 {
        (self.after.mean[0] - self.before.mean[0]).exp()
    }
}

/// The belief that a leak began: the level a step higher, unsure how far.
#[must_use]
pub fn leaking(healthy: &Trend) -> Trend {
    let mut trend = *healthy;
    trend.mean[0] += LEAK_STEP;
    trend.covariance[0][0] += LEAK_SPREAD * LEAK_SPREAD;
    trend
}

/// How much better `after` explains a reading than `now`, bounded.
#[must_use]
pub fn evidence(now: &Trend, after: &Trend, seen: &Observation) -> f64 {
    let (stepped, steady) = (after.surprise(seen), now.surprise(seen));
    let ratio = stepped.log_density(NU) - steady.log_density(NU);
    // A reading on the far side of the level speaks against the step, however
    // well the wider belief could bear it.
    let agrees = steady.residual * (after.mean[0] - now.mean[0]) > 0.0;
    ratio.clamp(-MOST_AGAINST, if agrees { MOST_FOR } else { 0.0 })
}

/// Follows a suspicion by one reading, or raises one. `now` is the ordinary
/// belief, carried to the reading but not yet told of it; `fresh` is the belief
/// to follow if the step happened right here.
#[must_use]
pub fn follow(
    open: Option<Suspicion>,
    at: i64,
    years: f64,
    wander: &Wander,
    now: &Trend,
    fresh: &Trend,
    seen: &Observation,
) -> Option<Suspicion> {
    let mut suspicion = match open {
        Some(mut open) => {
            open.before.predict(years, wander);
            open.after.predict(years, wander);
            open
        }
        None => Suspicion {
            since: at,
            readings: 0,
            sum: 0.0,
            before: *now,
            after: *fresh,
        },
    };
    suspicion.sum = page_sum(suspicion.sum, evidence(now, &suspicion.after, seen));
    suspicion.readings += 1;
    suspicion.after.update(&Observation {
        variance: seen.variance / weight(&suspicion.after, seen),
        ..*seen
    });
    let too_long = suspicion.readings > LONGEST_READINGS || at - suspicion.since > LONGEST_SECONDS;
    (suspicion.sum > 0.0 && !too_long).then_some(suspicion)
}

/// Whether a suspicion is strong enough to act on.
#[must_use]
pub fn is_decided(suspicion: &Suspicion) -> bool {
    suspicion.sum >= DECIDED
        && suspicion.readings >= LEAST_READINGS
        && (suspicion.after.mean[0] - suspicion.before.mean[0]).abs() >= LEAST_STEP
}

fn weight(trend: &Trend, seen: &Observation) -> f64 {
    let z = trend.surprise(seen).z();
    ((NU + 1.0) / (NU + z * z)).clamp(0.01, 1.0)
}

/// What may lie behind a rise overnight, most likely first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Cause {
    /// A hose or connection leaks raw water past the membrane.
    HoseOrConnection,
    /// An O-ring at the membrane's end is rolled, cut or missing.
    ORing,
    /// A bypass valve stands open.
    OpenBypass,
    /// Chlorine got past an old carbon filter and attacked the membrane.
    ChlorinePastCarbon,
    /// A cup that was not rinsed, the wrong hose, or water not run in yet.
    Misread,
}

/// The next test to make, the cheapest that tells causes apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum NextTest {
    /// Run five minutes, rinse the cup, read again.
    RunRinseReadAgain,
    /// Look along the hoses and fittings under pressure, and at the bypass valve.
    LookAtHosesAndBypass,
    /// Relieve the pressure, open the housing, look at the O-rings.
    LookAtORings,
    /// Test for chlorine after the carbon filter.
    TestChlorineAfterCarbon,
}

/// The causes of a rise, in the order to think of them, with the next test.
/// `readings` since the step say whether a misread is still likely;
/// `prefilter_overdue` moves chlorine up; `was_opened` says that the rig was
/// opened (membrane, O-ring or prefilter work) shortly before.
#[must_use]
pub fn causes(readings: u32, prefilter_overdue: bool, was_opened: bool) -> (Vec<Cause>, NextTest) {
    if readings < 4 {
        let list = if was_opened {
            vec![Cause::ORing, Cause::HoseOrConnection, Cause::OpenBypass, Cause::Misread]
        } else {
            vec![
                Cause::HoseOrConnection,
                Cause::ORing,
                Cause::OpenBypass,
                Cause::ChlorinePastCarbon,
                Cause::Misread,
            ]
        };
        return (list, NextTest::RunRinseReadAgain);
    }
    if was_opened {
        return (
            vec![Cause::ORing, Cause::HoseOrConnection, Cause::OpenBypass],
            NextTest::LookAtORings,
        );
    }
    if prefilter_overdue {
        let list = vec![
            Cause::ChlorinePastCarbon,
            Cause::HoseOrConnection,
            Cause::ORing,
            Cause::OpenBypass,
        ];
        return (list, NextTest::TestChlorineAfterCarbon);
    }
    let list = vec![
        Cause::HoseOrConnection,
        Cause::ORing,
        Cause::OpenBypass,
        Cause::ChlorinePastCarbon,
    ];
    (list, NextTest::LookAtHosesAndBypass)
}
