//! Clauses to frames: who, what, when, and whether it is so.
//!
//! Rig, time, price and negation belong to their clause. A clause without a rig takes the last one that was named for
//! it; a rig that has a predicate of its own keeps to that. Nothing else is inherited, except down a list.

use super::clause::Clause;
use super::item::{Item, Items};
use super::plausible;
use super::role::Role;
use super::scope::{self, Deed, Mode};
use super::values::{self, Values};
use super::when;
use crate::domain::meaning::{Price, Scene, Solids, When};
use crate::language::names::Hit;
use crate::language::senses::{DENIES, SLOTS, Sense, Senses};

/// What a frame says.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Kind {
    /// Values of a rig's water.
    #[default]
    Reading,
    /// Something done to a rig.
    Service(Deed),
    /// A question.
    Query,
}

/// One thing that a message says.
#[derive(Clone, Debug, Default)]
pub struct Frame {
    pub kind: Kind,
    /// The rigs that it is about; empty if none was named for it.
    pub rigs: Vec<Hit>,
    /// Its own clause names them.
    pub named: bool,
    pub values: Values,
    pub when: Option<When>,
    pub price: Option<Price>,
    pub minutes: Option<u16>,
    pub mode: Mode,
    /// Words of the clause that say something else.
    pub foreign: usize,
    /// Small words beside rig and numbers.
    pub words: usize,
    /// Its rig, if inherited, comes from an earlier sentence.
    pub loose: bool,
    /// The numbers are tied by a mark: "180/12".
    pub tied: bool,
    /// The word before the values is in no table: an unknown rig. Where it stands in the text.
    pub stranger: Option<(usize, usize)>,
    /// Of another rig than the sender's: "the spare".
    pub other_rig: bool,
    /// One value said for all.
    pub shared: bool,
    /// "And otter", "the rest": it follows what was said before.
    pub follows: bool,
    /// Its clause, by place.
    pub clause: usize,
}

/// All that a message says.
#[derive(Clone, Debug, Default)]
pub struct Frames {
    pub all: Vec<Frame>,
    /// Rigs of which it was said that they are not meant or stand idle.
    pub denied: Vec<usize>,
    /// "All", "both" without names.
    pub of_all: bool,
    /// Where the numbers stand that nothing took, by clause and place in it.
    pub unread: Vec<Solids>,
    /// One price was said of several parts.
    pub price_shared: bool,
    /// How many clauses the message has.
    pub clauses: usize,
}

impl Frames {
    pub fn readings(&self) -> impl Iterator<Item = &Frame> {
        self.all.iter().filter(|frame| frame.kind == Kind::Reading)
    }
    pub fn services(&self) -> impl Iterator<Item = (&Frame, Deed)> {
        self.all.iter().filter_map(|frame| {
            if let Kind::Service(deed) = frame.kind {
                Some((frame, deed))
            } else {
                None
            }
        })
    }
    pub fn queries(&self) -> impl Iterator<Item = &Frame> {
        self.all.iter().filter(|frame| frame.kind == Kind::Query)
    }
}

/// Rigs that a clause names, without those that it denies: "not dipper", "thats not dipper".
pub fn rigs_of(clause: &Clause) -> (Vec<Hit>, Vec<usize>) {
    let (mut out, mut denied): (Vec<Hit>, Vec<usize>) = (Vec::new(), Vec::new());
    for (at, item) in clause.items.iter().enumerate() {
        let Some(hit) = &item.rig else { continue };
        match hit {
            Hit::One(rig) if is_denied(clause, at) => denied.push(*rig),
            hit if !out.contains(hit) => out.push(hit.clone()),
            _ => {}
        }
    }
    let both = clause.any(Senses::of([Sense::both, Sense::all]));
    let spread = |hit: Hit| match hit {
        Hit::Many(those) if both => those.into_iter().map(Hit::One).collect(),
        hit => vec![hit],
    };
    (out.into_iter().flat_map(spread).collect(), denied)
}

fn is_denied(clause: &Clause, rig: usize) -> bool {
    let small = Senses::of([Sense::prep, Sense::article, Sense::be, Sense::filler, Sense::it]);
    let ahead = clause.items[..rig].iter().rev().take(3);
    let mut near = ahead.take_while(|item| item.is_word() && (item.any(DENIES) || item.any(small)));
    near.any(|item| item.any(DENIES) && !item.any(Senses::of([Sense::plan, Sense::guess])))
}

