//! How much there is of what: numbers for the host, nothing of any person.

use super::{Db, StoreError};

/// What is in the database now.
#[derive(Clone, Copy, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct Tallies {
    /// Outfits.
    pub outfits: i64,
    /// Rigs that were not removed.
    pub rigs: i64,
    /// Readings, withdrawn ones too.
    pub readings: i64,
    /// Services, withdrawn ones too.
    pub services: i64,
    /// Messages that wait to be sent.
    pub waiting: i64,
    /// When the oldest of these was queued.
    pub oldest_waiting_at: Option<i64>,
    /// Messages that could never be processed.
    pub dead: i64,
}

/// Counts.
///
/// # Errors
/// Whatever the database says.
pub async fn count(db: &mut Db) -> Result<Tallies, StoreError> {
    Ok(sqlx::query_as(
        "select (select count(*) from outfits) as outfits,
                (select count(*) from rigs where removed_at is null) as rigs,
                (select count(*) from readings) as readings,
                (select count(*) from services) as services,
                (select count(*) from sends where finished_at is null) as waiting,
                (select min(queued_at) from sends where finished_at is null) as oldest_waiting_at,
                (select count(*) from dead) as dead",
    )
    .fetch_one(&mut *db)
    .await?)
}

/// What the host may know of an outfit.
#[derive(Clone, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct OutfitTally {
    /// Its number.
    pub id: i64,
    /// What its owner calls it.
    pub name: String,
    /// IANA zone name.
    pub zone: String,
    /// People in it.
    pub people: i64,
    /// Rigs in use.
    pub rigs: i64,
    /// When the last reading that counts was taken.
    pub last_reading_at: Option<i64>,
}

/// Every outfit, oldest first.
///
/// # Errors
/// Whatever the database says.
pub async fn outfits(db: &mut Db) -> Result<Vec<OutfitTally>, StoreError> {
    Ok(sqlx::query_as(
        "select o.id, o.name, o.zone,
                (select count(*) from people p where p.outfit_id = o.id) as people,
                (select count(*) from rigs g where g.outfit_id = o.id and g.removed_at is null) as rigs,
                (select max(r.taken_at) from rigs g join readings r on r.rig_id = g.id
                 where g.outfit_id = o.id and r.withdrawn_at is null) as last_reading_at
         from outfits o order by o.id",
    )
    .fetch_all(&mut *db)
    .await?)
}
