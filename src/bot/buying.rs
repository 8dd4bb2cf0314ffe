//! Answers about resin, and what to buy for the next two weeks.

use crate::digest::resin_need::{bed_workdays, beds_needed};
use crate::message::setting::{Field, Stands};
use crate::replies::buying::{self, List, Lot, Wording};
use crate::replies::{Words, resin};
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};
use crate::water::condition::Condition;
use crate::water::prefilter;
use crate::water::resin::BedState;

use super::answer::Answer;
use super::assessing::{Assessed, assess_fleet};
use super::turn::Turn;

/// Weeks that are bought for.
const WEEKS_AHEAD: f64 = 2.0;

impl Turn<'_> {
    /// "How long will the resin last on heron?"
    pub(super) async fn resin(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        if !self.rules.has_bed(rig) {
            return self.without_resin(rig).await;
        }
        Ok(Answer::says(self.resin_told(rig, resin::answer).await?))
    }

    /// The same of every rig.
    pub(super) async fn resin_of_all(&mut self) -> Result<Answer, StoreError> {
        let mut lines = Vec::new();
        for rig in self.fleet.clone() {
            lines.push(match self.rules.has_bed(&rig) {
                true => self.resin_told(&rig, resin::line).await?,
                false => self.words.say("resin-none", [("rig", (&rig.name).into())]),
            });
        }
        if lines.is_empty() {
            lines.push(self.words.plain("fleet-empty"));
        }
        Ok(Answer::says(lines.join("\n")))
    }

    async fn resin_told(
        &mut self,
        rig: &Rig,
        tell: fn(Words, &resin::Facts<'_>) -> String,
    ) -> Result<String, StoreError> {
        let assessed = self.assessed(rig).await?;
        let changed = store::services::last_done(self.db, rig.id, "resin").await?.is_some();
        let facts = resin::Facts {
            rig: &rig.name,
            bed: assessed.assessment.resin,
            changed,
            lying: self.rules.rig(rig.id).stands() == Some(Stands::Lying),
            missing: &self.missing_for_resin(rig, &assessed),
        };
        Ok(tell(self.words, &facts))
    }

    /// What could be typed so that the resin can be counted.
    pub(super) fn missing_for_resin(&self, rig: &Rig, assessed: &Assessed) -> Vec<String> {
        let of_rig = |field| format!("{} {}", rig.name.to_lowercase(), self.example_of(field));
        let mut missing = Vec::new();
        if assessed.settings.resin_litres.is_none() {
            missing.push(of_rig(Field::ResinLitres));
        }
        if assessed.history.workday_litres(&assessed.settings).is_none() {
            missing.push(of_rig(Field::LitresPerDay));
        }
        missing
    }

    /// "What do we need to buy?"
    pub(super) async fn shopping(&mut self) -> Result<Answer, StoreError> {
        let mut list = List::default();
        let fleet = self.fleet.clone();
        let all = assess_fleet(self.db, &self.rules, &fleet, self.now).await?;
        for (rig, assessed) in fleet.into_iter().zip(all) {
            if self.rules.has_bed(&rig) {
                self.put_resin(&rig, &assessed, &mut list);
            }
            let state = assessed.assessment.prefilter.state;
            if matches!(state, prefilter::State::DueSoon | prefilter::State::Overdue) {
                let price = self.rules.rig(rig.id).prefilter_price();
                put(&mut list.prefilters, &rig, 1.0, price.map(|price| price.main()));
            }
            self.put_membrane(&rig, &assessed, &mut list).await?;
        }
        let wording = Wording {
            currency: self.rules.currency(),
            volume: self.rules.volume_unit(),
        };
        Ok(Answer::says(buying::list(self.words, &list, &wording)))
    }

    fn put_resin(&self, rig: &Rig, assessed: &Assessed, list: &mut List) {
        let settings = &assessed.settings;
        let bed = assessed.assessment.resin;
        let left = match bed.map(|bed| (bed.state, bed.working_days)) {
            Some((BedState::Exhausted, _)) => Some(0.0),
            Some((_, days)) => days.map(|days| days[1]),
            None => None,
        };
        let (Some(left), Some(litres)) = (left, settings.resin_litres) else {
            match self.missing_for_resin(rig, assessed).into_iter().next() {
                Some(missing) => {
                    list.uncounted.push(rig.name.clone());
                    list.example.get_or_insert(missing);
                }
                None => list.unlogged.push(rig.name.clone()),
            }
            return;
        };
        let ahead = WEEKS_AHEAD * settings.workdays_per_week;
        let beds = beds_needed(ahead, left, bed_workdays(&assessed.history, settings));
        if beds > 0 {
            let litres = litres * f64::from(beds);
            let price = self.rules.rig(rig.id).resin_price();
            put(&mut list.resin, rig, litres, price.map(|price| price.main() * litres));
        }
    }

    /// A membrane is bought when it pays, not while a fault stands.
    async fn put_membrane(&mut self, rig: &Rig, assessed: &Assessed, list: &mut List) -> Result<(), StoreError> {
        let condition = self
            .newest(rig)
            .await?
            .and_then(|last| last.membrane)
            .map(|last| last.1);
        let low = matches!(condition, Some(Condition::Due | Condition::Spent));
        // Without resin no price decides: what is spent is bought, the rest is up to the glass.
        let has_bed = self.rules.has_bed(rig);
        let is_spent = !has_bed && condition == Some(Condition::Spent);
        let own = self.rules.rig(rig.id);
        let pays = assessed.assessment.renewal.is_some_and(|renewal| renewal.pays_now());
        if assessed.assessment.fault.is_some() {
            list.faulty.push(rig.name.clone());
        } else if pays || is_spent {
            let count = f64::from(own.membranes());
            let price = own.membrane_price().map(|price| price.main() * count);
            put(&mut list.membranes, rig, count, price);
        } else if !has_bed {
            if low || self.glass_wants_a_membrane(assessed) {
                list.glass_decides.push(rig.name.clone());
            }
        } else if low && assessed.assessment.renewal.is_none() {
            list.to_weigh.push(rig.name.clone());
        }
        Ok(())
    }
}

fn put(lot: &mut Lot, rig: &Rig, quantity: f64, cost: Option<f64>) {
    lot.rigs.push((rig.name.clone(), quantity));
    match cost {
        Some(cost) => lot.cost += cost,
        None => lot.unpriced += 1,
    }
}
