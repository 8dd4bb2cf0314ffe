//! What rigs' rows came to, kept as a shortcut.

use super::{Db, StoreError};

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
        "select s.rig_id, s.shape, s.upto_at, s.upto_reading, s.upto_service, s.body from jsonb_each($1) j
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
    sqlx::query("delete from states where rig_id in (select cast(value ->> 0 as bigint) from jsonb_each($1))")
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
