//! Taking back the last import: rows count no more, and rigs and settings are
//! as they were, unless somebody has changed them since.

use crate::message::setting::{Field, Setting};
use crate::replies::data::Counted;
use crate::replies::data::whole;
use crate::store::imports::{self, SettingBefore, StoodBefore};
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};

use super::super::answer::Answer;
use super::super::turn::Turn;

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

impl Turn<'_> {
    pub(in crate::bot) async fn undo_import(&mut self) -> Result<Answer, StoreError> {
        let Some(undone) = imports::undo_last(self.db, self.outfit.id, self.now).await? else {
            return Ok(Answer::says(self.words.plain("import-none-to-undo")));
        };
        let mut back = Back::default();
        for stood_before in &undone.stood_before {
            self.put_back(stood_before, &mut back).await?;
        }
        let size = |rows: u64| usize::try_from(rows).unwrap_or(usize::MAX);
        let counted = Counted {
            readings: size(undone.readings),
            services: size(undone.services),
            ..Counted::default()
        };
        let rows = counted.readings + counted.services + back.gone.len() + back.traits + back.settings;
        self.note("import-undone", &rows.to_string()).await?;
        let mut lines = vec![self.words.plain("import-undone")];
        if let Some(what) = counted.told(self.words) {
            lines.push(self.words.say("import-undone-rows", [("what", (&what).into())]));
        }
        if back.settings + back.traits > 0 {
            let count = whole(back.settings + back.traits);
            lines.push(self.words.say("import-undone-settings", [("count", count.into())]));
        }
        for (rigs, key) in [(&back.gone, "import-undone-rigs"), (&back.stayed, "import-rigs-stay")] {
            if !rigs.is_empty() {
                lines.push(self.words.say(key, [("rigs", (&rigs.join(", ")).into())]));
            }
        }
        Ok(Answer::says(lines.join("\n")))
    }

    async fn put_back(&mut self, stood_before: &StoodBefore, back: &mut Back) -> Result<(), StoreError> {
        for setting in stood_before.settings.iter().rev() {
            back.settings += usize::from(self.put_setting_back(setting).await?);
        }
        for traits in &stood_before.traits {
            let same = |rig: &&Rig| rig.id == traits.rig_id && (rig.di_only, rig.flushes_itself) == traits.behind;
            let Some(mut rig) = self.fleet.iter().find(same).cloned() else {
                continue;
            };
            // Of a rig that goes again, the traits are no news.
            if traits.before != traits.behind && !stood_before.added.contains(&rig.id) {
                back.traits += 1;
                (rig.di_only, rig.flushes_itself) = traits.before;
                store::rigs::set_traits(self.db, &rig, self.now).await?;
            }
        }
        for id in &stood_before.added {
            let Some(rig) = self.fleet.iter().find(|rig| rig.id == *id).cloned() else {
                continue;
            };
            if store::rigs::is_told_of(self.db, rig.id).await? {
                back.stayed.push(rig.name);
            } else {
                store::rigs::remove(self.db, rig.id, self.now).await?;
                back.gone.push(rig.name);
            }
        }
        self.fleet = store::rigs::fleet(self.db, self.outfit.id).await?;
        Ok(())
    }

    /// Whether it was put back: what somebody has set since stays.
    async fn put_setting_back(&mut self, was: &SettingBefore) -> Result<bool, StoreError> {
        match was.name.as_str() {
            store::settings::NAME if self.outfit.name == was.behind => self.call_outfit(&was.before).await?,
            store::settings::ZONE if self.outfit.zone == was.behind => self.move_to(&was.before).await?,
            name => {
                let Some(field) = Field::named(name) else {
                    return Ok(false);
                };
                let rig = match was.rig_id {
                    Some(id) => match self.fleet.iter().find(|rig| rig.id == id).cloned() {
                        Some(rig) => Some(rig),
                        None => return Ok(false),
                    },
                    None => None,
                };
                let now = self.set_value(field, was.rig_id).map(|now| now.value());
                if now.unwrap_or_default() != was.behind {
                    return Ok(false);
                }
                let before = Setting::kept(field, &was.before);
                self.put(field, before.as_ref(), rig.as_ref()).await?;
            }
        }
        Ok(true)
    }
}
