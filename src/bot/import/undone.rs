//! Taking back the last import: rows count no more, and rigs and settings are
//! as they were, unless somebody has changed them since.

use crate::message::setting::{Field, Setting};
use crate::replies::data::{Counted, whole};
use crate::store::imports::{self, SettingBefore, StoodBefore};
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};

use crate::bot::answer::Answer;
use crate::bot::outfit_commands::{call_outfit, move_to};
use crate::bot::request::Request;
use crate::bot::setting_values::{put, set_value};

/// What was taken back beside rows.
#[derive(Default)]
struct Back {
    settings: usize,
    /// Rigs that are off the fleet again.
    gone: Vec<String>,
    /// New rigs of which more is known by now.
    stayed: Vec<String>,
    /// Rigs whose traits are as they were.
    traits: usize,
}

pub(in crate::bot) async fn undo_import(db: &mut Db, on: &mut Request<'_>) -> Result<Answer, StoreError> {
    let Some(undone) = imports::undo_last(db, on.outfit.id, on.now).await? else {
        return Ok(Answer::says(on.words.plain("import-none-to-undo")));
    };
    let mut back = Back::default();
    for stood_before in &undone.stood_before {
        put_back(db, on, stood_before, &mut back).await?;
    }
    let size = |rows: u64| usize::try_from(rows).unwrap_or(usize::MAX);
    let counted = Counted {
        readings: size(undone.readings),
        services: size(undone.services),
        ..Counted::default()
    };
    let rows = counted.readings + counted.services + back.gone.len() + back.traits + back.settings;
    store::changes::note(db, on.teller(), "import-undone", &rows.to_string()).await?;
    let mut lines = vec![on.words.plain("import-undone")];
    if let Some(what) = counted.told(on.words) {
        lines.push(on.words.say("import-undone-rows", [("what", (&what).into())]));
    }
    if back.settings + back.traits > 0 {
        let count = whole(back.settings + back.traits);
        lines.push(on.words.say("import-undone-settings", [("count", count.into())]));
    }
    for (rigs, key) in [(&back.gone, "import-undone-rigs"), (&back.stayed, "import-rigs-stay")] {
        if !rigs.is_empty() {
            lines.push(on.words.say(key, [("rigs", (&rigs.join(", ")).into())]));
        }
    }
    Ok(Answer::says(lines.join("\n")))
}

async fn put_back(
    db: &mut Db,
    on: &mut Request<'_>,
    stood_before: &StoodBefore,
    back: &mut Back,
) -> Result<(), StoreError> {
    for setting in stood_before.settings.iter().rev() {
        back.settings += usize::from(put_setting_back(db, on, setting).await?);
    }
    for traits in &stood_before.traits {
        let same = |rig: &&Rig| rig.id == traits.rig_id && (rig.di_only, rig.flushes_itself) == traits.behind;
        let Some(mut rig) = on.fleet.iter().find(same).cloned() else {
            continue;
        };
        // Of a rig that goes again, the traits are no news.
        if traits.before != traits.behind && !stood_before.added.contains(&rig.id) {
            back.traits += 1;
            (rig.di_only, rig.flushes_itself) = traits.before;
            store::rigs::set_traits(db, &rig, on.now).await?;
        }
    }
    for id in &stood_before.added {
        let Some(rig) = on.fleet.iter().find(|rig| rig.id == *id).cloned() else {
            continue;
        };
        if store::rigs::is_told_of(db, rig.id).await? {
            back.stayed.push(rig.name);
        } else {
            store::rigs::remove(db, rig.id, on.now).await?;
            back.gone.push(rig.name);
        }
    }
    on.reload(db).await?;
    Ok(())
}

/// Whether it was put back: what somebody has set since stays.
async fn put_setting_back(db: &mut Db, on: &mut Request<'_>, was: &SettingBefore) -> Result<bool, StoreError> {
    match was.name.as_str() {
        store::settings::NAME if on.outfit.name == was.behind => call_outfit(db, on, &was.before).await?,
        store::settings::ZONE if on.outfit.zone == was.behind => move_to(db, on, &was.before).await?,
        name => {
            let Some(field) = Field::named(name) else {
                return Ok(false);
            };
            let rig = match was.rig_id {
                Some(id) => match on.rig(id).cloned() {
                    Some(rig) => Some(rig),
                    None => return Ok(false),
                },
                None => None,
            };
            let now = set_value(&on.rules, field, was.rig_id).map(|now| now.text());
            if now.unwrap_or_default() != was.behind {
                return Ok(false);
            }
            let before = Setting::kept(field, &was.before);
            put(db, on, field, before.as_ref(), rig.as_ref()).await?;
        }
    }
    Ok(true)
}
