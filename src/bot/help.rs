//! Help: what to tell by role and by what was just tried.

use std::sync::PoisonError;

use crate::message::attempt;
use crate::message::command::Page;
use crate::message::{Ask, Scene, Term};
use crate::replies::asking::{self, Names, Reason};
use crate::replies::help::{self, Tried};
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::scene::CORRECTABLE;
use super::turn::{HINT_PAUSE, Turn, standing};
use super::{Bot, once_in};

impl Turn<'_> {
    /// The short help.
    pub(super) async fn help(&mut self) -> Result<Answer, StoreError> {
        let chat = self.incoming.chat.address.clone();
        let open = store::questions::waiting(self.db, &chat, self.member.id, self.now).await?;
        let question = open.map(|open| self.question_again(&open.ask));
        let tried = if let Some(question) = &question {
            Tried::Question(question)
        } else if self.fleet.is_empty() && self.member.role.leads() {
            Tried::NoRigs
        } else if let Some(page) = self.bot.tried(&self.incoming.person.address, self.now) {
            Tried::About(page)
        } else if self.has_sent().await? {
            Tried::Sent
        } else {
            Tried::Nothing
        };
        let standing = standing(self.member.role);
        Ok(Answer::says(help::short(
            self.words,
            standing,
            tried,
            &self.known_rig(),
        )))
    }

    /// A page of help; in a group nothing on what there is no page for, since
    /// that was hardly said to the bot.
    pub(super) async fn help_on(&mut self, page: Option<Page>) -> Result<Answer, StoreError> {
        let Some(page) = page else {
            let spoken_to = !self.incoming.chat.group || self.is_addressed().await?;
            return Ok(if spoken_to {
                Answer::says(help::no_page(self.words))
            } else {
                Answer::silence()
            });
        };
        let rig = self.known_rig();
        let other = self.other_rig(&rig);
        Ok(Answer::says(help::page(self.words, page, &rig, &other)))
    }

    /// What a word means.
    pub(super) fn meaning(&self, term: Term) -> Answer {
        Answer::says(help::meaning(self.words, term))
    }

    /// The nearest right example for what could not be understood. In a group
    /// only for whoever spoke to the bot; mere chatter gets one in ten minutes.
    pub(super) async fn hint(&mut self, text: &str, scene: &Scene) -> Result<Answer, StoreError> {
        if self.incoming.chat.group && !self.is_addressed().await? {
            return Ok(Answer::silence());
        }
        if let Some(example) = self.half_typed(text) {
            return Ok(example);
        }
        let attempt = attempt::of(text, scene);
        if let Some(page) = attempt.page() {
            self.bot.note_tried(&self.incoming.person.address, page, self.now);
        } else if !once_in(&self.bot.hints, &self.incoming.chat.address, HINT_PAUSE, self.now) {
            return Ok(Answer::silence());
        }
        let rig = attempt.rig.map_or_else(|| self.known_rig(), |rig| self.rig_name(rig));
        Ok(Answer::says(help::hint(self.words, attempt, &rig)))
    }

    /// A rig that this person knows: their own, else the fleet's first.
    pub(super) fn known_rig(&self) -> String {
        let own = self
            .member
            .own_rig
            .and_then(|own| self.fleet.iter().find(|rig| rig.id == own));
        own.or(self.fleet.first())
            .map_or_else(|| "heron".to_owned(), |rig| rig.name.clone())
    }

    /// Another rig of the fleet, for what is typed of two.
    pub(super) fn other_rig(&self, than: &str) -> String {
        let other = self.fleet.iter().find(|rig| rig.name != than);
        other.map_or_else(|| "otter".to_owned(), |rig| rig.name.clone())
    }

    fn question_again(&self, ask: &Ask) -> String {
        let fleet: Vec<(i64, String)> = self.fleet.iter().map(|rig| (rig.id, rig.name.clone())).collect();
        let names = Names {
            fleet: &fleet,
            example: &self.example(),
            usual_feed_ppm: None,
            reason: Reason::Strange,
        };
        asking::question(self.words, ask, &names)
    }

    async fn has_sent(&mut self) -> Result<bool, StoreError> {
        let since = self.now - CORRECTABLE;
        Ok(store::readings::last_message(self.db, self.member.id, since)
            .await?
            .is_some()
            || store::services::last_message(self.db, self.member.id, since)
                .await?
                .is_some())
    }
}

impl Bot {
    pub(super) fn note_tried(&self, who: &str, page: Page, now: i64) {
        let mut tried = self.tried.lock().unwrap_or_else(PoisonError::into_inner);
        if tried.len() >= 5000 {
            tried.retain(|_, (_, at)| now < *at + HINT_PAUSE);
        }
        if tried.len() < 10_000 {
            tried.insert(who.to_owned(), (page, now));
        }
    }

    /// What somebody tried in vain a moment ago.
    fn tried(&self, who: &str, now: i64) -> Option<Page> {
        let tried = self.tried.lock().unwrap_or_else(PoisonError::into_inner);
        tried
            .get(who)
            .filter(|(_, at)| now < *at + HINT_PAUSE)
            .map(|(page, _)| *page)
    }
}
