//! Numbers that are no readings: money, counts, house and job numbers, percents, phone numbers.

use super::senses::Sense;
use super::tokens::{Kind, Token};

/// Marks such numbers as spent.
pub fn take(tokens: &mut [Token]) {
    for at in 0..tokens.len() {
        let Some(number) = tokens[at].number() else { continue };
        // "flushed 10": minutes, for the service.
        let filler = usize::from(at > 1 && tokens[at - 1].has(Sense::Filler));
        let flush = at.checked_sub(1 + filler).map(|before| &tokens[before]);
        let flushed = flush.is_some_and(|token| token.has_any(&[Sense::Flushed, Sense::Flush])) && number.value <= 60.0;
        if flushed
            || is_list_mark(tokens, at)
            || number.digits.len() > 6
            || (number.digits.len() > 2 && number.decimals == 0 && number.digits.starts_with('0') && number.value > 0.0)
            || is_counted(tokens, at)
            || is_named_by_number(tokens, at)
            || is_address(tokens, at)
        {
            tokens[at].spent = true;
        } else if let Some(used) = is_idiom(tokens, at) {
            tokens[at..at + used].iter_mut().for_each(|token| token.spent = true);
        }
    }
}

fn is_counted(tokens: &[Token], at: usize) -> bool {
    let before = at.checked_sub(1).map(|last| &tokens[last]);
    if before.is_some_and(|token| token.is_any_mark("$£€")) {
        return true;
    }
    let Some(next) = tokens.get(at + 1) else { return false };
    // "180 in 12 out": words that also measure are no counts.
    let counted = next.has(Sense::Counted) && !next.has_any(&[Sense::Feed, Sense::Permeate, Sense::Filler]);
    let times = next.word() == Some("x") && tokens.get(at + 2).is_some_and(|token| token.number().is_some());
    let multiplied =
        before.is_some_and(|token| token.word() == Some("x")) && at >= 2 && tokens[at - 2].number().is_some();
    counted || times || multiplied || next.is_any_mark("%$£€")
}

/// "1) lynx ...", "2. badger ..."
fn is_list_mark(tokens: &[Token], at: usize) -> bool {
    let starts = at == 0 || tokens[at - 1].kind == Kind::Break;
    let small = tokens[at]
        .number()
        .is_some_and(|number| number.digits.len() <= 2 && number.decimals == 0);
    let mark = tokens.get(at + 1).filter(|mark| mark.glued);
    let named = tokens.get(at + 2).is_some_and(|token| token.mention().is_some());
    starts && small && mark.is_some_and(|mark| mark.is_mark(')') || (named && mark.is_any_mark(".:-")))
}

/// "#3381", "no 42"
fn is_named_by_number(tokens: &[Token], at: usize) -> bool {
    at.checked_sub(1).is_some_and(|last| {
        let before = &tokens[last];
        before.is_mark('#')
            || (before.has(Sense::NumberSign) && !before.has(Sense::Filler) && !denies(tokens, last))
            || before.word() == Some("no")
                && !before.spent
                && tokens.get(at + 1).is_some_and(|next| {
                    next.word().is_some() && !next.has_any(&[Sense::Not, Sense::Oops, Sense::ItWas])
                })
                && last.checked_sub(1).is_none_or(|first| tokens[first].number().is_none())
                && tokens.iter().all(|token| token.mention().is_none())
    })
}

/// "No 190/21", "12, no 21": at the start or behind a number "no" denies and numbers nothing.
fn denies(tokens: &[Token], at: usize) -> bool {
    let before = tokens[..at].iter().rfind(|token| !token.is_any_mark(",.-"));
    tokens[at].word() == Some("no") && before.is_none_or(|token| token.number().is_some())
}

/// "1200 main st", "at 240 pine", "calle mayor 180"
fn is_address(tokens: &[Token], at: usize) -> bool {
    let by = |index: usize| tokens.get(index).is_some_and(|token| token.has(Sense::Address));
    let unknown = |index: usize| tokens.get(index).is_some_and(Token::is_unknown);
    let behind_at = at > 0 && matches!(tokens[at - 1].word(), Some("at" | "a" | "to"));
    let small = |index: usize| tokens.get(index).is_some_and(|token| token.has(Sense::Filler));
    // "180 and 12 high st": both are house numbers.
    let another = tokens.get(at + 1).is_some_and(|token| token.has(Sense::And))
        && tokens.get(at + 2).is_some_and(|token| token.number().is_some())
        && (by(at + 3) || by(at + 4));
    let street =
        by(at + 1) || (unknown(at + 1) && (by(at + 2) || behind_at)) || (small(at + 1) && by(at + 2)) || another;
    let street_first = (at >= 1 && by(at - 1)) || (at >= 2 && unknown(at - 1) && by(at - 2));
    // "mill lane 12-40": the house numbers go on.
    let goes_on = at >= 2 && tokens[at - 1].is_mark('-') && tokens[at - 2].spent && tokens[at - 2].number().is_some();
    street || street_first || goes_on
}

/// "24/7", "50/50"
fn is_idiom(tokens: &[Token], at: usize) -> Option<usize> {
    let second = tokens.get(at + 2)?.number()?;
    let first = tokens[at].number()?;
    let slash = tokens[at + 1].kind == Kind::Mark('/');
    let idiom = matches!(
        (first.digits.as_str(), second.digits.as_str()),
        ("24", "7") | ("50", "50") | ("9", "5")
    );
    (slash && idiom).then_some(3)
}
