//! Answers about resin, and what to buy for the next two weeks.

use crate::digest::resin_need::{bed_workdays, beds_needed};
use crate::message::setting::{Field, Stands};
use crate::replies::buying::{self, List, Lot, Wording};
use crate::replies::resin;
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};
use crate::water::condition::Condition;
use crate::water::prefilter;
use crate::water::resin::BedState;

use super::answer::Answer;
use super::following::{Followed, follow_fleet};
use super::turn::Turn;

/// Weeks that are bought for.
const WEEKS_AHEAD: f64 = 2.0;

impl Turn<'_> {
    /// "How long will the resin last on heron?"
    pub(super) async fn resin(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        let followed = self.follow(rig).await?;
        let changed = store::services::last_done(self.db, rig.id, "resin").await?.is_some();
        let facts = resin::Facts {
            rig: &rig.name,
            bed: followed.assessment.resin,
            changed,
            lying: self.rules.rig(rig.id).stands() == Some(Stands::Lying),
            missing: &self.missing_for_resin(rig, &followed),
        };
        Ok(Answer::says(resin::answer(self.words, &facts)))
    }

    /// The same of every rig.
    pub(super) async fn resin_of_all(&mut self) -> Result<Answer, StoreError> {
        let mut lines = Vec::new();
        for rig in self.fleet.clone() {
            let answer = self.resin(&rig).await?;
            lines.extend(
                answer
                    .parts
                    .first()
                    .and_then(|part| part.lines().next())
                    .map(str::to_owned),
            );
        }
        if lines.is_empty() {
            lines.push(self.words.plain("fleet-empty"));
        }
        Ok(Answer::says(lines.join("\n")))
    }

    /// What could be typed so that the resin can be counted.
    pub(super) fn missing_for_resin(&self, rig: &Rig, followed: &Followed) -> Vec<String> {
        let of_rig = |field| format!("{} {}", rig.name.to_lowercase(), self.example_of(field));
        let mut missing = Vec::new();
        if followed.settings.resin_litres.is_none() {
            missing.push(of_rig(Field::ResinLitres));
        }
        if followed.course.history.workday_litres(&followed.settings).is_none() {
            missing.push(of_rig(Field::LitresPerDay));
        }
        missing
    }

    /// "What do we need to buy?"
    pub(super) async fn shopping(&mut self) -> Result<Answer, StoreError> {
        let mut list = List::default();
        let all = follow_fleet(self.db, &self.rules, &self.fleet, self.now).await?;
        for followed in &all {
            self.put_resin(followed, &mut list);
            let state = followed.assessment.prefilter.state;
            if matches!(state, prefilter::State::DueSoon | prefilter::State::Overdue) {
                let price = self.rules.rig(followed.rig.id).prefilter_price();
                put(
                    &mut list.prefilters,
                    &followed.rig,
                    1.0,
                    price.map(|price| price.main()),
                );
            }
            self.put_membrane(followed, &mut list);
        }
        let name = list.uncounted.first().cloned().unwrap_or_default().to_lowercase();
        let example = format!("{name} {}", self.example_of(Field::ResinLitres));
        let wording = Wording {
            currency: self.rules.currency(),
            volume: self.rules.volume_unit(),
            example: &example,
        };
        Ok(Answer::says(buying::list(self.words, &list, &wording)))
    }

    fn put_resin(&self, followed: &Followed, list: &mut List) {
        let (rig, settings) = (&followed.rig, &followed.settings);
        let bed = followed.assessment.resin;
        let left = match bed.map(|bed| (bed.state, bed.working_days)) {
            Some((BedState::Exhausted, _)) => Some(0.0),
            Some((_, days)) => days.map(|days| days[1]),
            None => None,
        };
        let (Some(left), Some(litres)) = (left, settings.resin_litres) else {
            list.uncounted.push(rig.name.clone());
            return;
        };
        let ahead = WEEKS_AHEAD * settings.workdays_per_week;
        let beds = beds_needed(ahead, left, bed_workdays(&followed.course.history, settings));
        if beds > 0 {
            let litres = litres * f64::from(beds);
            let price = self.rules.rig(rig.id).resin_price();
            put(&mut list.resin, rig, litres, price.map(|price| price.main() * litres));
        }
    }

    /// A membrane is bought when it pays, not while a fault stands.
    fn put_membrane(&self, followed: &Followed, list: &mut List) {
        let rig = &followed.rig;
        let condition = self.newest(followed).and_then(|last| last.membrane).map(|last| last.1);
        let low = matches!(condition, Some(Condition::Due | Condition::Spent));
        let own = self.rules.rig(rig.id);
        let pays = followed.assessment.renewal.is_some_and(|renewal| renewal.pays_now());
        if followed.assessment.fault.is_some() {
            list.faulty.push(rig.name.clone());
        } else if pays {
            let count = f64::from(own.membranes());
            let price = own.membrane_price().map(|price| price.main() * count);
            put(&mut list.membranes, rig, count, price);
        } else if low && followed.assessment.renewal.is_none() {
            list.to_weigh.push(rig.name.clone());
        }
    }
}

fn put(lot: &mut Lot, rig: &Rig, quantity: f64, cost: Option<f64>) {
    lot.rigs.push((rig.name.clone(), quantity));
    match cost {
        Some(cost) => lot.cost += cost,
        None => lot.unpriced += 1,
    }
}
