//! Everything that replies, digest and pictures need of one rig, in one value.

use serde::{Deserialize, Serialize};

use super::condition::{Band, Condition, Grounds, band, condition};
use super::flow::{FlowFinding, find_flow};
use super::forecast::{
    Crossing, Interval, TREND_FROM_READINGS, TREND_FROM_SECONDS, crossing, planning_growth, rejection_interval,
};
use super::jump::{Cause, NextTest, causes};
use super::prefilter;
use super::prior::Lessons;
use super::rejection::rejection;
use super::renewal_verdict::{Renewal, judge_renewal};
use super::resin::{BedAssessment, BedState, Day};
use super::rig::{History, SetAside};
use super::settings::Settings;
use super::wear::{Beginning, Life};

/// Readings before a level is told when the change was not logged.
pub const LEVEL_FROM_READINGS: u32 = 3;
/// A last reading older than this is said to be old.
const STALE_SECONDS: i64 = 45 * 86_400;
/// Work on the rig this long before a jump is a likely cause of it.
const OPENED_BEFORE_SECONDS: i64 = 14 * 86_400;

/// What a level rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Basis {
    /// The readings as they are.
    AsRead,
    /// Corrected to 12 C and the rig's usual pressure.
    Corrected,
}

/// A jump that stands.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fault {
    /// First reading after it, UTC seconds.
    pub since: i64,
    /// Salt passage now over what the membrane alone would pass.
    pub passage_ratio: f64,
    /// Rejection of the whole rig, leak included, a fraction.
    pub seen_rejection: f64,
    /// What may lie behind it, most likely first.
    pub causes: Vec<Cause>,
    /// The next test to make.
    pub next_test: NextTest,
}

/// The last reading of a membrane, as it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Seen {
    /// Rejection as read, a fraction.
    pub rejection: f64,
    /// Why it is not to be believed as it is; none where it is.
    pub doubted: Option<Doubted>,
}

/// Why a reading is to be taken again.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Doubted {
    /// It is far off the trend.
    Far {
        /// The rejection that the trend leads to expect, a fraction.
        usual: f64,
    },
    /// A jump stands, but it is back where it was before: mended, if the next one is like it.
    Back,
    /// Low enough to weigh a new membrane, but too few readings prove it.
    LowUnproven,
}

/// Something to ask the crew.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Question {
    /// The readings fell as if the membrane was changed at about this instant:
    /// was it? Yes: record it. No: record [`super::history::ServiceKind::SameMembrane`].
    WasMembraneChanged {
        /// About when, UTC seconds.
        since: i64,
    },
}

/// Why the assessment says what it says, for words beside it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Reason {
    /// No reading of this membrane yet.
    NoReadings,
    /// A level needs three readings, as this membrane's age is unknown.
    FewReadings {
        /// Readings so far.
        readings: u32,
    },
    /// A trend needs eight readings over 45 days.
    TrendNotYetKnown {
        /// Readings so far.
        readings: u32,
        /// Days so far.
        days: u32,
    },
    /// The last reading is old.
    LastReadingOld {
        /// Days since.
        days: u32,
    },
    /// A jump, not wear.
    Jumped,
    /// The change of membrane was not logged.
    MembraneChangePresumed,
    /// Nothing says when this membrane was new.
    MembraneAgeUnknown,
    /// The state rests on the rejection.
    LevelBelow {
        /// The line that it is below, a fraction.
        line: f64,
    },
    /// The due line is near.
    DueLineNear,
    /// A new membrane pays for itself now.
    RenewalPays,
    /// Enough readings, steady.
    Steady,
}

/// What can be said of a rig at an instant.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Assessment {
    /// The instant, UTC seconds.
    pub now: i64,
    /// The membrane's state; `None` on a DI-only rig.
    pub condition: Option<Condition>,
    /// Rejection of the membrane at 12 C and the rig's usual pressure, with its
    /// 80 % interval, fractions. While a fault stands: of the membrane without it.
    pub rejection: Option<Interval>,
    /// What that rests on.
    pub basis: Basis,
    /// Points of rejection lost a year (positive: wearing); `None` until known.
    pub points_per_year: Option<f64>,
    /// When the due line is crossed.
    pub due: Crossing,
    /// When the spent line is crossed.
    pub spent: Crossing,
    /// A jump that stands.
    pub fault: Option<Fault>,
    /// The last reading of this membrane.
    pub seen: Option<Seen>,
    /// Something to ask.
    pub question: Option<Question>,
    /// The resin; `None` when its size is not told.
    pub resin: Option<BedAssessment>,
    /// The prefilters.
    pub prefilter: prefilter::Assessment,
    /// The money; `None` without a membrane or prices.
    pub renewal: Option<Renewal>,
    /// The flow as a share of what it should give, or what is missing to say so; `None`
    /// where neither a rating nor a flow was told.
    pub flow: Option<FlowFinding>,
    /// Readings used on this membrane.
    pub readings_used: u32,
    /// Readings set aside lately, newest last.
    pub set_aside: Vec<SetAside>,
    /// Last reading, UTC seconds.
    pub last_reading_at: Option<i64>,
    /// Last flush, UTC seconds.
    pub flushed_at: Option<i64>,
    /// When this membrane was new, logged or presumed, UTC seconds.
    pub membrane_since: Option<i64>,
    /// Why, most important first.
    pub reasons: Vec<Reason>,
}

