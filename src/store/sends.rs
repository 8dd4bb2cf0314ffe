//! Messages on their way out: inserted in the transaction that caused them, held under a lease by the process that
//! delivers them, finished once delivered.
//!
//! At any time one process at most holds unfinished messages of a chat, and a process delivers one of a chat at a time,
//! so order holds over retries, restarts and copies. [`insert`] and [`claim`] keep that true together: both take the
//! same lock first (the counter that the numbers are drawn from), and look only then. Leases go by the database's
//! clock. A crash between delivery and [`settle`] repeats one message: at least once.

use std::collections::{HashMap, HashSet};

use serde::{Deserialize, Serialize};

use crate::domain::envelope::{Body, File, Handling, Outgoing, Send, Sent, chat_of};

use super::{Db, Store, StoreError, blobs, chats, rows};

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

/// How long a lease holds unless it is renewed, in seconds: so long a chat waits when its process is killed.
pub const LEASE_S: i64 = 20;

/// Claimed of one chat at a time, so that a chat with thousands of messages holds up no other.
const MOST_OF_A_CHAT: i64 = 16;

/// What the column `body` holds.
#[derive(Serialize, Deserialize)]
struct Letter {
    #[serde(flatten)]
    body: Body,
    #[serde(default)]
    handling: Handling,
}

/// Queues one message, in as many pieces as it needs, for whoever claims it.
///
/// # Errors
/// Whatever the database says.
pub async fn queue(db: &mut Db, outgoing: &Outgoing, now: i64) -> Result<(), StoreError> {
    insert(db, None, std::slice::from_ref(outgoing), now).await?;
    Ok(())
}

/// Inserts messages, in as many pieces as they need, and returns those that `holder` holds from now on: they may be
/// handed to its outbox once the transaction is committed. Without a holder, none. What nobody asked for, and what goes
/// to a chat that somebody else holds messages of, or where something is left to claim, or that is to be left alone,
/// waits to be claimed.
///
/// # Errors
/// Whatever the database says.
pub async fn insert(
    db: &mut Db,
    holder: Option<&str>,
    outgoing: &[Outgoing],
    now: i64,
) -> Result<Vec<Send>, StoreError> {
    let mut sends = Vec::with_capacity(outgoing.len());
    for (index, message) in outgoing.iter().enumerate() {
        for body in message.body.clone().pieces() {
            let send = Send {
                id: 0,
                chat: message.chat.clone(),
                body,
                handling: message.handling,
                files: Vec::new(),
                tries: 0,
            };
            sends.push((index, send));
        }
    }
    if sends.is_empty() {
        return Ok(Vec::new());
    }
    let first = rows::draw(db, rows::Table::Sends, sends.len()).await?;
    let others = match holder {
        Some(me) => held_up(db, me, &sends).await?,
        None => HashSet::new(),
    };
    let mut written = Vec::with_capacity(sends.len());
    let mut carrying = Vec::new();
    let mut handed_over = Vec::new();
    for (number, (index, mut send)) in (first..).zip(sends) {
        send.id = number;
        let source_key = outgoing.get(index).and_then(|message| message.source_key.as_deref());
        let letter = Letter {
            body: send.body,
            handling: send.handling,
        };
        let text = rows::json_text(&letter)?;
        send.body = letter.body;
        let base = chat_of(&send.chat).to_owned();
        let lease_by = holder.filter(|_| !send.handling.unasked && !others.contains(&base));
        let unasked_at = send.handling.unasked.then_some(now);
        written.push((number, send.chat.clone(), base, text, source_key, unasked_at, lease_by));
        if !send.body.attachments().is_empty() {
            carrying.push((number, send.body.attachments().to_vec()));
        }
        if lease_by.is_some() {
            handed_over.push(send);
        }
    }
    sqlx::query(
        "insert into sends (id, chat, base, body, source_key, unasked_at, lease_by, leased_until,
                            queued_at, ready_at, tries)
         select cast(j.value ->> 0 as bigint), j.value ->> 1, j.value ->> 2, j.value ->> 3, j.value ->> 4,
                cast(j.value ->> 5 as bigint), j.value ->> 6,
                case when j.value ->> 6 is null then null else unixepoch() + $2 end, $3, 0, 0
         from jsonb_each($1) j where true",
    )
    .bind(rows::json(&written)?)
    .bind(LEASE_S)
    .bind(now)
    .execute(&mut *db)
    .await?;
    for (send, attachments) in carrying {
        blobs::carry(db, &attachments, send).await?;
    }
    Ok(handed_over)
}

