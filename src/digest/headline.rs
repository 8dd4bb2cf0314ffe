//! The finding that comes first.

use jiff::civil::Date;

use super::action::{Action, Finding, Item, Kind, Window};
use super::fleet::FleetRow;
use super::shopping::Shopping;
use super::week::Week;

/// The headline.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Headline {
    /// There is no rig yet.
    NoRigs,
    /// Nobody sent a reading all week; when the last one came, if ever.
    NoReadings {
        /// Local date of the fleet's last reading.
        last: Option<Date>,
    },
    /// What is wanted first, one or two things.
    Wants(Vec<Want>),
    /// Nothing to mend or to ask, but something to buy.
    OnlyToBuy,
    /// Nothing but the season or a person's silence.
    Minor,
    /// Nothing to mend, to buy or to ask.
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
    /// The rigs' names, most pressing first; never empty.
    pub rigs: Vec<String>,
}

/// The headline of a week with these actions and rows.
#[must_use]
pub fn of(week: &Week, actions: &[Action], fleet: &[FleetRow], shopping: &Shopping) -> Headline {
    if week.rigs.is_empty() {
        return Headline::NoRigs;
    }
    let read = fleet.iter().filter(|row| row.readings > 0).count();
    if read == 0 {
        return Headline::NoReadings {
            last: fleet.iter().filter_map(|row| row.last_reading_on).max(),
        };
    }
    let wants = two_of(actions.iter().filter_map(want).collect());
    let unread = fleet.len() - read;
    match (wants.is_empty(), shopping.purchases.is_empty()) {
        (false, _) => Headline::Wants(wants),
        (true, false) => Headline::OnlyToBuy,
        (true, true) if unread == 0 && !actions.is_empty() => Headline::Minor,
        (true, true) => Headline::Calm { read, unread },
    }
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

/// Silence, standing rigs and frost are no headline. A membrane is called due when
/// a new one pays or it is spent; else it is only to be weighed.
fn want(action: &Action) -> Option<Want> {
    let named = |items: Vec<&Item>| items.iter().map(|item| item.subject.name().to_owned()).collect();
    let all = || action.items.iter().collect();
    match action.kind {
        Kind::IdleRig | Kind::Frost | Kind::QuietRig | Kind::QuietPerson => None,
        Kind::NewMembrane => {
            let due: Vec<&Item> = action.items.iter().filter(|item| is_due(item)).collect();
            Some(match due.is_empty() {
                false => Want {
                    kind: Kind::NewMembrane,
                    rigs: named(due),
                },
                true => Want {
                    kind: Kind::PlanMembrane,
                    rigs: named(all()),
                },
            })
        }
        kind => Some(Want {
            kind,
            rigs: named(all()),
        }),
    }
}

fn is_due(item: &Item) -> bool {
    matches!(
        item.finding,
        Finding::NewMembrane {
            window: Window::Now | Window::LineCrossed { spent: true, .. },
            ..
        }
    )
}
