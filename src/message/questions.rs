//! What a crew asks: how a rig is, when a membrane is due, who has not logged.

use super::clauses::Clause;
use super::meaning::Scene;
use super::query::{Query, Topic};
use super::rig_name::Sure;
use super::senses::Sense;
use super::tokens::Token;
use super::topics::{self, Asked};

/// The questions of all clauses.
pub fn find(tokens: &[Token], clauses: &[Clause], scene: &Scene) -> Vec<Query> {
    if let Some(topic) = slash_command(tokens) {
        return vec![Query::of(None, topic)];
    }
    let mut queries: Vec<Query> = Vec::new();
    let mut carried: Vec<i64> = Vec::new();
    for clause in clauses {
        let part = &tokens[clause.span.clone()];
        let named = rigs_of(part);
        if !named.is_empty() {
            carried = named;
        }
        let terse = !clause.asks && is_terse(part, scene.own_rig.is_some());
        if !(clause.asks || terse) {
            continue;
        }
        let named = !carried.is_empty();
        // "How's the resin", "last reading?": of the sender's own rig.
        let of_own = scene.own_rig.is_some() && !named && is_about_own(part);
        let asked = Asked {
            part,
            rigs: &carried,
            of_own,
            terse,
        };
        let Some((topic, detail)) = topics::find(&asked) else {
            continue;
        };
        // "lynx 180/12?" doubts the values and asks nothing else.
        if clause.only_marked && has_pair(part) && matches!(topic, Topic::Status | Topic::LastReading) {
            continue;
        }
        let of_all = [Sense::We, Sense::All, Sense::Which, Sense::Who, Sense::WholeFleet];
        let everybody = topic == Topic::FlushStatus && part.iter().any(|token| token.has_any(&of_all));
        let about_all = (topic_of_all(topic) || everybody) && carried.is_empty();
        let own = scene
            .own_rig
            .filter(|_| !about_all && carried.is_empty() && !clause.supposes && !has_number(part));
        let topic = if topic == Topic::Status && carried.is_empty() && own.is_none() {
            Topic::Fleet
        } else {
            topic
        };
        let query = |rig| Query { rig, topic, detail };
        if carried.is_empty() {
            queries.push(query(own));
        }
        queries.extend(carried.iter().map(|&rig| query(Some(rig))));
    }
    queries.dedup();
    if queries.is_empty() {
        why(tokens, scene)
    } else {
        queries
    }
}

/// "Why?" behind an answer asks of the rig that was just read.
fn why(tokens: &[Token], scene: &Scene) -> Vec<Query> {
    let begins = tokens.first().is_some_and(|token| token.has(Sense::Why));
    let plain = |token: &Token| {
        token.is_mark('?') || token.has(Sense::Why) || token.has_any(&[Sense::That, Sense::Was, Sense::Filler])
    };
    let small = tokens.len() <= 5 && tokens.iter().all(|token| token.number().is_none() && plain(token));
    match scene.last.as_slice() {
        [last] if begins && small => vec![Query::of(last.rig, Topic::Why)],
        _ => Vec::new(),
    }
}

/// "/help", "/status"
fn slash_command(tokens: &[Token]) -> Option<Topic> {
    let words = tokens.iter().filter(|token| token.word().is_some()).count();
    let whole_message = tokens.len() == 1 || tokens.first().is_some_and(|token| token.is_mark('/'));
    let one = tokens.iter().find(|token| token.word().is_some())?;
    let command = one.word().is_some_and(|word| word.starts_with('/'));
    if words == 1 && one.has(Sense::Help) && (command || whole_message) {
        return Some(Topic::Help);
    }
    let bare = match tokens {
        [rest @ .., mark] if mark.is_mark('?') => rest,
        all => all,
    };
    if let [only] = bare {
        let fleet = only.has(Sense::FleetWord).then_some(Topic::Fleet);
        let shopping = only.has(Sense::Shopping) && only.has(Sense::Buy);
        return fleet.or(shopping.then_some(Topic::Shopping));
    }
    let [slash, word, ..] = tokens else { return None };
    if !slash.is_mark('/') {
        return None;
    }
    if word.has(Sense::Reset) {
        return Some(Topic::Help);
    }
    word.has_any(&[Sense::FleetWord, Sense::All]).then_some(Topic::Fleet)
}

/// Topics that a sender's own rig has nothing to do with.
fn topic_of_all(topic: Topic) -> bool {
    matches!(
        topic,
        Topic::Fleet | Topic::Quiet | Topic::Shopping | Topic::Help | Topic::Explain | Topic::WhatIf | Topic::Compare
    )
}

