//! Closing an outfit: a last export, its name typed in full, a week to think,
//! then all of it is deleted.

use crate::replies::Words;
use crate::store::people::Role;
use crate::store::{self, StoreError};

use super::Bot;
use super::answer::Answer;
use super::fleet::fold;
use super::turn::{Turn, say};

/// How long a closing outfit can still be kept, in seconds.
const GRACE: i64 = 7 * 86_400;

impl Turn<'_> {
    pub(super) async fn close(&mut self, named: Option<String>) -> Result<Answer, StoreError> {
        if let Some(closing_at) = self.outfit.closing_at {
            return Ok(Answer::says(self.closing_line(closing_at)));
        }
        let Some(named) = named.filter(|named| fold(named) == fold(&self.outfit.name)) else {
            let mut answer = self.export().await?;
            let name = ("outfit", (&self.outfit.name).into());
            answer.parts = vec![self.words.say("close-sure", [name])];
            return Ok(answer);
        };
        tracing::info!(outfit_id = self.outfit.id, "an outfit is closing");
        self.note("closing", &named).await?;
        store::outfits::set_closing(self.db, self.outfit.id, Some(self.now)).await?;
        self.outfit.closing_at = Some(self.now);
        let mut answer = Answer::says(self.closing_line(self.now));
        let deleted_on = self.now + GRACE;
        for member in store::people::of_outfit(self.db, self.outfit.id).await? {
            if member.id != self.member.id {
                let words = Words::of(member.language.as_deref());
                let day = crate::replies::figures::full_day(words, self.date(deleted_on), self.today());
                let facts = [("outfit", (&self.outfit.name).into()), ("day", (&day).into())];
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

    /// What holds while an outfit is closing.
    pub(super) fn closing_line(&self, closing_at: i64) -> String {
        let deleted_on = self.date(closing_at + GRACE);
        let day = crate::replies::figures::full_day(self.words, deleted_on, self.today());
        let facts = [("outfit", (&self.outfit.name).into()), ("day", (&day).into())];
        if self.member.role == Role::Owner {
            self.words.say("closing-to-owner", facts)
        } else {
            self.words.say("closing-to-crew", facts)
        }
    }

    pub(super) async fn keep_outfit(&mut self) -> Result<Answer, StoreError> {
        let outfit = self.outfit.name.clone();
        if self.outfit.closing_at.is_none() {
            return Ok(Answer::says(
                self.words.say("not-closing", [("outfit", (&outfit).into())]),
            ));
        }
        store::outfits::set_closing(self.db, self.outfit.id, None).await?;
        self.note("kept", "").await?;
        let mut answer = Answer::says(self.words.say("outfit-kept", [("outfit", (&outfit).into())]));
        for member in store::people::of_outfit(self.db, self.outfit.id).await? {
            if member.id != self.member.id {
                let words = Words::of(member.language.as_deref());
                let told = words.say("outfit-kept", [("outfit", (&outfit).into())]);
                answer.to_others.push(say(member.chat, told));
            }
        }
        Ok(answer)
    }
}

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
        Ok(tx.commit().await?)
    }
}
