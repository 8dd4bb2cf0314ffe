//! Corrections of what the sender told last: old value to new value, wrong rig, wrong time, withdrawn, put back.
//!
//! Nothing is overwritten without a word of correction. A number that equals a stored one names its slot, and the
//! other number is what it should have been.

use super::ask;
use super::item::Items;
use super::message::Message;
use super::plausible;
use super::resolve::rig_of;
use super::values::pair_of;
use crate::domain::ServiceKind as What;
use crate::domain::meaning::{About, Amend, Correction, Meaning, Price, Reading, Scene, Solids, When};
use crate::language::lexer::Form;
use crate::language::senses::{SLOTS, Sense, Senses, UNITS};

/// A correction by a weak word ("that was") has few words.
const FEW: usize = 8;
/// Between these a bare number is taken for a feed or a permeate when no reading is at hand; common practice.
const MOST_PERMEATE_PPM: f64 = 60.0;

/// A number of a message that may be a value.
#[derive(Clone, Copy)]
struct Said {
    at: usize,
    value: f64,
    denied: bool,
}

#[derive(Clone, Copy, PartialEq)]
enum Slot {
    Feed,
    Permeate,
    Product,
}

impl Slot {
    const ALL: [Slot; 3] = [Slot::Feed, Slot::Permeate, Slot::Product];

    fn of(self, reading: &Reading) -> Option<Solids> {
        match self {
            Slot::Feed => reading.feed,
            Slot::Permeate => reading.permeate,
            Slot::Product => reading.product,
        }
    }
    fn put(self, reading: &mut Reading, value: Solids) {
        match self {
            Slot::Feed => reading.feed = Some(value),
            Slot::Permeate => reading.permeate = Some(value),
            Slot::Product => reading.product = Some(value),
        }
    }
}

/// The words of correction that a message holds.
struct Cues {
    starred: bool,
    undo: bool,
    oops: bool,
    /// "That was", "it is": weak.
    was: bool,
    contrast: bool,
}

impl Cues {
    fn of(message: &Message, numbers: &[Said]) -> Cues {
        let denied = numbers.iter().filter(|one| one.denied).count();
        let no_first = message
            .items
            .first()
            .is_some_and(|item| item.is(Sense::no) && item.is_word());
        Cues {
            starred: message.size() <= 3 && message.has_mark("*"),
            undo: message.is(Sense::undo),
            oops: message.any(Senses::of([Sense::oops, Sense::swap])) || is_order(message, numbers),
            was: message.any(Senses::of([Sense::itwas, Sense::sorry])) || no_first || labelled_past(message, numbers),
            contrast: denied > 0 && numbers.len() > denied,
        }
    }
    fn is_strong(&self) -> bool {
        self.starred || self.undo || self.oops || self.contrast
    }
}

/// "change mule feed to 265"
fn is_order(message: &Message, numbers: &[Said]) -> bool {
    let first = message
        .items
        .first()
        .is_some_and(|item| item.is(Sense::fix) && item.is_word());
    first && numbers.len() == 1 && message.values().strong
}

/// "ro was 21"
fn labelled_past(message: &Message, numbers: &[Said]) -> bool {
    let past = message
        .items
        .iter()
        .any(|item| item.is(Sense::be) && item.asks(crate::language::Subject::did));
    past && numbers.len() == 1 && message.values().strong && !message.names_rig()
}

/// What a message corrects, withdraws or puts back; `None` when it is something else.
pub fn find(message: &Message) -> Option<Meaning> {
    let scene = message.scene;
    if message.is(Sense::put_back) && message.size() <= FEW && !message.is_question() {
        return Some(Meaning {
            put_back: true,
            ..Meaning::default()
        });
    }
    let numbers = numbers_of(message);
    let cues = Cues::of(message, &numbers);
    if scene.overheard && !is_plain(message, &numbers, &cues) || message.is_question() {
        return None;
    }
    if !scene.last_services.is_empty() {
        if let Some(amends) = amends(message, &numbers, &cues) {
            return Some(Meaning {
                amends,
                ..Meaning::default()
            });
        }
        let labelled = message.values().strong;
        let flushed = scene.last_services.iter().all(|service| {
            service.what == What::Flush && scene.last.iter().any(|reading| reading.rig == Some(service.rig))
        });
        if !labelled && !(flushed && !numbers.is_empty()) {
            return None;
        }
    }
    let change = Change {
        message,
        numbers: &numbers,
        cues: &cues,
        rigs: message.rigs(),
    };
    change.find()
}

