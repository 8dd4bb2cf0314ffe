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
