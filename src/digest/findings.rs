//! What the facts of a week ask for, grouped and in order: the one order of [`Kind`]. Within an action its rigs stand
//! by money a month, then by what presses more, then by date, then by name.

use std::cmp::Ordering;

use super::Kind;
use super::action::{Action, Item, Subject};
use super::week::{Decision, PersonWeek, Week};
use super::{rig_findings, season};
use crate::domain::Role;
use crate::water::verdict::Deed;

/// Fewer readings than this in the four weeks before are no habit.
const HABIT_READINGS: u32 = 4;

/// Everything that the facts ask for, most pressing first.
#[must_use]
pub fn actions(week: &Week) -> Vec<Action> {
    let mut items: Vec<Item> = Vec::new();
    for rig in &week.rigs {
        let subject = Subject::Rig(rig.id, rig.name.clone());
        items.extend(
            rig_findings::of(rig, week)
                .into_iter()
                .map(|deed| item(week, subject.clone(), deed)),
        );
    }
    for person in week.people.iter().filter(|person| is_quiet(person, week)) {
        let deed = Deed::QuietPerson {
            before: person.readings_before,
        };
        items.push(item(week, Subject::Person(person.id, person.name.clone()), deed));
    }
    items.extend(frost(week).map(|deed| item(week, Subject::Outfit, deed)));
    grouped(items)
}

/// Whether somebody who used to send readings sent none in a week of work.
#[must_use]
pub fn is_quiet(person: &PersonWeek, week: &Week) -> bool {
    // Owners know about themselves, and read this.
    !week.was_closed && person.role != Role::Owner && person.readings == 0 && person.readings_before >= HABIT_READINGS
}

fn grouped(items: Vec<Item>) -> Vec<Action> {
    let mut actions: Vec<Action> = Kind::ALL
        .into_iter()
        .map(|kind| Action {
            kind,
            items: items.iter().filter(|item| item.deed.kind() == kind).cloned().collect(),
        })
        .filter(|action| !action.items.is_empty())
        .collect();
    for action in &mut actions {
        action.items.sort_by(rank_items);
    }
    actions
}

fn rank_items(a: &Item, b: &Item) -> Ordering {
    (a.deed.by_urgency(&b.deed))
        .then_with(|| a.subject.name().cmp(b.subject.name()))
        .then_with(|| (a.subject.rig(), a.subject.person()).cmp(&(b.subject.rig(), b.subject.person())))
}

fn frost(week: &Week) -> Option<Deed> {
    let waters: Vec<_> = week.rigs.iter().filter_map(|rig| rig.water).collect();
    // A fleet that never worked has nothing to freeze yet.
    week.rigs.iter().find(|rig| rig.last_reading_on.is_some())?;
    let frost = season::frost(week.today, week.southern, &waters, week.frost_said_on)?;
    Some(Deed::Frost {
        water_c: match frost {
            season::Frost::ColdWater(celsius) => Some(celsius),
            season::Frost::Season => None,
        },
    })
}

/// An item with how often it has been asked for in a row.
fn item(week: &Week, subject: Subject, deed: Deed) -> Item {
    let is_same = |decision: &&Decision| {
        decision.kind == deed.kind() && decision.rig == subject.rig() && decision.person == subject.person()
    };
    let before = week.decisions.iter().find(is_same);
    Item {
        since: before.map_or(week.today, |decision| decision.since.min(week.today)),
        mondays: before.map_or(1, |decision| decision.mondays.saturating_add(1)),
        subject,
        deed,
    }
}
