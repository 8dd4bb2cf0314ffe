//! What was done to a rig: done, not only intended, denied or asked.

use super::clauses::Clause;
use super::meaning::{Price, What};
use super::portions;
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
    /// A price was said, of several rigs or parts together.
    pub price_shared: bool,
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
    let mut carried = Carried::default();
    for clause in clauses.iter().filter(|clause| clause.states()) {
        carried.wanted = false;
        carried.done = false;
        for span in portions::split(tokens, clause.span.clone()) {
            let part = &tokens[span.clone()];
            let named_so_far = &tokens[clause.span.start..span.end];
            let rigs = carried.rigs_of(part, named_so_far);
            let named = parts_of(part);
            let mut whats = done(part, &named, &carried.parts);
            // "Need new resin for lynx, new filters for badger": wanted, one like the other.
            let firm = is_firm(part);
            let wants = part
                .iter()
                .any(|token| token.has_any(&[Sense::Intent, Sense::Obtained]) && !token.has(Sense::Filler));
            if carried.wanted && !firm {
                whats.retain(|what| *what == What::Flush);
            }
            // "Changed the resin on mole and the filters on badger"
            if carried.done && whats.is_empty() && portions::is_part_of_rig(part) {
                whats.clone_from(&named);
            }
            carried.wanted = !firm && (wants || carried.wanted);
            // "Lynx flushed, badger too"
            if carried.done && whats.is_empty() && portions::is_too(part) {
                whats.clone_from(&carried.whats);
            }
            carried.done = !whats.is_empty();
            carried.whats.clone_from(&whats);
            if !named.is_empty() {
                carried.parts = named;
            }
            let unknown = part.iter().filter(|token| token.is_unknown()).count();
            // One price of several rigs or parts cannot be told apart, unless it is of each.
            let several = match &rigs {
                Rigs::Named(rigs) => rigs.len() > 1 && !prices::is_apiece(part),
                Rigs::All(_) => true,
                Rigs::Unclear(..) | Rigs::Nobody => false,
            };
            let price_shared = (whats.len() > 1 || several) && prices::is_any(part);
            let price = prices::find(part).filter(|_| !price_shared);
            for what in whats {
                let minutes = (what == What::Flush).then(|| minutes_of(part)).flatten();
                let one = Deed {
                    what,
                    rigs: rigs.clone(),
                    minutes,
                    price: price.clone(),
                    price_shared,
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

/// What a portion of a message leaves to the ones behind it.
struct Carried {
    rigs: Rigs,
    parts: Vec<What>,
    /// The rigs named so far, each once.
    named: Vec<i64>,
    /// In this sentence something was wanted and nothing done since.
    wanted: bool,
    /// The portion just before told of a deed.
    done: bool,
    /// Which it was.
    whats: Vec<What>,
}

impl Default for Carried {
    fn default() -> Self {
        Carried {
            rigs: Rigs::Nobody,
            parts: Vec::new(),
            named: Vec::new(),
            wanted: false,
            done: false,
            whats: Vec::new(),
        }
    }
}

impl Carried {
    /// The rigs of a portion: its own, those that "both" and "all" mean, else those of the portion before.
    fn rigs_of(&mut self, part: &[Token], so_far: &[Token]) -> Rigs {
        let own = rigs_of(part);
        if let Rigs::Named(rigs) = &own {
            self.named
                .extend(rigs.iter().filter(|rig| !self.named.contains(rig)).collect::<Vec<_>>());
        }
        if own != Rigs::Nobody {
            self.rigs = own.clone();
        }
        let together = |sense: Sense| {
            let deed = |token: &Token| token.has_any(&[Sense::Flushed, Sense::Done, Sense::Finished]);
            let beside = |one: &Token, other: &Token| one.has(sense) && deed(other) || deed(one) && other.has(sense);
            // "Flushed them both"
            let around = |three: &[Token]| three[1].has(Sense::Pronoun) && beside(&three[0], &three[2]);
            part.windows(2).any(|two| beside(&two[0], &two[1])) || part.windows(3).any(around)
        };
        // "Lynx 180/12, badger 200/15, both flushed"
        if together(Sense::Both) && self.named.len() == 2 && !matches!(own, Rigs::Unclear(..)) {
            return Rigs::Named(self.named.clone());
        }
        if together(Sense::All)
            && let (Rigs::Named(_), Rigs::Named(all)) = (&own, rigs_of(so_far))
        {
            return Rigs::Named(all);
        }
        match own {
            Rigs::Nobody => self.rigs.clone(),
            own => own,
        }
    }
}

pub(super) const PARTS: [Sense; 4] = [Sense::Membrane, Sense::Resin, Sense::Prefilter, Sense::ORing];

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
    let firmly_done = is_firm(part);
    // "new membrane" is a deed unless something is only wanted; "needs changing, changed it" is one too.
    // "Before" is no time ahead where it may be a label, and "fitted on saturday" was last Saturday.
    let past = (firmly_done || has(Sense::Flushed)) && !has(Sense::Intent);
    let later = part
        .iter()
        .any(|token| token.has(Sense::Later) && !token.has(Sense::FeedWeak) && !(past && token.has(Sense::Weekday)));
    // "Lynx and badger new resin £140 each"
    let of_several = prices::is_apiece(part) && part.iter().filter(|token| token.mention().is_some()).count() > 1;
    // "Lynx wasn't out", "resin price changed to 10", "new resin £225 a bag": nothing was done to a rig.
    if has(Sense::NotUsed) || prices::is_price_talk(part) || !firmly_done && prices::is_each(part) && !of_several {
        return whats;
    }
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
    let wanted = (has(Sense::Intent) || has(Sense::Obtained) || has(Sense::Pending)) && !firmly_done
        || later
        || is_fetched(part);
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
    let fresh = has(Sense::Fresh) && !judged && !is_stored(part);
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

/// A verb that says that it is done: not "got", not "put" behind a wish, not "is in" before "the shed".
fn is_firm(part: &[Token]) -> bool {
    let wish = part.iter().position(|token| token.has(Sense::Intent));
    let stored = is_stored(part);
    let pending = part.iter().any(|token| token.has(Sense::Pending));
    (0..part.len()).any(|at| {
        let token = &part[at];
        let wished = wish.is_some_and(|wish| wish < at) || stored || pending;
        let only_wished = wished && token.has(Sense::SamePresent);
        token.has(Sense::Done)
            && !token.has_any(&[Sense::Filler, Sense::Intent])
            && !only_wished
            && !is_place_behind(part, at)
    })
}

/// "New membrane in the shed", "lynx new resin is in the van": where it lies, not where it works.
fn is_stored(part: &[Token]) -> bool {
    let inside = |token: &Token| token.has_any(&[Sense::Fitted, Sense::Inside]);
    // "New membrane in lynx, the old one is in the shed"
    let in_rig = part.windows(2).any(|two| inside(&two[0]) && two[1].mention().is_some());
    !in_rig && (0..part.len()).any(|at| is_place_behind(part, at))
}

/// Behind this word a place for things follows: "in the shed"; beside a rig's name "in van" is one too.
fn is_place_behind(part: &[Token], at: usize) -> bool {
    let named = part.iter().any(|token| token.mention().is_some());
    let small = |token: &&Token| {
        token.has_any(&[Sense::Article, Sense::Mine, Sense::Filler, Sense::Fitted]) && !token.has(Sense::Place)
    };
    let place = part[at + 1..].iter().find(|token| !small(token));
    part[at].has_any(&[Sense::Inside, Sense::Fitted])
        && place.is_some_and(|token| token.has(Sense::Place) || named && token.has(Sense::Vehicle))
}

/// "Got new resin for lynx": bought for it, and not in it yet.
fn is_fetched(part: &[Token]) -> bool {
    let got = part
        .iter()
        .position(|token| token.has(Sense::Done) && token.has(Sense::Filler));
    let meant = part
        .windows(2)
        .position(|two| two[0].has(Sense::MeantFor) && (two[1].mention().is_some() || two[1].has(Sense::Article)));
    matches!((got, meant), (Some(got), Some(meant)) if got < meant) && !is_firm(part)
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

/// "should be flushed", "needs to be flushed", "to be flushed"
fn wanted_flush(part: &[Token]) -> bool {
    let want = part.iter().position(|token| {
        token.has(Sense::Pending) || token.has(Sense::Intent) && !token.has_any(&[Sense::Filler, Sense::Done])
    });
    let flush = part.iter().position(|token| token.has(Sense::Flushed));
    // "Lave heron, por favor"
    let begged = flush.is_some_and(|flush| part[flush].has(Sense::SamePresent))
        && part
            .iter()
            .rfind(|token| token.word().is_some())
            .is_some_and(|last| last.has(Sense::Intent));
    begged || matches!((want, flush), (Some(want), Some(flush)) if want < flush)
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
