//! The numbers of one clause in typed slots; each number is used once.

use super::clause::Clause;
use super::item::{Item, Items};
use super::role::Role;
use super::scope;
use crate::domain::meaning::{About, Reading, Scene, Solids};
use crate::language::senses::{PARTS, SLOTS, SOLIDS, STRONG, Sense, Senses, UNITS};
use crate::language::unit::{KPA_PER_PSI, Unit, celsius_of_fahrenheit};

/// Above this a bare number behind "pressure" is psi, below it bar: common practice, no source.
const MOST_BAR: f64 = 20.0;
/// Bare degrees above this are Fahrenheit everywhere: no tap is so warm.
const MOST_CELSIUS: f64 = 45.0;

/// What the numbers of a clause say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Values {
    pub feed: Option<Solids>,
    pub perm: Option<Solids>,
    pub prod: Option<Solids>,
    pub temperature_c: Option<f64>,
    pub pressure_kpa: Option<f64>,
    pub permeate_lpm: Option<f64>,
    pub waste_lpm: Option<f64>,
    /// Unlabelled, in the order said, of the longest run.
    pub bare: Vec<Solids>,
    /// Unlabelled numbers outside of that run.
    pub loose: Vec<Solids>,
    /// A label of solids stands in the clause, by whichever number.
    pub labelled: bool,
    /// Strong labels were there.
    pub strong: bool,
    /// A label or mark that asks for a number has none: "otter /19", "255/?".
    pub hole: bool,
    pub percent: bool,
    /// A number with letters in it that say nothing.
    pub garbled: bool,
    /// A first number came out of a second: "12 from 180".
    pub rising: bool,
}

impl Values {
    pub fn any_solids(&self) -> bool {
        self.feed.is_some() || self.perm.is_some() || self.prod.is_some() || !self.bare.is_empty()
    }
    pub fn any_extra(&self) -> bool {
        self.temperature_c.is_some()
            || self.pressure_kpa.is_some()
            || self.permeate_lpm.is_some()
            || self.waste_lpm.is_some()
    }
    pub fn is_complete(&self) -> bool {
        let labelled = self.feed.is_some() || self.perm.is_some();
        self.feed.is_some() && self.perm.is_some() || self.bare.len() >= 2 || self.bare.len() == 1 && labelled
    }
    /// All solids that it holds.
    pub fn solids(&self) -> impl Iterator<Item = Solids> + '_ {
        [self.feed, self.perm, self.prod]
            .into_iter()
            .flatten()
            .chain(self.bare.iter().copied())
    }
    /// Takes what the other adds; never changes what is there.
    pub fn add(&mut self, other: &Values, solids: bool) {
        self.temperature_c = self.temperature_c.or(other.temperature_c);
        self.pressure_kpa = self.pressure_kpa.or(other.pressure_kpa);
        self.permeate_lpm = self.permeate_lpm.or(other.permeate_lpm);
        self.waste_lpm = self.waste_lpm.or(other.waste_lpm);
        self.prod = self.prod.or(other.prod);
        self.hole |= other.hole;
        self.garbled |= other.garbled;
        if solids {
            self.feed = self.feed.or(other.feed);
            self.perm = self.perm.or(other.perm);
            self.bare.extend(&other.bare);
            self.strong |= other.strong;
        }
    }
}

/// Solids in the outfit's ppm.
pub fn solids(value: f64, unit: Option<Unit>, scene: &Scene) -> Solids {
    let raw_us = match unit {
        Some(Unit::MicroSiemens(factor)) => Some(value * factor),
        None if scene.reads_conductivity => Some(value),
        _ => None,
    };
    Solids {
        ppm: raw_us.map_or(value, |raw| raw * scene.us_to_ppm),
        raw_us,
    }
}

