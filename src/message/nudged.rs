//! Answers to a flush nudge: done, later, not used; of the rig that was asked about, or of each of several.

use super::asks;
use super::meaning::{Meaning, Postponed, Scene, Service, Told, What};
use super::portions;
use super::senses::Sense;
use super::services::minutes_of;
use super::times::Times;
use super::tokens::{Kind, Token};
use super::units::{self, Unit};

const MOST_MINUTES: f64 = 12.0 * 60.0;
/// "Give me 20": more than this is no number of minutes.
const MOST_BARE_MINUTES: f64 = 120.0;

/// What is said of a rig that was asked about.
#[derive(Clone, Copy, PartialEq)]
enum Said {
    /// And how many minutes that took.
    Flushed(Option<u16>),
    NotUsed,
    /// And in how many minutes.
    Later(Option<u16>),
}

/// What the text means as an answer to the nudge; `None` when it is something else.
pub(super) fn answer(tokens: &[Token], times: &Times, scene: &Scene) -> Option<Meaning> {
    let mut meaning = Meaning::default();
    let mut later: Option<Postponed> = None;
    for (rigs, part) in parts(tokens, &scene.nudged)? {
        let named = part.iter().any(|token| token.mention().is_some());
        let when = times.of_all();
        match said(part, scene.open.is_some())? {
            Said::Flushed(minutes) if !named && rigs.len() > 1 && !is_of_all(part) => {
                let told = Told {
                    minutes,
                    price: None,
                    when,
                };
                meaning.ask = Some(asks::which_rig_for(What::Flush, told, rigs, "", scene));
            }
            Said::Flushed(minutes) => meaning.services.extend(rigs.iter().map(|&rig| Service {
                rig,
                what: What::Flush,
                minutes,
                price: None,
                when,
            })),
            Said::NotUsed => meaning.not_used.extend(rigs),
            Said::Later(minutes) => match &mut later {
                Some(later) if later.minutes != minutes => return None,
                Some(later) => later.rigs.extend(rigs),
                None => {
                    later = Some(Postponed {
                        rigs: rigs.to_vec(),
                        minutes,
                    });
                }
            },
        }
    }
    meaning.postponed = later;
    Some(meaning)
}

/// The words on each rig, in a text that names them first ("lynx done, badger not used"); all words on all rigs where
/// none is named. `None` when the text is about another rig.
fn parts<'a>(tokens: &'a [Token], nudged: &'a [i64]) -> Option<Vec<(&'a [i64], &'a [Token])>> {
    if nudged.is_empty() {
        return None;
    }
    let link = |token: &Token| token.has(Sense::And) || token.is_any_mark(",&+");
    // Where each run of names begins, and whose they are.
    let mut runs: Vec<(usize, Vec<&'a [i64]>)> = Vec::new();
    let mut last = None;
    for (at, mention) in tokens
        .iter()
        .enumerate()
        .filter_map(|(at, token)| Some((at, token.mention()?)))
    {
        let [rig] = mention.rigs.as_slice() else { return None };
        let place = nudged.iter().position(|asked| asked == rig)?;
        let rig = &nudged[place..=place];
        if runs.iter().any(|(_, rigs)| rigs.contains(&rig)) {
            return None;
        }
        let joined = last.is_some_and(|last: usize| tokens[last + 1..at].iter().all(link));
        match runs.last_mut().filter(|_| joined) {
            Some((_, rigs)) => rigs.push(rig),
            None => runs.push((at, vec![rig])),
        }
        last = Some(at);
    }
    let Some((first, _)) = runs.first() else {
        return Some(vec![(nudged, tokens)]);
    };
    // "Flushed badger, lynx not used"
    if tokens[..*first].iter().any(|token| !link(token)) {
        let told = portions::split(tokens, 0..tokens.len()).into_iter().flat_map(|span| {
            let part = &tokens[span];
            let rigs = runs.iter().flat_map(|(_, rigs)| rigs).copied();
            let named = move |rig: &&'a [i64]| {
                part.iter()
                    .filter_map(Token::mention)
                    .any(|mention| mention.rigs == *rig)
            };
            rigs.filter(named).map(move |rig| (rig, part)).collect::<Vec<_>>()
        });
        return Some(told.collect());
    }
    let mut parts = Vec::new();
    for (index, (from, rigs)) in runs.iter().enumerate() {
        let to = runs.get(index + 1).map_or(tokens.len(), |(next, _)| *next);
        parts.extend(rigs.iter().map(|rig| (*rig, &tokens[*from..to])));
    }
    Some(parts)
}

