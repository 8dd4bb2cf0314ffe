//! Withdrawn readings: "scrap that", "sorry, ignore that, i hadn't rinsed the cup".

use super::meaning::{Correction, Reading, Scene, When};
use super::senses::Sense;
use super::tokens::Token;

/// The readings that a text with a word of undoing withdraws; `None` when it speaks of something else.
pub(super) fn find(
    tokens: &[Token],
    rigs: &[i64],
    unknown: usize,
    when: Option<When>,
    scene: &Scene,
) -> Option<Vec<Correction>> {
    let about_reading = tokens.iter().any(|token| token.has_any(&[Sense::Current, Sense::That]));
    let words: Vec<&Token> = tokens.iter().filter(|token| token.word().is_some()).collect();
    let begins = words
        .iter()
        .find(|token| !token.has(Sense::Greeting))
        .is_some_and(|token| token.has(Sense::Undo));
    let short = words.len() <= 3 || (begins && words.len() <= 6);
    let void = |from_rig: i64, when: Option<When>| Correction {
        void: true,
        from_rig,
        change: Reading {
            when,
            ..Reading::default()
        },
    };
    // "ignore the noise from badger's pump" withdraws nothing.
    // Behind "scrap that" a reason may follow: "scrap that, dirty cup".
    let whole_phrase = words
        .first()
        .is_some_and(|token| token.has(Sense::Undo) && token.word().is_some_and(|word| word.contains(' ')));
    // "Ignore that noise", "cancel the 3 o'clock" are about other things.
    let of_other = tokens
        .windows(2)
        .any(|two| two[0].has(Sense::Undo) && two[1].is_unknown());
    let spent = tokens.iter().any(|token| token.number().is_some() && token.spent);
    let strange = usize::from(!rigs.is_empty() || (whole_phrase && words.len() <= 5 && !of_other));
    if spent && when.is_none() {
        return None;
    }
    let private = tokens.iter().any(|token| token.has(Sense::Address));
    let told_why = tells_why(tokens) && unknown <= 2 && words.len() <= 12;
    if private || !told_why && (unknown > strange || !(about_reading || short)) {
        return None;
    }
    let of_last: Vec<i64> = scene.last.iter().filter_map(|reading| reading.rig).collect();
    if rigs.is_empty() {
        return (!of_last.is_empty()).then(|| of_last.iter().map(|&rig| void(rig, None)).collect());
    }
    Some(
        rigs.iter()
            .map(|&rig| void(rig, when.filter(|_| !of_last.contains(&rig))))
            .collect(),
    )
}

/// "Sorry, ignore that, i hadn't rinsed the cup": a whole phrase first, then a reason.
fn tells_why(tokens: &[Token]) -> bool {
    let lead = |token: &&Token| {
        token.word().is_none() || token.has_any(&[Sense::Greeting, Sense::Oops]) && !token.has(Sense::Undo)
    };
    let mut rest = tokens.iter().skip_while(lead);
    let whole = rest
        .next()
        .is_some_and(|token| token.has(Sense::Undo) && token.word().is_some_and(|word| word.contains(' ')));
    let reason = rest.next().is_some_and(|token| {
        token.is_any_mark(",.-;!")
            || token.has_any(&[Sense::Filler, Sense::Not, Sense::ItWas, Sense::Oops, Sense::Swap])
    });
    let ahead = tokens.iter().any(|token| token.has_any(&[Sense::Later, Sense::Intent]));
    whole && reason && !ahead
}
