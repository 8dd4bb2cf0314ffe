//! Which rig each part of a message speaks of.

use super::languages::TABLES;
use super::plausibility::LEAST_FEED_PPM;
use super::portions;
use super::rig_name::Sure;
use super::senses::Sense;
use super::tokens::{Kind, Token};

/// Whom a group of tokens speaks of.
#[derive(Clone, Debug, PartialEq)]
pub enum Who {
    /// No rig is named.
    Nobody,
    /// These rigs, each of them.
    Rigs(Vec<i64>, Sure),
    /// One of these; which one is not clear.
    OneOf(Vec<i64>, String),
    /// A name that no rig has.
    Unknown(String),
}

#[derive(Clone, Debug)]
pub struct Group {
    pub who: Who,
    /// Indices of its tokens, ascending.
    pub indices: Vec<usize>,
}

/// A run of mentions with nothing but links between.
struct Cluster {
    who: Who,
    from: usize,
    to: usize,
}

/// Parts the tokens of `stated` (ascending) among the rigs that they name.
pub fn split(tokens: &[Token], stated: &[usize]) -> Vec<Group> {
    let lines = lines_of(tokens, stated);
    let named_lines = lines
        .iter()
        .filter(|line| has_mention(tokens, line) && has_number(tokens, line))
        .count();
    let stray_lines = lines
        .iter()
        .filter(|line| !has_mention(tokens, line) && has_number(tokens, line))
        .count();
    if named_lines >= 2 && stray_lines == 0 {
        return lines.iter().flat_map(|line| split_line(tokens, line)).collect();
    }
    split_line(tokens, stated)
}

fn lines_of(tokens: &[Token], stated: &[usize]) -> Vec<Vec<usize>> {
    let lines = stated.split(|&at| tokens[at].kind == Kind::Break);
    lines.filter(|line| !line.is_empty()).map(<[usize]>::to_vec).collect()
}

fn has_mention(tokens: &[Token], indices: &[usize]) -> bool {
    indices.iter().any(|&at| tokens[at].mention().is_some())
}

fn has_number(tokens: &[Token], indices: &[usize]) -> bool {
    indices.iter().any(|&at| {
        tokens[at]
            .number()
            .is_some_and(|number| !(number.shy && number.value == 1.0))
            && !tokens[at].spent
    })
}

fn split_line(tokens: &[Token], line: &[usize]) -> Vec<Group> {
    let clusters = clusters(tokens, line);
    let whole = |who: Who| {
        vec![Group {
            who,
            indices: line.to_vec(),
        }]
    };
    let (Some(first), Some(last)) = (clusters.first(), clusters.last()) else {
        return whole(Who::Nobody);
    };
    if clusters.iter().all(|cluster| cluster.who == first.who) {
        return whole(first.who.clone());
    }
    let numbers_before = has_number(tokens, &line[..first.from]);
    let numbers_after = has_number(tokens, &line[last.to..]);
    if numbers_before && numbers_after {
        if let Some(groups) = shared_feed(tokens, line, &clusters) {
            return groups;
        }
        let rigs = clusters.iter().flat_map(|cluster| rigs_of(&cluster.who)).collect();
        return whole(Who::OneOf(rigs, String::new()));
    }
    // "badger same as lynx 180/12": whose the numbers are is not clear.
    let same = line[first.to..usize::max(first.to, last.from)]
        .iter()
        .any(|&at| tokens[at].has(Sense::Same) && !tokens[at].has(Sense::Filler));
    let only_last = numbers_after && !has_number(tokens, &line[..last.from]);
    if same && only_last {
        let rigs = clusters.iter().flat_map(|cluster| rigs_of(&cluster.who)).collect();
        return whole(Who::OneOf(rigs, String::new()));
    }
    // "lynx 180 12 sorry badger": the name that comes last may correct the first.
    let corrects = |slot: usize| tokens[line[slot]].has(Sense::Oops);
    if !numbers_before && !numbers_after && last.from > 0 && corrects(last.from - 1) {
        let rigs = clusters.iter().flat_map(|cluster| rigs_of(&cluster.who)).collect();
        return whole(Who::OneOf(rigs, String::new()));
    }
    // "lynx 180 12 badger", "flushed lynx and 180 12 on badger": the values may be of the one as of the other.
    let small = |token: &&usize| {
        tokens[**token].has(Sense::Filler) && tokens[**token].word().is_some_and(|word| word.len() <= 3)
    };
    let told = line[..last.from].iter().rev().find(|at| !small(at));
    if let [.., before, _] = &clusters[..]
        && !numbers_before
        && last.to == line.len()
        && told.is_some_and(|&at| tokens[at].number().is_some() && !tokens[at].spent)
    {
        let rigs = [before, last]
            .iter()
            .flat_map(|cluster| rigs_of(&cluster.who))
            .collect();
        let mut groups = split_line(tokens, &line[..before.from]);
        groups.retain(|group| group.who != Who::Nobody);
        groups.push(Group {
            who: Who::OneOf(rigs, String::new()),
            indices: line[before.from..].to_vec(),
        });
        return groups;
    }
    let mut groups = Vec::new();
    for (index, cluster) in clusters.iter().enumerate() {
        let (from, to) = if numbers_before {
            (if index == 0 { 0 } else { clusters[index - 1].to }, cluster.to)
        } else {
            (
                cluster.from,
                clusters.get(index + 1).map_or(line.len(), |next| next.from),
            )
        };
        groups.push(Group {
            who: cluster.who.clone(),
            indices: line[from..to].to_vec(),
        });
    }
    groups
}