fn rigs_of(part: &[Token]) -> Vec<i64> {
    let mentions = part.iter().filter_map(Token::mention);
    // A guess among strange words is a word of these, no rig.
    let plain = part.iter().all(|token| !token.is_unknown());
    let clear = mentions
        .filter(|mention| (mention.rigs.len() == 1 || mention.all_of_them) && (plain || mention.sure > Sure::Guess));
    let mut best: Vec<_> = clear.collect();
    // "the grey one, the trailer": what stands last says it best.
    if best.len() > 1 && best.iter().all(|mention| mention.sure < Sure::Full) {
        best = best.split_off(best.len() - 1);
    }
    let mut rigs: Vec<i64> = best
        .into_iter()
        .flat_map(|mention| mention.rigs.iter().copied())
        .collect();
    rigs.dedup();
    rigs
}

pub(super) fn has_number(part: &[Token]) -> bool {
    part.iter().any(|token| token.number().is_some() && !token.spent)
}

fn has_pair(part: &[Token]) -> bool {
    part.iter()
        .filter(|token| token.number().is_some() && !token.spent)
        .count()
        >= 2
}

pub(super) fn words_of(part: &[Token]) -> usize {
    part.iter().filter(|token| token.word().is_some()).count()
}

/// Few words, all known, of one rig's parts or readings, and of no other rigs.
fn is_about_own(part: &[Token]) -> bool {
    let about = [
        Sense::Membrane,
        Sense::Resin,
        Sense::Rejection,
        Sense::Trend,
        Sense::History,
        Sense::Current,
    ];
    let others = [
        Sense::All,
        Sense::Who,
        Sense::We,
        Sense::FleetWide,
        Sense::Buy,
        Sense::Advice,
        Sense::Help,
    ];
    // "whats my ro", "hows my rig"
    let mine = part.iter().any(|token| token.has(Sense::Mine));
    let things = [Sense::Feed, Sense::Permeate, Sense::How, Sense::Vehicle];
    if mine && part.iter().any(|token| token.has_any(&things) || token.has_any(&about)) {
        return words_of(part) <= 7
            && !has_number(part)
            && part
                .iter()
                .all(|token| !token.is_unknown() && !token.has_any(&[Sense::Buy, Sense::Help, Sense::Address]));
    }
    words_of(part) <= 7
        && !has_number(part)
        && part.iter().any(|token| token.has_any(&about) && !token.has(Sense::Why))
        && part
            .iter()
            .all(|token| !token.is_unknown() && !token.has_any(&others) && !is_general(token))
}

/// "What is rejection": asks what a word means.
fn is_general(token: &Token) -> bool {
    token.has(Sense::General)
}

/// "badger status", "lynx history": a name and a topic, nothing else.
fn is_terse(part: &[Token], has_own: bool) -> bool {
    let named = part.iter().any(|token| token.mention().is_some()) || (has_own && part.len() == 1);
    // Small words beside the topic say nothing: "chart for badger please".
    let small = |token: &Token| {
        token.has(Sense::Greeting) || (token.has(Sense::Filler) && !token.has_any(&[Sense::How, Sense::Current]))
    };
    let words: Vec<&Token> = part
        .iter()
        .filter(|token| token.word().is_some() && !small(token))
        .collect();
    let topic = |token: &&Token| {
        token.has_any(&[Sense::Trend, Sense::Rejection, Sense::Quiet, Sense::Shopping])
            || token.has_any(&[Sense::TopicWord, Sense::Picture, Sense::Cost, Sense::Period])
    };
    // The whole name alone asks how the rig is.
    let alone = words.is_empty()
        && part
            .iter()
            .all(|token| token.mention().is_none_or(|mention| mention.sure == Sure::Full));
    let past = |token: &&Token| topic(token) || token.has_any(&[Sense::History, Sense::Current]);
    let one_topic =
        words.len() == 1 && words.iter().all(topic) || (2..=3).contains(&words.len()) && words.iter().all(past);
    // "lynx resin", "lynx membrane when", "resin days lynx"
    let is_part = |token: &Token| token.has(Sense::PartWord);
    let span = |token: &Token| token.has_any(&[Sense::When, Sense::Days]);
    let link = |token: &Token| {
        token.has_any(&[Sense::DateBefore, Sense::Article]) && !token.has_any(&[Sense::Not, Sense::Intent])
    };
    let of_part = part.iter().any(is_part)
        && part
            .iter()
            .all(|token| is_part(token) || span(token) || token.mention().is_some() || link(token));
    let number = part.iter().any(|token| token.number().is_some());
    let percent = words.is_empty() && part.len() == 2 && part[1].is_mark('%');
    let mentions = part.iter().filter(|token| token.mention().is_some()).count();
    let beside = mentions >= 2 && words.iter().all(|token| token.has_any(&[Sense::Compares, Sense::And]));
    named
        && !number
        && (one_topic
            || (beside && !words.is_empty() && words.iter().any(|token| token.has(Sense::Compares)))
            || of_part
            || percent
            || (alone && part.len() == 1 && part[0].mention().is_some()))
}
