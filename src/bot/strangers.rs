//! Whoever is on no outfit.

use crate::domain::envelope::{Happening, Incoming, Outgoing};
use crate::grammar::{self, Scene};
use crate::replies::Words;
use crate::store::{self, Db, StoreError, settings};

use super::messages::say;
use super::{Bot, once_in};

/// A newcomer is told no oftener than this that the bot does not know them.
pub(super) const TOLD_AGAIN: i64 = 3600;

impl Bot {
    /// Whoever texts a reading or a deed into a crew's chat and is on no outfit
    /// is told so, since nothing of it is recorded. Talk gets silence, and
    /// nobody leaves a trace.
    async fn meet_in_group(
        &self,
        db: &mut Db,
        (incoming, text): (&Incoming, &str),
        queued: &mut Vec<Outgoing>,
        now: i64,
    ) -> Result<(), StoreError> {
        let Some(outfit_id) = settings::outfit_of_crew_chat(db, &incoming.chat.address).await? else {
            return Ok(());
        };
        let fleet = store::rigs::fleet(db, outfit_id).await?;
        let names = |rig: store::rigs::Rig| grammar::Rig {
            id: rig.id,
            name: rig.name,
            di_only: rig.di_only,
            ..grammar::Rig::default()
        };
        let scene = Scene {
            fleet: fleet.into_iter().map(names).collect(),
            ..Scene::default()
        };
        let meaning = grammar::read(text, &scene);
        let tells = !meaning.readings.is_empty() || !meaning.services.is_empty();
        if !tells || !once_in(&self.strangers, &incoming.person.address, TOLD_AGAIN, now) {
            return Ok(());
        }
        let text = Words::of(incoming.person.language.as_deref()).plain("stranger-in-group");
        let mut outgoing = say(incoming.chat.address.clone(), text);
        if let crate::domain::envelope::Body::Say { reply_to, .. } = &mut outgoing.body {
            *reply_to = Some(incoming.key.clone());
        }
        queued.push(outgoing);
        Ok(())
    }
}

impl Bot {
    /// A stranger gets one polite line an hour, in private, and leaves no trace.
    pub(super) async fn meet_stranger(
        &self,
        db: &mut Db,
        incoming: &Incoming,
        queued: &mut Vec<Outgoing>,
        now: i64,
    ) -> Result<(), StoreError> {
        if let (true, Happening::Text(text)) = (incoming.chat.group, &incoming.what) {
            return self.meet_in_group(db, (incoming, text), queued, now).await;
        }
        let speaks = matches!(
            incoming.what,
            Happening::Text(_) | Happening::Picture | Happening::Voice
        );
        if !speaks || incoming.chat.group || !once_in(&self.strangers, &incoming.person.address, TOLD_AGAIN, now) {
            return Ok(());
        }
        let text = Words::of(incoming.person.language.as_deref()).plain("stranger");
        queued.push(say(incoming.chat.address.clone(), text));
        Ok(())
    }
}
