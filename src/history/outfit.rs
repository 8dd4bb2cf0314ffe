//! One outfit as it is remembered: its people, fleet and settings, and what its rigs came to.

use std::collections::HashMap;
use std::sync::Arc;

use jiff::tz::TimeZone;

use crate::domain::{OutfitId, PersonId, RigId, ServiceKind};
use crate::store::outfit_rows::Recent;
use crate::store::outfits;
use crate::store::people::Member;
use crate::store::rigs::Rig;
use crate::water::wear::Heard;

use super::followed::Followed;
use super::known_rig::KnownRig;
use super::replay::Teachings;
use super::rig_state::{Happened, OutOfOrder};
use super::rules::Rules;

/// After so many events a rig's state is written: the tail behind it stays short.
const KEEP_AFTER: u32 = 32;

/// Somebody in the outfit.
#[derive(Clone, Debug)]
pub struct Person {
    /// The platform's id.
    pub address: String,
    /// Their row.
    pub member: Member,
    /// What they told and were asked lately, once they spoke.
    pub recent: Option<Recent>,
}

/// One outfit.
#[derive(Clone, Debug)]
pub struct Outfit {
    /// Grows with whatever changes what stands here.
    pub version: i64,
    /// Its row.
    pub row: Arc<outfits::Outfit>,
    /// Its zone.
    pub zone: TimeZone,
    /// What was set.
    pub rules: Arc<Rules>,
    /// The fleet, by name.
    pub fleet: Arc<Vec<Rig>>,
    /// The same with what they came to, in the same order.
    pub rigs: Vec<KnownRig>,
    /// What its membranes taught.
    pub teachings: Teachings,
    /// Everybody in it, in the order in which they came.
    pub people: Vec<Person>,
    /// A lesson came that other rigs should have known of earlier: their states are wrong until they are replayed.
    pub must_replay: bool,
}

impl Outfit {
    /// Its number.
    pub fn id(&self) -> OutfitId {
        self.row.id
    }

    /// A rig by its number.
    pub fn rig(&self, id: RigId) -> Option<&KnownRig> {
        self.rigs.iter().find(|known| known.rig.id == id)
    }

    /// Somebody by their number.
    pub fn person_mut(&mut self, id: PersonId) -> Option<&mut Person> {
        self.people.iter_mut().find(|person| person.member.id == id)
    }

    /// Takes what was just recorded of a rig.
    ///
    /// # Errors
    /// [`OutOfOrder`] when the rig must be replayed from its rows.
    pub fn take(&mut self, rig_id: RigId, event: &Happened<'_>) -> Result<Option<Heard>, OutOfOrder> {
        let at = event.order().0;
        let lessons = self.teachings.before(at);
        let known = self
            .rigs
            .iter_mut()
            .find(|known| known.rig.id == rig_id)
            .ok_or(OutOfOrder)?;
        if !known.state.is_next(event) {
            return Err(OutOfOrder);
        }
        let taught = known.state.taught.len();
        let heard = known.state.take(event, &known.settings, &lessons)?;
        let new = known.state.taught.get(taught..).unwrap_or_default().to_vec();
        known.keep_now |= !new.is_empty();
        for taught in new {
            self.teachings.add(rig_id, taught);
            let knew_later = |known: &KnownRig| known.state.upto.is_some_and(|(upto, _)| upto > taught.at);
            self.must_replay |= self
                .rigs
                .iter()
                .any(|known| known.rig.id != rig_id && knew_later(known));
        }
        Ok(heard)
    }

    /// Sets the price of the last service of a kind.
    pub fn price(&mut self, rig_id: RigId, what: ServiceKind, minor: i64) {
        let known = self.rigs.iter_mut().find(|known| known.rig.id == rig_id);
        if let Some(done) = known.and_then(|known| known.state.done.get_mut(&what)) {
            done.price_minor = Some(minor);
        }
    }

    /// What a rig comes to at an instant.
    pub fn follow(&self, rig_id: RigId, now: i64) -> Option<Followed<'_>> {
        let known = self.rig(rig_id)?;
        Some(Followed::of(
            known,
            (&self.rules, &self.zone),
            self.teachings.before(i64::MAX),
            now,
        ))
    }

    /// What each rig comes to, in the fleet's order.
    pub fn follow_fleet(&self, now: i64) -> Vec<Followed<'_>> {
        let lessons = self.teachings.before(i64::MAX);
        let follow = |known| Followed::of(known, (&self.rules, &self.zone), lessons, now);
        self.rigs.iter().map(follow).collect()
    }

    /// The states whose tails have grown long, as they are written; they count as written then.
    pub fn states_to_keep(&mut self) -> Vec<crate::store::states::State> {
        let teachings = &self.teachings;
        let long = self
            .rigs
            .iter_mut()
            .filter(|known| known.keep_now || known.state.since_kept >= KEEP_AFTER);
        long.filter_map(|known| {
            known.keep_now = false;
            known.state.since_kept = 0;
            known.written(teachings)
        })
        .collect()
    }

    /// About how much memory it takes, in rigs: what the bound on it counts.
    pub fn weight(&self) -> usize {
        self.rigs.len() + self.people.len() / 4 + 1
    }
}

/// What is remembered of many outfits, bounded: those that were silent longest are forgotten first.
#[derive(Debug, Default)]
pub struct Memory {
    outfits: HashMap<OutfitId, (u64, Box<Outfit>)>,
    people: HashMap<String, OutfitId>,
    clock: u64,
}

/// Rigs in memory, about: some 10 kB each.
const MOST_WEIGHT: usize = 2_000;

impl Memory {
    /// In which outfit somebody is, by their address, as far as that is remembered.
    pub fn outfit_of(&self, address: &str) -> Option<OutfitId> {
        self.people.get(address).copied()
    }

    /// Takes an outfit out, to be worked on and put back; whoever fails to put it back has it forgotten.
    pub fn take(&mut self, id: OutfitId) -> Option<Box<Outfit>> {
        self.outfits.remove(&id).map(|(_, outfit)| outfit)
    }

    /// The version of an outfit that is remembered.
    pub fn version(&self, id: OutfitId) -> Option<i64> {
        self.outfits.get(&id).map(|(_, outfit)| outfit.version)
    }

    /// Remembers an outfit.
    pub fn put(&mut self, outfit: Box<Outfit>) {
        self.clock += 1;
        for person in &outfit.people {
            if self.people.get(&person.address) != Some(&outfit.id()) {
                self.people.insert(person.address.clone(), outfit.id());
            }
        }
        self.outfits.insert(outfit.id(), (self.clock, outfit));
    }

    /// Forgets an outfit and who was in it.
    pub fn forget(&mut self, id: OutfitId) {
        self.outfits.remove(&id);
        self.people.retain(|_, outfit| *outfit != id);
    }

    /// Keeps to the bound.
    pub fn trim(&mut self) {
        let weight = |outfits: &HashMap<OutfitId, (u64, Box<Outfit>)>| -> usize {
            outfits.values().map(|(_, outfit)| outfit.weight()).sum()
        };
        let mut left = weight(&self.outfits);
        if left <= MOST_WEIGHT {
            return;
        }
        let mut by_use: Vec<(u64, OutfitId)> = self.outfits.iter().map(|(id, (used, _))| (*used, *id)).collect();
        by_use.sort_unstable();
        for (_, id) in by_use {
            // Some more than needed, so that not every batch sorts them.
            if left <= MOST_WEIGHT * 9 / 10 {
                break;
            }
            left -= self.outfits.get(&id).map_or(0, |(_, outfit)| outfit.weight());
            self.forget(id);
        }
    }
}
