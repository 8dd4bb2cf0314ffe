//! One pass over all rigs in time order: events are heard, questions answered
//! from what was known then.

use std::cmp::Ordering;

use super::sheet::{Fleet, Query};
use crate::water::assess::{Assessment, assess};
use crate::water::history::{Event, Work};
use crate::water::observation::Doubt;
use crate::water::prior::Lessons;
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

#[derive(Clone, Copy)]
enum Item {
    Event {
        rig: usize,
        event: Event,
        reading: Option<usize>,
        cost: Option<f64>,
    },
    Query(usize),
}

/// Runs the pass.
pub fn run(fleet: &Fleet, queries: &[Query]) -> Told {
    let mut items = items(fleet, queries);
    items.sort_by(|a, b| in_time(a, b, queries));
    let mut settings = settings(fleet);
    let mut histories = vec![History::default(); fleet.names.len()];
    let mut outfit = Lessons::none();
    let mut set_aside = vec![false; fleet.readings.len()];
    let mut heard_lately: Vec<Vec<(i64, usize)>> = vec![Vec::new(); fleet.names.len()];
    let mut answers: Vec<Option<Assessment>> = vec![None; queries.len()];
    for item in items {
        match item {
            Item::Query(i) => {
                let Query { rig, at, .. } = queries[i];
                answers[i] = Some(assess(&histories[rig], &settings[rig], &outfit, at));
            }
            Item::Event {
                rig,
                event,
                reading,
                cost,
            } => {
                if let (Event::Service(service), Some(cost)) = (event, cost) {
                    price(fleet, rig, service.what, cost, &mut settings[rig]);
                }
                let Ok(done) = step(&mut histories[rig], &event, &settings[rig], &outfit) else {
                    continue;
                };
                if let Some(lesson) = done.lesson {
                    outfit.learn(&lesson);
                }
                if let Some(row) = reading {
                    note(row, event.at(), done.heard, &mut heard_lately[rig], &mut set_aside);
                }
            }
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
    let readings = fleet.readings.iter().enumerate().map(|(i, row)| Item::Event {
        rig: row.rig,
        event: Event::Reading(row.reading),
        reading: Some(i),
        cost: None,
    });
    let services = fleet.services.iter().map(|row| Item::Event {
        rig: row.rig,
        event: Event::Service(row.service),
        reading: None,
        cost: row.cost,
    });
    readings
        .chain(services)
        .chain((0..queries.len()).map(Item::Query))
        .collect()
}

/// Time order; what happened at the very instant of a question was known then.
fn in_time(a: &Item, b: &Item, queries: &[Query]) -> Ordering {
    match (a, b) {
        (Item::Event { event: a, .. }, Item::Event { event: b, .. }) => arrival_order(a, b),
        (Item::Event { event, .. }, Item::Query(i)) => event.at().cmp(&queries[*i].at).then(Ordering::Less),
        (Item::Query(i), Item::Event { event, .. }) => queries[*i].at.cmp(&event.at()).then(Ordering::Greater),
        (Item::Query(a), Item::Query(b)) => queries[*a].at.cmp(&queries[*b].at),
    }
}

/// Settings of each rig; a rig that never told a permeate has no membrane.
fn settings(fleet: &Fleet) -> Vec<Settings> {
    let mut has_reading = vec![false; fleet.names.len()];
    let mut has_permeate = vec![false; fleet.names.len()];
    for row in &fleet.readings {
        has_reading[row.rig] = true;
        has_permeate[row.rig] |= row.reading.permeate.is_some();
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
fn price(fleet: &Fleet, rig: usize, what: Work, cost: f64, settings: &mut Settings) {
    let Some(told) = fleet.unpriced.get(&rig) else { return };
    let mut prices = settings.prices.unwrap_or(*told);
    match what {
        Work::Membrane if told.membrane <= 0.0 => prices.membrane = cost,
        Work::Resin if told.resin_per_litre <= 0.0 => {
            prices.resin_per_litre = cost / settings.resin_litres.unwrap_or(1.0);
        }
        _ => return,
    }
    if prices.membrane > 0.0 && prices.resin_per_litre > 0.0 {
        settings.prices = Some(prices);
    }
}