/// Assesses a rig at `now` (UTC seconds, not before the last event) from its kept
/// history. Costs microseconds, however long the history.
#[must_use]
pub fn assess(history: &History, settings: &Settings, outfit: &Lessons, now: i64) -> Assessment {
    let life = &history.life;
    let has_level = settings.has_membrane && has_level(life);
    let belief = life.belief_at(now).filter(|_| has_level);
    let rejection = belief.as_ref().map(rejection_interval);
    let days_known = now.min(life.carried_to) - life.first_reading_at;
    let has_trend = has_level && life.readings >= TREND_FROM_READINGS && days_known >= TREND_FROM_SECONDS;
    let line = |limit: f64| match &belief {
        Some(trend) => match crossing(trend, limit, now) {
            Crossing::Already => Crossing::Already,
            _ if !has_trend => Crossing::NotYetKnown,
            seen => seen,
        },
        None => Crossing::NotYetKnown,
    };
    let (due, spent) = (line(settings.limits.due), line(settings.limits.spent));
    let fault = life.fault_at(now).filter(|_| has_level).map(|jump| {
        let opened = history
            .opened_at
            .is_some_and(|opened| (0..=OPENED_BEFORE_SECONDS).contains(&(jump.since - opened)));
        let overdue = prefilter_of(history, settings, now).state == prefilter::State::Overdue;
        let (causes, next_test) = causes(jump.readings, overdue, opened);
        let seen_rejection = 1.0 - jump.after.mean[0].exp().min(1.0);
        Fault {
            since: jump.since,
            passage_ratio: jump.ratio(),
            seen_rejection,
            causes,
            next_test,
        }
    });
    let renewal = belief
        .as_ref()
        .and_then(|trend| judge_renewal(history, settings, outfit, trend, now));
    let pays_now = renewal.as_ref().is_some_and(Renewal::pays_now);
    let band = rejection.map(|r| band(r.mid, &settings.limits, history.band));
    let grounds = Grounds {
        rejection,
        band,
        fault: fault.is_some(),
        due,
        pays_now,
        now,
    };
    let mut assessment = Assessment {
        now,
        condition: settings.has_membrane.then(|| condition(&grounds)),
        rejection,
        basis: match &belief {
            Some(trend) if trend.has_warmth() => Basis::Corrected,
            _ => Basis::AsRead,
        },
        points_per_year: belief
            .filter(|_| has_trend)
            .map(|trend| 100.0 * trend.mean[0].exp().min(1.0) * planning_growth(&trend)),
        due,
        spent,
        fault,
        seen: None,
        question: match life.beginning {
            Beginning::Presumed(since) => Some(Question::WasMembraneChanged { since }),
            Beginning::Logged(_) | Beginning::Told(_) | Beginning::Unknown => None,
        },
        resin: assess_resin(history, settings, now),
        prefilter: prefilter_of(history, settings, now),
        renewal,
        flow: find_flow(history.flow_reading.as_ref(), settings.rated.as_ref()),
        readings_used: life.readings,
        set_aside: history.set_aside.clone(),
        last_reading_at: history.last_reading.map(|reading| reading.at),
        flushed_at: history.flushed_at,
        membrane_since: life.began_at(),
        reasons: Vec::new(),
    };
    if settings.has_membrane {
        assessment.seen = seen(history, settings, &assessment);
        assessment.reasons = reasons(&assessment, settings, band, pays_now, days_known, has_trend);
    }
    assessment
}

