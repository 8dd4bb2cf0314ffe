//! The minute's look at the clock: what falls due is queued, what is old is
//! cleared away.

use std::panic::AssertUnwindSafe;
use std::sync::Arc;
use std::sync::atomic::Ordering::Relaxed;
use std::time::Duration;

use futures_util::FutureExt;
use tokio::sync::watch;
use tracing::error;

use crate::clock;

use super::{Shared, told_within};

const EVERY: Duration = Duration::from_secs(60);

const MINUTES_OF_A_DAY: u64 = 24 * 60;
/// The first comparison of kept states is half an hour after the start, the others a day apart.
const NIGHTLY: u64 = 30;

/// Compares some kept states with their rows, and counts what came of it.
async fn compare(shared: &Shared, now: i64) {
    match shared.bot.compare_states(now).await {
        Ok(compared) => {
            shared.tally.states_compared.fetch_add(compared.rigs, Relaxed);
            shared.tally.states_wrong.fetch_add(compared.wrong, Relaxed);
        }
        Err(trouble) => error!(%trouble, "Kept states could not be compared; tomorrow tries again."),
    }
}

/// Looks at the clock until told to stop.
pub async fn run(shared: Arc<Shared>, mut told: watch::Receiver<bool>) {
    let mut minute = 0_u64;
    let building = shared.clone();
    tokio::spawn(async move {
        if let Err(trouble) = building.bot.keep_states().await {
            error!(%trouble, "States of rigs could not be built; they are built when they are asked for.");
        }
    });
    loop {
        let now = clock::now();
        // What panics is told, and the next minute tries again: to end here would start it all into the same panic.
        match AssertUnwindSafe(shared.bot.due(now)).catch_unwind().await {
            Err(_) => error!("What falls due broke off; the next minute tries again."),
            Ok(Ok(())) => shared.outbox.look(),
            Ok(Err(trouble)) => error!(%trouble, "What falls due could not be queued; the next minute tries again."),
        }
        if minute.is_multiple_of(60)
            && let Err(trouble) = shared.bot.clear_away(now).await
        {
            error!(%trouble, "What is old could not be cleared away; the next hour tries again.");
        }
        if minute % MINUTES_OF_A_DAY == NIGHTLY {
            compare(&shared, now).await;
        }
        minute += 1;
        if told_within(&mut told, EVERY).await {
            return;
        }
    }
}
