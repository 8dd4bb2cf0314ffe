//! How numbers stand together: a pair, a list, or apart.

use super::groups::Group;
use super::labels::Measured;
use super::languages::TABLES;
use super::senses::Sense;
use super::tokens::{Kind, Token};

/// How two bare numbers stand together.
#[derive(Clone, Copy, PartialEq, PartialOrd)]
pub(super) enum Link {
    Apart,
    /// A space, a comma, "and".
    Loose,
    /// A slash, an arrow, "over".
    Tight,
}

/// How closely the bare numbers stand together.
pub(super) fn link_of(tokens: &[Token], group: &Group, bare: &[Measured]) -> Link {
    let mut link = Link::Tight;
    for pair in bare.windows(2) {
        let between = group
            .indices
            .iter()
            .filter(|&&at| at > pair[0].at && at < pair[1].at)
            .map(|&at| &tokens[at]);
        let mut tight = false;
        let mut apart = false;
        let mut words = 0;
        let mended = tokens[pair[0].at..pair[1].at]
            .iter()
            .any(|token| token.has(Sense::Oops));
        for token in between {
            tight |= token.is_any_mark("/>|+") || token.has(Sense::Over) || (token.is_mark('-') && token.glued);
            let light = token.is_any_mark("/>|+-,.;~=:()&")
                || token.has_any(&[
                    Sense::And,
                    Sense::Over,
                    Sense::Ppm,
                    Sense::To,
                    Sense::MicroSiemens,
                    Sense::MilliSiemens,
                ]);
            let light =
                light || matches!(token.kind, Kind::Break | Kind::Yes) || token.has_any(&[Sense::Filler, Sense::Oops]);
            let light = light || (mended && token.number().is_some());
            words += usize::from(token.word().is_some());
            apart |= !light || token.is_unknown() || token.spent;
        }
        let this = match (apart || words > 2, tight) {
            (true, _) => Link::Apart,
            (false, true) => Link::Tight,
            (false, false) => Link::Loose,
        };
        link = if this < link { this } else { link };
    }
    if bare.len() < 2 { Link::Apart } else { link }
}

/// "200/15 mileage 84210", "site 4 heron 200/15": behind a strange word a number beside a pair is another thing's.
pub(super) fn keep_pair(tokens: &[Token], bare: &mut Vec<Measured>) {
    let slashed = |two: &[Measured]| two[1].at - two[0].at == 2 && tokens[two[0].at + 1].is_any_mark("/>|");
    let Some(first) = bare.windows(2).position(slashed) else {
        return;
    };
    let pair = [bare[first].at, bare[first + 1].at];
    let strange = |one: &Measured| one.at.checked_sub(1).is_some_and(|before| tokens[before].is_unknown());
    if bare.windows(2).filter(|two| slashed(two)).count() == 1 {
        bare.retain(|one| pair.contains(&one.at) || !strange(one));
    }
}

/// "15 from 200": the permeate, then the feed.
pub(super) fn is_from(tokens: &[Token], first: Measured, second: Measured) -> bool {
    let from = &tokens[first.at + 1..second.at];
    first.value < second.value && matches!(from, [only] if only.has(Sense::From))
}

/// Whether nothing strange, and little else, stands between two numbers.
pub(super) fn follows(tokens: &[Token], first: usize, second: usize) -> bool {
    if second <= first {
        return touches(tokens, second, first);
    }
    let between = &tokens[first + 1..second];
    let words = between
        .iter()
        .filter(|token| token.word().is_some() && !token.has_any(&LABELS))
        .count();
    let strange: Vec<&str> = between
        .iter()
        .filter(|token| token.is_unknown())
        .filter_map(Token::word)
        .collect();
    let misheard = match strange[..] {
        [] => true,
        // Dictation writes "firm" for "perm".
        [word] => words == 1 && TABLES.misheard().any(|known| strsim::osa_distance(word, known) <= 2),
        _ => false,
    };
    words <= 3 && misheard && between.iter().all(|token| !token.has_any(&[Sense::Intent, Sense::Not]))
}

/// Whether two numbers are parted by marks and "and" only.
pub(super) fn touches(tokens: &[Token], first: usize, second: usize) -> bool {
    let light = |token: &Token| {
        token.is_any_mark(",/>-|") || token.has_any(&[Sense::And, Sense::Ppm, Sense::Permeate, Sense::From])
    };
    first < second && tokens[first + 1..second].iter().all(light)
}

const LABELS: [Sense; 6] = [
    Sense::Feed,
    Sense::FeedWeak,
    Sense::Permeate,
    Sense::PermeateWeak,
    Sense::Product,
    Sense::ProductWeak,
];
