//! A rig followed through all its rows, for pictures and files, which show what its state forgets.

use crate::domain::RigId;
use crate::store::readings::Reading;
use crate::store::services::Service;
use crate::store::tails::{Tail, tails};
use crate::store::{Db, StoreError};
use crate::water;
use crate::water::history::Event;

use super::outfit::Outfit;
use super::rig_state::Happened;

/// All that happened on a rig, and its course.
#[derive(Clone, Debug)]
pub struct Course {
    /// Oldest first.
    pub readings: Vec<Reading>,
    /// Oldest first.
    pub services: Vec<Service>,
    /// Both, as the computation takes them, in the order of time.
    pub events: Vec<Event>,
    /// What the computation followed.
    pub followed: water::course::Course,
}

/// Follows a rig up to `now` (UTC seconds); none if it is not on the fleet.
///
/// # Errors
/// Whatever the database says.
pub async fn course(db: &mut Db, outfit: &Outfit, rig_id: RigId, now: i64) -> Result<Option<Course>, StoreError> {
    let Some(known) = outfit.rig(rig_id) else {
        return Ok(None);
    };
    let all = Tail {
        rig_id,
        from_at: i64::MIN,
        ..Tail::default()
    };
    let (mut readings, mut services) = tails(db, &[all]).await?;
    readings.retain(|reading| reading.taken_at <= now);
    services.retain(|service| service.done_at <= now);
    readings.sort_by_key(|reading| (reading.taken_at, reading.id));
    services.sort_by_key(|service| (service.done_at, service.id));
    let mut happened: Vec<Happened<'_>> = readings.iter().map(Happened::Reading).collect();
    happened.extend(services.iter().map(Happened::Service));
    happened.sort_by_key(Happened::order);
    let events: Vec<Event> = happened.iter().filter_map(Happened::event).collect();
    let lessons = |at: i64| outfit.teachings.before(at);
    let followed = water::course::course_among(&events, &known.settings, lessons, now);
    Ok(Some(Course {
        readings,
        services,
        events,
        followed,
    }))
}
