//! The sending loop: claims what may go, delivers up to sixteen at once, and
//! writes down how each delivery ended.

use std::collections::HashMap;
use std::sync::Arc;
use std::time::Duration;

use tokio::sync::watch;
use tokio::task::{Id, JoinError, JoinSet};
use tracing::{debug, error, info, warn};

use crate::bot::envelope::Send;
use crate::clock;
use crate::store::sends::{self, Sent};
use crate::store::{Store, StoreError};

use super::Shared;

/// Deliveries under way at once.
const AT_ONCE: usize = 16;

/// Seconds, more than twice what a delivery may take, and with files as many
/// times more as the store grants: another copy must not make the same one
/// meanwhile. After a crash a chat waits this long.
const LEASE_FOR: i64 = 25;

/// How soon a message whose time has come is noticed.
const LOOK_EVERY: Duration = Duration::from_millis(250);

/// After a failed claim or settling.
const REST: Duration = Duration::from_secs(2);

/// How long deliveries under way may take once a stop is asked for.
const FINISH_WITHIN: Duration = Duration::from_secs(3);

/// Sends until told to stop.
pub async fn run(shared: Arc<Shared>, mut told: watch::Receiver<bool>) {
    let me = format!("{}/{}/{}", shared.settings.instance, std::process::id(), clock::now());
    let mut round = Round {
        me,
        flying: JoinSet::new(),
        landed: Vec::new(),
        under_way: HashMap::new(),
    };
    if let Err(trouble) = take_back(&shared).await {
        warn!(%trouble, "What a crash left under way waits for its lease to run out.");
    }
    while !*told.borrow() {
        let wait = round.turn(&shared).await;
        tokio::select! {
            _ = told.wait_for(|stop| *stop) => break,
            () = round.landing(&shared) => {}
            () = shared.committed.notified() => {}
            () = tokio::time::sleep(wait) => {}
        }
    }
    round.finish(&shared).await;
}

/// What an earlier process of this copy was delivering when it was killed.
async fn take_back(shared: &Shared) -> Result<(), StoreError> {
    let mut tx = shared.bot.store().begin().await?;
    let freed = sends::take_back(&mut tx, &shared.settings.instance).await?;
    tx.commit().await?;
    if freed > 0 {
        info!(
            sends = freed,
            "Sending anew what a crash left under way; some may arrive twice."
        );
    }
    Ok(())
}

struct Round {
    /// Names this process as the holder of its claims.
    me: String,
    flying: JoinSet<(Send, Sent)>,
    /// Delivered, and not yet written down.
    landed: Vec<(Send, Sent)>,
    /// Claimed, and not yet landed, by the task that delivers it.
    under_way: HashMap<Id, Send>,
}

impl Round {
    /// Writes down what has landed and starts what may go; says how long to
    /// wait if nothing happens.
    async fn turn(&mut self, shared: &Arc<Shared>) -> Duration {
        while let Some(ended) = self.flying.try_join_next_with_id() {
            self.note(shared, ended);
        }
        let store = shared.bot.store();
        if let Err(trouble) = settle_all(store, &self.me, &mut self.landed).await {
            error!(%trouble, deliveries = self.landed.len(), "Deliveries could not be written down yet.");
            return REST;
        }
        let room = AT_ONCE.saturating_sub(self.flying.len());
        if room == 0 {
            return LOOK_EVERY;
        }
        let limits = &shared.settings.limits;
        let claimed = match sends::claim(store, &self.me, limits, room as i64, LEASE_FOR, clock::now_ms()).await {
            Ok(claimed) => claimed,
            Err(trouble) => {
                error!(%trouble, "What waits to be sent could not be read.");
                return REST;
            }
        };
        for send in claimed {
            let (kept, shared) = (send.clone(), shared.clone());
            let task = self.flying.spawn(async move {
                let drawn = shared.bot.draw(send.clone()).await;
                let sent = shared.telegram.deliver(&drawn).await;
                (send, sent)
            });
            self.under_way.insert(task.id(), kept);
        }
        LOOK_EVERY
    }

    /// Ready when a delivery ends; never, while none is under way.
    async fn landing(&mut self, shared: &Shared) {
        match self.flying.join_next_with_id().await {
            Some(ended) => self.note(shared, ended),
            None => std::future::pending().await,
        }
    }

    fn note(&mut self, shared: &Shared, ended: Result<(Id, (Send, Sent)), JoinError>) {
        match ended {
            Ok((task, (send, sent))) => {
                shared.tally.sent(&sent);
                match &sent {
                    Sent::Delivered(_) => debug!(send = send.id, "Delivered."),
                    Sent::NotBefore(wait_s) => warn!(send = send.id, tries = send.tries, wait_s, "To be sent again."),
                    Sent::Blocked => warn!(
                        send = send.id,
                        "The chat has shut the bot out; nothing more goes there."
                    ),
                    Sent::Moved(_) => debug!(send = send.id, "The group has moved; to be sent there."),
                    Sent::Refused(why) => error!(send = send.id, why, "Telegram will never take this message."),
                }
                self.under_way.remove(&task);
                self.landed.push((send, sent));
            }
            // Its lease runs out, and then it is tried again.
            Err(why) => {
                self.under_way.remove(&why.id());
                error!(panicked = why.is_panic(), "A delivery broke off.");
            }
        }
    }

    /// Lets what is under way land, and hands back what does not: it may be
    /// sent twice, but it does not wait for the lease to run out.
    async fn finish(&mut self, shared: &Shared) {
        let all = async {
            while let Some(ended) = self.flying.join_next_with_id().await {
                self.note(shared, ended);
            }
        };
        if tokio::time::timeout(FINISH_WITHIN, all).await.is_err() {
            self.flying.abort_all();
            self.landed
                .extend(self.under_way.drain().map(|(_, send)| (send, Sent::NotBefore(0))));
        }
        if let Err(trouble) = settle_all(shared.bot.store(), &self.me, &mut self.landed).await {
            warn!(%trouble, "The last deliveries could not be written down; they may be sent twice.");
        }
    }
}

/// Writes all down in one transaction, or each in its own if one of them is
/// to blame; what was written down is taken out of `landed`.
async fn settle_all(store: &Store, me: &str, landed: &mut Vec<(Send, Sent)>) -> Result<(), StoreError> {
    if landed.is_empty() {
        return Ok(());
    }
    match settle(store, me, landed).await {
        Err(trouble) if trouble.blames_the_message() => {}
        outcome => {
            outcome?;
            landed.clear();
            return Ok(());
        }
    }
    while let Some(last) = landed.last() {
        match settle(store, me, std::slice::from_ref(last)).await {
            Err(trouble) if trouble.blames_the_message() => {
                error!(%trouble, send = last.0.id, "A delivery cannot be written down.");
            }
            outcome => outcome?,
        }
        landed.pop();
    }
    Ok(())
}

async fn settle(store: &Store, me: &str, landed: &[(Send, Sent)]) -> Result<(), StoreError> {
    let now = clock::now();
    let mut tx = store.begin().await?;
    for (send, sent) in landed {
        sends::settle(&mut tx, send, me, sent, now).await?;
    }
    Ok(tx.commit().await?)
}
