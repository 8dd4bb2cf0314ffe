//! What a rig's pictures are made of: its kept readings and services, followed
//! through the computation, with local dates.
//!
//! A sheet becomes a PNG by [`crate::chart::png()`]: tens of milliseconds of one core,
//! so off the threads that answer, and one at a time.

use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::chart::Sheet;
use crate::chart::resin_life::Bed;
use crate::chart::rig_history::{Dot, Fault, Level, Record};
use crate::replies::Words;
use crate::replies::membrane::DueLine;
use crate::replies::pictures::{fleet, money, resin, rig_history as history_words};
use crate::schedule;
use crate::water::assess::Assessment;
use crate::water::assess::Basis;
use crate::water::condition::Condition;
use crate::water::course::{BedSpan, Course, Level as Believed, Stretch, ahead};
use crate::water::forecast::Crossing;
use crate::water::history::{Event, Reading, ServiceKind};
use crate::water::observation::{LOG_PASSAGE_PER_C, REFERENCE_C, SECONDS_PER_YEAR, year_angle, years_between};
use crate::water::prior::Lessons;
use crate::water::rejection::rejection;
use crate::water::renewal_curve::cost_curve;
use crate::water::renewal_verdict;
use crate::water::settings::{Limits, Settings};
use crate::water::trend::Trend;
use crate::water::verdict::{Resin, Verdict};

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
    /// The verdict on it.
    pub verdict: &'a Verdict,
    /// The outfit's zone.
    pub zone: &'a TimeZone,
}

/// The history of a rig; none on a rig without a membrane.
#[must_use]
pub fn rig_history(words: Words, seen: &Seen<'_>) -> Option<Sheet> {
    let has_membrane = seen.settings.has_membrane;
    has_membrane.then(|| history_words::sheet(words, history_facts(seen)))
}

/// The resin of a rig.
#[must_use]
pub fn resin_life(words: Words, seen: &Seen<'_>) -> Sheet {
    let bed = |bed: &BedSpan| Bed {
        since: seen.date(bed.since),
        until: bed.until.map(|until| seen.date(until)),
        load: bed.load.iter().map(|&(at, share)| (seen.date(at), share)).collect(),
    };
    let resin = seen.assessment.resin;
    let empty = resin.and_then(|bed| bed.empty);
    let facts = resin::Facts {
        rig: seen.rig,
        today: seen.today(),
        beds: seen.course.beds.iter().map(bed).collect(),
        left: left(seen.verdict),
        product_ppm: resin.and_then(|bed| bed.product_ppm),
        sized: seen.settings.resin_litres.is_some() && seen.course.history.workday_litres(seen.settings).is_some(),
        used_up: empty.and_then(|range| Some([range.early, range.likely, range.late?].map(|at| seen.date(at)))),
    };
    resin::sheet(words, facts)
}

/// What waiting costs; none without a membrane, prices, sizes or enough readings.
/// `money` writes a whole amount as the outfit does.
#[must_use]
pub fn renewal_cost(words: Words, seen: &Seen<'_>, money: &dyn Fn(f64) -> String) -> Option<Sheet> {
    let (now, renewal) = (seen.assessment.now, seen.assessment.renewal?);
    let best = match renewal.verdict {
        renewal_verdict::Verdict::Now => now,
        renewal_verdict::Verdict::Later(range) => range.likely,
        renewal_verdict::Verdict::NotInSight | renewal_verdict::Verdict::NotYetKnown => return None,
    };
    let curve = cost_curve(&seen.course.history, seen.settings, seen.lessons, now)?;
    let last = curve.points.last().map_or(now, |point| point.0);
    // What is paid for the membrane is shared by the years that it serves.
    let price = seen.settings.prices?.renewal();
    let since = seen.assessment.membrane_since.unwrap_or(now);
    let cost = |&(at, whole): &(i64, f64)| money::Cost {
        on: seen.date(at),
        whole,
        membrane: (price / years_between(since, at).max(1e-6)).min(whole),
    };
    let facts = money::Facts {
        rig: seen.rig,
        condition: seen.assessment.condition?,
        today: seen.today(),
        curve: curve.points.iter().map(cost).collect(),
        best: seen.date(best),
        // The date advised is a little early, and as good.
        flat: (seen.date(curve.flat.0.min(best)), seen.date(curve.flat.1)),
        waiting_per_month: renewal.waiting_per_month,
        rule: renewal
            .rule_of_thumb
            .filter(|rule| rule.on <= last)
            .map(|rule| money::Rule {
                line: seen.settings.limits.spent,
                on: seen.date(rule.on),
                dearer: rule.extra_cost,
            }),
        money,
    };
    Some(money::sheet(words, &facts))
}

