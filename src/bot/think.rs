//! What can be answered from memory alone: nearly all that crews text. It needs no database, so it is thought about
//! before any lock is taken, and what it changes is gathered as [`Effects`].

use crate::domain::envelope::{Happening, Incoming};
use crate::history::Outfit;
use crate::store::StoreError;

use super::Bot;
use super::act::Act;
use super::addressed::is_named;
use super::answer_queue::queue;
use super::effects::Effects;
use super::meaning_answers::record_from_memory;
use super::request::Request;
use super::texts::decide;

/// What came of thinking.
pub(super) enum Thought {
    /// It is answered; the effects say what changes.
    Done,
    /// It must be done with the database at hand; what its text comes to, if that is known.
    Later(Option<Box<Act>>),
}

impl Bot {
    /// Thinks about a message that arrives for the first time; gives the outfit back.
    ///
    /// # Errors
    /// When the system has no random numbers.
    pub(super) fn think(
        &self,
        outfit: Box<Outfit>,
        incoming: &Incoming,
        effects: &mut Effects,
        now: i64,
    ) -> Result<(Box<Outfit>, Thought), StoreError> {
        let mut on = match Request::of(self, outfit, incoming, now) {
            Ok(on) => on,
            Err(outfit) => return Ok((outfit, Thought::Later(None))),
        };
        let thought = answer_from_memory(&mut on, effects)?;
        Ok((on.known, thought))
    }
}

/// Answers what readings, services and questions back are made of; changes nothing for the rest.
fn answer_from_memory(on: &mut Request<'_>, effects: &mut Effects) -> Result<Thought, StoreError> {
    let incoming = on.incoming;
    let Happening::Text(text) = &incoming.what else {
        return Ok(Thought::Later(None));
    };
    let is_plain = incoming.reply_to.is_none() && !on.recent().guided && on.outfit.closing_at.is_none();
    let language = incoming.person.language.as_deref();
    let same_language = language.is_none() || language == on.member.platform_language.as_deref();
    if !is_plain || !same_language || text.trim_start().starts_with('/') {
        return Ok(Thought::Later(None));
    }
    let is_named = is_named(on);
    let act = decide(on, text, is_named);
    let (meaning, answers) = match &act {
        Act::Meaning(meaning) => (meaning.clone(), false),
        Act::Answer(meaning) => (meaning.clone(), true),
        // Talk in a group.
        Act::Unclear(_) if incoming.chat.group && !is_named => return Ok(Thought::Done),
        _ => return Ok(Thought::Later(Some(Box::new(act)))),
    };
    match record_from_memory(on, effects, meaning, answers) {
        Some(answer) => queue(on, effects, answer).map(|()| Thought::Done),
        None => Ok(Thought::Later(Some(Box::new(act)))),
    }
}
