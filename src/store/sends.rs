//! Messages on their way out: queued in the transaction that caused them,
//! claimed under a lease, finished once delivered.
//!
//! Within a chat only the oldest unfinished answer may be claimed, and what
//! nobody asked for only when no answer waits there; so order holds over
//! retries, restarts and replicas. A crash between delivery and
//! [`Sent::Delivered`] repeats one message: at least once.

use serde::{Deserialize, Serialize};

use crate::bot::envelope::{Body, Handling, Outgoing, Send};

use super::{Db, Kind, Store, StoreError, blobs, pace};

/// How fast messages may go out.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// Messages in any second over all chats.
    pub per_second: i64,
    /// Seconds between messages to one private chat, on average.
    pub private_gap: i64,
    /// Seconds between messages to one group, on average.
    pub group_gap: i64,
    /// Seconds of gap that a short burst may run ahead.
    pub burst: i64,
}

/// What the column `body` holds.
#[derive(Serialize, Deserialize)]
struct Letter {
    #[serde(flatten)]
    body: Body,
    #[serde(default)]
    handling: Handling,
}

/// Queues a message, in as many pieces as it needs.
///
/// # Errors
/// Whatever the database says.
pub async fn queue(db: &mut Db, outgoing: &Outgoing, now: i64) -> Result<(), StoreError> {
    for body in outgoing.body.clone().pieces() {
        let letter = Letter {
            body,
            handling: outgoing.handling,
        };
        let written = serde_json::to_string(&letter).map_err(|why| StoreError::Stored {
            what: "message",
            why: why.to_string(),
        })?;
        let id: i64 = sqlx::query_scalar(
            "insert into sends (chat, body, source_key, queued_at, ready_at, tries, unasked_at)
             values ($1, $2, $3, $4, $4, 0, $5) returning id",
        )
        .bind(&outgoing.chat)
        .bind(written)
        .bind(&outgoing.source_key)
        .bind(now)
        .bind(outgoing.handling.unasked.then_some(now))
        .fetch_one(&mut *db)
        .await?;
        blobs::carry(db, letter.body.attachments(), id).await?;
    }
    Ok(())
}

/// The first message of each chat that may go now, answers before the rest.
macro_rules! pick {
    ($lock:literal) => {
        concat!(
            "select s.id, s.chat, s.body, s.tries from sends s left join chats c on c.address = s.chat
             where s.finished_at is null
               and s.id in (select coalesce(min(case when unasked_at is null then id end), min(id))
                            from sends where finished_at is null group by chat)
               and s.ready_at <= $1 and (s.leased_until is null or s.leased_until <= $1)
               and coalesce(c.ready_at, 0) <= $2 and c.blocked_at is null
             order by case when s.unasked_at is null then 0 else 1 end, s.id limit $3",
            $lock
        )
    };
}

/// PostgreSQL locks what it picks and skips what another replica locked; SQLite
/// has one writer, whose transaction is the lock.
const PICK_SQLITE: &str = pick!("");
const PICK_POSTGRES: &str = pick!(" for update of s skip locked");

/// An upload may take this many times as long as a text.
pub const UPLOAD_LEASES: i64 = 3;

/// Claims what may go now, up to `most`, for `lease` seconds; what carries
/// files for [`UPLOAD_LEASES`] times that. The time is told in UTC milliseconds,
/// since the limit holds in any second and not only in whole ones.
///
/// # Errors
/// Whatever the database says.
pub async fn claim(
    store: &Store,
    me: &str,
    limits: &Limits,
    most: i64,
    lease: i64,
    now_ms: i64,
) -> Result<Vec<Send>, StoreError> {
    let now = now_ms.div_euclid(1000);
    let mut tx = store.begin().await?;
    // Most looks find nothing, and those must not write.
    if waiting(&mut tx).await? == 0 {
        return Ok(Vec::new());
    }
    let (left, marks) = pace::room(&mut tx, limits.per_second, now_ms).await?;
    let room = most.min(left);
    if room <= 0 {
        return Ok(Vec::new());
    }
    let pick = match store.kind() {
        Kind::Sqlite => PICK_SQLITE,
        Kind::Postgres => PICK_POSTGRES,
    };
    let rows: Vec<(i64, String, String, i64)> = sqlx::query_as(pick)
        .bind(now)
        .bind(now + limits.burst)
        .bind(room)
        .fetch_all(&mut *tx)
        .await?;
    if rows.is_empty() {
        return Ok(Vec::new());
    }
    pace::note(&mut tx, marks, rows.len(), now_ms).await?;
    let mut claimed = Vec::with_capacity(rows.len());
    for (id, chat, body, tries) in rows {
        let Letter { body, handling } = match serde_json::from_str(&body) {
            Ok(letter) => letter,
            Err(why) => {
                finish(&mut tx, id, None, Some(&why.to_string()), now).await?;
                continue;
            }
        };
        let leases = if body.is_uploaded() { UPLOAD_LEASES } else { 1 };
        sqlx::query("update sends set lease_by = $1, leased_until = $2, tries = tries + 1 where id = $3")
            .bind(me)
            .bind(now + leases * lease)
            .bind(id)
            .execute(&mut *tx)
            .await?;
        if body.counts_against_limits() {
            keep_pace(&mut tx, &chat, limits, now).await?;
        }
        claimed.push(Send {
            files: blobs::files(&mut tx, body.attachments()).await?,
            id,
            chat,
            body,
            handling,
            tries: tries + 1,
        });
    }
    tx.commit().await?;
    Ok(claimed)
}

