//! A rig's kept history: small, serialisable, one step per event.
//!
//! [`super::replay::replay`] builds it from all events in any arrival order; [`step`] takes one
//! more event at or after the last. A late, edited or withdrawn reading needs a
//! replay, and so does a change of the settings that the loads depend on.

use serde::{Deserialize, Serialize};

use super::condition::{Band, band};
use super::forecast::rejection_interval;
use super::history::{Event, Reading, Service, Work};
use super::observation::{self, Doubt, Recent, observe};
use super::prior::{Expected, Lesson, Lessons};
use super::resin::{Bed, learn_litres};
use super::settings::Settings;
use super::trend::Observation;
use super::wear::{Beginning, Heard, Life};

/// Own lives that are remembered.
const LIVES_KEPT: usize = 4;
/// Readings set aside that are remembered.
const ASIDE_KEPT: usize = 8;
/// A denial of an unlogged change covers falls this long before it.
const DENIAL_COVERS_SECONDS: i64 = 120 * 86_400;
/// A cycle of resin with fewer readings than this speaks for the membrane.
const FEW_READINGS: u32 = 3;
/// Spread of ln(salt passage) as a resin cycle implies it.
const BALANCE_SPREAD: f64 = 0.40;

/// A reading that was set aside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SetAside {
    /// When it was taken, UTC seconds.
    pub at: i64,
    /// Why.
    pub why: Doubt,
}

/// The kept history of one rig.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct History {
    /// The last event heard, UTC seconds; `None` before any.
    pub until: Option<i64>,
    /// The membrane in it.
    pub life: Life,
    /// What its earlier membranes taught.
    pub lessons: Vec<Lesson>,
    /// Recent feeds, ppm.
    pub feeds: Recent,
    /// Recent pressures, kPa.
    pub pressures: Recent,
    /// The resin.
    pub bed: Bed,
    /// Litres on a working day, as the readings tell.
    pub litres_per_workday: Option<f64>,
    /// Last change of prefilters, UTC seconds.
    pub prefilter_at: Option<i64>,
    /// Litres since then.
    pub prefilter_litres: f64,
    /// Last flush, UTC seconds.
    pub flushed_at: Option<i64>,
    /// When the rig was last opened (membrane, O-ring, prefilter), UTC seconds.
    pub opened_at: Option<i64>,
    /// The last reading, used or not.
    pub last_reading: Option<Reading>,
    /// The last reading that was used, UTC seconds.
    pub last_used_at: Option<i64>,
    /// The band of the rejection, kept against flicker.
    pub band: Option<Band>,
    /// Readings set aside lately, newest last.
    pub set_aside: Vec<SetAside>,
    /// When the crew denied an unlogged change, UTC seconds.
    pub denials: Vec<i64>,
}

impl Default for History {
    fn default() -> Self {
        Self {
            until: None,
            life: Life::begin(Beginning::Unknown),
            lessons: Vec::new(),
            feeds: Recent::default(),
            pressures: Recent::default(),
            bed: Bed::default(),
            litres_per_workday: None,
            prefilter_at: None,
            prefilter_litres: 0.0,
            flushed_at: None,
            opened_at: None,
            last_reading: None,
            last_used_at: None,
            band: None,
            set_aside: Vec::new(),
            denials: Vec::new(),
        }
    }
}

/// What a step did.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// What the reading did; `Used` for a service.
    pub heard: Heard,
    /// What a membrane's life taught, to be told to the outfit's [`Lessons`].
    pub lesson: Option<Lesson>,
}

/// An event older than the history: replay the rig instead.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OutOfOrder {
    /// The event's instant, UTC seconds.
    pub at: i64,
    /// The history reaches to here, UTC seconds.
    pub until: i64,
}

impl std::fmt::Display for OutOfOrder {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "an event of {} is older than the history, which reaches to {}: replay it",
            self.at, self.until
        )
    }
}

impl std::error::Error for OutOfOrder {}

