//! Taking in what waits, in the transaction of the yes.

use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

use crate::intake::{self, Intake, Kind};
use crate::replies::data::Counted;
use crate::store::imports::{self, Offered, SettingBefore, StoodBefore, Traits};
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::services::Service;
use crate::store::{self, Db, StoreError};

use crate::bot::answer::Answer;
use crate::bot::import::plan::{self, Plan};
use crate::bot::import::settings_text::{self, Told};
use crate::bot::outfit_commands::{call_outfit, move_to};
use crate::bot::request::Request;
use crate::bot::rig_names::fold;
use crate::bot::setting_values::{put, set_value};

/// Rows that one statement takes.
const SLICE: usize = 1000;

/// What waits: a sheet, or a text of settings, which is read when its rigs are here.
enum Waiting {
    Sheet(Intake),
    Settings(String),
}

impl Waiting {
    /// Rigs before what was read and done on them; settings last, since they name rigs.
    fn place(&self) -> u8 {
        match self {
            Self::Sheet(intake) if intake.kind == Kind::Rigs => 0,
            Self::Sheet(_) => 1,
            Self::Settings(_) => 2,
        }
    }
}

/// Takes in all that waits.
pub(in crate::bot) async fn all(
    db: &mut Db,
    on: &mut Request<'_>,
    offered: Vec<Offered>,
) -> Result<Answer, StoreError> {
    let mut waiting: Vec<(i64, Waiting)> = offered
        .into_iter()
        .map(|offered| {
            let day_first = (offered.day_first >= 0).then_some(offered.day_first == 1);
            let read = intake::read(&offered.source, day_first).map(Waiting::Sheet);
            (offered.id, read.unwrap_or(Waiting::Settings(offered.source)))
        })
        .collect();
    waiting.sort_by_key(|(_, waiting)| waiting.place());
    let mut counted = Counted::default();
    let mut rigs = BTreeSet::new();
    for (id, waiting) in waiting {
        let mut stood_before = StoodBefore::default();
        match waiting {
            Waiting::Sheet(intake) => {
                let plan = plan::of(db, on, &intake).await?;
                counted.readings += plan.readings.len();
                counted.services += plan.services.len();
                rigs.extend(plan.new_rigs.keys().cloned());
                rigs.extend(plan.rigs.iter().map(|rig| fold(&rig.name)));
                take(db, on, id, plan, &mut stood_before).await?;
            }
            Waiting::Settings(text) => {
                if let Some(settings) = settings_text::settings(on, &text) {
                    counted.settings += settings.changes.len();
                    rigs.extend(settings.new_rigs.keys().cloned());
                    set(db, on, settings, &mut stood_before).await?;
                }
            }
        }
        imports::taken(db, id, &stood_before, on.now).await?;
    }
    counted.rigs = rigs.len();
    let rows = counted.readings + counted.services + counted.rigs + counted.settings;
    store::changes::note(db, on.teller(), "imported", &rows.to_string()).await?;
    Ok(Answer::says(match counted.told(on.words) {
        Some(what) => on.words.say("imported", [("what", (&what).into())]),
        None => on.words.plain("import-adds-nothing"),
    }))
}

/// A rig on which nobody ever read an RO outlet has none.
fn seems_di_only(plan: &Plan, folded: &str) -> bool {
    let mut of_rig = plan
        .readings
        .iter()
        .filter(|(_, row)| fold(&row.rig) == folded)
        .peekable();
    of_rig.peek().is_some() && of_rig.all(|(_, row)| row.permeate_ppm.is_none())
}