/// The numbers that may be values; the ones behind "not" are what it was not.
fn numbers_of(message: &Message) -> Vec<Said> {
    let number = |at: usize| {
        let value = message.items[at].value()?;
        message.roles[at].is_free().then(|| Said {
            at,
            value,
            denied: is_denied(message, at),
        })
    };
    (0..message.items.len()).filter_map(number).collect()
}

/// "18 not 19", "pas 12": a word that denies stands before the run of numbers.
fn is_denied(message: &Message, at: usize) -> bool {
    let items = message.items;
    let mut at = at;
    while at > 0 && items[at].num.is_some() {
        if items[at - 1].num.is_some() {
            at -= 1;
        } else if at >= 2 && items[at - 1].mark.is_some() && items[at - 2].num.is_some() {
            at -= 2;
        } else {
            break;
        }
    }
    // "No, 21" denies what was said before, not 21.
    let first = usize::from(items[0].is(Sense::no) && items[0].is_word());
    let ahead = items[first.min(at)..at]
        .iter()
        .rev()
        .take_while(|item| item.num.is_none() && item.rig.is_none());
    ahead
        .take(3)
        .any(|item| item.is_word() && item.any(Senses::of([Sense::not, Sense::no, Sense::instead])))
}

/// In a group: a starred or labelled value, the wrong rig beside the right one, or just now nothing but words of it.
fn is_plain(message: &Message, numbers: &[Said], cues: &Cues) -> bool {
    let rigs = message.rigs();
    let labelled = message.values().strong && message.values().bare.is_empty();
    let words = Senses::of([
        Sense::undo,
        Sense::oops,
        Sense::itwas,
        Sense::no,
        Sense::it,
        Sense::swap,
        Sense::sorry,
        Sense::yesterday,
        Sense::filler,
        Sense::article,
        Sense::put_back,
    ]);
    let bare = message.items.iter().all(|item| !item.is_word() || item.any(words));
    let named = rigs.len() >= 2 || !rigs.is_empty() && !numbers.is_empty();
    cues.starred || labelled && !numbers.is_empty() || named || message.scene.just_sent && bare
}

struct Change<'a> {
    message: &'a Message<'a>,
    numbers: &'a [Said],
    cues: &'a Cues,
    rigs: Vec<(i64, bool)>,
}

