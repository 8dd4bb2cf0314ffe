//! Building a rig's history from all its events, in whatever order they arrived.

use super::history::{Event, Service, ServiceKind};
use super::observation::Doubt;
use super::prior::Lessons;
use super::rig::{History, step};
use super::settings::Settings;
use super::wear::Heard;

/// Builds a history from all events of a rig, in any arrival order, and says of
/// each event (in the order given) whether it was set aside.
#[must_use]
pub fn replay(events: &[Event], settings: &Settings, outfit: &Lessons) -> (History, Vec<Option<Doubt>>) {
    let (mut history, order) = begin(events);
    let mut doubts = vec![None; events.len()];
    for (place, &i) in order.iter().enumerate() {
        let Ok(done) = step(&mut history, &events[i], settings, outfit) else {
            continue;
        };
        match done.heard {
            Heard::SetAside(doubt) => doubts[i] = Some(doubt),
            Heard::JumpSince(since) | Heard::RenewedSince(since) => {
                pardon(&order[..=place], events, since, &mut doubts);
            }
            Heard::Used | Heard::Repaired => {}
        }
    }
    (history, doubts)
}

/// What the membranes of a fleet teach, from each rig's events and settings: the events
/// of all rigs are heard in the order of time, since what one membrane taught is known
/// when the next one is judged.
#[must_use]
pub fn lessons_of(rigs: &[(Vec<Event>, Settings)]) -> Lessons {
    let mut histories: Vec<History> = rigs.iter().map(|(events, _)| begin(events).0).collect();
    let events = |(rig, (events, _)): (usize, &'_ (Vec<Event>, Settings))| {
        events.clone().into_iter().map(move |event| (rig, event))
    };
    let mut heard: Vec<(usize, Event)> = rigs.iter().enumerate().flat_map(events).collect();
    heard.sort_by(|a, b| arrival_order(&a.1, &b.1));
    let mut lessons = Lessons::none();
    for (rig, event) in heard {
        let step = step(&mut histories[rig], &event, &rigs[rig].1, &lessons);
        if let Some(lesson) = step.ok().and_then(|step| step.lesson) {
            lessons.learn(&lesson);
        }
    }
    lessons
}

/// A history before its first event, which knows what the crew denied, and the
/// order in which to take the events.
pub(super) fn begin(events: &[Event]) -> (History, Vec<usize>) {
    let mut order: Vec<usize> = (0..events.len()).collect();
    order.sort_by(|&a, &b| arrival_order(&events[a], &events[b]));
    let mut history = History::default();
    for event in events {
        if let Event::Service(Service {
            at,
            what: ServiceKind::SameMembrane,
        }) = event
        {
            history.denials.push(*at);
        }
    }
    history.denials.sort_unstable();
    (history, order)
}

/// Readings that looked wrong and turned out to be the first of a jump stand.
pub(super) fn pardon(heard: &[usize], events: &[Event], since: i64, doubts: &mut [Option<Doubt>]) {
    for &i in heard.iter().rev() {
        if events[i].at() < since {
            break;
        }
        if doubts[i] == Some(Doubt::UnlikeTrend) {
            doubts[i] = None;
        }
    }
}

/// Time first; at one instant services before readings (the reading is taken after the work). What is equal so stays in
/// the order given, which is that of arrival.
#[must_use]
pub fn arrival_order(a: &Event, b: &Event) -> std::cmp::Ordering {
    let is_reading = |event: &Event| matches!(event, Event::Reading(_));
    a.at().cmp(&b.at()).then(is_reading(a).cmp(&is_reading(b)))
}