/// The time that a clause says.
pub fn time_of(clause: &Clause) -> Option<When> {
    let times = clause
        .roles
        .iter()
        .filter_map(|role| if let Role::Time(when) = role { Some(*when) } else { None });
    times.reduce(when::join)
}

/// The price that a clause says, with its currency as typed.
fn price_of(clause: &Clause, text: &str) -> Option<Price> {
    let at = clause.roles.iter().position(|role| *role == Role::Price)?;
    let amount = clause.items[at].value()?;
    // "12 euros a litre" is no price of the service.
    let measures = Senses::of([Sense::count, Sense::litres, Sense::bottles]);
    let per = |two: &[Item]| two[0].is(Sense::each) && two[1].any(measures);
    if clause.items[at + 1..].windows(2).take(2).any(per) {
        return None;
    }
    let places = [at.checked_sub(1), Some(at + 1)];
    let currency = places
        .into_iter()
        .flatten()
        .filter_map(|i| clause.items.get(i))
        .find_map(|item| {
            let sign = item
                .mark
                .is_some_and(|mark| crate::language::lexer::CURRENCIES.contains(&mark));
            (sign || item.is(Sense::money) && item.is_word())
                .then(|| text.get(item.span.0..item.span.1))
                .flatten()
        });
    let glued = || {
        text.get(clause.items[at].span.0..clause.items[at].span.1)?
            .chars()
            .find(|c| !c.is_ascii())
    };
    let currency = currency.map(str::to_lowercase).or_else(|| glued().map(String::from));
    Some(Price {
        amount: (amount * 100.0).round() / 100.0,
        currency,
    })
}

/// How a rig was named last.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Weight {
    /// Alone: what follows is of it.
    Alone,
    /// With its values, or with small words.
    Plain,
    /// With something that was said of it.
    Said,
}

struct Fold<'a> {
    scene: &'a Scene,
    text: &'a str,
    out: Frames,
    open: Option<Frame>,
    heading: Vec<Hit>,
    weight: Weight,
    /// A time as a heading: on a line of its own before everything.
    list_time: Option<When>,
    /// A time on its own, for what follows or what is open.
    loose_time: Option<When>,
    /// Services without a rig, waiting for one in the sentence.
    waiting: usize,
    /// The last clause told of a service.
    after_service: bool,
    last_parts: Vec<crate::domain::ServiceKind>,
    /// A condition or question reaches to the end of the sentence.
    reach: bool,
    /// The next clause gives a rig one number.
    single_next: bool,
    /// The message names several rigs.
    several: bool,
}

/// The frames of a message.
pub fn build(clauses: &[Clause], text: &str, scene: &Scene) -> Frames {
    let mut fold = Fold {
        scene,
        text,
        out: Frames::default(),
        open: None,
        heading: Vec::new(),
        weight: Weight::Plain,
        list_time: None,
        loose_time: None,
        waiting: 0,
        after_service: false,
        last_parts: Vec::new(),
        reach: false,
        single_next: false,
        several: {
            let rigs = clauses.iter().flat_map(|clause| rigs_of(clause).0);
            let mut first = None;
            rigs.into_iter()
                .any(|rig| *first.get_or_insert_with(|| rig.clone()) != rig)
        },
    };
    for place in 0..clauses.len() {
        fold.take(clauses, place);
    }
    fold.finish();
    fold.out.clauses = clauses.len();
    fold.out
}

