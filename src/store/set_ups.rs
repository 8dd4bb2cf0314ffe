//! How far somebody is with setting up.

use serde::Serialize;
use serde::de::DeserializeOwned;

use super::{Db, StoreError};

/// Where somebody is, and since when.
#[derive(Clone, Debug, PartialEq)]
pub struct SetUp<P> {
    /// Which question is open and which were passed.
    pub progress: P,
    /// When the last one was asked, UTC seconds.
    pub asked_at: i64,
    /// When it was put off; none while it goes on.
    pub stopped_at: Option<i64>,
}

/// How far a person is with setting up this outfit, if they ever began.
///
/// # Errors
/// Whatever the database says.
pub async fn of<P: DeserializeOwned>(
    db: &mut Db,
    person_id: i64,
    outfit_id: i64,
) -> Result<Option<SetUp<P>>, StoreError> {
    let row: Option<(String, i64, Option<i64>)> =
        sqlx::query_as("select progress, asked_at, stopped_at from set_ups where person_id = $1 and outfit_id = $2")
            .bind(person_id)
            .bind(outfit_id)
            .fetch_optional(&mut *db)
            .await?;
    // Progress that an older release kept in another shape has lapsed.
    Ok(row.and_then(|(progress, asked_at, stopped_at)| {
        Some(SetUp {
            progress: serde_json::from_str(&progress).ok()?,
            asked_at,
            stopped_at,
        })
    }))
}

/// Keeps how far a person is.
///
/// # Errors
/// Whatever the database says.
pub async fn keep<P: Serialize>(
    db: &mut Db,
    person_id: i64,
    outfit_id: i64,
    set_up: &SetUp<P>,
) -> Result<(), StoreError> {
    let progress = serde_json::to_string(&set_up.progress).map_err(|why| StoreError::Stored {
        what: "set-up",
        why: why.to_string(),
    })?;
    sqlx::query(
        "insert into set_ups (person_id, outfit_id, progress, asked_at, stopped_at) values ($1, $2, $3, $4, $5)
         on conflict (person_id) do update set outfit_id = excluded.outfit_id, progress = excluded.progress,
             asked_at = excluded.asked_at, stopped_at = excluded.stopped_at",
    )
    .bind(person_id)
    .bind(outfit_id)
    .bind(progress)
    .bind(set_up.asked_at)
    .bind(set_up.stopped_at)
    .execute(&mut *db)
    .await?;
    Ok(())
}
