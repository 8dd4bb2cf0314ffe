//! What is kept of one rig: the filter's state, the last readings, the last service of each kind, the last jumps.
//!
//! It moves on by one event in constant time ([`RigState::take`]). Events come in the order of time; at one instant
//! services come before readings (the reading is taken after the work), and else in the order of their numbers. What
//! comes out of that order is [`OutOfOrder`]: the rig is replayed from its rows ([`super::replay`]).

use std::collections::{BTreeMap, VecDeque};

use serde::{Deserialize, Serialize};

use crate::domain::ServiceKind;
use crate::store::readings::Reading;
use crate::store::services::Service;
use crate::water;
use crate::water::observation::Doubt;
use crate::water::prior::{Lesson, Lessons};
use crate::water::quantity::{Flow, Ppm, Pressure, Temperature};
use crate::water::rig::{History, step};
use crate::water::settings::Settings;
use crate::water::wear::{FAULT_LASTS_SECONDS, Heard};

/// Readings that are remembered, enough to know what is usual.
pub const READINGS_KEPT: usize = 40;
/// Readings set aside that are remembered.
const ASIDE_KEPT: usize = 16;
/// Jumps that are remembered.
const LEAKS_KEPT: usize = 2;

/// A remembered reading.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PastReading {
    /// Its number.
    pub id: i64,
    /// Who sent it.
    pub person_id: i64,
    /// When the water was tested, UTC seconds.
    pub taken_at: i64,
    /// Tap.
    pub feed_ppm: f64,
    /// RO outlet.
    pub permeate_ppm: Option<f64>,
    /// DI outlet.
    pub product_ppm: Option<f64>,
    /// Feed water, degrees Celsius.
    pub temperature_c: Option<f64>,
    /// Feed pressure, gauge.
    pub pressure_kpa: Option<f64>,
}

impl From<&Reading> for PastReading {
    fn from(kept: &Reading) -> Self {
        Self {
            id: kept.id,
            person_id: kept.person_id,
            taken_at: kept.taken_at,
            feed_ppm: kept.feed_ppm,
            permeate_ppm: kept.permeate_ppm,
            product_ppm: kept.product_ppm,
            temperature_c: kept.temperature_c,
            pressure_kpa: kept.pressure_kpa,
        }
    }
}

/// The last service of a kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LastDone {
    /// Its number.
    pub id: i64,
    /// When it was done, UTC seconds.
    pub at: i64,
    /// Who told it.
    pub person_id: i64,
    /// What it cost in the currency's smallest unit.
    pub price_minor: Option<i64>,
}

/// A reading that was set aside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Aside {
    /// Its number.
    pub id: i64,
    /// When it was taken, UTC seconds.
    pub at: i64,
}

/// A jump of the RO water.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Leak {
    /// Its first reading, UTC seconds.
    pub since: i64,
    /// When it was repaired, or taken for the membrane's own; `None` while it stands.
    pub until: Option<i64>,
    /// RO water before it, ppm.
    pub before_ppm: Option<f64>,
    /// RO water last read within it, ppm.
    pub after_ppm: Option<f64>,
}

/// What one membrane's life taught the outfit, and when.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Taught {
    /// UTC seconds.
    pub at: i64,
    /// What.
    pub lesson: Lesson,
}

/// Something that happened on a rig, as a state takes it.
#[derive(Clone, Copy, Debug)]
pub enum Happened<'a> {
    /// A reading that stands.
    Reading(&'a Reading),
    /// A service that stands.
    Service(&'a Service),
}

impl Happened<'_> {
    /// When, UTC seconds; at one instant services come first; then by number.
    pub fn order(&self) -> (i64, bool, i64) {
        match self {
            Self::Reading(reading) => (reading.taken_at, true, reading.id),
            Self::Service(service) => (service.done_at, false, service.id),
        }
    }

    /// As the computation takes it; none for what it does not take, such as a number that no meter shows.
    pub fn event(&self) -> Option<water::history::Event> {
        match self {
            Self::Reading(reading) => heard(reading),
            Self::Service(service) => done(service),
        }
    }
}