impl Change<'_> {
    fn scene(&self) -> &Scene {
        self.message.scene
    }

    fn new_rig(&self) -> Option<i64> {
        self.rigs.iter().find(|(_, denied)| !denied).map(|(rig, _)| *rig)
    }

    fn of_rig(&self, rig: i64) -> Option<&Reading> {
        self.scene().last.iter().find(|reading| reading.rig == Some(rig))
    }

    fn find(&self) -> Option<Meaning> {
        let values = self.message.values();
        let extras = (values.any_extra() || values.prod.is_some()) && self.numbers.len() <= 2;
        let no_pair = values.feed.is_none() && values.perm.is_none() && values.bare.is_empty();
        if let (Some(last), true) = (self.scene().last.last(), extras && no_pair && self.rigs.is_empty())
            && self.message.unknown() == 0
            && self.message.size() <= FEW + 2
            && self.is_asserted()
        {
            return self.changed(
                last.rig?,
                Reading {
                    rig: None,
                    ..pair_of(&values, false).0
                },
            );
        }
        let denied = self
            .rigs
            .iter()
            .any(|(rig, denied)| *denied && self.of_rig(*rig).is_some())
            && self.new_rig().is_some();
        let weak = (self.cues.was || denied || self.replaces()) && !self.scene().last.is_empty() && self.is_short();
        if !self.cues.is_strong() && !weak || !self.cues.starred && !self.cues.undo && !self.is_asserted() {
            return None;
        }
        if let (Some(gone), true) = (self.deleted_pair(&values), self.scene().last.is_empty()) {
            return Some(gone);
        }
        if self.scene().last.is_empty() {
            return if self.cues.starred {
                let ask = ask::which_rig(Vec::new(), &[], &[], "", self.scene());
                Some(Meaning::from(ask))
            } else {
                self.orphan()
            };
        }
        if self.cues.undo && (self.numbers.is_empty() || self.is_count()) {
            return self.withdrawn();
        }
        if let Some(gone) = self.deleted_pair(&values) {
            return Some(gone);
        }
        if self.message.is(Sense::swap) {
            return self.exchanged();
        }
        if self.numbers.is_empty() {
            return self
                .moved()
                .filter(|_| self.is_only_about_it())
                .or_else(|| self.regret());
        }
        let complete = values.is_complete();
        // A whole reading of a rig that was not told of stands on its own.
        let other = self.new_rig().filter(|rig| self.of_rig(*rig).is_none());
        if other.is_some() && complete && !self.cues.was && !self.cues.contrast {
            return None;
        }
        self.values()
    }

    /// "that 31 is a 13", "change 31 to 13": a stored number, and another that takes its place.
    fn replaces(&self) -> bool {
        let words = Senses::of([
            Sense::be,
            Sense::fix,
            Sense::says,
            Sense::instead,
            Sense::no,
            Sense::not,
        ]);
        let stored = |one: &Said| {
            let holds = |reading: &Reading| {
                Slot::ALL
                    .iter()
                    .filter_map(|slot| slot.of(reading))
                    .any(|old| old.ppm == one.value)
            };
            self.scene().last.iter().any(holds)
        };
        self.numbers.len() == 2 && self.numbers.iter().filter(|one| stored(one)).count() == 1 && self.message.any(words)
    }

    fn is_short(&self) -> bool {
        self.message.size() <= FEW && self.message.unknown() <= 1
    }

    /// Nothing in the message says that it is planned, supposed or past.
    fn is_asserted(&self) -> bool {
        let unreal = Senses::of([Sense::cond, Sense::norm, Sense::past, Sense::guess, Sense::tomorrow]);
        let corrects = Senses::of([Sense::oops, Sense::itwas, Sense::instead]);
        self.message
            .items
            .iter()
            .all(|item| !item.is_word() || !item.any(unreal) || item.any(corrects))
    }

    /// No other words than those of a correction, its values, rigs and times.
    fn is_only_about_it(&self) -> bool {
        let senses = SLOTS.and(UNITS).and(Senses::of([
            Sense::filler,
            Sense::article,
            Sense::chat,
            Sense::itwas,
            Sense::oops,
            Sense::sorry,
            Sense::no,
            Sense::not,
            Sense::it,
            Sense::prep,
            Sense::at,
            Sense::be,
            Sense::fix,
            Sense::instead,
            Sense::says,
            Sense::swap,
            Sense::vehicle,
            Sense::num,
            Sense::both,
            Sense::and,
        ]));
        let roles = self.message.roles;
        let timed = |at: usize| matches!(roles[at], super::role::Role::Time(_));
        let items = self.message.items.iter().enumerate();
        let other = |(at, item): &(usize, &super::item::Item)| item.is_word() && !item.any(senses) && !timed(*at);
        let others = items.filter(other).count();
        others == 0 || others == 1 && (self.cues.oops || self.cues.contrast)
    }

    /// "the last two": a count of readings.
    fn is_count(&self) -> bool {
        let worded = |one: &Said| matches!(self.message.items[one.at].num, Some((_, Form::Words)));
        matches!(self.numbers, [one] if worded(one) && one.value <= 12.0)
    }

    fn withdrawn(&self) -> Option<Meaning> {
        // "delete my number", "forget that meeting": it is something else that is to go.
        let items = self.message.items;
        let undo = items.iter().position(|item| item.is(Sense::undo) && item.is_word())?;
        let small = Senses::of([Sense::filler, Sense::article, Sense::it, Sense::prep]);
        let object = items[undo + 1..]
            .iter()
            .find(|item| !(item.is_word() && item.any(small) && !item.is(Sense::numbered)));
        if object.is_some_and(|item| item.unknown && self.message.size() > 3) {
            return None;
        }
        let when = self.message.when();
        let last = &self.scene().last;
        let gone = |rig: i64, when: Option<When>| Correction {
            void: true,
            from_rig: rig,
            change: Reading {
                when,
                ..Reading::default()
            },
        };
        let corrections: Vec<Correction> = match self.new_rig() {
            Some(rig) => vec![gone(
                rig,
                when.or_else(|| self.of_rig(rig).and_then(|reading| reading.when)),
            )],
            None => last
                .iter()
                .filter_map(|reading| Some(gone(reading.rig?, when.or(reading.when))))
                .collect(),
        };
        (!corrections.is_empty()).then(|| Meaning::from(corrections))
    }

    /// "delete badger 180 12": the reading of that rig with those values.
    fn deleted_pair(&self, values: &super::values::Values) -> Option<Meaning> {
        let first = self
            .message
            .items
            .first()
            .is_some_and(|item| item.is(Sense::undo) && item.is_word());
        let from_rig = self
            .new_rig()
            .filter(|_| first && self.numbers.len() == 2 && values.is_complete())?;
        let pair = pair_of(values, false).0;
        let corrections = vec![Correction {
            void: true,
            from_rig,
            change: Reading { rig: None, ..pair },
        }];
        Some(Meaning::from(corrections))
    }

    /// "swap those two round": of two readings the rigs, of one the numbers.
    fn exchanged(&self) -> Option<Meaning> {
        let to = |from: &Reading, values: &Reading| {
            let change = Reading {
                feed: values.feed,
                permeate: values.permeate,
                ..Reading::default()
            };
            Some(Correction {
                void: false,
                from_rig: from.rig?,
                change,
            })
        };
        let corrections: Vec<Correction> = match &self.scene().last[..] {
            [a, b] => [to(a, b), to(b, a)].into_iter().flatten().collect(),
            _ => return None,
        };
        Some(Meaning::from(corrections))
    }

    /// Another rig or another time.
    fn moved(&self) -> Option<Meaning> {
        let last = self.scene().last.last()?;
        let denied = self
            .rigs
            .iter()
            .find(|(_, denied)| *denied)
            .and_then(|(rig, _)| self.of_rig(*rig));
        let target = denied.unwrap_or(last);
        let from_rig = target.rig?;
        let change = match self.new_rig() {
            Some(rig) if Some(rig) != target.rig => Reading {
                rig: Some(rig),
                ..Reading::default()
            },
            Some(_) => return None,
            // "i can't make it tonight" says nothing of when it was.
            None if !self.cues.was && !self.cues.oops => return None,
            None => Reading {
                when: Some(self.message.when()?),
                ..Reading::default()
            },
        };
        let corrections = vec![Correction {
            void: false,
            from_rig,
            change,
        }];
        Some(Meaning::from(corrections))
    }

    /// "That was wrong" and no more: is the last reading to go?
    fn regret(&self) -> Option<Meaning> {
        let plain = self.cues.oops && self.scene().just_sent && self.is_short() && self.rigs.is_empty();
        plain.then(|| Meaning::from(ask::whether_undo(self.scene())))
    }

    fn values(&self) -> Option<Meaning> {
        let named = self.new_rig();
        let target = named
            .and_then(|rig| self.of_rig(rig))
            .or_else(|| self.scene().last.last())?;
        let labelled = [self.message.values().feed, self.message.values().perm]
            .iter()
            .all(Option::is_some);
        let by_label = || self.by_label(target);
        let both = if labelled { by_label() } else { None };
        let mut change = both
            .or_else(|| self.by_old_value(target))
            .or_else(by_label)
            .or_else(|| self.by_nearness(target))?;
        let from_rig = target.rig?;
        change.rig = named.filter(|rig| *rig != from_rig);
        self.changed(from_rig, change)
    }

    /// The number that equals a stored one names the slot; the other one is what it should be.
    fn by_old_value(&self, target: &Reading) -> Option<Reading> {
        let slot_of = |value: f64| {
            Slot::ALL.into_iter().find(|slot| {
                slot.of(target)
                    .is_some_and(|old| (old.raw_us.unwrap_or(old.ppm) - value).abs() < 0.01)
            })
        };
        let slots: Vec<(Said, Option<Slot>)> = self.numbers.iter().map(|one| (*one, slot_of(one.value))).collect();
        let (old, new) = match slots[..] {
            [(_, Some(slot)), (new, None)] => (slot, new),
            [(new, None), (_, Some(slot))] => (slot, new),
            [(_, Some(a)), (_, Some(b)), (one, to_a), (two, to_b)] if a != b => {
                let changed = [(one, to_a, a), (two, to_b, b)]
                    .into_iter()
                    .find(|(_, kept, slot)| *kept != Some(*slot));
                let (new, _, slot) = changed?;
                (slot, new)
            }
            _ => return None,
        };
        let mut change = Reading::default();
        old.put(&mut change, self.solids(new, old.of(target)));
        Some(change)
    }

    fn solids(&self, said: Said, old: Option<Solids>) -> Solids {
        // A value in uS/cm is corrected in uS/cm.
        let raw = old.is_some_and(|old| old.raw_us.is_some());
        if raw {
            Solids {
                ppm: said.value * self.scene().us_to_ppm,
                raw_us: Some(said.value),
            }
        } else {
            super::values::solids(said.value, None, self.scene())
        }
    }

    /// What a label names.
    fn by_label(&self, target: &Reading) -> Option<Reading> {
        let denied: Vec<f64> = self
            .numbers
            .iter()
            .filter(|one| one.denied)
            .map(|one| one.value)
            .collect();
        let mut values = self.message.values();
        let kept = |slot: Option<Solids>| slot.filter(|one| !denied.contains(&one.raw_us.unwrap_or(one.ppm)));
        let said = [values.feed, values.perm, values.prod];
        let labelled = said.iter().any(|slot| kept(*slot).is_some()) || values.any_extra();
        values
            .bare
            .retain(|one| !denied.contains(&one.raw_us.unwrap_or(one.ppm)));
        // "permeate 22, not 2.2": the label stands with one of them.
        let new: Vec<Said> = self.numbers.iter().filter(|one| !one.denied).copied().collect();
        let slot = Slot::ALL
            .into_iter()
            .zip(said)
            .find(|(_, slot)| slot.is_some())
            .map(|(slot, _)| slot);
        if let ([one], Some(slot), 1..) = (&new[..], slot, denied.len()) {
            let mut change = Reading::default();
            slot.put(&mut change, self.solids(*one, slot.of(target)));
            return Some(change);
        }
        if !labelled {
            return None;
        }
        (values.feed, values.perm, values.prod) = (kept(values.feed), kept(values.perm), kept(values.prod));
        let pair = pair_of(&values, false).0;
        Some(Reading {
            rig: None,
            when: None,
            ..pair
        })
    }

    /// One number for the slot that it is a slip for; two for both.
    fn by_nearness(&self, target: &Reading) -> Option<Reading> {
        let new: Vec<Said> = self.numbers.iter().filter(|one| !one.denied).copied().collect();
        let mut change = Reading::default();
        if !self.is_only_about_it() && !self.cues.starred {
            return None;
        }
        match new[..] {
            [one] => {
                let old = self.numbers.iter().find(|other| other.denied).map(|other| other.value);
                let like = old.unwrap_or(one.value);
                let near = |slot: &Slot| {
                    slot.of(target)
                        .map(|old| plausible::slip_distance(old.raw_us.unwrap_or(old.ppm), like))
                };
                let slot = [Slot::Feed, Slot::Permeate]
                    .into_iter()
                    .min_by(|a, b| near(a).unwrap_or(f64::MAX).total_cmp(&near(b).unwrap_or(f64::MAX)))?;
                slot.put(&mut change, self.solids(one, slot.of(target)));
            }
            [feed, permeate] => {
                change.feed = Some(self.solids(feed, target.feed));
                change.permeate = Some(self.solids(permeate, target.permeate));
            }
            _ => return None,
        }
        Some(change)
    }

    /// Records the change, or asks if the reading would be strange after it.
    fn changed(&self, from_rig: i64, change: Reading) -> Option<Meaning> {
        let last = self.of_rig(from_rig).cloned().unwrap_or_default();
        let after = Reading {
            feed: change.feed.or(last.feed),
            permeate: change.permeate.or(last.permeate),
            product: change.product.or(last.product),
            temperature_c: change.temperature_c,
            pressure_kpa: change.pressure_kpa,
            ..Reading::default()
        };
        let rig = rig_of(self.scene(), change.rig.unwrap_or(from_rig));
        let strange = plausible::doubt(&after, rig).filter(|_| change.feed.is_some() || change.permeate.is_some());
        if let Some(about) = strange {
            let draft = Reading {
                rig: change.rig.or(Some(from_rig)),
                ..after
            };
            return Some(Meaning::from(ask::about_values(about, draft)));
        }
        let corrections = vec![Correction {
            void: false,
            from_rig,
            change,
        }];
        Some(Meaning::from(corrections))
    }

    /// A correction of something that the reader does not know: "heron should be 12 not 120".
    fn orphan(&self) -> Option<Meaning> {
        let rig = self.new_rig();
        if self.cues.undo && self.numbers.is_empty() && self.message.size() < 12 {
            let change = Reading {
                when: self.message.when(),
                ..Reading::default()
            };
            let corrections = vec![Correction {
                void: true,
                from_rig: rig?,
                change,
            }];
            return Some(Meaning::from(corrections));
        }
        let new: Vec<&Said> = self.numbers.iter().filter(|one| !one.denied).collect();
        if let (Some(rig), [one], true) = (
            rig,
            &new[..],
            (self.cues.contrast || is_order(self.message, self.numbers)) && self.is_only_about_it(),
        ) {
            let change = self.by_label(&Reading::default()).unwrap_or_else(|| {
                let mut change = Reading::default();
                let slot = if one.value < MOST_PERMEATE_PPM {
                    Slot::Permeate
                } else {
                    Slot::Feed
                };
                slot.put(&mut change, self.solids(**one, None));
                change
            });
            let corrections = vec![Correction {
                void: false,
                from_rig: rig,
                change,
            }];
            return Some(Meaning::from(corrections));
        }
        // "18 sorry", "not 19": of a reading that is not known.
        let plain = rig.is_none() && self.message.unknown() == 0 && self.numbers.len() <= 2 && self.message.size() <= 6;
        let one = new.len() == 1 && (self.cues.oops || self.cues.contrast);
        (plain && one && !self.scene().overheard).then(Meaning::default)
    }
}

