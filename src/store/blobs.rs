//! Pictures and files on their way out. Bytes are kept apart from the message
//! that carries them, and once for all whom it goes to.

use std::sync::Arc;

use crate::domain::envelope::{Attachment, File};

use super::{Db, StoreError};

/// Keeps bytes; the number to name them by in a message's attachment. A
/// message must carry them before they are a day old, or they are cleared away.
///
/// # Errors
/// Whatever the database says.
pub async fn keep(db: &mut Db, bytes: &[u8], now: i64) -> Result<i64, StoreError> {
    Ok(
        sqlx::query_scalar("insert into blobs (bytes, made_at) values ($1, $2) returning id")
            .bind(bytes.to_vec())
            .bind(now)
            .fetch_one(&mut *db)
            .await?,
    )
}

/// Notes that a message carries these; they stay until it is finished.
pub(super) async fn carry(db: &mut Db, attachments: &[Attachment], send_id: i64) -> Result<(), StoreError> {
    for attachment in attachments {
        sqlx::query("insert into carried_blobs (blob_id, send_id) values ($1, $2) on conflict do nothing")
            .bind(attachment.blob)
            .bind(send_id)
            .execute(&mut *db)
            .await?;
    }
    Ok(())
}

/// What is in the attachments, in order; those that are gone are left out.
pub(super) async fn files(db: &mut Db, attachments: &[Attachment]) -> Result<Vec<File>, StoreError> {
    let mut files = Vec::with_capacity(attachments.len());
    for attachment in attachments {
        let bytes: Option<Vec<u8>> = sqlx::query_scalar("select bytes from blobs where id = $1")
            .bind(attachment.blob)
            .fetch_optional(&mut *db)
            .await?;
        files.extend(bytes.map(|bytes| File {
            name: attachment.name.clone(),
            bytes: Arc::new(bytes),
        }));
    }
    Ok(files)
}

/// Clears away what was made before `before`, unless a message that carries it
/// still waits.
///
/// # Errors
/// Whatever the database says.
pub async fn forget(db: &mut Db, before: i64) -> Result<(), StoreError> {
    const OLD: &str = "select b.id from blobs b where b.made_at < $1 and b.id not in (
         select c.blob_id from carried_blobs c join sends s on s.id = c.send_id where s.finished_at is null)";
    let old: Vec<i64> = sqlx::query_scalar(OLD).bind(before).fetch_all(&mut *db).await?;
    for blob in old {
        for sql in [
            "delete from carried_blobs where blob_id = $1",
            "delete from blobs where id = $1",
        ] {
            sqlx::query(sql).bind(blob).execute(&mut *db).await?;
        }
    }
    Ok(())
}
