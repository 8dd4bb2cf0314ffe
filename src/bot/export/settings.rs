//! The settings as text: each line is what somebody could type to set that
//! very value, so that the file is read in again as it is.

use crate::message::setting::{Field, Setting};
use crate::replies::settings::typed_exactly;

use super::super::turn::Turn;

impl Turn<'_> {
    /// All that is set, of the outfit and then of each rig of the fleet.
    pub(super) fn settings_text(&self) -> String {
        let mut lines = vec![
            self.words.say("set-name", [("value", (&self.outfit.name).into())]),
            self.words.say("set-zone", [("value", (&self.outfit.zone).into())]),
        ];
        lines.extend(self.set_of(None).map(|setting| self.line(&setting)));
        for rig in &self.fleet {
            // A bed behind a membrane that is not there would give it one.
            let own = self
                .set_of(Some(rig.id))
                .filter(|setting| !(rig.di_only && matches!(setting, Setting::ResinBed(_))));
            lines.extend(own.map(|setting| format!("{} {}", rig.name, self.line(&setting))));
        }
        lines.push(String::new());
        lines.join("\n")
    }

    fn set_of(&self, rig: Option<i64>) -> impl Iterator<Item = Setting> {
        Field::all().filter_map(move |field| self.set_value(field, rig))
    }

    fn line(&self, setting: &Setting) -> String {
        typed_exactly(self.words, setting, self.ways())
    }
}
