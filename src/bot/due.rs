//! The door for the clock: what falls due is queued once, whoever looks first.

use jiff::tz::TimeZone;

use crate::replies::Words;
use crate::schedule::{self, Slot};
use crate::store::outfits::Outfit;
use crate::store::questions::Button as StoredButton;
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};

use super::Bot;
use super::envelope::{Body, Outgoing};
use super::outfit::time_of_day;
use super::turn::zone_of;

/// A flush reminder later than this is no use any more.
const NUDGE_WINDOW: i64 = 2 * 3600;

impl Bot {
    /// Queues what fell due until now and was not claimed before: a reminder
    /// for each rig that worked today, is flushed by hand and was not.
    ///
    /// # Errors
    /// Whatever the database says; what was not committed is due again.
    pub async fn due(&self, now: i64) -> Result<(), StoreError> {
        let mut tx = self.store.begin().await?;
        let outfits = store::outfits::all(&mut tx).await?;
        tx.commit().await?;
        for outfit in outfits {
            let zone = zone_of(&outfit);
            let Some(day_ends) = time_of_day(&outfit.day_ends) else {
                continue;
            };
            for slot in schedule::due(&zone, &schedule::Week::daily(day_ends), now - NUDGE_WINDOW, now) {
                let mut tx = self.store.begin().await?;
                for rig in store::rigs::fleet(&mut tx, outfit.id).await? {
                    if !rig.flushes_itself && !rig.di_only {
                        self.nudge(&mut tx, &outfit, &rig, slot, &zone, now).await?;
                    }
                }
                tx.commit().await?;
            }
        }
        Ok(())
    }

    async fn nudge(
        &self,
        db: &mut Db,
        outfit: &Outfit,
        rig: &Rig,
        slot: Slot,
        zone: &TimeZone,
        now: i64,
    ) -> Result<(), StoreError> {
        let Some(morning) = schedule::day_start(zone, slot.date) else {
            return Ok(());
        };
        let Some((worked_at, person)) = store::readings::last_worked(db, rig.id, morning, slot.at + 1).await? else {
            return Ok(());
        };
        let flushed_at = store::services::last_done(db, rig.id, "flush").await?;
        let Some(member) = store::people::get(db, person).await? else {
            return Ok(());
        };
        if flushed_at.is_some_and(|at| at >= worked_at)
            || member.outfit_id != outfit.id
            || !store::slots::claim(db, &format!("nudge/{}/{}", rig.id, slot.date), now).await?
        {
            return Ok(());
        }
        store::people::set_nudged(db, member.id, rig.id, now).await?;
        let words = Words::of(member.language.as_deref());
        let mut buttons = Vec::new();
        for (key, says) in [("nudge-flushed", "flushed"), ("nudge-not-used", "not used")] {
            let stored = StoredButton {
                outfit_id: outfit.id,
                question_id: None,
                person_id: Some(member.id),
                says: format!("{} {says}", rig.name),
                expires_at: now + 12 * 3600,
            };
            buttons.push(self.button(db, words.plain(key), &stored).await?);
        }
        let text = words.say("nudge", [("rig", (&rig.name).into())]);
        let body = Body::Say {
            text,
            buttons,
            reply_to: None,
        };
        store::sends::queue(
            db,
            &Outgoing {
                chat: member.chat,
                body,
                source_key: None,
            },
            now,
        )
        .await
    }
}
