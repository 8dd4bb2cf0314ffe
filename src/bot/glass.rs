//! Rigs without resin: their RO water goes to the glass as it is, so the glass decides
//! about the membrane, and there is no resin to count.

use crate::message::setting::Setting;
use crate::replies::{glass, looking, settings};
use crate::store::StoreError;
use crate::store::rigs::Rig;
use crate::water::glass::glass as glass_of;
use crate::water::prior::Lessons;
use crate::water::resin::SPOTS_FROM_PPM;

use super::answer::Answer;
use super::assessing::Assessed;
use super::turn::Turn;

impl Turn<'_> {
    /// What decides about the membrane of a rig without resin; nothing until its level
    /// is known, or on a rig that has resin.
    pub(super) fn glass_lines(&self, rig: &Rig, assessed: &Assessed) -> Vec<String> {
        if self.rules.has_bed(rig) {
            return Vec::new();
        }
        let lessons = self.lessons.unwrap_or_else(Lessons::none);
        let seen = glass_of(&assessed.history, &assessed.settings, &lessons, &assessed.assessment);
        let told = seen.map(|seen| glass::Glass {
            ppm: seen.ppm,
            new_helps: seen.new_ppm < SPOTS_FROM_PPM,
            spots: self.due_line(seen.spots),
        });
        told.map(|told| glass::lines(self.words, &told)).unwrap_or_default()
    }

    /// Whether a new membrane is what keeps the glass of a rig without resin from spots.
    pub(super) fn glass_wants_a_membrane(&self, assessed: &Assessed) -> bool {
        let lessons = self.lessons.unwrap_or_else(Lessons::none);
        glass_of(&assessed.history, &assessed.settings, &lessons, &assessed.assessment)
            .is_some_and(|seen| seen.ppm >= SPOTS_FROM_PPM && seen.new_ppm < SPOTS_FROM_PPM)
    }

    /// "How long will the resin last on heron?", which has none.
    pub(super) async fn without_resin(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        let name = ("rig", (&rig.name).into());
        let mut lines = vec![self.words.say("resin-none", [name])];
        let last = self.newest(rig).await?;
        lines.extend(last.map(|last| looking::last_taken(self.words, &last, self.today())));
        let typed = settings::typed(self.words, &Setting::ResinBed(true), self.ways());
        let typed = format!("{} {typed}", rig.name.to_lowercase());
        lines.push(self.words.say("resin-none-but", [("typed", (&typed).into())]));
        Ok(Answer::says(lines.join("\n")))
    }
}
