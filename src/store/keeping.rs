//! How long rows are kept: what is older than an outfit wants goes for good,
//! withdrawn or not.

use super::{Db, StoreError};

/// How much is older than a day.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Old {
    /// Readings, by when they were taken.
    pub readings: usize,
    /// Services, by when they were done.
    pub services: usize,
}

/// How many rows of an outfit are from before an instant.
///
/// # Errors
/// Whatever the database says.
pub async fn older(db: &mut Db, outfit_id: i64, before: i64) -> Result<Old, StoreError> {
    let mut counts = [0_usize; 2];
    for (count, sql) in counts.iter_mut().zip([
        "select count(*) from readings where outfit_id = $1 and taken_at < $2",
        "select count(*) from services where outfit_id = $1 and done_at < $2",
    ]) {
        let rows: i64 = sqlx::query_scalar(sql)
            .bind(outfit_id)
            .bind(before)
            .fetch_one(&mut *db)
            .await?;
        *count = usize::try_from(rows).unwrap_or_default();
    }
    let [readings, services] = counts;
    Ok(Old { readings, services })
}

/// Deletes what is from before an instant, which is the start of `on_date`:
/// readings, services, whom the flush reminders asked, what digests told.
///
/// # Errors
/// Whatever the database says.
pub async fn delete_older(db: &mut Db, outfit_id: i64, before: i64, on_date: &str) -> Result<Old, StoreError> {
    let old = older(db, outfit_id, before).await?;
    for sql in [
        "delete from readings where outfit_id = $1 and taken_at < $2",
        "delete from services where outfit_id = $1 and done_at < $2",
    ] {
        sqlx::query(sql).bind(outfit_id).bind(before).execute(&mut *db).await?;
    }
    for sql in [
        "delete from nudges where outfit_id = $1 and on_date < $2",
        "delete from digests where outfit_id = $1 and on_date < $2",
    ] {
        sqlx::query(sql).bind(outfit_id).bind(on_date).execute(&mut *db).await?;
    }
    super::states::forget_outfit(db, outfit_id).await?;
    super::versions::touch(db, &[outfit_id]).await?;
    Ok(old)
}
