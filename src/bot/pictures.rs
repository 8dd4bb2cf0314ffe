//! What a rig's pictures are made of: its kept readings and services, followed
//! through the computation, with local dates.
//!
//! A sheet becomes a PNG by [`crate::chart::png()`]: tens of milliseconds of one core,
//! so off the threads that answer, and one at a time.

use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::chart::rig_history::{Dot, Level};
use crate::chart::{Sheet, fleet_sheet, renewal_cost, resin_life, rig_history};
use crate::digest::membrane_need::Behind;
use crate::digest::wants;
use crate::replies::Words;
use crate::replies::membrane::DueLine;
use crate::replies::pictures::{fleet, money, resin, rig_history as history_words};
use crate::schedule;
use crate::water::assess::Assessment;
use crate::water::course::{BedSpan, Course, Level as Believed, Stretch, ahead};
use crate::water::forecast::Crossing;
use crate::water::history::{Event, Work};
use crate::water::observation::SECONDS_PER_YEAR;
use crate::water::prior::Lessons;
use crate::water::rejection::rejection;
use crate::water::renewal_curve::cost_curve;
use crate::water::renewal_verdict::Verdict;
use crate::water::resin::BedState;
use crate::water::settings::{Limits, Settings};

use super::gathering::offset;

/// How much of the past a rig's history shows: more would be a grey cloud.
const HISTORY_WEEKS: i64 = 104;
/// How much of the past a fleet's trends show.
const TREND_WEEKS: i64 = 26;
const WEEK: i64 = 7 * 86_400;
/// The forecast is drawn in this many steps, and no further than this.
const FORECAST_STEPS: u32 = 60;
const FORECAST_YEARS: f64 = 1.5;
/// And no further than the past times this, so that the readings keep their room.
const MOST_TIMES_PAST: f64 = 1.5;

/// A rig as its pictures see it.
pub struct Seen<'a> {
    /// Its name.
    pub rig: &'a str,
    /// All that happened on it.
    pub events: &'a [Event],
    /// What it is told of it.
    pub settings: &'a Settings,
    /// What the outfit's membranes taught.
    pub lessons: &'a Lessons,
    /// The same events, followed up to the assessment's instant.
    pub course: &'a Course,
    /// What is said of it now.
    pub assessment: &'a Assessment,
    /// What its membrane feeds.
    pub behind: Behind,
    /// The outfit's zone.
    pub zone: &'a TimeZone,
}

/// The history of a rig; none on a rig without a membrane.
#[must_use]
pub fn rig_history(words: Words, seen: &Seen<'_>) -> Option<Sheet> {
    seen.settings.has_membrane.then(|| {
        let facts = history_facts(seen);
        rig_history::draw(&history_words::picture(words, facts))
    })
}

/// The resin of a rig.
#[must_use]
pub fn resin_life(words: Words, seen: &Seen<'_>) -> Sheet {
    let used = |bed: &BedSpan| resin::Used {
        since: seen.date(bed.since),
        until: bed.until.map(|until| seen.date(until)),
        load: bed.load.iter().map(|&(at, share)| (seen.date(at), share)).collect(),
    };
    let empty = seen.assessment.resin.and_then(|bed| bed.empty);
    let facts = resin::Facts {
        rig: seen.rig,
        today: seen.today(),
        beds: seen.course.beds.iter().map(used).collect(),
        left: left(seen.assessment),
        sized: seen.settings.resin_litres.is_some() && seen.course.history.workday_litres(seen.settings).is_some(),
        full: empty.and_then(|range| Some([range.early, range.likely, range.late?].map(|at| seen.date(at)))),
    };
    resin_life::draw(&resin::picture(words, facts))
}

