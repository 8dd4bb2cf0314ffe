//! The leases of messages on their way out, by the database's clock: whoever holds one delivers its message.

use std::collections::HashSet;

use super::sends::LEASE_S;
use super::{Db, StoreError};

/// Renews the leases of all that `me` holds.
///
/// # Errors
/// Whatever the database says.
pub async fn renew(db: &mut Db, me: &str) -> Result<(), StoreError> {
    sqlx::query("update sends set leased_until = unixepoch() + $2 where lease_by = $1 and finished_at is null")
        .bind(me)
        .bind(LEASE_S)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// The numbers of what `me` holds: after its leases may have run out, only these are its own.
///
/// # Errors
/// Whatever the database says.
pub async fn held(db: &mut Db, me: &str) -> Result<HashSet<i64>, StoreError> {
    let ids: Vec<i64> = sqlx::query_scalar("select id from sends where lease_by = $1 and finished_at is null")
        .bind(me)
        .fetch_all(&mut *db)
        .await?;
    Ok(ids.into_iter().collect())
}

/// Gives free all that `me` holds.
///
/// # Errors
/// Whatever the database says.
pub async fn release(db: &mut Db, me: &str) -> Result<(), StoreError> {
    sqlx::query("update sends set lease_by = null, leased_until = null where lease_by = $1 and finished_at is null")
        .bind(me)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Gives free what dead processes of this copy hold, so that its chats need not wait for the leases to run out. Names
/// of processes start with their copy's name and a slash; `is_dead` is asked of each.
///
/// # Errors
/// Whatever the database says.
pub async fn take_back(db: &mut Db, copy: &str, is_dead: impl Fn(&str) -> bool) -> Result<usize, StoreError> {
    let prefix = format!("{copy}/");
    let held: Vec<(String, i64)> = sqlx::query_as(
        "select lease_by, count(*) from sends where finished_at is null and lease_by is not null group by lease_by",
    )
    .fetch_all(&mut *db)
    .await?;
    let mut freed = 0;
    for (holder, count) in held {
        if holder.starts_with(&prefix) && is_dead(&holder) {
            release(db, &holder).await?;
            freed += usize::try_from(count).unwrap_or_default();
        }
    }
    Ok(freed)
}
