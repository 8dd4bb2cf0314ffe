//! Links that let somebody in; only their hash is kept.

use sha2::{Digest, Sha256};

use super::people::Role;
use super::{Db, StoreError};

/// What a valid link opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Invite {
    /// The outfit, or none for a link that founds a new one.
    pub outfit_id: Option<i64>,
    /// The role of whoever opens it.
    pub role: Role,
}

/// Keeps an invite that can be used `uses` times until `expires_at`.
///
/// # Errors
/// Whatever the database says.
pub async fn keep(
    db: &mut Db,
    token: &str,
    invite: Invite,
    uses: i64,
    expires_at: i64,
    now: i64,
) -> Result<(), StoreError> {
    sqlx::query(
        "insert into invites (token_hash, outfit_id, role, expires_at, uses_left, created_at)
         values ($1, $2, $3, $4, $5, $6)",
    )
    .bind(hash(token))
    .bind(invite.outfit_id)
    .bind(invite.role.word())
    .bind(expires_at)
    .bind(uses)
    .bind(now)
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

fn hash(token: &str) -> String {
    hex(&Sha256::digest(token.as_bytes()))
}

/// Bytes as lower-case hexadecimal digits.
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
