//! Which command menus the platform was told.

use std::collections::HashMap;

use super::people::Role;
use super::{Db, StoreError};

/// Who looks after an outfit: private chat, language, role.
///
/// # Errors
/// Whatever the database says.
pub async fn leads(db: &mut Db) -> Result<Vec<(String, Option<String>, Role)>, StoreError> {
    let rows: Vec<(String, Option<String>, String)> = sqlx::query_as(
        "select p.chat, p.language, p.role from people p left join chats c on c.address = p.chat
         where p.outfit_id is not null and p.role <> 'crew' and c.blocked_at is null order by p.id",
    )
    .fetch_all(&mut *db)
    .await?;
    let known =
        |(chat, language, role): (String, Option<String>, String)| Some((chat, language, Role::from_word(&role)?));
    Ok(rows.into_iter().filter_map(known).collect())
}

/// The hash of what was told, for each place.
///
/// # Errors
/// Whatever the database says.
pub async fn told(db: &mut Db) -> Result<HashMap<String, String>, StoreError> {
    let rows: Vec<(String, String)> = sqlx::query_as("select place, entries_hash from menus")
        .fetch_all(&mut *db)
        .await?;
    Ok(rows.into_iter().collect())
}

/// Notes what a place was told; none if its menu was taken away.
///
/// # Errors
/// Whatever the database says.
pub async fn note(db: &mut Db, place: &str, hash: Option<&str>) -> Result<(), StoreError> {
    let Some(hash) = hash else {
        sqlx::query("delete from menus where place = $1")
            .bind(place)
            .execute(&mut *db)
            .await?;
        return Ok(());
    };
    sqlx::query(
        "insert into menus (place, entries_hash) values ($1, $2)
         on conflict (place) do update set entries_hash = excluded.entries_hash",
    )
    .bind(place)
    .bind(hash)
    .execute(&mut *db)
    .await?;
    Ok(())
}
