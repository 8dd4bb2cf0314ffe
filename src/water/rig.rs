//! A rig's kept history: small, serialisable, one step per event.
//!
//! [`super::replay::replay`] builds it from all events in any arrival order; [`step`] takes one
//! more event at or after the last. A late, edited or withdrawn reading needs a
//! replay, and so does a change of the settings that the loads depend on.

use serde::{Deserialize, Serialize};

use super::condition::{Band, band};
use super::forecast::rejection_interval;
use super::history::{Event, Reading, Service, ServiceKind};
use super::observation::{self, Doubt, Recent, observe};
use super::prior::{Expected, Lesson, Lessons};
use super::resin::{Bed, Day, Water, capacity_g, grams_per_litre, learn_litres};
use super::settings::Settings;
use super::trend::Observation;
use super::usage::Usage;
use super::wear::{Beginning, Heard, Life};

/// Version of the form in which [`History`] is kept: raised with every change of it,
/// since a history of another form is replayed from its events.
pub const SHAPE: i64 = 1;

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
/// How often the feed is copied from the last time instead of read (a judgement, no source).
const COPIED: f64 = 0.08;
/// Weight of one more feed or pressure in their scatter, once some are known.
const SCATTER_WEIGHT: f64 = 0.06;

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
    /// Scatter of the feeds, a variance of ln.
    pub feed_scatter: f64,
    /// Recent pressures, kPa.
    pub pressures: Recent,
    /// Scatter of the pressures, a variance of ln.
    pub pressure_scatter: f64,
    /// The resin.
    pub bed: Bed,
    /// How much the rig works against what was told; `None` before a bed was spent.
    pub usage: Option<Usage>,
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
    /// The last reading that told a permeate flow.
    pub flow_reading: Option<Reading>,
    /// From when on the meter of the last reading is read with, if told, UTC seconds.
    pub meter_at: Option<i64>,
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
            feed_scatter: 0.0,
            pressures: Recent::default(),
            pressure_scatter: 0.0,
            bed: Bed::default(),
            usage: None,
            litres_per_workday: None,
            prefilter_at: None,
            prefilter_litres: 0.0,
            flushed_at: None,
            opened_at: None,
            last_reading: None,
            flow_reading: None,
            meter_at: None,
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
            age_years: settings
                .first_membrane_years
                .filter(|years| (0.0..=20.0).contains(years)),
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
            let middle = until + (at - until) / 2;
            let share = settings.share_between(until, at);
            if let Some(daily) = self.daily_litres(settings) {
                let litres = daily * days * share;
                match self.water(middle, settings) {
                    Some(water) => {
                        self.bed.settle(&water);
                        self.bed.load(litres, &water);
                    }
                    None => self.bed.await_water(litres),
                }
                self.prefilter_litres += litres;
            }
            self.life.carry(at, share);
        }
        self.until = Some(at);
    }

    /// The rig's use, as learned or as first expected.
    #[must_use]
    pub fn usage(&self, settings: &Settings) -> Usage {
        self.usage.unwrap_or_else(|| Usage::first(settings))
    }

    /// The water that comes to the bed at an instant, as far as the readings tell;
    /// `None` before the first one.
    pub(super) fn water(&self, at: i64, settings: &Settings) -> Option<Water> {
        self.feeds.median().map(|feed_ppm| Water {
            at,
            used: self.usage(settings).at(at),
            feed_ppm,
            passage: self.leaving_passage(at, settings),
        })
    }

    /// Share of the feed's solids that reaches the resin at an instant: at the water of
    /// its season, as told or learned, and with a leak while one stands.
    #[must_use]
    pub fn leaving_passage(&self, at: i64, settings: &Settings) -> f64 {
        if !settings.has_membrane {
            return 1.0;
        }
        self.life
            .leaving_passage(at)
            .unwrap_or_else(|| super::prior::NEW_LOG_PASSAGE.exp())
    }

    /// What a calendar day at or after the last event brings to the bed, with `growth` of
    /// ln(salt passage) a year since then; `None` where use or water are not known.
    pub(super) fn day(&self, at: i64, growth: f64, settings: &Settings) -> Option<Day> {
        let water = self.water(at, settings)?;
        let share = settings.use_share(at);
        let worn = growth * observation::years_between(self.until.unwrap_or(at), at);
        let passage = (water.passage * worn.exp()).min(1.0);
        Some(Day {
            grams: self.daily_litres(settings)? * share * water.used * grams_per_litre(water.feed_ppm, passage),
            work: settings.workdays_per_week / 7.0 * share.min(1.0),
        })
    }

    /// Working days that a full bed lasts at present: what it takes up over what a
    /// working day brings. `None` where size, litres or feed are not known.
    #[must_use]
    pub fn bed_workdays(&self, settings: &Settings) -> Option<f64> {
        let capacity = capacity_g(settings.resin_litres?);
        let water = self.water(self.until?, settings)?;
        let grams = self.workday_litres(settings)? * water.used * grams_per_litre(water.feed_ppm, water.passage);
        (grams > 0.0).then(|| capacity / grams)
    }

    fn hear(&mut self, reading: &Reading, settings: &Settings, outfit: &Lessons) -> Step {
        let last_feed = self.last_reading.map(|last| last.feed.ppm());
        self.last_reading = Some(*reading);
        if reading.permeate_flow.is_some() {
            self.flow_reading = Some(*reading);
        }
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
        learn_scatter(&mut self.feed_scatter, &self.feeds, reading.feed.ppm());
        self.feeds.push(reading.feed.ppm());
        let Some(permeate) = reading.permeate else {
            self.last_used_at = Some(reading.at);
            return Step {
                heard: Heard::Used,
                lesson: None,
            };
        };
        if let Some(pressure) = reading.pressure.filter(|p| p.kpa() > 0.0) {
            learn_scatter(&mut self.pressure_scatter, &self.pressures, pressure.kpa());
            self.pressures.push(pressure.kpa());
        }
        let usual = self.pressures.median().filter(|_| self.pressures.len() >= 3);
        let mut seen = observe(reading, permeate.ppm(), usual);
        if reading.pressure.is_none() {
            // Where others tell the pressure, its scatter is this reading's to bear.
            seen.passage.variance += observation::LOG_PASSAGE_PER_LOG_PRESSURE.powi(2) * self.pressure_scatter;
        }
        if last_feed == Some(reading.feed.ppm()) {
            self.doubt_copied_feed(reading.feed.ppm(), &mut seen.passage);
        }
        if let Some(meter) = settings.new_meter_at.filter(|&meter| meter <= reading.at)
            && self.meter_at.replace(meter) != Some(meter)
        {
            self.life.change_meter();
        }
        let expected = self.expected(settings, outfit);
        let is_denied = |denied: i64| (denied - DENIAL_COVERS_SECONDS..=denied).contains(&reading.at);
        let denials = match self.denials.iter().any(|&denied| is_denied(denied)) {
            true => None,
            false => Some(
                self.denials
                    .iter()
                    .fold(0, |sum, &denied| sum + u32::from(denied < reading.at)),
            ),
        };
        // An unlogged change ends the life, so what it taught is noted before.
        let before = self.life.fall.is_some().then(|| (self.life.lesson(), self.life.taught));
        let share = settings.use_share(reading.at);
        let heard = self.life.hear(reading.at, &seen, &expected, share, denials);
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

    /// The very number of the last time, where the taps differ, was probably copied: the
    /// true feed is then the usual one, with its scatter.
    fn doubt_copied_feed(&self, feed_ppm: f64, seen: &mut Observation) {
        let Some(median) = self.feeds.median() else { return };
        // How likely the same whole number comes twice by chance: about one over the
        // numbers within the scatter, sqrt(2 pi) standard deviations.
        let scatter = self.feed_scatter.sqrt().max(0.002);
        let by_chance = (1.0 / (2.5 * median * scatter)).min(1.0);
        let copied = COPIED / (COPIED + (1.0 - COPIED) * by_chance);
        let off = (feed_ppm / median).ln();
        seen.value += copied * off;
        seen.variance += copied * self.feed_scatter + copied * (1.0 - copied) * off * off;
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
            ServiceKind::Membrane => {
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
            ServiceKind::Resin => {
                if let Some(litres) = settings.resin_litres {
                    self.weigh_cycle(litres);
                    if let Some(spent) = self.bed.change(at, litres) {
                        let mut usage = self.usage(settings);
                        usage.learn(spent.from, at, capacity_g(litres), &spent.told);
                        self.usage = Some(usage);
                    }
                }
            }
            ServiceKind::Repack => self.bed.repack(),
            ServiceKind::Prefilter => {
                self.opened_at = Some(at);
                self.prefilter_at = Some(at);
                self.prefilter_litres = 0.0;
            }
            ServiceKind::Flush => self.flushed_at = Some(at),
            ServiceKind::ORing => {
                self.opened_at = Some(at);
                self.life.repair();
            }
            ServiceKind::Meter => self.life.remeter(),
            ServiceKind::Preserved => {}
            ServiceKind::SameMembrane => {
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
        if self.bed.readings >= FEW_READINGS || self.life.fault.is_some() || self.usage.is_none() {
            return;
        }
        let Some(passage) = self.bed.implied_passage(resin_litres) else {
            return;
        };
        let Some(trend) = &mut self.life.trend else { return };
        let (Some(from), Some(to)) = (self.bed.changed_at, self.until) else {
            return;
        };
        // The balance speaks of the cycle's middle, half a cycle ago, and of the rig's own water.
        let middle = i64::midpoint(from, to);
        let (cos, sin) = observation::year_angle(middle);
        let weights = [1.0, -observation::years_between(middle, to), cos, sin, 1.0];
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

/// Learns the scatter, a variance of ln, of values about their median so far.
fn learn_scatter(scatter: &mut f64, known: &Recent, value: f64) {
    if let Some(median) = known.median() {
        let off = (value / median).ln().powi(2).min(0.5);
        #[allow(clippy::cast_precision_loss)]
        let weight = SCATTER_WEIGHT.max(1.0 / (known.len() as f64));
        *scatter = observation::ewma(*scatter, off, weight);
    }
}