/// The values of a clause, in the layout of labels that costs least.
pub fn values(clause: &Clause, scene: &Scene) -> Values {
    let free: Vec<usize> = (0..clause.items.len()).filter(|&i| clause.roles[i].is_free()).collect();
    let mut best = if free.is_empty() {
        Values::default()
    } else {
        let labelled = clause.items.iter().any(|item| item.any(SLOTS) && item.is_word());
        let layout = Layout {
            clause,
            free: &free,
            scene,
            done: clause.any(PARTS) && !scope::deeds(clause).is_empty(),
        };
        let (before, cost) = layout.assign(true);
        let other = labelled.then(|| layout.assign(false));
        match other {
            Some((behind, less)) if less < cost => behind,
            _ => before,
        }
    };
    best.labelled = clause.any(SOLIDS);
    best.percent = clause.roles.contains(&Role::Percent);
    best.garbled = clause.roles.contains(&Role::Garbled);
    best.rising = best.bare.len() == 2
        && free
            .windows(2)
            .any(|two| two[1] == two[0] + 2 && clause.items[two[0] + 1].asks(crate::language::Subject::from));
    best.hole = clause.items.iter().enumerate().any(|(at, item)| {
        let number = |i: Option<usize>| i.is_some_and(|i| free.contains(&i));
        item.mark == Some('/') && number(at.checked_sub(1)) != number(Some(at + 1))
    });
    best
}

struct Layout<'a> {
    clause: &'a Clause<'a>,
    free: &'a [usize],
    scene: &'a Scene,
    /// Something was done to the parts that the clause names: they are no labels of its numbers.
    done: bool,
}

