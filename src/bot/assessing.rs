//! What the computation says of a rig, from all that is kept of it.

use crate::message::What;
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};
use crate::water::assess::{Assessment, assess};
use crate::water::condition::{Band, Condition, band};
use crate::water::history::{self, Event, Service, Work};
use crate::water::prior::Lessons;
use crate::water::quantity::{Flow, Ppm, Pressure, Temperature};
use crate::water::rejection::rejection;
use crate::water::replay::replay;
use crate::water::settings::{Limits, Settings};

use super::recording::service_of;
use super::turn::Turn;

/// More readings than a rig gathers in twenty years.
const ALL: i64 = 20_000;

impl Turn<'_> {
    /// Assesses a rig now. Its history is replayed each time, so that an edit,
    /// a withdrawal or a late reading needs nothing else.
    pub(super) async fn assess(&mut self, rig: &Rig) -> Result<Assessment, StoreError> {
        let readings = store::readings::latest(self.db, rig.id, self.now + 1, ALL).await?;
        let services = store::services::of_rig(self.db, rig.id).await?;
        let mut events: Vec<Event> = readings.iter().filter_map(heard).collect();
        events.extend(services.iter().filter_map(|service| {
            let what = work(service_of(&service.what)?);
            Some(Event::Service(Service {
                at: service.done_at,
                what,
            }))
        }));
        let settings = Settings {
            has_membrane: !rig.di_only,
            manual_flush: !rig.flushes_itself && !rig.di_only,
            ..Settings::default()
        };
        let (history, _) = replay(&events, &settings, &Lessons::none());
        Ok(assess(&history, &settings, &Lessons::none(), self.now))
    }
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
pub(super) fn raw_condition(rejection: f64) -> Condition {
    match band(rejection, &Limits::default(), None) {
        Band::High => Condition::Sound,
        Band::Middle => Condition::Wearing,
        Band::Low => Condition::Due,
        Band::Bottom => Condition::Spent,
    }
}

/// The state to tell: the assessed one; while nothing is proven, the raw one.
pub(super) fn condition_to_tell(assessment: &Assessment, raw: f64) -> Condition {
    match assessment.condition {
        None | Some(Condition::Unproven) => raw_condition(raw),
        Some(condition) => condition,
    }
}
