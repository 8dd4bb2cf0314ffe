//! Rigs without resin: their RO water goes to the glass as it is, so the glass decides
//! about the membrane, and there is no resin to count.

use crate::history::Followed;
use crate::message::setting::{Bed, Field};
use crate::replies::membrane::DueLine;
use crate::replies::{glass, looking, settings};
use crate::store::rigs::Rig;
use crate::water::verdict::Behind;

use super::answer::Answer;
use super::past_readings::newest;
use super::request::Request;
use super::setting_values::ways;

/// What decides about the membrane of a rig without resin; nothing until its level
/// is known, or on a rig that has resin.
pub(super) fn glass_lines(on: &Request<'_>, followed: &Followed<'_>) -> Vec<String> {
    if followed.behind == Behind::Resin {
        return Vec::new();
    }
    let told = followed.glass().map(|seen| glass::Glass {
        ppm: seen.ppm,
        spots_ppm: seen.spots_ppm,
        new_helps: seen.new_helps(),
        spots: DueLine::of(seen.spots, |at| on.date(at)),
    });
    told.map(|told| glass::lines(on.words, &told)).unwrap_or_default()
}

/// "How long will the resin last on heron?", which has none.
pub(super) fn without_resin(on: &Request<'_>, rig: &Rig) -> Answer {
    let name = ("rig", (&rig.name).into());
    let mut lines = vec![on.words.say("resin-none", [name])];
    let last = on.follow(rig.id).and_then(|followed| newest(on, &followed));
    lines.extend(last.map(|last| looking::last_taken(on.words, &last, on.today())));
    let typed = settings::typed(on.words, &Field::ResinBed.to(Bed::There), ways(&on.rules));
    let typed = format!("{} {typed}", rig.name.to_lowercase());
    lines.push(on.words.say("resin-none-but", [("typed", (&typed).into())]));
    Answer::says(lines.join("\n"))
}
