//! Corrections of a service that was told last: "that was yesterday", "not otter, heron", "it cost 120", "scrap that".

use super::corrections::rigs_of;
use super::meaning::{Amend, Correction, Price, Reading, Scene, What, When};
use super::senses::Sense;
use super::tokens::Token;
use super::{moves, prices, withdrawals};

/// What the message changes of the services told last; `None` when it changes nothing.
pub(super) fn find(tokens: &[Token], when: Option<When>, scene: &Scene) -> Option<Vec<Amend>> {
    let named = rigs_of(tokens);
    let unknown = tokens.iter().filter(|token| token.is_unknown()).count();
    let mut rigs: Vec<i64> = scene.last_services.iter().map(|service| service.rig).collect();
    rigs.dedup();
    // Rig and time are told of a service as they are of a reading.
    let of_rig = |rig: &i64| Reading {
        rig: Some(*rig),
        ..Reading::default()
    };
    let as_readings = Scene {
        last: rigs.iter().map(of_rig).collect(),
        ..scene.clone()
    };
    if tokens.iter().any(|token| token.is_mark('?')) {
        return None;
    }
    let numbers = tokens.iter().any(|token| token.number().is_some() && !token.spent);
    let corrections = if tokens.iter().any(|token| token.has(Sense::Undo)) && !numbers {
        withdrawals::find(tokens, &named, unknown, when, &as_readings)
    } else {
        moves::to_rig(tokens, &named, &as_readings)
            .or_else(|| moves::in_time(tokens, &named, unknown, when, &as_readings))
    };
    match corrections {
        Some(corrections) => Some(corrections.into_iter().map(amend).collect()),
        None => value(tokens, &named, unknown, scene).map(|amend| vec![amend]),
    }
}

fn amend(correction: Correction) -> Amend {
    Amend {
        from_rig: correction.from_rig,
        void: correction.void,
        rig: correction.change.rig,
        when: correction.change.when,
        ..Amend::default()
    }
}

/// "*130", "it cost 120", "£95 not 90": the price of the one service, or how long the flush took.
fn value(tokens: &[Token], named: &[i64], unknown: usize, scene: &Scene) -> Option<Amend> {
    let [service] = scene.last_services.as_slice() else {
        return None;
    };
    let words = tokens.iter().filter(|token| token.word().is_some()).count();
    let others = named.iter().any(|rig| *rig != service.rig);
    let deeds = [
        Sense::Fresh,
        Sense::Flushed,
        Sense::Flush,
        Sense::Not,
        Sense::Later,
        Sense::Asks,
    ];
    if unknown > 0 || words > 5 || others || tokens.iter().any(|token| token.has_any(&deeds)) {
        return None;
    }
    let mut numbers = tokens.iter().filter_map(Token::number);
    let (number, None) = (numbers.next()?, numbers.next()) else {
        return None;
    };
    let starred = tokens.len() == 2 && tokens.iter().any(|token| token.is_mark('*'));
    let amend = Amend {
        from_rig: service.rig,
        ..Amend::default()
    };
    if starred && service.what == What::Flush && service.minutes.is_some() {
        let minutes = (1.0..=600.0)
            .contains(&number.value)
            .then_some(number.value.round() as u16);
        return Some(Amend {
            minutes: Some(minutes?),
            ..amend
        });
    }
    let typed = prices::find(tokens);
    let was_priced = service.price.is_some() && starred;
    let price = typed.or_else(|| {
        was_priced.then_some(Price {
            amount: number.value,
            currency: None,
        })
    })?;
    Some(Amend {
        price: Some(price),
        ..amend
    })
}
