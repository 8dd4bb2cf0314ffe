//! Clearing away what only carried messages and questions: after a stated time
//! none of it is of use to anybody.

use super::{Store, StoreError, blobs, heard, questions, sends};

/// Seconds.
const DAY: i64 = 86_400;

/// Nothing is delivered again after a day; the rest is for looking into complaints.
const HEARD: i64 = 14 * DAY;
/// A picture is far larger than the words that say it was sent.
const BLOBS: i64 = 2 * DAY;
/// Messages: the sent ones, and those that could not be sent for so long.
const SENDS: i64 = 30 * DAY;
/// Buttons and questions after their expiry.
const BUTTONS: i64 = 2 * DAY;
/// Links after their expiry: until then whoever opens one is told that it is over.
const INVITES: i64 = 30 * DAY;
/// Slots: far longer than any window in which one is looked for.
const SLOTS: i64 = 30 * DAY;
/// What could not be processed, as it came.
const DEAD: i64 = 30 * DAY;
/// Rows that wait for a yes.
const OFFERS: i64 = DAY;

/// Clears away what is old; of how often somebody was written to, what is from
/// before a date.
///
/// # Errors
/// Whatever the database says.
pub async fn clear_away(store: &Store, date: &str, now: i64) -> Result<(), StoreError> {
    let mut tx = store.begin().await?;
    heard::forget(&mut tx, now - HEARD).await?;
    blobs::forget(&mut tx, now - BLOBS).await?;
    sends::forget(&mut tx, now - SENDS).await?;
    questions::forget_buttons(&mut tx, now - BUTTONS).await?;
    for (sql, before) in [
        (
            "delete from questions where expires_at < $1
                 and id not in (select question_id from buttons where question_id is not null)",
            now - BUTTONS,
        ),
        ("delete from invites where expires_at < $1", now - INVITES),
        ("delete from slots where claimed_at < $1", now - SLOTS),
        ("delete from dead where kept_at < $1", now - DEAD),
        (
            "update imports set settled_at = offered_at, source = '' where settled_at is null and offered_at < $1",
            now - OFFERS,
        ),
    ] {
        sqlx::query(sql).bind(before).execute(&mut *tx).await?;
    }
    sqlx::query("delete from unasked where on_date < $1")
        .bind(date)
        .execute(&mut *tx)
        .await?;
    tx.commit().await
}
