//! Rows that somebody wants taken in: offered first, taken on a yes, undone as
//! a whole.

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
pub async fn drop_offers(db: &mut Db, person_id: i64, now: i64) -> Result<bool, StoreError> {
    let dropped =
        sqlx::query("update imports set settled_at = $1, source = '' where person_id = $2 and settled_at is null")
            .bind(now)
            .bind(person_id)
            .execute(&mut *db)
            .await?;
    Ok(dropped.rows_affected() > 0)
}

/// Notes that an offer was taken in; its rows are readings and services now.
///
/// # Errors
/// Whatever the database says.
pub async fn taken(db: &mut Db, id: i64, now: i64) -> Result<(), StoreError> {
    sqlx::query("update imports set settled_at = $1, taken_at = $1, source = '' where id = $2")
        .bind(now)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// The key under which an import's rows are kept.
pub fn key(id: i64) -> String {
    format!("import:{id}")
}

/// Withdraws the rows of the outfit's last import that stands, with all sheets
/// that were taken in by the same yes; says how many
/// readings and services, or none if there is no import to undo.
///
/// # Errors
/// Whatever the database says.
pub async fn undo_last(db: &mut Db, outfit_id: i64, now: i64) -> Result<Option<(u64, u64)>, StoreError> {
    let together: Vec<i64> = sqlx::query_scalar(
        "select id from imports where outfit_id = $1 and undone_at is null and taken_at =
         (select max(taken_at) from imports where outfit_id = $1 and undone_at is null)",
    )
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?;
    if together.is_empty() {
        return Ok(None);
    }
    let (mut readings, mut services) = (0, 0);
    for id in together {
        sqlx::query("update imports set undone_at = $1 where id = $2")
            .bind(now)
            .bind(id)
            .execute(&mut *db)
            .await?;
        readings += sqlx::query("update readings set withdrawn_at = $1 where source_key = $2 and withdrawn_at is null")
            .bind(now)
            .bind(key(id))
            .execute(&mut *db)
            .await?
            .rows_affected();
        services += sqlx::query("update services set withdrawn_at = $1 where source_key = $2 and withdrawn_at is null")
            .bind(now)
            .bind(key(id))
            .execute(&mut *db)
            .await?
            .rows_affected();
    }
    Ok(Some((readings, services)))
}
