//! The database's clock, which all copies of the bot share: their own may differ, and a lease that one of them takes
//! must run out at the same moment for all. Both databases call it `unixepoch` (PostgreSQL by our migration).

use super::{Db, StoreError};

/// Now by the database's clock, in UTC seconds.
///
/// # Errors
/// Whatever the database says.
pub async fn now(db: &mut Db) -> Result<i64, StoreError> {
    Ok(sqlx::query_scalar("select unixepoch()").fetch_one(&mut *db).await?)
}

/// Now by the database's clock, in UTC milliseconds.
///
/// # Errors
/// Whatever the database says.
pub async fn now_ms(db: &mut Db) -> Result<i64, StoreError> {
    let ms = sqlx::query_scalar("select cast(unixepoch('subsec') * 1000 as bigint)");
    Ok(ms.fetch_one(&mut *db).await?)
}
