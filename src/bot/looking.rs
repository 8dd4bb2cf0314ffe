//! Answers to questions: a rig now, its history, the fleet, who is quiet.

use crate::message::Topic;
use crate::replies::looking::{self, Past};
use crate::replies::membrane;
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};
use crate::water::forecast::Crossing;
use crate::water::prefilter;

use super::answer::Answer;
use super::condition::{condition_to_tell, raw_condition, raw_rejection};
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
    pub(super) fn newest(&self, followed: &Followed) -> Option<Past> {
        let mut last = self.looked_up(followed.record.readings.last()?);
        if let Some((rejection, condition)) = &mut last.membrane {
            *condition = condition_to_tell(&followed.assessment, *rejection, &self.rules.limits());
        }
        Some(last)
    }

    fn looked_up(&self, reading: &Reading) -> Past {
        let membrane =
            raw_rejection(reading).map(|rejection| (rejection, raw_condition(rejection, &self.rules.limits())));
        Past {
            figures: figures_of(reading),
            membrane,
            day: self.date(reading.taken_at),
        }
    }

    /// What is known of a rig's membrane: its level, its trend, its due line.
    async fn membrane(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        let followed = self.follow(rig).await?;
        let (money, judged) = self.money_lines(rig, &followed);
        let assessment = followed.assessment;
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
            due: self.due_line(assessment.due),
            readings: i64::from(assessment.readings_used),
            fault: assessment.fault.as_ref().map(|fault| self.date(fault.since)),
            money: &money,
            judged,
        };
        Ok(Answer::says(membrane::answer(self.words, &facts, self.today())))
    }

    fn due_line(&self, due: Crossing) -> membrane::DueLine {
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
