//! Answers to questions: a rig now, its history, the fleet, who is quiet.

use crate::message::Topic;
use crate::replies::looking::{self, Past};
use crate::replies::membrane;
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};
use crate::water::assess::Reason;
use crate::water::forecast::Crossing;
use crate::water::prefilter;

use super::answer::Answer;
use super::assessing::{condition_to_tell, raw_condition, raw_rejection};
use super::recording::figures;
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
        let last = self.newest(rig).await?;
        let resin_on = match self.rules.has_bed(rig) {
            true => Some(
                store::services::last_done(self.db, rig.id, "resin")
                    .await?
                    .map(|at| self.date(at)),
            ),
            false => None,
        };
        let by_hand = !rig.flushes_itself && !rig.di_only;
        let flushed_on = match by_hand {
            true => Some(
                store::services::last_done(self.db, rig.id, "flush")
                    .await?
                    .map(|at| self.date(at)),
            ),
            false => None,
        };
        let prefilter = self.assess(rig).await?.prefilter;
        let example = format!("{} 180 12", rig.name.to_lowercase());
        let facts = looking::Rig {
            name: &rig.name,
            last: last.as_ref(),
            resin_on,
            flushed_on,
            prefilters: due_of(&prefilter).map(|(overdue, at)| (overdue, self.date(at))),
            example: &example,
        };
        Ok(Answer::says(looking::rig(self.words, &facts, self.today())))
    }

    pub(super) async fn history(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        let past = self.past(rig.id, HISTORY_LINES).await?;
        let example = format!("{} 180 12", rig.name.to_lowercase());
        Ok(Answer::says(looking::history(
            self.words,
            &rig.name,
            &past,
            &example,
            self.today(),
        )))
    }

    pub(super) async fn whole_fleet(&mut self) -> Result<Answer, StoreError> {
        let mut rigs = Vec::new();
        for rig in self.fleet.clone() {
            let last = self.newest(&rig).await?;
            rigs.push((rig.name, last));
        }
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
        for rig in self.fleet.clone() {
            let day = self.past(rig.id, 1).await?.first().map(|past| past.day);
            if day.is_none_or(|day| (today - day).get_days() >= QUIET_DAYS) {
                rigs.push((rig.name, day));
            }
        }
        Ok(Answer::says(looking::quiet(self.words, &rigs, today)))
    }

    async fn past(&mut self, rig_id: i64, count: i64) -> Result<Vec<Past>, StoreError> {
        let readings = store::readings::latest(self.db, rig_id, self.now + 1, count).await?;
        Ok(readings.iter().map(|reading| self.looked_up(reading)).collect())
    }

    /// A rig's last reading, with the state that the computation gives it now.
    pub(super) async fn newest(&mut self, rig: &Rig) -> Result<Option<Past>, StoreError> {
        let Some(mut last) = self.past(rig.id, 1).await?.into_iter().next() else {
            return Ok(None);
        };
        if let Some((rejection, _)) = last.membrane {
            let assessment = self.assess(rig).await?;
            last.membrane = Some((
                rejection,
                condition_to_tell(&assessment, rejection, &self.rules.limits()),
            ));
        }
        Ok(Some(last))
    }

    fn looked_up(&self, reading: &Reading) -> Past {
        let membrane =
            raw_rejection(reading).map(|rejection| (rejection, raw_condition(rejection, &self.rules.limits())));
        Past {
            figures: figures(reading),
            membrane,
            day: self.date(reading.taken_at),
        }
    }

    /// What is known of a rig's membrane: its level, its trend, its due line.
    pub(super) async fn membrane(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        let assessed = self.assessed(rig).await?;
        let money = self.money_lines(rig, &assessed);
        let glass = self.glass_lines(rig, &assessed);
        let missing = match money.is_none() && glass.is_empty() {
            true => self.money_missing(rig, &assessed),
            false => Vec::new(),
        };
        let assessment = assessed.assessment;
        let (Some(level), Some(condition)) = (assessment.rejection, assessment.condition) else {
            return if rig.di_only || assessment.last_reading_at.is_none() {
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
            due: money.is_none().then(|| self.due_line(assessment.due)),
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

    pub(super) fn due_line(&self, due: Crossing) -> membrane::DueLine {
        match due {
            Crossing::Already => membrane::DueLine::Crossed,
            Crossing::NotInSight => membrane::DueLine::NotInSight,
            Crossing::NotYetKnown => membrane::DueLine::NotYetKnown,
            Crossing::Within(range) => membrane::DueLine::Within {
                early: self.date(range.early),
                likely: self.date(range.likely),
                late: range.late.map(|late| self.date(late)),
            },
        }
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
