//! The delivering loop: workers that deliver what is held, and one task that sees to leases, to what waits in the
//! database, to the share of the platform's limits, and to what nobody else has written down.

use std::panic::AssertUnwindSafe;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::Ordering::Relaxed;
use std::time::Duration;

use futures_util::FutureExt;
use tokio::sync::watch;
use tokio::task::JoinSet;
use tracing::{error, info, warn};

use crate::clock::{self, uptime_ms};
use crate::domain::envelope::{Send, Sent};
use crate::store::sends::{self, LEASE_S};
use crate::store::{Store, StoreError, chats, pace, send_leases};

use super::Outbox;
use super::order::Load;

/// Texts under way at once.
const TEXTS_AT_ONCE: usize = 32;

/// Uploads under way at once: a small server's upstream carries no more.
const FILES_AT_ONCE: usize = 3;

/// What has landed waits so long for somebody's transaction, in milliseconds, before it gets one of its own.
const SETTLE_AFTER: i64 = 25;

/// How often a look is taken at what waits in the database, and how soon at the earliest, in milliseconds.
const LOOK_EVERY: i64 = 250;
const LOOK_AFTER: i64 = 25;

/// Claimed in one look.
const MOST_CLAIMED: i64 = 256;

/// Leases are renewed so often, in milliseconds.
const RENEW_EVERY: i64 = 5000;

/// Leases count as run out so long before they are, in milliseconds.
const MARGIN: i64 = 2000;

/// After trouble with the database, in milliseconds.
const REST: i64 = 500;

/// How long deliveries under way may take once a stop is asked for.
const FINISH_WITHIN: Duration = Duration::from_secs(3);

/// What delivers messages.
pub trait Carrier: std::marker::Send + Sync + 'static {
    /// Delivers one; what came of it.
    fn carry(&self, send: &Send) -> impl Future<Output = Sent> + std::marker::Send;
}

/// Delivers until told to stop, then writes down what has landed and gives the rest free. `copy` is the name that
/// stays the same over restarts.
pub async fn run(
    outbox: Arc<Outbox>,
    store: Store,
    copy: String,
    carrier: Arc<impl Carrier>,
    mut told: watch::Receiver<bool>,
) {
    let mut workers = JoinSet::new();
    for (load, count) in [(Load::Text, TEXTS_AT_ONCE), (Load::File, FILES_AT_ONCE)] {
        for _ in 0..count {
            workers.spawn(work(outbox.clone(), carrier.clone(), load));
        }
    }
    let mut keeper = Keeper {
        outbox: &outbox,
        store: &store,
        copy: &copy,
        started: false,
        renewed_at: None,
        look_at: 0,
        looked_at: 0,
        rest_until: 0,
        failures: 0,
    };
    while !*told.borrow() {
        let wait = keeper.round().await;
        tokio::select! {
            _ = told.wait_for(|stop| *stop) => break,
            () = outbox.changed.notified() => {}
            () = outbox.queued.notified() => keeper.look_at = 0,
            () = tokio::time::sleep(wait) => {}
        }
    }
    finish(&outbox, &store, workers).await;
}

async fn work(outbox: Arc<Outbox>, carrier: Arc<impl Carrier>, load: Load) {
    loop {
        let send = outbox.next(load).await;
        let sent = AssertUnwindSafe(carrier.carry(&send)).catch_unwind().await;
        let sent = sent.unwrap_or_else(|_| {
            error!(send = send.id, "A delivery broke off.");
            Sent::NotBefore(60)
        });
        outbox.land(send, sent);
    }
}

/// Lets what is under way land, and gives free what does not and what waits.
async fn finish(outbox: &Outbox, store: &Store, mut workers: JoinSet<()>) {
    outbox.open.store(false, Relaxed);
    outbox.lock().set_leased_until(0);
    let landed = async {
        while outbox.lock().under_way() > 0 {
            outbox.changed.notified().await;
        }
    };
    // Most endings wake nobody, so it is looked again and again.
    let again = async {
        loop {
            tokio::time::sleep(Duration::from_millis(10)).await;
            outbox.changed.notify_one();
        }
    };
    let _ = tokio::time::timeout(FINISH_WITHIN, async {
        tokio::select! { () = landed => {}, () = again => {} }
    })
    .await;
    workers.shutdown().await;
    let done = async {
        let mut tx = store.begin().await?;
        sends::settle(&mut tx, outbox.me(), &outbox.take_landed(), clock::now()).await?;
        send_leases::release(&mut tx, outbox.me()).await?;
        tx.commit().await
    };
    if let Err(trouble) = done.await {
        warn!(%trouble, "The last deliveries could not be written down; they may be sent twice.");
    }
}

struct Keeper<'a> {
    outbox: &'a Outbox,
    store: &'a Store,
    copy: &'a str,
    started: bool,
    renewed_at: Option<i64>,
    look_at: i64,
    looked_at: i64,
    rest_until: i64,
    failures: u32,
}

