//! Which caution was told to whom, and when.

use super::{Db, StoreError, rows};

/// Notes that a caution is told now; false if it was told to this person since `since`.
///
/// # Errors
/// Whatever the database says.
pub async fn note(db: &mut Db, person_id: i64, kind: &str, since: i64, now: i64) -> Result<bool, StoreError> {
    let noted = sqlx::query(
        "insert into cautions (person_id, kind, told_at) values ($1, $2, $3)
         on conflict (person_id, kind) do update set told_at = excluded.told_at where cautions.told_at < $4",
    )
    .bind(person_id)
    .bind(kind)
    .bind(now)
    .bind(since)
    .execute(&mut *db)
    .await?;
    Ok(noted.rows_affected() == 1)
}

/// Notes that cautions are told now: the person and the kind of each, no pair twice.
///
/// # Errors
/// Whatever the database says.
pub async fn note_all(db: &mut Db, told: &[(i64, &str)], now: i64) -> Result<(), StoreError> {
    if told.is_empty() {
        return Ok(());
    }
    sqlx::query(
        "insert into cautions (person_id, kind, told_at)
         select cast(j.value ->> 0 as bigint), j.value ->> 1, $2 from jsonb_each($1) j where true
         on conflict (person_id, kind) do update set told_at = excluded.told_at",
    )
    .bind(rows::json(told)?)
    .bind(now)
    .execute(&mut *db)
    .await?;
    Ok(())
}
