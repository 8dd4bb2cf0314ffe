//! What could never be processed, kept as it came, so that it blocks nobody
//! and can be looked at.

use super::{Db, StoreError};

/// Keeps one; the same key a second time is ignored.
///
/// # Errors
/// Whatever the database says.
pub async fn keep(db: &mut Db, key: &str, payload: &str, reason: &str, now: i64) -> Result<bool, StoreError> {
    // PostgreSQL takes no NUL in a text, and a NUL may be the very trouble.
    let payload = payload.replace('\0', "\u{fffd}");
    let kept = sqlx::query(
        "insert into dead (key, payload, reason, kept_at) values ($1, $2, $3, $4) on conflict (key) do nothing",
    )
    .bind(key)
    .bind(payload)
    .bind(reason)
    .bind(now)
    .execute(&mut *db)
    .await?;
    Ok(kept.rows_affected() == 1)
}

/// How many there are.
///
/// # Errors
/// Whatever the database says.
pub async fn count(db: &mut Db) -> Result<i64, StoreError> {
    Ok(sqlx::query_scalar("select count(*) from dead")
        .fetch_one(&mut *db)
        .await?)
}
