//! Words around values by which nobody has just read them from a meter here: taught, quoted, wished, foretold, told by
//! somebody else.

use super::senses::Sense;
use super::tokens::{Kind, Token};

/// So many small words may stand between such a word and the value that it is said of.
const REACH: usize = 8;

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

fn is_value(token: &Token) -> bool {
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
        let mirrored = last.filter(|(_, feed, permeate)| *feed == b.value && *permeate == a.value && a.value != b.value);
        if let Some((first, _, _)) = mirrored {
            return Some((first, at));
        }
        last = Some((at, a.value, b.value));
    }
    None
}

/// Whether a sentence speaks of values that are wished, foretold, wanted or given as an example.
pub(super) fn supposes(part: &[Token]) -> bool {
    part.iter().any(|token| token.has(Sense::Hypothetical)) || (0..part.len()).any(|at| supposes_value(part, at))
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
        named |= token.mention().is_some();
        if !is_light(token) {
            return false;
        }
    }
    false
}

fn is_light(token: &Token) -> bool {
    let small = token.has_any(&[Sense::Filler, Sense::At, Sense::To, Sense::Was, Sense::Article, Sense::And])
        && !token.has_any(&[Sense::Not, Sense::Done, Sense::Flushed]);
    token.mention().is_some() || small || token.is_any_mark("\":")
}

/// "Tom says heron is 180/12", "you wrote heron 180/12": somebody says it who is neither the sender, a rig nor a meter.
pub(super) fn is_reported(tokens: &[Token], first: usize) -> bool {
    for at in (first.saturating_sub(REACH)..first).rev() {
        let token = &tokens[at];
        if token.number().is_some() || token.is_any_mark(".;!") || token.kind == Kind::Break {
            return false;
        }
        if token.has(Sense::Says) {
            let light = |token: &&Token| token.has(Sense::Filler) && !token.has(Sense::Speaker);
            let subject = tokens[..at].iter().rev().take(3).find(|token| !light(token));
            return subject.is_some_and(|token| token.is_unknown() || token.has_any(&[Sense::Speaker, Sense::Foreign]));
        }
    }
    false
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
    let contrasts = tokens[at].has(Sense::Contrast) && before.values > 0;
    let supposes = tokens[at].has_any(&[Sense::Hypothetical, Sense::Supposed]) && before.values > 1 && !before.supposed;
    at > from && (contrasts || supposes) && ahead()
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
