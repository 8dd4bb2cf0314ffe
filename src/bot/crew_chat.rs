//! The crew's group chat: linked by typing in it, so that nobody links one by mistake.

use crate::store::settings::{self, CREW_CHAT};
use crate::store::{Db, StoreError};

use super::answer::Answer;
use super::examples::example;
use super::refusals::may_not;
use super::request::Request;

pub(super) async fn link_chat(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    if !on.incoming.chat.group {
        return Ok(Answer::says(on.words.plain("link-in-group")));
    }
    let here = &on.incoming.chat.address;
    if settings::outfit_of_crew_chat(db, here)
        .await?
        .is_some_and(|other| other != on.outfit.id)
    {
        return Ok(Answer::says(on.words.plain("chat-taken")));
    }
    if settings::crew_chat(db, on.outfit.id).await?.as_deref() != Some(here) {
        settings::set(db, on.teller(), None, CREW_CHAT, here).await?;
    }
    let linked = on.words.say(
        "chat-linked",
        [("outfit", (&on.outfit.name).into()), ("example", (&example(on)).into())],
    );
    Ok(Answer::says(if on.bot.hears_groups() {
        linked
    } else {
        format!("{linked}\n{}", on.words.plain("chat-privacy"))
    }))
}

pub(super) async fn unlink_chat(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    if settings::crew_chat(db, on.outfit.id).await?.is_none() {
        return Ok(Answer::says(on.words.plain("chat-none")));
    }
    settings::set(db, on.teller(), None, CREW_CHAT, "").await?;
    Ok(Answer::says(on.words.plain("chat-unlinked")))
}

/// `/start` in a group that a lead has just put the bot into links it, if
/// the outfit has no chat yet.
pub(super) async fn starts_group(db: &mut Db, on: &Request<'_>) -> Result<Option<Answer>, StoreError> {
    if !on.incoming.chat.group || !on.member.role.leads() || settings::crew_chat(db, on.outfit.id).await?.is_some() {
        return Ok(None);
    }
    link_chat(db, on).await.map(Some)
}
