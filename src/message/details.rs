//! Questions of why, who, what it costs, what a word means, which is better; and what a question says besides.

use super::languages::TABLES;
use super::meaning::What;
use super::prices;
use super::query::{Detail, Topic};
use super::questions::{has_number, words_of};
use super::senses::Sense;
use super::spans;
use super::term::Term;
use super::tokens::Token;
use super::topics::Asked;

/// The topic of such a question; `None` leaves it to the others.
pub(super) fn topic(asked: &Asked) -> Option<Topic> {
    let part = asked.part;
    let has = |sense: Sense| part.iter().any(|token| token.has(sense));
    let any = |senses: &[Sense]| part.iter().any(|token| token.has_any(senses));
    let unknown = part.iter().filter(|token| token.is_unknown()).count();
    let named = !asked.rigs.is_empty();
    let known_rig = named || asked.of_own;
    let of_part = any(&[Sense::Membrane, Sense::Resin, Sense::Prefilter]);
    if has(Sense::WhatIf) && (of_part || any(&[Sense::Cost, Sense::Waits])) && unknown <= 1 {
        return Some(Topic::WhatIf);
    }
    let money = named || of_part || any(&[Sense::We, Sense::WholeFleet, Sense::All, Sense::Vehicle]);
    if has(Sense::Cost)
        && money
        && unknown <= usize::from(named)
        && !has(Sense::Not)
        && part
            .iter()
            .all(|token| !token.has(Sense::Intent) || token.has(Sense::Cost))
    {
        return Some(Topic::Cost);
    }
    let explained = part.iter().filter(|token| token.has(Sense::State)).count() == 1;
    if explained && !named && unknown == 0 && words_of(part) <= 8 && !has_number(part) && means(part) {
        return Some(Topic::Explain);
    }
    if has(Sense::Why) && named && unknown <= 1 && !has_number(part) {
        let flush = any(&[Sense::Flush, Sense::Flushed]);
        return (!flush).then_some(Topic::Why);
    }
    if has(Sense::Picture) && known_rig && unknown == 0 && !has_number(part) && words_of(part) <= 7 {
        return Some(Topic::Picture);
    }
    let several = asked.rigs.len() > 1 || (!named && any(&[Sense::WholeFleet, Sense::Vehicle, Sense::All]));
    if has(Sense::Compares) && several && unknown == 0 && !has_number(part) {
        return Some(Topic::Compare);
    }
    let did = any(&[Sense::Logged, Sense::Done, Sense::Flushed, Sense::Repacked]);
    if has(Sense::WhoDid) && did && (named || of_part || has(Sense::Flushed)) && !has(Sense::Not) && unknown <= 1 {
        return Some(Topic::WhoLogged);
    }
    let worst = has(Sense::Worst) && any(&[Sense::Which, Sense::WholeFleet, Sense::Vehicle]);
    let whole = any(&[Sense::What, Sense::How]) && has(Sense::WholeFleet) && words_of(part) <= 8;
    let elsewhere = any(&[
        Sense::Buy,
        Sense::Shopping,
        Sense::Quiet,
        Sense::Flush,
        Sense::Flushed,
        Sense::Log,
        Sense::Advice,
    ]);
    ((worst || whole) && !named && unknown == 0 && !elsewhere && !of_part && !has_number(part)).then_some(Topic::Fleet)
}

/// "What does due mean", "meaning of due", "whats permeate": nothing beside the word but small words.
fn means(part: &[Token]) -> bool {
    let asks = part.iter().any(|token| token.has(Sense::Means));
    let small = |token: &Token| {
        token.word().is_none()
            || token.has_any(&[
                Sense::Means,
                Sense::State,
                Sense::Greeting,
                Sense::What,
                Sense::General,
                Sense::Article,
                Sense::One,
            ])
            || asks && token.has(Sense::Filler)
    };
    // "Whats the tap" asks for the last reading.
    let article = part
        .windows(2)
        .any(|two| two[0].has(Sense::Article) && two[1].has(Sense::State));
    let what = part.iter().any(|token| token.has(Sense::What)) && words_of(part) <= 4 && !article;
    (asks || what) && part.iter().all(small)
}

/// What the question says besides its topic.
pub(super) fn find(part: &[Token], topic: Topic) -> Detail {
    let parts = [
        (Sense::Membrane, What::Membrane),
        (Sense::Resin, What::Resin),
        (Sense::Prefilter, What::Prefilter),
        (Sense::ORing, What::ORing),
        (Sense::Flushed, What::Flush),
        (Sense::Flush, What::Flush),
    ];
    let about_part = matches!(
        topic,
        Topic::Cost | Topic::WhatIf | Topic::WhoLogged | Topic::Why | Topic::History
    );
    let named = |(sense, what): (Sense, What)| part.iter().any(|token| token.has(sense)).then_some(what);
    let value = |sense: Sense| part.iter().find_map(|token| TABLES.value(sense, token.word()?));
    let explains = matches!(topic, Topic::Explain | Topic::Why);
    Detail {
        part: parts.into_iter().filter(|_| about_part).find_map(named),
        amount: (topic == Topic::WhatIf && prices::percent_at(part).is_none())
            .then(|| amount(part))
            .flatten(),
        percent: (topic == Topic::WhatIf).then(|| prices::change(part)).flatten(),
        span: spans::find(part),
        term: value(Sense::State).filter(|_| explains).and_then(Term::of_key),
    }
}

/// The supposed price: with its currency, else the only number.
fn amount(part: &[Token]) -> Option<f64> {
    if let Some(price) = prices::find(part) {
        return Some(price.amount);
    }
    let mut numbers = part.iter().filter_map(Token::number).map(|number| number.value);
    let first = numbers.next()?;
    numbers.next().is_none().then_some(first)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_of_the_tables_is_known() {
        for value in TABLES.values_of(Sense::State) {
            assert!(Term::of_key(value).is_some(), "{value}");
        }
    }
}
