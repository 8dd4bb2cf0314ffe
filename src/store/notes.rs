//! What was said unasked of a rig, so that it is said once; and how often
//! somebody was written to unasked on a day.

use super::{Db, StoreError};

/// Something that was said.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
pub struct Told {
    /// What it was about, by its fixed name.
    pub kind: String,
    /// The rig; none when about the whole outfit.
    pub rig_id: Option<i64>,
    /// When, UTC seconds.
    pub told_at: i64,
    /// When it may be said again, if somebody put it off.
    pub again_at: Option<i64>,
}

/// Records that something was said.
///
/// # Errors
/// Whatever the database says.
pub async fn tell(db: &mut Db, outfit_id: i64, rig_id: Option<i64>, kind: &str, now: i64) -> Result<(), StoreError> {
    sqlx::query("insert into notes (outfit_id, rig_id, kind, told_at) values ($1, $2, $3, $4)")
        .bind(outfit_id)
        .bind(rig_id)
        .bind(kind)
        .bind(now)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// All that was said in an outfit at `since` or later, oldest first.
///
/// # Errors
/// Whatever the database says.
pub async fn told(db: &mut Db, outfit_id: i64, since: i64) -> Result<Vec<Told>, StoreError> {
    Ok(sqlx::query_as(
        "select kind, rig_id, told_at, again_at from notes where outfit_id = $1 and told_at >= $2 order by told_at, id",
    )
    .bind(outfit_id)
    .bind(since)
    .fetch_all(&mut *db)
    .await?)
}

/// Lets something be said again from `again_at` on: the last time that it was
/// said of this rig; false if it never was.
///
/// # Errors
/// Whatever the database says.
pub async fn put_off(
    db: &mut Db,
    outfit_id: i64,
    rig_id: Option<i64>,
    kind: &str,
    again_at: i64,
) -> Result<bool, StoreError> {
    let put_off = sqlx::query(
        "update notes set again_at = $1 where id in (
             select max(id) from notes
             where outfit_id = $2 and kind = $3 and coalesce(rig_id, 0) = coalesce($4, 0))",
    )
    .bind(again_at)
    .bind(outfit_id)
    .bind(kind)
    .bind(rig_id)
    .execute(&mut *db)
    .await?;
    Ok(put_off.rows_affected() == 1)
}

/// How often somebody was written to unasked on a local date.
///
/// # Errors
/// Whatever the database says.
pub async fn unasked(db: &mut Db, person_id: i64, on_date: &str) -> Result<i64, StoreError> {
    let count: Option<i64> = sqlx::query_scalar("select count from unasked where person_id = $1 and on_date = $2")
        .bind(person_id)
        .bind(on_date)
        .fetch_optional(&mut *db)
        .await?;
    Ok(count.unwrap_or(0))
}

/// Counts one more message that somebody got unasked on a local date.
///
/// # Errors
/// Whatever the database says.
pub async fn count_unasked(db: &mut Db, person_id: i64, on_date: &str) -> Result<(), StoreError> {
    sqlx::query(
        "insert into unasked (person_id, on_date, count) values ($1, $2, 1)
         on conflict (person_id, on_date) do update set count = unasked.count + 1",
    )
    .bind(person_id)
    .bind(on_date)
    .execute(&mut *db)
    .await?;
    Ok(())
}
