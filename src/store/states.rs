//! What rigs' rows came to, kept as a shortcut, and the rows behind it.

use super::readings::Reading;
use super::services::Service;
use super::{Db, StoreError, rows};

/// A rig's kept state.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
pub struct State {
    /// The rig.
    pub rig_id: i64,
    /// Which release's form the body has.
    pub shape: i64,
    /// The instant of the last event in it, UTC seconds.
    pub upto_at: i64,
    /// The greatest number of a reading in it.
    pub upto_reading: i64,
    /// The greatest number of a service in it.
    pub upto_service: i64,
    /// The state, as the history writes it.
    pub body: String,
}

/// The kept states of the fleets of outfits.
///
/// # Errors
/// Whatever the database says.
pub async fn of_outfits(db: &mut Db, ids: &[i64]) -> Result<Vec<State>, StoreError> {
    Ok(sqlx::query_as(
        "select s.rig_id, s.shape, s.upto_at, s.upto_reading, s.upto_service, s.body from json_each($1) j
         join rigs g on g.outfit_id = cast(j.value ->> 0 as bigint)
         join states s on s.rig_id = g.id where g.removed_at is null",
    )
    .bind(super::rows::of_ids(ids)?)
    .fetch_all(&mut *db)
    .await?)
}

/// Keeps states over what was kept before.
///
/// # Errors
/// Whatever the database says.
pub async fn keep(db: &mut Db, states: &[State]) -> Result<(), StoreError> {
    // Long texts are cheaper bound than inside JSON.
    for state in states {
        sqlx::query(
            "insert into states (rig_id, shape, upto_at, upto_reading, upto_service, body)
             values ($1, $2, $3, $4, $5, $6)
             on conflict (rig_id) do update set shape = excluded.shape, upto_at = excluded.upto_at,
                 upto_reading = excluded.upto_reading, upto_service = excluded.upto_service, body = excluded.body",
        )
        .bind(state.rig_id)
        .bind(state.shape)
        .bind(state.upto_at)
        .bind(state.upto_reading)
        .bind(state.upto_service)
        .bind(&state.body)
        .execute(&mut *db)
        .await?;
    }
    Ok(())
}

/// Forgets the states of rigs whose rows changed.
///
/// # Errors
/// Whatever the database says.
pub async fn forget(db: &mut Db, rigs: &[i64]) -> Result<(), StoreError> {
    sqlx::query("delete from states where rig_id in (select cast(value ->> 0 as bigint) from json_each($1))")
        .bind(super::rows::of_ids(rigs)?)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Forgets the states of an outfit's rigs.
///
/// # Errors
/// Whatever the database says.
pub async fn forget_outfit(db: &mut Db, outfit_id: i64) -> Result<(), StoreError> {
    sqlx::query("delete from states where rig_id in (select id from rigs where outfit_id = $1)")
        .bind(outfit_id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// From where on the rows of a rig are wanted: all of them from zeros.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tail {
    /// The rig.
    pub rig_id: i64,
    /// Not before this instant, UTC seconds.
    pub from_at: i64,
    /// Readings of greater numbers.
    pub after_reading: i64,
    /// Services of greater numbers.
    pub after_service: i64,
}

/// The standing readings and services of rigs behind what was kept, in no order.
///
/// # Errors
/// Whatever the database says.
pub async fn tails(db: &mut Db, tails: &[Tail]) -> Result<(Vec<Reading>, Vec<Service>), StoreError> {
    if tails.is_empty() {
        return Ok((Vec::new(), Vec::new()));
    }
    let rows_of: Vec<_> = tails
        .iter()
        .map(|tail| (tail.rig_id, tail.from_at, tail.after_reading, tail.after_service))
        .collect();
    let from = rows::json(&rows_of)?;
    // `cross join` keeps SQLite from turning the join about; the bounds come from the parameter, so that the index is used.
    let readings = sqlx::query_as(
        "select r.id, r.rig_id, r.person_id, r.source_key, r.taken_at, r.feed_ppm, r.permeate_ppm, r.product_ppm,
             r.feed_raw_us, r.permeate_raw_us, r.product_raw_us, r.temperature_c, r.pressure_kpa, r.permeate_lpm,
             r.waste_lpm, r.withdrawn_at
         from json_each($1) j cross join readings r
         where r.rig_id = cast(j.value ->> 0 as bigint) and r.taken_at >= cast(j.value ->> 1 as bigint)
           and r.id > cast(j.value ->> 2 as bigint) and r.withdrawn_at is null",
    )
    .bind(&from)
    .fetch_all(&mut *db)
    .await?;
    let services = super::services::tails(db, &from).await?;
    Ok((readings, services))
}

/// Rigs with rows and without a state of this shape, by outfit: up to `most` outfits.
///
/// # Errors
/// Whatever the database says.
pub async fn outfits_without(db: &mut Db, shape: i64, after: i64, most: i64) -> Result<Vec<i64>, StoreError> {
    Ok(sqlx::query_scalar(
        "select g.outfit_id from rigs g left join states s on s.rig_id = g.id and s.shape = $1
         where g.removed_at is null and s.rig_id is null and g.outfit_id > $2
           and exists (select 1 from readings r where r.rig_id = g.id and r.withdrawn_at is null)
         group by g.outfit_id order by g.outfit_id limit $3",
    )
    .bind(shape)
    .bind(after)
    .bind(most)
    .fetch_all(&mut *db)
    .await?)
}
