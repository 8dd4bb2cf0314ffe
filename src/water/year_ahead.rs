//! The year ahead of one rig: how many beds of resin, which membrane, and what they cost,
//! by month and by quarter, each with a range that holds eight times in ten.
//!
//! What is bought comes in lumps, so that no formula gives its range: the year is lived
//! through a few hundred times, each with another level, growth, use and size of the beds
//! out of what is believed of them. The draws are a fixed sequence, so that the same state
//! gives the same figures.

use serde::{Deserialize, Serialize};

use super::forecast::{Range, Z80, level_spread, planning_growth};
use super::jump::Suspicion;
use super::observation::{year_angle, years_between};
use super::prior::Lessons;
use super::renewal::Prices;
use super::renewal_verdict::{Renewal, Verdict};
use super::resin::{CARBON_DIOXIDE_PPM, capacity_g};
use super::rig::History;
use super::settings::Settings;

/// Years that are lived through.
const YEARS: usize = 200;
/// Weeks in each.
const WEEKS: i64 = 52;
const WEEK_SECONDS: i64 = 7 * 86_400;
/// A leak that was told is mended within so many weeks (a judgement, no source).
const LEAK_WEEKS: i64 = 4;
/// A membrane that pays now is bought within a month.
const NOW_SECONDS: i64 = 30 * 86_400;
/// How far one bed lies from the rig's mean bed, of ln, beside what is open of that mean.
const BED_SPREAD: f64 = 0.12;
/// How far the tap of a whole year lies from its recent median, of ln.
const TAP_SPREAD: f64 = 0.08;

/// An amount with its range.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Amount {
    /// Less in one year out of ten.
    pub low: f64,
    /// The mean: what to set aside.
    pub likely: f64,
    /// More in one year out of ten.
    pub high: f64,
}

/// What is bought in a span of the year.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Span {
    /// Its first instant, UTC seconds.
    pub from: i64,
    /// The first instant after it, UTC seconds.
    pub to: i64,
    /// Beds of resin.
    pub beds: Amount,
    /// Resin, membrane and the labour of both, in the prices' currency; `None` without prices.
    pub cost: Option<Amount>,
}

/// The year ahead of one rig.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct YearAhead {
    /// The spans that were asked for, in order.
    pub spans: Vec<Span>,
    /// The whole year: its range is less wide than those of its parts together.
    pub year: Span,
    /// When beds are likely bought, UTC seconds: as the mean year would have it.
    pub bed_days: Vec<i64>,
    /// When a membrane is bought; `None` where none is within the year.
    pub membrane: Option<Range>,
}

/// When a membrane is bought, if the verdict is followed; `None` where no date is in sight.
#[must_use]
pub fn renewal_as_advised(renewal: Option<&Renewal>, now: i64) -> Option<Range> {
    match renewal?.verdict {
        Verdict::Now => Some(Range {
            early: now,
            likely: now + NOW_SECONDS / 2,
            late: Some(now + NOW_SECONDS),
        }),
        Verdict::Later(range) => Some(range),
        Verdict::NotInSight | Verdict::NotYetKnown => None,
    }
}

