//! The door for what arrives. A batch is thought about in memory first, without any lock on the database, and then
//! written in one short transaction, set-based; only when that is committed may the batch be confirmed.
//!
//! What was remembered is checked by the versions of the outfits concerned, in the statement that also locks them: what
//! turns out to be stale is loaded anew and thought about again. What cannot be answered from memory alone (`Thought::
//! Later`) is done inside the transaction, and so is whatever its outfit said behind it, so that order holds.
//!
//! A message that panics or that the database refuses is kept aside and blocks nobody. Trouble with the database fails
//! the batch as a whole, so that it is not confirmed and comes again.

use std::collections::{HashMap, HashSet};

use crate::domain::envelope::Arrived;
use crate::history::Memory;
use crate::store::StoreError;
use crate::store::sends::Landed;

use super::Bot;
use super::batch::{Attempt, Outcome, incoming};
use super::request::Working;

/// So often a batch is thought about anew because somebody else changed its outfits meanwhile.
const MOST_STALE: u32 = 20;

impl Bot {
    /// Hears a batch. Once this is `Ok`, everything is committed and the batch may be confirmed; a repeated delivery is
    /// harmless.
    ///
    /// # Errors
    /// When the database could not take the batch: nothing of it counts.
    pub async fn hear(&self, batch: &[Arrived], now: i64) -> Result<(), StoreError> {
        let mut memory = self.memory.lock().await;
        match self.hear_together(&mut memory, batch, &mut HashMap::new(), now).await {
            Err(trouble) if trouble.blames_the_message() => {}
            other => return other,
        }
        // One of them is to blame: each by itself.
        for one in batch {
            let one = std::slice::from_ref(one);
            let Err(trouble) = self.hear_together(&mut memory, one, &mut HashMap::new(), now).await else {
                continue;
            };
            if !trouble.blames_the_message() {
                return Err(trouble);
            }
            let keys = one.iter().filter_map(incoming).map(|incoming| incoming.key.clone());
            let mut aside = keys.map(|key| (key, trouble.to_string())).collect();
            self.hear_together(&mut memory, one, &mut aside, now).await?;
        }
        Ok(())
    }

    /// Hears a batch in one transaction; `aside` are messages that are only kept aside, with the reasons.
    async fn hear_together(
        &self,
        memory: &mut Memory,
        batch: &[Arrived],
        aside: &mut HashMap<String, String>,
        now: i64,
    ) -> Result<(), StoreError> {
        let mut known = HashSet::new();
        let mut stale = 0;
        loop {
            let mut working = Working::new();
            let landed = self.outbox.get().map(|outbox| outbox.take_landed()).unwrap_or_default();
            let (mut sends, mut queued) = (Vec::new(), 0);
            let outcome = {
                let attempt = Attempt {
                    bot: self,
                    batch,
                    known: &known,
                    aside,
                    now,
                };
                attempt
                    .run(memory, &mut working, &landed, (&mut sends, &mut queued))
                    .await
            };
            match outcome {
                Ok(Outcome::Committed) => {
                    working.into_values().for_each(|outfit| memory.put(outfit));
                    memory.trim();
                    match self.outbox.get() {
                        Some(outbox) => {
                            // What was not handed over must be claimed.
                            let all = sends.len() >= queued;
                            outbox.push(sends);
                            if !all {
                                outbox.look();
                            }
                        }
                        None => debug_assert!(sends.is_empty()),
                    }
                    return Ok(());
                }
                Ok(again) => {
                    put_back(self, landed);
                    match again {
                        Outcome::Known(keys) => known.extend(keys),
                        Outcome::Broke(key, reason) => {
                            tracing::error!(key, reason, "a message could not be processed and is kept aside");
                            aside.insert(key, reason);
                        }
                        // Another process hears the same outfits all the time: better later than for ever.
                        Outcome::Stale if stale >= MOST_STALE => return Err(StoreError::Busy),
                        Outcome::Stale => stale += 1,
                        Outcome::Committed => {}
                    }
                }
                Err(trouble) => {
                    put_back(self, landed);
                    return Err(trouble);
                }
            }
        }
    }
}

fn put_back(bot: &Bot, landed: Vec<Landed>) {
    if let Some(outbox) = bot.outbox.get() {
        outbox.put_back(landed);
    }
}
