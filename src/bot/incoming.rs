//! A message that arrives and is answered with the database at hand: who sent it, and which file answers it.

use sha2::{Digest, Sha256};

use super::Bot;
use super::act::Act;
use super::answer::Answer;
use super::answer_queue::queue;
use super::batch::Working;
use super::effects::Effects;
use super::examples::example;
use super::import::offers::receive_file;
use super::presses::{pressed, reacted};
use super::request::{Request, remember_sender};
use super::scene::replied_to;
use super::texts::{answer_text, reread};
use crate::domain::envelope::{Happening, Incoming, Outgoing};
use crate::history;
use crate::message::command::{self, Command};
use crate::store::heard::Arrival;
use crate::store::{self, Db, StoreError, invites, outfit_rows};

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
        let hash = match &incoming.what {
            Happening::Text(text) => invites::hex(&Sha256::digest(text.as_bytes())),
            _ => String::new(),
        };
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

    /// What somebody's message is answered with the help of: what is remembered of their outfit, or loaded.
    pub(super) async fn request<'a>(
        &'a self,
        db: &mut Db,
        remembered: Option<Box<history::Outfit>>,
        incoming: &'a Incoming,
        outfit_id: i64,
        now: i64,
    ) -> Result<Option<Request<'a>>, StoreError> {
        let mut request = remembered.and_then(|known| Request::of(self, known, incoming, now).ok());
        if request.is_none() {
            outfit_rows::touch(db, &[outfit_id]).await?;
            let known = history::load::load(db, &[outfit_id]).await?.pop();
            request = known.and_then(|known| Request::of(self, known, incoming, now).ok());
        }
        let Some(mut request) = request else { return Ok(None) };
        let person = request.member.id;
        remember_sender(db, &mut request.known, person, now).await?;
        Ok(Some(request))
    }
}

/// Queues an answer behind others, with what its buttons and cautions need in the database.
///
/// # Errors
/// Whatever the database says, or when the system has no random numbers.
pub(super) async fn queue_now(
    db: &mut Db,
    on: &mut Request<'_>,
    answer: Answer,
    queued: &mut Vec<Outgoing>,
) -> Result<(), StoreError> {
    let mut effects = Effects::default();
    queue(on, &mut effects, answer)?;
    effects.write(db, on.now).await?;
    queued.append(&mut effects.sends);
    Ok(())
}

/// A hint for what the bot cannot take in, in a private chat.
fn only_in_private(on: &Request<'_>, key: &str) -> Answer {
    if on.incoming.chat.group {
        return Answer::silence();
    }
    Answer::says(on.words.say(key, [("example", (&example(on)).into())]))
}
