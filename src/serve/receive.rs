//! The receiving loop. A batch is confirmed, by asking for what comes after
//! it, only once it is committed.

use std::sync::Arc;
use std::sync::atomic::Ordering::Relaxed;
use std::time::Duration;

use serde_json::Value;
use tokio::sync::watch;
use tracing::{debug, error, info, warn};

use crate::clock;
use crate::domain::envelope::Arrived;
use crate::store::{StoreError, leases};
use crate::transport::telegram::{self, Trouble};

use super::{Shared, files, pause_after, told_within};

/// The right to poll, by the database's clock: a token allows one poller.
const LEASE: &str = "poller";

/// Another copy takes over so soon after a crash, in seconds.
const LEASE_FOR: i64 = 15;

/// Renewing costs a commit, so not with each batch, in seconds. It goes on while a poll is open.
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
            Err(trouble) => {
                shared.tally.database_refuses.store(true, Relaxed);
                return self.failed("The database did not say who may receive.", &trouble);
            }
        }
        let polled = tokio::select! {
            // Nothing is confirmed by a poll that is cut short.
            _ = told.wait_for(|stop| *stop) => return Duration::ZERO,
            polled = shared.telegram.updates(self.offset) => polled,
            // The lease is lost, or nobody can say: what the poll would bring comes to whoever asks next.
            () = keep_lease(shared) => {
                self.renewed_at = 0;
                return Duration::ZERO;
            }
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
            Ok(updates) => tokio::select! {
                waited = self.hear(shared, &updates) => waited,
                // Beside it; a lease that is lost meanwhile does no harm, since what is heard twice is known.
                never = async { keep_lease(shared).await; std::future::pending().await } => never,
            },
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
        if let Err(trouble) = files::fetch(shared, &mut batch).await {
            return self.failed("The database did not say whose files are read.", &trouble);
        }
        let heard = shared.bot.hear(&batch, now).await;
        shared.tally.database_refuses.store(heard.is_err(), Relaxed);
        if let Err(trouble) = heard {
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
        let held = leases::hold(&mut tx, LEASE, &shared.settings.instance, LEASE_FOR).await?;
        tx.commit().await?;
        if held {
            shared.tally.stands_by.store(false, Relaxed);
            shared.tally.database_refuses.store(false, Relaxed);
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

/// Renews the lease for as long as that works.
async fn keep_lease(shared: &Shared) {
    loop {
        tokio::time::sleep(Duration::from_secs(RENEW_AFTER.unsigned_abs())).await;
        let renewed = async {
            let mut tx = shared.bot.store().begin().await?;
            let held = leases::hold(&mut tx, LEASE, &shared.settings.instance, LEASE_FOR).await?;
            tx.commit().await?;
            Ok::<_, StoreError>(held)
        };
        let renewed = renewed.await;
        if renewed.is_err() {
            shared.tally.database_refuses.store(true, Relaxed);
        }
        if !matches!(renewed, Ok(true)) {
            return;
        }
    }
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