async fn take(
    db: &mut Db,
    on: &mut Request<'_>,
    id: i64,
    plan: Plan,
    stood_before: &mut StoodBefore,
) -> Result<(), StoreError> {
    for (folded, (_, name)) in &plan.new_rigs {
        if let Some(rig) = store::rigs::add(db, on.outfit.id, name, folded, on.now).await? {
            stood_before.added.push(rig);
            let rig = Rig {
                id: rig,
                name: name.clone(),
                di_only: seems_di_only(&plan, folded),
                flushes_itself: false,
            };
            store::rigs::set_traits(db, &rig, on.now).await?;
        }
    }
    on.reload(db).await?;
    for told in &plan.rigs {
        if let Some(rig) = Arc::make_mut(&mut on.fleet)
            .iter_mut()
            .find(|rig| fold(&rig.name) == fold(&told.name))
        {
            let (before, behind) = ((rig.di_only, rig.flushes_itself), (told.di_only, told.flushes_itself));
            (rig.di_only, rig.flushes_itself) = behind;
            store::rigs::set_traits(db, rig, on.now).await?;
            stood_before.traits.push(Traits {
                rig_id: rig.id,
                before,
                behind,
            });
        }
    }
    let rigs: HashMap<String, i64> = on.fleet.iter().map(|rig| (fold(&rig.name), rig.id)).collect();
    let teller = on.teller();
    let mut readings = Vec::with_capacity(plan.readings.len());
    for (at, row) in plan.readings {
        let Some(rig_id) = rigs.get(&fold(&row.rig)).copied() else {
            continue;
        };
        let kept = Reading {
            rig_id,
            person_id: teller.person_id,
            source_key: imports::key(id),
            taken_at: at,
            feed_ppm: row.feed_ppm,
            permeate_ppm: row.permeate_ppm,
            product_ppm: row.product_ppm,
            feed_raw_us: row.feed_us,
            permeate_raw_us: row.permeate_us,
            product_raw_us: row.product_us,
            temperature_c: row.temperature_c,
            pressure_kpa: row.pressure_kpa,
            permeate_lpm: row.permeate_lpm,
            waste_lpm: row.waste_lpm,
            ..Reading::default()
        };
        readings.push((teller, kept));
    }
    for slice in readings.chunks(SLICE) {
        let rows: Vec<_> = slice.iter().map(|(teller, kept)| (*teller, kept)).collect();
        store::readings::record_all(db, &rows).await?;
    }
    let mut services = Vec::with_capacity(plan.services.len());
    for (at, row) in plan.services {
        let Some(rig_id) = rigs.get(&fold(&row.rig)).copied() else {
            continue;
        };
        let kept = Service {
            minutes: row.minutes,
            price_minor: row.price_minor,
            ..Service::new(rig_id, row.what, imports::key(id), at)
        };
        services.push((teller, kept));
    }
    for slice in services.chunks(SLICE) {
        let rows: Vec<_> = slice.iter().map(|(teller, kept)| (*teller, kept)).collect();
        store::services::record_all(db, &rows).await?;
    }
    store::states::forget_outfit(db, on.outfit.id).await
}

async fn set(
    db: &mut Db,
    on: &mut Request<'_>,
    settings: settings_text::Settings,
    stood_before: &mut StoodBefore,
) -> Result<(), StoreError> {
    for (folded, name) in &settings.new_rigs {
        let added = store::rigs::add(db, on.outfit.id, name, folded, on.now).await?;
        stood_before.added.extend(added);
    }
    on.reload(db).await?;
    for (_, told) in settings.changes {
        let before = match told {
            Told::Name(name) => {
                let before = on.outfit.name.clone();
                call_outfit(db, on, &name).await?;
                (None, store::settings::NAME.to_owned(), before, name)
            }
            Told::Zone(zone) => {
                let before = on.outfit.zone.clone();
                move_to(db, on, &zone).await?;
                (None, store::settings::ZONE.to_owned(), before, zone)
            }
            Told::Setting { rig, setting } => {
                let rig = match rig {
                    Some(name) => match on.rig_named(&name) {
                        Some(rig) => Some(rig),
                        None => continue,
                    },
                    None => None,
                };
                let (field, rig_id) = (setting.field(), rig.as_ref().map(|rig| rig.id));
                let before = set_value(&on.rules, field, rig_id).map(|before| before.text());
                put(db, on, field, Some(&setting), rig.as_ref()).await?;
                (
                    rig_id,
                    field.name().to_owned(),
                    before.unwrap_or_default(),
                    setting.text(),
                )
            }
        };
        let (rig_id, name, before, behind) = before;
        stood_before.settings.push(SettingBefore {
            rig_id,
            name,
            before,
            behind,
        });
    }
    Ok(())
}
