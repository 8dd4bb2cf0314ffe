//! Closing an outfit: a last export, its name typed in full, a week to think,
//! then all of it is deleted.

use std::sync::Arc;

use crate::replies::Words;
use crate::store::people::Role;
use crate::store::{self, Db, StoreError};

use super::Bot;
use super::answer::Answer;
use super::closed_outfit::{GRACE, closing_line};
use super::export::files::export;
use super::messages::say;
use super::request::Request;
use super::rig_names::fold;

impl Bot {
    /// Deletes the outfits whose week of grace is over.
    ///
    /// # Errors
    /// Whatever the database says; what was not committed is due again.
    pub async fn close_outfits(&self, now: i64) -> Result<(), StoreError> {
        let mut tx = self.store.begin().await?;
        let over: Vec<i64> = store::outfits::all(&mut tx)
            .await?
            .iter()
            .filter(|outfit| outfit.closing_at.is_some_and(|at| at + GRACE <= now))
            .map(|outfit| outfit.id)
            .collect();
        for outfit_id in over {
            store::closing::delete(&mut tx, outfit_id).await?;
            tracing::info!(outfit_id, "a closed outfit was deleted");
        }
        tx.commit().await
    }
}

pub(super) async fn close(db: &mut Db, on: &mut Request<'_>, named: Option<String>) -> Result<Answer, StoreError> {
    if let Some(closing_at) = on.outfit.closing_at {
        return Ok(Answer::says(closing_line(on, closing_at)));
    }
    let Some(named) = named.filter(|named| fold(named) == fold(&on.outfit.name)) else {
        let mut answer = export(db, on).await?;
        let name = ("outfit", (&on.outfit.name).into());
        answer.parts = vec![on.words.say("close-sure", [name])];
        return Ok(answer);
    };
    tracing::info!(outfit_id = on.outfit.id, "an outfit is closing");
    store::changes::note(db, on.teller(), "closing", &named).await?;
    store::outfits::set_closing(db, on.outfit.id, Some(on.now)).await?;
    Arc::make_mut(&mut on.outfit).closing_at = Some(on.now);
    let mut answer = Answer::says(closing_line(on, on.now));
    let deleted_on = on.now + GRACE;
    for member in store::people::of_outfit(db, on.outfit.id).await? {
        if member.id != on.member.id {
            let words = Words::of(member.language.as_deref());
            let day = crate::replies::figures::full_day(words, on.date(deleted_on), on.today());
            let facts = [("outfit", (&on.outfit.name).into()), ("day", (&day).into())];
            let told = if member.role == Role::Owner {
                words.say("closing-to-owner", facts)
            } else {
                words.say("closing-to-crew", facts)
            };
            answer.to_others.push(say(member.chat, told));
        }
    }
    Ok(answer)
}

pub(super) async fn keep_outfit(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    let outfit = on.outfit.name.clone();
    if on.outfit.closing_at.is_none() {
        return Ok(Answer::says(
            on.words.say("not-closing", [("outfit", (&outfit).into())]),
        ));
    }
    store::outfits::set_closing(db, on.outfit.id, None).await?;
    store::changes::note(db, on.teller(), "kept", "").await?;
    let mut answer = Answer::says(on.words.say("outfit-kept", [("outfit", (&outfit).into())]));
    for member in store::people::of_outfit(db, on.outfit.id).await? {
        if member.id != on.member.id {
            let words = Words::of(member.language.as_deref());
            let told = words.say("outfit-kept", [("outfit", (&outfit).into())]);
            answer.to_others.push(say(member.chat, told));
        }
    }
    Ok(answer)
}