/// The last reading of this membrane, and whether it is doubted.
fn seen(history: &History, settings: &Settings, assessment: &Assessment) -> Option<Seen> {
    let last = history.last_reading?;
    let seen = rejection(last.feed, last.permeate?).ok()?;
    if assessment.membrane_since.is_some_and(|began| began > last.at) {
        return None;
    }
    let is_aside =
        history.set_aside.last().is_some_and(|aside| aside.at == last.at) && history.last_used_at != Some(last.at);
    let doubted = match (&assessment.fault, assessment.rejection) {
        (Some(fault), Some(level)) => {
            // Nearer to the membrane alone than to what the jump left of it.
            let log_passage = |rejection: f64| (1.0 - rejection).max(1e-6).ln();
            let halfway = f64::midpoint(log_passage(level.mid), log_passage(fault.seen_rejection));
            let is_back = last.at > fault.since && log_passage(seen) < halfway;
            is_back.then_some(Doubted::Back)
        }
        (None, Some(level)) if is_aside => Some(Doubted::Far { usual: level.mid }),
        _ if assessment.condition == Some(Condition::Unproven) && seen < settings.limits.due => {
            Some(Doubted::LowUnproven)
        }
        _ => None,
    };
    Some(Seen {
        rejection: seen,
        doubted,
    })
}

/// Whether a life has been read often enough to tell its level.
pub(super) fn has_level(life: &Life) -> bool {
    match life.beginning {
        Beginning::Unknown => life.readings >= LEVEL_FROM_READINGS,
        Beginning::Logged(_) | Beginning::Presumed(_) | Beginning::Told(_) => life.readings >= 1,
    }
}

fn reasons(
    a: &Assessment,
    settings: &Settings,
    band: Option<Band>,
    pays_now: bool,
    seconds_known: i64,
    has_trend: bool,
) -> Vec<Reason> {
    let days = |seconds: i64| u32::try_from(seconds / 86_400).unwrap_or(0);
    let mut reasons = Vec::new();
    if a.readings_used == 0 {
        return vec![Reason::NoReadings];
    }
    if a.rejection.is_none() {
        return vec![Reason::FewReadings {
            readings: a.readings_used,
        }];
    }
    if a.fault.is_some() {
        reasons.push(Reason::Jumped);
    }
    match band {
        Some(Band::Bottom) => reasons.push(Reason::LevelBelow {
            line: settings.limits.spent,
        }),
        Some(Band::Low) => reasons.push(Reason::LevelBelow {
            line: settings.limits.due,
        }),
        Some(Band::Middle) => reasons.push(Reason::LevelBelow {
            line: settings.limits.wearing,
        }),
        _ => {}
    }
    if pays_now {
        reasons.push(Reason::RenewalPays);
    }
    if band == Some(Band::High) && a.condition == Some(Condition::Fading) && !pays_now {
        reasons.push(Reason::DueLineNear);
    }
    if a.condition == Some(Condition::Good) && has_trend {
        reasons.push(Reason::Steady);
    }
    if !has_trend {
        reasons.push(Reason::TrendNotYetKnown {
            readings: a.readings_used,
            days: days(seconds_known),
        });
    }
    if let Some(last) = a.last_reading_at
        && a.now - last > STALE_SECONDS
    {
        reasons.push(Reason::LastReadingOld {
            days: days(a.now - last),
        });
    }
    match a.question {
        Some(Question::WasMembraneChanged { .. }) => reasons.push(Reason::MembraneChangePresumed),
        None if a.membrane_since.is_none() => reasons.push(Reason::MembraneAgeUnknown),
        None => {}
    }
    reasons
}

fn prefilter_of(history: &History, settings: &Settings, now: i64) -> prefilter::Assessment {
    let daily = history.daily_litres(settings);
    prefilter::assess(
        history.prefilter_at,
        history.prefilter_litres,
        daily,
        &settings.prefilter,
        now,
    )
}

fn assess_resin(history: &History, settings: &Settings, now: i64) -> Option<BedAssessment> {
    let litres = settings.resin_litres?;
    // The days since the last event loaded the bed as well.
    let mut carried = history.clone();
    carried.carry(now.max(history.until.unwrap_or(now)), settings);
    let growth = match &carried.life.trend {
        Some(trend) if settings.has_membrane => planning_growth(trend),
        _ => 0.0,
    };
    let spread = carried.usage(settings).spread();
    let idle = Day { grams: 0.0, work: 0.0 };
    let ahead = |at: i64| carried.day(at, growth, settings).unwrap_or(idle);
    Some(
        carried
            .bed
            .assess(now, (litres, settings.limits.spots_ppm), spread, ahead),
    )
}

impl Assessment {
    /// Whether the glass will spot: the resin comes first then.
    #[must_use]
    pub fn will_spot(&self) -> bool {
        self.resin.is_some_and(|bed| bed.spots().is_some())
    }

    /// How the bed stands, if it is judged.
    #[must_use]
    pub fn bed_state(&self) -> Option<BedState> {
        self.resin.map(|bed| bed.state)
    }
}
