//! What the computation says of a rig, from all that is kept of it.

use crate::message::What;
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};
use crate::water::assess::{Assessment, assess};
use crate::water::condition::{Band, Condition, band};
use crate::water::history::{self, Event, Service, Work};
use crate::water::prior::Lessons;
use crate::water::quantity::{Flow, Ppm, Pressure, Temperature};
use crate::water::rejection::rejection;
use crate::water::replay::{arrival_order, replay};
use crate::water::rig::{History, step};
use crate::water::settings::{Limits, Settings};

use super::recording::{service_key, service_of};
use super::renewing::SAME_MEMBRANE;
use super::rules::Rules;
use super::turn::Turn;

/// More readings than a rig gathers in twenty years.
pub(super) const ALL: i64 = 20_000;

/// A rig as the computation sees it.
#[derive(Clone, Debug)]
pub(super) struct Assessed {
    /// What it says.
    pub assessment: Assessment,
    /// What it rests on; for a second look at other prices.
    pub history: History,
    /// What it was told of the rig.
    pub settings: Settings,
}

/// Assesses a rig at `now`, with what the outfit's other membranes taught. Its
/// history is replayed each time, so that an edit, a withdrawal or a late
/// reading needs nothing else.
pub(super) async fn assess_rig(
    db: &mut Db,
    rules: &Rules,
    lessons: &Lessons,
    rig: &Rig,
    now: i64,
) -> Result<Assessed, StoreError> {
    let events = events(db, rig.id, now).await?;
    let settings = rules.water_settings(rig);
    let (history, _) = replay(&events, &settings, lessons);
    Ok(Assessed {
        assessment: assess(&history, &settings, lessons, now),
        history,
        settings,
    })
}

/// Assesses each rig of a fleet at `now`, in the fleet's order.
pub(super) async fn assess_fleet(
    db: &mut Db,
    rules: &Rules,
    fleet: &[Rig],
    now: i64,
) -> Result<Vec<Assessed>, StoreError> {
    let lessons = lessons(db, rules, fleet, now).await?;
    let mut assessed = Vec::with_capacity(fleet.len());
    for rig in fleet {
        assessed.push(assess_rig(db, rules, &lessons, rig, now).await?);
    }
    Ok(assessed)
}

/// What the membranes of a fleet taught: the lives that a logged change ended,
/// heard in the order of time. A rig without such a change is not looked at.
pub(super) async fn lessons(db: &mut Db, rules: &Rules, fleet: &[Rig], now: i64) -> Result<Lessons, StoreError> {
    let mut heard: Vec<(usize, Event)> = Vec::new();
    for (place, rig) in fleet.iter().enumerate() {
        if let Some(renewed_at) = store::services::last_done(db, rig.id, service_key(What::Membrane)).await? {
            let until = renewed_at.min(now);
            let before = events(db, rig.id, until).await?;
            heard.extend(
                before
                    .into_iter()
                    .filter(|event| event.at() <= until)
                    .map(|event| (place, event)),
            );
        }
    }
    heard.sort_by(|a, b| arrival_order(&a.1, &b.1));
    let settings: Vec<Settings> = fleet.iter().map(|rig| rules.water_settings(rig)).collect();
    let mut histories = vec![History::default(); fleet.len()];
    let mut lessons = Lessons::none();
    for (place, event) in heard {
        let step = step(&mut histories[place], &event, &settings[place], &lessons);
        if let Some(lesson) = step.ok().and_then(|step| step.lesson) {
            lessons.learn(&lesson);
        }
    }
    Ok(lessons)
}

impl Turn<'_> {
    /// Assesses a rig now.
    pub(super) async fn assess(&mut self, rig: &Rig) -> Result<Assessment, StoreError> {
        Ok(self.assessed(rig).await?.assessment)
    }

    /// Assesses a rig now, with what that rests on.
    pub(super) async fn assessed(&mut self, rig: &Rig) -> Result<Assessed, StoreError> {
        let lessons = match self.lessons {
            Some(lessons) => lessons,
            None => lessons(self.db, &self.rules, &self.fleet, self.now).await?,
        };
        self.lessons = Some(lessons);
        assess_rig(self.db, &self.rules, &lessons, rig, self.now).await
    }
}

/// All that happened on a rig until `now`, as the computation takes it.
pub(super) async fn events(db: &mut Db, rig_id: i64, now: i64) -> Result<Vec<Event>, StoreError> {
    let readings = store::readings::latest(db, rig_id, now + 1, ALL).await?;
    let services = store::services::of_rig(db, rig_id).await?;
    Ok(events_of(&readings, &services))
}

/// A record as the computation takes it.
pub(super) fn events_of(readings: &[Reading], services: &[store::services::Service]) -> Vec<Event> {
    let mut events: Vec<Event> = readings.iter().filter_map(heard).collect();
    events.extend(services.iter().filter_map(|service| {
        let what = match service.what.as_str() {
            SAME_MEMBRANE => Work::SameMembrane,
            key => work(service_of(key)?),
        };
        Some(Event::Service(Service {
            at: service.done_at,
            what,
        }))
    }));
    events
}

/// A kept reading as the computation takes it; none if it holds a number that
/// no meter shows.
fn heard(kept: &Reading) -> Option<Event> {
    Some(Event::Reading(history::Reading {
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

fn work(what: What) -> Work {
    match what {
        What::Resin => Work::Resin,
        What::Repack => Work::Repack,
        What::Membrane => Work::Membrane,
        What::Prefilter => Work::Prefilter,
        What::Flush => Work::Flush,
        What::ORing => Work::ORing,
    }
}

/// Rejection of a kept reading as it is, a fraction, on a rig with a membrane.
pub(super) fn raw_rejection(kept: &Reading) -> Option<f64> {
    rejection(Ppm::new(kept.feed_ppm).ok()?, Ppm::new(kept.permeate_ppm?).ok()?).ok()
}

/// The state by the raw rejection alone.
pub(super) fn raw_condition(rejection: f64, limits: &Limits) -> Condition {
    match band(rejection, limits, None) {
        Band::High => Condition::Sound,
        Band::Middle => Condition::Wearing,
        Band::Low => Condition::Due,
        Band::Bottom => Condition::Spent,
    }
}

/// The state to tell: the assessed one; while nothing is proven, the raw one.
pub(super) fn condition_to_tell(assessment: &Assessment, raw: f64, limits: &Limits) -> Condition {
    match assessment.condition {
        None | Some(Condition::Unproven) => raw_condition(raw, limits),
        Some(condition) => condition,
    }
}