/// What the message changes of the services told last.
fn amends(message: &Message, numbers: &[Said], cues: &Cues) -> Option<Vec<Amend>> {
    let scene = message.scene;
    let services = &scene.last_services;
    let rigs = message.rigs();
    let named = rigs.iter().find(|(_, denied)| !denied).map(|(rig, _)| *rig);
    let weak = cues.was && message.size() <= FEW && message.unknown() <= 1;
    let mut told: Vec<i64> = services.iter().map(|service| service.rig).collect();
    told.dedup();
    let one = told.last().copied()?;
    let of = |rig: i64| Amend {
        from_rig: rig,
        ..Amend::default()
    };
    if cues.undo && numbers.is_empty() {
        let gone = |rig: i64| Amend { void: true, ..of(rig) };
        return Some(match named {
            Some(rig) => vec![gone(rig)],
            None => told.into_iter().map(gone).collect(),
        });
    }
    let price = message.roles.iter().position(|role| *role == super::role::Role::Price);
    let few = message.size() <= 6 && message.unknown() == 0 && message.frames.services().next().is_none();
    let costs = message.asks(crate::language::Subject::cost) && numbers.len() == 1;
    let priced =
        services.len() == 1 && ((price.is_some() || costs) && few || cues.starred && services[0].price.is_some());
    if priced && numbers.len() + usize::from(price.is_some()) == 1 {
        let amount = price
            .and_then(|at| message.items[at].value())
            .or(numbers.first().map(|one| one.value))?;
        return Some(vec![Amend {
            price: Some(Price { amount, currency: None }),
            ..of(one)
        }]);
    }
    let flush = services.len() == 1 && services[0].what == What::Flush && services[0].minutes.is_some();
    if let ([said], true) = (
        numbers,
        flush && cues.starred && (1.0..=600.0).contains(&numbers.first()?.value),
    ) {
        return Some(vec![Amend {
            minutes: Some(said.value.round() as u16),
            ..of(one)
        }]);
    }
    if !numbers.is_empty() || !(cues.oops || cues.was && weak || rigs.iter().any(|(_, denied)| *denied)) {
        return None;
    }
    let from = rigs
        .iter()
        .find(|(rig, denied)| *denied && told.contains(rig))
        .map_or(one, |(rig, _)| *rig);
    if let Some(rig) = named.filter(|rig| *rig != from) {
        return Some(vec![Amend {
            rig: Some(rig),
            ..of(from)
        }]);
    }
    let when = message.when()?;
    Some(
        told.into_iter()
            .map(|rig| Amend {
                when: Some(when),
                ..of(rig)
            })
            .collect(),
    )
}

/// Whether a question about the values of a correction may be settled by "yes": for tests and callers.
pub fn is_strange(reading: &Reading, scene: &Scene) -> bool {
    let rig = reading.rig.and_then(|id| rig_of(scene, id));
    plausible::doubt(reading, rig).is_some_and(|about| about != About::MissingReading)
}
