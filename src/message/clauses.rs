//! Parts a message into clauses and tells which of them ask or only suppose.

use std::ops::Range;

use super::framing::{self, Before};
use super::senses::Sense;
use super::tokens::{Kind, Token};

#[derive(Clone, Debug)]
pub struct Clause {
    pub span: Range<usize>,
    /// It asks something, by its words or its question mark.
    pub asks: bool,
    /// It has a question mark and no word that asks.
    pub only_marked: bool,
    /// "If it was 180 in ...", "e.g. ...": nothing in it was measured.
    pub supposes: bool,
}

impl Clause {
    /// Whether what it says of the water holds.
    pub fn states(&self) -> bool {
        !self.asks && !self.supposes
    }
}

pub fn split(tokens: &[Token]) -> Vec<Clause> {
    let mut clauses = Vec::new();
    let mut from = 0;
    let mut goes_on = false;
    let mut before = Before::default();
    for at in 0..tokens.len() {
        let ends = ends_clause(tokens, at);
        let turns = !ends && framing::turns(tokens, from, at, &before);
        if ends || turns || starts_question(tokens, from, at) {
            let to = if ends { at + 1 } else { at };
            clauses.extend(clause(tokens, from..to, goes_on));
            (from, goes_on, before) = (to, turns, Before::default());
        }
        before.add(&tokens[at]);
    }
    clauses.extend(clause(tokens, from..tokens.len(), goes_on));
    clauses
}

/// A number that is missing on purpose: "255/?", "??/17".
pub fn is_left_out(tokens: &[Token], at: usize) -> bool {
    let is = |at: usize, mark: char| tokens.get(at).is_some_and(|token| token.is_mark(mark));
    if !is(at, '?') {
        return false;
    }
    let behind = (at + 1..tokens.len())
        .find(|&next| !is(next, '?'))
        .is_some_and(|next| is(next, '/'));
    let before = (0..at)
        .rev()
        .find(|&last| !is(last, '?'))
        .is_some_and(|last| is(last, '/'));
    behind || before
}

fn ends_clause(tokens: &[Token], at: usize) -> bool {
    let next_glued = tokens.get(at + 1).is_some_and(|next| next.glued);
    let next_same = tokens.get(at + 1).is_some_and(|next| next.kind == tokens[at].kind);
    match &tokens[at].kind {
        Kind::Break => true,
        // "188;14"
        Kind::Mark(';') => !(tokens[at].glued && next_glued && at > 0 && tokens[at - 1].number().is_some()),
        Kind::Mark('!') => true,
        Kind::Mark('?') => !next_same && !is_left_out(tokens, at),
        Kind::Mark('.') => !next_glued,
        Kind::Word(_) => tokens[at].has(Sense::QuestionMark),
        _ => false,
    }
}

/// "lynx 180/12 and is badger due", "180/12 how is that"
fn starts_question(tokens: &[Token], from: usize, at: usize) -> bool {
    // "Heron was 180/12 when dave had it" asks nothing, "when is it due" does.
    let asks_when = [Sense::AsksFirst, Sense::Past, Sense::Due];
    let next = tokens.get(at + 1);
    if tokens[at].has(Sense::When) && !tokens[at].has(Sense::How) && next.is_some_and(|next| !next.has_any(&asks_when))
    {
        return false;
    }
    if at == from || !tokens[at].has_any(&[Sense::Asks, Sense::AsksFirst]) || tokens[at].has(Sense::Hypothetical) {
        return false;
    }
    let said = tokens[from..at].iter().filter(|token| token.number().is_some()).count();
    let before = &tokens[at - 1];
    let link = (before.has(Sense::And) || before.is_mark(',')) && at - 1 > from;
    let asks = tokens[at].has_any(&[Sense::Asks, Sense::Advice]);
    // Without a name the numbers belong to the question: "at 180 in and 12 out, what rejection is that".
    let named = tokens[from..at].iter().any(|token| token.mention().is_some());
    named && said >= 2 && (link || (asks && before.number().is_some()))
}

/// A clause that goes on within its sentence does not ask by its first word: "180/12 | was 180/9 last month".
fn clause(tokens: &[Token], span: Range<usize>, goes_on: bool) -> Option<Clause> {
    let part = &tokens[span.clone()];
    if part
        .iter()
        .all(|token| matches!(token.kind, Kind::Break | Kind::Mark('.' | ';' | '!')))
    {
        return None;
    }
    let ends_with_mark = part.last().is_some_and(|token| {
        (token.is_mark('?') && !is_left_out(tokens, span.end - 1)) || token.has(Sense::QuestionMark)
    });
    let supposes = framing::supposes(part);
    let by_words = !goes_on && asks_by_words(part) || (supposes && part.iter().any(|token| token.has(Sense::Advice)));
    Some(Clause {
        span,
        asks: ends_with_mark || by_words,
        only_marked: ends_with_mark && !by_words,
        supposes,
    })
}

fn asks_by_words(part: &[Token]) -> bool {
    let mut words = part.iter().skip_while(|token| {
        let greets = token.has(Sense::Greeting) && !token.has(Sense::AsksFirst);
        token.word().is_none() && token.mention().is_none() && token.number().is_none() || greets
    });
    // "Shopping list", "worst rig", "who's missing" ask without a mark.
    let asks_alone = |token: &Token| {
        token.has_any(&[Sense::Quiet, Sense::Shopping, Sense::FleetWide])
            || (token.has(Sense::How) && token.has(Sense::We))
    };
    // "205/16 what percent is that"
    let first_is_value = part.first().is_some_and(|token| token.number().is_some());
    let named = part.iter().any(|token| token.mention().is_some());
    let asks_behind = part
        .windows(2)
        .any(|two| two[0].number().is_some() && two[1].has(Sense::Asks));
    if first_is_value && !named && asks_behind {
        return true;
    }
    if part.iter().any(asks_alone) && part.iter().all(|token| !token.is_unknown()) {
        return true;
    }
    let Some(first) = words.next() else { return false };
    if first.has_any(&[Sense::AsksFirst, Sense::Asks]) {
        return true;
    }
    // "badger how is it", "is" behind a name states something
    let named = first.mention().is_some() || first.has_any(&[Sense::Vehicle, Sense::Membrane, Sense::Resin]);
    // "lynx last 10 readings"
    let last_ones = part
        .windows(3)
        .any(|three| three[0].has(Sense::LastOnes) && three[1].number().is_some() && three[2].has(Sense::Current));
    if last_ones && part.iter().all(|token| !token.is_unknown()) {
        return true;
    }
    // "Rejection on lynx over the last 3 months"
    let topic = first.has_any(&[Sense::Rejection, Sense::Trend, Sense::History]) && !first.has(Sense::Filler);
    let rig = part.iter().any(|token| token.mention().is_some());
    let values = part.iter().any(|token| token.number().is_some() && !token.spent);
    let deed = part
        .iter()
        .any(|token| token.has_any(&[Sense::Flushed, Sense::Done, Sense::Repacked]));
    if topic && rig && !deed && !values && part.iter().all(|token| !token.is_unknown() && !token.is_mark('%')) {
        return true;
    }
    named
        && words
            .find(|token| token.word().is_some())
            .is_some_and(|second| second.has(Sense::Asks))
}
