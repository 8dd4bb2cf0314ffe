//! What arrived already: the key that makes a repeated delivery harmless.

use std::collections::HashSet;

use sha2::{Digest, Sha256};

use super::{Db, StoreError, invites, rows};
use crate::domain::envelope::{Happening, Incoming};

/// What to do with something that has just arrived.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrival {
    /// Never seen: act on it.
    First,
    /// A newer text of a message that was heard before: correct what it made.
    Edit,
    /// Known, older than what is known, or an edit that changed no text.
    Known,
}

/// What tells an edited text from the same text sent again; empty for what has none.
#[must_use]
pub fn text_hash(incoming: &Incoming) -> String {
    match &incoming.what {
        Happening::Text(text) => invites::hex(&Sha256::digest(text.as_bytes())),
        _ => String::new(),
    }
}

/// Notes an arrival. `version` grows with each edit of one message; a message
/// whose edit came first is known when it comes itself.
///
/// # Errors
/// Whatever the database says.
pub async fn note(db: &mut Db, key: &str, version: i64, text_hash: &str, now: i64) -> Result<Arrival, StoreError> {
    let inserted = sqlx::query(
        "insert into heard (key, version, text_hash, heard_at) values ($1, $2, $3, $4) on conflict (key) do nothing",
    )
    .bind(key)
    .bind(version)
    .bind(text_hash)
    .bind(now)
    .execute(&mut *db)
    .await?;
    if inserted.rows_affected() == 1 {
        return Ok(Arrival::First);
    }
    let (known_version, known_hash): (i64, String) =
        sqlx::query_as("select version, text_hash from heard where key = $1")
            .bind(key)
            .fetch_one(&mut *db)
            .await?;
    if version <= known_version {
        return Ok(Arrival::Known);
    }
    sqlx::query("update heard set version = $1, text_hash = $2 where key = $3")
        .bind(version)
        .bind(text_hash)
        .bind(key)
        .execute(&mut *db)
        .await?;
    Ok(if known_hash == text_hash {
        Arrival::Known
    } else {
        Arrival::Edit
    })
}

/// Something that arrives for the first time: its key, its version and a hash of its text.
pub type First<'a> = (&'a str, i64, &'a str);

/// Notes what nearly always arrives for the first time; false, and then nothing counts, if some of it was known. No row
/// comes back: reading rows back costs more than the insert.
///
/// # Errors
/// Whatever the database says.
pub async fn note_all(db: &mut Db, firsts: &[First<'_>], now: i64) -> Result<bool, StoreError> {
    if firsts.is_empty() {
        return Ok(true);
    }
    let inserted = sqlx::query(
        "insert into heard (key, version, text_hash, heard_at)
         select j.value ->> 0, cast(j.value ->> 1 as bigint), j.value ->> 2, $2 from jsonb_each($1) j where true
         on conflict (key) do nothing",
    )
    .bind(rows::json(firsts)?)
    .bind(now)
    .execute(&mut *db)
    .await?;
    Ok(inserted.rows_affected() == firsts.len() as u64)
}

/// Which of these keys are known.
///
/// # Errors
/// Whatever the database says.
pub async fn known(db: &mut Db, keys: &[&str]) -> Result<HashSet<String>, StoreError> {
    let rows_of: Vec<(&str,)> = keys.iter().map(|key| (*key,)).collect();
    let known: Vec<String> =
        sqlx::query_scalar("select h.key from jsonb_each($1) j join heard h on h.key = j.value ->> 0")
            .bind(rows::json(&rows_of)?)
            .fetch_all(&mut *db)
            .await?;
    Ok(known.into_iter().collect())
}

/// Forgets keys older than `before`: nothing is delivered again after a day.
///
/// # Errors
/// Whatever the database says.
pub async fn forget(db: &mut Db, before: i64) -> Result<(), StoreError> {
    sqlx::query("delete from heard where heard_at < $1")
        .bind(before)
        .execute(&mut *db)
        .await?;
    Ok(())
}
