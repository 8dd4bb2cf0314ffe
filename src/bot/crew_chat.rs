//! The crew's group chat: linked by typing in it, so that nobody links one by mistake.

use crate::store::StoreError;
use crate::store::settings::{self, CREW_CHAT};

use super::answer::Answer;
use super::turn::Turn;

impl Turn<'_> {
    pub(super) async fn link_chat(&mut self) -> Result<Answer, StoreError> {
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        if !self.incoming.chat.group {
            return Ok(Answer::says(self.words.plain("link-in-group")));
        }
        let here = &self.incoming.chat.address;
        if settings::crew_chat(self.db, self.outfit.id).await?.as_deref() != Some(here) {
            settings::set(self.db, self.teller(), None, CREW_CHAT, here).await?;
        }
        let linked = self.words.say(
            "chat-linked",
            [
                ("outfit", (&self.outfit.name).into()),
                ("example", (&self.example()).into()),
            ],
        );
        Ok(Answer::says(if self.bot.hears_groups() {
            linked
        } else {
            format!("{linked}\n{}", self.words.plain("chat-privacy"))
        }))
    }

    pub(super) async fn unlink_chat(&mut self) -> Result<Answer, StoreError> {
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        if settings::crew_chat(self.db, self.outfit.id).await?.is_none() {
            return Ok(Answer::says(self.words.plain("chat-none")));
        }
        settings::set(self.db, self.teller(), None, CREW_CHAT, "").await?;
        Ok(Answer::says(self.words.plain("chat-unlinked")))
    }

    /// `/start` in a group that a lead has just put the bot into links it, if
    /// the outfit has no chat yet.
    pub(super) async fn starts_group(&mut self) -> Result<Option<Answer>, StoreError> {
        if !self.incoming.chat.group
            || !self.member.role.leads()
            || settings::crew_chat(self.db, self.outfit.id).await?.is_some()
        {
            return Ok(None);
        }
        self.link_chat().await.map(Some)
    }
}
