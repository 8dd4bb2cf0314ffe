//! What a part cost: "$85", "60 euros", "paid 340".

use super::meaning::Price;
use super::senses::Sense;
use super::tokens::Token;

/// Dearer parts are slips of the thumb or another currency's whole numbers.
const MOST: f64 = 10_000_000.0;

/// The one price of a part of a message; `None` when there is none or more than one.
pub(super) fn find(part: &[Token]) -> Option<Price> {
    let mut prices = (0..part.len()).filter_map(|at| price_at(part, at));
    let first = prices.next()?;
    prices.next().is_none().then_some(first)
}

fn price_at(part: &[Token], at: usize) -> Option<Price> {
    let number = part[at].number().filter(|_| !part[at].has(Sense::OfTime))?;
    let sign = |token: Option<&Token>| {
        let token = token?;
        ['$', '£', '€']
            .into_iter()
            .find(|&sign| token.is_mark(sign))
            .map(|sign| sign.to_string())
    };
    let word = |token: Option<&Token>| {
        let token = token.filter(|token| token.has(Sense::Currency))?;
        token.word().map(str::to_owned)
    };
    let before = at.checked_sub(1).map(|last| &part[last]);
    let next = part.get(at + 1);
    let currency = sign(before).or_else(|| sign(next)).or_else(|| word(next));
    let paid = before.is_some_and(|token| token.has(Sense::PriceWord) && !token.has(Sense::Filler));
    // "12 a litre" is no price of the whole.
    let each = part.iter().skip(at + 1).take(3).any(|token| token.has(Sense::Each))
        && part
            .iter()
            .skip(at + 1)
            .take(4)
            .any(|token| token.has(Sense::Counted) && !token.has(Sense::Currency));
    let whole = number.decimals <= 2 && (0.01..MOST).contains(&number.value);
    ((currency.is_some() || paid) && whole && !each).then_some(Price {
        amount: number.value,
        currency,
    })
}
