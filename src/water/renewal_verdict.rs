//! The money's verdict on one rig, with its range, its rival rule of thumb and
//! what would change it.

use serde::{Deserialize, Serialize};

use super::forecast::{Range, level_spread, planning_growth};
use super::jump::Suspicion;
use super::observation::after_years;
use super::observation::{year_angle, years_between};
use super::prior::{Belief, Lessons, combine};
use super::renewal::{Standing, best_salt_passage, yearly_cost_per_passage};
use super::resin::{CARBON_DIOXIDE_PPM, capacity_g};
use super::rig::History;
use super::settings::Settings;
use super::trend::{Trend, WARMTH};
use super::wear::Beginning;

/// Advice needs this many readings and days on the membrane.
const FROM_READINGS: u32 = 4;
const FROM_SECONDS: i64 = 60 * 86_400;
/// A little early is as cheap as a little late, and safer for the glass: the line in
/// ln(salt passage) is taken lower by this. A level that is not sure waits for its next
/// readings: the line is taken higher by so many of its standard deviations.
const EARLY_BY: f64 = 0.03;
const LATE_BY: f64 = 0.20;
/// The mean cost of one life is shrunk towards what the rig's lives are expected to
/// cost, which counts as so much of a life.
const EXPECTED_LIVES: f64 = 0.25;
/// A new membrane is only advised where waiting loses this share of a year's cost a
/// year, or this much of the currency a month: less is not worth a word.
const WORTH_SHARE: f64 = 0.03;
const WORTH_PER_MONTH: f64 = 10.0;
/// How worn a membrane of unknown age is when it is first seen, of ln(salt passage), and
/// the spread of that (a judgement, no source).
const WORN_WHEN_SEEN: f64 = 0.45;
const WORN_SPREAD: f64 = 0.35;
/// Least growth that is planned with for a life that began unseen, a year.
const LEAST_GROWTH: f64 = 0.10;
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
        standing,
        seasons,
    } = terms(history, settings, outfit, trend, now)?;
    let spread = trend.covariance[0][0].max(0.0).sqrt();
    // The level at which it pays is the whole year's; the date minds the season.
    let best = standing.years_to_best(renewal, cost)?;
    let cheapest = best_years(&standing, spread, renewal, cost, &seasons);
    let best_log = standing.log_passage + standing.growth * best;
    let mean = standing.mean_cost(best.max(0.0), renewal, cost);
    let running = standing.running_cost(0.0, cost);
    let next_month = seasons[..4].iter().sum::<f64>() / 4.0;
    let waiting = (running * next_month - mean) / 12.0;
    let worth = WORTH_PER_MONTH.min(WORTH_SHARE * (mean + carbon_dioxide) / 12.0);
    // When waiting begins to be worth a word, in a month like the next.
    let worded = ((mean + 12.0 * worth) / (running * next_month).max(1e-9)).ln() / standing.growth;
    let likely = if waiting < worth {
        cheapest.max(worded)
    } else {
        cheapest
    };
    let known = history.life.readings >= FROM_READINGS && now - history.life.first_reading_at >= FROM_SECONDS;
    let verdict = if !known {
        Verdict::NotYetKnown
    } else if likely <= 0.0 && !in_suspense(history, now) {
        Verdict::Now
    } else if likely > HORIZON_YEARS {
        Verdict::NotInSight
    } else {
        Verdict::Later(range(&standing, trend, likely.max(WEEK), now))
    };
    let at_price = |factor: f64| after_years(now, best_years(&standing, spread, renewal, cost * factor, &seasons));
    // A leak that stands is on the bill, though no new membrane mends it.
    let leak = history.life.fault_at(now).map_or(1.0, Suspicion::ratio);
    Some(Renewal {
        verdict,
        best_rejection: (1.0 - best_log.exp()).clamp(0.0, 1.0),
        running_cost_per_year: running * leak,
        resin_cost_per_year: running * leak + carbon_dioxide,
        mean_cost_per_year: mean + carbon_dioxide,
        waiting_per_month: waiting,
        rule_of_thumb: rule_of_thumb(&standing, settings, renewal, cost, mean, now),
        sensitivity: Some(Sensitivity {
            resin_cheaper: at_price(0.8),
            resin_dearer: at_price(1.2),
        }),
    })
}

