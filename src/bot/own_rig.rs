//! The rig that somebody's bare readings are about: today's, or the one that stays.

use jiff::ToSpan;

use crate::schedule;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::turn::Turn;

impl Turn<'_> {
    /// On a rig until the end of the local day.
    pub(super) async fn ride_today(&mut self, typed: &str) -> Result<Option<Answer>, StoreError> {
        let Some(rig) = self.rig_named(typed) else {
            // "I'm on site today" is talk.
            return Ok(None);
        };
        let tomorrow = self.today().checked_add(1.day()).ok();
        let until = tomorrow
            .and_then(|tomorrow| schedule::day_start(&self.zone, tomorrow))
            .unwrap_or(self.now + 86_400);
        store::people::set_todays_rig(self.db, self.member.id, Some(rig.id), until).await?;
        Ok(Some(Answer::says(
            self.words.say("own-rig-today", [("rig", (&rig.name).into())]),
        )))
    }

    /// On no rig, today and from now on.
    pub(super) async fn ride_none(&mut self) -> Result<Answer, StoreError> {
        store::people::set_todays_rig(self.db, self.member.id, None, 0).await?;
        store::people::set_own_rig(self.db, self.member.id, None).await?;
        Ok(Answer::says(
            self.words.say("own-rig-none", [("example", (&self.example()).into())]),
        ))
    }
}
