//! Numbers that are no readings: money, counts, limits, house and job numbers, percents, phone numbers.

use super::groups;
use super::prices;
use super::senses::Sense;
use super::tokens::{Kind, Token};

/// Marks such numbers as spent.
pub fn take(tokens: &mut [Token]) {
    let mut phone = None;
    for at in 0..tokens.len() {
        let Some(number) = tokens[at].number() else { continue };
        // "flushed 10": minutes, for the service.
        let filler = usize::from(at > 1 && tokens[at - 1].has(Sense::Filler));
        let flush = at.checked_sub(1 + filler).map(|before| &tokens[before]);
        let flushed = flush.is_some_and(|token| token.has_any(&[Sense::Flushed, Sense::Flush])) && number.value <= 60.0;
        if is_of_phone_number(tokens, at, phone) {
            phone = Some(at);
            tokens[at].spent = true;
        } else if flushed
            || is_list_mark(tokens, at)
            || number.digits.len() > 6
            || (number.digits.len() > 2 && number.decimals == 0 && number.digits.starts_with('0') && number.value > 0.0)
            || is_counted(tokens, at)
            || is_priced_each(tokens, at)
            || prices::is_of_price_line(tokens, at)
            || is_named_by_number(tokens, at)
            || is_address(tokens, at)
            || is_limit(tokens, at)
            || is_hour_ahead(tokens, at)
            || is_of_other_thing(tokens, at)
            || is_date_beside_values(tokens, at)
        {
            tokens[at].spent = true;
        } else if let Some(used) = is_idiom(tokens, at) {
            tokens[at..at + used].iter_mut().for_each(|token| token.spent = true);
        }
    }
}

/// The token so many places before `at`.
fn before(tokens: &[Token], at: usize, places: usize) -> Option<&Token> {
    at.checked_sub(places).and_then(|index| tokens.get(index))
}

fn is_number(token: Option<&Token>) -> bool {
    token.is_some_and(|token| token.number().is_some())
}

fn is_counted(tokens: &[Token], at: usize) -> bool {
    let last = before(tokens, at, 1);
    if last.is_some_and(|token| token.is_any_mark("$£€")) {
        return true;
    }
    // "143/7 +- 1"
    if last.is_some_and(|token| token.is_mark('-')) && before(tokens, at, 2).is_some_and(|token| token.is_mark('+')) {
        return true;
    }
    let Some(next) = tokens.get(at + 1) else { return false };
    // "180 in 12 out": words that also measure are no counts.
    let counted = next.has(Sense::Counted) && !next.has_any(&[Sense::Feed, Sense::Permeate, Sense::Filler]);
    // "20-30 mins"
    let range = next.is_any_mark("-~") || next.has(Sense::To);
    let range_of = tokens.get(at + 3).filter(|_| range && is_number(tokens.get(at + 2)));
    if range_of.is_some_and(|token| token.has_any(&[Sense::Counted, Sense::Minutes]) && !token.has(Sense::Filler)) {
        return true;
    }
    let times = next.word() == Some("x") && is_number(tokens.get(at + 2));
    let multiplied = last.is_some_and(|token| token.word() == Some("x")) && is_number(before(tokens, at, 2));
    counted || times || multiplied || next.is_any_mark("%$£€")
}

