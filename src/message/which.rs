//! Which rig the answer to "which rig?" means.

use super::answers::{is_short, with_rig};
use super::meaning::{Ask, Label, Meaning, Scene};
use super::senses::Sense;
use super::tokens::Token;

/// A name, and small words beside it: "it was the badger", "lynx please", "lynx i think". "Heron is fine" is talk.
pub(super) fn is_name_or_small(token: &Token) -> bool {
    let Some(word) = token.word() else {
        return token.number().is_none() && !token.is_mark('%');
    };
    let small = [
        Sense::Article,
        Sense::ItWas,
        Sense::Yes,
        Sense::Greeting,
        Sense::MeantFor,
        Sense::Oops,
        Sense::Vehicle,
        Sense::DayLink,
        Sense::And,
        Sense::Both,
    ];
    let please = token.has(Sense::Intent) && token.has(Sense::Filler) && token.has(Sense::Greeting);
    let thinks = word.contains(' ') && token.has(Sense::Filler) && !token.has(Sense::How);
    let tiny = word.len() <= 2 && token.has(Sense::Filler) && !token.has_any(&[Sense::Judges, Sense::Not]);
    please || thinks || tiny || token.has_any(&small) && !token.has_any(&[Sense::Intent, Sense::Not, Sense::How])
}

/// The rig that is named, or of a service all that are.
pub(super) fn named(tokens: &[Token], ask: &Ask, scene: &Scene) -> Option<Meaning> {
    if let Some(rig) = only_rig(tokens) {
        return Some(with_rig(ask, rig, scene));
    }
    let rigs: Vec<i64> = tokens
        .iter()
        .filter_map(Token::mention)
        .filter(|mention| mention.rigs.len() == 1 || mention.all_of_them)
        .flat_map(|mention| mention.rigs.iter().copied())
        .collect();
    if rigs.is_empty() {
        return None;
    }
    if ask.service.is_none() || !ask.drafts.is_empty() {
        return Some(Meaning {
            ask: Some(ask.clone()),
            ..Meaning::default()
        });
    }
    let mut all = Meaning::default();
    for rig in rigs {
        all.services.extend(with_rig(ask, rig, scene).services);
    }
    // One price of several rigs cannot be told apart.
    if all.services.len() > 1 {
        all.services.iter_mut().for_each(|service| service.price = None);
    }
    Some(all)
}

/// "The other one", "not heron": the one rig that is left of two, or no answer when more are left. The outer `None`: the
/// text speaks of no other.
pub(super) fn the_other(tokens: &[Token], rig: Option<i64>, ask: &Ask, scene: &Scene) -> Option<Option<i64>> {
    let denied = tokens
        .windows(2)
        .any(|two| two[0].has(Sense::Not) && two[1].mention().is_some());
    let other = rig.is_none() && is_short(tokens, 4) && tokens.iter().any(|token| token.has(Sense::OtherOne));
    if !denied && !other {
        return None;
    }
    let offered: Vec<i64> = ask
        .choices
        .iter()
        .filter_map(|choice| match choice.label {
            Label::Rig(rig) => Some(rig),
            _ => None,
        })
        .collect();
    let all: Vec<i64> = match offered.len() {
        2 => offered,
        _ => scene.fleet.iter().map(|rig| rig.id).collect(),
    };
    // The other than the one named, read last, or driven.
    let not = rig
        .or_else(|| scene.last.first().and_then(|last| last.rig))
        .or(scene.own_rig);
    let left: Vec<i64> = all.iter().copied().filter(|&id| Some(id) != not).collect();
    Some(match left[..] {
        [only] if all.len() == 2 => Some(only),
        _ => None,
    })
}

/// The one rig that is named.
pub(super) fn only_rig(tokens: &[Token]) -> Option<i64> {
    let mut rigs = tokens
        .iter()
        .filter_map(Token::mention)
        .filter(|mention| mention.rigs.len() == 1);
    let rig = rigs.next()?.rigs[0];
    rigs.all(|other| other.rigs[0] == rig).then_some(rig)
}