fn heard(kept: &Reading) -> Option<water::history::Event> {
    Some(water::history::Event::Reading(water::history::Reading {
        at: kept.taken_at,
        feed: Ppm::new(kept.feed_ppm).ok()?,
        permeate: kept.permeate_ppm.and_then(|ppm| Ppm::new(ppm).ok()),
        product: kept.product_ppm.and_then(|ppm| Ppm::new(ppm).ok()),
        temperature: kept
            .temperature_c
            .and_then(|degrees| Temperature::from_celsius(degrees).ok()),
        pressure: kept.pressure_kpa.and_then(|kpa| Pressure::from_kpa(kpa).ok()),
        litres: None,
        permeate_flow: kept.permeate_lpm.and_then(|lpm| Flow::from_litres_per_minute(lpm).ok()),
        waste_flow: kept.waste_lpm.and_then(|lpm| Flow::from_litres_per_minute(lpm).ok()),
    }))
}

fn done(kept: &Service) -> Option<water::history::Event> {
    let what = kept.what;
    (what != ServiceKind::Preserved).then_some(water::history::Event::Service(water::history::Service {
        at: kept.done_at,
        what,
    }))
}

/// An event that comes before what the state has taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("an event comes before what was already taken: replay the rig")]
pub struct OutOfOrder;

/// What is kept of one rig.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct RigState {
    /// The filter and the loads.
    pub filter: History,
    /// Newest last.
    pub readings: VecDeque<PastReading>,
    /// Readings in all.
    pub count: u32,
    /// The last service of each kind.
    pub done: BTreeMap<ServiceKind, LastDone>,
    /// Readings that were set aside and are not believed since; newest last.
    pub aside: VecDeque<Aside>,
    /// The last jumps, newest last.
    pub leaks: VecDeque<Leak>,
    /// The last water temperature that was told, degrees Celsius, and when.
    pub water: Option<(i64, f64)>,
    /// What its membranes taught, oldest first.
    pub taught: Vec<Taught>,
    /// What it was computed under.
    pub settings: u64,
    /// The lessons of other rigs that it was computed with: how many, and the sum of their instants.
    pub heard_lessons: (u32, i64),
    /// The last of what it took: when, and whether that was a reading.
    pub upto: Option<(i64, bool)>,
    /// The greatest number of a reading taken.
    pub upto_reading: i64,
    /// The greatest number of a service taken.
    pub upto_service: i64,
    /// Events taken since it was last kept on disk.
    #[serde(skip)]
    pub since_kept: u32,
}

impl RigState {
    /// A state before any event, under these settings.
    pub fn new(settings: &Settings) -> Self {
        Self {
            settings: fingerprint(settings),
            ..Self::default()
        }
    }

