//! The door for the clock: what falls due is queued once, whoever looks first.
//!
//! Each kind of message has a window: how late it may still be sent by a host
//! that was asleep. Within it a slot is looked for again and again; its key
//! says that it was met.

mod digest;
mod notices;
mod nudges;

use std::collections::HashSet;
use std::panic::AssertUnwindSafe;

use futures_util::FutureExt;
use jiff::ToSpan;

use crate::schedule::{self, Slot, Week};
use crate::store::outfits::Outfit;
use crate::store::{self, StoreError};

use super::Bot;
use super::hours::Hours;
use super::rules::Rules;

/// A flush reminder later than this is no use any more.
const NUDGE_WINDOW: i64 = 2 * 3600;

/// A digest is still news a day later.
const DIGEST_WINDOW: i64 = 24 * 3600;

/// What the morning would have said, the afternoon need not.
const NOTICE_WINDOW: i64 = 6 * 3600;

/// Longer than any window, so that every key within one is known.
const KEYS_REMEMBERED: i64 = 3 * 86_400;

/// An outfit at its slot.
struct Occasion<'a> {
    outfit: &'a Outfit,
    rules: &'a Rules,
    hours: &'a Hours,
    slot: Slot,
    now: i64,
}

/// Each outfit with what holds in it.
type Clocks = Vec<(Outfit, Rules)>;

impl Bot {
    /// Queues what fell due until now and was not claimed before.
    ///
    /// # Errors
    /// Whatever the database says; what was not committed is due again. Trouble
    /// with the facts of one outfit is logged, and the others go on.
    pub async fn due(&self, now: i64) -> Result<(), StoreError> {
        let mut look = self.store.look().await?;
        let outfits = store::outfits::all(&mut look).await?;
        let rules = Rules::of_all(&mut look, &outfits).await?;
        let met = store::slots::claimed_since(&mut look, now - KEYS_REMEMBERED).await?;
        look.rollback().await?;
        let open = |(outfit, _): &(Outfit, Rules)| outfit.closing_at.is_none();
        let clocks: Clocks = outfits.into_iter().zip(rules).filter(open).collect();
        for (outfit, rules) in &clocks {
            let due = AssertUnwindSafe(self.outfit_due(outfit, rules, &met, now));
            match due.catch_unwind().await {
                Err(_) => tracing::error!(outfit = outfit.id, "What falls due in an outfit broke off."),
                Ok(Err(trouble)) if trouble.blames_the_message() => {
                    tracing::error!(outfit = outfit.id, %trouble, "What falls due in an outfit could not be queued.");
                }
                Ok(other) => other?,
            }
        }
        self.repeat_nudges(&clocks, now).await?;
        self.close_outfits(now).await
    }

    async fn outfit_due(
        &self,
        outfit: &Outfit,
        rules: &Rules,
        met: &HashSet<String>,
        now: i64,
    ) -> Result<(), StoreError> {
        let hours = Hours::of(outfit, rules);
        self.delete_old(outfit, rules, |key| met.contains(key), now).await?;
        let occasion = |slot| Occasion {
            outfit,
            rules,
            hours: &hours,
            slot,
            now,
        };
        let own_hours = rules.rigs_with_own_hours();
        let weeks = own_hours.iter().map(|rig| (Some(*rig), rules.rig(*rig).week()));
        for (rig, week) in weeks.chain([(None, rules.outfit().week())]) {
            for slot in slots(outfit, &hours, &week, NUDGE_WINDOW, now) {
                if !met.contains(&nudges::key(outfit.id, rig, slot)) {
                    self.end_of_day(&occasion(slot), rig).await?;
                }
            }
        }
        for slot in slots(outfit, &hours, &hours.digest, DIGEST_WINDOW, now) {
            // Of a week in which nobody worked, and on a day off, there is nothing to tell.
            let mut days = slot.date.series((-1).day()).take(8);
            let is_off = days.all(|day| rules.off_on(None, day).is_some());
            if !is_off && !met.contains(&digest::key(outfit.id, slot)) {
                self.weekly(&occasion(slot)).await?;
            }
        }
        for slot in slots(outfit, &hours, &hours.notices, NOTICE_WINDOW, now) {
            let is_off = rules.off_on(None, slot.date).is_some();
            if !is_off && !met.contains(&notices::key(outfit.id, slot)) {
                self.notices(&occasion(slot)).await?;
            }
        }
        Ok(())
    }
}

/// The slots of a week's times within a window, since the outfit was founded.
fn slots(outfit: &Outfit, hours: &Hours, week: &Week, window: i64, now: i64) -> Vec<Slot> {
    schedule::due(&hours.zone, week, (now - window).max(outfit.created_at), now)
}
