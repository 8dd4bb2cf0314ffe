//! Links that let somebody in; only their hash is kept.

use sha2::{Digest, Sha256};

use super::{Db, StoreError};
use crate::domain::Role;

/// What a valid link opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Invite {
    /// The outfit, or none for a link that founds a new one.
    pub outfit_id: Option<i64>,
    /// The role of whoever opens it.
    pub role: Role,
}

/// Keeps an invite of `maker` that can be used `uses` times until `expires_at`.
///
/// # Errors
/// Whatever the database says.
pub async fn keep(
    db: &mut Db,
    token: &str,
    invite: Invite,
    maker: Option<i64>,
    (uses, expires_at): (i64, i64),
    now: i64,
) -> Result<(), StoreError> {
    sqlx::query(
        "insert into invites (token_hash, outfit_id, role, expires_at, uses_left, created_at, person_id)
         values ($1, $2, $3, $4, $5, $6, $7)",
    )
    .bind(hash(token))
    .bind(invite.outfit_id)
    .bind(invite.role.word())
    .bind(expires_at)
    .bind(uses)
    .bind(now)
    .bind(maker)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// Uses an invite up by one; none if it is unknown, used up or expired.
///
/// # Errors
/// Whatever the database says.
pub async fn redeem(db: &mut Db, token: &str, now: i64) -> Result<Option<Invite>, StoreError> {
    let row: Option<(Option<i64>, String)> = sqlx::query_as(
        "update invites set uses_left = uses_left - 1
         where token_hash = $1 and uses_left > 0 and expires_at > $2 returning outfit_id, role",
    )
    .bind(hash(token))
    .bind(now)
    .fetch_optional(&mut *db)
    .await?;
    Ok(row.and_then(|(outfit_id, role)| {
        Some(Invite {
            outfit_id,
            role: Role::from_word(&role)?,
        })
    }))
}

/// An invite that still lets people in.
#[derive(Clone, Debug, PartialEq)]
pub struct Open {
    /// The role of whoever opens it.
    pub role: Role,
    /// How often it can still be used.
    pub uses_left: i64,
    /// When it ends, UTC seconds.
    pub expires_at: i64,
    /// Who made it, if that is known.
    pub person_id: Option<i64>,
}

/// The invites of an outfit that still let people in, soonest to end first.
///
/// # Errors
/// Whatever the database says.
pub async fn open(db: &mut Db, outfit_id: i64, now: i64) -> Result<Vec<Open>, StoreError> {
    let rows: Vec<(String, i64, i64, Option<i64>)> = sqlx::query_as(
        "select role, uses_left, expires_at, person_id from invites
         where outfit_id = $1 and uses_left > 0 and expires_at > $2 order by expires_at, token_hash",
    )
    .bind(outfit_id)
    .bind(now)
    .fetch_all(&mut *db)
    .await?;
    let open = |(role, uses_left, expires_at, person_id): (String, i64, i64, Option<i64>)| {
        Some(Open {
            role: Role::from_word(&role)?,
            uses_left,
            expires_at,
            person_id,
        })
    };
    Ok(rows.into_iter().filter_map(open).collect())
}

/// Ends the open invites of an outfit, or those for one role; says how many.
///
/// # Errors
/// Whatever the database says.
pub async fn cancel(db: &mut Db, outfit_id: i64, role: Option<Role>, now: i64) -> Result<u64, StoreError> {
    let ended = sqlx::query(
        "update invites set uses_left = 0
         where outfit_id = $1 and uses_left > 0 and expires_at > $2 and role = coalesce($3, role)",
    )
    .bind(outfit_id)
    .bind(now)
    .bind(role.map(Role::word))
    .execute(&mut *db)
    .await?;
    Ok(ended.rows_affected())
}

/// Ends the invites of somebody who has another role now, or none: only an owner invites owners and leads, and a lead
/// crew.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn cancel_of(
    db: &mut Db,
    outfit_id: i64,
    person_id: i64,
    role: Option<Role>,
) -> Result<(), StoreError> {
    let kept = match role {
        Some(Role::Owner) => return Ok(()),
        Some(Role::Lead) => Role::Crew.word(),
        Some(Role::Crew) | None => "",
    };
    sqlx::query("update invites set uses_left = 0 where outfit_id = $1 and person_id = $2 and role <> $3")
        .bind(outfit_id)
        .bind(person_id)
        .bind(kept)
        .execute(&mut *db)
        .await?;
    Ok(())
}

fn hash(token: &str) -> String {
    hex(&Sha256::digest(token.as_bytes()))
}

/// Bytes as lower-case hexadecimal digits.
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