/// The fleet: the sheet that goes with the digest, then those that list the rigs which
/// it only counts. Of a fleet of one rig its own picture says more. `limits` are the
/// outfit's own.
#[must_use]
pub fn fleet(words: Words, rigs: &[Seen<'_>], limits: Limits, today: Date) -> Vec<Sheet> {
    if let [only] = rigs {
        return vec![rig_history(words, only).unwrap_or_else(|| resin_life(words, only))];
    }
    let mut rigs: Vec<&Seen<'_>> = rigs.iter().collect();
    rigs.sort_by(|a, b| a.verdict.by_urgency(b.verdict).then_with(|| a.rig.cmp(b.rig)));
    let rows: Vec<fleet::Rig> = rigs.iter().map(|seen| fleet_row(seen)).collect();
    let since = rigs
        .first()
        .map_or(today, |seen| seen.date(seen.assessment.now - TREND_WEEKS * WEEK));
    fleet::sheets(words, rows, limits, since, today)
}

fn fleet_row(seen: &Seen<'_>) -> fleet::Rig {
    let assessment = seen.assessment;
    let mut trend: Vec<Vec<(Date, f64)>> = seen
        .levels()
        .iter()
        .map(|stretch| stretch.iter().map(|level| (level.day, level.mid)).collect())
        .collect();
    let fault = assessment.fault.as_ref();
    // While a fault stands, the rig is what it is with it.
    if let (Some(fault), Some(stretch)) = (fault, trend.last_mut()) {
        stretch.retain(|&(day, _)| day < seen.date(fault.since));
        stretch.extend([fault.since, assessment.now].map(|at| (seen.date(at), fault.seen_rejection)));
    }
    let level = assessment.rejection.map(|level| level.mid);
    let bed = |bed: &BedSpan| {
        bed.load
            .iter()
            .map(|&(at, share)| (seen.date(at), 1.0 - share))
            .collect()
    };
    fleet::Rig {
        name: seen.rig.to_owned(),
        condition: assessment.condition,
        level: fault.and(seen.verdict.seen).or(level),
        before_leak: level.filter(|_| fault.is_some()),
        product_ppm: assessment.resin.and_then(|bed| bed.product_ppm),
        resin: left(seen.verdict),
        bed_left: assessment.resin.map(|bed| 1.0 - bed.used_share),
        deed: seen.verdict.deed().copied(),
        trend,
        beds: seen.course.beds.iter().map(bed).collect(),
    }
}

fn left(verdict: &Verdict) -> resin::Left {
    match verdict.resin {
        Resin::Nothing => resin::Left::Nothing,
        Resin::Loose => resin::Left::Loose,
        Resin::Days(days) => resin::Left::Days(days),
        Resin::Unknown => resin::Left::Unknown,
    }
}

fn history_facts<'a>(seen: &Seen<'a>) -> history_words::Facts<'a> {
    let assessment = seen.assessment;
    let days_of = |what: ServiceKind| {
        let is_it = move |event: &&Event| matches!(event, Event::Service(service) if service.what == what);
        let days = seen.events.iter().filter(is_it).map(|event| seen.date(event.at()));
        let mut days: Vec<Date> = days.collect();
        days.sort_unstable();
        days
    };
    let advice = assessment.renewal.and_then(|renewal| match renewal.verdict {
        renewal_verdict::Verdict::Now => Some(history_words::Advice::Now),
        renewal_verdict::Verdict::Later(range) => Some(history_words::Advice::About(seen.date(range.likely))),
        renewal_verdict::Verdict::NotInSight | renewal_verdict::Verdict::NotYetKnown => None,
    });
    let membranes = seen.course.stretches.iter().filter_map(|stretch| stretch.began_at);
    history_words::Facts {
        rig: seen.rig,
        condition: assessment.condition.unwrap_or(Condition::Unproven),
        level: assessment.rejection.map(|level| (level.low, level.mid, level.high)),
        readings_used: i64::from(assessment.readings_used),
        corrected: assessment.basis == Basis::Corrected,
        due: seen.due_line(),
        advice,
        permeate_ppm: seen.permeate_about_fault(),
        record: Record {
            today: seen.today(),
            limits: seen.settings.limits,
            readings: seen.dots(),
            trend: seen.levels(),
            forecast: seen.forecast(),
            due: None,
            faults: seen
                .course
                .leaks
                .iter()
                .filter(|leak| leak.until.is_none_or(|until| seen.date(until) >= seen.shown_from()))
                .map(|leak| Fault {
                    since: seen.date(leak.since),
                    until: leak.until.map(|until| seen.date(until)),
                    rejection: leak.seen_rejection,
                })
                .collect(),
            resin_changes: days_of(ServiceKind::Resin),
            membrane_changes: membranes.map(|at| seen.date(at)).collect(),
        },
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

    /// The readings, and whether each was set aside.
    fn readings(&self) -> impl Iterator<Item = (&Reading, bool)> {
        let doubts = self.course.doubts.iter();
        self.events.iter().zip(doubts).filter_map(|(event, doubt)| match event {
            Event::Reading(reading) => Some((reading, doubt.is_some())),
            Event::Service(_) => None,
        })
    }

    fn dots(&self) -> Vec<Dot> {
        let belief = self.course.history.life.belief_at(self.assessment.now);
        let dot = |(reading, set_aside): (&Reading, bool)| {
            let read = rejection(reading.feed, reading.permeate?).ok()?;
            Some(Dot {
                day: self.date(reading.at),
                rejection: 1.0 - (1.0 - read) * (-warmth(reading, belief.as_ref())).exp(),
                set_aside,
            })
        };
        let mut dots: Vec<Dot> = self.readings().filter_map(dot).collect();
        dots.retain(|dot| dot.day >= self.shown_from());
        dots.sort_by_key(|dot| dot.day);
        dots
    }

    /// RO at the last reading before the fault that stands, and now, ppm.
    fn permeate_about_fault(&self) -> Option<(f64, f64)> {
        let since = self.assessment.fault.as_ref()?.since;
        let mut ppm: Vec<(i64, f64)> = self
            .readings()
            .filter(|(_, set_aside)| !set_aside)
            .filter_map(|(reading, _)| Some((reading.at, reading.permeate?.ppm())))
            .collect();
        ppm.sort_by_key(|reading| reading.0);
        let before = ppm.iter().rev().find(|reading| reading.0 < since)?;
        Some((before.1, ppm.last()?.1))
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

/// How much the warmth of the water adds to ln(salt passage) of a reading: by the
/// temperature told with it, else by the rig's yearly wave. The trend is stated without
/// it, and so are the dots beside it.
fn warmth(reading: &Reading, belief: Option<&Trend>) -> f64 {
    match reading.temperature {
        Some(told) => LOG_PASSAGE_PER_C * (told.celsius() - REFERENCE_C),
        None => belief.map_or(0.0, |trend| trend.water_at(year_angle(reading.at))),
    }
}
