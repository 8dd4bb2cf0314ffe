//! How far what a clause says is so: asserted, doubtful, or not so at all; and the parts and deeds that it names.

use super::clause::Clause;
use super::item::{Item, Items};
use super::role::Role;
use crate::domain::ServiceKind as What;
use crate::language::lexer::Form;
use crate::language::lexicon::LEXICON;
use crate::language::senses::{DENIES, PARTS, SLOTS, Sense, Senses, Subject, Subjects};

/// Whether what is said is so.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Mode {
    /// It is so.
    #[default]
    Asserted,
    /// Guessed or reported: it is asked about.
    Doubtful,
    /// Asked, planned, supposed, denied: it is not recorded.
    Unreal,
}

const UNREAL: Senses = Senses::of([Sense::cond, Sense::norm, Sense::past, Sense::plan, Sense::not]);
/// What makes a deed unreal, wherever it stands in its clause.
const NO_DEED: Senses = Senses::of([
    Sense::cond,
    Sense::norm,
    Sense::not,
    Sense::guess,
    Sense::modal,
    Sense::got,
    Sense::foreign,
    Sense::place,
    Sense::nearly,
]);
/// Subjects that make a question of a clause without any other word of asking.
const ASKS_ALONE: Subjects = Subjects::of([Subject::shopping, Subject::fleet, Subject::help, Subject::quiet]);

/// The mode of a value: what stands before it in the clause counts, and what judges it right behind.
pub fn of_values(clause: &Clause) -> Mode {
    let first = clause.first_value().unwrap_or(0);
    let last = clause.last_value().unwrap_or(0);
    let before = &clause.items[..first];
    let decorates = SLOTS.and(Senses::of([Sense::fresh, Sense::resin]));
    // "lynx sunday 190 13": a day is a time, and a plan only of deeds.
    let scopes = |item: &Item, senses: Senses| {
        let day = item.is(Sense::weekday) && !item.any(senses.without(Senses::of([Sense::plan])));
        item.is_word() && item.any(senses) && !item.any(decorates) && !day
    };
    // "not dipper today 188 13" denies the rig, not the reading.
    let of_rig = |at: usize| {
        let near = before[at + 1..]
            .iter()
            .take(3)
            .find(|item| item.is_name() || item.num.is_some());
        before[at].any(DENIES) && near.is_some_and(Item::is_name) && !clause.any(Senses::of([Sense::shows]))
    };
    let has = |senses: Senses| {
        before
            .iter()
            .enumerate()
            .any(|(at, item)| scopes(item, senses) && !of_rig(at))
    };
    let says = before.iter().position(|item| item.is(Sense::says) && item.is_word());
    let reported = says.is_some_and(|says| {
        let other = before[says..].iter().any(Item::is_name)
            && before[..says]
                .iter()
                .any(|item| item.unknown || item.is(Sense::ordinary));
        other
            || before
                .iter()
                .any(|item| item.any(Senses::of([Sense::speaker, Sense::foreign])))
    });
    let behind = clause.items[last..].iter().skip(1).take(2);
    let judged = |item: &Item| {
        item.is_word()
            && !item.any(Senses::of([Sense::plan, Sense::modal]))
            && item.any(Senses::of([Sense::cond, Sense::norm]))
    };
    let dated = clause.roles.iter().any(|role| matches!(role, Role::Time(_)));
    let ago = !dated && behind.clone().any(|item| item.is(Sense::ago));
    let past = ago
        || behind
            .clone()
            .next()
            .is_some_and(|item| item.is(Sense::past) && item.is_word());
    let was = before.iter().any(|item| item.is(Sense::be) && item.is_word());
    let told = behind
        .clone()
        .take_while(|item| item.unknown || item.is(Sense::says))
        .any(|item| item.is(Sense::says));
    let guessed = behind.clone().any(|item| item.is_word() && item.is(Sense::guess));
    // "dave got 160/12 on lynx", "the sticker on lynx says 180/9"
    let another = before.windows(2).any(|two| two[0].unknown && two[1].any(Senses::of([Sense::has, Sense::says])))
        || says.is_some_and(|says| before[..says].iter().any(|item| item.unknown))
        || says.is_some_and(|says| before.get(says + 1).is_some_and(|item| item.unknown))
        // "threshold for lynx 205/40"
        || before.windows(3).any(|three| three[0].unknown && three[1].is(Sense::prep) && three[2].is_name());
    if clause.quoted
        || has(UNREAL)
        || past && was
        || behind.clone().any(judged)
        || before.iter().any(|item| item.is(Sense::foreign))
    {
        return Mode::Unreal;
    }
    // "Say heron was 180 12"
    let supposed = matches!(before, [first, second, ..] if first.is(Sense::settle) && second.is_name());
    let garbled = (1..clause.items.len()).any(|i| is_behind_garble(clause, i));
    let unsure = has(Senses::of([Sense::guess, Sense::bound])) || past;
    if told || guessed || another || reported || supposed || garbled || clause.asked || unsure {
        Mode::Doubtful
    } else {
        Mode::Asserted
    }
}