impl Layout<'_> {
    fn item(&self, at: usize) -> Option<&Item> {
        self.clause.items.get(at)
    }

    /// The label that number `at` takes: the nearest before (or behind) it, with nothing of weight between.
    fn label_of(&self, at: usize, before: bool, taken: &[usize]) -> Option<usize> {
        // "180 12 pole is ...": two numbers side by side take no label behind them.
        let linked = |i: usize| -> bool {
            let marked = self.item(i).is_some_and(|item| item.mark.is_some());
            self.free.contains(&i) || marked && i > 0 && self.free.contains(&(i - 1))
        };
        let near = taken.iter().any(|&t| t + 3 > at && t < at);
        if !before && at > 0 && linked(at - 1) && self.clause.roles[at] == Role::Free(None) && !near {
            return None;
        }
        let mut small = 0;
        let mut i = at;
        loop {
            i = if before { i.checked_sub(1)? } else { i + 1 };
            let item = self.item(i)?;
            if self.free.contains(&i) || item.is_name() {
                return None;
            }
            if item.any(SLOTS) && item.num.is_none() && !(self.done && item.any(PARTS)) {
                let fits = item.any(STRONG) || small == 0 || (small == 1 && !before);
                return (!taken.contains(&i) && fits).then_some(i);
            }
            if item.any(UNITS) && item.num.is_none() {
                continue;
            }
            if let Some(mark) = item.mark {
                if ":=->()".contains(mark) || !mark.is_ascii() {
                    continue;
                }
                return None;
            }
            if item.num.is_some() && self.clause.roles[i] == Role::Explained || item.is(Sense::settle) {
                continue;
            }
            if item.num.is_some() || item.is(Sense::and) {
                return None;
            }
            small += 1;
            let glue = Senses::of([
                Sense::prep,
                Sense::filler,
                Sense::article,
                Sense::at,
                Sense::itwas,
                Sense::it,
            ]);
            let known = item.unknown || item.any(glue) || matches!(self.clause.roles[i], Role::Time(_));
            if small > 3 || (item.unknown && small > 1) || !known {
                return None;
            }
        }
    }

    /// Each number's label: first those of the layout, then those on the other side.
    fn labels(&self, before: bool, cost: &mut f64) -> (Vec<Option<usize>>, Vec<usize>) {
        let mut taken = Vec::new();
        let mut labels: Vec<Option<usize>> = vec![None; self.free.len()];
        for way in [before, !before] {
            for (place, &at) in self.free.iter().enumerate() {
                if labels[place].is_none() {
                    labels[place] = self.label_of(at, way, &taken);
                    taken.extend(labels[place]);
                    *cost += if labels[place].is_some() && way != before {
                        0.6
                    } else {
                        0.0
                    };
                }
            }
        }
        (labels, taken)
    }

    /// One layout of labels and its cost.
    fn assign(&self, before: bool) -> (Values, f64) {
        let (mut out, mut cost) = (Values::default(), 0.0);
        let mut runs: Vec<Vec<(usize, Solids)>> = Vec::new();
        let items = self.clause.items;
        let before_all = items.iter().enumerate().find(|(i, item)| {
            let behind = i.checked_sub(1).is_some_and(|p| self.free.contains(&p));
            item.any(Senses::of([Sense::us, Sense::ms])) && item.is_word() && !behind
        });
        let shared_unit = before_all.and_then(|(_, item)| Unit::of(item.senses));
        let (labels, taken) = self.labels(before, &mut cost);
        for (&at, label) in self.free.iter().zip(labels) {
            let (Role::Free(unit), Some((value, _))) = (self.clause.roles[at], items[at].num) else {
                continue;
            };
            let label = label.and_then(|l| items.get(l));
            let has = |sense: Sense| label.is_some_and(|l| l.is(sense));
            if let Some(unit) = unit.filter(|unit| !unit.is_solids()) {
                self.measure(&mut out, value, unit, has(Sense::waste));
                continue;
            }
            let said = solids(value, unit.or(shared_unit), self.scene);
            let Some(label) = label else {
                self.add_to_run(&mut runs, at, said);
                continue;
            };
            out.strong |= label.any(SOLIDS);
            cost -= 2.0;
            // "T" is the tap's letter, but for one that is labelled already.
            let tap = label.is(Sense::wfeed) && !items.iter().any(|item| item.is(Sense::feed) && item.is_word());
            if unit.is_none() && has(Sense::temp) && !tap {
                self.measure(&mut out, value, Unit::Degrees, false);
            } else if unit.is_none() && has(Sense::press) {
                let factor = if value > MOST_BAR { KPA_PER_PSI } else { 100.0 };
                self.measure(&mut out, value, Unit::Pressure(factor), false);
            } else if unit.is_none() && (has(Sense::waste) || has(Sense::flow)) && !has(Sense::prodperm) {
                self.measure(&mut out, value, Unit::Flow(1.0), has(Sense::waste));
            } else if has(Sense::elsewhere) {
                cost += 1.0;
            } else {
                let slot = slot_of(&mut out, label);
                cost += if slot.is_some_and(|old| old.ppm != said.ppm) {
                    6.0
                } else {
                    0.0
                };
                *slot = Some(said);
            }
        }
        let unused = |(i, item): &(usize, &Item)| {
            item.any(Senses::of([Sense::feed, Sense::perm])) && item.num.is_none() && !taken.contains(i)
        };
        cost += items.iter().enumerate().filter(unused).count() as f64;
        if let (Some(feed), Some(perm)) = (out.feed, out.perm) {
            cost += if perm.ppm > feed.ppm { 1.0 } else { 0.0 };
        }
        let longest = runs.iter().map(Vec::len).max().unwrap_or(0);
        let first = runs.iter().position(|run| run.len() == longest);
        for (i, run) in runs.into_iter().enumerate() {
            cost += run.len() as f64 * 0.5;
            let into = if Some(i) == first {
                &mut out.bare
            } else {
                &mut out.loose
            };
            into.extend(run.into_iter().map(|(_, solids)| solids));
        }
        (out, cost)
    }

    fn measure(&self, out: &mut Values, value: f64, unit: Unit, waste: bool) {
        match unit {
            Unit::Celsius => out.temperature_c = out.temperature_c.or(Some(value)),
            Unit::Fahrenheit => out.temperature_c = out.temperature_c.or(Some(celsius_of_fahrenheit(value))),
            Unit::Degrees => {
                let celsius = self.scene.celsius && value <= MOST_CELSIUS;
                let degrees = if celsius { value } else { celsius_of_fahrenheit(value) };
                out.temperature_c = out.temperature_c.or(Some(degrees));
            }
            Unit::Pressure(kpa) => out.pressure_kpa = out.pressure_kpa.or(Some(value * kpa)),
            Unit::Flow(lpm) if waste || out.permeate_lpm.is_some() => out.waste_lpm = Some(value * lpm),
            Unit::Flow(lpm) => out.permeate_lpm = Some(value * lpm),
            Unit::Ppm | Unit::MicroSiemens(_) => {}
        }
    }

    /// A number without a label goes on with the run before it, if only small things stand between.
    fn add_to_run(&self, runs: &mut Vec<Vec<(usize, Solids)>>, at: usize, said: Solids) {
        let small = Senses::of([
            Sense::filler,
            Sense::article,
            Sense::and,
            Sense::over,
            Sense::ppm,
            Sense::us,
        ]);
        let joins = |last: usize| {
            let between = self.clause.items[last + 1..at]
                .iter()
                .zip(&self.clause.roles[last + 1..at]);
            between.into_iter().all(|(item, role)| {
                item.mark.is_some()
                    || item.any(small)
                    || matches!(role, Role::Time(_))
                    || item.asks(crate::language::Subject::from)
            })
        };
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|(last, _)| joins(*last)) => run.push((at, said)),
            _ => runs.push(vec![(at, said)]),
        }
    }
}

