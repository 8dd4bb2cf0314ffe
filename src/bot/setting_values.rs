//! What is set and what holds; writing a setting.

use std::sync::Arc;

use crate::message::setting::{Country, Field, Meter, Setting, Ways as CountryWays};
use crate::replies::settings::{Ways, typed};
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};

use super::request::Request;
use super::rules::Rules;

/// How settings are worded here.
pub(super) fn ways(rules: &Rules) -> Ways {
    Ways {
        currency: rules.currency(),
        volume: rules.volume_unit(),
    }
}

/// Writes a setting, or its default, and what holds now.
pub(super) async fn put(
    db: &mut Db,
    on: &mut Request<'_>,
    field: Field,
    setting: Option<&Setting>,
    rig: Option<&Rig>,
) -> Result<(), StoreError> {
    let value = setting.map(Setting::text).unwrap_or_default();
    let teller = on.teller();
    store::settings::set(db, teller, rig.map(|rig| rig.id), field.name(), &value).await?;
    if let (Field::ResinBed, Some(_), Some(rig)) = (field, setting, rig.filter(|rig| rig.di_only)) {
        let rig = Rig {
            di_only: false,
            ..rig.clone()
        };
        store::rigs::set_traits(db, &rig, on.now).await?;
    }
    if rig.is_none() && put_in_column(on, field, setting) {
        store::outfits::set(db, &on.outfit).await?;
    }
    on.reload(db).await?;
    Ok(())
}

/// What was set of a field for the outfit, or for this rig alone.
pub(super) fn set_value(rules: &Rules, field: Field, rig_id: Option<i64>) -> Option<Setting> {
    let mut set = rules.set().iter().rev();
    set.find(|(rig, setting)| *rig == rig_id && setting.field() == field)
        .map(|(_, setting)| setting.clone())
}

/// What was set of a field and holds for a rig, its own or the outfit's.
pub(super) fn held(rules: &Rules, field: Field, rig_id: Option<i64>) -> Option<Setting> {
    set_value(rules, field, rig_id).or_else(|| set_value(rules, field, None))
}

/// What holds of a field when nobody set it.
pub(super) fn default_of(on: &Request<'_>, field: Field) -> Option<Setting> {
    Some(match field {
        Field::Currency => field.to(on.rules.currency()?),
        Field::DayEnds => Setting::kept(field, &on.outfit.day_ends)?,
        Field::Meter if on.rules.reads_conductivity() => field.to(Meter::Conductivity(on.outfit.us_to_ppm)),
        Field::Degrees => Setting::kept(field, &on.outfit.degrees)?,
        Field::PressureUnit => field.to(on.rules.pressure_unit()),
        Field::VolumeUnit => field.to(on.rules.volume_unit()),
        _ => field.default()?,
    })
}

/// How a setting is typed, by its default or else an example.
pub(super) fn example_of(on: &Request<'_>, field: Field) -> String {
    let example = default_of(on, field).or_else(|| field.example());
    example.map_or_else(String::new, |example| typed(on.words, &example, ways(&on.rules)))
}

/// Some facts of the outfit have a column, which holds. Whether one changed.
fn put_in_column(on: &mut Request<'_>, field: Field, setting: Option<&Setting>) -> bool {
    let degrees_told = set_value(&on.rules, Field::Degrees, None).is_some();
    let outfit = Arc::make_mut(&mut on.outfit);
    let holds = || setting.cloned().or_else(|| field.default());
    match field {
        Field::Country if !degrees_told => {
            let Some(country) = setting.and_then(|setting| setting.get::<Country>()) else {
                return false;
            };
            let fahrenheit = country.ways() == CountryWays::American;
            if fahrenheit { "F" } else { "C" }.clone_into(&mut outfit.degrees);
        }
        Field::DayEnds => outfit.day_ends = holds().map_or_else(String::new, |ends| ends.text()),
        Field::Degrees => outfit.degrees = holds().map_or_else(String::new, |degrees| degrees.text()),
        Field::Meter => match holds().and_then(|meter| meter.get()) {
            Some(Meter::Conductivity(factor)) => outfit.us_to_ppm = factor,
            _ if setting.is_none() => outfit.us_to_ppm = 0.5,
            _ => return false,
        },
        _ => return false,
    }
    true
}