/// "tap's the same for all at 185. lynx 12 badger 18": the words before the first name belong to each group.
fn shared_feed(tokens: &[Token], line: &[usize], clusters: &[Cluster]) -> Option<Vec<Group>> {
    let head = &line[..clusters.first()?.from];
    let shared = head
        .iter()
        .any(|&at| tokens[at].has_any(&[Sense::Same, Sense::All, Sense::Both, Sense::Feed]));
    let one_number = head
        .iter()
        .filter(|&&at| tokens[at].number().is_some() && !tokens[at].spent)
        .count()
        == 1;
    let labelled = head
        .iter()
        .any(|&at| tokens[at].has_any(&[Sense::Feed, Sense::FeedWeak]));
    if !(shared && one_number && labelled) {
        return None;
    }
    let group = |(index, cluster): (usize, &Cluster)| {
        let to = clusters.get(index + 1).map_or(line.len(), |next| next.from);
        let indices = head.iter().chain(&line[cluster.from..to]).copied().collect();
        Group {
            who: cluster.who.clone(),
            indices,
        }
    };
    Some(clusters.iter().enumerate().map(group).collect())
}

fn rigs_of(who: &Who) -> Vec<i64> {
    match who {
        Who::Rigs(rigs, _) | Who::OneOf(rigs, _) => rigs.clone(),
        Who::Nobody | Who::Unknown(_) => Vec::new(),
    }
}

fn clusters(tokens: &[Token], line: &[usize]) -> Vec<Cluster> {
    let mut clusters: Vec<Cluster> = Vec::new();
    for (slot, &at) in line.iter().enumerate() {
        if clusters.last().is_some() && is_strange_name(tokens, line, slot) {
            let who = Who::Unknown(tokens[at].word().unwrap_or_default().to_string());
            clusters.push(Cluster {
                who,
                from: slot,
                to: slot + 1,
            });
            continue;
        }
        let Some(mention) = tokens[at].mention() else { continue };
        let who = match (mention.rigs.as_slice(), mention.all_of_them) {
            ([], _) => Who::Unknown(mention.typed.clone()),
            // "the new van 180/12", "the spare trailer": not the one that is called so.
            ([_], _) if mention.sure == Sure::Part && slot > 0 && is_another(tokens, line[slot - 1], at) => {
                let another = tokens[line[slot - 1]].word().unwrap_or_default();
                Who::Unknown(format!("{another} {}", mention.typed))
            }
            ([rig], _) => Who::Rigs(vec![*rig], mention.sure),
            // "Both vans 180/12" may be one reading of either; services are another matter.
            (rigs, _) => Who::OneOf(rigs.to_vec(), mention.typed.clone()),
        };
        if let Some(last) = clusters.last_mut() {
            let between = &line[last.to..slot];
            let only_links = between.iter().all(|&at| {
                let token = &tokens[at];
                token.has_any(&[Sense::And, Sense::Filler]) || token.is_any_mark(",&+/")
            });
            if only_links && !ends_in_deed(tokens, line, last.from, slot) {
                // "Lynx or badger", "lynx/badger": one of them.
                let linked = between
                    .iter()
                    .any(|&at| tokens[at].has(Sense::And) || tokens[at].is_any_mark(",&+"));
                let corrected = between.iter().any(|&at| tokens[at].has(Sense::Oops));
                last.who = join(&last.who, who, linked, corrected);
                last.to = slot + 1;
                continue;
            }
            // "lynx, i mean badger"
            if between
                .iter()
                .all(|&at| tokens[at].has_any(&[Sense::Oops, Sense::No, Sense::Not]) || tokens[at].is_mark(','))
            {
                last.who = who;
                last.to = slot + 1;
                continue;
            }
        }
        clusters.push(Cluster {
            who,
            from: slot,
            to: slot + 1,
        });
    }
    clusters
}

