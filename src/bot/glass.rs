//! Rigs without resin: their RO water goes to the glass as it is, so the glass decides
//! about the membrane, and there is no resin to count.

use crate::digest::membrane_need::Behind;
use crate::message::setting::Setting;
use crate::replies::membrane::DueLine;
use crate::replies::{glass, looking, settings};
use crate::store::StoreError;
use crate::store::rigs::Rig;
use crate::water::resin::SPOTS_FROM_PPM;

use super::answer::Answer;
use super::following::Followed;
use super::turn::Turn;

impl Turn<'_> {
    /// What decides about the membrane of a rig without resin; nothing until its level
    /// is known, or on a rig that has resin.
    pub(super) fn glass_lines(&self, followed: &Followed) -> Vec<String> {
        if followed.behind == Behind::Resin {
            return Vec::new();
        }
        let told = followed.glass().map(|seen| glass::Glass {
            ppm: seen.ppm,
            new_helps: seen.new_ppm < SPOTS_FROM_PPM,
            spots: DueLine::of(seen.spots, |at| self.date(at)),
        });
        told.map(|told| glass::lines(self.words, &told)).unwrap_or_default()
    }

    /// "How long will the resin last on heron?", which has none.
    pub(super) async fn without_resin(&mut self, rig: &Rig) -> Result<Answer, StoreError> {
        let name = ("rig", (&rig.name).into());
        let mut lines = vec![self.words.say("resin-none", [name])];
        let followed = self.follow(rig).await?;
        let last = self.newest(&followed);
        lines.extend(last.map(|last| looking::last_taken(self.words, &last, self.today())));
        let typed = settings::typed(self.words, &Setting::ResinBed(true), self.ways());
        let typed = format!("{} {typed}", rig.name.to_lowercase());
        lines.push(self.words.say("resin-none-but", [("typed", (&typed).into())]));
        Ok(Answer::says(lines.join("\n")))
    }
}