/// Takes one event. O(1).
///
/// # Errors
/// [`OutOfOrder`] when the event is older than the last; nothing is changed then.
pub fn step(history: &mut History, event: &Event, settings: &Settings, outfit: &Lessons) -> Result<Step, OutOfOrder> {
    let at = event.at();
    if let Some(until) = history.until
        && at < until
    {
        return Err(OutOfOrder { at, until });
    }
    history.carry(at, settings);
    Ok(match event {
        Event::Reading(reading) => history.hear(reading, settings, outfit),
        Event::Service(service) => history.serve(*service, settings, outfit),
    })
}

impl History {
    /// Litres on a working day: as the readings tell, else as told.
    #[must_use]
    pub fn workday_litres(&self, settings: &Settings) -> Option<f64> {
        self.litres_per_workday.or(settings.litres_per_workday)
    }

    /// Litres on an average calendar day.
    #[must_use]
    pub fn daily_litres(&self, settings: &Settings) -> Option<f64> {
        self.workday_litres(settings)
            .map(|litres| litres * settings.workdays_per_week / 7.0)
    }

    /// What is expected of a new membrane here.
    #[must_use]
    pub fn expected(&self, settings: &Settings, outfit: &Lessons) -> Expected {
        let feed_ppm = self.feeds.median().unwrap_or(150.0);
        let (start, growth) = outfit.expect(feed_ppm, &self.lessons);
        Expected {
            start,
            growth,
            feed_ppm,
            southern: settings.southern,
        }
    }

    /// Carries loads and the membrane to `at`.
    pub(super) fn carry(&mut self, at: i64, settings: &Settings) {
        if let Some(until) = self.until
            && at > until
        {
            #[allow(clippy::cast_precision_loss)]
            let days = (at - until) as f64 / 86_400.0;
            let share = settings.use_share(until + (at - until) / 2);
            if let Some(daily) = self.daily_litres(settings) {
                let litres = daily * days * share;
                match self.feeds.median() {
                    Some(feed) => {
                        let passage = self.leaving_passage(settings);
                        self.bed.settle(feed, passage);
                        self.bed.load(litres, feed, passage);
                    }
                    None => self.bed.await_water(litres),
                }
                self.prefilter_litres += litres;
            }
            self.life.carry(at, share);
        }
        self.until = Some(at);
    }

    /// Share of the feed's solids that reaches the resin.
    #[must_use]
    pub fn leaving_passage(&self, settings: &Settings) -> f64 {
        if !settings.has_membrane {
            return 1.0;
        }
        self.life
            .seen_log_passage()
            .unwrap_or(super::prior::NEW_LOG_PASSAGE)
            .exp()
            .min(1.0)
    }

    fn hear(&mut self, reading: &Reading, settings: &Settings, outfit: &Lessons) -> Step {
        self.last_reading = Some(*reading);
        if let Some(product) = reading.product {
            self.bed.taste(reading.at, product.ppm());
        }
        if let Some(litres) = reading.litres.filter(|l| l.litres() > 0.0) {
            self.litres_per_workday =
                learn_litres(self.litres_per_workday, settings.litres_per_workday, litres.litres());
        }
        if let Err(doubt) = observation::gate(reading, &self.feeds) {
            return self.set_aside(reading.at, doubt);
        }
        self.feeds.push(reading.feed.ppm());
        let Some(permeate) = reading.permeate else {
            self.last_used_at = Some(reading.at);
            return Step {
                heard: Heard::Used,
                lesson: None,
            };
        };
        if let Some(pressure) = reading.pressure.filter(|p| p.kpa() > 0.0) {
            self.pressures.push(pressure.kpa());
        }
        let usual = self.pressures.median().filter(|_| self.pressures.len() >= 3);
        let seen = observe(reading, permeate.ppm(), usual);
        let expected = self.expected(settings, outfit);
        let denied = self
            .denials
            .iter()
            .any(|&d| (d - DENIAL_COVERS_SECONDS..=d).contains(&reading.at));
        // An unlogged change ends the life, so what it taught is noted before.
        let before = self.life.fall.is_some().then(|| (self.life.lesson(), self.life.taught));
        let share = settings.use_share(reading.at);
        let heard = self.life.hear(reading.at, &seen, &expected, share, !denied);
        self.bed.readings += 1;
        let mut lesson = None;
        match heard {
            Heard::SetAside(doubt) => return self.set_aside(reading.at, doubt),
            Heard::RenewedSince(_) => {
                self.band = None;
                if let Some((taught, told)) = before {
                    lesson = self.keep(taught).filter(|_| !told);
                }
            }
            _ => lesson = self.teach_of_old_age(),
        }
        self.last_used_at = Some(reading.at);
        self.update_band(reading.at, settings);
        Step { heard, lesson }
    }