impl Fold<'_> {
    fn finish(&mut self) {
        self.out.all.extend(self.open.take());
    }

    fn take(&mut self, clauses: &[Clause], place: usize) {
        let clause = &clauses[place];
        let next = clauses.get(place + 1);
        if clause.hard {
            self.reach = false;
            self.waiting = self.waiting.min(if clause.items.len() <= 3 { 9 } else { 0 });
        }
        self.single_next =
            next.is_some_and(|next| next.names_rig() && next.roles.iter().filter(|role| role.is_solids()).count() == 1);
        let (rigs, denied) = rigs_of(clause);
        self.deny(&denied);
        let values = values::values(clause, self.scene);
        // "not dipper today": the word that denies a rig says nothing else.
        let denials = if denied.is_empty() {
            0
        } else {
            clause
                .items
                .iter()
                .filter(|item| item.is_word() && item.any(DENIES))
                .count()
        };
        let foreign = clause.foreign().saturating_sub(denials);
        let when = time_of(clause);
        let mut deeds = if self.reach { Vec::new() } else { scope::deeds(clause) };
        self.read_it(clause, &mut deeds);
        // "otter got the new membrane, van 12 the resin"
        let bare = Senses::of([
            Sense::plan,
            Sense::not,
            Sense::used_up,
            Sense::idle,
            Sense::place,
            Sense::cond,
        ]);
        if deeds.is_empty()
            && self.after_service
            && !rigs.is_empty()
            && !clause.hard
            && !self.reach
            && !clause.any(bare)
        {
            deeds.extend(
                scope::parts(clause.items)
                    .into_iter()
                    .filter(|_| !values.any_solids())
                    .map(Deed::Done),
            );
        }
        self.out.of_all |= clause.any(Senses::of([Sense::all, Sense::both])) && !deeds.is_empty() && rigs.is_empty();
        let asks = scope::is_question(clause);
        if self.reach || asks || clause.asked && !values.is_complete() {
            self.question(clause, rigs, foreign, asks || clause.asked, place);
            return;
        }
        // A condition reaches on, but for one that only compares a time.
        let first = clause.first_value().unwrap_or(clause.items.len());
        self.reach |= clause.items[..first]
            .iter()
            .any(|item| item.is(Sense::cond) && item.is_word());
        let silent = !values.any_solids() && !values.any_extra();
        if rigs.is_empty() && deeds.is_empty() && foreign == 0 && when.is_some() && silent {
            self.time_alone(clause, when, next);
            return;
        }
        // "yesterday: heron 180 12, otter 200 20"
        let titled = clause.items.get(1).is_some_and(|item| item.mark == Some(':'));
        if let (true, Some(Role::Time(time))) = (titled, clause.roles.first()) {
            self.list_time = Some(*time);
        }
        let tells = !rigs.is_empty() && values.any_solids() || !deeds.is_empty();
        let when = when.or_else(|| if tells { self.loose_time.take() } else { None });
        let percent = values.percent && !rigs.is_empty() && deeds.is_empty();
        let negated = denied.is_empty() && clause.is(Sense::not);
        let idle = silent && deeds.is_empty() && (negated || clause.any(Senses::of([Sense::idle, Sense::place])));
        // "all flushed but otter"
        let excepted = self.out.of_all && silent && deeds.is_empty() && clause.is(Sense::but) && foreign <= 1;
        if !silent || values.hole || values.garbled && !rigs.is_empty() || percent {
            self.values(clause, &rigs, values, when, foreign, place);
        } else if !rigs.is_empty() && !idle && !excepted && !(is_vague(clause) && foreign > 0) {
            self.rig_only(clause, &rigs, when, foreign, &deeds);
        }
        if !excepted && !(idle && !rigs.is_empty()) {
            self.services(clause, &rigs, &deeds, when, place);
        }
        if is_strange_title(clause) && rigs.is_empty() {
            self.finish();
            (self.heading, self.weight) = (vec![Hit::Unknown], Weight::Alone);
        }
        if (idle || excepted) && !rigs.is_empty() {
            let own: Vec<usize> = rigs.iter().filter_map(one).collect();
            self.deny(&own);
            return;
        }
        // "magpie: all fine, new membrane in beast"
        let words = clause
            .items
            .iter()
            .zip(clause.roles)
            .any(|(item, role)| item.is_word() && *role == Role::None);
        if rigs.is_empty() && silent && deeds.is_empty() && !clause.hard && words && self.weight == Weight::Alone {
            self.weight = Weight::Plain;
        }
        let said = foreign > 0 && silent && deeds.is_empty();
        let weight = match (said, is_alone(clause)) {
            (true, _) => Weight::Said,
            (false, true) => Weight::Alone,
            (false, false) => Weight::Plain,
        };
        self.head(clause, rigs, weight);
    }

    fn deny(&mut self, rigs: &[usize]) {
        self.out.denied.extend(rigs);
        let denied = &self.out.denied;
        self.heading
            .retain(|hit| one(hit).is_none_or(|rig| !denied.contains(&rig)));
    }

    /// "resin finished, changed it": the part that "it" stands for.
    fn read_it(&mut self, clause: &Clause, deeds: &mut Vec<Deed>) {
        let named = scope::parts(clause.items);
        let changes = clause
            .items
            .iter()
            .any(|item| item.is(Sense::change) && !item.is(Sense::finished) && item.is_word());
        let stands = clause.is(Sense::it) && changes && named.is_empty() && deeds.is_empty() && !clause.hard;
        if stands && !clause.any(Senses::of([Sense::plan, Sense::not, Sense::cond, Sense::modal])) {
            deeds.extend(self.last_parts.iter().map(|part| Deed::Done(*part)));
            // What was used up is the news no longer.
            self.out.all.retain(
                |frame| !matches!(frame.kind, Kind::Service(Deed::UsedUp(part)) if self.last_parts.contains(&part)),
            );
        }
        self.last_parts = named;
    }

    fn question(&mut self, clause: &Clause, rigs: Vec<Hit>, foreign: usize, asks: bool, place: usize) {
        self.reach |= clause.any(Senses::of([Sense::cond, Sense::ask]));
        if asks {
            let named = !rigs.is_empty();
            let own = if !named && !clause.hard {
                self.heading.clone()
            } else {
                rigs.clone()
            };
            self.finish();
            self.out.all.push(Frame {
                kind: Kind::Query,
                rigs: own,
                named,
                clause: place,
                ..Frame::default()
            });
        } else if foreign == 0 && !clause.hard {
            // "how is the big one doing, the trailer"
            if let Some(frame) = self.out.all.last_mut().filter(|frame| frame.kind == Kind::Query)
                && frame.rigs.is_empty()
            {
                frame.rigs.clone_from(&rigs);
            }
        }
        self.head(clause, rigs, Weight::Said);
    }

    fn time_alone(&mut self, clause: &Clause, when: Option<When>, next: Option<&Clause>) {
        match &mut self.open {
            Some(open) if !(clause.hard && next.is_some()) => {
                open.when = match (open.when, when) {
                    (Some(a), Some(b)) => Some(when::join(a, b)),
                    (a, b) => a.or(b),
                };
            }
            _ if clause.hard && next.is_some_and(|next| next.hard) => self.list_time = when,
            _ => self.loose_time = when,
        }
    }

    fn head(&mut self, clause: &Clause, rigs: Vec<Hit>, weight: Weight) {
        if rigs.is_empty() || is_vague(clause) {
            return;
        }
        // A rig that was named alone and has nothing yet waits for its values.
        let waits = self.weight == Weight::Alone && !self.heading.is_empty() && !self.out.has(&self.heading);
        let open = self.open.as_ref().is_some_and(|open| open.rigs == self.heading);
        if weight == Weight::Said && waits && !open {
            return;
        }
        (self.heading, self.weight) = (rigs, weight);
    }

    fn values(
        &mut self,
        clause: &Clause,
        rigs: &[Hit],
        values: Values,
        when: Option<When>,
        foreign: usize,
        place: usize,
    ) {
        let mode = scope::of_values(clause);
        self.out.unread.extend(&values.loose);
        // "yard tap 186: heron 12, otter 18"
        let feed_alone = values.feed.is_some() && values.perm.is_none() && values.bare.is_empty();
        let heads = feed_alone && self.several && self.single_next && self.open.is_none() && self.heading.is_empty();
        let said = clause.any(Senses::of([Sense::same, Sense::all]));
        let shared = (said || heads) && rigs.is_empty() && values.prod.is_none();
        let plain = |item: &&Item| item.is_word() && !item.any(SLOTS);
        let new = Frame {
            kind: Kind::Reading,
            rigs: rigs.to_vec(),
            named: !rigs.is_empty(),
            when,
            mode,
            foreign,
            tied: clause.items.iter().any(|item| item.is_mark("/>")),
            words: clause.items.iter().filter(plain).count(),
            loose: clause.hard,
            shared,
            other_rig: clause.is(Sense::other_rig),
            stranger: if rigs.is_empty() { stranger(clause) } else { None },
            clause: place,
            values,
            ..Frame::default()
        };
        let Some(open) = &mut self.open else {
            self.start(new);
            return;
        };
        let complete = open.values.is_complete();
        let oops = clause.is(Sense::oops);
        if let ([one], true) = (&new.values.bare[..], oops && !new.named && complete) {
            replace_nearest(&mut open.values, *one);
            return;
        }
        if shared {
            self.start(new);
            return;
        }
        if new.named {
            let bare = open.values.feed.is_none() && open.values.perm.is_none() && open.values.bare.is_empty();
            let waits = open.rigs.is_empty()
                && !open.shared
                && (open.foreign == 0 || open.values.strong)
                && (open.values.any_solids() || open.foreign == 0)
                && !complete
                && (bare || !new.values.is_complete());
            if waits {
                open.values.add(&new.values, true);
                (open.rigs, open.named) = (new.rigs, true);
            } else {
                self.start(new);
            }
            return;
        }
        self.add_without_rig(clause, new, complete);
    }

    /// Values without a rig of their own add to what is open, if they add anything.
    fn add_without_rig(&mut self, clause: &Clause, new: Frame, complete: bool) {
        let Some(open) = &mut self.open else { return };
        // "342 uS, that is 171 ppm": the same value once more.
        if let [ppm] = &new.values.bare[..] {
            let same = |old: &Solids| {
                ppm.raw_us.is_none() && old.raw_us.is_some_and(|raw| (0.4..0.8).contains(&(ppm.ppm / raw)))
            };
            if let Some(slot) = [&mut open.values.perm, &mut open.values.feed]
                .into_iter()
                .flatten()
                .find(|old| same(old))
            {
                *slot = *ppm;
                return;
            }
        }
        let one_remark = open.values.bare.len() == 1 && open.foreign > 0 && !open.values.strong;
        if !complete && new.values.is_complete() && one_remark {
            // A number of a remark is no part of the whole pair behind it.
            (open.values, open.foreign) = (new.values, new.foreign);
            (open.mode, open.when) = (new.mode, new.when);
            return;
        }
        if clause.hard && open.stranger.is_some() {
            self.out.unread.extend(&new.values.bare);
            return;
        }
        let begun = open.values.any_solids() || open.values.any_extra() || !open.rigs.is_empty();
        if !complete && new.values.any_solids() && begun {
            let bare = open.foreign == 0 && new.foreign == 0 || !open.rigs.is_empty() && new.foreign <= 1;
            let few = open.values.any_solids() && new.foreign <= 2;
            if new.values.strong || new.values.is_complete() || bare || few {
                open.values.add(&new.values, true);
                open.when = open.when.or(new.when);
                open.mode = if new.mode != Mode::Unreal { open.mode } else { new.mode };
            } else {
                self.out.unread.extend(&new.values.bare);
            }
            return;
        }
        let pair = values::pair_of(&new.values, false).0;
        if complete
            && new.values.is_complete()
            && new.stranger.is_some()
            && super::plausible::doubt(&pair, None).is_none()
        {
            self.start(new);
            return;
        }
        // Labelled values of a sentence of their own, whose rig may follow.
        let labelled = new.values.feed.is_some() || new.values.perm.is_some();
        if complete && clause.hard && labelled && new.values.strong {
            self.start(new);
            return;
        }
        let extras = Senses::of([Sense::temp, Sense::press, Sense::flow, Sense::waste]);
        let united = clause
            .roles
            .iter()
            .any(|role| matches!(role, Role::Free(Some(unit)) if unit.is_plain()));
        let named = united && (new.foreign <= 1 || new.values.temperature_c.is_some());
        let explicit = new.foreign == 0 || named || clause.any(extras.and(crate::language::senses::SOLIDS));
        if new.mode != Mode::Unreal && explicit {
            open.values.add(&new.values, !complete && new.foreign <= 1);
        }
        // "180 12 or maybe 21": a number too many is asked about.
        if complete
            && !clause.hard
            && !new.values.bare.is_empty()
            && new.mode != Mode::Unreal
            && (new.foreign == 0 || clause.any(Senses::of([Sense::either, Sense::bound])))
        {
            open.values.garbled = true;
        }
        if complete && new.foreign == 0 {
            self.out
                .unread
                .extend(new.values.solids().filter(|one| Some(*one) != new.values.prod));
        }
    }

    fn start(&mut self, mut new: Frame) {
        self.finish();
        if new.rigs.is_empty() && new.stranger.is_none() {
            new.rigs.clone_from(&self.heading);
        }
        new.when = new.when.or(self.list_time);
        self.open = Some(new);
    }

    fn rig_only(&mut self, clause: &Clause, rigs: &[Hit], when: Option<When>, foreign: usize, deeds: &[Deed]) {
        if let Some(open) = &mut self.open {
            // "it says 180 and 12, im on heron"
            let placed = clause
                .items
                .windows(2)
                .any(|two| two[0].is(Sense::prep) && two[0].is_word() && two[1].is_name());
            let free = open.rigs.is_empty() || !open.named && (open.loose || placed) && !clause.hard;
            if free && deeds.is_empty() && foreign <= 1 && open.values.any_solids() && !open.shared {
                (open.rigs, open.named, open.stranger) = (rigs.to_vec(), true, None);
                return;
            }
        }
        let too = clause.any(Senses::of([Sense::and, Sense::too]));
        if deeds.is_empty() && foreign == 0 && self.after_service && (when.is_some() || too) {
            // "heron flushed yesterday and otter today"
            if let Some(last) = self
                .out
                .all
                .iter()
                .rev()
                .find(|frame| matches!(frame.kind, Kind::Service(_)))
                .cloned()
            {
                self.out.all.push(Frame {
                    rigs: rigs.to_vec(),
                    when: when.or(last.when),
                    price: None,
                    ..last
                });
            }
            return;
        }
        if deeds.is_empty() || self.open.as_ref().is_some_and(|open| open.rigs != rigs) {
            self.finish();
        }
        self.give_waiting(rigs);
    }

    fn named_so_far(&self) -> Vec<Hit> {
        let mut out: Vec<Hit> = Vec::new();
        for hit in self
            .out
            .all
            .iter()
            .chain(&self.open)
            .filter(|frame| frame.kind == Kind::Reading)
            .flat_map(|f| &f.rigs)
        {
            if !out.contains(hit) {
                out.push(hit.clone());
            }
        }
        out
    }

    /// Services that were told without a rig are of the one that follows in the sentence.
    fn give_waiting(&mut self, rigs: &[Hit]) {
        let services = self
            .out
            .all
            .iter_mut()
            .rev()
            .filter(|frame| matches!(frame.kind, Kind::Service(_)));
        services.take(self.waiting).for_each(|frame| frame.rigs = rigs.to_vec());
        self.waiting = 0;
    }

    fn services(&mut self, clause: &Clause, rigs: &[Hit], deeds: &[Deed], when: Option<When>, place: usize) {
        let price = price_of(clause, self.text);
        let parts = deeds
            .iter()
            .filter(|deed| **deed != Deed::Done(crate::domain::ServiceKind::Flush))
            .count();
        self.out.price_shared |= price.is_some() && parts > 1;
        let price = price.filter(|_| parts <= 1);
        let minutes = clause
            .roles
            .iter()
            .position(|role| *role == Role::Minutes)
            .and_then(|at| clause.items[at].value());
        let minutes = minutes
            .filter(|minutes| *minutes <= 1440.0)
            .map(|minutes| minutes as u16);
        if deeds.is_empty() {
            let last = self.out.all.iter_mut().rev().find_map(|frame| match frame.kind {
                Kind::Service(deed) => Some((frame, deed)),
                _ => None,
            });
            if let Some((last, deed)) = last.filter(|_| self.after_service && rigs.is_empty()) {
                last.price = last.price.take().or_else(|| price.clone());
                let flush = deed == Deed::Done(crate::domain::ServiceKind::Flush);
                last.minutes = last.minutes.or(minutes.filter(|_| flush));
            }
            self.after_service = self.after_service && rigs.is_empty() && price.is_some();
            if !rigs.is_empty() && self.waiting > 0 {
                self.give_waiting(rigs);
            }
            return;
        }
        let listed =
            !clause.hard && self.weight == Weight::Alone && !self.out.has(&self.heading) && self.open.is_none();
        let own = match (rigs.is_empty(), listed) {
            _ if clause.is(Sense::rest) => Vec::new(),
            // "lynx 180/12, badger 200/15, both flushed"
            (true, _) if clause.any(Senses::of([Sense::both, Sense::all])) && self.named_so_far().len() > 1 => {
                self.named_so_far()
            }
            (true, _) => self.heading.clone(),
            // "heron, otter flushed"
            (false, true) => self.heading.iter().chain(rigs).cloned().collect(),
            (false, false) => rigs.to_vec(),
        };
        for deed in deeds {
            let flush = *deed == Deed::Done(crate::domain::ServiceKind::Flush);
            self.out.all.push(Frame {
                kind: Kind::Service(*deed),
                rigs: own.clone(),
                named: !rigs.is_empty(),
                minutes: minutes.filter(|_| flush),
                price: price.clone(),
                when,
                follows: clause.is(Sense::rest),
                foreign: clause.unknown(),
                clause: place,
                ..Frame::default()
            });
        }
        self.waiting = if own.is_empty() { self.waiting + deeds.len() } else { 0 };
        self.after_service = true;
    }
}

