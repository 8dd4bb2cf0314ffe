//! What happened on one rig: readings and services, as the filter takes them.

use serde::{Deserialize, Serialize};

pub use crate::domain::ServiceKind;

use super::quantity::{Flow, Ppm, Pressure, Temperature, Volume};

/// One reading of a rig. On a DI-only rig there is no permeate.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// When it was taken, UTC seconds.
    pub at: i64,
    /// Dissolved solids of the tap.
    pub feed: Ppm,
    /// Dissolved solids at the RO outlet.
    pub permeate: Option<Ppm>,
    /// Dissolved solids after the resin.
    pub product: Option<Ppm>,
    /// Temperature of the feed water.
    pub temperature: Option<Temperature>,
    /// Gauge pressure of the feed.
    pub pressure: Option<Pressure>,
    /// Purified water made on that working day.
    pub litres: Option<Volume>,
    /// Permeate flow.
    pub permeate_flow: Option<Flow>,
    /// Waste flow.
    pub waste_flow: Option<Flow>,
}

impl Reading {
    /// A reading of the two numbers alone.
    #[must_use]
    pub fn of(at: i64, feed: Ppm, permeate: Ppm) -> Self {
        Self {
            at,
            feed,
            permeate: Some(permeate),
            product: None,
            temperature: None,
            pressure: None,
            litres: None,
            permeate_flow: None,
            waste_flow: None,
        }
    }
}

/// A service: work done at a time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Service {
    /// When it was done, UTC seconds.
    pub at: i64,
    /// What was done.
    pub what: ServiceKind,
}

/// Something that happened on a rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Event {
    /// A reading was taken.
    Reading(Reading),
    /// Something was done.
    Service(Service),
}

impl Event {
    /// When it happened, UTC seconds.
    #[must_use]
    pub fn at(&self) -> i64 {
        match self {
            Self::Reading(reading) => reading.at,
            Self::Service(service) => service.at,
        }
    }
}