/// Looks a year ahead from `now`. `borders` part the year into spans, UTC seconds, in
/// order: the ends of months or of quarters by the outfit's calendar; `renewal` says when
/// a membrane will be bought ([`renewal_as_advised`], or as the owner told).
///
/// `None` where the size of the bed, the litres or the tap are not known.
#[must_use]
pub fn look_ahead(
    history: &History,
    settings: &Settings,
    outfit: &Lessons,
    renewal: Option<Range>,
    now: i64,
    borders: &[i64],
) -> Option<YearAhead> {
    let capacity = capacity_g(settings.resin_litres?);
    let mut rig = history.clone();
    rig.carry(now.max(history.until.unwrap_or(now)), settings);
    let weeks = weeks(&rig, settings, now)?;
    let end = now + WEEKS * WEEK_SECONDS;
    let membrane = renewal.filter(|range| settings.has_membrane && range.likely < end);
    let odds = Odds::of(&rig, settings, outfit, membrane, now);
    let lives: Vec<Lived> = (0..YEARS)
        .map(|nth| live(&weeks, &odds, capacity, rig.bed.load_g, now, &mut Draws::new(nth)))
        .collect();
    let mean = live(&weeks, &odds, capacity, rig.bed.load_g, now, &mut Draws::mean());
    let span = |from: i64, to: i64| {
        let within = |at: &&i64| (from..to).contains(*at);
        let beds = |lived: &Lived| lived.beds.iter().filter(within).count() as f64;
        let cost = |lived: &Lived, prices: &Prices| {
            let membranes = lived.membrane.iter().filter(within).count() as f64;
            beds(lived) * prices.bed(settings.resin_litres.unwrap_or(0.0)) + membranes * prices.renewal()
        };
        Span {
            from,
            to,
            beds: amount(lives.iter().map(beds).collect()),
            cost: settings
                .prices
                .map(|prices| amount(lives.iter().map(|lived| cost(lived, &prices)).collect())),
        }
    };
    let starts = std::iter::once(now).chain(borders.iter().copied());
    let ends = borders.iter().copied().chain([end]);
    Some(YearAhead {
        spans: starts
            .zip(ends)
            .filter(|(from, to)| from < to)
            .map(|(from, to)| span(from, to))
            .collect(),
        year: span(now, end),
        bed_days: mean.beds,
        membrane,
    })
}

/// The sum of what independent rigs cost: their ranges add as squares.
#[must_use]
pub fn sum(amounts: impl Iterator<Item = Amount>) -> Amount {
    let (mut likely, mut below, mut above) = (0.0, 0.0_f64, 0.0_f64);
    for amount in amounts {
        likely += amount.likely;
        below = below.hypot(amount.likely - amount.low);
        above = above.hypot(amount.high - amount.likely);
    }
    Amount {
        low: (likely - below).max(0.0),
        likely,
        high: likely + above,
    }
}

/// A week of the likely year.
struct Week {
    /// Litres made.
    litres: f64,
    /// The tap, ppm.
    feed_ppm: f64,
    /// Share of it that reaches the bed, with a leak that stands.
    passage: f64,
    /// Cosine and sine of the year.
    angle: (f64, f64),
}

fn weeks(rig: &History, settings: &Settings, now: i64) -> Option<Vec<Week>> {
    let daily = rig.daily_litres(settings)?;
    (0..WEEKS)
        .map(|week| {
            let at = now + week * WEEK_SECONDS + WEEK_SECONDS / 2;
            let water = rig.water(at, settings)?;
            Some(Week {
                litres: 7.0 * daily * settings.use_share(at) * water.used,
                feed_ppm: water.feed_ppm,
                passage: water.passage,
                angle: year_angle(at),
            })
        })
        .collect()
}

/// What is believed of the parts of a year, each with its spread.
struct Odds {
    /// Growth of ln(salt passage) a year, and its spread.
    growth: (f64, f64),
    /// Spread of the level, of ln.
    level: f64,
    /// ln of a new membrane's passage over this one's, and its spread.
    renewed: (f64, f64),
    /// Growth of a new membrane.
    new_growth: f64,
    /// Passage with a leak that stands over that without.
    leak: f64,
    /// Spreads of ln(use): of its level, and of the two parts of its wave.
    usage: [f64; 3],
    membrane: Option<Range>,
}

impl Odds {
    fn of(rig: &History, settings: &Settings, outfit: &Lessons, membrane: Option<Range>, now: i64) -> Self {
        let expected = rig.expected(settings, outfit);
        let trend = rig.life.belief_at(now).filter(|_| settings.has_membrane);
        let growth = trend.map_or((0.0, 0.0), |trend| {
            (planning_growth(&trend), trend.covariance[1][1].max(0.0).sqrt())
        });
        Self {
            growth,
            level: trend.as_ref().map_or(0.0, level_spread),
            renewed: trend.map_or((0.0, 0.0), |trend| {
                (expected.start.mean - trend.mean[0], expected.start.variance.sqrt())
            }),
            new_growth: expected.growth.mean,
            leak: rig.life.fault_at(now).map_or(1.0, Suspicion::ratio),
            usage: rig.usage(settings).spreads(),
            membrane,
        }
    }
}

