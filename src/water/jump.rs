//! A jump told from wear: two beliefs compete for the readings.
//!
//! Wear moves the salt passage by a few percent a month; a leak, a bypass or a
//! new membrane moves it overnight. From a first surprising reading on, a second
//! belief ("it stepped here") is followed beside the ordinary one, and their
//! log-likelihood ratio is summed and cut off at zero (Page's cumulative sum,
//! Biometrika 41 (1954) 100-115; Montgomery, Statistical Quality Control, ch. 9).
//! The density has heavy tails, so one blunder decides nothing.

use serde::{Deserialize, Serialize};

use super::observation::USUAL_SPREAD;
use super::trend::{Observation, Surprise, Trend, Wander};

/// Degrees of freedom of the noise when a followed belief takes a reading.
const NU: f64 = 4.0;
/// The noise has two sides: readings too high are commoner and further out (an
/// unrinsed cup, water not run in) than readings too low. Degrees of freedom, and
/// scale in standard deviations, above and below the level (tuned on simulated rigs).
const HIGH_SIDE: (f64, f64) = (2.0, 0.9);
const LOW_SIDE: (f64, f64) = (20.0, 0.7);
const EVEN: (f64, f64) = (NU, 1.0);
/// What one reading may add to or take from a sum.
const MOST_FOR: f64 = 3.0;
const MOST_AGAINST: f64 = 4.0;
/// Share of raw water that a leak lets into the permeate, and its spread (a
/// judgement, no source): on a membrane that passes 5 % x1.9, at 15 % x1.25.
const LEAK_SHARE: (f64, f64) = (0.045, 0.025);
/// Least step of a leak in ln(salt passage): this much, or so many times the rig's
/// own scatter. What is smaller is not told from noise.
const LEAST_RISE: f64 = 0.18;
const LEAST_RISE_IN_SPREADS: f64 = 1.5;
/// Two readings suffice from this step on, else three are needed.
const PLAIN_RISE: f64 = 0.5;
/// The sum that decides for a leak on a rig of usual scatter, and how it falls with more
/// scatter, where the least step is the larger; natural log units.
const RISE_DECIDED: f64 = 5.6;
const DECIDED_PER_SPREAD: f64 = -5.0;
/// Further evidence asked for where the step is as good as none, and the step from
/// which none is: drifts of a few days look like small leaks.
const MORE_WHEN_SMALL: f64 = 5.5;
/// The least step and the sum that decide for a new membrane.
const LEAST_FALL: f64 = 0.35;
const FALL_DECIDED: f64 = 6.0;
/// Further evidence asked for where the membrane is as good as new, and the wear, of
/// ln(salt passage), from which none is: nobody changes a good membrane.
const MORE_WHEN_GOOD: f64 = 6.0;
const WORN: f64 = 1.0;
/// A reading so many standard deviations below what the step would lead to is no
/// sign of the step: it is a blunder.
const FAR_BELOW: f64 = -2.0;
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

/// The belief that a leak began: a share of raw water joins what the membrane
/// passes, so that the step is the larger the better the membrane is.
#[must_use]
pub fn leaking(healthy: &Trend) -> Trend {
    let passage = healthy.mean[0].exp().clamp(0.01, 0.6);
    let step = |share: f64| (share * (1.0 - passage) / passage).ln_1p();
    let (share, spread) = LEAK_SHARE;
    let mut trend = *healthy;
    trend.mean[0] += step(share);
    trend.covariance[0][0] += ((step(share + spread) - step(share - spread)) / 2.0).powi(2);
    trend
}

/// Natural log of the density of a scaled Student t at a surprise, up to a constant that
/// depends on the degrees of freedom alone.
fn log_density(surprise: Surprise, (nu, scale): (f64, f64)) -> f64 {
    let z = surprise.z() / scale;
    -0.5 * surprise.variance.ln() - f64::midpoint(nu, 1.0) * (z * z / nu).ln_1p()
}

/// The same of noise with two sides.
fn two_sided(surprise: Surprise) -> f64 {
    log_density(surprise, if surprise.residual > 0.0 { HIGH_SIDE } else { LOW_SIDE })
}

/// How much better `after` explains a reading than `now`, bounded.
#[must_use]
pub fn evidence(now: &Trend, after: &Trend, seen: &Observation) -> f64 {
    let (stepped, steady) = (after.surprise(seen), now.surprise(seen));
    let is_rise = after.mean[0] > now.mean[0];
    // A low reading is rarer than a high one, yet a slip may make it: it must not speak
    // the louder for a fall. There the noise counts as even.
    let ratio = match is_rise {
        true => two_sided(stepped) - two_sided(steady),
        false => log_density(stepped, EVEN) - log_density(steady, EVEN),
    };
    // A reading on the far side of the level speaks against the step, however
    // well the wider belief could bear it; and one far below a new membrane's is
    // no new membrane.
    let agrees = steady.residual * (after.mean[0] - now.mean[0]) > 0.0 && (is_rise || stepped.z() > FAR_BELOW);
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

/// Whether a rise is strong enough to call it a leak, on a rig that scatters by
/// `spread` from site to site. Two plain readings suffice.
#[must_use]
pub fn is_leak(rise: &Suspicion, spread: f64) -> bool {
    let step = rise.after.mean[0] - rise.before.mean[0];
    let needed = if step >= PLAIN_RISE { 2 } else { 3 };
    let small = MORE_WHEN_SMALL * (1.0 - step / PLAIN_RISE).clamp(0.0, 1.0);
    rise.sum >= RISE_DECIDED + small + DECIDED_PER_SPREAD * (spread - USUAL_SPREAD)
        && rise.readings >= needed
        && step >= LEAST_RISE.max(LEAST_RISE_IN_SPREADS * spread)
}

/// Whether a fall is strong enough to ask about a new membrane: two readings
/// suffice on a worn one. `worn` is ln(salt passage) before it over a new one's, `more`
/// the evidence asked for beyond the usual.
#[must_use]
pub fn is_renewal(fall: &Suspicion, worn: f64, more: f64) -> bool {
    let good = MORE_WHEN_GOOD * (1.0 - worn / WORN).clamp(0.0, 1.0);
    fall.sum >= FALL_DECIDED + good + more
        && fall.readings >= 2
        && fall.after.mean[0] - fall.before.mean[0] <= -LEAST_FALL
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
