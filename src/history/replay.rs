//! Replaying rigs from their rows, with what the membranes of a fleet teach each other.
//!
//! What a life taught counts for the events after its instant, on every rig of the outfit. So a fleet is replayed in the
//! order of time, and a single rig beside the others' lessons. A rig that was moved on event by event comes to the same.

use crate::domain::RigId;
use crate::water::prior::Lessons;
use crate::water::settings::Settings;

use super::rig_state::{Happened, RigState, Taught};

/// What the membranes of an outfit taught, oldest first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Teachings {
    all: Vec<(RigId, Taught)>,
    /// What all of it comes to.
    sum: Lessons,
}

impl Teachings {
    /// Of a fleet's states.
    pub fn of<'a>(states: impl Iterator<Item = (RigId, &'a RigState)>) -> Self {
        let mut all: Vec<_> = states
            .flat_map(|(rig, state)| state.taught.iter().map(move |taught| (rig, *taught)))
            .collect();
        all.sort_by_key(|(rig, taught)| (taught.at, *rig));
        let mut sum = Lessons::none();
        all.iter().for_each(|(_, taught)| sum.learn(&taught.lesson));
        Self { all, sum }
    }

    /// Adds what was just taught, if it is not older than the rest.
    pub fn add(&mut self, rig: RigId, taught: Taught) {
        self.sum.learn(&taught.lesson);
        self.all.push((rig, taught));
    }

    /// What was learned before an instant.
    pub fn before(&self, at: i64) -> Lessons {
        if self.all.last().is_none_or(|(_, taught)| taught.at < at) {
            return self.sum;
        }
        let mut lessons = Lessons::none();
        for (_, taught) in self.all.iter().filter(|(_, taught)| taught.at < at) {
            lessons.learn(&taught.lesson);
        }
        lessons
    }

    /// Of other rigs and before an instant: how many, and the sum of their instants.
    pub fn mark(&self, rig: RigId, before: i64) -> (u32, i64) {
        let others = self.all.iter().filter(|(by, taught)| *by != rig && taught.at < before);
        others.fold((0, 0), |(count, sum), (_, taught)| (count + 1, sum + taught.at))
    }
}

/// One rig of a replay.
pub struct Rows<'a> {
    /// Its number.
    pub rig: RigId,
    /// What it is computed under.
    pub settings: &'a Settings,
    /// What happened, in any order.
    pub events: Vec<Happened<'a>>,
}