/// What the verdict and the curve of costs are reckoned from.
pub(super) struct Terms {
    /// A new membrane in place, with the share of one that the expected lives count for.
    pub renewal: f64,
    /// Yearly resin cost per unit of salt passage.
    pub cost: f64,
    /// Yearly resin cost of the carbon dioxide: the same for any membrane, so that it
    /// moves no date, but it is on the bill.
    pub carbon_dioxide: f64,
    /// The life so far, and the share of the expected ones.
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
    let litres = history.daily_litres(settings)? * 365.25 * history.usage(settings).level();
    let grams = capacity_g(resin_litres);
    let feed = history.feeds.median()?;
    // The level is stated at the reference; the bill is that of the rig's own water.
    let warmth = trend.mean[WARMTH].exp();
    let cost = warmth * yearly_cost_per_passage(prices.bed(resin_litres), grams, litres, feed);
    let carbon_dioxide = yearly_cost_per_passage(prices.bed(resin_litres), grams, litres, CARBON_DIOXIDE_PPM);
    let renewal = prices.renewal();
    if cost <= 0.0 || renewal <= 0.0 {
        return None;
    }
    let own = standing(history, settings, outfit, trend, now);
    Some(Terms {
        renewal: renewal * (1.0 + EXPECTED_LIVES),
        cost,
        carbon_dioxide,
        standing: with_expected_lives(own, history, outfit, feed, renewal, cost),
        seasons: seasons(settings, trend, now),
    })
}

/// A life with a share of the lives to expect here beside it: their length and the salt
/// that they pass, if each is renewed at its best. One life's mean alone says little, and
/// a membrane that is renewed makes room for such a one.
fn with_expected_lives(
    own: Standing,
    history: &History,
    outfit: &Lessons,
    feed_ppm: f64,
    renewal: f64,
    cost: f64,
) -> Standing {
    let mut lives = history.lessons.clone();
    lives.extend(history.life.lesson());
    let (start, growth) = outfit.expect(feed_ppm, &lives);
    let (new, growth) = (start.mean.exp(), growth.mean.max(LEAST_GROWTH));
    let Some(best) = best_salt_passage(new, growth, renewal, cost) else {
        return own;
    };
    Standing {
        age_years: own.age_years + EXPECTED_LIVES * (best / new).ln() / growth,
        passed_years: own.passed_years + EXPECTED_LIVES * (best - new) / growth,
        ..own
    }
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

/// Years to the cheapest renewal, told early by [`EARLY_BY`] and late by [`LATE_BY`]; 0 when it is now.
/// Direct, because the resin has seasons: through a cold, quiet winter a worn
/// membrane is cheap to keep, and before the warm busy months a new one saves most.
fn best_years(standing: &Standing, spread: f64, renewal: f64, cost: f64, seasons: &[f64; WEEKS]) -> f64 {
    let early = Standing {
        log_passage: standing.log_passage + EARLY_BY - LATE_BY * spread,
        ..*standing
    };
    early.years_to_best_directly(renewal, cost, HORIZON_YEARS + WEEK, WEEK, |week| seasons[week % WEEKS])
}

/// The life as the money sees it. Where its beginning was not seen, the years before are
/// those told, or else those that it took to wear from a new membrane's level to the
/// first one seen here.
fn standing(history: &History, settings: &Settings, outfit: &Lessons, trend: &Trend, now: i64) -> Standing {
    let life = &history.life;
    let (log_passage, growth) = (trend.mean[0], planning_growth(trend));
    let idle = years_between(life.carried_to, now) * settings.use_share(now);
    let passed = life.passed_years + idle * (log_passage + trend.wave_at(year_angle(now))).exp();
    let seen_years = years_between(life.new_at().unwrap_or(life.first_reading_at), now);
    let (unseen_years, unseen_passed) = match life.new_at() {
        Some(_) => (0.0, 0.0),
        None => unseen(history, settings, outfit, trend, seen_years),
    };
    Standing {
        age_years: unseen_years + seen_years,
        passed_years: unseen_passed + passed,
        log_passage,
        growth,
    }
}

/// Years of a life before its first reading, and the integral of its salt passage over them.
fn unseen(history: &History, settings: &Settings, outfit: &Lessons, trend: &Trend, seen_years: f64) -> (f64, f64) {
    let life = &history.life;
    let Some(first) = life.first_level else {
        return (0.0, 0.0);
    };
    let expected = history.expected(settings, outfit);
    let half_worn = Belief {
        mean: first.mean - WORN_WHEN_SEEN,
        variance: WORN_SPREAD * WORN_SPREAD + first.variance,
    };
    let start = combine(expected.start, half_worn).mean.min(first.mean);
    let years = match life.beginning {
        Beginning::Told(new) => years_between(new, life.first_reading_at),
        _ => {
            let growth = if seen_years > 0.3 {
                let slope = (trend.mean[0] - first.mean) / seen_years;
                let variance = (trend.covariance[0][0] + first.variance) / (seen_years * seen_years);
                combine(expected.growth, Belief { mean: slope, variance }).mean
            } else {
                expected.growth.mean
            };
            (first.mean - start) / growth.max(LEAST_GROWTH)
        }
    };
    // The integral of an exponential between two levels: its logarithmic mean.
    let worn = first.mean - start;
    let mean = if worn < 1e-6 {
        first.mean.exp()
    } else {
        (first.mean.exp() - start.exp()) / worn
    };
    (years, years * mean)
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