/// "ro twenny eight": a spelled number behind a label and a word that nobody knows.
fn is_behind_garble(clause: &Clause, at: usize) -> bool {
    let spelled = matches!(clause.items[at].num, Some((_, Form::Words))) && clause.roles[at].is_free();
    spelled && clause.items[at - 1].unknown && at > 1 && clause.items[at - 2].any(SLOTS)
}

/// What of a part a clause tells that is no full change of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Deed {
    /// It was done.
    Done(What),
    /// It may have been used up, or changed.
    UsedUp(What),
    /// Half of it, a top-up, some litres.
    Portion(What),
    /// It went from one rig to another.
    Moved(What),
}

/// What the clause says was done.
pub fn deeds(clause: &Clause) -> Vec<Deed> {
    if !is_deed_asserted(clause) {
        return Vec::new();
    }
    let items = clause.items;
    let parts = parts(items);
    let noun = items
        .iter()
        .position(|item| item.is(Sense::flush) && !item.is(Sense::flushed) && item.is_word());
    // "flushing kestrel now"
    let doing =
        noun.is_some_and(|i| items[i].words == 1) && items.iter().any(|item| item.is(Sense::now) && item.is_word());
    let ended = clause.any(Senses::of([Sense::finished, Sense::change, Sense::gaveflush]));
    let timed = clause.roles.contains(&Role::Minutes);
    if clause.is(Sense::flushed) || noun.is_some() && (doing || ended || timed) {
        let changes = |item: &Item| item.is(Sense::fresh) || item.is(Sense::change) && !item.is(Sense::finished);
        let changed = noun.is_none() && items.iter().any(|item| item.is_word() && changes(item));
        let mut out = vec![Deed::Done(What::Flush)];
        out.extend(parts.into_iter().filter(|_| changed).map(Deed::Done));
        return out;
    }
    if clause.is(Sense::remetered) {
        let others = parts.into_iter().filter(|_| clause.is(Sense::change));
        return others.chain([What::Meter]).map(Deed::Done).collect();
    }
    if clause.is(Sense::repack) {
        let renewed = clause.is(Sense::change);
        let others = parts.into_iter().filter(|part| renewed && *part != What::Resin);
        return others.chain([What::Repack]).map(Deed::Done).collect();
    }
    let changed = clause.any(Senses::of([Sense::change, Sense::fresh]));
    let portion = clause.any(Senses::of([Sense::topped, Sense::half_of])) || clause.roles.contains(&Role::Amount);
    // "installed 25 L of fresh resin" is a change; "12.5 litres of new resin" may be a part of one.
    let whole = clause.is(Sense::change) && !clause.any(Senses::of([Sense::topped, Sense::half_of]));
    if portion && !whole && (changed || clause.is(Sense::topped)) {
        let of = |part| {
            if part == What::Resin {
                Deed::Portion(part)
            } else {
                Deed::Done(part)
            }
        };
        return if parts.is_empty() && clause.is(Sense::topped) {
            Vec::new()
        } else {
            parts.into_iter().map(of).collect()
        };
    }
    if clause.is(Sense::used_up) && !clause.is(Sense::fresh) {
        return parts.into_iter().map(Deed::UsedUp).collect();
    }
    let rigs = items.iter().filter(|item| item.is_name()).count();
    let swaps = items
        .iter()
        .any(|item| item.is_word() && item.is(Sense::change) && item.is(Sense::moved));
    let moves = swaps || clause.is(Sense::moved) || goes_over(items);
    if parts.contains(&What::Membrane) && rigs == 2 && moves && !clause.is(Sense::fresh) {
        return vec![Deed::Moved(What::Membrane)];
    }
    if changed || clause.is(Sense::finished) {
        parts.into_iter().map(Deed::Done).collect()
    } else {
        Vec::new()
    }
}