/// Replays rigs together, beside what the rest of their outfit taught. The states come in the order of `rigs`.
pub fn replay(mut rigs: Vec<Rows<'_>>, others: &[Taught]) -> Vec<RigState> {
    let mut states: Vec<RigState> = Vec::with_capacity(rigs.len());
    let mut order = Vec::new();
    for (nth, rows) in rigs.iter_mut().enumerate() {
        rows.events.sort_by_key(Happened::order);
        states.push(RigState::before(rows.events.iter(), rows.settings));
        order.extend(rows.events.iter().enumerate().map(|(place, event)| {
            let (at, is_reading, _) = event.order();
            (at, is_reading, nth, place)
        }));
    }
    order.sort_unstable();
    let mut waiting: Vec<Taught> = others.to_vec();
    waiting.sort_by_key(|taught| taught.at);
    let (mut next, mut known) = (0, Lessons::none());
    for (at, _, nth, place) in order {
        while let Some(taught) = waiting.get(next).filter(|taught| taught.at < at) {
            known.learn(&taught.lesson);
            next += 1;
        }
        let (rows, state) = (&rigs[nth], &mut states[nth]);
        let taught = state.taught.len();
        // In order, so that it cannot be out of it.
        let _ = state.take(&rows.events[place], rows.settings, &known);
        for new in &state.taught[taught..] {
            let behind = waiting.partition_point(|taught| taught.at <= new.at);
            waiting.insert(behind.max(next), *new);
        }
    }
    states
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::domain::ServiceKind;
    use crate::store::readings::Reading;
    use crate::store::services::Service;

    /// What somebody does to the record of a fleet of three rigs.
    #[derive(Clone, Debug)]
    enum Change {
        Read {
            rig: usize,
            later: i64,
            feed: f64,
            permeate: f64,
        },
        Serve {
            rig: usize,
            later: i64,
            what: ServiceKind,
        },
        Withdraw {
            nth: usize,
        },
        Edit {
            nth: usize,
            permeate: f64,
        },
    }

    fn change() -> impl Strategy<Value = Change> {
        // Mostly in order; a fifth of what is told comes late.
        let later = prop_oneof![4 => 0_i64..20 * 86_400, 1 => -60 * 86_400_i64..0];
        let read = (0_usize..3, later.clone(), 80.0_f64..400.0, 1.0_f64..40.0);
        let what = prop::sample::select(ServiceKind::ALL.to_vec());
        prop_oneof![
            12 => read.prop_map(|(rig, later, feed, permeate)| Change::Read { rig, later, feed, permeate }),
            2 => (0_usize..3, later, what).prop_map(|(rig, later, what)| Change::Serve { rig, later, what }),
            1 => any::<usize>().prop_map(|nth| Change::Withdraw { nth }),
            1 => (any::<usize>(), 1.0_f64..40.0).prop_map(|(nth, permeate)| Change::Edit { nth, permeate }),
        ]
    }

    #[derive(Clone, Debug)]
    enum Row {
        Read(Reading),
        Done(Service),
    }

    impl Row {
        fn happened(&self) -> Happened<'_> {
            match self {
                Self::Read(reading) => Happened::Reading(reading),
                Self::Done(service) => Happened::Service(service),
            }
        }

        fn rig(&self) -> i64 {
            match self {
                Self::Read(reading) => reading.rig_id,
                Self::Done(service) => service.rig_id,
            }
        }
    }

    fn rows_of<'a>(rows: &'a [Row], rig: i64, settings: &'a Settings) -> Rows<'a> {
        Rows {
            rig,
            settings,
            events: rows.iter().filter(|row| row.rig() == rig).map(Row::happened).collect(),
        }
    }

    fn whole(rows: &[Row], settings: &Settings) -> Vec<RigState> {
        replay((0..3).map(|rig| rows_of(rows, rig, settings)).collect(), &[])
    }

    /// States that are moved on event by event, and replayed only where the order or the record demands it.
    struct Kept {
        states: Vec<RigState>,
        teachings: Teachings,
    }

    impl Kept {
        fn learn_anew(&mut self) {
            self.teachings = Teachings::of((0..).zip(&self.states));
        }

        fn replay_one(&mut self, rig: usize, rows: &[Row], settings: &Settings) {
            let others = self.states.iter().enumerate().filter(|(nth, _)| *nth != rig);
            let others: Vec<Taught> = others.flat_map(|(_, state)| state.taught.clone()).collect();
            let taught = self.states[rig].taught.clone();
            self.states[rig] = replay(vec![rows_of(rows, rig as i64, settings)], &others).remove(0);
            if self.states[rig].taught != taught {
                self.states = whole(rows, settings);
            }
            self.learn_anew();
        }

        fn take(&mut self, rig: usize, rows: &[Row], settings: &Settings) {
            let Some(event) = rows.last().map(Row::happened) else {
                return;
            };
            let at = event.order().0;
            let taught = self.states[rig].taught.len();
            let lessons = self.teachings.before(at);
            let took = self.states[rig].is_next(&event) && self.states[rig].take(&event, settings, &lessons).is_ok();
            if !took {
                return self.replay_one(rig, rows, settings);
            }
            if self.states[rig].taught.len() > taught {
                let knew_later = |state: &RigState| state.upto.is_some_and(|(upto, _)| upto > at);
                let mut others = self.states.iter().enumerate().filter(|(nth, _)| *nth != rig);
                if others.any(|(_, state)| knew_later(state)) {
                    self.states = whole(rows, settings);
                }
                self.learn_anew();
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(192))]

        #[test]
        fn kept_states_equal_a_full_replay(changes in prop::collection::vec(change(), 1..120)) {
            let settings = Settings { resin_litres: Some(10.0), litres_per_workday: Some(400.0), ..Settings::default() };
            let mut rows: Vec<Row> = Vec::new();
            let mut kept = Kept { states: whole(&[], &settings), teachings: Teachings::default() };
            let (mut clock, mut id) = (1_700_000_000, 0);
            for change in changes {
                id += 1;
                let mut at = |later: i64| {
                    clock += later.max(0);
                    clock + later.min(0)
                };
                match change {
                    Change::Read { rig, later, feed, permeate } => {
                        rows.push(Row::Read(Reading {
                            id, rig_id: rig as i64, taken_at: at(later), feed_ppm: feed, permeate_ppm: Some(permeate),
                            ..Reading::default()
                        }));
                        kept.take(rig, &rows, &settings);
                    }
                    Change::Serve { rig, later, what } => {
                        let done = Service::new(rig as i64, what, String::new(), at(later));
                        rows.push(Row::Done(Service { id, ..done }));
                        kept.take(rig, &rows, &settings);
                    }
                    Change::Withdraw { nth } if !rows.is_empty() => {
                        let gone = rows.remove(nth % rows.len());
                        kept.replay_one(gone.rig() as usize, &rows, &settings);
                    }
                    Change::Edit { nth, permeate } if !rows.is_empty() => {
                        let nth = nth % rows.len();
                        if let Row::Read(reading) = &mut rows[nth] {
                            reading.permeate_ppm = Some(permeate);
                        }
                        kept.replay_one(rows[nth].rig() as usize, &rows, &settings);
                    }
                    Change::Withdraw { .. } | Change::Edit { .. } => {}
                }
            }
            for (kept, anew) in kept.states.iter().zip(&whole(&rows, &settings)) {
                prop_assert!(kept.agrees_with(anew), "kept {kept:?}\nanew {anew:?}");
            }
        }
    }
}
