//! All that is kept of an outfit, row by row, for its owner to take away.

use super::{Db, StoreError};

/// A reading with who told it and whether it was withdrawn.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
#[allow(missing_docs, reason = "the columns of readings; see Reading")]
pub struct Reading {
    pub rig_id: i64,
    pub person_id: i64,
    pub taken_at: i64,
    pub feed_ppm: f64,
    pub permeate_ppm: Option<f64>,
    pub product_ppm: Option<f64>,
    pub feed_raw_us: Option<f64>,
    pub permeate_raw_us: Option<f64>,
    pub product_raw_us: Option<f64>,
    pub temperature_c: Option<f64>,
    pub pressure_kpa: Option<f64>,
    pub permeate_lpm: Option<f64>,
    pub waste_lpm: Option<f64>,
    pub withdrawn_at: Option<i64>,
}

/// A service with who told it and whether it was withdrawn.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
#[allow(missing_docs, reason = "the columns of services; see Service")]
pub struct Service {
    pub rig_id: i64,
    pub person_id: i64,
    pub what: String,
    pub done_at: i64,
    pub minutes: Option<i64>,
    pub price_minor: Option<i64>,
    pub withdrawn_at: Option<i64>,
}

/// A rig, on the fleet or off it.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
#[allow(missing_docs, reason = "the columns of rigs; see Rig")]
pub struct Rig {
    pub id: i64,
    pub name: String,
    pub di_only_at: Option<i64>,
    pub flushes_itself_at: Option<i64>,
    pub added_at: i64,
    pub removed_at: Option<i64>,
}

/// Somebody who is in the outfit.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
#[allow(missing_docs, reason = "the columns of people; see Member")]
pub struct Person {
    pub first_name: String,
    pub role: String,
    pub joined_at: i64,
}

/// Every reading of an outfit in the order in which they were taken.
///
/// # Errors
/// Whatever the database says.
pub async fn readings(db: &mut Db, outfit_id: i64) -> Result<Vec<Reading>, StoreError> {
    Ok(sqlx::query_as(
        "select rig_id, person_id, taken_at, feed_ppm, permeate_ppm, product_ppm, feed_raw_us, permeate_raw_us,
             product_raw_us, temperature_c, pressure_kpa, permeate_lpm, waste_lpm, withdrawn_at
         from readings where outfit_id = $1 order by taken_at, id",
    )
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?)
}

/// Every service of an outfit in the order in which they were done.
///
/// # Errors
/// Whatever the database says.
pub async fn services(db: &mut Db, outfit_id: i64) -> Result<Vec<Service>, StoreError> {
    Ok(sqlx::query_as(
        "select rig_id, person_id, what, done_at, minutes, price_minor, withdrawn_at
         from services where outfit_id = $1 order by done_at, id",
    )
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?)
}

/// Every rig of an outfit, those on the fleet first.
///
/// # Errors
/// Whatever the database says.
pub async fn rigs(db: &mut Db, outfit_id: i64) -> Result<Vec<Rig>, StoreError> {
    Ok(sqlx::query_as(
        "select id, name, di_only_at, flushes_itself_at, added_at, removed_at from rigs
         where outfit_id = $1 order by coalesce(removed_at, 0), folded_name, id",
    )
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?)
}

/// Everybody who is in an outfit: first name, role, since when.
///
/// # Errors
/// Whatever the database says.
pub async fn people(db: &mut Db, outfit_id: i64) -> Result<Vec<Person>, StoreError> {
    Ok(
        sqlx::query_as("select first_name, role, joined_at from people where outfit_id = $1 order by joined_at, id")
            .bind(outfit_id)
            .fetch_all(&mut *db)
            .await?,
    )
}

/// The last readings that were withdrawn, newest first.
///
/// # Errors
/// Whatever the database says.
pub async fn withdrawn(db: &mut Db, outfit_id: i64, count: i64) -> Result<Vec<Reading>, StoreError> {
    Ok(sqlx::query_as(
        "select rig_id, person_id, taken_at, feed_ppm, permeate_ppm, product_ppm, feed_raw_us, permeate_raw_us,
             product_raw_us, temperature_c, pressure_kpa, permeate_lpm, waste_lpm, withdrawn_at
         from readings where outfit_id = $1 and withdrawn_at is not null and source_key not like 'import:%'
         order by withdrawn_at desc, id desc limit $2",
    )
    .bind(outfit_id)
    .bind(count)
    .fetch_all(&mut *db)
    .await?)
}