impl Frames {
    /// Whether a frame is about exactly these rigs.
    fn has(&self, rigs: &[Hit]) -> bool {
        self.all
            .iter()
            .any(|frame| rigs.iter().any(|rig| frame.rigs.contains(rig)))
    }
}

/// The one rig of a hit.
pub fn one(hit: &Hit) -> Option<usize> {
    if let Hit::One(rig) = hit { Some(*rig) } else { None }
}

/// It names rigs, perhaps with a time, and says nothing of them.
fn is_alone(clause: &Clause) -> bool {
    let small = Senses::of([Sense::prep, Sense::article, Sense::and, Sense::be]);
    clause
        .items
        .iter()
        .zip(clause.roles)
        .all(|(item, role)| item.is_name() || item.mark.is_some() || item.any(small) || matches!(role, Role::Time(_)))
}

/// Its rigs are named by a mere "the van".
fn is_vague(clause: &Clause) -> bool {
    clause
        .items
        .iter()
        .filter(|item| item.is_name())
        .all(|item| item.is(Sense::vehicle))
}

/// "Rig: Falcon" on a line of its own names a rig that nobody has.
fn is_strange_title(clause: &Clause) -> bool {
    matches!(clause.items, [first, mark, name, ..]
        if first.is(Sense::vehicle) && mark.mark == Some(':') && (name.unknown || name.is(Sense::ordinary)))
}

