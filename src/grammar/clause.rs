//! Items to clauses: what belongs together before anything is understood.
//!
//! A complete pair closes the head of a clause, and the first item that is no part of a reading starts the next. A
//! scope (a condition, a question) is a span that no cut may cross before its sentence ends.

use super::item::{Item, Items};
use super::role::Role;
use crate::language::senses::{DENIES, DONE, PARTS, SLOTS, STRONG, Sense, Senses, Subject, UNITS};

/// A stretch of a message that says one thing.
#[derive(Clone, Copy, Debug)]
pub struct Clause<'a> {
    pub items: &'a [Item],
    pub roles: &'a [Role],
    /// A full stop, a new line or the like stands before it.
    pub hard: bool,
    /// A question mark ends it.
    pub asked: bool,
    /// It stands in quotation marks.
    pub quoted: bool,
}

impl Items for Clause<'_> {
    fn items(&self) -> &[Item] {
        self.items
    }
}

impl Clause<'_> {
    pub fn first_value(&self) -> Option<usize> {
        self.roles.iter().position(|role| role.is_free())
    }
    pub fn last_value(&self) -> Option<usize> {
        self.roles.iter().rposition(|role| role.is_free())
    }
    /// How many words and numbers it has.
    pub fn size(&self) -> usize {
        self.items.iter().filter(|item| item.mark.is_none()).count()
    }
    /// How many items say something else than a reading of a rig.
    pub fn foreign(&self) -> usize {
        let other = |i: &usize| !is_core(self.items, self.roles, *i) && !self.items[*i].is(Sense::filler);
        (0..self.items.len()).filter(other).count()
    }
}

const GLUE: Senses = Senses::of([
    Sense::filler,
    Sense::article,
    Sense::and,
    Sense::over,
    Sense::at,
    Sense::same,
    Sense::it,
    Sense::am,
    Sense::pm,
    Sense::itwas,
    Sense::too,
]);
/// What reaches what follows it, so that a rig behind it belongs to it.
const BINDS: Senses = Senses::of([
    Sense::cond,
    Sense::norm,
    Sense::not,
    Sense::guess,
    Sense::says,
    Sense::modal,
    Sense::bound,
    Sense::plan,
    Sense::ask,
    Sense::oops,
]);
/// Ends of remarks, which bind nothing behind them.
const LOOSE: Senses = Senses::of([Sense::later, Sense::weekday, Sense::past, Sense::got, Sense::today]);
/// Words that turn what follows "and" into something else.
const TURNS: Senses = Senses::of([Sense::plan, Sense::not, Sense::ask, Sense::cond]);
/// What judges the pair that it follows.
const BACKWARD: Senses = Senses::of([Sense::past, Sense::guess, Sense::norm, Sense::says]);
const DEEDS: Senses = DONE.and(Senses::of([Sense::flush]));
const REACHES: Senses = Senses::of([Sense::ask, Sense::cond, Sense::norm]);
const UNCERTAIN: Senses = Senses::of([Sense::plan, Sense::cond, Sense::norm, Sense::guess, Sense::ask]);

/// Whether the item may stand in the plain reading of a rig without being news of something else.
pub fn is_core(items: &[Item], roles: &[Role], at: usize) -> bool {
    let item = &items[at];
    let number = |i: Option<usize>| i.is_some_and(|i| roles.get(i).is_some_and(|role| role.is_free()));
    if item.is_name() || item.mark.is_some() || matches!(roles[at], Role::Time(_) | Role::Free(_)) {
        return true;
    }
    if item.num.is_some() {
        return matches!(roles[at], Role::Percent | Role::Garbled);
    }
    let before_value = item.is(Sense::ppm) && (number(Some(at + 1)) || items.get(at + 1).is_some_and(|n| n.any(SLOTS)));
    if item.any(UNITS) && (number(at.checked_sub(1)) || before_value) {
        return true;
    }
    if item.any(STRONG) && !item.any(PARTS) {
        return true;
    }
    let beside = number(Some(at + 1))
        || number(at.checked_sub(1))
        || number(Some(at + 2)) && !items.get(at + 1).is_some_and(|n| n.unknown);
    if item.any(SLOTS) && beside {
        return true;
    }
    // "40q": the letter of a number that has one.
    let of_number = item.glued && item.letters == 1 && at > 0 && roles[at - 1] == Role::Garbled;
    let before_number = item.letters == 1
        && roles.get(at + 1) == Some(&Role::Garbled)
        && items.get(at + 1).is_some_and(|next| next.glued);
    of_number || before_number || item.any(GLUE) && !item.any(UNCERTAIN)
}

