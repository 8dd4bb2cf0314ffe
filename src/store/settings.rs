//! What was set for an outfit or a rig, as text by name, with its past.

use super::readings::Teller;
use super::{Db, StoreError};

/// One setting as it stands, or as it stood.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
pub struct Kept {
    /// The rig, if it holds for one rig alone.
    pub rig_id: Option<i64>,
    /// Which setting.
    pub name: String,
    /// Its value, as `message` writes it; empty for the default.
    pub value: String,
    /// Who set it; none when it came with the outfit or the person is forgotten.
    pub person_id: Option<i64>,
    /// When, UTC seconds.
    pub set_at: i64,
}

/// Sets a value; the one before stays in the record.
///
/// # Errors
/// Whatever the database says.
pub async fn set(db: &mut Db, teller: Teller, rig_id: Option<i64>, name: &str, value: &str) -> Result<(), StoreError> {
    sqlx::query(
        "insert into settings (outfit_id, rig_id, name, value, person_id, set_at) values ($1, $2, $3, $4, $5, $6)",
    )
    .bind(teller.outfit_id)
    .bind(rig_id)
    .bind(name)
    .bind(value)
    .bind(teller.person_id)
    .bind(teller.heard_at)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// What holds now in an outfit: the newest of each name and rig.
///
/// # Errors
/// Whatever the database says.
pub async fn standing(db: &mut Db, outfit_id: i64) -> Result<Vec<Kept>, StoreError> {
    Ok(sqlx::query_as(
        "select rig_id, name, value, person_id, set_at from settings
         where outfit_id = $1 and value <> '' and id in (
             select max(id) from settings where outfit_id = $1 group by rig_id, name)
         order by id",
    )
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?)
}

#[derive(sqlx::FromRow)]
pub(super) struct OfOutfit {
    pub outfit_id: i64,
    #[sqlx(flatten)]
    pub kept: Kept,
}

/// What holds now in every outfit, with the outfit's number: one look for all.
///
/// # Errors
/// Whatever the database says.
pub async fn standing_everywhere(db: &mut Db) -> Result<Vec<(i64, Kept)>, StoreError> {
    let rows: Vec<OfOutfit> = sqlx::query_as(
        "select outfit_id, rig_id, name, value, person_id, set_at from settings
         where value <> '' and id in (select max(id) from settings group by outfit_id, rig_id, name)
         order by id",
    )
    .fetch_all(&mut *db)
    .await?;
    Ok(rows.into_iter().map(|row| (row.outfit_id, row.kept)).collect())
}

/// All that was ever set in an outfit, oldest first.
///
/// # Errors
/// Whatever the database says.
pub async fn all(db: &mut Db, outfit_id: i64) -> Result<Vec<Kept>, StoreError> {
    Ok(
        sqlx::query_as("select rig_id, name, value, person_id, set_at from settings where outfit_id = $1 order by id")
            .bind(outfit_id)
            .fetch_all(&mut *db)
            .await?,
    )
}

/// The newest of what was set in an outfit, taken back or not.
///
/// # Errors
/// Whatever the database says.
pub async fn past(db: &mut Db, outfit_id: i64, count: i64) -> Result<Vec<Kept>, StoreError> {
    Ok(sqlx::query_as(
        "select rig_id, name, value, person_id, set_at from settings
         where outfit_id = $1 order by id desc limit $2",
    )
    .bind(outfit_id)
    .bind(count)
    .fetch_all(&mut *db)
    .await?)
}

/// What somebody set last under a name since an instant, where it is the newest of its rig: what they may take back.
///
/// # Errors
/// Whatever the database says.
pub async fn told_last(
    db: &mut Db,
    outfit_id: i64,
    person_id: i64,
    name: &str,
    since: i64,
) -> Result<Option<Kept>, StoreError> {
    Ok(sqlx::query_as(
        "select rig_id, name, value, person_id, set_at from settings
         where person_id = $2 and set_at >= $4 and id in (
             select max(id) from settings where outfit_id = $1 and name = $3 group by rig_id)
         order by id desc limit 1",
    )
    .bind(outfit_id)
    .bind(person_id)
    .bind(name)
    .bind(since)
    .fetch_optional(&mut *db)
    .await?)
}

/// Sets again what stood before the newest value of a name; nobody set that.
///
/// # Errors
/// Whatever the database says.
pub async fn put_back(
    db: &mut Db,
    outfit_id: i64,
    rig_id: Option<i64>,
    name: &str,
    now: i64,
) -> Result<(), StoreError> {
    let values: Vec<String> = sqlx::query_scalar(
        "select value from settings
         where outfit_id = $1 and name = $2 and coalesce(rig_id, 0) = $3 order by id desc limit 2",
    )
    .bind(outfit_id)
    .bind(name)
    .bind(rig_id.unwrap_or_default())
    .fetch_all(&mut *db)
    .await?;
    let before = values.get(1).map_or("", String::as_str);
    sqlx::query("insert into settings (outfit_id, rig_id, name, value, set_at) values ($1, $2, $3, $4, $5)")
        .bind(outfit_id)
        .bind(rig_id)
        .bind(name)
        .bind(before)
        .bind(now)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// The names under which the past of an outfit's name and zone is kept; what
/// holds stands in its own columns.
pub const NAME: &str = "name";
/// See [`NAME`].
pub const ZONE: &str = "zone";

/// Notes what an outfit came with: nobody set it.
///
/// # Errors
/// Whatever the database says.
pub async fn came_with(db: &mut Db, outfit_id: i64, name: &str, value: &str, now: i64) -> Result<(), StoreError> {
    sqlx::query("insert into settings (outfit_id, name, value, set_at) values ($1, $2, $3, $4)")
        .bind(outfit_id)
        .bind(name)
        .bind(value)
        .bind(now)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// The name under which the address of the crew's group chat is kept.
pub const CREW_CHAT: &str = "crew-chat";

/// The crew's group chat, if one is linked.
///
/// # Errors
/// Whatever the database says.
pub async fn crew_chat(db: &mut Db, outfit_id: i64) -> Result<Option<String>, StoreError> {
    let chat: Option<String> = sqlx::query_scalar(
        "select value from settings where outfit_id = $1 and name = 'crew-chat' order by id desc limit 1",
    )
    .bind(outfit_id)
    .fetch_optional(&mut *db)
    .await?;
    Ok(chat.filter(|chat| !chat.is_empty()))
}

/// The outfit whose crew's chat this is, if it is one.
///
/// # Errors
/// Whatever the database says.
pub async fn outfit_of_crew_chat(db: &mut Db, chat: &str) -> Result<Option<i64>, StoreError> {
    Ok(sqlx::query_scalar(
        "select outfit_id from settings where value = $1 and id in (
             select max(id) from settings where name = 'crew-chat' group by outfit_id)
         order by id limit 1",
    )
    .bind(chat)
    .fetch_optional(&mut *db)
    .await?)
}
