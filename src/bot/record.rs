//! All that is kept of a rig, and what it says when it is followed through.

use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::schedule;
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::services::Service;
use crate::store::{self, Db, StoreError};
use crate::water::assess::{Assessment, assess};
use crate::water::course::{Course, course};
use crate::water::history::Event;
use crate::water::prior::Lessons;
use crate::water::settings::Settings;

use super::assessing::{ALL, events_of, lessons};
use super::rules::Rules;

/// A rig with its record, followed up to an instant.
pub(super) struct Followed {
    pub rig: Rig,
    /// Oldest first.
    pub readings: Vec<Reading>,
    /// Oldest first.
    pub services: Vec<Service>,
    pub events: Vec<Event>,
    pub settings: Settings,
    pub lessons: Lessons,
    pub course: Course,
    pub assessment: Assessment,
}

/// Follows each rig of a fleet up to `now`.
pub(super) async fn follow_fleet(
    db: &mut Db,
    rules: &Rules,
    fleet: &[Rig],
    now: i64,
) -> Result<Vec<Followed>, StoreError> {
    let lessons = lessons(db, rules, fleet, now).await?;
    let mut followed = Vec::with_capacity(fleet.len());
    for rig in fleet {
        followed.push(follow(db, rules, lessons, rig, now).await?);
    }
    Ok(followed)
}

/// Follows a rig up to `now`, with what the fleet's membranes taught.
pub(super) async fn follow(
    db: &mut Db,
    rules: &Rules,
    lessons: Lessons,
    rig: &Rig,
    now: i64,
) -> Result<Followed, StoreError> {
    let mut readings = store::readings::latest(db, rig.id, now + 1, ALL).await?;
    readings.reverse();
    let mut services = store::services::of_rig(db, rig.id).await?;
    services.retain(|service| service.done_at <= now);
    let events = events_of(&readings, &services);
    let settings = rules.water_settings(rig);
    let course = course(&events, &settings, &lessons, now);
    let assessment = assess(&course.history, &settings, &lessons, now);
    Ok(Followed {
        rig: rig.clone(),
        readings,
        services,
        events,
        settings,
        lessons,
        course,
        assessment,
    })
}

impl Followed {
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

    /// The last water temperature that was told, degrees Celsius, and its date.
    pub fn water(&self, zone: &TimeZone) -> Option<(f64, Date)> {
        self.readings.iter().rev().find_map(|reading| {
            let date = schedule::local_date(zone, reading.taken_at)?;
            Some((reading.temperature_c?, date))
        })
    }
}
