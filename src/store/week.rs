//! What was logged in a span.

use crate::domain::ServiceKind;

use super::{Db, StoreError};

/// Standing readings that each person of an outfit sent in `[from, until)`; what came in
/// with a file is nobody's habit.
///
/// # Errors
/// Whatever the database says.
pub async fn readings_by_person(
    db: &mut Db,
    outfit_id: i64,
    from: i64,
    until: i64,
) -> Result<Vec<(i64, i64)>, StoreError> {
    Ok(sqlx::query_as(
        "select person_id, count(*) from readings
         where outfit_id = $1 and heard_at >= $2 and heard_at < $3 and withdrawn_at is null
           and source_key not like 'import:%'
         group by person_id order by person_id",
    )
    .bind(outfit_id)
    .bind(from)
    .bind(until)
    .fetch_all(&mut *db)
    .await?)
}

/// When each rig of an outfit's fleet was read in `[from, until)`: the rig, and when.
///
/// # Errors
/// Whatever the database says.
pub async fn readings(db: &mut Db, outfit_id: i64, from: i64, until: i64) -> Result<Vec<(i64, i64)>, StoreError> {
    Ok(sqlx::query_as(
        "select r.rig_id, r.taken_at from rigs g
         join readings r on r.rig_id = g.id and r.taken_at >= $2 and r.taken_at < $3 and r.withdrawn_at is null
         where g.outfit_id = $1 and g.removed_at is null",
    )
    .bind(outfit_id)
    .bind(from)
    .bind(until)
    .fetch_all(&mut *db)
    .await?)
}

/// How often each rig of an outfit's fleet was read in `[from, until)`.
///
/// # Errors
/// Whatever the database says.
pub async fn readings_of_rigs(
    db: &mut Db,
    outfit_id: i64,
    from: i64,
    until: i64,
) -> Result<Vec<(i64, i64)>, StoreError> {
    Ok(sqlx::query_as(
        "select g.id, count(*) from rigs g
         join readings r on r.rig_id = g.id and r.taken_at >= $2 and r.taken_at < $3 and r.withdrawn_at is null
         where g.outfit_id = $1 and g.removed_at is null group by g.id",
    )
    .bind(outfit_id)
    .bind(from)
    .bind(until)
    .fetch_all(&mut *db)
    .await?)
}

/// What was done to each rig of an outfit's fleet in `[from, until)`, in the order in which it was done: the rig, what
/// and when.
///
/// # Errors
/// Whatever the database says.
pub async fn services(
    db: &mut Db,
    outfit_id: i64,
    from: i64,
    until: i64,
) -> Result<Vec<(i64, ServiceKind, i64)>, StoreError> {
    let rows: Vec<(i64, String, i64)> = sqlx::query_as(
        "select s.rig_id, s.what, s.done_at from rigs g
         join services s on s.rig_id = g.id and s.done_at >= $2 and s.done_at < $3 and s.withdrawn_at is null
         where g.outfit_id = $1 and g.removed_at is null order by s.done_at, s.id",
    )
    .bind(outfit_id)
    .bind(from)
    .bind(until)
    .fetch_all(&mut *db)
    .await?;
    let known = |(rig, what, at): (i64, String, i64)| Some((rig, ServiceKind::from_word(&what)?, at));
    Ok(rows.into_iter().filter_map(known).collect())
}