/// "Both done", "los dos lavados", "lavados"
fn is_of_all(part: &[Token]) -> bool {
    part.iter().any(|token| {
        token.has_any(&[Sense::Both, Sense::Plural]) || token.has(Sense::All) && !token.has(Sense::Finished)
    })
}

/// What the words say; `None` when they are no answer. A yes or no belongs to an open question, if there is one.
fn said(part: &[Token], open: bool) -> Option<Said> {
    let has = |sense: Sense| part.iter().any(|token| token.has(sense));
    let put_off = [
        Sense::HalfHour,
        Sense::QuarterHour,
        Sense::Hour,
        Sense::Minutes,
        Sense::Postpone,
        Sense::Grants,
    ];
    let delays = part.iter().any(|token| token.has_any(&put_off));
    let asks = part
        .iter()
        .any(|token| token.is_mark('?') || token.has(Sense::Asks) && !delays);
    if asks || part.iter().any(Token::is_unknown) {
        return None;
    }
    if let Some(minutes) = later(part) {
        return Some(Said::Later(minutes));
    }
    let minutes = minutes_of(part);
    let numbers = part
        .iter()
        .filter(|token| token.number().is_some() && !token.spent)
        .count();
    if numbers > usize::from(minutes.is_some()) || has(Sense::Intent) || has(Sense::Later) || has(Sense::Pending) {
        return None;
    }
    if has(Sense::NotUsed) {
        return Some(Said::NotUsed);
    }
    let only = |sense: Sense| {
        let plain = |token: &Token| {
            let word = token.word().is_some() && !token.has(Sense::And);
            !word || token.has(sense) && !token.has(Sense::Noted)
        };
        !open && has(sense) && part.iter().all(plain)
    };
    // It is asked about again.
    if only(Sense::No) {
        return Some(Said::Later(None));
    }
    let thumb = part.iter().any(|token| token.kind == Kind::Yes);
    let done = thumb || has(Sense::Finished) || has(Sense::Flushed) || only(Sense::Yes);
    let denied = has(Sense::Not) || has(Sense::Yet) || has(Sense::No);
    (done && !denied).then_some(Said::Flushed(minutes))
}

/// "In 30 minutes", "half an hour", "give me 20", "later": in how many minutes, if that is said.
fn later(part: &[Token]) -> Option<Option<u16>> {
    let done = [Sense::Flushed, Sense::Finished, Sense::NotUsed];
    let only_known = part.iter().all(|token| !token.has_any(&done));
    let words = part.iter().filter(|token| token.word().is_some()).count();
    if !only_known || words > 6 {
        return None;
    }
    let put = |minutes: f64| {
        (1.0..=MOST_MINUTES)
            .contains(&minutes)
            .then_some(Some(minutes.round() as u16))
    };
    let has = |sense: Sense| part.iter().any(|token| token.has(sense));
    let numbers: Vec<usize> = (0..part.len()).filter(|&at| part[at].number().is_some()).collect();
    match numbers[..] {
        [] if has(Sense::HalfHour) => put(30.0),
        [] if has(Sense::QuarterHour) => put(15.0),
        [] if has(Sense::Hour) => put(60.0),
        [] => has(Sense::Postpone).then_some(None),
        [at] => {
            let value = part[at].number()?.value;
            let hours = part.get(at + 1).is_some_and(|token| token.has(Sense::Hour));
            let minutes = units::behind(part, at) == Some(Unit::Minutes);
            // "Give me 20", "lynx in 20"
            let last = part[at + 1..].iter().all(|token| token.word().is_none());
            let granted = at.checked_sub(1).is_some_and(|before| {
                let names = part[..before].iter().all(|token| token.word().is_none());
                part[before].has(Sense::Grants) || part[before].has(Sense::Inside) && names
            });
            match (hours, minutes) {
                (true, _) => put(value * 60.0),
                (_, true) => put(value),
                _ if granted && last && value <= MOST_BARE_MINUTES => put(value),
                _ => None,
            }
        }
        _ => None,
    }
}