/// What a clause holds so far.
#[derive(Clone, Copy, Default)]
struct Held {
    /// Free solids.
    values: usize,
    /// Something that is no part of a reading.
    foreign: bool,
    /// The last rig, and how many values stood before it.
    rig: Option<(usize, usize)>,
    /// Nothing but links stands behind the last rig.
    ends_in_rig: bool,
    deed: bool,
    /// A question or condition has begun.
    scoped: bool,
}

struct Cutter<'a> {
    items: &'a [Item],
    roles: &'a [Role],
    out: Vec<Clause<'a>>,
    from: usize,
    hard: bool,
    held: Held,
    quoted: bool,
}

/// The clauses of a message.
pub fn cut<'a>(items: &'a [Item], roles: &'a [Role]) -> Vec<Clause<'a>> {
    let mut cutter = Cutter {
        items,
        roles,
        out: Vec::new(),
        from: 0,
        hard: true,
        held: Held::default(),
        quoted: false,
    };
    for at in 0..items.len() {
        match items[at].mark {
            Some(mark) => cutter.at_mark(at, mark),
            None => cutter.at_item(at),
        }
        if at >= cutter.from {
            cutter.hold(at);
        }
    }
    cutter.close(items.len(), items.len(), false, false);
    cutter.out
}

impl<'a> Cutter<'a> {
    fn close(&mut self, to: usize, next: usize, hard: bool, asked: bool) {
        if to > self.from {
            let (items, roles) = (&self.items[self.from..to], &self.roles[self.from..to]);
            self.out.push(Clause {
                items,
                roles,
                hard: self.hard,
                asked,
                quoted: self.quoted,
            });
            self.hard = hard;
        } else {
            if let (true, Some(last)) = (asked, self.out.last_mut()) {
                last.asked = true;
            }
            self.hard |= hard;
        }
        self.from = next;
        self.held = Held::default();
    }

    fn hold(&mut self, at: usize) {
        let item = &self.items[at];
        let core = is_core(self.items, self.roles, at);
        self.held.values += usize::from(self.roles[at].is_solids());
        self.held.foreign |= !core;
        if item.is_name() {
            self.held.rig = Some((at, self.held.values));
            self.held.ends_in_rig = true;
        } else if !(item.is_mark(",&/+-") || item.any(Senses::of([Sense::and, Sense::article]))) {
            self.held.ends_in_rig = false;
        }
        if item.is_word() {
            self.held.deed |= item.any(DEEDS);
            self.held.scoped |= item.any(REACHES) && !item.is(Sense::filler);
            // "pedro dice que ...": what somebody says reaches on.
            let who = |item: Option<&Item>| item.is_some_and(|i| i.unknown || i.is(Sense::speaker));
            let told = item.is(Sense::says) && (who(self.before(at)) || who(self.get(at + 1)));
            self.held.scoped |= told;
        }
    }

