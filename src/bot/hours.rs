//! An outfit's clock: its zone, when its days end, when it must not be rung.

use jiff::civil::Time;
use jiff::tz::TimeZone;

use crate::schedule::{self, Week};
use crate::store::outfits::Outfit;

use super::rules::Rules;
use super::turn::zone_of;

/// When an outfit works and rests, in its own zone.
pub(super) struct Hours {
    pub zone: TimeZone,
    pub day_ends: Week,
    /// None: rung at any time.
    pub quiet: Option<(Time, Time)>,
}

impl Hours {
    pub fn of(outfit: &Outfit, rules: &Rules) -> Self {
        Self {
            zone: zone_of(outfit),
            day_ends: rules.outfit().week(),
            quiet: rules.quiet_hours(),
        }
    }

    /// Whether nobody wants to be rung at this instant.
    pub fn is_quiet(&self, at: i64) -> bool {
        let time = schedule::local_time(&self.zone, at);
        time.zip(self.quiet)
            .is_some_and(|(time, (from, until))| schedule::within(time, from, until))
    }
}
