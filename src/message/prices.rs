//! What a part cost: "$85", "60 euros", "paid 340".

use super::meaning::Price;
use super::senses::Sense;
use super::services::PARTS;
use super::tokens::{Kind, Token};

/// Dearer parts are slips of the thumb or another currency's whole numbers.
const MOST: f64 = 10_000_000.0;
/// No price is supposed to rise by more.
const MOST_PERCENT: f64 = 1_000.0;

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

/// "Resin price changed to 10", "put the price of a membrane up to 250": the price is spoken of, and nothing was done.
pub(super) fn is_price_talk(part: &[Token]) -> bool {
    (0..part.len()).any(|at| names_price(part, at))
}

/// Whether a price and what it is the price of stand side by side: "resin price", "precio de la resina".
fn names_price(part: &[Token], at: usize) -> bool {
    if !part[at].has(Sense::PriceNoun) {
        return false;
    }
    let before = at.checked_sub(1).is_some_and(|last| part[last].has_any(&PARTS));
    let behind = part[at + 1..]
        .iter()
        .take(4)
        .find(|token| !token.has_any(&[Sense::Article, Sense::Filler, Sense::Fresh]) || token.has_any(&PARTS))
        .is_some_and(|token| token.has_any(&PARTS));
    before || behind
}

/// "Membrane price 1 200": the number stands in a line that begins with the name of a price.
pub(super) fn is_of_price_line(tokens: &[Token], at: usize) -> bool {
    let start = tokens[..at]
        .iter()
        .rposition(|token| token.kind == Kind::Break || token.is_any_mark(".;!"))
        .map_or(0, |end| end + 1);
    let line = &tokens[start..at];
    let named = line
        .iter()
        .position(|token| token.has(Sense::PriceNoun))
        .filter(|&noun| names_price(&tokens[start..], noun));
    named.is_some_and(|noun| {
        let begins = line[..noun].iter().all(|token| token.number().is_none());
        let stays = line[noun..].iter().all(|token| token.mention().is_none());
        begins && stays
    })
}

/// "20% more", "un 20 % más barata": by how many per cent a price is to change.
pub(super) fn change(part: &[Token]) -> Option<f64> {
    let percent = percent_at(part).and_then(|at| part[at].number())?.value;
    let falls = part.iter().any(|token| token.has(Sense::Cheaper));
    let rises = part.iter().any(|token| token.has(Sense::Dearer));
    let below_all = falls && percent >= 100.0;
    match (falls, rises) {
        _ if below_all || percent > MOST_PERCENT => None,
        (true, _) => Some(-percent),
        (_, true) => Some(percent),
        // Whether more or less is not said.
        (false, false) => None,
    }
}

/// Where a number of per cent stands.
pub(super) fn percent_at(part: &[Token]) -> Option<usize> {
    let sign = |token: &Token| token.is_mark('%') || token.has(Sense::Percent);
    (0..part.len()).find(|&at| part[at].number().is_some() && part.get(at + 1).is_some_and(sign))
}

/// Whether any price is said, be it one or several.
pub(super) fn is_any(part: &[Token]) -> bool {
    (0..part.len()).any(|at| price_at(part, at).is_some())
}

/// "£140 each": of each rig the same.
pub(super) fn is_apiece(part: &[Token]) -> bool {
    let sign = |token: &Token| token.is_any_mark("$£€") || token.has(Sense::Currency) || token.number().is_some();
    part.windows(2).any(|two| sign(&two[0]) && two[1].has(Sense::Apiece))
}

/// "£225 a bag", "£180 each": what things cost, in general.
pub(super) fn is_each(part: &[Token]) -> bool {
    (0..part.len()).any(|at| {
        let priced = part[at].number().is_some() && {
            let sign = |token: &Token| token.is_any_mark("$£€") || token.has(Sense::Currency);
            at.checked_sub(1).is_some_and(|last| sign(&part[last])) || part.get(at + 1).is_some_and(sign)
        };
        let rest = &part[at + 1..];
        let rest = if rest.first().is_some_and(|token| token.has(Sense::Currency)) {
            &rest[1..]
        } else {
            rest
        };
        let counted = rest.get(1).is_some_and(|token| {
            token.has_any(&[Sense::Counted, Sense::Resin, Sense::Membrane, Sense::Prefilter])
                && !token.has(Sense::Currency)
        });
        let each = rest
            .first()
            .is_some_and(|token| token.has(Sense::Each) && (counted || token.has(Sense::Apiece)));
        priced && each
    })
}
