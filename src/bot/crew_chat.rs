//! The crew's group chat: linked by typing in it, so that nobody links one by mistake.

use crate::message::{self, Scene};
use crate::replies::Words;
use crate::store::settings::{self, CREW_CHAT};
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::envelope::Incoming;
use super::turn::{Turn, say};
use super::{Bot, once_in};

/// A newcomer is told no oftener than this that the bot does not know them.
const TOLD_AGAIN: i64 = 3600;

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

impl Bot {
    /// Whoever texts a reading or a deed into a crew's chat and is on no outfit
    /// is told so, since nothing of it is recorded. Talk gets silence, and
    /// nobody leaves a trace.
    pub(super) async fn meet_in_group(
        &self,
        db: &mut Db,
        incoming: &Incoming,
        text: &str,
        now: i64,
    ) -> Result<(), StoreError> {
        let Some(outfit_id) = settings::outfit_of_crew_chat(db, &incoming.chat.address).await? else {
            return Ok(());
        };
        let fleet = store::rigs::fleet(db, outfit_id).await?;
        let names = |rig: store::rigs::Rig| message::Rig {
            id: rig.id,
            name: rig.name,
            di_only: rig.di_only,
            ..message::Rig::default()
        };
        let scene = Scene {
            fleet: fleet.into_iter().map(names).collect(),
            ..Scene::default()
        };
        let meaning = message::read(text, &scene);
        let tells = !meaning.readings.is_empty() || !meaning.services.is_empty();
        if !tells || !once_in(&self.strangers, &incoming.person.address, TOLD_AGAIN, now) {
            return Ok(());
        }
        let text = Words::of(incoming.person.language.as_deref()).plain("stranger-in-group");
        let mut outgoing = say(incoming.chat.address.clone(), text);
        if let super::envelope::Body::Say { reply_to, .. } = &mut outgoing.body {
            *reply_to = Some(incoming.key.clone());
        }
        store::sends::queue(db, &outgoing, now).await
    }
}