/// The money over time; none without a membrane, prices, sizes or enough readings.
/// `money` writes a whole amount as the outfit does.
#[must_use]
pub fn renewal_cost(words: Words, seen: &Seen<'_>, money: &dyn Fn(f64) -> String) -> Option<Sheet> {
    let renewal = seen.assessment.renewal?;
    let best = match renewal.verdict {
        Verdict::Now => seen.assessment.now,
        Verdict::Later(range) => range.likely,
        Verdict::NotInSight | Verdict::NotYetKnown => return None,
    };
    let curve = cost_curve(&seen.course.history, seen.settings, seen.lessons, seen.assessment.now)?;
    let rule = renewal.rule_of_thumb;
    // As far as what is told of it, and a season beyond.
    let told = curve.flat.1.max(best).max(rule.map_or(0, |rule| rule.on)) + 13 * WEEK;
    let until = told.max(seen.assessment.now + 52 * WEEK);
    let points = curve.points.iter().filter(|point| point.0 <= until);
    let last = points.clone().next_back().map_or(seen.assessment.now, |point| point.0);
    let facts = money::Facts {
        rig: seen.rig,
        today: seen.today(),
        curve: points.map(|&(at, cost)| (seen.date(at), cost)).collect(),
        best: seen.date(best),
        // The date advised is a little early, and as good.
        flat: (seen.date(curve.flat.0.min(best)), seen.date(curve.flat.1.min(last))),
        waiting_per_month: renewal.waiting_per_month,
        rule: rule
            .filter(|rule| rule.on <= last)
            .map(|rule| (seen.settings.limits.spent, seen.date(rule.on), rule.extra_cost)),
        money,
    };
    Some(renewal_cost::draw(&money::picture(words, &facts)))
}

/// The fleet: the sheet that goes with the digest, then those that list the rigs which
/// it only counts. Of a fleet of one rig its history says more. `limits` are the
/// outfit's own.
#[must_use]
pub fn fleet(words: Words, rigs: &[Seen<'_>], limits: Limits, today: Date) -> Vec<Sheet> {
    if let [only] = rigs
        && let Some(history) = rig_history(words, only)
    {
        return vec![history];
    }
    let rows: Vec<fleet::Rig> = rigs.iter().map(fleet_row).collect();
    let since = rigs
        .first()
        .map_or(today, |seen| seen.date(seen.assessment.now - TREND_WEEKS * WEEK));
    fleet_sheet::pages(&fleet::picture(words, rows, limits, since, today))
}

fn fleet_row(seen: &Seen<'_>) -> fleet::Rig {
    let mut trend: Vec<Vec<(Date, f64)>> = seen
        .levels()
        .iter()
        .map(|stretch| stretch.iter().map(|level| (level.day, level.mid)).collect())
        .collect();
    let fault = seen.assessment.fault.as_ref();
    // While a jump stands, the rig is what it is with it.
    if let (Some(fault), Some(stretch)) = (fault, trend.last_mut()) {
        stretch.retain(|&(day, _)| day < seen.date(fault.since));
        stretch.extend([fault.since, seen.assessment.now].map(|at| (seen.date(at), fault.seen_rejection)));
    }
    let level = seen.assessment.rejection.map(|level| level.mid);
    fleet::Rig {
        name: seen.rig.to_owned(),
        condition: seen.assessment.condition,
        level: fault.map(|fault| fault.seen_rejection).or(level),
        product_ppm: seen.assessment.resin.and_then(|bed| bed.product_ppm),
        resin: left(seen.assessment),
        wants: wants::something(
            seen.assessment,
            seen.behind,
            seen.today(),
            offset(seen.zone, seen.assessment.now),
        ),
        trend,
    }
}

fn left(assessment: &Assessment) -> resin::Left {
    let Some(bed) = assessment.resin else {
        return resin::Left::Unknown;
    };
    match (bed.state, bed.working_days) {
        (BedState::Exhausted, _) => resin::Left::Nothing,
        (BedState::EarlyBreakthrough, _) => resin::Left::Loose,
        (_, Some(days)) => resin::Left::Days(days),
        (_, None) => resin::Left::Unknown,
    }
}

fn history_facts<'a>(seen: &Seen<'a>) -> history_words::Facts<'a> {
    let assessment = seen.assessment;
    let days_of = |what: Work| {
        let is_it = move |event: &&Event| matches!(event, Event::Service(service) if service.what == what);
        let mut days: Vec<Date> = seen
            .events
            .iter()
            .filter(is_it)
            .map(|event| seen.date(event.at()))
            .collect();
        days.sort_unstable();
        days
    };
    let advice = assessment.renewal.and_then(|renewal| match renewal.verdict {
        Verdict::Now => Some(history_words::Advice::Now),
        Verdict::Later(range) => Some(history_words::Advice::About(seen.date(range.likely))),
        Verdict::NotInSight | Verdict::NotYetKnown => None,
    });
    history_words::Facts {
        rig: seen.rig,
        today: seen.today(),
        limits: seen.settings.limits,
        condition: assessment.condition,
        level: assessment.rejection.map(|level| (level.low, level.mid, level.high)),
        readings_used: i64::from(assessment.readings_used),
        due: seen.due_line(),
        advice,
        readings: seen.dots(),
        trend: seen.levels(),
        forecast: seen.forecast(),
        leaks: seen
            .course
            .leaks
            .iter()
            .filter(|leak| leak.until.is_none_or(|until| seen.date(until) >= seen.shown_from()))
            .map(|leak| history_words::Leak {
                since: seen.date(leak.since),
                until: leak.until.map(|until| seen.date(until)),
                rejection: leak.seen_rejection,
            })
            .collect(),
        resin_changes: days_of(Work::Resin),
        membrane_changes: seen
            .course
            .stretches
            .iter()
            .filter_map(|stretch| stretch.began_at)
            .map(|at| seen.date(at))
            .collect(),
    }
}