    fn get(&self, at: usize) -> Option<&'a Item> {
        self.items.get(at)
    }
    fn free(&self, at: usize) -> bool {
        self.roles.get(at).is_some_and(|role| role.is_free())
    }
    fn before(&self, at: usize) -> Option<&'a Item> {
        at.checked_sub(1).and_then(|i| self.items.get(i))
    }

    fn at_mark(&mut self, at: usize, mark: char) {
        let item = &self.items[at];
        let next = self.get(at + 1);
        let prev = self.before(at).filter(|_| at > self.from);
        let numbers = self.free(at + 1) && at > 0 && self.free(at - 1);
        match mark {
            // "?" holds the place of a number: "255/?"
            '?' if next.is_some_and(|n| n.is_mark("/?")) || prev.is_some_and(|p| p.mark == Some('/')) => {}
            '.' if next.is_some_and(|n| n.mark == Some('.')) || prev.is_some_and(|p| p.mark == Some('.')) => {}
            '\n' | '.' | ';' | '!' | '?' | '|'
                if !(matches!(mark, ';' | '|') && numbers && self.is_head_so_far(at)) =>
            {
                self.close(at, at + 1, true, mark == '?');
            }
            ',' if numbers && (self.held.values < 2 || self.ends(at + 2)) => {}
            ',' if self.free(at + 1)
                && prev.is_some_and(Item::is_name)
                && self.held.values == 0
                && !self.held.foreign => {}
            ',' if prev.is_some_and(Item::is_name) && self.lists(at) => {}
            '(' if self.free(at + 1) && self.get(at + 2).is_some_and(|n| n.mark == Some(')')) => {}
            ')' if at > 1 && self.free(at - 1) && self.items[at - 2].mark == Some('(') => {}
            // An inch is no quotation.
            '"' if prev.is_some_and(|p| p.num.is_some()) && item.glued && !self.quoted => {}
            '"' => {
                self.close(at, at + 1, false, false);
                self.quoted = !self.quoted;
            }
            ',' | '(' | ')' => self.close(at, at + 1, false, false),
            '-' if !item.glued
                && next.is_some_and(|n| !n.glued && (n.num.is_none() || self.held.values >= 2))
                && prev.is_some_and(|p| !p.is_name()) =>
            {
                self.close(at, at + 1, false, false);
            }
            mark if !mark.is_ascii()
                && !self.free(at + 1)
                && !"\u{20ac}\u{a3}\u{b1}\u{d7}".contains(mark)
                && self.held.values != 1 =>
            {
                self.close(at, at + 1, false, false);
            }
            _ => {}
        }
    }

    /// One value so far and the next one behind this mark: the mark ties them.
    fn is_head_so_far(&self, at: usize) -> bool {
        self.held.values == 1 && !self.held.foreign && self.items[at].glued
    }

    fn at_item(&mut self, at: usize) {
        if at == self.from {
            return;
        }
        let over = self.starts_over(at);
        // "180/12 heron 200/20 otter"
        let behind = self.free(at) && self.held.ends_in_rig && self.held.rig.is_some_and(|(_, values)| values >= 2);
        if !(over || behind || self.is_second(at) || self.is_tail(at) || self.turns(at) || self.is_pair_anew(at)) {
            return;
        }
        let start = if over { self.begins(at) } else { at };
        let joined = self.before(start).is_some_and(Item::is_link);
        let to = if (over || behind) && start > self.from && joined {
            start - 1
        } else {
            start
        };
        self.close(to, start, false, false);
        for i in start..at {
            self.hold(i);
        }
    }

    /// A rig begins the next clause.
    fn starts_over(&self, at: usize) -> bool {
        let Some(prev) = self.before(at).filter(|_| self.items[at].is_name()) else {
            return false;
        };
        if self.held.rig.is_some() {
            // "moved the membrane from heron to otter"
            let goes = prev.is(Sense::prep) && prev.is_word();
            let ahead = || self.items[self.from..at].iter().filter(|item| item.is_word());
            let goes = goes && ahead().any(|item| item.is(Sense::moved))
                || super::scope::goes_over(&self.items[self.from..=at]);
            if goes && ahead().any(|item| item.any(PARTS)) {
                return false;
            }
            let said = self.held.foreign && !self.is_scoped(at) || self.held.values > 0;
            return !self.held.ends_in_rig || self.predicate(at) && said;
        }
        let joined = prev.is(Sense::and) && prev.is_word();
        let binds = prev.any(BINDS) && !prev.any(LOOSE) || prev.any(Senses::of([Sense::prep, Sense::article]));
        let remark = self.from + 1 == at && self.items[self.from].is(Sense::past);
        self.held.foreign
            && !self.is_scoped(at)
            && !remark
            && (self.is_head(at) || joined && self.predicate(at))
            && (!binds || joined)
    }

    /// "and new filters on van 3": behind "and" something is said, and then of whom.
    fn is_second(&self, at: usize) -> bool {
        let item = &self.items[at];
        if !(item.is(Sense::and) && item.is_word()) {
            return false;
        }
        let said = self.held.rig.is_some() && (!self.held.ends_in_rig || self.held.foreign || self.held.values > 0);
        let other = self
            .get(at + 1)
            .is_some_and(|n| n.any(Senses::of([Sense::foreign, Sense::speaker])) && n.is_word());
        said && (self.leads(at) || other) || self.held.foreign && !self.held.deed && self.leads(at)
    }

    /// The pair is complete, and this is no part of it.
    fn is_tail(&self, at: usize) -> bool {
        let item = &self.items[at];
        if self.held.values < 2 {
            return false;
        }
        if item.num.is_some() {
            let counted = matches!(
                self.roles[at],
                Role::Explained | Role::Minutes | Role::Price | Role::Amount | Role::Garbled
            );
            return counted || self.tells(at);
        }
        let judged = Senses::of([Sense::be, Sense::not, Sense::idle]);
        let subject = matches!(self.roles[at], Role::Time(_)) && self.get(at + 1).is_some_and(|n| n.any(judged));
        // "180/12 van needs diesel"
        let vague = item.is_name() && item.is(Sense::vehicle) && self.predicate(at);
        // "was 180/12 last week": the time of what stands before it.
        let says = item.unknown && self.get(at + 1).is_some_and(|n| n.is(Sense::says) && n.is_word());
        let ahead = item.any(Senses::of([Sense::plan, Sense::modal]));
        let sample = item.is(Sense::cond) && item.words > 1;
        let judges = item.any(BACKWARD) && !ahead || says || sample;
        let dated = judges
            && item.is_word()
            && self.before(at).is_some_and(|p| p.num.is_some())
            && (!self.held.foreign || item.is(Sense::guess));
        !(dated && !self.get(at + 1).is_some_and(|n| n.any(judged)))
            && (!is_core(self.items, self.roles, at) || subject || vague)
    }

    /// "but ...", "and not ..."
    fn turns(&self, at: usize) -> bool {
        let item = &self.items[at];
        if !item.is_word() {
            return false;
        }
        let scoped = || {
            let next = self.items[at + 1..].iter().take(3);
            next.clone().any(|n| n.any(TURNS) && !n.any(SLOTS)) && (self.held.foreign || self.held.values >= 2)
        };
        item.is(Sense::but) || item.is(Sense::and) && scoped()
    }

    /// "tank 3/4 full 180/12": a tied pair behind other words begins anew, if nobody is named.
    fn is_pair_anew(&self, at: usize) -> bool {
        let value = |i: usize| self.get(i).filter(|_| self.free(i)).and_then(Item::value);
        let falls = matches!((value(at), value(at + 2)), (Some(a), Some(b)) if a >= 50.0 && b < a / 3.0);
        let Some(prev) = self.before(at).filter(|_| falls && at > self.from + 1) else {
            return false;
        };
        let binds = prev.any(BINDS) && !prev.any(LOOSE);
        self.get(at + 1).is_some_and(|n| n.is_mark("/>"))
            && self.ends(at + 3)
            && self.held.rig.is_none()
            && self.held.foreign
            && !self.is_scoped(at)
            && !prev.any(SLOTS)
            && !binds
            && !prev.unknown
            && !prev.any(Senses::of([Sense::ordinary, Sense::vehicle]))
    }

    /// "5 star", "10/10 customer": a bare number whose next word is none of a reading's.
    fn tells(&self, at: usize) -> bool {
        let tied =
            self.get(at + 1).is_some_and(|n| n.is_mark("/-")) && self.get(at + 2).is_some_and(|n| n.num.is_some());
        let next = if tied { at + 3 } else { at + 1 };
        let other = self
            .get(next)
            .is_some_and(|n| n.is_word() && !is_core(self.items, self.roles, next));
        let prev = self.before(at);
        self.roles[at] == Role::Free(None)
            && other
            && !prev.is_some_and(|p| p.any(SLOTS) || p.is(Sense::and) || p.is_mark("/>-"))
    }

    fn leads(&self, at: usize) -> bool {
        let said =
            |n: &Item| n.num.is_some() || !n.any(Senses::of([Sense::filler, Sense::article, Sense::both, Sense::all]));
        let mut any = false;
        for item in &self.items[at + 1..] {
            if item.is_name() {
                return any;
            }
            if item.is_mark("\n.;!?,|") || item.is(Sense::and) && item.is_word() {
                return false;
            }
            any |= said(item);
        }
        false
    }

    /// Where the clause of the rig at `at` begins: behind "and", if only times stand between.
    fn begins(&self, at: usize) -> usize {
        let small = |i: &usize| {
            let item = &self.items[*i];
            matches!(self.roles[*i], Role::Time(_))
                || item.is_word() && item.any(Senses::of([Sense::filler, Sense::article])) && !item.is(Sense::and)
        };
        let denies = |item: &Item| item.is_word() && item.any(DENIES);
        // "flushed lynx changed resin badger"
        if let Some((rig, _)) = self.held.rig {
            let verbs = Senses::of([Sense::change, Sense::flushed, Sense::repack, Sense::remetered]);
            let led = self.items[self.from..rig]
                .iter()
                .any(|item| item.is_word() && item.any(DEEDS));
            let verb = (rig + 1..at).find(|i| self.items[*i].is_word() && self.items[*i].any(verbs));
            if let Some(verb) = verb.filter(|_| led) {
                return verb;
            }
        }
        let ahead = (self.from + 1..at).rev();
        let link = Senses::of([Sense::prep, Sense::article, Sense::be, Sense::it]);
        let denied = ahead
            .clone()
            .take(3)
            .take_while(|i| self.items[*i].any(link) || denies(&self.items[*i]));
        if let Some(not) = denied.filter(|i| denies(&self.items[*i])).last() {
            return not;
        }
        let from = ahead.take_while(small).last().unwrap_or(at);
        let and = self.before(from).is_some_and(|p| p.is(Sense::and) && p.is_word());
        if from < at && and { from } else { at }
    }

    /// The run of numbers ends before `at`.
    fn ends(&self, at: usize) -> bool {
        self.get(at).is_none_or(|n| n.mark.is_some() && !n.is_mark("/>-"))
    }

    /// A question or condition has begun, which reaches over what follows.
    fn is_scoped(&self, at: usize) -> bool {
        let first = &self.items[self.from];
        let request = first.is(Sense::modal) || first.asks(Subject::who);
        self.held.scoped || first.is(Sense::ask0) && at - self.from <= 3 && !request
    }

    /// The comma at `at` parts two rigs of a list.
    fn lists(&self, at: usize) -> bool {
        let small = |item: &&Item| item.is_word() && item.any(Senses::of([Sense::and, Sense::article]));
        let next = at + 1 + self.items[at + 1..].iter().take_while(small).count();
        let ends = Senses::of([Sense::and, Sense::too, Sense::both, Sense::all]);
        let alone = |after: &Item| after.mark.is_some() || after.any(ends);
        let time = matches!(self.roles.get(next + 1), Some(Role::Time(_)));
        let last = time || self.get(next + 1).is_none_or(alone);
        self.get(next).is_some_and(Item::is_name) && last && !self.predicate(next)
    }

    /// Something is said of the rig at `rig` behind it, before the next mark or rig.
    fn predicate(&self, rig: usize) -> bool {
        let small = Senses::of([Sense::filler, Sense::article, Sense::and, Sense::both, Sense::all]);
        let next = self.items[rig + 1..].iter().zip(&self.roles[rig + 1..]);
        next.take_while(|(n, _)| !n.is_name() && (n.mark.is_none() || n.is_mark(":=-/>")))
            .any(|(n, role)| n.mark.is_none() && !matches!(role, Role::Time(_)) && (n.num.is_some() || !n.any(small)))
    }

    /// Rig, then perhaps a label, then a number.
    fn is_head(&self, rig: usize) -> bool {
        let skips = |item: &&Item| {
            item.is_mark(":-,>/=(")
                || item.any(SLOTS) && item.is_word()
                || item.is_word() && item.any(Senses::of([Sense::filler, Sense::article])) && !item.is(Sense::and)
        };
        let next = rig + 1 + self.items[rig + 1..].iter().take_while(skips).count();
        self.free(next)
    }
}
