//! The door for what arrives: one transaction a batch, a savepoint a message.
//!
//! A message that cannot be processed is kept aside and blocks nobody. Trouble
//! with the database fails the batch as a whole, so that it is not confirmed
//! and comes again.

use std::panic::AssertUnwindSafe;

use futures_util::FutureExt;
use sqlx::{Acquire, Any, Transaction};

use crate::replies::Words;
use crate::store::{self, StoreError};

use super::Bot;
use super::envelope::{Arrived, Incoming};
use super::turn::say;

impl Bot {
    /// Hears a batch. Once this is `Ok`, everything is committed and the batch
    /// may be confirmed; a repeated delivery is harmless.
    ///
    /// # Errors
    /// When the database could not take the batch: nothing of it counts.
    pub async fn hear(&self, batch: &[Arrived], now: i64) -> Result<(), StoreError> {
        let mut tx = self.store.begin().await?;
        for arrived in batch {
            match arrived {
                Arrived::Incoming(incoming) => self.hear_one(&mut tx, incoming, now).await?,
                Arrived::Unreadable { key, payload } => {
                    tracing::warn!(key, "an update could not be read and is kept aside");
                    store::dead::keep(&mut tx, key, payload, "unreadable", now).await?;
                }
            }
        }
        tx.commit().await?;
        Ok(())
    }

    async fn hear_one(
        &self,
        tx: &mut Transaction<'static, Any>,
        incoming: &Incoming,
        now: i64,
    ) -> Result<(), StoreError> {
        let mut step = tx.begin().await?;
        let reason = match AssertUnwindSafe(self.take_turn(&mut step, incoming, now))
            .catch_unwind()
            .await
        {
            Ok(Ok(())) => {
                step.commit().await?;
                return Ok(());
            }
            Ok(Err(trouble)) if !trouble.blames_the_message() => return Err(trouble),
            Ok(Err(trouble)) => trouble.to_string(),
            Err(_) => "the handler panicked".to_owned(),
        };
        step.rollback().await?;
        tracing::error!(
            key = incoming.key,
            reason,
            "a message could not be processed and is kept aside"
        );
        self.set_aside(tx, incoming, &reason, now).await
    }

    async fn set_aside(
        &self,
        tx: &mut Transaction<'static, Any>,
        incoming: &Incoming,
        reason: &str,
        now: i64,
    ) -> Result<(), StoreError> {
        let payload = serde_json::to_string(incoming).unwrap_or_default();
        let key = format!("{}#{}", incoming.key, incoming.version);
        if !store::dead::keep(tx, &key, &payload, reason, now).await? || incoming.chat.group {
            return Ok(());
        }
        let text = Words::of(incoming.person.language.as_deref()).plain("trouble");
        store::sends::queue(tx, &say(incoming.chat.address.clone(), text), now).await
    }
}
