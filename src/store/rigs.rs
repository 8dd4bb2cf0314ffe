//! Rigs: a van, trailer or cart with its small treatment train.

use super::{Db, StoreError};

/// One rig of an outfit's fleet.
#[derive(Clone, Debug, PartialEq)]
pub struct Rig {
    /// Its number.
    pub id: i64,
    /// The name as the owner typed it.
    pub name: String,
    /// No membrane: its two readings are tap and glass.
    pub di_only: bool,
    /// Sends a share to waste all the time and needs no flush by hand.
    pub flushes_itself: bool,
}

type Row = (i64, String, Option<i64>, Option<i64>, i64, Option<i64>);

macro_rules! select {
    ($rest:literal) => {
        concat!(
            "select id, name, di_only_at, flushes_itself_at, added_at, removed_at from rigs ",
            $rest
        )
    };
}

fn stay((id, name, di_only_at, flushes_itself_at, added_at, removed_at): Row) -> Stay {
    Stay {
        rig: rig(id, name, di_only_at, flushes_itself_at),
        added_at,
        removed_at,
    }
}

pub(super) fn rig(id: i64, name: String, di_only_at: Option<i64>, flushes_itself_at: Option<i64>) -> Rig {
    Rig {
        id,
        name,
        di_only: di_only_at.is_some(),
        flushes_itself: flushes_itself_at.is_some(),
    }
}

/// The fleet of an outfit, by name.
///
/// # Errors
/// Whatever the database says.
pub async fn fleet(db: &mut Db, outfit_id: i64) -> Result<Vec<Rig>, StoreError> {
    let rows: Vec<Row> = sqlx::query_as(select!(
        "where outfit_id = $1 and removed_at is null order by folded_name"
    ))
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?;
    Ok(rows.into_iter().map(|row| stay(row).rig).collect())
}

/// A rig with its stay on the fleet.
#[derive(Clone, Debug, PartialEq)]
pub struct Stay {
    /// The rig.
    pub rig: Rig,
    /// When it came, UTC seconds.
    pub added_at: i64,
    /// When it was taken off; none while it is on the fleet.
    pub removed_at: Option<i64>,
}

/// Every rig that an outfit ever had, those on the fleet first.
///
/// # Errors
/// Whatever the database says.
pub async fn of_outfit(db: &mut Db, outfit_id: i64) -> Result<Vec<Stay>, StoreError> {
    let rows: Vec<Row> = sqlx::query_as(select!(
        "where outfit_id = $1 order by coalesce(removed_at, 0), folded_name, id"
    ))
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?;
    Ok(rows.into_iter().map(stay).collect())
}

/// Adds a rig; none if a rig of that name is on the fleet already.
///
/// # Errors
/// Whatever the database says.
pub async fn add(
    db: &mut Db,
    outfit_id: i64,
    name: &str,
    folded_name: &str,
    now: i64,
) -> Result<Option<i64>, StoreError> {
    Ok(sqlx::query_scalar(
        "insert into rigs (outfit_id, name, folded_name, added_at) values ($1, $2, $3, $4)
         on conflict (outfit_id, folded_name) where removed_at is null do nothing returning id",
    )
    .bind(outfit_id)
    .bind(name)
    .bind(folded_name)
    .bind(now)
    .fetch_optional(&mut *db)
    .await?)
}

/// Brings the last rig of that name that was taken off the fleet back onto it, with
/// all that was kept of it; none if there was none, or one of that name is there.
///
/// # Errors
/// Whatever the database says.
pub async fn bring_back(db: &mut Db, outfit_id: i64, folded_name: &str) -> Result<Option<i64>, StoreError> {
    let named: Vec<(i64, Option<i64>)> =
        sqlx::query_as("select id, removed_at from rigs where outfit_id = $1 and folded_name = $2")
            .bind(outfit_id)
            .bind(folded_name)
            .fetch_all(&mut *db)
            .await?;
    if named.iter().any(|(_, removed_at)| removed_at.is_none()) {
        return Ok(None);
    }
    let last = named.into_iter().max_by_key(|(_, removed_at)| *removed_at);
    let Some((id, _)) = last else { return Ok(None) };
    sqlx::query("update rigs set removed_at = null where id = $1")
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(Some(id))
}

/// Gives a rig another name, plain and folded; false if a rig of that name is on the fleet already.
///
/// # Errors
/// Whatever the database says.
pub async fn rename(
    db: &mut Db,
    outfit_id: i64,
    id: i64,
    (name, folded_name): (&str, &str),
) -> Result<bool, StoreError> {
    let renamed = sqlx::query(
        "update rigs set name = $3, folded_name = $4 where outfit_id = $1 and id = $2 and not exists (
             select 1 from rigs o where o.outfit_id = $1 and o.folded_name = $4 and o.id <> $2 and o.removed_at is null)",
    )
    .bind(outfit_id)
    .bind(id)
    .bind(name)
    .bind(folded_name)
    .execute(&mut *db)
    .await?;
    Ok(renamed.rows_affected() == 1)
}

/// Writes a rig's two traits back.
///
/// # Errors
/// Whatever the database says.
pub async fn set_traits(db: &mut Db, rig: &Rig, now: i64) -> Result<(), StoreError> {
    sqlx::query("update rigs set di_only_at = $1, flushes_itself_at = $2 where id = $3")
        .bind(rig.di_only.then_some(now))
        .bind(rig.flushes_itself.then_some(now))
        .bind(rig.id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Whether anything that counts was read on a rig, done to it, or set for it.
///
/// # Errors
/// Whatever the database says.
pub async fn is_told_of(db: &mut Db, id: i64) -> Result<bool, StoreError> {
    for sql in [
        "select count(*) from readings where rig_id = $1 and withdrawn_at is null",
        "select count(*) from services where rig_id = $1 and withdrawn_at is null",
        "select count(*) from settings where value <> '' and id in (
             select max(id) from settings where rig_id = $1 group by name)",
    ] {
        let found: i64 = sqlx::query_scalar(sql).bind(id).fetch_one(&mut *db).await?;
        if found > 0 {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Takes a rig off the fleet; its readings stay.
///
/// # Errors
/// Whatever the database says.
pub async fn remove(db: &mut Db, id: i64, now: i64) -> Result<(), StoreError> {
    sqlx::query("update rigs set removed_at = $1 where id = $2")
        .bind(now)
        .bind(id)
        .execute(&mut *db)
        .await?;
    for sql in [
        "update people set own_rig_id = null where own_rig_id = $1",
        "update people set today_rig_id = null where today_rig_id = $1",
    ] {
        sqlx::query(sql).bind(id).execute(&mut *db).await?;
    }
    Ok(())
}
