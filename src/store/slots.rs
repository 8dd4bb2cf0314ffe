//! Slots: one due occurrence of a scheduled message. Whoever inserts the key
//! first owns it, so two replicas send one message.

use std::collections::HashSet;

use super::{Db, StoreError};

/// Claims a slot in the caller's transaction; false if it was claimed before.
///
/// # Errors
/// Whatever the database says.
pub async fn claim(db: &mut Db, key: &str, now: i64) -> Result<bool, StoreError> {
    let claimed = sqlx::query("insert into slots (key, claimed_at) values ($1, $2) on conflict (key) do nothing")
        .bind(key)
        .bind(now)
        .execute(&mut *db)
        .await?;
    Ok(claimed.rows_affected() == 1)
}

/// The keys of slots that were claimed at `since` or later.
///
/// # Errors
/// Whatever the database says.
pub async fn claimed_since(db: &mut Db, since: i64) -> Result<HashSet<String>, StoreError> {
    let keys: Vec<String> = sqlx::query_scalar("select key from slots where claimed_at >= $1")
        .bind(since)
        .fetch_all(&mut *db)
        .await?;
    Ok(keys.into_iter().collect())
}
