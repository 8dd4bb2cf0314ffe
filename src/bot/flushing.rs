//! What people answer to a flush reminder, and the morning after a missed one.

use jiff::civil::Date;

use crate::replies::listed;
use crate::schedule;
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::due::ASK_AGAIN;
use super::turn::Turn;

/// How far back a bare "in 30 minutes" finds the question it answers.
const QUESTION_STANDS: i64 = 12 * 3600;

impl Turn<'_> {
    /// Puts a reminder off, by so many minutes where that is said; without names,
    /// all that this chat was asked about.
    pub(super) async fn flush_later(&mut self, rigs: &[i64], minutes: Option<u16>) -> Result<Answer, StoreError> {
        let since = self.now - QUESTION_STANDS;
        let asked = store::nudges::open_in(self.db, &self.incoming.chat.address, since).await?;
        let meant: Vec<i64> = if rigs.is_empty() { asked } else { rigs.to_vec() };
        if meant.is_empty() {
            return Ok(Answer::silence());
        }
        let wait = minutes.map_or(ASK_AGAIN, |minutes| i64::from(minutes) * 60);
        let (again_at, today) = (self.now + wait, self.today().to_string());
        let (mut put_off, mut no_more, mut not_yet) = (Vec::new(), Vec::new(), Vec::new());
        for rig in meant {
            let name = self.rig_name(rig);
            let asked_at = store::nudges::last_asked(self.db, rig, self.now + 1).await?;
            if store::nudges::put_off(self.db, rig, &today, again_at).await? {
                put_off.push(name);
            } else if asked_at.is_some_and(|at| self.date(at) == self.today()) {
                no_more.push(name);
            } else {
                not_yet.push(name);
            }
        }
        let mut lines = Vec::new();
        if !put_off.is_empty() {
            let time = schedule::local_time(&self.zone, again_at).unwrap_or_default();
            let time = time.strftime("%H:%M").to_string();
            let rigs = self.names(&put_off);
            let facts = [("rigs", (&rigs).into()), ("time", (&time).into())];
            lines.push(self.words.say("nudge-put-off", facts));
        }
        for (key, names) in [("nudge-no-more", no_more), ("nudge-not-yet", not_yet)] {
            let Some(first) = names.first() else {
                continue;
            };
            let example = self
                .words
                .say("example-flushed", [("rig", (&first.to_lowercase()).into())]);
            let rigs = self.names(&names);
            let facts = [("rigs", (&rigs).into()), ("example", (&example).into())];
            lines.push(self.words.say(key, facts));
        }
        Ok(Answer::says(lines.join("\n")))
    }

    /// Which of the rigs that are flushed by hand and worked today are flushed.
    pub(super) async fn flush_status(&mut self) -> Result<Answer, StoreError> {
        let today = self.today();
        let (mut done, mut left) = (Vec::new(), Vec::new());
        for rig in self.fleet.clone() {
            let last = store::readings::latest(self.db, rig.id, self.now + 1, 1).await?;
            let worked = last.first().is_some_and(|last| self.date(last.taken_at) == today);
            let flushed = store::services::last_done(self.db, rig.id, "flush").await?;
            if rig.flushes_itself || rig.di_only {
                continue;
            }
            match (flushed.is_some_and(|at| self.date(at) == today), worked) {
                (true, _) => done.push(rig.name),
                (false, true) => left.push(rig.name),
                (false, false) => {}
            }
        }
        let line = |key: &str, names: &[String]| {
            let rigs = self.names(names);
            (!names.is_empty()).then(|| self.words.say(key, [("rigs", (&rigs).into())]))
        };
        let lines: Vec<String> = [line("flush-left", &left), line("flush-done", &done)]
            .into_iter()
            .flatten()
            .collect();
        if lines.is_empty() {
            return Ok(Answer::says(self.words.plain("flush-none-worked")));
        }
        Ok(Answer::says(lines.join("\n")))
    }

    /// Notes that rigs were not used today, so that nobody asks again.
    pub(super) async fn not_used(&mut self, rigs: &[i64]) -> Result<Answer, StoreError> {
        let today = self.today().to_string();
        let mut lines = Vec::new();
        for rig in rigs {
            store::nudges::not_used(self.db, *rig, &today, self.now).await?;
            let name = self.rig_name(*rig);
            lines.push(self.words.say("not-used-noted", [("rig", (&name).into())]));
        }
        Ok(Answer::says(lines.join("\n")))
    }

    /// The day on which a rig was left unflushed although somebody was asked, if
    /// this is its first reading since.
    pub(super) async fn missed_flush(
        &mut self,
        rig: &Rig,
        before: Option<&Reading>,
        now: i64,
    ) -> Result<Option<Date>, StoreError> {
        let Some(before) = before.filter(|before| self.date(before.taken_at) < self.date(now)) else {
            return Ok(None);
        };
        let Some(asked_at) = store::nudges::last_asked(self.db, rig.id, now).await? else {
            return Ok(None);
        };
        let flushed_at = store::services::last_done(self.db, rig.id, "flush").await?;
        let was_flushed = flushed_at.is_some_and(|at| at >= before.taken_at);
        let missed = asked_at >= before.taken_at && !was_flushed;
        Ok(missed.then(|| self.date(asked_at)))
    }

    fn names(&self, names: &[String]) -> String {
        listed(self.words, &names.iter().map(String::as_str).collect::<Vec<_>>())
    }
}
