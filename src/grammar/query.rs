//! What is asked for, by the words of a clause that asks.

use super::clause::Clause;
use super::frame::one;
use super::item::{Item, Items};
use super::message::Message;
use super::role::Role;
use super::scope;
use crate::domain::ServiceKind as What;
use crate::domain::meaning::When;
use crate::domain::query::{Detail, Query, Span, Topic};
use crate::domain::term::Term;
use crate::language::lexicon::LEXICON;
use crate::language::senses::{PARTS, SOLIDS, Sense, Senses, Subject, Subjects};

/// A short question has so many words at most.
const SHORT: usize = 5;

/// A clause that asks, and of whom.
struct Asked<'a> {
    clause: &'a Clause<'a>,
    rigs: Vec<i64>,
}

/// The questions of a message.
pub fn find(message: &Message, own: Option<i64>) -> Vec<Query> {
    let scene = message.scene;
    let mut out: Vec<Query> = Vec::new();
    let read = |rig: &crate::language::names::Hit| {
        message
            .frames
            .readings()
            .any(|frame| frame.mode == scope::Mode::Asserted && frame.rigs.contains(rig))
    };
    for frame in message.frames.queries() {
        // "180 12, is that ok?": the answer to the reading says it.
        if !frame.named && frame.rigs.iter().any(read) {
            continue;
        }
        let Some(clause) = message.clauses.get(frame.clause) else {
            continue;
        };
        let rigs: Vec<i64> = frame
            .rigs
            .iter()
            .filter_map(one)
            .filter_map(|at| scene.fleet.get(at))
            .map(|rig| rig.id)
            .collect();
        add(&Asked { clause, rigs }, own, &mut out);
    }
    out
}

/// A message of one word or name, or of a name and a topic, asks without any word of asking.
pub fn terse(message: &Message, own: Option<i64>) -> Vec<Query> {
    let mut out = Vec::new();
    let [clause] = &message.clauses[..] else { return out };
    let mut rigs: Vec<i64> = message.rigs().into_iter().map(|(rig, _)| rig).collect();
    let size = clause.size();
    let is_name = rigs.len() == 1 && size == 1;
    // "why?" alone asks of the last reading.
    if rigs.is_empty() && clause.asks(Subject::why) && size == 1 {
        rigs.extend(message.scene.last.last().and_then(|last| last.rig).or(own));
    }
    let numbers = clause.items.iter().any(|item| item.num.is_some());
    let most = if clause.is(Sense::vehicle) { 3 } else { 2 };
    if let ([rig], true) = (&rigs[..], is_name) {
        out.push(Query::of(Some(*rig), Topic::Status));
    } else if size <= (if rigs.is_empty() { most } else { 5 })
        && (!numbers || clause.is(Sense::last))
        && clause.items.iter().all(|item| !item.is_word() || is_topical(item))
    {
        add(&Asked { clause, rigs }, own, &mut out);
    } else if let ([_], true) = (
        &rigs[..],
        size <= 4 && !numbers && clause.any(PARTS) && clause.unknown() <= 1,
    ) {
        // "wen membrane mule"
        if !clause.any(Senses::of([
            Sense::plan,
            Sense::not,
            Sense::fresh,
            Sense::got,
            Sense::place,
            Sense::used_up,
        ])) {
            add(&Asked { clause, rigs }, own, &mut out);
        }
    }
    out
}

fn is_topical(item: &Item) -> bool {
    let small = Senses::of([Sense::filler, Sense::article, Sense::vehicle, Sense::all]);
    let topics = Subjects::of([
        Subject::help,
        Subject::fleet,
        Subject::shopping,
        Subject::quiet,
        Subject::status,
        Subject::history,
        Subject::last,
        Subject::trend,
        Subject::rejection,
        Subject::picture,
        Subject::why,
        Subject::we,
        Subject::worst,
        Subject::compare,
        Subject::now,
        Subject::log,
    ]);
    item.subjects.any(topics) || item.any(small) || item.any(Senses::of([Sense::last, Sense::prep, Sense::and]))
}

fn add(asked: &Asked, own: Option<i64>, out: &mut Vec<Query>) {
    let Some(topic) = asked.topic() else { return };
    if asked.rigs.is_empty() && !asked.is_ours(topic, own.is_some()) {
        return;
    }
    let detail = asked.detail(topic);
    let of_rig = matches!(
        topic,
        Topic::Status
            | Topic::MembraneWhen
            | Topic::ResinWhen
            | Topic::LastReading
            | Topic::Rejection
            | Topic::Trend
            | Topic::History
    );
    let mine = own.filter(|_| of_rig);
    let rigs: Vec<Option<i64>> = if asked.rigs.is_empty() {
        vec![mine]
    } else {
        asked.rigs.iter().map(|rig| Some(*rig)).collect()
    };
    for rig in rigs {
        if !out.iter().any(|query| query.rig == rig && query.topic == topic) {
            out.push(Query { rig, topic, detail });
        }
    }
}

