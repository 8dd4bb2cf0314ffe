//! What membrane and resin cost a year, by the time of renewal: the curve whose
//! lowest point the verdict names, and how flat it is there.

use super::observation::after_years;
use super::prior::Lessons;
use super::renewal_verdict::{WEEK, WEEKS, terms};
use super::rig::History;
use super::settings::Settings;

/// Dearer than the cheapest time by less than this share is as good as cheapest: the
/// prices and litres that go into it are not known better.
const FLAT_SHARE: f64 = 0.02;
/// How far the curve is followed.
const MOST_WEEKS: usize = 3 * WEEKS;
/// A membrane that is hardly paid for looks infinitely dear: that part is left out.
const MOST_TIMES_LEAST: f64 = 1.6;

/// Cost a year by the time of renewal.
#[derive(Clone, Debug, PartialEq)]
pub struct CostCurve {
    /// Instant of renewal, UTC seconds, and cost a year (in the prices' currency), a
    /// week apart, from now on.
    pub points: Vec<(i64, f64)>,
    /// Where it is least.
    pub least: (i64, f64),
    /// From when to when it is within 2 % of the least, the carbon dioxide's resin left
    /// out, UTC seconds.
    pub flat: (i64, i64),
}

/// The curve for a rig at `now`; `None` without a level, a membrane, prices, resin size
/// or litres. It does not carry the verdict's margin for safety, so the date advised
/// lies a little before its lowest point, within the flat part.
#[must_use]
pub fn cost_curve(history: &History, settings: &Settings, outfit: &Lessons, now: i64) -> Option<CostCurve> {
    let belief = history.life.belief_at(now)?;
    let terms = terms(history, settings, outfit, &belief, now)?;
    let share = |week: usize| terms.seasons[week % WEEKS];
    #[allow(clippy::cast_precision_loss)]
    let all: Vec<(i64, f64)> = terms
        .standing
        .mean_costs(terms.renewal, terms.cost, WEEK, share)
        .take(MOST_WEEKS + 1)
        .enumerate()
        .map(|(week, cost)| (after_years(now, week as f64 * WEEK), cost))
        .collect();
    let least = *all.iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
    let is_flat = |point: &&(i64, f64)| point.1 <= least.1 * (1.0 + FLAT_SHARE);
    // The flat part about the least: a second dip a year later is none of it.
    let before = all.iter().rev().skip_while(|point| point.0 > least.0);
    let after = all.iter().skip_while(|point| point.0 < least.0);
    let from = before.take_while(is_flat).last()?.0;
    let to = after.take_while(is_flat).last()?.0;
    // The carbon dioxide is on the bill whenever it is renewed.
    let whole = |(at, cost): (i64, f64)| (at, cost + terms.carbon_dioxide);
    let points = all
        .into_iter()
        .filter(|point| point.1 <= MOST_TIMES_LEAST * least.1)
        .map(whole)
        .collect();
    Some(CostCurve {
        points,
        least: whole(least),
        flat: (from, to),
    })
}