    /// A state before the events of a replay: what the crew denied is known from the start.
    pub fn before<'a>(events: impl Iterator<Item = &'a Happened<'a>>, settings: &Settings) -> Self {
        let mut state = Self::new(settings);
        for event in events {
            if let Happened::Service(service) = event
                && service.what == ServiceKind::SameMembrane
            {
                state.filter.denials.push(service.done_at);
            }
        }
        state.filter.denials.sort_unstable();
        state
    }

    /// Whether the next event may be taken as it comes. A denial of an unlogged change speaks of what was before it,
    /// so that it wants a replay.
    pub fn is_next(&self, event: &Happened<'_>) -> bool {
        let (at, is_reading, _) = event.order();
        let denies = matches!(event, Happened::Service(service) if service.what == ServiceKind::SameMembrane);
        !denies && self.upto.is_none_or(|upto| (at, is_reading) >= upto)
    }

    /// Takes the next event; says what a reading did. `lessons` are those learned before its instant.
    ///
    /// # Errors
    /// [`OutOfOrder`] when it comes before what was taken; nothing is changed then.
    pub fn take(
        &mut self,
        event: &Happened<'_>,
        settings: &Settings,
        lessons: &Lessons,
    ) -> Result<Option<Heard>, OutOfOrder> {
        let (at, is_reading, id) = event.order();
        if self.upto.is_some_and(|upto| (at, is_reading) < upto) {
            return Err(OutOfOrder);
        }
        let done = match event.event() {
            Some(event) => Some(step(&mut self.filter, &event, settings, lessons).map_err(|_| OutOfOrder)?),
            None => None,
        };
        self.upto = Some((at, is_reading));
        self.since_kept += 1;
        match event {
            Happened::Reading(reading) => {
                self.upto_reading = self.upto_reading.max(id);
                self.note_reading(reading, done.map(|done| done.heard));
            }
            Happened::Service(service) => {
                self.upto_service = self.upto_service.max(id);
                self.done.insert(
                    service.what,
                    LastDone {
                        id,
                        at,
                        person_id: service.person_id,
                        price_minor: service.price_minor,
                    },
                );
            }
        }
        self.follow_leak(at);
        let lesson = done.and_then(|done| done.lesson);
        self.taught.extend(lesson.map(|lesson| Taught { at, lesson }));
        Ok(done.map(|done| done.heard).filter(|_| is_reading))
    }

    fn note_reading(&mut self, reading: &Reading, heard: Option<Heard>) {
        let at = reading.taken_at;
        match heard {
            Some(Heard::SetAside(_)) => push(&mut self.aside, Aside { id: reading.id, at }, ASIDE_KEPT),
            Some(Heard::JumpSince(since)) => {
                self.pardon(since);
                let leak = Leak {
                    since,
                    until: None,
                    before_ppm: self.healthy_before(since),
                    after_ppm: None,
                };
                push(&mut self.leaks, leak, LEAKS_KEPT);
            }
            Some(Heard::RenewedSince(since)) => self.pardon(since),
            Some(Heard::Used | Heard::Repaired) | None => {}
        }
        self.count = self.count.saturating_add(1);
        push(&mut self.readings, PastReading::from(reading), READINGS_KEPT);
        if let Some(degrees) = reading.temperature_c {
            self.water = Some((at, degrees));
        }
    }

    /// Readings that looked wrong and turned out to be the first of a jump or of a new membrane.
    fn pardon(&mut self, since: i64) {
        let unlike = |at: i64| {
            let mut aside = self.filter.set_aside.iter().rev();
            aside.any(|aside| aside.at == at && aside.why == Doubt::UnlikeTrend)
        };
        self.aside.retain(|aside| aside.at < since || !unlike(aside.at));
    }

    /// The last RO water before a jump, outside of an earlier one if there is such.
    fn healthy_before(&self, since: i64) -> Option<f64> {
        let jumped = |at: i64| {
            let within = |leak: &Leak| at >= leak.since && leak.until.is_none_or(|until| at < until);
            self.leaks.iter().any(within)
        };
        let before = || self.readings.iter().rev().filter(|read| read.taken_at < since);
        let healthy = before()
            .filter(|read| !jumped(read.taken_at))
            .find_map(|read| read.permeate_ppm);
        healthy.or_else(|| before().find_map(|read| read.permeate_ppm))
    }

    fn follow_leak(&mut self, at: i64) {
        let Some(leak) = self.leaks.back_mut().filter(|leak| leak.until.is_none()) else {
            return;
        };
        if self.filter.life.fault.is_none() {
            leak.until = Some(at.min(leak.since + FAULT_LASTS_SECONDS));
        }
        let last = self.readings.back().filter(|read| read.taken_at >= leak.since);
        let until = leak.until;
        if let Some(last) = last.filter(|read| until.is_none_or(|until| read.taken_at < until)) {
            leak.after_ppm = last.permeate_ppm.or(leak.after_ppm);
        }
    }

    /// Gives rows that had no numbers yet, but places below zero, their numbers: the first of each kind is told.
    pub fn number(&mut self, first_reading: i64, first_service: i64) {
        for read in self.readings.iter_mut().rev().take_while(|read| read.id < 0) {
            read.id = first_reading - read.id - 1;
            self.upto_reading = self.upto_reading.max(read.id);
        }
        for aside in self.aside.iter_mut().rev().take_while(|aside| aside.id < 0) {
            aside.id = first_reading - aside.id - 1;
        }
        for done in self.done.values_mut().filter(|done| done.id < 0) {
            done.id = first_service - done.id - 1;
            self.upto_service = self.upto_service.max(done.id);
        }
    }

    /// Whether a reading is set aside, by its number.
    pub fn is_aside(&self, reading: i64) -> bool {
        self.aside.iter().any(|aside| aside.id == reading)
    }

    /// Whether another state of the same rig tells the same: numbers to a billionth, all else as it is.
    pub fn agrees_with(&self, other: &Self) -> bool {
        let bare = |state: &Self| {
            serde_json::to_value(Self {
                heard_lessons: (0, 0),
                ..state.clone()
            })
        };
        match (bare(self), bare(other)) {
            (Ok(a), Ok(b)) => is_same(&a, &b),
            _ => false,
        }
    }

    /// When a kind of service was last done, UTC seconds.
    pub fn last_done(&self, what: ServiceKind) -> Option<i64> {
        self.done.get(&what).map(|done| done.at)
    }

    /// When anything was last done, UTC seconds.
    pub fn last_served(&self) -> Option<i64> {
        self.done.values().map(|done| done.at).max()
    }

    /// When the membrane in it was put into preservative, if it still lies in it: nothing ran through since.
    pub fn preserved_at(&self) -> Option<i64> {
        let put_in = self.last_done(ServiceKind::Preserved)?;
        let ran = [
            self.last_done(ServiceKind::Flush),
            self.last_done(ServiceKind::Membrane),
            self.readings.back().map(|last| last.taken_at),
        ];
        ran.into_iter().flatten().all(|ran| ran <= put_in).then_some(put_in)
    }

    /// Since when a new membrane is in it that nobody has read yet.
    pub fn unread_membrane_since(&self, settings: &Settings) -> Option<i64> {
        let changed = self.last_done(ServiceKind::Membrane)?;
        let is_unread = self.readings.back().is_none_or(|last| last.taken_at < changed);
        (settings.has_membrane && is_unread).then_some(changed)
    }

    /// The jump that stands, else the last one; one that nobody repaired in time has ended at `now`.
    pub fn last_leak(&self, now: i64) -> Option<Leak> {
        let mut leak = *self.leaks.back()?;
        if leak.until.is_none() && now - leak.since > FAULT_LASTS_SECONDS {
            leak.until = Some(leak.since + FAULT_LASTS_SECONDS);
        }
        Some(leak)
    }
}

fn push<T>(into: &mut VecDeque<T>, one: T, most: usize) {
    while into.len() >= most {
        into.pop_front();
    }
    into.push_back(one);
}

fn is_same(a: &serde_json::Value, b: &serde_json::Value) -> bool {
    use serde_json::Value::{Array, Number, Object};
    match (a, b) {
        (Number(a), Number(b)) => {
            let (a, b) = (a.as_f64().unwrap_or(0.0), b.as_f64().unwrap_or(0.0));
            (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1.0)
        }
        (Array(a), Array(b)) => a.len() == b.len() && a.iter().zip(b).all(|(a, b)| is_same(a, b)),
        (Object(a), Object(b)) => {
            a.len() == b.len() && a.iter().all(|(key, a)| b.get(key).is_some_and(|b| is_same(a, b)))
        }
        _ => a == b,
    }
}

/// A number for what a state was computed under: the same settings have the same.
pub fn fingerprint(settings: &Settings) -> u64 {
    // FNV-1a, since it must be the same in every release and process.
    format!("{settings:?}")
        .bytes()
        .fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
        })
}
