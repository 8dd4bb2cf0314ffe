//! What is known of an outfit already, and so not asked.

use crate::message::setting::Field;
use crate::message::setup::{self, Known, KnownRig};
use crate::replies::Words;
use crate::replies::words::LANGUAGES;
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};

use crate::bot::request::Request;
use crate::bot::setting_values::{held, set_value};

/// A rig's name as it is typed in an example.
pub(in crate::bot) fn any_rig(fleet: &[Rig]) -> String {
    fleet
        .first()
        .map_or_else(|| "heron".to_owned(), |rig| rig.name.to_lowercase())
}

/// What is known of the outfit.
pub(in crate::bot) async fn known(db: &mut Db, on: &Request<'_>) -> Result<Known, StoreError> {
    let people = store::people::of_outfit(db, on.outfit.id).await?;
    let unnamed = |name: &str| {
        LANGUAGES
            .iter()
            .any(|(tag, _)| Words::of(Some(tag)).plain("outfit-unnamed") == name)
    };
    let told = |field: Field| set_value(&on.rules, field, None).is_some();
    let rigs = on.fleet.iter().map(|rig| KnownRig {
        id: rig.id,
        has_membrane: !rig.di_only,
        has_bed: on.rules.has_bed(rig),
        facts: rig.di_only
            || rig.flushes_itself
            || [Field::Membranes, Field::Stands]
                .iter()
                .any(|field| set_value(&on.rules, *field, Some(rig.id)).is_some()),
        resin: held(&on.rules, Field::ResinLitres, Some(rig.id)).is_some(),
    });
    let one_zone = on
        .rules
        .country()
        .is_some_and(|country| setup::zones_of(country).len() == 1);
    Ok(Known {
        name: !unnamed(&on.outfit.name),
        country: told(Field::Country),
        zone: on.outfit.zone != on.bot.settings.zone || one_zone,
        hours: told(Field::WorkingDays) || told(Field::DayEnds) || told(Field::DigestAt),
        rigs: rigs.collect(),
        membrane_price: told(Field::MembranePrice),
        resin_price: told(Field::ResinPrice),
        litres_per_day: told(Field::LitresPerDay),
        crew: people.len() > 1,
    })
}

/// Whether a rig of the fleet was read already.
pub(in crate::bot) async fn is_read(db: &mut Db, on: &Request<'_>) -> Result<bool, StoreError> {
    let last = store::readings::last_taken_on_fleet(db, on.outfit.id, on.now + 1).await?;
    Ok(!last.is_empty())
}