/// "New resin lynx, badger 180/12": a deed leads to the rig before, and the values are of the next alone.
fn ends_in_deed(tokens: &[Token], line: &[usize], last: usize, slot: usize) -> bool {
    let lead = (0..last)
        .rev()
        .map(|slot| &tokens[line[slot]])
        .take_while(|token| token.mention().is_none() && token.number().is_none());
    let words: Vec<Token> = lead.cloned().collect();
    let end = line.last().map_or(0, |last| last + 1);
    portions::tells(&words) && portions::follows_value(tokens, line[slot], end)
}

/// "Otter 205 16": whether the number at `at` is the second of a falling pair right behind a rig's whole name.
/// Membranes pass less than half.
pub(super) fn is_pair_of_name(tokens: &[Token], at: usize) -> bool {
    let value = |index: usize| {
        tokens
            .get(index)?
            .number()
            .filter(|number| !number.shy)
            .map(|number| number.value)
    };
    let Some(first) = at.checked_sub(1) else { return false };
    let first = if tokens[first].is_any_mark("/,") {
        at.checked_sub(2)
    } else {
        Some(first)
    };
    let name = first.and_then(|first| first.checked_sub(1));
    let named = name.is_some_and(|name| tokens[name].mention().is_some_and(|mention| mention.sure == Sure::Full));
    let falls = first
        .and_then(value)
        .zip(value(at))
        .is_some_and(|(feed, permeate)| feed >= LEAST_FEED_PPM && feed > 2.0 * permeate);
    named && falls
}

fn is_another(tokens: &[Token], before: usize, at: usize) -> bool {
    let vehicle = tokens[at]
        .mention()
        .is_some_and(|mention| TABLES.senses(&mention.typed).has(Sense::Vehicle));
    vehicle && tokens[before].has_any(&[Sense::Fresh, Sense::Spare, Sense::OtherOne])
}

fn join(one: &Who, other: Who, linked: bool, corrected: bool) -> Who {
    if *one == other || corrected {
        return other;
    }
    match (one, other) {
        (Who::Rigs(rigs, sure), Who::Rigs(more, other)) if linked => {
            let mut all = rigs.clone();
            all.extend(more.iter().filter(|rig| !rigs.contains(rig)));
            Who::Rigs(all, (*sure).min(other))
        }
        // "the grey one, the trailer": a whole name or a clear part beats a guess.
        (Who::Rigs(rigs, sure), Who::Rigs(_, other)) if *sure > other => Who::Rigs(rigs.clone(), *sure),
        (Who::Unknown(typed), _) if linked => Who::Unknown(typed.clone()),
        (_, Who::Unknown(typed)) if linked => Who::Unknown(typed),
        (one, other) => {
            let mut all = rigs_of(one);
            all.extend(rigs_of(&other));
            all.sort_unstable();
            all.dedup();
            Who::OneOf(all, String::new())
        }
    }
}

/// "lynx 180/12 falcon 190/13": a strange word between numbers, before two of them, is a name that no rig has.
fn is_strange_name(tokens: &[Token], line: &[usize], slot: usize) -> bool {
    let is_number = |slot: usize| {
        line.get(slot)
            .is_some_and(|&at| tokens[at].number().is_some_and(|number| !number.shy) && !tokens[at].spent)
    };
    let word = &tokens[line[slot]];
    let before = (0..slot)
        .rev()
        .find(|&slot| !tokens[line[slot]].is_any_mark(",.") && !tokens[line[slot]].has(Sense::And));
    let behind = slot + 1..usize::min(slot + 5, line.len());
    let colon = line.get(slot + 1).is_some_and(|&at| tokens[at].is_any_mark(":="));
    word.is_unknown()
        && word.word().is_some_and(|word| word.len() > 2)
        && before.is_some_and(is_number)
        && is_number(slot + 1 + usize::from(colon))
        && behind.filter(|&slot| is_number(slot)).count() >= 2
}
