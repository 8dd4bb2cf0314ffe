//! What a digest told, so that the next one can say what came of it.

use super::{Db, StoreError};

/// Keeps what a digest told on a local date, as its reader wrote it.
///
/// # Errors
/// Whatever the database says.
pub async fn keep(db: &mut Db, outfit_id: i64, on_date: &str, told: &str, now: i64) -> Result<(), StoreError> {
    sqlx::query(
        "insert into digests (outfit_id, on_date, told, made_at) values ($1, $2, $3, $4)
         on conflict (outfit_id, on_date) do update set told = excluded.told, made_at = excluded.made_at",
    )
    .bind(outfit_id)
    .bind(on_date)
    .bind(told)
    .bind(now)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// What the last digest before a local date told, and its date.
///
/// # Errors
/// Whatever the database says.
pub async fn last(db: &mut Db, outfit_id: i64, before_date: &str) -> Result<Option<(String, String)>, StoreError> {
    Ok(sqlx::query_as(
        "select on_date, told from digests where outfit_id = $1 and on_date < $2 order by on_date desc limit 1",
    )
    .bind(outfit_id)
    .bind(before_date)
    .fetch_optional(&mut *db)
    .await?)
}
