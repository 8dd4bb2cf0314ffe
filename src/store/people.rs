//! People: the platform's id, first name and language, their outfit and role.

use super::{Db, StoreError, forgetting, invites};

pub use crate::domain::Role;

/// Somebody in an outfit.
#[derive(Clone, Debug, PartialEq)]
pub struct Member {
    /// Their number.
    pub id: i64,
    /// Their private chat.
    pub chat: String,
    /// The first name that the platform gave.
    pub first_name: String,
    /// Tag of the language to answer in, such as `en` or `es`: the chosen one,
    /// else the platform's.
    pub language: Option<String>,
    /// Language tag that the platform gave when it was last noted.
    pub platform_language: Option<String>,
    /// Their outfit.
    pub outfit_id: i64,
    /// Their role in it.
    pub role: Role,
    /// The rig that a bare reading of theirs is about.
    pub own_rig: Option<i64>,
    /// The rig that they are on for a day, and until when, UTC seconds.
    pub todays_rig: Option<(i64, i64)>,
    /// When they came into the outfit, UTC seconds.
    pub joined_at: i64,
}

#[derive(sqlx::FromRow)]
pub(super) struct Row {
    id: i64,
    chat: String,
    first_name: String,
    answers_in: Option<String>,
    language: Option<String>,
    outfit_id: i64,
    role: String,
    own_rig_id: Option<i64>,
    today_rig_id: Option<i64>,
    today_until_at: Option<i64>,
    joined_at: i64,
}

macro_rules! select {
    ($rest:literal) => {
        concat!(
            "select id, chat, first_name, coalesce(chosen_language, language) as answers_in, language, outfit_id, \
             role, own_rig_id, today_rig_id, today_until_at, joined_at from people ",
            $rest
        )
    };
}

pub(super) fn member(row: Row) -> Result<Member, StoreError> {
    let role = Role::from_word(&row.role).ok_or(StoreError::Stored {
        what: "role",
        why: row.role,
    })?;
    Ok(Member {
        id: row.id,
        chat: row.chat,
        first_name: row.first_name,
        language: row.answers_in,
        platform_language: row.language,
        outfit_id: row.outfit_id,
        role,
        own_rig: row.own_rig_id,
        todays_rig: row.today_rig_id.zip(row.today_until_at),
        joined_at: row.joined_at,
    })
}

/// The member behind a platform address, if they are in an outfit.
///
/// # Errors
/// Whatever the database says.
pub async fn find(db: &mut Db, address: &str) -> Result<Option<Member>, StoreError> {
    let row: Option<Row> = sqlx::query_as(select!("where address = $1 and outfit_id is not null"))
        .bind(address)
        .fetch_optional(&mut *db)
        .await?;
    row.map(member).transpose()
}

/// A member by number, if they are still in an outfit.
///
/// # Errors
/// Whatever the database says.
pub async fn get(db: &mut Db, id: i64) -> Result<Option<Member>, StoreError> {
    let row: Option<Row> = sqlx::query_as(select!("where id = $1 and outfit_id is not null"))
        .bind(id)
        .fetch_optional(&mut *db)
        .await?;
    row.map(member).transpose()
}

/// Everybody in an outfit, in the order in which they came.
///
/// # Errors
/// Whatever the database says.
pub async fn of_outfit(db: &mut Db, outfit_id: i64) -> Result<Vec<Member>, StoreError> {
    let rows: Vec<Row> = sqlx::query_as(select!("where outfit_id = $1 order by joined_at, id"))
        .bind(outfit_id)
        .fetch_all(&mut *db)
        .await?;
    rows.into_iter().map(member).collect()
}

/// Somebody who comes in, as the platform describes them.
pub struct Newcomer<'a> {
    /// The platform's id for the person.
    pub address: &'a str,
    /// Their private chat.
    pub chat: &'a str,
    /// First name.
    pub first_name: &'a str,
    /// Language tag.
    pub language: Option<&'a str>,
}

