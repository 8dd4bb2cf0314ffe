//! The version of each outfit, which every change moves on: what was remembered under an older one is stale.

use std::collections::HashMap;

use super::{Db, StoreError, rows};

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
         where id in (select cast(value ->> 0 as bigint) from json_each($1)) returning id, version - 1",
    )
    .bind(rows::of_ids(ids)?)
    .fetch_all(&mut *db)
    .await?;
    Ok(rows.into_iter().collect())
}
