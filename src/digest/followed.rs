//! What became of the last digest's actions.

use jiff::civil::Date;

use crate::water::history::ServiceKind;

use super::Kind;
use super::action::Action;
use super::week::{Decision, RigWeek, Week};

/// A decision of the last digest and what became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Followed {
    /// What was asked for.
    pub kind: Kind,
    /// The rig's or person's name.
    pub name: String,
    /// What became of it.
    pub outcome: Outcome,
    /// How many digests in a row had asked for it.
    pub mondays: u32,
}

/// What became of a decision.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It was done: a service of its kind was logged, the jump closed, readings
    /// came. The date, where one is known.
    Done(Option<Date>),
    /// Somebody logged the mending, but the readings still ask for it.
    SaidDone(Date),
    /// It is still open.
    Open,
    /// Nothing was logged, and the facts do not ask for it any more.
    NoLonger,
}

/// What became of the last digest's decisions, open ones first, given all that
/// this week's facts ask for. Those of rigs and people that are gone are left
/// out, and so is frost, which asks for no answer.
#[must_use]
pub fn of<'a>(week: &Week, asked: impl Iterator<Item = &'a Action> + Clone) -> Vec<Followed> {
    let mut followed: Vec<Followed> = week
        .decisions
        .iter()
        .filter_map(|decision| {
            let name = name(week, decision)?;
            let is_open = asked.clone().flat_map(|action| &action.items).any(|item| {
                matter(item.deed.kind()) == matter(decision.kind)
                    && item.subject.rig() == decision.rig
                    && item.subject.person() == decision.person
            });
            Some(Followed {
                kind: decision.kind,
                name,
                outcome: outcome(week, decision, is_open),
                mondays: decision.mondays,
            })
        })
        .collect();
    followed.sort_by(|a, b| (place(a.outcome), a.kind, &a.name).cmp(&(place(b.outcome), b.kind, &b.name)));
    followed
}

/// What was asked for in other words before is still the same matter.
fn matter(kind: Kind) -> Kind {
    match kind {
        Kind::PlanMembrane => Kind::NewMembrane,
        Kind::ResinSoon => Kind::ChangeResin,
        Kind::ReadAgain => Kind::FindLeak,
        other => other,
    }
}

fn place(outcome: Outcome) -> u8 {
    match outcome {
        Outcome::Open => 0,
        Outcome::SaidDone(_) => 1,
        Outcome::Done(_) => 2,
        Outcome::NoLonger => 3,
    }
}

fn name(week: &Week, decision: &Decision) -> Option<String> {
    if let Some(id) = decision.rig {
        return week.rigs.iter().find(|rig| rig.id == id).map(|rig| rig.name.clone());
    }
    let id = decision.person?;
    let person = week.people.iter().find(|person| person.id == id)?;
    Some(person.name.clone())
}

fn outcome(week: &Week, decision: &Decision, is_open: bool) -> Outcome {
    let rig = week.rigs.iter().find(|rig| Some(rig.id) == decision.rig);
    if let Some(done) = rig.and_then(|rig| done(rig, decision)) {
        return done;
    }
    match is_open {
        true => Outcome::Open,
        false if decision.kind == Kind::QuietPerson => Outcome::Done(None),
        // Nothing was read, so nobody knows how long the bed lasts.
        false if decision.kind == Kind::ResinSoon && rig.is_some_and(|rig| rig.readings == 0) => Outcome::Open,
        false => Outcome::NoLonger,
    }
}

/// What the rig's own record says of it.
fn done(rig: &RigWeek, decision: &Decision) -> Option<Outcome> {
    let served_on = |kinds: &[ServiceKind]| {
        let services = rig.services.iter().filter(|service| service.on >= decision.since);
        services
            .filter(|service| kinds.contains(&service.what))
            .map(|service| service.on)
            .max()
    };
    let served = |kinds: &[ServiceKind]| served_on(kinds).map(|on| Outcome::Done(Some(on)));
    match decision.kind {
        Kind::ChangeResin | Kind::ResinSoon => served(&[ServiceKind::Resin]),
        Kind::RepackResin => served(&[ServiceKind::Repack, ServiceKind::Resin]),
        Kind::FindLeak => match rig.jump?.closed_on {
            Some(on) => Some(Outcome::Done(Some(on))),
            // A new O-ring ends a jump; one that stands came again behind it.
            None => served_on(&[ServiceKind::ORing]).map(Outcome::SaidDone),
        },
        Kind::NewMembrane | Kind::PlanMembrane => served(&[ServiceKind::Membrane]),
        Kind::AskMembrane => served(&[ServiceKind::Membrane, ServiceKind::SameMembrane]),
        Kind::Prefilters => served(&[ServiceKind::Prefilter]),
        Kind::Flush => (rig.days_worked > 0 && rig.days_flushed >= rig.days_worked).then_some(Outcome::Done(None)),
        Kind::ReadAgain | Kind::IdleRig | Kind::QuietRig => (rig.readings > 0).then_some(Outcome::Done(None)),
        Kind::Frost | Kind::QuietPerson => None,
    }
}