/// "12 a litre", "40 per bag", "paid 340"
fn is_priced_each(tokens: &[Token], at: usize) -> bool {
    let each = tokens.get(at + 1).is_some_and(|token| token.has(Sense::Each));
    let counted = tokens
        .get(at + 2)
        .is_some_and(|token| token.has_any(&[Sense::Counted, Sense::Resin]) && !token.has(Sense::Filler));
    let paid = before(tokens, at, 1).is_some_and(|token| token.has(Sense::PriceWord) && !token.has(Sense::Filler));
    let last = tokens[at + 1..].iter().all(|token| token.number().is_none());
    each && counted || paid && last
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

/// "#3381", "no 42", "job 118", "flat 12"
fn is_named_by_number(tokens: &[Token], at: usize) -> bool {
    let Some(last) = at.checked_sub(1) else { return false };
    let sign = &tokens[last];
    // "Job 180/12": a pair is no number of a job.
    let pair = tokens.get(at + 1).is_some_and(|next| next.is_any_mark("/>"));
    // "Unit 5" may be a rig, unless words go on behind it.
    let goes_on = tokens.get(at + 1).is_some_and(|next| next.word().is_some());
    let numbered = sign.has(Sense::Numbered) && !pair && (goes_on || !sign.has(Sense::Vehicle));
    sign.is_mark('#')
        || numbered
        || (sign.has(Sense::NumberSign) && !sign.has(Sense::Filler) && !denies(tokens, last))
        || sign.has_any(&[Sense::NumberSign])
            && sign.has(Sense::No)
            && !sign.spent
            && tokens
                .get(at + 1)
                .is_some_and(|next| next.word().is_some() && !next.has_any(&[Sense::Not, Sense::Oops, Sense::ItWas]))
            && last.checked_sub(1).is_none_or(|first| tokens[first].number().is_none())
            && tokens.iter().all(|token| token.mention().is_none())
}

/// "No 190/21", "12, no 21": at the start or behind a number "no" denies and numbers nothing.
fn denies(tokens: &[Token], at: usize) -> bool {
    let last = tokens[..at].iter().rfind(|token| !token.is_any_mark(",.-"));
    tokens[at].has(Sense::No) && last.is_none_or(|token| token.number().is_some())
}

/// "1200 main st", "at 240 pine", "calle mayor 180"
fn is_address(tokens: &[Token], at: usize) -> bool {
    // "Otter 205 16 high street": behind the name the pair is the reading.
    if groups::is_pair_of_name(tokens, at) {
        return false;
    }
    let by = |index: usize| tokens.get(index).is_some_and(|token| token.has(Sense::Address));
    let unknown = |index: usize| tokens.get(index).is_some_and(Token::is_unknown);
    let behind_at = before(tokens, at, 1).is_some_and(|token| token.has_any(&[Sense::At, Sense::To]));
    let in_pair = at > 0 && tokens[at - 1].is_mark('/');
    let small = |index: usize| !in_pair && tokens.get(index).is_some_and(|token| token.has(Sense::Filler));
    // "180 and 12 high st": both are house numbers.
    let another = tokens.get(at + 1).is_some_and(|token| token.has(Sense::And))
        && is_number(tokens.get(at + 2))
        && (by(at + 3) || by(at + 4));
    // "at 455 w oak"
    let quarter = tokens
        .get(at + 1)
        .and_then(Token::word)
        .is_some_and(|word| word.len() == 1)
        && unknown(at + 2);
    let street = quarter && behind_at
        || by(at + 1)
        || (unknown(at + 1) && (by(at + 2) || behind_at))
        || (small(at + 1) && by(at + 2))
        || another;
    // "14 mill lane 180/12": the street has its number.
    let numbered = (1..=3).any(|places| before(tokens, at, places).is_some_and(|token| token.spent));
    // "otter at queens road 205/16"
    let pair = tokens.get(at + 1).is_some_and(|next| next.is_mark('/'))
        && tokens.iter().any(|token| token.mention().is_some());
    let street_first = !numbered && !pair && (at >= 1 && by(at - 1) || at >= 2 && unknown(at - 1) && by(at - 2));
    // "mill lane 12-40": the house numbers go on.
    let goes_on = at >= 2 && tokens[at - 1].is_mark('-') && tokens[at - 2].spent && tokens[at - 2].number().is_some();
    street || street_first || goes_on
}

/// "under 10", "the limit is 20", "when it gets to 30": what shall be, not what is.
fn is_limit(tokens: &[Token], at: usize) -> bool {
    let small = |token: &Token| token.has(Sense::Filler) && token.word().is_some();
    let places = if before(tokens, at, 1).is_some_and(small) { 2 } else { 1 };
    let bound = before(tokens, at, places).is_some_and(|token| token.has(Sense::Bound));
    // "180 up to 190" is a range, "180 over 12" a pair.
    let behind_number = is_number(before(tokens, at, places + 1));
    let pair = tokens.get(at + 1).is_some_and(|next| next.is_any_mark("/>"));
    bound && !behind_number && !pair
}

/// "back by 5", "here till 4", beside a pair
fn is_hour_ahead(tokens: &[Token], at: usize) -> bool {
    let hour = tokens[at]
        .number()
        .is_some_and(|number| number.is_short_whole() && (1.0..=22.0).contains(&number.value));
    // "Leaving at 4"
    let at_hour = before(tokens, at, 1).is_some_and(|token| token.has(Sense::At))
        && before(tokens, at, 2).is_some_and(Token::is_unknown);
    let until = at_hour || before(tokens, at, 1).is_some_and(|token| token.has(Sense::Until));
    let others = tokens.iter().filter(|token| token.number().is_some()).count();
    let pair = tokens.get(at + 1).is_some_and(|next| next.is_any_mark("/>"));
    hour && until && others > 2 && !pair
}

/// "07700 900123", "call 555 0123", "645 345 123": groups of digits that belong to one number; `phone` is the group
/// that was found last.
fn is_of_phone_number(tokens: &[Token], at: usize, phone: Option<usize>) -> bool {
    let group = |index: usize| {
        let number = tokens.get(index)?.number()?;
        (!number.in_words && number.decimals == 0).then_some(number.digits.as_str())
    };
    let Some(own) = group(at).filter(|own| own.len() >= 3) else {
        return false;
    };
    let pair = tokens.get(at + 1).is_some_and(|next| next.is_any_mark("/>"));
    let goes_on = phone.is_some_and(|last| at - last == 1 || at - last == 2 && tokens[at - 1].is_mark('-'));
    let calls = |places: usize| before(tokens, at, places).is_some_and(|token| token.has(Sense::Calls));
    let on = before(tokens, at, 1).is_some_and(|token| token.has(Sense::Filler));
    let leads = calls(1) || calls(2) && on || before(tokens, at, 1).is_some_and(|token| token.is_mark('+'));
    let hour = own.len() == 4 && own < "2400" && own[2..] < *"60";
    let trunk = own.starts_with('0') && own.len() > 3 && !hour;
    let three = |index: usize| group(index).is_some_and(|digits| digits.len() == 3);
    let in_threes = three(at) && three(at + 1) && three(at + 2) && !is_number(before(tokens, at, 1));
    !pair && (goes_on || leads || trunk || in_threes)
}

/// "Battery 12.8", "invoice 180/12", "serial 180 12": numbers of things that are no water.
fn is_of_other_thing(tokens: &[Token], at: usize) -> bool {
    let small = |token: &Token| token.has(Sense::Filler) || token.is_mark(':');
    let places = if before(tokens, at, 1).is_some_and(small) { 2 } else { 1 };
    let other = before(tokens, at, places).is_some_and(|token| token.has(Sense::OtherNumber));
    let joined = before(tokens, at, 1).is_some_and(|token| token.is_any_mark("/-"));
    let last = at.checked_sub(if joined { 2 } else { 1 });
    let goes_on = last.is_some_and(|last| tokens[last].number().is_some() && tokens[last].spent);
    other || joined && goes_on && last.is_some_and(|last| is_of_other_thing(tokens, last))
}

/// "Van 2, 25/11 at 08:05 feed 180, permeate 14": a day and a month, where the rig has its two values besides.
fn is_date_beside_values(tokens: &[Token], at: usize) -> bool {
    let own = |index: usize| {
        let number = tokens.get(index)?.number()?;
        (number.is_short_whole() && number.value <= 31.0).then_some(number.value)
    };
    let slash = |index: usize| tokens.get(index).is_some_and(|token| token.is_mark('/'));
    let first = if slash(at + 1) {
        Some(at)
    } else {
        at.checked_sub(2).filter(|_| slash(at - 1))
    };
    let Some((day, month)) = first.and_then(|first| own(first).zip(own(first + 2))) else {
        return false;
    };
    let end = first.unwrap_or(at) + 3;
    let timed = tokens
        .get(end)
        .is_some_and(|next| next.is_mark(':') || next.has(Sense::At));
    // Labelled values of the same rig follow.
    let rest = || {
        tokens[end..]
            .iter()
            .take(12)
            .take_while(|token| token.mention().is_none())
    };
    let labelled = rest().any(|token| token.has_any(&[Sense::Feed, Sense::FeedWeak, Sense::Permeate]));
    let values = rest().filter(|token| token.number().is_some() && !token.spent).count();
    (day <= 12.0 || month <= 12.0) && (labelled || timed) && values >= 2
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
