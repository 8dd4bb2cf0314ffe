//! The money's verdict on one rig, with its range, its rival rule of thumb and
//! what would change it.

use serde::{Deserialize, Serialize};

use super::forecast::{Range, after_years, level_spread, planning_growth};
use super::observation::{year_angle, years_between};
use super::prior::Lessons;
use super::renewal::{Standing, yearly_cost_per_passage};
use super::resin::{CARBON_DIOXIDE_PPM, GRAMS_PER_LITRE};
use super::rig::History;
use super::settings::Settings;
use super::trend::Trend;
use super::wear::Beginning;

/// Advice needs this many readings and days on the membrane.
const FROM_READINGS: u32 = 4;
const FROM_SECONDS: i64 = 60 * 86_400;
/// A little early is as cheap as a little late (the loss is flat from 0 to 0.06), and
/// safer for the glass: the line in ln(salt passage) is taken lower by this.
const EARLY_BY: f64 = 0.04;
/// Nothing is planned further ahead, years.
const HORIZON_YEARS: f64 = 5.0;
/// No membrane is bought on a reading older than this: the next one comes first.
const STALE_SECONDS: i64 = 45 * 86_400;
/// A suspicion as strong as this is waited for, natural log units.
const SUSPENSE: f64 = 1.0;
pub(super) const WEEK: f64 = 7.0 / 365.25;
pub(super) const WEEKS: usize = 52;

/// When to renew.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Verdict {
    /// Now: it pays for itself.
    Now,
    /// Cheapest in this range.
    Later(Range),
    /// Not within five years.
    NotInSight,
    /// Fewer than four readings or 60 days on this membrane.
    NotYetKnown,
}

/// The 80 % rule beside it (or whatever the owner's spent line is).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct RuleOfThumb {
    /// When the line is crossed, UTC seconds.
    pub on: i64,
    /// Dearer than the cheapest date by this much over that life.
    pub extra_cost: f64,
}

/// What would change the verdict: the cheapest date at other resin prices.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sensitivity {
    /// Resin a fifth cheaper, UTC seconds.
    pub resin_cheaper: i64,
    /// Resin a fifth dearer, UTC seconds.
    pub resin_dearer: i64,
}

/// The money's verdict.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Renewal {
    /// When to renew.
    pub verdict: Verdict,
    /// Rejection at which it is cheapest on the average of the seasons, a fraction;
    /// it may lie in the past. The verdict's date minds the season as well.
    pub best_rejection: f64,
    /// Resin bought over a whole year for what this membrane lets through, as it stands.
    pub running_cost_per_year: f64,
    /// The whole resin bill of a year, as it stands: with the carbon dioxide, which no
    /// membrane stops.
    pub resin_cost_per_year: f64,
    /// Membrane and the whole resin bill a year, if renewed at the cheapest time.
    pub mean_cost_per_year: f64,
    /// Cost of waiting for the next month, in its season; negative while waiting saves.
    pub waiting_per_month: f64,
    /// What the rule of thumb would do.
    pub rule_of_thumb: Option<RuleOfThumb>,
    /// What would change it.
    pub sensitivity: Option<Sensitivity>,
}

impl Renewal {
    /// Whether a new membrane pays for itself now.
    #[must_use]
    pub fn pays_now(&self) -> bool {
        self.verdict == Verdict::Now
    }
}

/// Judges the money for the belief `trend` at `now`; `None` without a membrane,
/// prices, resin size or litres.
#[must_use]
pub fn judge_renewal(
    history: &History,
    settings: &Settings,
    outfit: &Lessons,
    trend: &Trend,
    now: i64,
) -> Option<Renewal> {
    let Terms {
        renewal,
        cost,
        carbon_dioxide,
        standing: now_standing,
        seasons,
    } = terms(history, settings, outfit, trend, now)?;
    // The level at which it pays is the whole year's; the date minds the season.
    let best = now_standing.years_to_best(renewal, cost)?;
    let likely = best_years(&now_standing, renewal, cost, &seasons);
    let best_log = now_standing.log_passage + now_standing.growth * best;
    let mean = now_standing.mean_cost(best.max(0.0), renewal, cost);
    let month = 1.0 / 12.0;
    let next_month = seasons[..4].iter().sum::<f64>() / 4.0;
    let waiting = (cost * now_standing.log_passage.exp() * next_month - mean) * month;
    let known = history.life.readings >= FROM_READINGS && now - history.life.first_reading_at >= FROM_SECONDS;
    let verdict = if !known {
        Verdict::NotYetKnown
    } else if likely <= 0.0 && !in_suspense(history, now) {
        Verdict::Now
    } else if likely > HORIZON_YEARS {
        Verdict::NotInSight
    } else {
        Verdict::Later(range(&now_standing, trend, likely.max(WEEK), now))
    };
    let at_price = |factor: f64| after_years(now, best_years(&now_standing, renewal, cost * factor, &seasons));
    Some(Renewal {
        verdict,
        best_rejection: (1.0 - best_log.exp()).clamp(0.0, 1.0),
        running_cost_per_year: cost * now_standing.log_passage.exp(),
        resin_cost_per_year: cost * now_standing.log_passage.exp() + carbon_dioxide,
        mean_cost_per_year: mean + carbon_dioxide,
        waiting_per_month: waiting,
        rule_of_thumb: rule_of_thumb(&now_standing, settings, renewal, cost, mean, now),
        sensitivity: Some(Sensitivity {
            resin_cheaper: at_price(0.8),
            resin_dearer: at_price(1.2),
        }),
    })
}

