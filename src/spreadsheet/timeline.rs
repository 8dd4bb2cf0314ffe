//! One pass over all rigs in time order: events are heard, questions answered
//! from what was known then.

use std::cmp::Ordering;

use super::sheet::{Fleet, Query};
use crate::water::assess::{Assessment, assess};
use crate::water::history::{Event, ServiceKind};
use crate::water::observation::Doubt;
use crate::water::prior::{Lesson, Lessons};
use crate::water::replay::arrival_order;
use crate::water::rig::{History, step};
use crate::water::settings::Settings;
use crate::water::wear::Heard;

/// What the pass found.
pub struct Told {
    /// One assessment for each query, in the queries' order.
    pub answers: Vec<Assessment>,
    /// For each reading, in the sheet's order, whether it was set aside.
    pub set_aside: Vec<bool>,
}

/// One item of the pass, by its place in the fleet's own rows: a million of them are sorted.
#[derive(Clone, Copy)]
enum Item {
    Reading(u32),
    Service(u32),
    Query(u32),
}

impl Item {
    fn at(self, fleet: &Fleet, queries: &[Query]) -> i64 {
        match self {
            Self::Reading(i) => fleet.readings[i as usize].at,
            Self::Service(i) => fleet.services[i as usize].service.at,
            Self::Query(i) => queries[i as usize].at,
        }
    }

    fn event(self, fleet: &Fleet) -> Option<Event> {
        match self {
            Self::Reading(i) => fleet.readings[i as usize].reading().map(Event::Reading),
            Self::Service(i) => Some(Event::Service(fleet.services[i as usize].service)),
            Self::Query(_) => None,
        }
    }
}

/// Runs the pass.
pub fn run(fleet: &Fleet, queries: &[Query]) -> Told {
    let mut items = items(fleet, queries);
    items.sort_by(|&a, &b| in_time(a, b, fleet, queries));
    let mut settings = settings(fleet);
    let mut histories = vec![History::default(); fleet.names.len()];
    let mut outfit = Lessons::none();
    // What was learned at an instant counts from the next one on.
    let mut learned: Vec<Lesson> = Vec::new();
    let mut instant = i64::MIN;
    let mut set_aside = vec![false; fleet.readings.len()];
    let mut heard_lately: Vec<Vec<(i64, usize)>> = vec![Vec::new(); fleet.names.len()];
    let mut answers: Vec<Option<Assessment>> = vec![None; queries.len()];
    for item in items {
        let at = item.at(fleet, queries);
        if at > instant {
            learned.drain(..).for_each(|lesson| outfit.learn(&lesson));
            instant = at;
        }
        let (rig, cost, reading) = match item {
            Item::Query(i) => {
                let Query { rig, at, .. } = queries[i as usize];
                answers[i as usize] = Some(assess(&histories[rig], &settings[rig], &outfit, at));
                continue;
            }
            Item::Reading(i) => (fleet.readings[i as usize].rig(), None, Some(i as usize)),
            Item::Service(i) => (fleet.services[i as usize].rig, fleet.services[i as usize].cost, None),
        };
        let Some(event) = item.event(fleet) else { continue };
        if let (Event::Service(service), Some(cost)) = (event, cost) {
            price(fleet, rig, service.what, cost, &mut settings[rig]);
        }
        let Ok(done) = step(&mut histories[rig], &event, &settings[rig], &outfit) else {
            continue;
        };
        learned.extend(done.lesson);
        if let Some(row) = reading {
            note(row, event.at(), done.heard, &mut heard_lately[rig], &mut set_aside);
        }
    }
    Told {
        answers: answers.into_iter().flatten().collect(),
        set_aside,
    }
}

/// Notes whether a reading was set aside; the first readings of a jump, which
/// looked like blunders until it was decided, stand after all.
fn note(row: usize, at: i64, heard: Heard, lately: &mut Vec<(i64, usize)>, set_aside: &mut [bool]) {
    match heard {
        Heard::SetAside(doubt) => {
            set_aside[row] = true;
            if doubt == Doubt::UnlikeTrend {
                if lately.len() >= 16 {
                    lately.remove(0);
                }
                lately.push((at, row));
            }
        }
        Heard::JumpSince(since) | Heard::RenewedSince(since) => {
            for (_, row) in lately.drain(..).filter(|(at, _)| *at >= since) {
                set_aside[row] = false;
            }
        }
        Heard::Used | Heard::Repaired => {}
    }
}

fn items(fleet: &Fleet, queries: &[Query]) -> Vec<Item> {
    let places = |count: usize| 0..u32::try_from(count).unwrap_or(u32::MAX);
    let mut items = Vec::with_capacity(fleet.readings.len() + fleet.services.len() + queries.len());
    items.extend(places(fleet.readings.len()).map(Item::Reading));
    items.extend(places(fleet.services.len()).map(Item::Service));
    items.extend(places(queries.len()).map(Item::Query));
    items
}

/// Time order; what happened at the very instant of a question was known then.
fn in_time(a: Item, b: Item, fleet: &Fleet, queries: &[Query]) -> Ordering {
    a.at(fleet, queries)
        .cmp(&b.at(fleet, queries))
        .then_with(|| match (a.event(fleet), b.event(fleet)) {
            (Some(a), Some(b)) => arrival_order(&a, &b),
            (a, b) => b.is_some().cmp(&a.is_some()),
        })
}

/// Settings of each rig; a rig that never told a permeate has no membrane.
fn settings(fleet: &Fleet) -> Vec<Settings> {
    let mut has_reading = vec![false; fleet.names.len()];
    let mut has_permeate = vec![false; fleet.names.len()];
    for row in &fleet.readings {
        has_reading[row.rig()] = true;
        has_permeate[row.rig()] |= row.has_permeate();
    }
    (0..fleet.names.len())
        .map(|rig| {
            let mut settings = fleet.settings.get(&rig).cloned().unwrap_or_default();
            settings.has_membrane = has_permeate[rig] || !has_reading[rig];
            settings
        })
        .collect()
}

/// Takes what a service cost for a price that the rigs sheet left open.
fn price(fleet: &Fleet, rig: usize, what: ServiceKind, cost: f64, settings: &mut Settings) {
    let Some(told) = fleet.unpriced.get(&rig) else { return };
    let mut prices = settings.prices.unwrap_or(*told);
    match what {
        ServiceKind::Membrane if told.membrane <= 0.0 => prices.membrane = cost,
        ServiceKind::Resin if told.resin_per_litre <= 0.0 => {
            prices.resin_per_litre = cost / settings.resin_litres.unwrap_or(1.0);
        }
        _ => return,
    }
    if prices.membrane > 0.0 && prices.resin_per_litre > 0.0 {
        settings.prices = Some(prices);
    }
}
