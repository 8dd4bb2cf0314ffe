//! Who sent how many readings in a span.

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
