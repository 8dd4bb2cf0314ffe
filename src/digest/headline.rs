//! The finding that comes first.

use jiff::civil::Date;

use crate::water::verdict::{Deed, Due, Kind, LAID_UP_FROM_DAYS};

use super::action::{Action, Item};
use super::fleet::FleetRow;
use super::shopping::Shopping;
use super::week::{RigWeek, Week};
use crate::water::dates::days_between;

/// The headline.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Headline {
    /// Nobody sent a reading all week; when the last one came, if ever.
    NoReadings {
        /// Local date of the fleet's last reading.
        last: Option<Date>,
        /// Whether the whole fleet is laid up or in preservative: then nobody is
        /// to be sent to read it.
        rests: bool,
    },
    /// What is wanted first, one or two things.
    Wants(Vec<Want>),
    /// Nothing to mend or to ask, but something to buy.
    OnlyToBuy,
    /// Nothing to mend, to buy or to ask of a rig.
    Calm {
        /// Rigs read this week.
        read: usize,
        /// Rigs not read this week.
        unread: usize,
    },
}

/// What rigs want.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Want {
    /// What.
    pub kind: Kind,
    /// The names of the rigs or people, most pressing first; an empty one stands
    /// for the whole outfit.
    pub names: Vec<String>,
}

/// The headline of a week with these actions and rows.
#[must_use]
pub fn of(week: &Week, actions: &[Action], fleet: &[FleetRow], shopping: &Shopping) -> Headline {
    let read = fleet.iter().filter(|row| row.readings > 0).count();
    if read == 0 {
        return Headline::NoReadings {
            last: fleet.iter().filter_map(|row| row.last_reading_on).max(),
            rests: week.rigs.iter().all(|rig| rests(rig, week.today)),
        };
    }
    let is_unread = |row: &&FleetRow| row.readings == 0 && row.off.is_none();
    let unread = fleet.iter().filter(is_unread).count();
    let wants = two_of(actions.iter().filter_map(want).collect());
    if !wants.is_empty() {
        return Headline::Wants(wants);
    }
    if !shopping.purchases.is_empty() {
        return Headline::OnlyToBuy;
    }
    // Where every rig is well, somebody's silence is the news.
    let silence = actions.iter().find(|action| action.kind == Kind::QuietPerson);
    match silence.filter(|_| unread == 0) {
        Some(people) => Headline::Wants(vec![of_all(people)]),
        None => Headline::Calm { read, unread },
    }
}

fn rests(rig: &RigWeek, today: Date) -> bool {
    let is_laid_up = |last| days_between(last, today) >= LAID_UP_FROM_DAYS;
    rig.is_preserved || rig.off.away.is_some() || rig.last_reading_on.is_none_or(is_laid_up)
}

/// The first want and the next one of another risk, so that two lines of resin
/// do not hide a leak.
fn two_of(wants: Vec<Want>) -> Vec<Want> {
    let Some(first) = wants.first() else {
        return wants;
    };
    let other = wants.iter().find(|want| want.kind.risk() != first.kind.risk());
    let second = other.or(wants.get(1));
    [Some(first), second].into_iter().flatten().cloned().collect()
}

/// Silence and standing rigs are no headline beside what is wanted. A membrane is called due when
/// a new one pays or it is spent; else it is only to be weighed.
fn want(action: &Action) -> Option<Want> {
    match action.kind {
        Kind::IdleRig | Kind::QuietRig | Kind::QuietPerson => None,
        Kind::NewMembrane => {
            let due: Vec<&Item> = action.items.iter().filter(|item| is_due(item)).collect();
            Some(if due.is_empty() {
                Want {
                    kind: Kind::PlanMembrane,
                    ..of_all(action)
                }
            } else {
                Want {
                    kind: Kind::NewMembrane,
                    names: names(due),
                }
            })
        }
        _ => Some(of_all(action)),
    }
}

fn of_all(action: &Action) -> Want {
    Want {
        kind: action.kind,
        names: names(action.items.iter().collect()),
    }
}

fn names(items: Vec<&Item>) -> Vec<String> {
    items.iter().map(|item| item.subject.name().to_owned()).collect()
}

fn is_due(item: &Item) -> bool {
    matches!(
        item.deed,
        Deed::NewMembrane {
            due: Due::Now | Due::LineCrossed { spent: true, .. } | Due::GlassDecides { spent: true },
            ..
        }
    )
}
