//! Chats: whether one shut us out, and where one moved to.

use super::{Db, StoreError};

/// The chat shut the bot out: nothing more goes there, and what waits is
/// cancelled.
///
/// # Errors
/// Whatever the database says.
pub async fn block(db: &mut Db, address: &str, now: i64) -> Result<(), StoreError> {
    sqlx::query(
        "insert into chats (address, ready_at, blocked_at) values ($1, 0, $2)
         on conflict (address) do update set blocked_at = excluded.blocked_at",
    )
    .bind(address)
    .bind(now)
    .execute(&mut *db)
    .await?;
    sqlx::query("update sends set finished_at = $1, failure = 'blocked' where chat = $2 and finished_at is null")
        .bind(now)
        .bind(address)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// The chat lets the bot in again.
///
/// # Errors
/// Whatever the database says.
pub async fn unblock(db: &mut Db, address: &str) -> Result<(), StoreError> {
    sqlx::query("update chats set blocked_at = null where address = $1 and blocked_at is not null")
        .bind(address)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// A group became a supergroup and has a new address.
///
/// # Errors
/// Whatever the database says.
pub async fn moved(db: &mut Db, from: &str, to: &str) -> Result<(), StoreError> {
    for sql in [
        "update sends set chat = $2 where chat = $1 and finished_at is null",
        "update questions set chat = $2 where chat = $1 and closed_at is null",
        "update people set chat = $2 where chat = $1",
        "update settings set value = $2 where name = 'crew-chat' and value = $1",
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
        .bind(address)
        .fetch_one(&mut *db)
        .await?;
    Ok(blocked > 0)
}