/// What was bought in one year that was lived through, UTC seconds.
struct Lived {
    beds: Vec<i64>,
    membrane: Option<i64>,
}

fn live(weeks: &[Week], odds: &Odds, capacity: f64, load: f64, now: i64, draws: &mut Draws) -> Lived {
    let level = odds.level * draws.normal();
    let growth = (odds.growth.0 + odds.growth.1 * draws.normal()).max(0.0);
    let tap = TAP_SPREAD * draws.normal();
    let usage = odds.usage.map(|spread| spread * draws.normal());
    let renewed = odds.renewed.0 + odds.renewed.1 * draws.normal();
    // Drawn in any case, so that years with and without a new membrane are otherwise the same.
    let bought = draws.normal();
    let membrane = odds.membrane.map(|range| instant(&range, bought).max(now));
    let mut bed = capacity * (BED_SPREAD * draws.normal()).exp();
    let mut lived = Lived {
        beds: Vec::new(),
        membrane,
    };
    let mut load = load;
    for (week, of_week) in (0i64..).zip(weeks) {
        let at = now + week * WEEK_SECONDS;
        let years = years_between(now, at);
        let worn = match membrane {
            Some(bought) if at >= bought => renewed + odds.new_growth * years_between(bought, at),
            _ => level + growth * years,
        };
        let mended = if week < LEAK_WEEKS { 1.0 } else { odds.leak };
        let passage = (of_week.passage / mended * worn.exp()).min(1.0);
        let made = usage[0] + usage[1] * of_week.angle.0 + usage[2] * of_week.angle.1;
        let ppm = of_week.feed_ppm * tap.exp() * passage + CARBON_DIOXIDE_PPM;
        let grams = of_week.litres * made.exp() * ppm / 1000.0;
        let before = load;
        load += grams;
        // A bed may take less than a week: each that fills is bought at its own time.
        let mut emptied = 0.0;
        while load >= bed && grams > 0.0 && lived.beds.len() < 1000 {
            load -= bed;
            emptied += bed;
            let share = ((emptied - before) / grams).clamp(0.0, 1.0);
            #[allow(clippy::cast_possible_truncation, reason = "seconds of a week")]
            lived.beds.push(at + (share * WEEK_SECONDS as f64) as i64);
            bed = capacity * (BED_SPREAD * draws.normal()).exp();
        }
    }
    lived
}

/// Normal draws of a fixed sequence, or nothing but the mean.
struct Draws(Option<u64>);

impl Draws {
    fn new(nth: usize) -> Self {
        Self(Some(nth as u64 * 0x9e37_79b9))
    }

    fn mean() -> Self {
        Self(None)
    }

    /// Between 0 and 1: the mixing of SplitMix64 (Steele, Lea & Flood, OOPSLA 2014).
    fn unit(state: &mut u64) -> f64 {
        *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = *state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A standard normal number (Box & Muller, 1958).
    fn normal(&mut self) -> f64 {
        let Some(state) = &mut self.0 else { return 0.0 };
        let radius = (-2.0 * Self::unit(state).max(1e-12).ln()).sqrt();
        radius * (std::f64::consts::TAU * Self::unit(state)).cos()
    }
}

/// An instant of a range whose ends are its 0.1 and 0.9 quantiles, so many standard deviations from the likely one.
fn instant(range: &Range, deviations: f64) -> i64 {
    let z = deviations / Z80;
    let before = (range.likely - range.early) as f64;
    let after = range.late.map_or(before, |late| (late - range.likely) as f64);
    #[allow(clippy::cast_possible_truncation, reason = "seconds of a few years")]
    let off = (z * if z < 0.0 { before } else { after }) as i64;
    range.likely.saturating_add(off)
}

/// The mean and the 0.1 and 0.9 quantiles of what was lived through.
fn amount(mut values: Vec<f64>) -> Amount {
    values.sort_by(f64::total_cmp);
    let likely = values.iter().sum::<f64>() / values.len().max(1) as f64;
    let at = |nth: usize| values.get(nth).copied().unwrap_or(likely);
    Amount {
        low: at(values.len() / 10).min(likely),
        likely,
        high: at(values.len() * 9 / 10).max(likely),
    }
}