impl Keeper<'_> {
    /// Sees to all that is due; says how long to wait if nothing happens.
    async fn round(&mut self) -> Duration {
        let now = uptime_ms();
        if now >= self.rest_until {
            match self.see_to_all(now).await {
                Ok(()) => self.failures = 0,
                Err(trouble) => {
                    self.failures += 1;
                    self.rest_until = uptime_ms() + REST;
                    // A long outage is told in a few lines.
                    if self.failures.is_power_of_two() {
                        error!(%trouble, failures = self.failures, "What is on its way out cannot be kept up.");
                    }
                }
            }
        }
        self.outbox.wake();
        let now = uptime_ms();
        let (landed_at, change) = {
            let queues = self.outbox.lock();
            (queues.landed_at(), queues.next_change(now))
        };
        let renew = self.renewed_at.map_or(now, |at| at + RENEW_EVERY);
        let database = [Some(self.look_at), landed_at.map(|at| at + SETTLE_AFTER), Some(renew)];
        let database = database.into_iter().flatten().min().unwrap_or(now).max(self.rest_until);
        let next = change.map_or(database, |at| at.min(database));
        Duration::from_millis(u64::try_from(next - now).unwrap_or_default().max(1))
    }

    async fn see_to_all(&mut self, now: i64) -> Result<(), StoreError> {
        if !self.started {
            self.take_back().await?;
            self.started = true;
        }
        if self.renewed_at.is_none_or(|at| now >= at + RENEW_EVERY) {
            self.renew(now).await?;
        }
        let (settle, share) = {
            let queues = self.outbox.lock();
            let settle = queues.landed_at().is_some_and(|at| now >= at + SETTLE_AFTER);
            (settle, queues.share_wanted(now))
        };
        if settle || share > 0 {
            self.settle_and_reserve(share).await?;
        }
        if now >= self.look_at.max(self.looked_at + LOOK_AFTER) {
            self.look(now).await?;
        }
        Ok(())
    }

    /// What an earlier process of this copy held when it was killed.
    async fn take_back(&self) -> Result<(), StoreError> {
        let mut tx = self.store.begin().await?;
        let freed = send_leases::take_back(&mut tx, self.copy, is_dead).await?;
        tx.commit().await?;
        if freed > 0 {
            info!(
                sends = freed,
                "Sending anew what a crash left under way; some may arrive twice."
            );
        }
        Ok(())
    }

    async fn renew(&mut self, now: i64) -> Result<(), StoreError> {
        let lapsed = self.renewed_at.is_none() || !self.outbox.lock().is_leased(now);
        let mut tx = self.store.begin().await?;
        // From here on: the lock is had, and the statement is not sent yet.
        let asked_at = uptime_ms();
        send_leases::renew(&mut tx, self.outbox.me()).await?;
        let kept = if lapsed {
            Some(send_leases::held(&mut tx, self.outbox.me()).await?)
        } else {
            None
        };
        tx.commit().await?;
        let mut queues = self.outbox.lock();
        if let Some(kept) = kept {
            queues.keep_only(&kept, asked_at);
        }
        queues.tidy(asked_at);
        queues.set_leased_until(asked_at + LEASE_S * 1000 - MARGIN);
        self.renewed_at = Some(asked_at);
        self.outbox.open.store(true, Relaxed);
        Ok(())
    }

    async fn settle_and_reserve(&self, wanted: i64) -> Result<(), StoreError> {
        let landed = self.outbox.take_landed();
        let limit = self.outbox.lock().per_second().filter(|_| wanted > 0);
        let done = async {
            let mut tx = self.store.begin().await?;
            sends::settle(&mut tx, self.outbox.me(), &landed, clock::now()).await?;
            let asked_at = uptime_ms();
            let share = match limit {
                Some(limit) => Some(pace::reserve(&mut tx, limit, wanted).await?),
                None => None,
            };
            tx.commit().await?;
            Ok::<_, StoreError>((asked_at, share))
        };
        match done.await {
            Ok((asked_at, Some(share))) => {
                let now = uptime_ms();
                self.outbox
                    .lock()
                    .take_share(share.count, share.again_in_ms, asked_at, now);
                Ok(())
            }
            Ok((_, None)) => Ok(()),
            Err(trouble) => {
                self.outbox.put_back(landed);
                Err(trouble)
            }
        }
    }

    /// Claims what waits in the database.
    async fn look(&mut self, now: i64) -> Result<(), StoreError> {
        self.looked_at = now;
        self.look_at = now + LOOK_EVERY;
        if self.outbox.lock().held() >= 2 * super::MOST_HELD {
            return Ok(());
        }
        let claimed = sends::claim(self.store, self.outbox.me(), MOST_CLAIMED).await?;
        let mut db = self.store.read().await?;
        let pause_s = chats::pause_of_all(&mut db).await?;
        if pause_s > 0 {
            self.outbox.lock().pause_all(pause_s, now);
        }
        if !claimed.is_empty() {
            self.look_at = now + LOOK_AFTER;
        }
        self.outbox.push(claimed);
        Ok(())
    }
}

/// Whether a process of this machine, named as [`Outbox::new`] says, is no more. Its own number on another process
/// means that this one came after it. Where the system does not say, its leases run out by themselves.
pub fn is_dead(holder: &str) -> bool {
    let number = holder.rsplit('/').nth(1).and_then(|number| number.parse::<u32>().ok());
    number.is_some_and(|number| {
        number == std::process::id()
            || (Path::new("/proc/self").exists() && !Path::new("/proc").join(number.to_string()).exists())
    })
}
