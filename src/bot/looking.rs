//! Answers to questions: a rig now, its history, the fleet, who is quiet.

use crate::message::Topic;
use crate::replies::figures;
use crate::replies::looking::{self, Past};
use crate::replies::membrane;
use crate::replies::reading::Told;
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};
use crate::water::assess::Reason;
use crate::water::prefilter;

use super::answer::Answer;
use super::condition::{raw_rejection, word_for};
use super::following::{Followed, follow_fleet};
use super::recording::figures_of;
use super::turn::Turn;

const HISTORY_LINES: i64 = 10;
/// From this many days without a reading on, a rig is quiet.
const QUIET_DAYS: i32 = 3;

impl Turn<'_> {
    pub(super) async fn look(&mut self, topic: Topic, rig: Option<i64>) -> Result<Answer, StoreError> {
        let rig = rig
            .or(self.member.own_rig)
            .and_then(|id| self.fleet.iter().find(|rig| rig.id == id).cloned());
        match (topic, rig) {
            (Topic::Help | Topic::Explain, _) => self.help().await,
            (Topic::Quiet, _) => self.quiet().await,
            (Topic::History | Topic::WhoLogged, Some(rig)) => self.history(&rig).await,
            (
                Topic::MembraneWhen
                | Topic::Trend
                | Topic::Rejection
                | Topic::Why
                | Topic::Picture
                | Topic::Cost
                | Topic::WhatIf,
                Some(rig),
            ) => self.membrane(&rig).await,
            (Topic::Shopping, _) => self.shopping().await,
            (Topic::Fleet, _) | (_, None) => self.whole_fleet().await,
            (_, Some(rig)) => self.one_rig(&rig).await,
        }
    }

    pub(super) async fn one_rig(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        let followed = self.follow(rig).await?;
        let last = self.newest(&followed);
        let last_done = |what: &str| followed.record.last_done_on(&self.zone, Some(what));
        let by_hand = !rig.flushes_itself && !rig.di_only;
        let example = format!("{} 180 12", rig.name.to_lowercase());
        let facts = looking::Rig {
            name: &rig.name,
            last: last.as_ref(),
            resin_on: self.rules.has_bed(rig).then(|| last_done("resin")),
            flushed_on: by_hand.then(|| last_done("flush")),
            prefilters: due_of(&followed.assessment.prefilter).map(|(overdue, at)| (overdue, self.date(at))),
            example: &example,
        };
        let told = looking::rig(self.words, &facts, self.today());
        self.with_preserved(rig, told).await
    }

    pub(super) async fn history(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        let past = self.past(rig.id, HISTORY_LINES).await?;
        let example = format!("{} 180 12", rig.name.to_lowercase());
        let told = looking::history(self.words, &rig.name, &past, &example, self.today());
        self.with_preserved(rig, told).await
    }

    async fn with_preserved(&mut self, rig: &Rig, told: String) -> Result<Answer, StoreError> {
        Ok(Answer::says(match self.preserved_line(rig).await? {
            Some(line) => format!("{told}\n{line}"),
            None => told,
        }))
    }

    pub(super) async fn whole_fleet(&mut self) -> Result<Answer, StoreError> {
        let fleet = follow_fleet(self.db, &self.rules, &self.fleet, self.now).await?;
        let newest = |followed: &Followed| (followed.rig.name.clone(), self.newest(followed));
        let rigs: Vec<_> = fleet.iter().map(newest).collect();
        Ok(Answer::says(looking::fleet(
            self.words,
            &self.outfit.name,
            &rigs,
            self.today(),
        )))
    }

    async fn quiet(&mut self) -> Result<Answer, StoreError> {
        let today = self.today();
        let mut rigs = Vec::new();
        let last = store::readings::last_taken_on_fleet(self.db, self.outfit.id, self.now + 1).await?;
        for rig in &self.fleet {
            let day = last.get(&rig.id).map(|at| self.date(*at));
            if day.is_none_or(|day| (today - day).get_days() >= QUIET_DAYS) {
                rigs.push((rig.name.clone(), day));
            }
        }
        Ok(Answer::says(looking::quiet(self.words, &rigs, today)))
    }

    async fn past(&mut self, rig_id: i64, count: i64) -> Result<Vec<Past>, StoreError> {
        let readings = store::readings::latest(self.db, rig_id, self.now + 1, count).await?;
        Ok(readings.iter().map(|reading| self.looked_up(reading)).collect())
    }

    /// A rig's last reading, with the state that the computation gives it now.
    pub(super) fn newest(&self, followed: &Followed) -> Option<Past> {
        let reading = followed.record.readings.last()?;
        let mut last = self.looked_up(reading);
        if let Some((rejection, told)) = &mut last.membrane {
            *told = word_for(followed, reading, *rejection, &self.rules.limits());
        }
        last.replaced = followed.unread_membrane_since().is_some();
        Some(last)
    }

    fn looked_up(&self, reading: &Reading) -> Past {
        Past {
            figures: figures_of(reading),
            membrane: raw_rejection(reading).map(|rejection| (rejection, Told::Doubtful)),
            replaced: false,
            day: self.date(reading.taken_at),
        }
    }

    /// What is known of a rig's membrane: its level, its trend, its due line.
    pub(super) async fn membrane(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        let followed = self.follow(rig).await?;
        let money = self.money_lines(rig, &followed);
        let glass = self.glass_lines(&followed);
        let missing = match money.is_none() && glass.is_empty() {
            true => self.money_missing(rig, &followed),
            false => Vec::new(),
        };
        let unread = followed.unread_membrane_since();
        let assessment = followed.assessment;
        let (Some(level), Some(condition)) = (assessment.rejection, assessment.condition) else {
            return if let Some(since) = unread {
                let day = figures::day(self.words, self.date(since), self.today());
                let facts = [("rig", (&rig.name).into()), ("day", (&day).into())];
                Ok(Answer::says(self.words.say("membrane-new", facts)))
            } else if rig.di_only || assessment.last_reading_at.is_none() {
                self.one_rig(rig).await
            } else {
                let facts = [
                    ("rig", (&rig.name).into()),
                    ("readings", i64::from(assessment.readings_used).into()),
                ];
                Ok(Answer::says(self.words.say("membrane-not-yet", facts)))
            };
        };
        let facts = membrane::Facts {
            rig: &rig.name,
            level: (level.low, level.mid, level.high),
            condition,
            points_per_year: assessment.points_per_year,
            due: money
                .is_none()
                .then(|| membrane::DueLine::of(assessment.due, |at| self.date(at))),
            has_bed: self.rules.has_bed(rig),
            readings: i64::from(assessment.readings_used),
            fault: assessment.fault.as_ref().map(|fault| self.date(fault.since)),
            old_days: assessment.reasons.iter().find_map(|reason| match reason {
                Reason::LastReadingOld { days } if assessment.fault.is_none() => Some(*days),
                _ => None,
            }),
            verdict: &money.unwrap_or(glass),
            missing: &missing,
        };
        Ok(Answer::says(membrane::answer(self.words, &facts, self.today())))
    }
}

/// When logged prefilters are due, and whether that is past.
fn due_of(prefilter: &prefilter::Assessment) -> Option<(bool, i64)> {
    match prefilter.state {
        prefilter::State::NeverLogged => None,
        prefilter::State::Overdue => Some((true, prefilter.due_at?)),
        prefilter::State::InDate | prefilter::State::DueSoon => Some((false, prefilter.due_at?)),
    }
}
