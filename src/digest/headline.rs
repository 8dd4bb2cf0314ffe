//! The finding that comes first.

use jiff::civil::Date;

use super::action::{Action, Kind};
use super::fleet::FleetRow;
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
pub fn of(week: &Week, actions: &[Action], fleet: &[FleetRow]) -> Headline {
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
    if wants.is_empty() {
        return Headline::Calm {
            read,
            unread: fleet.len() - read,
        };
    }
    Headline::Wants(wants)
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

/// Silence, standing rigs and frost are no headline.
fn want(action: &Action) -> Option<Want> {
    match action.kind {
        Kind::IdleRig | Kind::Frost | Kind::QuietRig | Kind::QuietPerson => None,
        kind => Some(Want {
            kind,
            rigs: action.items.iter().map(|item| item.subject.name().to_owned()).collect(),
        }),
    }
}
