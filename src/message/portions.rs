//! Parts a sentence among the rigs of which it tells: "flushed lynx, changed resin badger", "lynx 180 12 badger flushed".

use std::ops::Range;

use super::senses::Sense;
use super::services::PARTS;
use super::tokens::Token;

/// Parts of a clause that each tell of other rigs. A deed belongs to the rig before it, unless a link or the way of the
/// sentence ties it to the rig behind.
pub(super) fn split(tokens: &[Token], span: Range<usize>) -> Vec<Range<usize>> {
    let mut portions = Vec::new();
    let mut from = span.start;
    let mut last: Option<usize> = None;
    // Whether the portion tells its deed before its first rig.
    let mut leads = false;
    for at in span.clone().filter(|&at| tokens[at].mention().is_some()) {
        let Some(before) = last.replace(at) else {
            leads = tells(&tokens[from..at]);
            continue;
        };
        if let Some(own) = own_lead(tokens, from, before, at, leads) {
            portions.push(from..own);
            (from, leads) = (own, true);
            continue;
        }
        let said = tells(&tokens[from..at]) || has_value(tokens, from..at);
        if said && !(leads && goes_on(tokens, from, at, span.end)) {
            portions.push(from..at);
            (from, leads) = (at, false);
        }
    }
    portions.push(from..span.end);
    portions
}

/// Where the words begin that lead to the rig at `at`, if words between it and the rig before are its own.
fn own_lead(tokens: &[Token], from: usize, before: usize, at: usize, leads: bool) -> Option<usize> {
    let link = (before + 1..at).rev().find(|&at| is_link(&tokens[at]));
    let Some(link) = link else {
        let whole = tokens[before + 1..at].iter().any(is_verb) && !has_value(tokens, before + 1..at);
        return (leads && whole)
            .then(|| (before + 1..at).find(|&at| is_deed(&tokens[at])))
            .flatten();
    };
    let lead = link + 1..at;
    let told = tells(&tokens[from..link]) || has_value(tokens, from..link);
    let own = tokens[lead.clone()].iter().any(is_deed) && !has_value(tokens, lead);
    (told && own).then_some(link)
}

/// "Flushed lynx, badger and van 3": the names go on, and nothing of its own follows this one.
fn goes_on(tokens: &[Token], from: usize, at: usize, end: usize) -> bool {
    // "flushed lynx and the badger"
    let article = at > from + 1 && tokens[at - 1].has(Sense::Article);
    let last = (at - usize::from(article)).checked_sub(1).filter(|&last| last >= from);
    let linked = last.is_some_and(|last| is_link(&tokens[last]));
    let beside = last.is_some_and(|last| tokens[last].mention().is_some() || tokens[last].has(Sense::Minutes));
    // What leads to the next rig is that one's.
    let next = (at + 1..end).find(|&next| tokens[next].mention().is_some());
    let lead = next.and_then(|next| own_lead(tokens, from, at, next, true));
    let listed = (at + 1..end).find(|&next| tokens[next].mention().is_some() && tokens[next - 1].is_mark(','));
    let to_next = lead.or(listed).unwrap_or(end);
    let parted = tokens[from..at].iter().any(|token| token.has_any(&PARTS));
    let own = |token: &Token| tells(std::slice::from_ref(token)) || parted && token.has_any(&PARTS);
    (linked || beside) && !tokens[at..to_next].iter().any(own) && !follows_value(tokens, at, end)
}

/// Whether values stand behind a name, before the next one.
pub(super) fn follows_value(tokens: &[Token], name: usize, end: usize) -> bool {
    let next = (name + 1..end)
        .find(|&next| tokens[next].mention().is_some())
        .unwrap_or(end);
    has_value(tokens, name + 1..next)
}

pub(super) fn has_value(tokens: &[Token], mut span: Range<usize>) -> bool {
    span.any(|at| {
        let number = tokens[at].number().is_some_and(|number| !number.shy);
        let minutes = tokens.get(at + 1).is_some_and(|next| next.has(Sense::Minutes));
        number && !tokens[at].spent && !minutes
    })
}

/// "Badger too": the same of another rig, and nothing else.
pub(super) fn is_too(part: &[Token]) -> bool {
    let small = |token: &Token| is_link(token) || token.has(Sense::Article) || token.is_any_mark(".!");
    let too = part.iter().any(|token| token.has(Sense::Too));
    let all = |token: &Token| token.mention().is_some() || token.has(Sense::Too) || small(token);
    too && part.iter().all(all) && part.iter().any(|token| token.mention().is_some())
}

/// "The filters on badger", "badger filters": a part and its rig, and nothing that says more.
pub(super) fn is_part_of_rig(part: &[Token]) -> bool {
    let mut words = part
        .iter()
        .filter(|token| !is_link(token) && !token.has(Sense::Article) && !token.is_any_mark(".!"))
        .collect::<Vec<_>>();
    // "on", "in", "de", "en"
    words.retain(|token| !(token.has(Sense::Filler) && token.word().is_some_and(|word| word.len() <= 3)));
    match words[..] {
        [part, rig] | [rig, part] if rig.mention().is_some() => part.has_any(&PARTS),
        _ => false,
    }
}

fn is_link(token: &Token) -> bool {
    token.has(Sense::And) || token.is_any_mark(",&+")
}

/// Whether something is said of a rig there, be it that nothing was done.
pub(super) fn tells(words: &[Token]) -> bool {
    let says = |token: &Token| {
        token.has_any(&[
            Sense::Flushed,
            Sense::Done,
            Sense::Repacked,
            Sense::Fresh,
            Sense::Not,
            Sense::Intent,
            Sense::Obtained,
            Sense::Flush,
        ]) && (!token.has(Sense::Filler) || token.has_any(&[Sense::Not, Sense::Fresh]) && !token.has(Sense::Intent))
            || token.has_any(&[Sense::NotUsed, Sense::Pending])
            || token.has(Sense::Later) && !token.has_any(&[Sense::Weekday, Sense::FeedWeak])
    };
    words.iter().any(says)
}

/// A word of a deed, done or not, or of the part that it was done to.
fn is_deed(token: &Token) -> bool {
    tells(std::slice::from_ref(token)) || token.has_any(&PARTS)
}

/// A word that alone makes a deed of a part or a rig.
fn is_verb(token: &Token) -> bool {
    token.has_any(&[Sense::Flushed, Sense::Done, Sense::Repacked, Sense::Fresh]) && !token.has(Sense::Filler)
}
