//! Forgetting a person for good: what they recorded stays, as somebody's.

use super::{Db, StoreError};

/// Takes name, language, address and chat of a person out of every table, and
/// the person out of their outfit. Keys of messages from their private chat
/// hold its address, so those go as well.
///
/// # Errors
/// Whatever the database says.
pub async fn person(db: &mut Db, id: i64) -> Result<(), StoreError> {
    let (address, chat): (String, String) = sqlx::query_as("select address, chat from people where id = $1")
        .bind(id)
        .fetch_one(&mut *db)
        .await?;
    what_waits_for(db, id).await?;
    for sql in [
        "delete from cautions where person_id = $1",
        "delete from unasked where person_id = $1",
        "update invites set uses_left = 0 where person_id = $1",
        "update people set address = 'forgotten:' || cast(id as text), chat = '', first_name = '', language = null,
             chosen_language = null, outfit_id = null, role = null, own_rig_id = null, today_rig_id = null,
             nudged_rig_id = null where id = $1",
    ] {
        sqlx::query(sql).bind(id).execute(&mut *db).await?;
    }
    // What was kept aside of them as it came: a press has no chat in its key.
    sqlx::query("delete from dead where payload like '%\"' || $1 || '\"%'")
        .bind(&address)
        .execute(&mut *db)
        .await?;
    chat_and_its_keys(db, &chat).await?;
    if address != chat {
        chat_and_its_keys(db, &address).await?;
    }
    Ok(())
}

/// Closes all that waits for an answer of somebody who goes: questions with their buttons, the guide, reminders, rows
/// that were offered. It is of the outfit that they leave, and must not meet them in the next.
pub(super) async fn what_waits_for(db: &mut Db, id: i64) -> Result<(), StoreError> {
    for sql in [
        "delete from buttons where person_id = $1
             or question_id in (select id from questions where person_id = $1)",
        "delete from questions where person_id = $1",
        "delete from set_ups where person_id = $1",
        "update nudges set chat = '', repeated_at = coalesce(repeated_at, asked_at) where person_id = $1",
        "update imports set source = '', settled_at = coalesce(settled_at, offered_at) where person_id = $1",
    ] {
        sqlx::query(sql).bind(id).execute(&mut *db).await?;
    }
    Ok(())
}

/// Forgets a chat's address, what was sent there, and the keys of its messages.
pub(super) async fn chat_and_its_keys(db: &mut Db, chat: &str) -> Result<(), StoreError> {
    for sql in [
        "delete from carried_blobs where send_id in (select id from sends where chat = $1)",
        "delete from sends where chat = $1",
        "delete from chats where address = $1",
    ] {
        sqlx::query(sql).bind(chat).execute(&mut *db).await?;
    }
    // A message's key is its chat's address, a slash and a number; a group's
    // address has a mark before it that its keys have not.
    let prefix = format!("{}/", chat.trim_start_matches('#'));
    let length = prefix.chars().count() as i32;
    for sql in [
        "update readings set source_key = 'forgotten:' || cast(id as text) where substr(source_key, 1, $1) = $2",
        "update services set source_key = 'forgotten:' || cast(id as text) where substr(source_key, 1, $1) = $2",
        "delete from heard where substr(key, 1, $1) = $2",
        "delete from dead where substr(key, 1, $1) = $2",
    ] {
        sqlx::query(sql).bind(length).bind(&prefix).execute(&mut *db).await?;
    }
    Ok(())
}