/// Puts somebody into an outfit.
///
/// # Errors
/// Whatever the database says.
pub async fn join(db: &mut Db, who: &Newcomer<'_>, outfit_id: i64, role: Role, now: i64) -> Result<(), StoreError> {
    sqlx::query(
        "insert into people (address, chat, first_name, language, outfit_id, role, joined_at)
         values ($1, $2, $3, $4, $5, $6, $7)
         on conflict (address) do update set chat = excluded.chat, first_name = excluded.first_name,
             language = excluded.language, outfit_id = excluded.outfit_id, role = excluded.role,
             own_rig_id = null, today_rig_id = null, nudged_rig_id = null, joined_at = excluded.joined_at",
    )
    .bind(who.address)
    .bind(who.chat)
    .bind(who.first_name)
    .bind(who.language)
    .bind(outfit_id)
    .bind(role.word())
    .bind(now)
    .execute(&mut *db)
    .await?;
    super::versions::touch(db, &[outfit_id]).await?;
    Ok(())
}

/// Notes the language that the platform tells of somebody now.
///
/// # Errors
/// Whatever the database says.
pub async fn note_language(db: &mut Db, id: i64, language: Option<&str>) -> Result<(), StoreError> {
    sqlx::query("update people set language = $1 where id = $2")
        .bind(language)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Keeps the language that somebody chose; none: the platform's again.
///
/// # Errors
/// Whatever the database says.
pub async fn choose_language(db: &mut Db, id: i64, language: Option<&str>) -> Result<(), StoreError> {
    sqlx::query("update people set chosen_language = $1 where id = $2")
        .bind(language)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Takes somebody out of an outfit; their readings stay. What waits for an answer of theirs is closed, and their invites
/// let nobody in any more.
///
/// # Errors
/// Whatever the database says.
pub async fn leave(db: &mut Db, outfit_id: i64, id: i64) -> Result<(), StoreError> {
    sqlx::query(
        "update people set outfit_id = null, role = null, own_rig_id = null, today_rig_id = null, nudged_rig_id = null
         where id = $1 and outfit_id = $2",
    )
    .bind(id)
    .bind(outfit_id)
    .execute(&mut *db)
    .await?;
    forgetting::what_waits_for(db, id).await?;
    invites::cancel_of(db, outfit_id, id, None).await
}

/// Remembers that this person was just reminded of a rig, so that a bare "done"
/// is about it. Two reminders at once leave open which one "done" means.
///
/// # Errors
/// Whatever the database says.
pub async fn set_nudged(db: &mut Db, id: i64, rig_id: i64, now: i64) -> Result<(), StoreError> {
    sqlx::query(
        "update people set nudged_rig_id = case when nudged_at = $2 then null else $1 end, nudged_at = $2 where id = $3",
    )
    .bind(rig_id)
    .bind(now)
    .bind(id)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// Puts somebody on a rig until an instant.
///
/// # Errors
/// Whatever the database says.
pub async fn set_todays_rig(db: &mut Db, id: i64, rig_id: Option<i64>, until: i64) -> Result<(), StoreError> {
    sqlx::query("update people set today_rig_id = $1, today_until_at = $2 where id = $3")
        .bind(rig_id)
        .bind(until)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Gives a member of an outfit another role. Their invites that let in more than they may from now on end.
///
/// # Errors
/// Whatever the database says.
pub async fn set_role(db: &mut Db, outfit_id: i64, id: i64, role: Role) -> Result<(), StoreError> {
    sqlx::query("update people set role = $1 where id = $2 and outfit_id = $3")
        .bind(role.word())
        .bind(id)
        .bind(outfit_id)
        .execute(&mut *db)
        .await?;
    invites::cancel_of(db, outfit_id, id, Some(role)).await
}

/// The first name of anybody whom the bot knows; none if it was forgotten.
///
/// # Errors
/// Whatever the database says.
pub async fn first_name(db: &mut Db, id: i64) -> Result<Option<String>, StoreError> {
    let name: Option<String> = sqlx::query_scalar("select first_name from people where id = $1")
        .bind(id)
        .fetch_optional(&mut *db)
        .await?;
    Ok(name.filter(|name| !name.is_empty()))
}

/// Sets the rig that bare readings of this person are about.
///
/// # Errors
/// Whatever the database says.
pub async fn set_own_rig(db: &mut Db, id: i64, rig_id: Option<i64>) -> Result<(), StoreError> {
    sqlx::query("update people set own_rig_id = $1 where id = $2")
        .bind(rig_id)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}
