//! Answers about resin.

use crate::domain::ServiceKind;
use crate::message::setting::Stands;
use crate::replies::{Words, resin};
use crate::store::rigs::Rig;

use super::answer::Answer;
use super::examples::missing_for_resin;
use super::glass_answers::without_resin;
use super::request::Request;

/// "How long will the resin last on heron?"
pub(super) fn resin(on: &Request<'_>, rig: &Rig) -> Answer {
    if !on.rules.has_bed(rig) {
        return without_resin(on, rig);
    }
    Answer::says(resin_told(on, rig, resin::answer))
}

/// The same of every rig.
pub(super) fn resin_of_all(on: &Request<'_>) -> Answer {
    let mut lines = Vec::new();
    for rig in on.fleet.iter() {
        lines.push(match on.rules.has_bed(rig) {
            true => resin_told(on, rig, resin::line),
            false => on.words.say("resin-none", [("rig", (&rig.name).into())]),
        });
    }
    if lines.is_empty() {
        lines.push(on.words.plain("fleet-empty"));
    }
    Answer::says(lines.join("\n"))
}

fn resin_told(on: &Request<'_>, rig: &Rig, tell: fn(Words, &resin::Facts<'_>) -> String) -> String {
    let Some(followed) = on.follow(rig.id) else {
        return String::new();
    };
    let changed = followed.state.last_done(ServiceKind::Resin).is_some();
    let facts = resin::Facts {
        rig: &rig.name,
        bed: followed.assessment.resin,
        changed,
        lying: on.rules.rig(rig.id).stands() == Some(Stands::Lying),
        missing: &missing_for_resin(on, rig, &followed),
    };
    tell(on.words, &facts)
}
