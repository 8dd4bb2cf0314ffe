//! The door for the clock: what falls due is queued once, whoever looks first.
//!
//! Each kind of message has a window: how late it may still be sent by a host
//! that was asleep. Within it a slot is looked for again and again; its key
//! says that it was met.

mod nudges;

use crate::schedule::{self, Slot, Week};
use crate::store::outfits::Outfit;
use crate::store::{self, StoreError};

use super::Bot;
use super::hours::Hours;
use super::rules::Rules;

pub(super) use nudges::ASK_AGAIN;

/// A flush reminder later than this is no use any more.
const NUDGE_WINDOW: i64 = 2 * 3600;
/// Longer than any window, so that every key within one is known.
const KEYS_REMEMBERED: i64 = 3 * 86_400;

/// An outfit at its slot.
struct Occasion<'a> {
    outfit: &'a Outfit,
    hours: &'a Hours,
    slot: Slot,
    now: i64,
}

impl Bot {
    /// Queues what fell due until now and was not claimed before.
    ///
    /// # Errors
    /// Whatever the database says; what was not committed is due again.
    pub async fn due(&self, now: i64) -> Result<(), StoreError> {
        let mut tx = self.store.look().await?;
        let outfits = store::outfits::all(&mut tx).await?;
        let rules = Rules::of_all(&mut tx, &outfits).await?;
        let met = store::slots::claimed_since(&mut tx, now - KEYS_REMEMBERED).await?;
        tx.commit().await?;
        for (outfit, rules) in outfits.iter().zip(&rules) {
            let hours = Hours::of(outfit, rules);
            for slot in open_slots(&hours, &hours.day_ends, NUDGE_WINDOW, now, |slot| {
                met.contains(&nudges::key(outfit.id, slot))
            }) {
                let occasion = Occasion {
                    outfit,
                    hours: &hours,
                    slot,
                    now,
                };
                self.end_of_day(&occasion).await?;
            }
        }
        self.repeat_nudges(&outfits, now).await
    }
}

/// The slots of a week's times within a window that were not met yet.
fn open_slots(hours: &Hours, week: &Week, window: i64, now: i64, met: impl Fn(&Slot) -> bool) -> Vec<Slot> {
    schedule::due(&hours.zone, week, now - window, now)
        .into_iter()
        .filter(|slot| !met(slot))
        .collect()
}
