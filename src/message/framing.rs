//! Words around values by which nobody has just read them from a meter here: taught, quoted, wished, foretold, told by
//! somebody else.

use super::hearsay::is_reported;
use super::senses::Sense;
use super::tokens::{Kind, Token};

/// So many small words may stand between such a word and the value that it is said of.
pub(super) const REACH: usize = 8;

/// Spends the numbers of sample messages: `like "Heron 180/12"`, "write 180/12, not 12/180".
pub(super) fn take_samples(tokens: &mut [Token]) {
    for (from, to) in quotations(tokens) {
        let inside = &tokens[from..to];
        let values = inside.iter().filter(|token| is_value(token)).count();
        // Somebody may put the whole message, or a name, between quotation marks.
        let said_about = tokens[..from]
            .iter()
            .chain(&tokens[to..])
            .any(|token| token.word().is_some());
        if values >= 2 && said_about {
            tokens[from..to].iter_mut().for_each(spend);
        }
    }
    if let Some((first, second)) = mirrored_pairs(tokens) {
        for at in [first, first + 2, second, second + 2] {
            tokens[at].spent = true;
        }
    }
}

fn spend(token: &mut Token) {
    token.spent |= token.number().is_some();
}

pub(super) fn is_value(token: &Token) -> bool {
    token.number().is_some() && !token.spent
}

/// What stands between two quotation marks of one line; a mark behind a number is an inch.
fn quotations(tokens: &[Token]) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut open = None;
    for (at, token) in tokens.iter().enumerate() {
        if token.kind == Kind::Break {
            open = None;
        }
        if !token.is_mark('"') {
            continue;
        }
        let inch = token.glued && at > 0 && tokens[at - 1].number().is_some();
        match open.take() {
            Some(from) => found.push((from, at)),
            None if inch => {}
            None => open = Some(at + 1),
        }
    }
    found
}

/// "180/12 not 12/180": the same two numbers both ways round show how to write them.
fn mirrored_pairs(tokens: &[Token]) -> Option<(usize, usize)> {
    let mut last: Option<(usize, f64, f64)> = None;
    for (at, three) in tokens.windows(3).enumerate() {
        let (Some(a), Some(b)) = (three[0].number(), three[2].number()) else {
            continue;
        };
        if !three[1].is_mark('/') || three[0].spent {
            continue;
        }
        let mirrored =
            last.filter(|(_, feed, permeate)| *feed == b.value && *permeate == a.value && a.value != b.value);
        if let Some((first, _, _)) = mirrored {
            return Some((first, at));
        }
        last = Some((at, a.value, b.value));
    }
    None
}

/// Whether a sentence speaks of values that are wished, foretold, wanted or given as an example.
pub(super) fn supposes(part: &[Token]) -> bool {
    part.iter().any(|token| token.has(Sense::Hypothetical))
        || (0..part.len()).any(|at| supposes_value(part, at) || is_year(part, at))
        || is_told_without_rig(part)
}

/// "In 2023 heron was 180/12"
fn is_year(part: &[Token], at: usize) -> bool {
    let year = part[at].number().is_some_and(|number| {
        number.digits.len() == 4 && number.decimals == 0 && (1990.0..=2050.0).contains(&number.value)
    });
    let behind_in = at > 0 && part[at - 1].has_any(&[Sense::FeedWeak, Sense::Filler, Sense::From]);
    year && behind_in && part.iter().filter(|token| is_value(token)).count() >= 2 + usize::from(!part[at].spent)
}

/// "The sheet says 180/9": somebody's words, and no rig.
fn is_told_without_rig(part: &[Token]) -> bool {
    let first = part.iter().position(is_value);
    let named = part.iter().any(|token| token.mention().is_some());
    !named && first.is_some_and(|first| is_reported(part, first))
}

/// "Must be 180/9", "we want heron at 180/9", "like heron 180/12": small words and a name, then the first value.
fn supposes_value(part: &[Token], at: usize) -> bool {
    if !is_value(&part[at]) {
        return false;
    }
    let mut named = false;
    for index in (at.saturating_sub(REACH)..at).rev() {
        let token = &part[index];
        if token.has(Sense::Supposed) {
            return true;
        }
        // "The tap is like 180": about so much.
        if token.has(Sense::AsIn) {
            let begins = part[..index].iter().all(|token| token.word().is_none());
            return named || begins;
        }
        // "Call me when heron is 180/30"
        if token.has(Sense::When) && named {
            return true;
        }
        named |= token.mention().is_some();
        if !is_light(token) {
            return false;
        }
    }
    false
}

pub(super) fn is_light(token: &Token) -> bool {
    let small = token.has_any(&[
        Sense::Filler,
        Sense::At,
        Sense::To,
        Sense::Was,
        Sense::Article,
        Sense::And,
    ]) && !token.has_any(&[Sense::Not, Sense::Done, Sense::Flushed]);
    token.mention().is_some() || small || token.is_any_mark("\":")
}

/// The place of a word from which a sentence speaks of other values than the pair before it: "heron 180/12, target
/// 180/9", "the sheet says 180/9 but heron is 182/15".
pub(super) fn turns(tokens: &[Token], from: usize, at: usize, before: &Before) -> bool {
    let ahead = || {
        tokens[at + 1..]
            .iter()
            .take(REACH)
            .take_while(|token| !token.is_any_mark(".;!?") && token.kind != Kind::Break)
            .any(is_value)
    };
    let now = tokens[at].has(Sense::Now) && before.supposed;
    let contrasts = (tokens[at].has(Sense::Contrast) || now) && before.values > 0;
    let supposes = tokens[at].has_any(&[Sense::Hypothetical, Sense::Supposed]) && before.values > 1 && !before.supposed;
    at > from && ((contrasts || supposes) && ahead() || remembers_second(tokens, at, before))
}

/// "Heron 180/12 was 180/9 last month": behind the first pair another follows, which is of long ago.
fn remembers_second(tokens: &[Token], at: usize, before: &Before) -> bool {
    if before.values != 2 || before.supposed || !is_value(&tokens[at - 1]) {
        return false;
    }
    let rest = tokens[at..]
        .iter()
        .take(REACH)
        .take_while(|token| !token.is_any_mark(".;!?") && token.kind != Kind::Break && token.mention().is_none());
    let (mut values, mut supposed) = (0, false);
    for token in rest {
        values += usize::from(is_value(token));
        supposed |= token.has(Sense::Hypothetical);
    }
    values >= 2 && supposed
}

/// What a sentence has said so far.
#[derive(Default)]
pub(super) struct Before {
    values: usize,
    supposed: bool,
}

impl Before {
    pub(super) fn add(&mut self, token: &Token) {
        self.values += usize::from(is_value(token));
        self.supposed |= token.has_any(&[Sense::Hypothetical, Sense::Supposed]);
    }
}