/// A word in no table right before the first number: what may be an unknown rig, and where it stands.
fn stranger(clause: &Clause) -> Option<(usize, usize)> {
    let first = clause.first_value()?;
    let small = Senses::of([Sense::filler, Sense::article]);
    let ahead: Vec<&Item> = clause.items[..first]
        .iter()
        .filter(|item| item.mark.is_none() && !item.any(SLOTS) && !item.any(small))
        .collect();
    let nameable = Senses::of([Sense::vehicle, Sense::ordinary, Sense::count]);
    let named = |item: &&Item| item.unknown || item.any(nameable) && item.senses.without(nameable).is_empty();
    let odd = |item: &&Item| item.unknown || item.any(Senses::of([Sense::ordinary, Sense::vehicle]));
    let all = !ahead.is_empty()
        && ahead.len() <= 2
        && clause.foreign() <= ahead.len()
        && ahead.iter().all(named)
        && ahead.iter().any(odd);
    all.then(|| (ahead[0].span.0, ahead[ahead.len() - 1].span.1))
}

/// "180 12, sorry 14": the number that it is a slip for.
fn replace_nearest(values: &mut Values, said: Solids) {
    let weight = |old: f64| plausible::slip_distance(old, said.ppm);
    let slots = values
        .bare
        .iter_mut()
        .chain(values.feed.as_mut())
        .chain(values.perm.as_mut());
    if let Some(slot) = slots.min_by(|a, b| weight(a.ppm).total_cmp(&weight(b.ppm))) {
        *slot = said;
    }
}
