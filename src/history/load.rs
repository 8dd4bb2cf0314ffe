//! Loading outfits from the store, many at once: kept states and the rows behind them.
//!
//! A kept state counts if it has this release's form, was computed under the settings that hold, and with the lessons
//! that it should have known. Else the rig is replayed from its rows; where that changes what the other rigs should have
//! known, all rigs of the outfit are.

use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

use crate::domain::{OutfitId, RigId};
use crate::store::outfit_rows as rows;
use crate::store::readings::Reading;
use crate::store::services::Service;
use crate::store::states::{self, State};
use crate::store::tails::{Tail, tails};
use crate::store::{Db, StoreError};

use super::known_rig::{KnownRig, SHAPE};
use super::outfit::{Outfit, Person};
use super::replay::{Rows, Teachings, replay};
use super::rig_state::{Happened, RigState, Taught, fingerprint};
use super::rules::Rules;
use super::zone_of;

/// The outfits with these numbers as they stand in the database. What is not there is left out.
///
/// # Errors
/// Whatever the database says.
pub async fn load(db: &mut Db, ids: &[OutfitId]) -> Result<Vec<Box<Outfit>>, StoreError> {
    load_as(db, ids, Kept::Counts).await
}

/// The same, computed from the rows alone: what kept states are compared with.
///
/// # Errors
/// Whatever the database says.
pub async fn load_anew(db: &mut Db, ids: &[OutfitId]) -> Result<Vec<Box<Outfit>>, StoreError> {
    load_as(db, ids, Kept::IsIgnored).await
}

