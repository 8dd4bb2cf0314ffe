//! From the facts of a week to a digest.

use jiff::civil::Date;

use super::action::{Action, Item};
use super::due_dates::{self, DueDate};
use super::findings;
use super::fleet::{self, FleetRow};
use super::followed::{self, Followed};
use super::headline::{self, Headline};
use super::quiet::{self, Quiet};
use super::shopping::{self, Shopping};
use super::week::{Decision, Jump, Week};

/// More than this nobody does in a week.
pub const MOST_ACTIONS: usize = 5;

/// A decided digest.
#[derive(Clone, Debug, PartialEq)]
pub struct Digest {
    /// The outfit's name.
    pub outfit: String,
    /// First day of the week.
    pub from: Date,
    /// Last day of the week.
    pub to: Date,
    /// The day of the digest.
    pub today: Date,
    /// The finding that comes first.
    pub headline: Headline,
    /// At most [`MOST_ACTIONS`], most pressing first. Rigs that need the same
    /// thing share an action.
    pub actions: Vec<Action>,
    /// What would come next, were there room.
    pub later: Vec<Action>,
    /// The fleet, most urgent first.
    pub fleet: Vec<FleetRow>,
    /// The fleet's due dates within a year.
    pub due_dates: Vec<DueDate>,
    /// What to buy for the next two weeks.
    pub shopping: Shopping,
    /// Rigs and people without readings.
    pub quiet: Quiet,
    /// Jumps that began this week: rig and what was read.
    pub jumps_opened: Vec<(String, Jump)>,
    /// Jumps that ended this week.
    pub jumps_closed: Vec<(String, Jump)>,
    /// What the last digest asked for, and what became of it.
    pub followed: Vec<Followed>,
    /// Readings of the week, the whole fleet.
    pub readings: u32,
}

/// Decides the digest of a week.
///
/// The order of the actions is that of [`super::Kind`].
#[must_use]
pub fn decide(week: &Week) -> Digest {
    let mut actions = findings::actions(week);
    let fleet = fleet::rows(week, &actions);
    let shopping = shopping::list(week);
    let later = actions.split_off(actions.len().min(MOST_ACTIONS));
    let jumps = |kept: fn(&Jump, &Week) -> bool| {
        let mut found: Vec<(String, Jump)> = week
            .rigs
            .iter()
            .filter_map(|rig| Some((rig.name.clone(), rig.jump.filter(|jump| kept(jump, week))?)))
            .collect();
        found.sort_by(|a, b| (a.1.opened_on, &a.0).cmp(&(b.1.opened_on, &b.0)));
        found
    };
    Digest {
        outfit: week.outfit.clone(),
        from: week.from,
        to: week.to,
        today: week.today,
        headline: headline::of(week, &actions, &fleet, &shopping),
        shopping,
        due_dates: due_dates::of(week),
        quiet: quiet::of(week),
        jumps_opened: jumps(|jump, week| jump.opened_on >= week.from),
        jumps_closed: jumps(|jump, week| jump.closed_on.is_some_and(|on| on >= week.from)),
        followed: followed::of(week, actions.iter().chain(&later)),
        readings: week.rigs.iter().map(|rig| rig.readings).sum(),
        actions,
        later,
        fleet,
    }
}

impl Digest {
    /// What this digest asks for, to be kept and handed in again next Monday as
    /// [`Week::decisions`]. Only what was shown counts as asked for.
    #[must_use]
    pub fn decisions(&self) -> Vec<Decision> {
        let items = self.actions.iter().flat_map(|action| &action.items);
        items.map(decision).collect()
    }
}

fn decision(item: &Item) -> Decision {
    Decision {
        kind: item.deed.kind(),
        rig: item.subject.rig(),
        person: item.subject.person(),
        since: item.since,
        mondays: item.mondays,
    }
}
