//! The minute's look at the clock: what falls due is queued, what is old is
//! cleared away.

use std::sync::Arc;
use std::time::Duration;

use tokio::sync::watch;
use tracing::error;

use crate::clock;
use crate::store::{Store, StoreError, blobs, heard, questions, sends};

use super::{Shared, told_within};

const EVERY: Duration = Duration::from_secs(60);

/// Seconds.
const DAY: i64 = 86_400;

/// Looks at the clock until told to stop.
pub async fn run(shared: Arc<Shared>, mut told: watch::Receiver<bool>) {
    let mut minute = 0_u64;
    loop {
        let now = clock::now();
        match shared.bot.due(now).await {
            Ok(_) => shared.committed.notify_one(),
            Err(trouble) => error!(%trouble, "What falls due could not be queued; the next minute tries again."),
        }
        if minute.is_multiple_of(60)
            && let Err(trouble) = clear_away(shared.bot.store(), now).await
        {
            error!(%trouble, "What is old could not be cleared away; the next hour tries again.");
        }
        minute += 1;
        if told_within(&mut told, EVERY).await {
            return;
        }
    }
}

/// Nothing is delivered again after a day and no button outlives its expiry;
/// the rest of the time is for looking into complaints.
async fn clear_away(store: &Store, now: i64) -> Result<(), StoreError> {
    let mut tx = store.begin().await?;
    heard::forget(&mut tx, now - 14 * DAY).await?;
    // A picture is far larger than the words that say it was sent.
    blobs::forget(&mut tx, now - 2 * DAY).await?;
    sends::forget(&mut tx, now - 30 * DAY).await?;
    questions::forget_buttons(&mut tx, now - 2 * DAY).await?;
    Ok(tx.commit().await?)
}
