//! What people did to the outfit itself: came, went, imported. Settings keep
//! a past of their own.

use super::readings::Teller;
use super::{Db, StoreError};

/// One thing done to the outfit.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
pub struct Change {
    /// Who did it.
    pub person_id: Option<i64>,
    /// What: a word of the bot's.
    pub what: String,
    /// What it was about: a person's number, a rig's name, a count.
    pub about: String,
    /// When, UTC seconds.
    pub changed_at: i64,
}

/// Notes a change.
///
/// # Errors
/// Whatever the database says.
pub async fn note(db: &mut Db, teller: Teller, what: &str, about: &str) -> Result<(), StoreError> {
    sqlx::query("insert into changes (outfit_id, person_id, what, about, changed_at) values ($1, $2, $3, $4, $5)")
        .bind(teller.outfit_id)
        .bind(teller.person_id)
        .bind(what)
        .bind(about)
        .bind(teller.heard_at)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Notes what nobody did: what fell due by itself.
///
/// # Errors
/// Whatever the database says.
pub async fn note_by_itself(db: &mut Db, outfit_id: i64, what: &str, about: &str, now: i64) -> Result<(), StoreError> {
    sqlx::query("insert into changes (outfit_id, what, about, changed_at) values ($1, $2, $3, $4)")
        .bind(outfit_id)
        .bind(what)
        .bind(about)
        .bind(now)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// The last changes of an outfit, newest first.
///
/// # Errors
/// Whatever the database says.
pub async fn latest(db: &mut Db, outfit_id: i64, count: i64) -> Result<Vec<Change>, StoreError> {
    Ok(sqlx::query_as(
        "select person_id, what, about, changed_at from changes where outfit_id = $1 order by id desc limit $2",
    )
    .bind(outfit_id)
    .bind(count)
    .fetch_all(&mut *db)
    .await?)
}
