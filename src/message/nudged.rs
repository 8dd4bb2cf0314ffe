//! Answers to a flush nudge: done, later, not used.

use super::meaning::{Meaning, Postponed, Scene, Service, What};
use super::senses::Sense;
use super::services::minutes_of;
use super::times::Times;
use super::tokens::{Kind, Token};
use super::units::{self, Unit};

const MOST_MINUTES: f64 = 12.0 * 60.0;

/// What the text means as an answer to the nudge; `None` when it is something else.
pub(super) fn answer(tokens: &[Token], times: &Times, scene: &Scene) -> Option<Meaning> {
    let rig = scene.nudged?;
    let others = tokens
        .iter()
        .filter_map(Token::mention)
        .any(|mention| mention.rigs != [rig]);
    let put_off = [Sense::HalfHour, Sense::Hour, Sense::Minutes, Sense::Postpone];
    let delays = tokens.iter().any(|token| token.has_any(&put_off));
    let asks = tokens
        .iter()
        .any(|token| token.is_mark('?') || token.has(Sense::Asks) && !delays);
    let strange = tokens.iter().any(Token::is_unknown);
    if others || asks || strange {
        return None;
    }
    if let Some(postponed) = later(tokens, rig) {
        return Some(Meaning {
            postponed: Some(postponed),
            ..Meaning::default()
        });
    }
    let has = |sense: Sense| tokens.iter().any(|token| token.has(sense));
    let minutes = minutes_of(tokens);
    let numbers = tokens
        .iter()
        .filter(|token| token.number().is_some() && !token.spent)
        .count();
    if numbers > usize::from(minutes.is_some()) || has(Sense::Intent) || has(Sense::Later) {
        return None;
    }
    if has(Sense::NotUsed) {
        return Some(Meaning {
            not_used: Some(rig),
            ..Meaning::default()
        });
    }
    let thumb = tokens.iter().any(|token| token.kind == Kind::Yes);
    let done = thumb || has(Sense::Finished) || has(Sense::Flushed);
    if !done || has(Sense::Not) || has(Sense::Yet) || has(Sense::No) {
        return None;
    }
    let service = Service {
        rig,
        what: What::Flush,
        minutes,
        price: None,
        when: times.of_all(),
    };
    Some(Meaning {
        services: vec![service],
        ..Meaning::default()
    })
}

/// "In 30 minutes", "half an hour", "later".
fn later(tokens: &[Token], rig: i64) -> Option<Postponed> {
    let done = [Sense::Flushed, Sense::Finished, Sense::NotUsed];
    let only_known = tokens.iter().all(|token| !token.has_any(&done));
    let words = tokens.iter().filter(|token| token.word().is_some()).count();
    if !only_known || words > 6 {
        return None;
    }
    let put = |minutes: f64| {
        (1.0..=MOST_MINUTES).contains(&minutes).then_some(Postponed {
            rig,
            minutes: Some(minutes.round() as u16),
        })
    };
    let numbers: Vec<usize> = (0..tokens.len()).filter(|&at| tokens[at].number().is_some()).collect();
    match numbers[..] {
        [] if tokens.iter().any(|token| token.has(Sense::HalfHour)) => put(30.0),
        [] if tokens.iter().any(|token| token.has(Sense::Hour)) => put(60.0),
        [] => tokens
            .iter()
            .any(|token| token.has(Sense::Postpone))
            .then_some(Postponed { rig, minutes: None }),
        [at] => {
            let value = tokens[at].number()?.value;
            let hours = tokens.get(at + 1).is_some_and(|token| token.has(Sense::Hour));
            let minutes = units::behind(tokens, at) == Some(Unit::Minutes);
            match (hours, minutes) {
                (true, _) => put(value * 60.0),
                (_, true) => put(value),
                _ => None,
            }
        }
        _ => None,
    }
}
