//! The minute's look at the clock: what falls due is queued, what is old is
//! cleared away.

use std::sync::Arc;
use std::time::Duration;

use tokio::sync::watch;
use tracing::error;

use crate::clock;

use super::{Shared, told_within};

const EVERY: Duration = Duration::from_secs(60);

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
            && let Err(trouble) = shared.bot.clear_away(now).await
        {
            error!(%trouble, "What is old could not be cleared away; the next hour tries again.");
        }
        minute += 1;
        if told_within(&mut told, EVERY).await {
            return;
        }
    }
}