/// Whether anybody but `$1` holds anything unfinished, or nobody does. Mostly not, and three looks at the end of an
/// index say so, however much `$1` holds.
macro_rules! any_other {
    ($or:literal) => {
        concat!(
            "select case when exists (select 1 from sends where finished_at is null and lease_by is null)
                           or exists (select 1 from sends where finished_at is null and lease_by < $1)
                           or exists (select 1 from sends where finished_at is null and lease_by > $1) ",
            $or,
            " then 1 else 0 end"
        )
    };
}

const ANY_OTHER: &str = any_other!("");
const ANY_HINDRANCE: &str = any_other!("or exists (select 1 from chats where blocked_at is not null or ready_at > 0)");

/// The chats whose messages may not be handed over: an answer waits there to be claimed, another process holds
/// something, the chat shut the bot out, or another process noted a pause.
async fn held_up(db: &mut Db, me: &str, sends: &[(usize, Send)]) -> Result<HashSet<String>, StoreError> {
    let any: i64 = sqlx::query_scalar(ANY_HINDRANCE).bind(me).fetch_one(&mut *db).await?;
    if any == 0 {
        return Ok(HashSet::new());
    }
    let mut bases: Vec<&str> = sends.iter().map(|(_, send)| chat_of(&send.chat)).collect();
    bases.sort_unstable();
    bases.dedup();
    let found: Vec<String> = sqlx::query_scalar(
        "select j.value ->> 0 from jsonb_each($1) j
         where exists (select 1 from sends s where s.base = j.value ->> 0 and s.finished_at is null
                       and s.lease_by is null and s.unasked_at is null)
            or j.value ->> 0 in (select base from sends where finished_at is null and (lease_by < $2 or lease_by > $2))
            or exists (select 1 from chats c where c.address = j.value ->> 0
                       and (c.blocked_at is not null or (c.ready_at > unixepoch() and c.paced_by <> $2)))",
    )
    .bind(rows::json(&chats::singles(&bases))?)
    .bind(me)
    .fetch_all(&mut *db)
    .await?;
    Ok(found.into_iter().collect())
}

/// What `$1` may claim: messages of chats of which nobody holds anything, and which let the bot in and are not to be
/// left alone. A lease that ran out holds nothing, unless it is one's own: what one holds, one has.
macro_rules! free {
    ($select:literal, $end:literal) => {
        concat!(
            "with held as (
                 select base from sends where finished_at is null
                 and (lease_by = $1 or ((lease_by < $1 or lease_by > $1) and leased_until > unixepoch()))) ",
            $select,
            " from sends f left join chats c on c.address = f.base
             where f.finished_at is null
               and (f.lease_by is null or ((f.lease_by < $1 or f.lease_by > $1) and f.leased_until <= unixepoch()))
               and f.base not in (select base from held)
               and c.blocked_at is null
               and (c.ready_at is null or c.ready_at <= unixepoch() or c.paced_by = $1)",
            $end
        )
    };
}

/// The first few of each chat, answers before the rest.
const PICK: &str = free!(
    "select s.id, s.chat, s.body, s.tries from (
         select f.id, row_number() over (partition by f.base
                    order by case when f.unasked_at is null then 0 else 1 end, f.id) as place",
    ") as free join sends s on s.id = free.id
     where free.place <= $2
     order by case when s.unasked_at is null then 0 else 1 end, s.id limit $3"
);

/// Whether there is any.
const LOOK: &str = free!("select count(*) from (select 1", " limit 1) as found");