/// What the verdict and the curve of costs are reckoned from.
pub(super) struct Terms {
    /// A new membrane in place.
    pub renewal: f64,
    /// Yearly resin cost per unit of salt passage.
    pub cost: f64,
    /// Yearly resin cost of the carbon dioxide: the same for any membrane, so that it
    /// moves no date, but it is on the bill.
    pub carbon_dioxide: f64,
    /// The life so far.
    pub standing: Standing,
    /// What a unit of salt passage costs in each week from now, 1 on average.
    pub seasons: [f64; WEEKS],
}

/// Gathers the terms; `None` without a membrane, prices, resin size or litres.
pub(super) fn terms(
    history: &History,
    settings: &Settings,
    outfit: &Lessons,
    trend: &Trend,
    now: i64,
) -> Option<Terms> {
    let prices = settings.prices.filter(|_| settings.has_membrane)?;
    let resin_litres = settings.resin_litres?;
    let litres = history.daily_litres(settings)? * 365.25;
    let grams = history
        .bed
        .capacity_g(resin_litres)
        .max(0.1 * resin_litres * GRAMS_PER_LITRE);
    let feed = history.feeds.median()?;
    let cost = yearly_cost_per_passage(prices.bed(resin_litres), grams, litres, feed);
    let carbon_dioxide = yearly_cost_per_passage(prices.bed(resin_litres), grams, litres, CARBON_DIOXIDE_PPM);
    let renewal = prices.renewal();
    (cost > 0.0 && renewal > 0.0).then(|| Terms {
        renewal,
        cost,
        carbon_dioxide,
        standing: standing(history, settings, outfit, trend, now),
        seasons: seasons(settings, trend, now),
    })
}

/// Whether the verdict waits a week for the next reading: the last ones may be the
/// first of a leak or of a new membrane, the very last was set aside, or it is old
/// (who has not read for weeks may have changed the membrane without a word).
fn in_suspense(history: &History, now: i64) -> bool {
    let open = [&history.life.rise, &history.life.fall];
    let is_stale = history.last_used_at.is_none_or(|last| now - last > STALE_SECONDS);
    is_stale || history.life.aside_run != 0 || open.into_iter().flatten().any(|suspicion| suspicion.sum > SUSPENSE)
}

/// What a unit of salt passage at the reference costs in each of the 52 weeks from
/// `now`, 1 on average: busy months buy more resin, and so does warm water, by the
/// rig's own yearly wave.
fn seasons(settings: &Settings, trend: &Trend, now: i64) -> [f64; WEEKS] {
    std::array::from_fn(|week| {
        #[allow(clippy::cast_precision_loss)]
        let at = after_years(now, (week as f64 + 0.5) * WEEK);
        settings.use_share(at) * trend.wave_at(year_angle(at)).exp()
    })
}

/// Years to the cheapest renewal, told early by [`EARLY_BY`]; 0 when it is now.
/// Direct, because the resin has seasons: through a cold, quiet winter a worn
/// membrane is cheap to keep, and before the warm busy months a new one saves most.
fn best_years(standing: &Standing, renewal: f64, cost: f64, seasons: &[f64; WEEKS]) -> f64 {
    let early = Standing {
        log_passage: standing.log_passage + EARLY_BY,
        ..*standing
    };
    early.years_to_best_directly(renewal, cost, HORIZON_YEARS + WEEK, WEEK, |week| seasons[week % WEEKS])
}

/// The life as the money sees it. Where its beginning was not seen, it is taken
/// to have worn from a new membrane's level at its present growth.
fn standing(history: &History, settings: &Settings, outfit: &Lessons, trend: &Trend, now: i64) -> Standing {
    let life = &history.life;
    let (log_passage, growth) = (trend.mean[0], planning_growth(trend));
    let seen_age = years_between(life.began_at().unwrap_or(life.first_reading_at), now);
    if life.beginning == Beginning::Unknown {
        let start = history.expected(settings, outfit).start.mean.min(log_passage);
        let age = ((log_passage - start) / growth).max(seen_age);
        let passed = (log_passage.exp() - start.exp()) / growth;
        return Standing {
            age_years: age,
            passed_years: passed,
            log_passage,
            growth,
        };
    }
    let idle = years_between(life.carried_to, now) * settings.use_share(now);
    let passed = life.passed_years + idle * (log_passage + trend.wave_at(year_angle(now))).exp();
    Standing {
        age_years: seen_age,
        passed_years: passed,
        log_passage,
        growth,
    }
}

fn range(standing: &Standing, trend: &Trend, likely: f64, now: i64) -> Range {
    let level = level_spread(trend) / standing.growth;
    let growth = trend.covariance[1][1].sqrt() / standing.growth * likely;
    let spread = super::forecast::Z80 * level.hypot(growth.min(likely)).min(2.0);
    Range {
        early: after_years(now, (likely - spread).max(0.0)),
        likely: after_years(now, likely),
        late: (likely + spread <= HORIZON_YEARS).then(|| after_years(now, likely + spread)),
    }
}

fn rule_of_thumb(
    standing: &Standing,
    settings: &Settings,
    renewal: f64,
    cost: f64,
    best_mean: f64,
    now: i64,
) -> Option<RuleOfThumb> {
    let years = ((1.0 - settings.limits.spent).max(1e-6).ln() - standing.log_passage) / standing.growth;
    if !(0.0..=10.0).contains(&years) {
        return None;
    }
    let life_years = standing.age_years + years;
    let extra = (standing.mean_cost(years, renewal, cost) - best_mean) * life_years;
    Some(RuleOfThumb {
        on: after_years(now, years),
        extra_cost: extra.max(0.0),
    })
}
