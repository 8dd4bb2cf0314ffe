//! All that is kept of a rig, and the same as the computation takes it.

use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::message::What;
use crate::schedule;
use crate::store::readings::Reading;
use crate::store::services::Service;
use crate::store::{self, Db, StoreError};
use crate::water::history::{self, Event, Work};
use crate::water::quantity::{Flow, Ppm, Pressure, Temperature};

use super::recording::{service_key, service_of};
use super::renewing::SAME_MEMBRANE;

/// More readings than a rig gathers in twenty years.
const ALL: i64 = 20_000;

/// What stands of a rig at an instant.
#[derive(Debug)]
pub(super) struct Record {
    /// Oldest first.
    pub readings: Vec<Reading>,
    /// Oldest first.
    pub services: Vec<Service>,
    /// Both, as the computation takes them.
    pub events: Vec<Event>,
}

impl Record {
    /// What stood of a rig at `until`.
    pub async fn of_rig(db: &mut Db, rig_id: i64, until: i64) -> Result<Self, StoreError> {
        let mut readings = store::readings::latest(db, rig_id, until + 1, ALL).await?;
        readings.reverse();
        let mut services = store::services::of_rig(db, rig_id).await?;
        services.retain(|service| service.done_at <= until);
        let events = readings
            .iter()
            .filter_map(heard)
            .chain(services.iter().filter_map(done))
            .collect();
        Ok(Self {
            readings,
            services,
            events,
        })
    }

    /// What happened up to the last logged change of the membrane, which is what the
    /// rig's earlier membranes teach by.
    pub fn of_past_membranes(&self) -> Vec<Event> {
        let change = |event: &Event| matches!(event, Event::Service(service) if service.what == Work::Membrane);
        let changes = self.events.iter().filter(|event| change(event));
        let Some(last) = changes.map(Event::at).max() else {
            return Vec::new();
        };
        let before = self.events.iter().filter(|event| event.at() <= last);
        before.copied().collect()
    }

    /// Local date of the last reading.
    pub fn last_reading_on(&self, zone: &TimeZone) -> Option<Date> {
        self.readings
            .last()
            .and_then(|last| schedule::local_date(zone, last.taken_at))
    }

    /// Local date on which something was last done, of a kind by its word in the
    /// store, or of any.
    pub fn last_done_on(&self, zone: &TimeZone, what: Option<&str>) -> Option<Date> {
        let of_kind = |service: &&Service| what.is_none_or(|what| service.what == what);
        let last = self.services.iter().rev().find(of_kind)?;
        schedule::local_date(zone, last.done_at)
    }

    /// Whether something was ever done.
    pub fn has_done(&self, what: What) -> bool {
        self.services.iter().any(|service| service.what == service_key(what))
    }

    /// The last water temperature that was told, degrees Celsius, and its date.
    pub fn water(&self, zone: &TimeZone) -> Option<(f64, Date)> {
        self.readings.iter().rev().find_map(|reading| {
            let date = schedule::local_date(zone, reading.taken_at)?;
            Some((reading.temperature_c?, date))
        })
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

/// A kept service as the computation takes it; none if its word is of a later version.
fn done(kept: &Service) -> Option<Event> {
    let what = match kept.what.as_str() {
        SAME_MEMBRANE => Work::SameMembrane,
        key => match service_of(key)? {
            What::Resin => Work::Resin,
            What::Repack => Work::Repack,
            What::Membrane => Work::Membrane,
            What::Prefilter => Work::Prefilter,
            What::Flush => Work::Flush,
            What::ORing => Work::ORing,
        },
    };
    Some(Event::Service(history::Service { at: kept.done_at, what }))
}
