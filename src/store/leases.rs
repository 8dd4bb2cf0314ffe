//! Leases: a named right that one process holds at a time.

use super::{Db, StoreError};

/// Takes or renews a lease for so many seconds by the database's clock; false while another holds it.
///
/// # Errors
/// Whatever the database says.
pub async fn hold(db: &mut Db, name: &str, holder: &str, seconds: i64) -> Result<bool, StoreError> {
    let held = sqlx::query(
        "insert into leases (name, holder, until_at) values ($1, $2, unixepoch() + $3)
         on conflict (name) do update set holder = excluded.holder, until_at = excluded.until_at
         where leases.holder = excluded.holder or leases.until_at <= unixepoch()",
    )
    .bind(name)
    .bind(holder)
    .bind(seconds)
    .execute(&mut *db)
    .await?;
    Ok(held.rows_affected() == 1)
}

/// Gives a lease back, so that a successor need not wait for it to run out.
///
/// # Errors
/// Whatever the database says.
pub async fn give_back(db: &mut Db, name: &str, holder: &str) -> Result<(), StoreError> {
    sqlx::query("delete from leases where name = $1 and holder = $2")
        .bind(name)
        .bind(holder)
        .execute(&mut *db)
        .await?;
    Ok(())
}
