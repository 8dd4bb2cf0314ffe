//! Chats: whether one shut us out, until when it is left alone, and where one moved to.
//!
//! All of that belongs to the chat as a whole, whichever of its topics a message came from or goes to, so `address` is
//! a chat's without a topic ([`chat_of`]). The empty address stands for all chats at once.

use crate::domain::envelope::chat_of;

use super::{Db, StoreError, rows};

/// The chat shut the bot out: nothing more goes there, and what waits is cancelled.
///
/// # Errors
/// Whatever the database says.
pub async fn block(db: &mut Db, address: &str, now: i64) -> Result<(), StoreError> {
    sqlx::query(
        "insert into chats (address, ready_at, blocked_at) values ($1, 0, $2)
         on conflict (address) do update set blocked_at = excluded.blocked_at",
    )
    .bind(chat_of(address))
    .bind(now)
    .execute(&mut *db)
    .await?;
    sqlx::query("update sends set finished_at = $1, failure = 'blocked' where base = $2 and finished_at is null")
        .bind(now)
        .bind(chat_of(address))
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// The chat lets the bot in again.
///
/// # Errors
/// Whatever the database says.
pub async fn unblock(db: &mut Db, address: &str) -> Result<(), StoreError> {
    unblock_all(db, &[address]).await
}

/// Something came from these chats, or from their topics, which proves that they let the bot in: one statement for a
/// whole batch, which writes nothing where nothing was blocked.
///
/// # Errors
/// Whatever the database says.
pub async fn unblock_all(db: &mut Db, addresses: &[&str]) -> Result<(), StoreError> {
    let mut chats: Vec<&str> = addresses.iter().map(|address| chat_of(address)).collect();
    chats.sort_unstable();
    chats.dedup();
    sqlx::query(
        "update chats set blocked_at = null
         where blocked_at is not null and address in (select j.value ->> 0 from jsonb_each($1) j)",
    )
    .bind(rows::json(&singles(&chats))?)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// Texts as rows of one column.
pub(super) fn singles<'a>(texts: &[&'a str]) -> Vec<(&'a str,)> {
    texts.iter().map(|text| (*text,)).collect()
}

/// Leaves chats alone for so many seconds from now, by the database's clock; a longer pause that stands already is
/// kept. `me` is the process that notes it.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn leave_alone(db: &mut Db, me: &str, pauses: &[(&str, i64)]) -> Result<(), StoreError> {
    if pauses.is_empty() {
        return Ok(());
    }
    sqlx::query(
        "insert into chats (address, ready_at, paced_by)
             select j.value ->> 0, unixepoch() + cast(j.value ->> 1 as bigint), $2 from jsonb_each($1) j where true
         on conflict (address) do update set paced_by = excluded.paced_by,
             ready_at = case when chats.ready_at > excluded.ready_at then chats.ready_at else excluded.ready_at end",
    )
    .bind(rows::json(pauses)?)
    .bind(me)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// For how many seconds still nothing may go to anybody, because the platform said so to some copy.
///
/// # Errors
/// Whatever the database says.
pub async fn pause_of_all(db: &mut Db) -> Result<i64, StoreError> {
    let wait: Option<i64> = sqlx::query_scalar("select ready_at - unixepoch() from chats where address = ''")
        .fetch_optional(&mut *db)
        .await?;
    Ok(wait.unwrap_or(0).max(0))
}

/// A group became a supergroup and has a new address. What waits for it is given free, to be claimed anew.
///
/// # Errors
/// Whatever the database says.
pub async fn moved(db: &mut Db, from: &str, to: &str) -> Result<(), StoreError> {
    sqlx::query(
        "update sends set chat = $2, base = $2, lease_by = null, leased_until = null
         where base = $1 and finished_at is null",
    )
    .bind(chat_of(from))
    .bind(to)
    .execute(&mut *db)
    .await?;
    for sql in [
        "update questions set chat = $2 where chat = $1 and closed_at is null",
        "update people set chat = $2 where chat = $1",
        "update settings set value = $2 where name = 'crew-chat' and value = $1",
        "update outfits set version = version + 1
         where $1 <> $2 and (id in (select outfit_id from people where chat = $2)
             or id in (select outfit_id from settings where name = 'crew-chat' and value = $2))",
    ] {
        sqlx::query(sql).bind(from).bind(to).execute(&mut *db).await?;
    }
    Ok(())
}

/// Whether a chat shut the bot out.
///
/// # Errors
/// Whatever the database says.
pub async fn is_blocked(db: &mut Db, address: &str) -> Result<bool, StoreError> {
    let blocked: i64 = sqlx::query_scalar("select count(*) from chats where address = $1 and blocked_at is not null")
        .bind(chat_of(address))
        .fetch_one(&mut *db)
        .await?;
    Ok(blocked > 0)
}