/// Claims what waits, up to `most`, the first of each chat first. Most looks find nothing, and those write nothing.
///
/// # Errors
/// Whatever the database says.
pub async fn claim(store: &Store, me: &str, most: i64) -> Result<Vec<Send>, StoreError> {
    let mut look = store.read().await?;
    let other: i64 = sqlx::query_scalar(ANY_OTHER).bind(me).fetch_one(&mut *look).await?;
    if other == 0 {
        return Ok(Vec::new());
    }
    let some: i64 = sqlx::query_scalar(LOOK).bind(me).fetch_one(&mut *look).await?;
    if some == 0 {
        return Ok(Vec::new());
    }
    drop(look);
    let mut tx = store.begin().await?;
    // The lock that inserting takes, too: nobody hands over to a chat while it is claimed.
    rows::draw(&mut tx, rows::Table::Sends, 0).await?;
    let picked: Vec<(i64, String, String, i64)> = sqlx::query_as(PICK)
        .bind(me)
        .bind(MOST_OF_A_CHAT)
        .bind(most)
        .fetch_all(&mut *tx)
        .await?;
    let ids: Vec<(i64,)> = picked.iter().map(|(id, ..)| (*id,)).collect();
    sqlx::query(
        "update sends set lease_by = $2, leased_until = unixepoch() + $3
         where id in (select cast(j.value ->> 0 as bigint) from jsonb_each($1) j)",
    )
    .bind(rows::json(&ids)?)
    .bind(me)
    .bind(LEASE_S)
    .execute(&mut *tx)
    .await?;
    let mut claimed = Vec::with_capacity(picked.len());
    for (id, chat, body, tries) in picked {
        match serde_json::from_str::<Letter>(&body) {
            Ok(Letter { body, handling }) => claimed.push(Send {
                id,
                chat,
                body,
                handling,
                files: Vec::new(),
                tries,
            }),
            Err(why) => {
                sqlx::query("update sends set finished_at = unixepoch(), failure = $2 where id = $1")
                    .bind(id)
                    .bind(why.to_string())
                    .execute(&mut *tx)
                    .await?;
            }
        }
    }
    tx.commit().await?;
    Ok(claimed)
}

/// The files that a message carries, for its delivery; those that are gone are left out.
///
/// # Errors
/// Whatever the database says.
pub async fn files(db: &mut Db, body: &Body) -> Result<Vec<File>, StoreError> {
    blobs::files(db, body.attachments()).await
}

/// How the delivery of a message ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Landed {
    /// The message's number.
    pub id: i64,
    /// Where it went.
    pub chat: String,
    /// How it ended.
    pub sent: Sent,
    /// How often it was tried.
    pub tries: i64,
    /// Seconds from then for which the platform's limits want the chat left alone; 0 for none.
    pub pause_s: i64,
}

/// Writes down how deliveries ended, in one statement whatever their number, where `me` still holds the lease. What is
/// to be tried again stays held.
///
/// # Errors
/// Whatever the database says.
pub async fn settle(db: &mut Db, me: &str, landed: &[Landed], now: i64) -> Result<(), StoreError> {
    if landed.is_empty() {
        return Ok(());
    }
    let mut written = Vec::with_capacity(landed.len());
    let mut pauses: HashMap<&str, i64> = HashMap::new();
    let mut pause = |chat, wait_s: i64| {
        let longest = pauses.entry(chat).or_default();
        *longest = wait_s.max(*longest);
    };
    for ended in landed {
        let (finished_at, key, failure) = match &ended.sent {
            Sent::Delivered(key) => (Some(now), key.as_deref(), None),
            // PostgreSQL takes no NUL, and the words are the platform's.
            Sent::Refused(why) => (Some(now), None, Some(why.replace('\0', " "))),
            Sent::Blocked => (Some(now), None, Some("blocked".to_owned())),
            Sent::Moved(_) | Sent::NotBefore(_) => (None, None, None),
            Sent::TooFast { wait_s, everywhere } => {
                pause(if *everywhere { "" } else { chat_of(&ended.chat) }, *wait_s);
                (None, None, None)
            }
        };
        if ended.pause_s > 0 {
            pause(chat_of(&ended.chat), ended.pause_s);
        }
        written.push((ended.id, finished_at, key, failure, ended.tries));
    }
    // `coalesce`, so that rows are found by their number: by the index of leases, each row would go through all that is
    // held.
    sqlx::query(
        "update sends set finished_at = cast(j.value ->> 1 as bigint), remote_key = j.value ->> 2,
                          failure = j.value ->> 3, tries = cast(j.value ->> 4 as bigint)
         from jsonb_each($1) j
         where sends.id = cast(j.value ->> 0 as bigint) and coalesce(sends.lease_by, '') = $2
               and sends.finished_at is null",
    )
    .bind(rows::json(&written)?)
    .bind(me)
    .execute(&mut *db)
    .await?;
    let mut pauses: Vec<(&str, i64)> = pauses.into_iter().collect();
    // In one order, so that two copies cannot wait for each other.
    pauses.sort_unstable();
    chats::leave_alone(db, me, &pauses).await?;
    for ended in landed {
        match &ended.sent {
            Sent::Blocked => chats::block(db, &ended.chat, now).await?,
            Sent::Moved(to) => chats::moved(db, &ended.chat, to).await?,
            _ => {}
        }
    }
    Ok(())
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
