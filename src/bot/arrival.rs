//! A message that arrives and is answered with the database at hand: who sent it, and which file answers it.

use super::Bot;
use super::act::Act;
use super::answer::Answer;
use super::answer_queue::queue_now;
use super::examples::example;
use super::import::offers::receive_file;
use super::presses::{pressed, reacted};
use super::request::{Request, Working};
use super::scene::replied_to;
use super::texts::{answer_text, reread};
use crate::domain::envelope::{Happening, Incoming, Outgoing};
use crate::message::command::{self, Command};
use crate::store::heard::{Arrival, text_hash};
use crate::store::{self, Db, StoreError};

impl Bot {
    /// Answers one message; `act` is what its text comes to, if that is known. What it sends goes behind `queued`.
    pub(super) async fn answer(
        &self,
        db: &mut Db,
        working: &mut Working,
        (incoming, act): (&Incoming, Option<Act>),
        queued: &mut Vec<Outgoing>,
        now: i64,
    ) -> Result<(), StoreError> {
        // These two concern the chat, whoever caused them.
        match &incoming.what {
            Happening::LetIn => return store::chats::unblock(db, &incoming.chat.address).await,
            Happening::Moved { to } => return store::chats::moved(db, &incoming.chat.address, to).await,
            _ => {}
        }
        let member = store::people::find(db, &incoming.person.address).await?;
        if let Happening::Text(text) = &incoming.what
            && let Some(Command::Start(token)) = command::read(text)
            && member.is_none()
        {
            return self.open_link(db, incoming, &token, queued, now).await;
        }
        let Some(member) = member else {
            return self.meet_stranger(db, incoming, queued, now).await;
        };
        let language = incoming.person.language.as_deref();
        let speaks_otherwise = language.is_some() && language != member.platform_language.as_deref();
        if speaks_otherwise {
            store::people::note_language(db, member.id, language).await?;
        }
        if incoming.what == Happening::ShutOut {
            return store::chats::block(db, &incoming.chat.address, now).await;
        }
        let hash = text_hash(incoming);
        let arrival = store::heard::note(db, &incoming.key, incoming.version, &hash, now).await?;
        if arrival == Arrival::Known {
            return Ok(());
        }
        let remembered = working.remove(&member.outfit_id).filter(|_| !speaks_otherwise);
        let Some(mut request) = self.request(db, remembered, incoming, member.outfit_id, now).await? else {
            return Ok(());
        };
        let on = &mut request;
        on.replied = replied_to(db, on).await?;
        let answer = match &incoming.what {
            Happening::Press { token, press } => pressed(db, on, token, press).await?,
            Happening::Text(text) if arrival == Arrival::Edit => reread(db, on, text).await?,
            Happening::Text(text) => answer_text(db, on, text, act).await?,
            Happening::Picture => only_in_private(on, "picture"),
            Happening::Voice => only_in_private(on, "voice"),
            Happening::Document { bytes, .. } => receive_file(db, on, bytes.as_deref()).await?,
            Happening::Reaction { on: sent, thumbs_up } => reacted(db, on, sent, *thumbs_up).await?,
            Happening::ShutOut | Happening::LetIn | Happening::Moved { .. } => Answer::silence(),
        };
        queue_now(db, on, answer, queued).await
    }
}

/// A hint for what the bot cannot take in, in a private chat.
fn only_in_private(on: &Request<'_>, key: &str) -> Answer {
    if on.incoming.chat.group {
        return Answer::silence();
    }
    Answer::says(on.words.say(key, [("example", (&example(on)).into())]))
}
