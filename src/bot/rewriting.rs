//! Taking back and putting right: edits, corrections, undo. What is withdrawn
//! stays in the record, marked.

use crate::message::{self, Amend, Correction, Solids};
use crate::replies::reading;
use crate::store::readings::Reading;
use crate::store::services::Service;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::preserving::PRESERVED;
use super::recording::{figures_of, service_of};
use super::scene::{CORRECTABLE, spoken_of};
use super::turn::Turn;
use super::when::instant;

impl Turn<'_> {
    /// An edited message: what it made is withdrawn, and its new text is read.
    pub(super) async fn reread(&mut self, text: &str) -> Result<Answer, StoreError> {
        if let Some(refusal) = self.closed_to(None) {
            return Ok(refusal);
        }
        let key = self.incoming.key.clone();
        store::questions::close_of_message(self.db, &key, self.now).await?;
        let taken_back = self.take_back(&key).await?;
        let mut answer = self.read(text).await?;
        if taken_back.is_empty() {
            return Ok(answer);
        }
        let remade = !store::readings::of_message(self.db, &key).await?.is_empty()
            || !store::services::of_message(self.db, &key).await?.is_empty();
        if !remade {
            answer.parts.insert(0, taken_back.join("\n"));
        } else if let Some(first) = answer.parts.first_mut() {
            first.insert_str(0, &format!("{}\n", self.words.plain("corrected")));
        }
        Ok(answer)
    }

    /// Puts right what the sender said last on a rig.
    pub(super) async fn correct(&mut self, correction: &Correction) -> Result<Answer, StoreError> {
        let Some((old, change)) = self.corrected_reading(correction).await? else {
            return Ok(Answer::says(self.words.plain("nothing-to-withdraw")));
        };
        if correction.void {
            store::readings::withdraw(self.db, old.id, self.now).await?;
            return Ok(Answer::says(self.withdrawn(&old)));
        }
        let mut corrected = self.changed(&old, &change);
        if let Some(misfit) = self.fit_to_rig(&mut corrected) {
            return Ok(misfit);
        }
        store::readings::withdraw(self.db, old.id, self.now).await?;
        corrected.id = store::readings::record(self.db, self.teller(), &corrected).await?;
        let mut answer = self.tell(&corrected, false, false).await?;
        if let Some(first) = answer.parts.first_mut() {
            first.insert_str(0, &format!("{}\n", self.words.plain("corrected")));
        }
        Ok(answer)
    }

    /// A reading that moves between rigs of two kinds: on one without a membrane its
    /// second number is the glass; one with a membrane needs its RO, which is said.
    fn fit_to_rig(&self, moved: &mut Reading) -> Option<Answer> {
        let rig = self.fleet.iter().find(|rig| rig.id == moved.rig_id)?;
        if rig.di_only {
            let (second, raw) = (moved.permeate_ppm.take(), moved.permeate_raw_us.take());
            if moved.product_ppm.is_none() {
                (moved.product_ppm, moved.product_raw_us) = (second, raw);
            }
            return None;
        }
        moved.permeate_ppm.is_none().then(|| {
            let (name, example) = (
                &rig.name,
                format!("{} {}", rig.name.to_lowercase(), moved.feed_ppm.round()),
            );
            Answer::says(self.words.say(
                "moved-without-ro",
                [("rig", name.into()), ("example", (&example).into())],
            ))
        })
    }

    /// The reading that a correction is about, and what changes of it: the one
    /// just spoken of, else the latest on the named rig of the last 12 hours (a
    /// lead's word also counts for what others sent). There, a time that was
    /// said tells which reading is meant.
    async fn corrected_reading(
        &mut self,
        correction: &Correction,
    ) -> Result<Option<(Reading, message::Reading)>, StoreError> {
        // "Delete badger 180 12" names the one by its values.
        let change = &correction.change;
        let meant = |reading: &Reading| {
            let same = |said: Option<Solids>, kept: Option<f64>| {
                said.is_none_or(|said| kept.is_some_and(|kept| (kept - said.ppm).abs() < 0.05))
            };
            let told = same(change.feed, Some(reading.feed_ppm))
                && same(change.permeate, reading.permeate_ppm.or(reading.product_ppm));
            reading.rig_id == correction.from_rig && (!correction.void || told)
        };
        let spoken = spoken_of(self).await?.readings;
        if let Some(old) = spoken.into_iter().find(meant) {
            return Ok(Some((old, correction.change.clone())));
        }
        let whose = (!self.member.role.leads()).then_some(self.member.id);
        let since = self.now - CORRECTABLE;
        let mut recent = store::readings::heard_since(self.db, correction.from_rig, whose, since).await?;
        recent.retain(meant);
        if correction.change.when.is_some() {
            let meant = instant(correction.change.when, self.sent_at(), &self.zone);
            recent.sort_by_key(|reading| (reading.taken_at - meant).abs());
        }
        let change = message::Reading {
            when: None,
            ..correction.change.clone()
        };
        Ok(recent.into_iter().next().map(|old| (old, change)))
    }

    /// Puts right the services that the sender told of last.
    pub(super) async fn amend(&mut self, amend: &Amend) -> Result<Answer, StoreError> {
        let services = spoken_of(self).await?.services;
        let mut lines = Vec::new();
        for old in services.into_iter().filter(|one| one.rig_id == amend.from_rig) {
            store::services::withdraw(self.db, old.id, self.now).await?;
            let Some(what) = service_of(&old.what).filter(|_| !amend.void) else {
                lines.push(self.withdrawn_service(&old));
                continue;
            };
            let mut new = old.clone();
            new.rig_id = amend.rig.unwrap_or(old.rig_id);
            if amend.when.is_some() {
                new.done_at = instant(amend.when, self.sent_at(), &self.zone);
            }
            let price = amend.price.as_ref().and_then(|price| self.rules.minor(price.amount));
            let sign = amend.price.as_ref().and_then(|price| price.currency.as_deref());
            new.price_minor = price.or(old.price_minor);
            new.minutes = amend.minutes.map(i64::from).or(old.minutes);
            store::services::record(self.db, self.teller(), &new).await?;
            lines.push(format!(
                "{}\n{}",
                self.words.plain("corrected"),
                self.noted(&new, what, true, sign)
            ));
        }
        if lines.is_empty() {
            lines.push(self.words.plain("nothing-to-withdraw"));
        }
        Ok(Answer::says(lines.join("\n")))
    }

    fn changed(&self, old: &Reading, change: &message::Reading) -> Reading {
        let mut new = old.clone();
        new.rig_id = change.rig.unwrap_or(old.rig_id);
        if let Some(feed) = change.feed {
            (new.feed_ppm, new.feed_raw_us) = (feed.ppm, feed.raw_us);
        }
        if let Some(permeate) = change.permeate {
            (new.permeate_ppm, new.permeate_raw_us) = (Some(permeate.ppm), permeate.raw_us);
        }
        if let Some(product) = change.product {
            (new.product_ppm, new.product_raw_us) = (Some(product.ppm), product.raw_us);
        }
        new.temperature_c = change.temperature_c.or(old.temperature_c);
        new.pressure_kpa = change.pressure_kpa.or(old.pressure_kpa);
        new.permeate_lpm = change.permeate_lpm.or(old.permeate_lpm);
        new.waste_lpm = change.waste_lpm.or(old.waste_lpm);
        if change.when.is_some() {
            new.taken_at = instant(change.when, old.taken_at, &self.zone);
        }
        new
    }

    /// Takes back the sender's last message of the last 12 hours, or drops the
    /// open question.
    pub(super) async fn undo(&mut self) -> Result<Answer, StoreError> {
        let chat = self.incoming.chat.address.clone();
        if store::questions::waiting(self.db, &chat, self.member.id, self.now)
            .await?
            .is_some()
        {
            store::questions::close_all(self.db, &chat, self.member.id, self.now).await?;
            return Ok(Answer::says(self.words.plain("dropped")));
        }
        let since = self.now - CORRECTABLE;
        let reading = store::readings::last_message(self.db, self.member.id, since).await?;
        let service = store::services::last_message(self.db, self.member.id, since).await?;
        let Some((source, _)) = reading.into_iter().chain(service).max_by_key(|(_, heard_at)| *heard_at) else {
            return Ok(Answer::says(self.words.plain("nothing-to-withdraw")));
        };
        Ok(Answer::says(self.take_back(&source).await?.join("\n")))
    }

    /// Withdraws all that one message made; says what, a line each.
    async fn take_back(&mut self, source_key: &str) -> Result<Vec<String>, StoreError> {
        let mut lines = Vec::new();
        for old in store::readings::of_message(self.db, source_key).await? {
            store::readings::withdraw(self.db, old.id, self.now).await?;
            lines.push(self.withdrawn(&old));
        }
        for old in store::services::of_message(self.db, source_key).await? {
            store::services::withdraw(self.db, old.id, self.now).await?;
            lines.push(self.withdrawn_service(&old));
        }
        Ok(lines)
    }

    fn withdrawn(&self, old: &Reading) -> String {
        let echo = reading::echo(self.words, figures_of(old));
        let rig = self.rig_name(old.rig_id);
        self.words
            .say("withdrawn-reading", [("rig", (&rig).into()), ("echo", (&echo).into())])
    }

    fn withdrawn_service(&self, old: &Service) -> String {
        let what = match service_of(&old.what) {
            Some(what) => reading::service_word(self.words, what),
            None if old.what == PRESERVED => self.words.plain("preserved-withdrawn"),
            None => self.words.plain("label-same-membrane").to_lowercase(),
        };
        let rig = self.rig_name(old.rig_id);
        self.words
            .say("withdrawn-service", [("rig", (&rig).into()), ("what", (&what).into())])
    }
}
