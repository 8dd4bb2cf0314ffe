//! The version of each outfit, which every change moves on: what was remembered under an older one is stale.

use std::collections::HashMap;

use super::{Db, StoreError, rows};

/// Locks an outfit whose version is still this, until the transaction ends; false if it is not.
///
/// # Errors
/// Whatever the database says.
pub async fn lock_if(db: &mut Db, id: i64, version: i64) -> Result<bool, StoreError> {
    let locked = sqlx::query("update outfits set version = version where id = $1 and version = $2")
        .bind(id)
        .bind(version)
        .execute(&mut *db)
        .await?;
    Ok(locked.rows_affected() == 1)
}

/// Moves the versions of outfits on, which also locks them, and returns what they were before.
///
/// # Errors
/// Whatever the database says.
pub async fn touch(db: &mut Db, ids: &[i64]) -> Result<HashMap<i64, i64>, StoreError> {
    if ids.is_empty() {
        return Ok(HashMap::new());
    }
    let rows: Vec<(i64, i64)> = sqlx::query_as(
        "update outfits set version = version + 1
         where id in (select cast(value ->> 0 as bigint) from jsonb_each($1)) returning id, version - 1",
    )
    .bind(rows::of_ids(ids)?)
    .fetch_all(&mut *db)
    .await?;
    Ok(rows.into_iter().collect())
}
