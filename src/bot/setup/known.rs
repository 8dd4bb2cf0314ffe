//! What is known of an outfit already, and so not asked.

use crate::message::setting::Field;
use crate::message::setup::{self, Known, KnownRig};
use crate::replies::Words;
use crate::replies::words::LANGUAGES;
use crate::store::{self, StoreError};

use super::super::turn::Turn;

impl Turn<'_> {
    /// What is known of the outfit.
    pub(super) async fn known(&mut self) -> Result<Known, StoreError> {
        let people = store::people::of_outfit(self.db, self.outfit.id).await?;
        let unnamed = |name: &str| {
            LANGUAGES
                .iter()
                .any(|(tag, _)| Words::of(Some(tag)).plain("outfit-unnamed") == name)
        };
        let told = |field: Field| self.set_value(field, None).is_some();
        let rigs = self.fleet.iter().map(|rig| KnownRig {
            id: rig.id,
            has_membrane: !rig.di_only,
            has_bed: self.rules.has_bed(rig),
            facts: rig.di_only
                || rig.flushes_itself
                || [Field::Membranes, Field::Stands]
                    .iter()
                    .any(|field| self.set_value(*field, Some(rig.id)).is_some()),
            resin: self.held(Field::ResinLitres, Some(rig.id)).is_some(),
        });
        let one_zone = self
            .country()
            .is_some_and(|country| setup::zones_of(country).len() == 1);
        Ok(Known {
            name: !unnamed(&self.outfit.name),
            country: told(Field::Country),
            zone: self.outfit.zone != self.bot.settings.zone || one_zone,
            hours: told(Field::WorkingDays) || told(Field::DayEnds) || told(Field::DigestAt),
            rigs: rigs.collect(),
            membrane_price: told(Field::MembranePrice),
            resin_price: told(Field::ResinPrice),
            litres_per_day: told(Field::LitresPerDay),
            crew: people.len() > 1,
        })
    }

    /// Whether a rig of the fleet was read already.
    pub(super) async fn is_read(&mut self) -> Result<bool, StoreError> {
        let last = store::readings::last_taken_on_fleet(self.db, self.outfit.id, self.now + 1).await?;
        Ok(!last.is_empty())
    }
}