/// Each message moves the chat's next free moment on by its gap.
async fn keep_pace(db: &mut Db, chat: &str, limits: &Limits, now: i64) -> Result<(), StoreError> {
    let gap = if crate::bot::envelope::is_group(chat) {
        limits.group_gap
    } else {
        limits.private_gap
    };
    if gap == 0 {
        return Ok(());
    }
    sqlx::query(
        "insert into chats (address, ready_at) values ($1, $2 + $3)
         on conflict (address) do update set
             ready_at = case when chats.ready_at > $2 then chats.ready_at else $2 end + $3",
    )
    .bind(chat)
    .bind(now)
    .bind(gap)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// How a delivery ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sent {
    /// It is there; the platform's key for it, if it has one.
    Delivered(Option<String>),
    /// Not before this many seconds have passed, for the whole chat.
    NotBefore(i64),
    /// The chat shut the bot out.
    Blocked,
    /// The group has a new address; send it there.
    Moved(String),
    /// It can never be delivered.
    Refused(String),
}

/// Writes down how a delivery ended, if this process still holds its lease.
///
/// # Errors
/// Whatever the database says.
pub async fn settle(db: &mut Db, send: &Send, me: &str, sent: &Sent, now: i64) -> Result<(), StoreError> {
    let mine: i64 = sqlx::query_scalar("select count(*) from sends where id = $1 and lease_by = $2")
        .bind(send.id)
        .bind(me)
        .fetch_one(&mut *db)
        .await?;
    if mine == 0 {
        return Ok(());
    }
    match sent {
        Sent::Delivered(remote_key) => finish(db, send.id, remote_key.as_deref(), None, now).await,
        Sent::Refused(why) => finish(db, send.id, None, Some(why), now).await,
        Sent::Blocked => super::chats::block(db, &send.chat, now).await,
        Sent::Moved(to) => {
            super::chats::moved(db, &send.chat, to).await?;
            release(db, send.id, now).await
        }
        Sent::NotBefore(wait) => release(db, send.id, now + wait).await,
    }
}

async fn finish(
    db: &mut Db,
    id: i64,
    remote_key: Option<&str>,
    failure: Option<&str>,
    now: i64,
) -> Result<(), StoreError> {
    sqlx::query("update sends set finished_at = $1, remote_key = $2, failure = $3, leased_until = null where id = $4")
        .bind(now)
        .bind(remote_key)
        .bind(failure)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

async fn release(db: &mut Db, id: i64, ready_at: i64) -> Result<(), StoreError> {
    sqlx::query("update sends set leased_until = null, ready_at = $1 where id = $2")
        .bind(ready_at)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Frees what a crashed process of this copy had claimed, so that its chats
/// need not wait for the lease to run out. Names of processes start with
/// their copy's name and a slash.
///
/// # Errors
/// Whatever the database says.
pub async fn take_back(db: &mut Db, copy: &str) -> Result<u64, StoreError> {
    let prefix = format!("{copy}/");
    let freed = sqlx::query(
        "update sends set leased_until = null
         where finished_at is null and leased_until is not null and substr(lease_by, 1, $1) = $2",
    )
    .bind(prefix.chars().count() as i32)
    .bind(prefix)
    .execute(&mut *db)
    .await?;
    Ok(freed.rows_affected())
}

/// The message that an answer of the bot answered.
///
/// # Errors
/// Whatever the database says.
pub async fn answered_by(db: &mut Db, remote_key: &str) -> Result<Option<String>, StoreError> {
    let found: Option<Option<String>> =
        sqlx::query_scalar("select source_key from sends where remote_key = $1 order by id desc limit 1")
            .bind(remote_key)
            .fetch_optional(&mut *db)
            .await?;
    Ok(found.flatten())
}

/// The first button below a message that the bot sent: its token.
///
/// # Errors
/// Whatever the database says.
pub async fn first_button(db: &mut Db, remote_key: &str) -> Result<Option<String>, StoreError> {
    let body: Option<String> =
        sqlx::query_scalar("select body from sends where remote_key = $1 order by id desc limit 1")
            .bind(remote_key)
            .fetch_optional(&mut *db)
            .await?;
    let letter = body.and_then(|body| serde_json::from_str::<Letter>(&body).ok());
    Ok(letter.and_then(|letter| match letter.body {
        Body::Say { buttons, .. } => buttons.into_iter().next().map(|button| button.token),
        _ => None,
    }))
}

/// Whether a message is one that the bot sent.
///
/// # Errors
/// Whatever the database says.
pub async fn was_sent(db: &mut Db, remote_key: &str) -> Result<bool, StoreError> {
    let found: i64 = sqlx::query_scalar("select count(*) from sends where remote_key = $1")
        .bind(remote_key)
        .fetch_one(&mut *db)
        .await?;
    Ok(found > 0)
}

/// How many messages wait.
///
/// # Errors
/// Whatever the database says.
pub async fn waiting(db: &mut Db) -> Result<i64, StoreError> {
    Ok(
        sqlx::query_scalar("select count(*) from sends where finished_at is null")
            .fetch_one(&mut *db)
            .await?,
    )
}

/// Clears away what was finished before `before`, and what was queued before
/// and could not be sent since, such as to somebody who shut the bot out.
///
/// # Errors
/// Whatever the database says.
pub async fn forget(db: &mut Db, before: i64) -> Result<(), StoreError> {
    for sql in [
        "delete from carried_blobs where send_id in (
             select id from sends where finished_at < $1 or (finished_at is null and queued_at < $1))",
        "delete from sends where finished_at < $1 or (finished_at is null and queued_at < $1)",
    ] {
        sqlx::query(sql).bind(before).execute(&mut *db).await?;
    }
    Ok(())
}