impl Asked<'_> {
    fn asks(&self, subject: Subject) -> bool {
        self.clause.asks(subject)
    }
    fn any(&self, senses: Senses) -> bool {
        self.clause.any(senses)
    }
    fn is(&self, sense: Sense) -> bool {
        self.clause.is(sense)
    }
    fn has_values(&self) -> bool {
        self.clause.roles.iter().any(|role| role.is_free())
    }
    fn named(&self) -> bool {
        !self.rigs.is_empty()
    }

    fn topic(&self) -> Option<Topic> {
        self.of_words().or_else(|| self.of_parts()).or_else(|| self.of_rigs())
    }

    /// Topics that a word names outright.
    fn of_words(&self) -> Option<Topic> {
        let clause = self.clause;
        let part = self.any(PARTS);
        let few = clause.unknown() <= 1;
        if self.asks(Subject::what_if) && (part || self.asks(Subject::cost)) && few {
            return Some(Topic::WhatIf);
        }
        let ours = self.named() || part || self.asks(Subject::we) || self.is(Sense::vehicle);
        if self.asks(Subject::cost) && ours && few {
            return Some(Topic::Cost);
        }
        let explained = clause.items.iter().filter(|item| item.asks(Subject::state)).count() == 1;
        if explained && self.asks(Subject::means) && !self.named() && clause.unknown() == 0 && !self.has_values() {
            return Some(Topic::Explain);
        }
        // "what is permeate": the bare word; with an article its value is asked for.
        let alone = self.clause.items.iter().filter(|item| item.is_word()).count() == 2;
        if explained && alone && self.asks(Subject::what) && !self.named() && !self.has_values() {
            return Some(Topic::Explain);
        }
        if self.asks(Subject::help) && (!self.named() || self.has_values()) {
            return Some(Topic::Help);
        }
        if self.asks(Subject::shopping) && !self.named() {
            return Some(Topic::Shopping);
        }
        let unlogged =
            self.asks(Subject::log) && self.is(Sense::not) && (self.asks(Subject::who) || self.is(Sense::vehicle));
        if self.asks(Subject::quiet) || unlogged && !self.any(Senses::of([Sense::flushed])) {
            return Some(Topic::Quiet);
        }
        if self.any(Senses::of([Sense::flushed, Sense::flush])) {
            let who = self.asks(Subject::who) && self.named() && self.is(Sense::flushed) && !self.is(Sense::not);
            return Some(
                if self.asks(Subject::shall) || self.asks(Subject::why) && !self.named() {
                    Topic::Help
                } else if who {
                    Topic::WhoLogged
                } else {
                    Topic::FlushStatus
                },
            );
        }
        None
    }

    /// Topics of membrane, resin and filters.
    fn of_parts(&self) -> Option<Topic> {
        if !self.any(PARTS) {
            return None;
        }
        if self.asks(Subject::why) && self.named() && !self.has_values() {
            return Some(Topic::Why);
        }
        let wants = Senses::of([Sense::change, Sense::fresh, Sense::plan, Sense::used_up]);
        let due = self.asks(Subject::due)
            || self.asks(Subject::how)
            || self.any(wants)
            || self.asks(Subject::when)
            || self.clause.size() <= 4;
        let changed = self.asks(Subject::history) || self.any(Senses::of([Sense::change, Sense::fresh]));
        let who = self.asks(Subject::who) && self.is(Sense::change) && !self.is(Sense::plan);
        if who && self.named() && !self.is(Sense::not) {
            return Some(Topic::WhoLogged);
        }
        let past = self.asks(Subject::did) || self.asks(Subject::history);
        if past && changed && !self.asks(Subject::status) {
            return Some(Topic::History);
        }
        if !due {
            return None;
        }
        Some(if self.is(Sense::membrane) {
            Topic::MembraneWhen
        } else if self.is(Sense::resin) {
            Topic::ResinWhen
        } else {
            Topic::Status
        })
    }

    /// Topics of rigs and of the fleet.
    fn of_rigs(&self) -> Option<Topic> {
        let named = self.named();
        if self.asks(Subject::why) && named && !self.has_values() && !self.asks(Subject::trend) {
            return Some(Topic::Why);
        }
        if self.asks(Subject::why) && named {
            return Some(Topic::Trend);
        }
        if self.asks(Subject::picture) && (named || self.clause.size() <= 3) && !self.has_values() {
            return Some(Topic::Picture);
        }
        let who = self.asks(Subject::who) && self.asks(Subject::log) && !self.is(Sense::not);
        if who && named {
            return Some(Topic::WhoLogged);
        }
        let all = self.is(Sense::all) || self.asks(Subject::we);
        if self.asks(Subject::compare) && (self.rigs.len() > 1 || !named && (all || self.is(Sense::vehicle))) {
            return Some(Topic::Compare);
        }
        if self.asks(Subject::advice) && !named && !self.asks(Subject::rejection) {
            return Some(Topic::Help);
        }
        let worst = self.asks(Subject::worst) && !named;
        let whole =
            !named && self.asks(Subject::status) && (self.clause.items.len() == 1 || all && self.is(Sense::vehicle));
        if whole {
            return Some(Topic::Fleet);
        }
        if self.asks(Subject::fleet) && !named || self.clause.items.len() == 1 && self.asks(Subject::we) || worst {
            return Some(Topic::Fleet);
        }
        if self.asks(Subject::trend) {
            return Some(Topic::Trend);
        }
        if self.asks(Subject::rejection) || self.clause.roles.contains(&Role::Percent) {
            let past =
                self.asks(Subject::history) || self.clause.roles.iter().any(|role| matches!(role, Role::Time(_)));
            return Some(if past && self.asks(Subject::did) {
                Topic::History
            } else {
                Topic::Rejection
            });
        }
        // "the last 10 readings"
        let counted = self.asks(Subject::last) && self.has_values() && self.is(Sense::last);
        if (self.asks(Subject::history) || counted) && !self.asks(Subject::advice) {
            return Some(Topic::History);
        }
        let phrase = named
            && self
                .clause
                .items
                .iter()
                .any(|item| item.is(Sense::ask) && item.words > 1);
        let what = self.asks(Subject::what) && self.clause.unknown() == 0;
        let day = self
            .clause
            .roles
            .iter()
            .any(|role| matches!(role, Role::Time(when) if *when != When::DaysBack(0)));
        if named && what && day && self.asks(Subject::did) {
            return Some(Topic::History);
        }
        if self.asks(Subject::last) || named && (self.asks(Subject::log) || what && !phrase) {
            return Some(Topic::LastReading);
        }
        let how = self.asks(Subject::how) || self.asks(Subject::status);
        if self.asks(Subject::advice) && !(named && how) {
            return Some(Topic::Help);
        }
        if how || phrase || self.asks(Subject::we) {
            return Some(Topic::Status);
        }
        // "what's heron on"
        if !named && what && self.any(SOLIDS.and(Senses::of([Sense::temp, Sense::press]))) {
            return Some(Topic::Help);
        }
        None
    }

    /// Without a rig a question is ours only if its words are of water, or if it is short and plain.
    fn is_ours(&self, topic: Topic, own: bool) -> bool {
        let items = self.clause.items;
        if let [only] = items {
            let alone = Subjects::of([
                Subject::we,
                Subject::help,
                Subject::fleet,
                Subject::shopping,
                Subject::quiet,
            ]);
            return only.subjects.any(alone)
                || topic == Topic::Fleet
                || own && only.any(PARTS) && !only.is(Sense::bottles);
        }
        let deeds = Senses::of([Sense::ppm, Sense::us, Sense::flushed, Sense::flush, Sense::vehicle]);
        let parts = |item: &Item| item.any(PARTS) && !item.is(Sense::bottles);
        let labels = Senses::of([Sense::feed, Sense::perm, Sense::temp, Sense::press]);
        let water = self.any(deeds.and(labels)) || items.iter().any(|item| item.is_word() && parts(item));
        let rejection = items.iter().any(|item| item.asks(Subject::rejection) && item.is_word());
        let whole = Subjects::of([Subject::help, Subject::shopping, Subject::fleet, Subject::quiet]);
        let phrase = items.iter().any(|item| item.subjects.any(whole) && item.words > 1) && self.clause.unknown() <= 1;
        let short = self.clause.size() <= SHORT;
        let known = self.clause.unknown() == 0;
        match topic {
            Topic::Help => {
                let advises = self.asks(Subject::advice);
                phrase
                    || (water || rejection) && (short || advises || known)
                    || self.has_values() && known
                    || self.asks(Subject::help) && items.len() <= 2
                    || short && known && advises && self.asks(Subject::last)
            }
            Topic::Explain | Topic::WhatIf | Topic::Cost => known,
            Topic::Fleet => {
                phrase || self.asks(Subject::worst) && (self.is(Sense::vehicle) || self.asks(Subject::we)) && known
            }
            Topic::Quiet => {
                phrase || known && (self.is(Sense::vehicle) || self.asks(Subject::who) && self.asks(Subject::log))
            }
            Topic::Status => short && known && self.asks(Subject::we) && self.asks(Subject::how) || phrase,
            Topic::Picture => known && water,
            _ => (water || rejection || phrase) && self.clause.unknown() <= 1,
        }
    }

    fn detail(&self, topic: Topic) -> Detail {
        let about_part = matches!(
            topic,
            Topic::Cost | Topic::WhatIf | Topic::WhoLogged | Topic::Why | Topic::History | Topic::Explain
        );
        let flush = self
            .any(Senses::of([Sense::flushed, Sense::flush]))
            .then_some(What::Flush);
        let part = scope::parts(self.clause.items)
            .into_iter()
            .next()
            .or(flush)
            .filter(|_| about_part && topic != Topic::Explain);
        let explains = matches!(topic, Topic::Explain | Topic::Why);
        let term = self
            .clause
            .items
            .iter()
            .find(|item| item.asks(Subject::state) && item.is_word());
        let what_if = topic == Topic::WhatIf;
        Detail {
            part,
            amount: if what_if { self.amount() } else { None },
            percent: if what_if { self.percent() } else { None },
            span: self.span(),
            term: term
                .filter(|_| explains)
                .and_then(|item| Term::of_key(LEXICON.name(item.name))),
        }
    }

    fn number_of(&self, fits: impl Fn(Role) -> bool) -> Option<f64> {
        let at = self.clause.roles.iter().position(|role| fits(*role))?;
        self.clause.items[at].value()
    }

    /// The supposed price: with its currency, else the only number.
    fn amount(&self) -> Option<f64> {
        if self.percent().is_some() {
            return None;
        }
        self.number_of(|role| role == Role::Price).or_else(|| {
            let numbers = self.clause.roles.iter().filter(|role| role.is_free()).count();
            (numbers == 1).then(|| self.number_of(Role::is_free)).flatten()
        })
    }

    /// By how many per cent a price is supposed to change: below zero, cheaper.
    fn percent(&self) -> Option<f64> {
        let percent = self.number_of(|role| role == Role::Percent)?;
        Some(if self.asks(Subject::cheaper) { -percent } else { percent })
    }

    fn span(&self) -> Option<Span> {
        let items = self.clause.items;
        let named = items
            .iter()
            .find(|item| item.asks(Subject::period))
            .map(|item| LEXICON.name(item.name));
        if let Some(span) = named.and_then(span_of) {
            return Some(span);
        }
        let year = items
            .iter()
            .filter_map(Item::value)
            .find(|value| (2000.0..2100.0).contains(value))
            .map(|year| year as i16);
        let months: Vec<(usize, u8)> = (0..items.len())
            .filter(|&at| {
                items[at].any(Senses::of([Sense::month, Sense::past]))
                    && items[at].is_word()
                    && (1..=12).contains(&items[at].value)
            })
            .map(|at| (at, items[at].value as u8))
            .collect();
        let opens = |at: usize| at > 0 && items[at - 1].asks(Subject::from);
        match months[..] {
            [(_, from), (_, to), ..] => Some(Span::Months {
                year,
                from,
                to: Some(to),
            }),
            [(at, from)] => Some(Span::Months {
                year,
                from,
                to: (!opens(at)).then_some(from),
            }),
            [] => {
                let at = items
                    .iter()
                    .position(|item| item.value().is_some_and(|v| (2000.0..2100.0).contains(&v)))?;
                Some(Span::Months {
                    year,
                    from: 1,
                    to: (!opens(at)).then_some(12),
                })
            }
        }
    }
}

fn span_of(name: &str) -> Option<Span> {
    Some(match name {
        "today" => Span::Today,
        "yesterday" => Span::Yesterday,
        "this week" => Span::ThisWeek,
        "last week" => Span::LastWeek,
        "this month" => Span::ThisMonth,
        "last month" => Span::LastMonth,
        "this quarter" => Span::ThisQuarter,
        "last quarter" => Span::LastQuarter,
        "this year" => Span::ThisYear,
        "last year" => Span::LastYear,
        _ => return None,
    })
}
