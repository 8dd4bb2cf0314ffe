//! What was done to a rig: done, not only intended, denied or asked.

use std::ops::Range;

use super::clauses::Clause;
use super::meaning::{Price, What};
use super::prices;
use super::senses::Sense;
use super::tokens::{Kind, Token};
use super::units::{self, Unit};

/// A service that a message tells of, before its rig is known.
#[derive(Clone, Debug, PartialEq)]
pub struct Deed {
    pub what: What,
    pub rigs: Rigs,
    pub minutes: Option<u16>,
    pub price: Option<Price>,
    /// Words that no table knows, in the same sentence.
    pub unknown: usize,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Rigs {
    Named(Vec<i64>),
    /// "All flushed", but not these.
    All(Vec<i64>),
    /// A name that fits several rigs, or none.
    Unclear(Vec<i64>, String),
    Nobody,
}

/// The services of all clauses that state something.
pub fn find(tokens: &[Token], clauses: &[Clause]) -> Vec<Deed> {
    let mut told: Vec<Deed> = Vec::new();
    let mut carried_rigs = Rigs::Nobody;
    let mut carried_parts: Vec<What> = Vec::new();
    for clause in clauses {
        if !clause.states() {
            continue;
        }
        for span in pieces(tokens, clause.span.clone()) {
            let part = &tokens[span];
            let rigs = rigs_of(part);
            if rigs != Rigs::Nobody {
                carried_rigs = rigs.clone();
            }
            let named = parts_of(part);
            let whats = done(part, &named, &carried_parts);
            if !named.is_empty() {
                carried_parts = named;
            }
            let rigs = if rigs == Rigs::Nobody {
                carried_rigs.clone()
            } else {
                rigs
            };
            let unknown = part.iter().filter(|token| token.is_unknown()).count();
            // One price of several parts cannot be told apart.
            let price = if whats.len() == 1 { prices::find(part) } else { None };
            for what in whats {
                let minutes = (what == What::Flush).then(|| minutes_of(part)).flatten();
                let one = Deed {
                    what,
                    rigs: rigs.clone(),
                    minutes,
                    price: price.clone(),
                    unknown,
                };
                if !told
                    .iter()
                    .any(|other| other.what == one.what && other.rigs == one.rigs)
                {
                    told.push(one);
                }
            }
        }
    }
    told
}

const PARTS: [Sense; 4] = [Sense::Membrane, Sense::Resin, Sense::Prefilter, Sense::ORing];

/// Parts of a clause that each tell of other rigs: "lynx flushed, badger not", "lynx flushed badger flushed".
fn pieces(tokens: &[Token], span: Range<usize>) -> Vec<Range<usize>> {
    let deed = |token: &Token| {
        token.has_any(&[
            Sense::Flushed,
            Sense::Done,
            Sense::Repacked,
            Sense::Fresh,
            Sense::Not,
            Sense::Intent,
            Sense::Flush,
        ]) && (!token.has(Sense::Filler) || token.has(Sense::Not))
    };
    // "ram new di in, bison new prefilters in"
    let fresh_part = |at: usize| {
        tokens[at].has(Sense::Fresh) && tokens.get(at + 1).is_some_and(|next| next.has_any(&PARTS)) && at + 1 < span.end
    };
    let mut pieces = Vec::new();
    let mut from = span.start;
    let mut has_rig = false;
    let mut has_deed = false;
    let mut deed_before_rig = false;
    for at in span.clone() {
        let token = &tokens[at];
        // "flushed lynx and the badger"
        let article = at > span.start + 1 && tokens[at - 1].has(Sense::Article);
        let last = (at - usize::from(article))
            .checked_sub(1)
            .filter(|&last| last >= span.start);
        let linked = last.is_some_and(|last| tokens[last].has(Sense::And) || tokens[last].is_any_mark(",&"));
        // The names go on: "flushed lynx, badger and van 3".
        let beside = last.is_some_and(|last| tokens[last].mention().is_some() || tokens[last].has(Sense::Minutes));
        let to_next = (at + 1..span.end)
            .find(|&next| tokens[next].mention().is_some() && tokens[next - 1].is_mark(','))
            .unwrap_or(span.end);
        let goes_on = deed_before_rig && (linked || beside) && !tokens[at..to_next].iter().any(deed);
        if token.mention().is_some() && has_rig && has_deed && !goes_on {
            // "lynx 180 12 & flushed badger": the deed behind the link is the other's.
            let own = at.checked_sub(2).filter(|&link| {
                let linked = tokens[link].has(Sense::And) || tokens[link].is_any_mark(",&+");
                link > from && deed(&tokens[at - 1]) && linked && tokens[link - 1].number().is_some()
            });
            pieces.push(from..own.unwrap_or(at));
            (from, has_rig, has_deed, deed_before_rig) = (own.unwrap_or(at), false, own.is_some(), own.is_some());
        }
        if token.mention().is_some() {
            deed_before_rig |= has_deed && !has_rig;
            has_rig = true;
        }
        has_deed |= deed(token) || fresh_part(at);
    }
    pieces.push(from..span.end);
    pieces
}

fn rigs_of(part: &[Token]) -> Rigs {
    let all = part.iter().any(|token| token.has(Sense::All));
    if all && let Some(but) = part.iter().position(|token| token.has(Sense::Except)) {
        let spared = part[but..].iter().filter_map(Token::mention);
        return Rigs::All(spared.flat_map(|mention| mention.rigs.iter().copied()).collect());
    }
    let mut named: Vec<i64> = Vec::new();
    for mention in part.iter().filter_map(Token::mention) {
        match mention.rigs.as_slice() {
            [rig] => named.push(*rig),
            rigs if mention.all_of_them => named.extend(rigs),
            rigs => return Rigs::Unclear(rigs.to_vec(), mention.typed.clone()),
        }
    }
    if !named.is_empty() {
        let mut seen = Vec::new();
        named.retain(|rig| {
            !seen.contains(rig) && {
                seen.push(*rig);
                true
            }
        });
        return Rigs::Named(named);
    }
    if all { Rigs::All(Vec::new()) } else { Rigs::Nobody }
}

fn parts_of(part: &[Token]) -> Vec<What> {
    let table = [
        (Sense::Membrane, What::Membrane),
        (Sense::Prefilter, What::Prefilter),
        (Sense::Resin, What::Resin),
        (Sense::ORing, What::ORing),
    ];
    let mut parts = Vec::new();
    for token in part {
        let found = table.iter().find(|(sense, _)| token.has(*sense)).map(|(_, what)| *what);
        parts.extend(found.filter(|what| !parts.contains(what)));
    }
    parts
}

fn done(part: &[Token], named: &[What], carried: &[What]) -> Vec<What> {
    let has = |sense: Sense| part.iter().any(|token| token.has(sense));
    let mut whats = Vec::new();
    let firmly_done = part
        .iter()
        .any(|token| token.has(Sense::Done) && !token.has_any(&[Sense::Filler, Sense::Intent]));
    // "new membrane" is a deed unless something is only wanted; "needs changing, changed it" is one too.
    // "Before" is no time ahead where it may be a label, and "fitted on saturday" was last Saturday.
    let past = (firmly_done || has(Sense::Flushed)) && !has(Sense::Intent);
    let later = part
        .iter()
        .any(|token| token.has(Sense::Later) && !token.has(Sense::FeedWeak) && !(past && token.has(Sense::Weekday)));
    // "Nearly flushed", "new membrane or more resin": not done, or not chosen yet.
    let nearly = part
        .windows(2)
        .any(|two| two[0].has(Sense::Nearly) && two[1].has_any(&[Sense::Flushed, Sense::Done, Sense::Repacked]));
    let chooses = !firmly_done
        && part
            .iter()
            .any(|token| token.has(Sense::Either) && !token.has(Sense::Now));
    if nearly || chooses && !has(Sense::Flushed) {
        return whats;
    }
    let wanted = has(Sense::Intent) && !firmly_done || later;
    // "Spots at no 12" denies nothing.
    let denies = |at: usize| {
        let numbers = part[at].has(Sense::NumberSign) && part.get(at + 1).is_some_and(|next| next.number().is_some());
        part[at].has(Sense::Not) && !numbers
    };
    if (0..part.len()).any(denies) || (later && !firmly_done) {
        return whats;
    }
    let flushed = part.iter().any(|token| token.has(Sense::Flushed));
    let flush_ticked = part
        .windows(2)
        .any(|two| two[0].has(Sense::Flush) && (two[1].kind == Kind::Yes || two[1].has(Sense::Finished)));
    // "flushing lynx now", "gave lynx a flush"
    let under_way = has(Sense::UnderWay) && has(Sense::Now);
    let gave = has(Sense::Flush) && (firmly_done || has(Sense::FlushDeed)) && named.is_empty();
    let unplanned = !has(Sense::Intent) && part.iter().all(|token| !token.is_unknown());
    let flushed = flushed || (under_way || gave) && unplanned;
    if (flushed || flush_ticked) && !wanted_flush(part) {
        whats.push(What::Flush);
    }
    if wanted {
        return whats;
    }
    let repacked = has(Sense::Repacked);
    let alone = has(Sense::RepackedAlone) && part.iter().all(|token| !token.is_unknown());
    if repacked && (named.contains(&What::Resin) || named.is_empty() && (!carried.is_empty() || alone)) {
        whats.push(What::Repack);
    }
    // "The new resin is good" tells of no change.
    let judged = part.iter().any(|token| token.has(Sense::Judges));
    let fresh = has(Sense::Fresh) && !judged;
    let ticked = part.iter().any(|token| token.kind == Kind::Yes);
    let deed = firmly_done || fresh || is_fitted(part) || (has(Sense::Finished) && !has(Sense::Flush)) || ticked;
    if !deed {
        return whats;
    }
    let others = named
        .iter()
        .filter(|what| (!repacked || **what != What::Resin) && !is_label_only(part, **what));
    whats.extend(others);
    // "lynx resin had had it, replaced it"
    if named.is_empty() && firmly_done && !flushed && !repacked && part.iter().all(|token| token.number().is_none()) {
        let it = part.iter().any(|token| token.has(Sense::Pronoun));
        if it {
            whats.extend(carried.iter().copied());
        }
    }
    whats
}

/// "Old grey membrane in": nothing but the part's place follows.
fn is_fitted(part: &[Token]) -> bool {
    let words = part
        .iter()
        .rposition(|token| token.word().is_some())
        .unwrap_or_default();
    let numbers = part.iter().any(|token| token.number().is_some());
    let known = part.iter().all(|token| !token.is_unknown());
    words > 0 && part[words].has(Sense::Fitted) && part[words - 1].has_any(&PARTS) && !numbers && known
}

/// "should be flushed", "needs to be flushed"
fn wanted_flush(part: &[Token]) -> bool {
    let want = part
        .iter()
        .position(|token| token.has(Sense::Intent) && !token.has_any(&[Sense::Filler, Sense::Done]));
    let flush = part.iter().position(|token| token.has(Sense::Flushed));
    matches!((want, flush), (Some(want), Some(flush)) if want < flush)
}

/// "di 0", "membrane out 12": the word is the label of a number, and no deed stands beside it.
fn is_label_only(part: &[Token], what: What) -> bool {
    let sense = match what {
        What::Membrane => Sense::Membrane,
        What::Resin => Sense::Resin,
        _ => return false,
    };
    part.iter()
        .enumerate()
        .filter(|(_, token)| token.has(sense))
        .all(|(at, token)| {
            let labels = token.has_any(&[Sense::Product, Sense::PermeateWeak, Sense::Permeate]);
            let deed = |index: Option<usize>| {
                index.and_then(|index| part.get(index)).is_some_and(|token| {
                    token.has_any(&[Sense::Done, Sense::Fresh, Sense::Finished, Sense::And]) || token.kind == Kind::Yes
                })
            };
            let number = part.get(at + 1).is_some_and(|token| token.number().is_some())
                || part
                    .get(at + 2)
                    .is_some_and(|token| token.number().is_some() && part[at + 1].has(Sense::Filler));
            labels && number && !deed(at.checked_sub(1))
                || labels && !deed(Some(at + 1)) && !deed(at.checked_sub(1)) && number
        })
}

/// How long a flush took.
pub(super) fn minutes_of(part: &[Token]) -> Option<u16> {
    (0..part.len()).find_map(|at| {
        let number = part[at].number().filter(|_| !part[at].has(Sense::OfTime))?;
        let filler = usize::from(at > 1 && part[at - 1].has(Sense::Filler));
        let flush = at.checked_sub(1 + filler).map(|before| &part[before]);
        let behind_flush =
            flush.is_some_and(|token| token.has_any(&[Sense::Flushed, Sense::Flush])) && number.value <= 60.0;
        let minutes =
            (units::behind(part, at) == Some(Unit::Minutes) || behind_flush) && (1.0..=600.0).contains(&number.value);
        minutes.then_some(number.value.round() as u16)
    })
}
