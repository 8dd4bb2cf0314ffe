//! What is set and what holds; writing a setting.

use std::sync::Arc;

use crate::message::setting::{Clock, Field, Meter, Setting, Ways as CountryWays};
use crate::replies::settings::{Ways, typed};
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};

use super::request::Request;
use super::rules::Rules;

/// What a setting might be, for whoever asks what to type.
pub(super) fn example(field: Field) -> Option<Setting> {
    let value = match field {
        Field::ResinPrice => "9",
        Field::MembranePrice => "180",
        Field::PrefilterPrice => "25",
        Field::MembraneLabour => "40",
        Field::ResinLabour => "15",
        Field::ResinLitres => "25",
        Field::LitresPerDay => "800",
        Field::Membranes => "2",
        Field::Stands => "lying",
        Field::Rated => "150 77 60",
        Field::ShortNames => "H",
        Field::Country => "US",
        Field::Currency => "EUR",
        Field::DayEndsOn(_) => "13:00",
        Field::BusyMonths => "100,100,100,100,100,150,150,150,100,100,100,100",
        Field::ResinBed => "no",
        _ => return None,
    };
    Setting::kept(field, value)
}

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
    let value = setting.map(Setting::value).unwrap_or_default();
    let teller = on.teller();
    store::settings::set(db, teller, rig.map(|rig| rig.id), field.name(), &value).await?;
    if let (Some(Setting::ResinBed(_)), Some(rig)) = (setting, rig.filter(|rig| rig.di_only)) {
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
    let limits = on.rules.limits();
    let clock = |time: jiff::civil::Time| Clock::new(time.hour() as u8, time.minute() as u8);
    Some(match field {
        Field::Currency => Setting::Currency(on.rules.currency()?),
        Field::WearingLine => Setting::WearingLine(limits.wearing),
        Field::DueLine => Setting::DueLine(limits.due),
        Field::SpentLine => Setting::SpentLine(limits.spent),
        Field::WorkingDays => Setting::WorkingDays(on.rules.working_days()),
        Field::DayEnds => Setting::DayEnds(Clock::typed(&on.outfit.day_ends, None)?),
        Field::DigestAt => {
            let (day, time) = on.rules.digest_at();
            Setting::DigestAt(day, clock(time)?)
        }
        Field::Digest => Setting::Digest(on.rules.digest()),
        Field::Nudges => Setting::Nudges(on.rules.outfit().nudges()),
        Field::Notices => Setting::Notices(on.rules.notices()),
        Field::QuietHours => {
            let hours = on.rules.quiet_hours();
            Setting::QuietHours(hours.and_then(|(from, to)| clock(from).zip(clock(to))))
        }
        Field::Meter if on.rules.reads_conductivity() => Setting::Meter(Meter::Conductivity(on.outfit.us_to_ppm)),
        Field::Meter => Setting::Meter(Meter::Ppm),
        Field::Degrees => Setting::kept(field, &on.outfit.degrees)?,
        Field::PressureUnit => Setting::PressureUnit(on.rules.pressure_unit()),
        Field::VolumeUnit => Setting::VolumeUnit(on.rules.volume_unit()),
        Field::PrefilterDays => Setting::PrefilterDays(180),
        Field::Keep => Setting::Keep(None),
        _ => return None,
    })
}

/// How a setting is typed, by its default or else an example.
pub(super) fn example_of(on: &Request<'_>, field: Field) -> String {
    let example = default_of(on, field).or_else(|| example(field));
    example.map_or_else(String::new, |example| typed(on.words, &example, ways(&on.rules)))
}

/// Some facts of the outfit have a column, which holds. Whether one changed.
fn put_in_column(on: &mut Request<'_>, field: Field, setting: Option<&Setting>) -> bool {
    let degrees_told = set_value(&on.rules, Field::Degrees, None).is_some();
    let outfit = Arc::make_mut(&mut on.outfit);
    match (field, setting) {
        (Field::Country, Some(Setting::Country(country))) if !degrees_told => {
            let fahrenheit = country.ways() == CountryWays::American;
            if fahrenheit { "F" } else { "C" }.clone_into(&mut outfit.degrees);
        }
        (Field::DayEnds, Some(Setting::DayEnds(clock))) => outfit.day_ends = clock.text(),
        (Field::DayEnds, _) => "17:00".clone_into(&mut outfit.day_ends),
        (Field::Meter, Some(Setting::Meter(Meter::Conductivity(factor)))) => outfit.us_to_ppm = *factor,
        (Field::Meter, None) => outfit.us_to_ppm = 0.5,
        (Field::Degrees, Some(setting)) => outfit.degrees = setting.value(),
        (Field::Degrees, None) => "C".clone_into(&mut outfit.degrees),
        _ => return false,
    }
    true
}