/// One outfit as its rows stood at an instant: what happened later is left out. None if it is not there.
///
/// # Errors
/// Whatever the database says.
pub async fn as_of(db: &mut Db, id: OutfitId, at: i64) -> Result<Option<Box<Outfit>>, StoreError> {
    let Some(mut outfit) = load(db, &[id]).await?.pop() else {
        return Ok(None);
    };
    let is_later = |known: &KnownRig| known.state.upto.is_some_and(|(upto, _)| upto > at);
    if outfit.rigs.iter().any(is_later) {
        replay_until(db, &mut outfit, at).await?;
    }
    Ok(Some(outfit))
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kept {
    Counts,
    IsIgnored,
}

async fn load_as(db: &mut Db, ids: &[OutfitId], use_of: Kept) -> Result<Vec<Box<Outfit>>, StoreError> {
    let mut settings: HashMap<OutfitId, Vec<_>> = HashMap::new();
    let found = rows::outfits(db, ids).await?;
    for (id, kept) in rows::settings(db, ids).await? {
        settings.entry(id).or_default().push(kept);
    }
    let mut outfits: BTreeMap<OutfitId, Box<Outfit>> = BTreeMap::new();
    for (version, row) in found {
        let rules = Rules::of(&row, settings.get(&row.id).map_or(&[], Vec::as_slice));
        let outfit = Outfit {
            version,
            zone: zone_of(&row),
            rules: Arc::new(rules),
            fleet: Arc::default(),
            rigs: Vec::new(),
            teachings: Teachings::default(),
            people: Vec::new(),
            must_replay: false,
            row: Arc::new(row),
        };
        outfits.insert(outfit.id(), Box::new(outfit));
    }
    for (address, member) in rows::members(db, ids).await? {
        if let Some(outfit) = outfits.get_mut(&member.outfit_id) {
            outfit.people.push(Person {
                address,
                member,
                recent: None,
            });
        }
    }
    let asked: HashMap<RigId, i64> = rows::asked_to_flush(db, ids).await?.into_iter().collect();
    let mut kept: HashMap<RigId, RigState> = HashMap::new();
    if use_of == Kept::Counts {
        let read = |state: State| Some((state.rig_id, serde_json::from_str(&state.body).ok()?));
        let states = states::of_outfits(db, ids).await?;
        kept.extend(states.into_iter().filter(|state| state.shape == SHAPE).filter_map(read));
    }
    for (outfit_id, rig) in rows::fleets(db, ids).await? {
        let Some(outfit) = outfits.get_mut(&outfit_id) else {
            continue;
        };
        let settings = outfit.rules.water_settings(&rig);
        let state = kept
            .remove(&rig.id)
            .filter(|state| state.settings == fingerprint(&settings));
        outfit.rigs.push(KnownRig {
            asked_to_flush: asked.get(&rig.id).copied(),
            keep_now: state.is_none(),
            state: state.unwrap_or_else(|| RigState::new(&settings)),
            settings,
            rig,
        });
    }
    let mut outfits: Vec<Box<Outfit>> = outfits.into_values().collect();
    for outfit in &mut outfits {
        outfit.fleet = Arc::new(outfit.rigs.iter().map(|known| known.rig.clone()).collect());
    }
    let behind: Vec<Tail> = outfits
        .iter()
        .flat_map(|outfit| outfit.rigs.iter().map(KnownRig::tail))
        .collect();
    let (readings, services) = tails(db, &behind).await?;
    let mut events: HashMap<RigId, Vec<Happened<'_>>> = HashMap::new();
    for reading in &readings {
        events
            .entry(reading.rig_id)
            .or_default()
            .push(Happened::Reading(reading));
    }
    for service in &services {
        events
            .entry(service.rig_id)
            .or_default()
            .push(Happened::Service(service));
    }
    let mut wrong = Vec::new();
    for outfit in &mut outfits {
        if !catch_up(outfit, &mut events) {
            wrong.push(outfit.id());
        }
    }
    for outfit in outfits.iter_mut().filter(|outfit| wrong.contains(&outfit.id())) {
        replay_all(db, outfit).await?;
    }
    Ok(outfits)
}

/// Replays one rig from its rows, as they stand now; where that changes what the others should have known, all rigs.
///
/// # Errors
/// Whatever the database says.
pub async fn replay_rig(db: &mut Db, outfit: &mut Outfit, rig_id: RigId) -> Result<(), StoreError> {
    let Some(place) = outfit.rigs.iter().position(|known| known.rig.id == rig_id) else {
        return Ok(());
    };
    let (readings, services) = tails(db, &[whole(rig_id)]).await?;
    let others = others_taught(outfit, &[rig_id]);
    let known = &outfit.rigs[place];
    let rows = Rows {
        rig: rig_id,
        settings: &known.settings,
        events: happened(&readings, &services, rig_id),
    };
    let taught = known.state.taught.clone();
    let Some(state) = replay(vec![rows], &others).pop() else {
        return Ok(());
    };
    let taught_differs = state.taught != taught;
    let known = &mut outfit.rigs[place];
    known.state = state;
    known.keep_now = true;
    if taught_differs {
        replay_all(db, outfit).await?;
    }
    Ok(())
}

/// Replays all rigs of an outfit together from their rows.
///
/// # Errors
/// Whatever the database says.
pub async fn replay_all(db: &mut Db, outfit: &mut Outfit) -> Result<(), StoreError> {
    replay_until(db, outfit, i64::MAX).await
}

async fn replay_until(db: &mut Db, outfit: &mut Outfit, until: i64) -> Result<(), StoreError> {
    let all: Vec<Tail> = outfit.rigs.iter().map(|known| whole(known.rig.id)).collect();
    let (mut readings, mut services) = tails(db, &all).await?;
    readings.retain(|reading| reading.taken_at <= until);
    services.retain(|service| service.done_at <= until);
    let mut events = by_rig(&readings, &services);
    let rows = outfit.rigs.iter().map(|known| Rows {
        rig: known.rig.id,
        settings: &known.settings,
        events: events.remove(&known.rig.id).unwrap_or_default(),
    });
    let replayed = replay(rows.collect(), &[]);
    for (known, state) in outfit.rigs.iter_mut().zip(replayed) {
        known.state = state;
        known.keep_now = true;
    }
    outfit.teachings = teachings(outfit);
    outfit.must_replay = false;
    Ok(())
}

fn whole(rig_id: RigId) -> Tail {
    Tail {
        rig_id,
        from_at: i64::MIN,
        ..Tail::default()
    }
}

fn teachings(outfit: &Outfit) -> Teachings {
    Teachings::of(outfit.rigs.iter().map(|known| (known.rig.id, &known.state)))
}

fn others_taught(outfit: &Outfit, but: &[RigId]) -> Vec<Taught> {
    let others = outfit.rigs.iter().filter(|known| !but.contains(&known.rig.id));
    others.flat_map(|known| known.state.taught.iter().copied()).collect()
}

fn happened<'a>(readings: &'a [Reading], services: &'a [Service], rig_id: RigId) -> Vec<Happened<'a>> {
    let readings = readings.iter().filter(|reading| reading.rig_id == rig_id);
    let services = services.iter().filter(|service| service.rig_id == rig_id);
    readings
        .map(Happened::Reading)
        .chain(services.map(Happened::Service))
        .collect()
}

fn by_rig<'a>(readings: &'a [Reading], services: &'a [Service]) -> HashMap<RigId, Vec<Happened<'a>>> {
    let mut events: HashMap<RigId, Vec<Happened<'a>>> = HashMap::new();
    for reading in readings {
        events
            .entry(reading.rig_id)
            .or_default()
            .push(Happened::Reading(reading));
    }
    for service in services {
        events
            .entry(service.rig_id)
            .or_default()
            .push(Happened::Service(service));
    }
    events
}

/// Brings an outfit's rigs up to date with the events behind their states; false when all of them must be replayed.
fn catch_up(outfit: &mut Outfit, events: &mut HashMap<RigId, Vec<Happened<'_>>>) -> bool {
    let fresh: Vec<RigId> = outfit
        .rigs
        .iter()
        .filter(|known| known.state.upto.is_none())
        .map(|known| known.rig.id)
        .collect();
    // What has no state is replayed from its rows, which its tail is all of.
    let others = others_taught(outfit, &fresh);
    let rows: Vec<Rows<'_>> = outfit
        .rigs
        .iter()
        .filter(|known| fresh.contains(&known.rig.id))
        .map(|known| Rows {
            rig: known.rig.id,
            settings: &known.settings,
            events: events.remove(&known.rig.id).unwrap_or_default(),
        })
        .collect();
    let mut replayed: HashMap<RigId, RigState> = fresh.iter().copied().zip(replay(rows, &others)).collect();
    for known in &mut outfit.rigs {
        if let Some(state) = replayed.remove(&known.rig.id) {
            known.keep_now = state.count > 0;
            known.state = state;
        }
    }
    outfit.teachings = teachings(outfit);
    let knows = |known: &KnownRig| {
        let before = known.state.upto.map_or(i64::MIN, |(at, _)| at);
        known.state.heard_lessons == outfit.teachings.mark(known.rig.id, before)
    };
    let kept = |known: &&KnownRig| !fresh.contains(&known.rig.id);
    if !outfit.rigs.iter().filter(kept).all(knows) {
        return false;
    }
    let mut order: Vec<(RigId, Happened<'_>)> = Vec::new();
    for known in &outfit.rigs {
        let tail = events.remove(&known.rig.id).unwrap_or_default();
        order.extend(tail.into_iter().map(|event| (known.rig.id, event)));
    }
    order.sort_by_key(|(_, event)| event.order());
    let caught_up = order.iter().all(|(rig, event)| outfit.take(*rig, event).is_ok());
    caught_up && !outfit.must_replay
}
