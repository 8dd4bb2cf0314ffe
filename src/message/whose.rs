//! Whose the values and the deeds of a message are: the rigs named, the sender's own, the only one, or a question.

use super::asks;
use super::groups::{Group, Who};
use super::meaning::{Ask, Meaning, Reading, Rig, Scene, Service, Told, What, When};
use super::readings::Said;
use super::senses::Sense;
use super::services::{Deed, Rigs};
use super::tokens::Token;

/// Gives the values their rig, or says why that takes a question.
pub(super) fn readings(
    tokens: &[Token],
    said: &Said,
    group: &Group,
    when: Option<When>,
    scene: &Scene,
) -> Result<Vec<Reading>, Option<Ask>> {
    let draft = Reading {
        when,
        ..said.reading.clone()
    };
    let of = |rig: i64| Reading {
        rig: Some(rig),
        ..draft.clone()
    };
    match &group.who {
        Who::Rigs(rigs, _) => Ok(rigs.iter().map(|&rig| of(rig)).collect()),
        Who::OneOf(rigs, typed) => Err(Some(asks::which_rig(vec![draft], rigs, typed, scene))),
        Who::Unknown(typed) => Err(Some(asks::unknown_rig(vec![draft], typed, scene))),
        Who::Nobody if !said.nothing_else => {
            let typed = said.unknown.join(" ");
            let whole = said.doubt.is_none() && said.unknown.iter().all(|word| word.len() > 2);
            Err(whole.then(|| asks::unknown_rig(vec![draft], &typed, scene)))
        }
        Who::Nobody => match own_or_only(scene).filter(|_| !is_of_another(tokens, group)) {
            Some(rig) => Ok(vec![of(rig)]),
            None => Err(Some(asks::which_rig(vec![draft], &[], "", scene))),
        },
    }
}

/// "the spare 180/12", "the other one 180/12"
fn is_of_another(tokens: &[Token], group: &Group) -> bool {
    let another = |&at: &usize| tokens[at].has_any(&[Sense::Spare, Sense::OtherOne]);
    group.indices.iter().any(another)
}

fn own_or_only(scene: &Scene) -> Option<i64> {
    match scene.fleet.as_slice() {
        [only] => Some(only.id),
        _ => scene.own_rig,
    }
}

/// Records what was done, or asks on which rig.
pub(super) fn add_deed(meaning: &mut Meaning, deed: &Deed, when: Option<When>, scene: &Scene) {
    let told = Told {
        minutes: deed.minutes,
        price: deed.price.clone(),
        when,
    };
    let ask = |meaning: &mut Meaning, rigs: &[i64], typed: &str| {
        let ask = asks::which_rig_for(deed.what, told.clone(), rigs, typed, scene);
        meaning.ask = meaning.ask.take().or(Some(ask));
    };
    let done = |meaning: &mut Meaning, rig: i64| {
        meaning.services.push(Service {
            rig,
            what: deed.what,
            minutes: told.minutes,
            price: told.price.clone(),
            when,
        });
    };
    meaning.price_left_out |= deed.price_shared;
    match &deed.rigs {
        Rigs::Named(rigs) => rigs.iter().for_each(|&rig| done(meaning, rig)),
        Rigs::All(_) if deed.unknown > 1 => {}
        Rigs::All(but) if scene.may_speak_for_all => {
            let flush = deed.what == What::Flush;
            let meant = |rig: &&Rig| !but.contains(&rig.id) && (!flush || (rig.manual_flush && rig.worked_today));
            scene.fleet.iter().filter(meant).for_each(|rig| done(meaning, rig.id));
        }
        Rigs::All(_) => ask(meaning, &[], ""),
        Rigs::Unclear(rigs, typed) => ask(meaning, rigs, typed),
        Rigs::Nobody => match meaning.readings.as_slice() {
            [reading] => {
                let rig = reading.rig;
                rig.into_iter().for_each(|rig| done(meaning, rig));
            }
            // Without a rig only a message about nothing else is about a rig at all.
            _ if deed.unknown > 0 || !meaning.queries.is_empty() => {}
            _ => match own_or_only(scene) {
                Some(rig) => done(meaning, rig),
                None => ask(meaning, &[], ""),
            },
        },
    }
}
