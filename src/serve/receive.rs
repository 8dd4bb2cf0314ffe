//! The receiving loop. A batch is confirmed, by asking for what comes after
//! it, only once it is committed.

use std::sync::Arc;
use std::sync::atomic::Ordering::Relaxed;
use std::time::Duration;

use serde_json::Value;
use tokio::sync::watch;
use tracing::{debug, error, info, warn};

use crate::bot::MOST_FILE_BYTES;
use crate::clock;
use crate::domain::envelope::{Arrived, Happening};
use crate::store::{StoreError, leases};
use crate::transport::telegram::{self, Trouble};

use super::{Shared, pause_after, told_within};

/// The right to poll: a token allows one poller.
const LEASE: &str = "poller";

/// More than a poll and a slow commit take together, in seconds.
const LEASE_FOR: i64 = 60;

/// Renewing costs a commit, so not with each batch, in seconds.
const RENEW_AFTER: i64 = 5;

/// How long to leave the floor to somebody else who polls.
const STAND_BY: Duration = Duration::from_secs(5);

/// Hears until told to stop, then gives the lease back.
pub async fn run(shared: Arc<Shared>, mut told: watch::Receiver<bool>) {
    let mut post = Post {
        offset: 0,
        renewed_at: 0,
        standing_by: false,
        failures: 0,
    };
    while !*told.borrow() {
        let wait = post.round(&shared, &mut told).await;
        if !wait.is_zero() && told_within(&mut told, wait).await {
            break;
        }
    }
    if let Err(trouble) = give_back(&shared).await {
        warn!(%trouble, "The right to receive could not be given back; it runs out by itself.");
    }
}

/// Where the loop stands.
struct Post {
    /// Everything below is committed; 0 when that is confirmed, too.
    offset: i64,
    renewed_at: i64,
    standing_by: bool,
    failures: u32,
}

impl Post {
    /// One poll and what comes of it; says how long to wait before the next.
    async fn round(&mut self, shared: &Shared, told: &mut watch::Receiver<bool>) -> Duration {
        match self.hold_lease(shared).await {
            Ok(true) => {}
            Ok(false) => {
                shared.tally.stands_by.store(true, Relaxed);
                return self.stand_by("another copy receives");
            }
            Err(trouble) => return self.failed("The database did not say who may receive.", &trouble),
        }
        let polled = tokio::select! {
            // Nothing is confirmed by a poll that is cut short.
            _ = told.wait_for(|stop| *stop) => return Duration::ZERO,
            polled = shared.telegram.updates(self.offset) => polled,
        };
        match polled {
            Ok(updates) if updates.is_empty() => {
                self.worked();
                shared.tally.heard(0, clock::now());
                // All is confirmed. Ids start anew after a quiet week, and an
                // offset from before could then hide them.
                self.offset = 0;
                Duration::ZERO
            }
            Ok(updates) => self.hear(shared, &updates).await,
            Err(Trouble::Conflict) => self.stand_by("another program receives with the same token"),
            Err(Trouble::TooFast(seconds)) => Duration::from_secs(seconds.unsigned_abs()),
            Err(trouble) => self.failed("Telegram gave no updates; trying again.", &trouble),
        }
    }

    async fn hear(&mut self, shared: &Shared, updates: &[Value]) -> Duration {
        let now = clock::now();
        let mut batch: Vec<Arrived> = updates
            .iter()
            .filter_map(|update| telegram::read(update, now))
            .collect();
        for arrived in &mut batch {
            if let Err(trouble) = fetch(shared, arrived).await {
                return self.failed("The database did not say whose files are read.", &trouble);
            }
        }
        if let Err(trouble) = shared.bot.hear(&batch, now).await {
            return self.failed("A batch could not be committed; it is asked for again.", &trouble);
        }
        shared.tally.heard(updates.len(), clock::now());
        debug!(updates = updates.len(), "Committed a batch.");
        match telegram::next_offset(updates) {
            Some(next) => {
                self.worked();
                self.offset = next;
                Duration::ZERO
            }
            None => self.failed("A batch cannot be confirmed.", &"no update in it has a valid number"),
        }
    }

    async fn hold_lease(&mut self, shared: &Shared) -> Result<bool, StoreError> {
        let now = clock::now();
        if now < self.renewed_at + RENEW_AFTER && now >= self.renewed_at {
            return Ok(true);
        }
        let mut tx = shared.bot.store().begin().await?;
        let held = leases::hold(&mut tx, LEASE, &shared.settings.instance, now + LEASE_FOR, now).await?;
        tx.commit().await?;
        if held {
            self.renewed_at = now;
        }
        Ok(held)
    }

    fn stand_by(&mut self, why: &str) -> Duration {
        if !self.standing_by {
            warn!(why, "Standing by.");
        }
        self.standing_by = true;
        self.renewed_at = 0;
        STAND_BY
    }

    fn failed(&mut self, what: &str, why: &dyn std::fmt::Display) -> Duration {
        self.failures += 1;
        // A long outage is told in a few lines.
        if self.failures.is_power_of_two() {
            error!(%why, failures = self.failures, "{what}");
        }
        pause_after(self.failures)
    }

    fn worked(&mut self) {
        if self.failures > 0 || self.standing_by {
            info!(failures = self.failures, "Receiving.");
        }
        self.failures = 0;
        self.standing_by = false;
    }
}

/// Fetches a file whose rows are wanted. One that cannot be fetched goes on
/// without its bytes, so that it blocks nobody and its sender is told.
async fn fetch(shared: &Shared, arrived: &mut Arrived) -> Result<(), StoreError> {
    let Arrived::Incoming(incoming) = arrived else {
        return Ok(());
    };
    let wanted = shared.bot.reads_file(incoming).await?;
    if let (true, Happening::Document { remote, bytes, .. }) = (wanted, &mut incoming.what) {
        match shared.telegram.file(remote, MOST_FILE_BYTES).await {
            Ok(fetched) => *bytes = Some(fetched.into()),
            Err(trouble) => warn!(%trouble, "A file could not be fetched; its sender is told."),
        }
    }
    Ok(())
}

async fn give_back(shared: &Shared) -> Result<(), StoreError> {
    let mut tx = shared.bot.store().begin().await?;
    leases::give_back(&mut tx, LEASE, &shared.settings.instance).await?;
    tx.commit().await
}

#[cfg(test)]
mod tests {
    use super::pause_after;

    #[test]
    fn the_pause_after_a_failure_is_half_a_second_at_least_and_grows_to_eight() {
        let pauses: Vec<u128> = (1..8).map(|failures| pause_after(failures).as_millis()).collect();
        assert_eq!(pauses, [500, 1000, 2000, 4000, 8000, 8000, 8000]);
    }
}