/// "Put heron's membrane in otter": a part of the first rig of two goes to the second.
pub fn goes_over(items: &[Item]) -> bool {
    let rigs: Vec<usize> = (0..items.len()).filter(|at| items[*at].is_name()).collect();
    let [first, second] = rigs[..] else { return false };
    let link = |rig: usize| {
        items[..rig]
            .iter()
            .rev()
            .find(|item| !(item.is_word() && item.is(Sense::article)))
    };
    let from = |item: &Item| item.is(Sense::daylink) && LEXICON.name(item.name) == "from";
    let to = |item: &Item| item.is(Sense::prep) || item.is(Sense::daylink) && LEXICON.name(item.name) == "last";
    let has = items.get(first + 1).is_some_and(|next| next.any(PARTS));
    let joined = items[first..second]
        .iter()
        .any(|item| item.is(Sense::and) && item.is_word() || item.is_mark(",;"));
    (has || link(first).is_some_and(from)) && link(second).is_some_and(|link| to(link) && !from(link)) && !joined
}

/// Nothing in the clause says that the deed is planned, denied, asked about or another's.
fn is_deed_asserted(clause: &Clause) -> bool {
    let items = clause.items;
    // "Friday" is a plan, but "changed friday" and "last friday" are none.
    let past = clause.any(Senses::of([Sense::change, Sense::flushed]));
    let day = |i: usize| {
        let last = |i: Option<usize>| i.and_then(|i| items.get(i)).is_some_and(|item| item.is(Sense::last));
        items[i].is(Sense::weekday) && (past || last(i.checked_sub(1)) || last(Some(i + 1)))
    };
    let planned = (0..items.len()).any(|i| items[i].is_word() && items[i].is(Sense::plan) && !day(i));
    let reported = clause.is(Sense::says) && clause.is(Sense::speaker);
    // "a new membrane or more resin"
    // "got new resin for heron": it is there, and not yet in the rig. "lavé 15 ventanas": the windows.
    let fetched = items.first().is_some_and(|item| item.is(Sense::has) && item.is_word()) && !past;
    let windows = clause.is(Sense::washes) && items.iter().any(|item| item.is(Sense::count) && item.is_word());
    let chosen = clause.is(Sense::either) && parts(items).len() > 1;
    !planned
        && !chosen
        && !fetched
        && !windows
        && !clause.any(NO_DEED)
        && !clause.asked
        && !is_question(clause)
        && !reported
}

/// The parts that the items name.
pub fn parts(items: &[Item]) -> Vec<What> {
    let table = [
        (Sense::membrane, What::Membrane),
        (Sense::prefilter, What::Prefilter),
        (Sense::resin, What::Resin),
        (Sense::oring, What::ORing),
    ];
    let named = |sense: Sense| items.iter().any(|item| item.is(sense) && item.is_word());
    table
        .iter()
        .filter(|(sense, _)| named(*sense))
        .map(|(_, what)| *what)
        .collect()
}

/// Begins with, or is held together by, a word that asks.
pub fn is_question(clause: &Clause) -> bool {
    let asks = |item: &Item| item.any(Senses::of([Sense::ask, Sense::ask0]));
    let skipped = |item: &Item| item.any(Senses::of([Sense::filler, Sense::article])) && !asks(item);
    let first = clause
        .items
        .iter()
        .take(3)
        .find(|item| item.mark.is_none() && (item.is_name() || !skipped(item)));
    let strong = clause.any(Senses::of([Sense::ask, Sense::qmark]))
        || clause
            .items
            .iter()
            .any(|item| item.is_word() && item.subjects.any(ASKS_ALONE));
    // "u flushed puffin"
    let you = clause
        .items
        .iter()
        .find(|item| item.mark.is_none())
        .is_some_and(|item| item.is(Sense::you));
    let deed = clause.any(Senses::of([Sense::flushed, Sense::change]));
    strong
        || you && deed
        || first.is_some_and(|item| {
            item.is_word() && item.is(Sense::ask0) && clause.items.len() > 1 && (clause.asked || !heads_pair(clause))
        })
}

/// "did heron 180 12": two numbers right behind the rig.
fn heads_pair(clause: &Clause) -> bool {
    let rig = clause.items.iter().position(Item::is_name).map_or(0, |rig| rig + 1);
    let skips = |item: &&Item| item.mark.is_some() || item.any(SLOTS) && item.is_word();
    let next = rig + clause.items[rig..].iter().take_while(skips).count();
    clause.roles.get(next).is_some_and(|role| role.is_free())
}