    fn set_aside(&mut self, at: i64, why: Doubt) -> Step {
        if self.set_aside.len() >= ASIDE_KEPT {
            self.set_aside.remove(0);
        }
        self.set_aside.push(SetAside { at, why });
        Step {
            heard: Heard::SetAside(why),
            lesson: None,
        }
    }

    fn update_band(&mut self, now: i64, settings: &Settings) {
        if let Some(trend) = self.life.belief_at(now) {
            self.band = Some(band(rejection_interval(&trend).mid, &settings.limits, self.band));
        }
    }

    fn serve(&mut self, service: Service, settings: &Settings, outfit: &Lessons) -> Step {
        let at = service.at;
        let mut lesson = None;
        match service.what {
            Work::Membrane => {
                self.opened_at = Some(at);
                let late = matches!(self.life.beginning, Beginning::Presumed(_));
                let (taught, told) = (self.life.lesson(), self.life.taught);
                let expected = self.expected(settings, outfit);
                let next = self.life.renew(at, &expected);
                if !(late && next.readings > 0) {
                    lesson = self.keep(taught).filter(|_| !told);
                    let expected = self.expected(settings, outfit);
                    self.life = self.life.renew(at, &expected);
                    self.band = None;
                } else {
                    self.life = next;
                }
            }
            Work::Resin => {
                if let Some(litres) = settings.resin_litres {
                    self.weigh_cycle(litres);
                    self.bed.change(at, litres);
                }
            }
            Work::Repack => self.bed.repack(),
            Work::Prefilter => {
                self.opened_at = Some(at);
                self.prefilter_at = Some(at);
                self.prefilter_litres = 0.0;
            }
            Work::Flush => self.flushed_at = Some(at),
            Work::ORing => {
                self.opened_at = Some(at);
                self.life.repair();
            }
            Work::SameMembrane => {
                if !self.denials.contains(&at) {
                    self.denials.push(at);
                }
            }
        }
        Step {
            heard: Heard::Used,
            lesson,
        }
    }

    /// Resin changes alone tell something of the membrane: when a cycle had few
    /// readings, its load balance is believed as one coarse observation.
    fn weigh_cycle(&mut self, resin_litres: f64) {
        if self.bed.readings >= FEW_READINGS || self.life.fault.is_some() || self.bed.cycles < 1.0 {
            return;
        }
        let Some(passage) = self.bed.implied_passage(resin_litres) else {
            return;
        };
        let Some(trend) = &mut self.life.trend else { return };
        #[allow(clippy::cast_precision_loss)]
        let half_cycle = match (self.bed.changed_at, self.until) {
            (Some(from), Some(to)) => (to - from) as f64 / 2.0 / observation::SECONDS_PER_YEAR,
            _ => return,
        };
        // The balance speaks of the cycle's middle, half a cycle ago.
        let weights = [1.0, -half_cycle, 0.0, 0.0];
        trend.update(&Observation {
            value: passage.ln(),
            weights,
            variance: BALANCE_SPREAD * BALANCE_SPREAD,
        });
    }

    /// A life a year old teaches the outfit without waiting for its end.
    fn teach_of_old_age(&mut self) -> Option<Lesson> {
        let age = observation::years_between(self.life.first_reading_at, self.life.carried_to);
        if self.life.taught || age < 1.0 {
            return None;
        }
        self.life.taught = true;
        self.life.lesson()
    }

    fn keep(&mut self, lesson: Option<Lesson>) -> Option<Lesson> {
        if let Some(lesson) = lesson {
            if self.lessons.len() >= LIVES_KEPT {
                self.lessons.remove(0);
            }
            self.lessons.push(lesson);
        }
        lesson
    }
}
