//! Rows that somebody wants taken in: offered first, taken on a yes, undone as
//! a whole.

use serde::{Deserialize, Serialize};

use super::readings::Teller;
use super::{Db, StoreError};

/// An import that waits for a yes.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
pub struct Offered {
    /// Its number.
    pub id: i64,
    /// The rows, as they came.
    pub source: String,
    /// Whether 3/4 is 3 April: 1 for yes, 0 for no, -1 while nobody has said.
    pub day_first: i64,
}

/// Keeps rows until their sender says yes.
///
/// # Errors
/// Whatever the database says.
pub async fn offer(db: &mut Db, teller: Teller, source: &str, day_first: i64) -> Result<(), StoreError> {
    sqlx::query(
        "insert into imports (outfit_id, person_id, source, day_first, offered_at) values ($1, $2, $3, $4, $5)",
    )
    .bind(teller.outfit_id)
    .bind(teller.person_id)
    .bind(source)
    .bind(day_first)
    .bind(teller.heard_at)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// What waits for this person's yes, offered at `since` or later, oldest first.
///
/// # Errors
/// Whatever the database says.
pub async fn offered(db: &mut Db, outfit_id: i64, person_id: i64, since: i64) -> Result<Vec<Offered>, StoreError> {
    Ok(sqlx::query_as(
        "select id, source, day_first from imports
         where outfit_id = $1 and person_id = $2 and settled_at is null and offered_at >= $3
         order by id",
    )
    .bind(outfit_id)
    .bind(person_id)
    .bind(since)
    .fetch_all(&mut *db)
    .await?)
}

/// Drops one offer and its rows.
///
/// # Errors
/// Whatever the database says.
pub async fn lapse(db: &mut Db, id: i64, now: i64) -> Result<(), StoreError> {
    sqlx::query("update imports set settled_at = $1, source = '' where id = $2 and settled_at is null")
        .bind(now)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Drops all that waits for this person's yes, and the rows; says whether there was any.
///
/// # Errors
/// Whatever the database says.
pub async fn drop_offers(db: &mut Db, outfit_id: i64, person_id: i64, now: i64) -> Result<bool, StoreError> {
    let dropped = sqlx::query(
        "update imports set settled_at = $1, source = '' where person_id = $2 and outfit_id = $3 and settled_at is null",
    )
            .bind(now)
            .bind(person_id).bind(outfit_id)
            .execute(&mut *db)
            .await?;
    Ok(dropped.rows_affected() > 0)
}

/// What an import found, so that it can be taken back whole.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct StoodBefore {
    /// The numbers of the rigs that it added.
    pub added: Vec<i64>,
    /// The traits of rigs that it changed.
    pub traits: Vec<Traits>,
    /// The settings that it changed, in order.
    pub settings: Vec<SettingBefore>,
}

/// A rig's traits before an import and behind it: DI only, flushes itself.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "the names say it")]
pub struct Traits {
    pub rig_id: i64,
    pub before: (bool, bool),
    pub behind: (bool, bool),
}

/// A setting before an import and behind it, as it is kept; empty for the default.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "the names say it")]
pub struct SettingBefore {
    pub rig_id: Option<i64>,
    pub name: String,
    pub before: String,
    pub behind: String,
}

/// Notes that an offer was taken in, and what it found; its rows are readings,
/// services, rigs and settings now.
///
/// # Errors
/// Whatever the database says.
pub async fn taken(db: &mut Db, id: i64, stood_before: &StoodBefore, now: i64) -> Result<(), StoreError> {
    let written = serde_json::to_string(stood_before).map_err(|why| StoreError::Stored {
        what: "import",
        why: why.to_string(),
    })?;
    sqlx::query("update imports set settled_at = $1, taken_at = $1, source = '', stood_before = $2 where id = $3")
        .bind(now)
        .bind(written)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// The key under which an import's rows are kept.
pub fn key(id: i64) -> String {
    format!("import:{id}")
}

/// What an undo took back.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Undone {
    /// Readings that count no more.
    pub readings: u64,
    /// Services that count no more.
    pub services: u64,
    /// What the sheets of the import found, the last first.
    pub stood_before: Vec<StoodBefore>,
}

/// Withdraws the rows of all that the outfit's last yes took in; none if there
/// is no import to undo.
///
/// # Errors
/// Whatever the database says.
pub async fn undo_last(db: &mut Db, outfit_id: i64, now: i64) -> Result<Option<Undone>, StoreError> {
    let last: Vec<(i64, Option<String>)> = sqlx::query_as(
        "select id, stood_before from imports
         where outfit_id = $1 and undone_at is null and taken_at = (
             select max(taken_at) from imports where outfit_id = $1 and undone_at is null)
         order by id desc",
    )
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?;
    if last.is_empty() {
        return Ok(None);
    }
    super::states::forget_outfit(db, outfit_id).await?;
    let mut undone = Undone::default();
    for (id, stood_before) in last {
        sqlx::query("update imports set undone_at = $1, stood_before = null where id = $2")
            .bind(now)
            .bind(id)
            .execute(&mut *db)
            .await?;
        let withdrawn = |sql: &'static str| sqlx::query(sql).bind(now).bind(key(id)).bind(outfit_id);
        let readings = "update readings set withdrawn_at = $1
            where source_key = $2 and outfit_id = $3 and withdrawn_at is null";
        undone.readings += withdrawn(readings).execute(&mut *db).await?.rows_affected();
        let services = "update services set withdrawn_at = $1
            where source_key = $2 and outfit_id = $3 and withdrawn_at is null";
        undone.services += withdrawn(services).execute(&mut *db).await?.rows_affected();
        // What an older release took in says nothing of what it found.
        let stood_before = stood_before.and_then(|text| serde_json::from_str(&text).ok());
        undone.stood_before.extend(stood_before);
    }
    Ok(Some(undone))
}
