//! A reading that goes to another rig or another time: "that was badger", "not lynx, badger", "that was yesterday's".

use super::meaning::{Correction, Reading, Scene, When};
use super::senses::Sense;
use super::tokens::Token;

/// "that was badger", "badger not lynx", "wrong rig, badger": the whole message says so. "No time for badger" names a
/// rig and moves nothing.
pub(super) fn to_rig(tokens: &[Token], rigs: &[i64], scene: &Scene) -> Option<Vec<Correction>> {
    let has = |sense: Sense| tokens.iter().any(|token| token.has(sense));
    let starred = matches!(tokens, [a, b] if a.is_mark('*') || b.is_mark('*'));
    let moved = tokens.iter().any(|token| token.has(Sense::Move)) && has(Sense::To);
    let other = rigs.is_empty() && has(Sense::OtherOne);
    if rigs.is_empty() && !other || rigs.len() > 2 || !tokens.iter().all(|token| belongs(token, moved)) {
        return None;
    }
    let known = |rig: i64| scene.last.iter().find(|reading| reading.rig == Some(rig));
    let (to, from) = match rigs {
        // "It was the other one", where there are two.
        [] if has(Sense::ItWas) || has(Sense::Oops) => (other_of_two(scene)?, scene.last.first()?.rig?),
        [] => return None,
        [to] => {
            let [last] = scene.last.as_slice() else { return None };
            let firm = starred || has(Sense::ItWas) || tokens.iter().any(puts_elsewhere);
            if !firm || has(Sense::Not) && !begins_with_no(tokens) {
                return None;
            }
            (*to, last.rig?)
        }
        // "badger not lynx": the one behind "not" is the wrong one.
        [first, second] if moved => (*second, *first),
        [first, second] => {
            // The last one counts: "oh no that was badger not lynx".
            let not = tokens.iter().rposition(|token| token.has(Sense::Not))?;
            let denied_first = tokens[not..].iter().filter(|token| token.mention().is_some()).count() == 2;
            if denied_first {
                (*second, *first)
            } else {
                (*first, *second)
            }
        }
        _ => return None,
    };
    known(from)?;
    (to != from).then(|| {
        vec![Correction {
            void: false,
            from_rig: from,
            change: Reading {
                rig: Some(to),
                ..Reading::default()
            },
        }]
    })
}

/// The words of such a message: a name, "that was", "sorry", "no", and what stands between them.
fn belongs(token: &Token, moved: bool) -> bool {
    let Some(word) = token.word() else {
        // "Oh" is a zero too.
        let number = token
            .number()
            .filter(|number| !(number.in_words && number.value == 0.0));
        return token.mention().is_some() || !token.is_mark('?') && number.is_none();
    };
    let says_so = token.has_any(&[
        Sense::ItWas,
        Sense::Oops,
        Sense::No,
        Sense::That,
        Sense::Article,
        Sense::OtherOne,
        Sense::Greeting,
        Sense::But,
        Sense::MeantFor,
    ]);
    // "not" itself, no verb with it: "don't use mule" speaks of the rig.
    let denies = token.has(Sense::Not) && word.len() <= 3;
    let small = token.has_any(&[Sense::Intent, Sense::Later, Sense::All, Sense::Asks]);
    denies || says_so && (!small || token.has(Sense::ItWas)) || moved && token.has_any(&[Sense::Move, Sense::To])
}

/// "Wrong rig", "put that on", "make that": more than an apology, which is one short word.
fn puts_elsewhere(token: &Token) -> bool {
    token.has(Sense::Oops) && token.word().is_some_and(|word| word.contains(' '))
}

fn begins_with_no(tokens: &[Token]) -> bool {
    let denials = tokens.iter().filter(|token| token.has(Sense::Not)).count();
    denials == 1 && tokens.first().is_some_and(|token| token.has(Sense::No))
}

fn other_of_two(scene: &Scene) -> Option<i64> {
    let ([one, other], [last]) = (scene.fleet.as_slice(), scene.last.as_slice()) else {
        return None;
    };
    let last = last.rig?;
    (last == one.id)
        .then_some(other.id)
        .or((last == other.id).then_some(one.id))
}

/// "that was yesterday's"
pub(super) fn in_time(
    tokens: &[Token],
    rigs: &[i64],
    unknown: usize,
    when: Option<When>,
    scene: &Scene,
) -> Option<Vec<Correction>> {
    let says_so = tokens.iter().any(|token| token.has_any(&[Sense::ItWas, Sense::Oops]));
    let words = tokens.iter().filter(|token| token.word().is_some()).count();
    let denies = tokens
        .iter()
        .any(|token| token.has_any(&[Sense::Not, Sense::Later, Sense::Minutes]));
    if unknown > 0 || denies || !says_so || words > 6 || !rigs.is_empty() {
        return None;
    }
    let change = Reading {
        when: Some(when?),
        ..Reading::default()
    };
    let correct = |reading: &Reading| {
        Some(Correction {
            void: false,
            from_rig: reading.rig?,
            change: change.clone(),
        })
    };
    scene.last.iter().map(correct).collect()
}
