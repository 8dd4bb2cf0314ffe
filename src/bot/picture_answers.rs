//! Pictures for whoever asks.

use crate::chart::fleet_sheet::shown;
use crate::domain::envelope::{Body, Drawing, Drawn};
use crate::store::rigs::Rig;
use crate::water::renewal_verdict::Verdict;

use super::answer::Answer;
use super::digests::file_name;
use super::glass_answers::without_resin;
use super::membrane_answer::membrane;
use super::messages::carry;
use super::refusals::unknown_rig;
use super::request::Request;

/// Pictures that a large fleet takes at most.
const PAGES: usize = 4;

/// A picture of the fleet, or of a rig.
pub(super) fn picture(on: &Request<'_>, name: &str) -> Answer {
    if name.is_empty() {
        return fleet_pictures(on);
    }
    match on.rig_named(name) {
        Some(rig) => picture_of(on, Some(rig.id)),
        None => unknown_rig(on, name),
    }
}

/// A picture of a rig's resin; where there is none, words say so.
pub(super) fn resin_picture(on: &Request<'_>, name: &str) -> Answer {
    let Some(rig) = on.rig_named(name) else {
        return unknown_rig(on, name);
    };
    match rig.di_only || on.rules.has_bed(&rig) {
        true => drawn(on, &rig, "resin", Drawn::Resin(rig.id)),
        false => without_resin(on, &rig),
    }
}

/// A picture of a new membrane's cost; where there is nothing to draw, words say why.
pub(super) fn money_picture(on: &Request<'_>, name: &str) -> Answer {
    let Some(rig) = on.rig_named(name) else {
        return unknown_rig(on, name);
    };
    if rig.di_only {
        return picture_of(on, Some(rig.id));
    }
    let renewal = on.follow(rig.id).and_then(|followed| followed.assessment.renewal);
    match renewal.map(|renewal| renewal.verdict) {
        Some(Verdict::Now | Verdict::Later(_)) => drawn(on, &rig, "money", Drawn::Money(rig.id)),
        _ => membrane(on, &rig),
    }
}

/// The picture of a rig that a question asks for.
pub(super) fn picture_of(on: &Request<'_>, rig: Option<i64>) -> Answer {
    let Some(rig) = rig.and_then(|id| on.rig(id)) else {
        return fleet_pictures(on);
    };
    match rig.di_only {
        true => drawn(on, rig, "resin", Drawn::Resin(rig.id)),
        false => drawn(on, rig, "history", Drawn::History(rig.id)),
    }
}

fn drawn(on: &Request<'_>, rig: &Rig, what: &str, of: Drawn) -> Answer {
    drawings_message(on, vec![drawing_of(on, file_name(&rig.name, what), of)])
}

fn fleet_pictures(on: &Request<'_>) -> Answer {
    if on.fleet.is_empty() {
        return Answer::says(on.words.plain("fleet-empty"));
    }
    let page = |page: usize| {
        let name = if page == 0 {
            "fleet.png".to_owned()
        } else {
            format!("fleet-{}.png", page + 1)
        };
        drawing_of(on, name, Drawn::Fleet(page))
    };
    // Pages that there are not are left out when they are drawn.
    let rigs = on.fleet.len();
    let pages = if shown(rigs) < rigs { PAGES } else { 1 };
    drawings_message(on, (0..pages).map(page).collect())
}

pub(super) fn drawing_of(on: &Request<'_>, name: String, of: Drawn) -> Drawing {
    Drawing {
        name,
        of,
        outfit_id: on.outfit.id,
        as_of: on.now,
        language: on.member.language.clone(),
    }
}

fn drawings_message(on: &Request<'_>, drawings: Vec<Drawing>) -> Answer {
    let body = Body::Drawings {
        drawings,
        caption: String::new(),
        reply_to: on.incoming.chat.group.then(|| on.incoming.key.clone()),
    };
    let mut answer = Answer::silence();
    answer.to_others.push(carry(on.incoming.chat.address.clone(), body));
    answer
}
