//! An outfit that closes: a last export, its name typed in full, a week in which nothing changes but what ends or
//! saves it, then all of it is deleted.

use std::sync::Arc;

use crate::message::command::{Affair, Command};
use crate::replies::Words;
use crate::store::people::{Member, Role};
use crate::store::{self, Db, StoreError};

use super::Bot;
use super::answer::Answer;
use super::export::files::export;
use super::messages::say;
use super::request::Request;
use super::rig_names::fold;

/// How long a closing outfit can still be kept, in seconds.
pub(super) const GRACE: i64 = 7 * 86_400;

/// While an outfit is closing nothing changes but what ends or saves it.
pub(super) fn closed_to(on: &Request<'_>, command: Option<&Command>) -> Option<Answer> {
    let closing_at = on.outfit.closing_at?;
    let goes_on = matches!(
        command,
        Some(
            Command::Help
                | Command::Leave
                | Command::People
                | Command::Fleet
                | Command::History(_)
                | Command::Look(_)
                | Command::Affair(
                    Affair::Export | Affair::Changes | Affair::ForgetMe(_) | Affair::Close(_) | Affair::Keep
                )
        )
    );
    if goes_on {
        return None;
    }
    if on.incoming.chat.group && command.is_none() {
        return Some(Answer::silence());
    }
    Some(Answer::says(closing_line(on, closing_at)))
}

/// What holds while an outfit is closing.
pub(super) fn closing_line(on: &Request<'_>, closing_at: i64) -> String {
    closing_told(on, closing_at, on.words, on.member.role)
}

fn closing_told(on: &Request<'_>, closing_at: i64, words: Words, role: Role) -> String {
    let deleted_on = on.date(closing_at + GRACE);
    let day = crate::replies::figures::full_day(words, deleted_on, on.today());
    let facts = [("outfit", (&on.outfit.name).into()), ("day", (&day).into())];
    let key = if role == Role::Owner {
        "closing-to-owner"
    } else {
        "closing-to-crew"
    };
    words.say(key, facts)
}

impl Bot {
    /// Deletes the outfits whose week of grace is over.
    ///
    /// # Errors
    /// Whatever the database says; what was not committed is due again.
    pub async fn close_outfits(&self, now: i64) -> Result<(), StoreError> {
        let all = store::outfits::all(&mut *self.store.read().await?).await?;
        let over = all
            .iter()
            .filter(|outfit| outfit.closing_at.is_some_and(|at| at + GRACE <= now));
        // Each by itself, so that one that cannot be deleted keeps no other.
        for outfit_id in over.map(|outfit| outfit.id) {
            let mut tx = self.store.begin().await?;
            match store::closing::delete(&mut tx, outfit_id).await {
                Ok(()) => {
                    tx.commit().await?;
                    tracing::info!(outfit_id, "a closed outfit was deleted");
                }
                Err(trouble) if trouble.blames_the_message() => {
                    tx.rollback().await?;
                    tracing::error!(outfit_id, %trouble, "A closed outfit could not be deleted; it is tried again.");
                }
                Err(trouble) => return Err(trouble),
            }
        }
        Ok(())
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
    tell_the_others(db, on, &mut answer, |member| {
        closing_told(on, on.now, Words::of(member.language.as_deref()), member.role)
    })
    .await?;
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
    tell_the_others(db, on, &mut answer, |member| {
        Words::of(member.language.as_deref()).say("outfit-kept", [("outfit", (&outfit).into())])
    })
    .await?;
    Ok(answer)
}

async fn tell_the_others(
    db: &mut Db,
    on: &Request<'_>,
    answer: &mut Answer,
    told: impl Fn(&Member) -> String,
) -> Result<(), StoreError> {
    let everybody = store::people::of_outfit(db, on.outfit.id).await?;
    let others = everybody.into_iter().filter(|member| member.id != on.member.id);
    answer
        .to_others
        .extend(others.map(|member| say(member.chat.clone(), told(&member))));
    Ok(())
}