impl Seen<'_> {
    fn date(&self, at: i64) -> Date {
        schedule::local_date(self.zone, at).unwrap_or_default()
    }

    fn today(&self) -> Date {
        self.date(self.assessment.now)
    }

    fn shown_from(&self) -> Date {
        self.date(self.assessment.now - HISTORY_WEEKS * WEEK)
    }

    fn dots(&self) -> Vec<Dot> {
        let doubts = self.course.doubts.iter();
        let dot = |(event, doubt): (&Event, &Option<_>)| match event {
            Event::Reading(reading) => Some(Dot {
                day: self.date(reading.at),
                rejection: rejection(reading.feed, reading.permeate?).ok()?,
                set_aside: doubt.is_some(),
            }),
            Event::Service(_) => None,
        };
        let mut dots: Vec<Dot> = self.events.iter().zip(doubts).filter_map(dot).collect();
        dots.retain(|dot| dot.day >= self.shown_from());
        dots.sort_by_key(|dot| dot.day);
        dots
    }

    /// The levels, the last of each day.
    fn levels(&self) -> Vec<Vec<Level>> {
        let stretch = |stretch: &Stretch| {
            let mut levels: Vec<Level> = Vec::new();
            for level in &stretch.levels {
                let day = self.date(level.at);
                if levels.last().is_some_and(|last| last.day == day) {
                    levels.pop();
                }
                levels.push(self.level(level));
            }
            levels.retain(|level| level.day >= self.shown_from());
            levels
        };
        self.course.stretches.iter().map(stretch).collect()
    }

    fn level(&self, level: &Believed) -> Level {
        Level {
            day: self.date(level.at),
            low: level.rejection.low,
            mid: level.rejection.mid,
            high: level.rejection.high,
        }
    }

    /// The level from now on, where a trend is known, until the due line is surely
    /// crossed, or as far as the picture has room.
    fn forecast(&self) -> Vec<Level> {
        let now = self.assessment.now;
        #[allow(clippy::cast_precision_loss)]
        let years = |seconds: i64| seconds as f64 / SECONDS_PER_YEAR;
        let first = self.events.iter().map(Event::at).min().unwrap_or(now);
        let first = first.max(now - HISTORY_WEEKS * WEEK);
        let room = (MOST_TIMES_PAST * years(now - first)).clamp(0.25, FORECAST_YEARS);
        let until = match self.assessment.due {
            Crossing::NotYetKnown => return Vec::new(),
            Crossing::Within(range) => range.late.map_or(room, |late| years(late - now) * 1.05),
            Crossing::Already => 0.25,
            Crossing::NotInSight => room,
        };
        // A jump is looked into first; until then nothing is forecast.
        if self.assessment.points_per_year.is_none() || self.assessment.fault.is_some() {
            return Vec::new();
        }
        let levels = ahead(&self.course.history, now, until.min(room), FORECAST_STEPS);
        levels.iter().map(|level| self.level(level)).collect()
    }

    fn due_line(&self) -> DueLine {
        // A jump is looked into first; until then no date is told.
        match self.assessment.due {
            Crossing::Within(_) if self.assessment.fault.is_some() => DueLine::NotYetKnown,
            due => DueLine::of(due, |at| self.date(at)),
        }
    }
}
