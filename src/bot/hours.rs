//! An outfit's clock: its zone, when its days end, when it must not be rung.

use jiff::civil::Time;
use jiff::tz::TimeZone;

use crate::schedule::{self, Week};
use crate::store::outfits::Outfit;

use super::outfit::time_of_day;
use super::turn::zone_of;

/// When an outfit works and rests, in its own zone.
pub(super) struct Hours {
    pub zone: TimeZone,
    pub day_ends: Week,
    pub quiet: (Time, Time),
}

impl Hours {
    pub fn of(outfit: &Outfit) -> Self {
        Self {
            zone: zone_of(outfit),
            day_ends: time_of_day(&outfit.day_ends).map(Week::daily).unwrap_or_default(),
            quiet: (Time::constant(20, 0, 0, 0), Time::constant(7, 0, 0, 0)),
        }
    }

    /// Whether nobody wants to be rung at this instant.
    pub fn is_quiet(&self, at: i64) -> bool {
        schedule::local_time(&self.zone, at).is_some_and(|time| schedule::within(time, self.quiet.0, self.quiet.1))
    }
}
