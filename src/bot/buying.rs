//! Answers about resin, and what to buy for the next two weeks.

use crate::digest::shopping::{self, Good, Lack};
use crate::message::setting::{Field, Stands};
use crate::replies::buying::{self, List, Lot, Uncounted, Wording};
use crate::replies::{Words, resin};
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::following::{Followed, follow_fleet};
use super::gathering::{self, Until};
use super::turn::Turn;

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
        let followed = self.follow(rig).await?;
        let changed = store::services::last_done(self.db, rig.id, "resin").await?.is_some();
        let facts = resin::Facts {
            rig: &rig.name,
            bed: followed.assessment.resin,
            changed,
            lying: self.rules.rig(rig.id).stands() == Some(Stands::Lying),
            missing: &self.missing_for_resin(rig, &followed),
        };
        Ok(tell(self.words, &facts))
    }

    /// What could be typed so that the resin can be counted, its change apart.
    pub(super) fn missing_for_resin(&self, rig: &Rig, followed: &Followed) -> Vec<String> {
        let settings = followed.resin_lacks().into_iter();
        settings
            .filter(|lack| *lack != Lack::Change)
            .map(|lack| self.example_for(rig, lack))
            .collect()
    }

    /// How to tell what is missing to count a rig's resin.
    fn example_for(&self, rig: &Rig, lack: Lack) -> String {
        let name = rig.name.to_lowercase();
        match lack {
            Lack::BedSize => format!("{name} {}", self.example_of(Field::ResinLitres)),
            Lack::Litres => format!("{name} {}", self.example_of(Field::LitresPerDay)),
            Lack::Change => self.words.say("typed-new-resin", [("rig", (&name).into())]),
            Lack::Reading if rig.di_only => format!("{name} 180 0"),
            Lack::Reading => format!("{name} 180 12"),
        }
    }

    /// "What do we need to buy?": the list of the digest, as of now.
    pub(super) async fn shopping(&mut self) -> Result<Answer, StoreError> {
        let all = follow_fleet(self.db, &self.rules, &self.fleet, self.now).await?;
        let until_now = (self.today(), Until::Now);
        let week = gathering::week(self.db, &self.outfit, &self.rules, &all, until_now, self.now).await?;
        let shopping = shopping::list(&week);
        let mut list = List {
            glass_decides: shopping.glass_decides,
            faulty: shopping.faulty,
            put_off: shopping.membranes_put_off,
            ..List::default()
        };
        for purchase in shopping.purchases {
            let lot = match purchase.good {
                Good::Resin => &mut list.resin,
                Good::Prefilters => &mut list.prefilters,
                Good::Membrane => &mut list.membranes,
            };
            *lot = Lot {
                rigs: purchase.rigs,
                cost: purchase.cost.unwrap_or(0.0),
                unpriced: purchase.unpriced,
            };
        }
        for (rig, priced) in shopping.membranes_to_weigh {
            match priced {
                true => list.to_weigh_later.push(rig),
                false => list.to_weigh.push(rig),
            }
        }
        for (name, lacks) in shopping.resin_uncounted {
            if let Some(known) = list.uncounted.iter_mut().find(|known| known.lacks == lacks) {
                known.rigs.push(name);
                continue;
            }
            let rig = self.fleet.iter().find(|rig| rig.name == name);
            let example = rig.zip(lacks.first()).map(|(rig, lack)| self.example_for(rig, *lack));
            list.uncounted.push(Uncounted {
                rigs: vec![name],
                lacks,
                example: example.unwrap_or_default(),
            });
        }
        let wording = Wording {
            currency: self.rules.currency(),
            volume: self.rules.volume_unit(),
            today: self.today(),
        };
        Ok(Answer::says(buying::list(self.words, &list, &wording)))
    }
}