fn slot_of<'v>(out: &'v mut Values, label: &Item) -> &'v mut Option<Solids> {
    if label.is(Sense::feed) {
        &mut out.feed
    } else if label.is(Sense::perm) {
        &mut out.perm
    } else if label.is(Sense::prod) {
        &mut out.prod
    } else if label.is(Sense::prodperm) {
        if out.perm.is_some() {
            &mut out.prod
        } else {
            &mut out.perm
        }
    } else if label.is(Sense::wfeed) {
        &mut out.feed
    } else if label.is(Sense::wperm) {
        &mut out.perm
    } else {
        &mut out.prod
    }
}

/// The slots that bare numbers take: first feed, second permeate, third product; and whether that is in doubt.
pub fn pair_of(values: &Values, di_only: bool) -> (Reading, Option<About>) {
    let mut out = Reading {
        feed: values.feed,
        permeate: values.perm,
        product: values.prod,
        temperature_c: values.temperature_c,
        pressure_kpa: values.pressure_kpa,
        permeate_lpm: values.permeate_lpm,
        waste_lpm: values.waste_lpm,
        ..Reading::default()
    };
    let mut doubt = None;
    match (values.feed, values.perm, &values.bare[..]) {
        (_, _, []) => {}
        // Without a membrane one number is the glass.
        (None, None, [one]) if di_only && out.product.is_none() => out.product = Some(*one),
        (None, None, [one]) => out.feed = Some(*one),
        (Some(_), None, [one]) => out.permeate = Some(*one),
        (None, Some(_), [one]) => out.feed = Some(*one),
        // "12 from 180"
        (None, None, [permeate, feed]) if values.rising => (out.feed, out.permeate) = (Some(*feed), Some(*permeate)),
        (None, None, [feed, permeate]) => (out.feed, out.permeate) = (Some(*feed), Some(*permeate)),
        (None, None, [feed, permeate, product]) => {
            (out.feed, out.permeate, out.product) = (Some(*feed), Some(*permeate), Some(*product));
            // The third number is the glass; behind the resin it falls once more.
            let falls = feed.ppm > permeate.ppm && permeate.ppm > product.ppm;
            doubt = (!falls || di_only).then_some(About::WhichIsWhich);
        }
        // "tap 180 ro 12 0"
        (Some(_), Some(permeate), [one]) if out.product.is_none() && one.ppm <= permeate.ppm => {
            out.product = Some(*one)
        }
        _ => doubt = Some(About::WhichIsWhich),
    }
    if di_only && out.product.is_none() {
        out.product = out.permeate.take();
    }
    let half = out.feed.is_none() || out.permeate.or(out.product.filter(|_| di_only)).is_none();
    if !values.loose.is_empty() && half || values.garbled {
        doubt = doubt.or(Some(About::WhichIsWhich));
    }
    (out, doubt)
}
