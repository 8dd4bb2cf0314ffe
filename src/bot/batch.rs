//! One attempt at a batch: thought about in memory, then written.

use std::collections::{BTreeSet, HashMap, HashSet};
use std::panic::{AssertUnwindSafe, catch_unwind};

use futures_util::FutureExt;
use sqlx::Any;
use sqlx::pool::PoolConnection;

use crate::domain::OutfitId;
use crate::domain::envelope::{Arrived, Happening, Incoming, Outgoing, Send};
use crate::history::{self, Memory};
use crate::replies::Words;
use crate::store::heard::text_hash;
use crate::store::sends::Landed;
use crate::store::{self, StoreError, WriteTransaction, outfit_rows, versions};

use super::Bot;
use super::act::Act;
use super::effects::Effects;
use super::messages::say;
use super::request::{RECENT, Working};
use super::think::Thought;

/// How an attempt at a batch ended, if the database is well.
pub(super) enum Outcome {
    /// All is committed.
    Committed,
    /// Some of it had been heard before.
    Known(HashSet<String>),
    /// What was remembered of an outfit had been changed by another process.
    Stale,
    /// A message broke its handler.
    Broke(String, String),
}

pub(super) fn incoming(arrived: &Arrived) -> Option<&Incoming> {
    match arrived {
        Arrived::Incoming(incoming) => Some(incoming),
        Arrived::Unreadable { .. } => None,
    }
}

/// One attempt at a batch.
pub(super) struct Attempt<'a> {
    pub bot: &'a Bot,
    pub batch: &'a [Arrived],
    /// Keys that were heard before.
    pub known: &'a HashSet<String>,
    pub aside: &'a HashMap<String, String>,
    pub now: i64,
}

/// What must be done inside the transaction, and what is already known of it.
struct Later<'a> {
    incoming: &'a Incoming,
    act: Option<Box<Act>>,
}

impl<'a> Attempt<'a> {
    /// Runs it; what it worked on stands in `working`, what may be handed over in `sends`, of so many as `queued`.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn run(
        &self,
        memory: &mut Memory,
        working: &mut Working,
        landed: &[Landed],
        (sends, queued): (&mut Vec<Send>, &mut usize),
    ) -> Result<Outcome, StoreError> {
        let store = self.bot.store();
        let mut look = Look { store, db: None };
        let whose = self.outfits_of(&mut look, memory).await?;
        gather(&mut look, memory, working, whose.values().copied()).await?;
        self.remember_speakers(&mut look, working, &whose).await?;
        drop(look);
        let mut effects = Effects::default();
        let mut firsts: Vec<(&str, String)> = Vec::new();
        let mut later: Vec<Later<'a>> = Vec::new();
        let mut busy: HashSet<OutfitId> = HashSet::new();
        let mut met: HashSet<&str> = HashSet::new();
        for incoming in self.batch.iter().filter_map(incoming) {
            if self.aside.contains_key(&incoming.key) {
                continue;
            }
            let is_first = incoming.version == 0 && met.insert(&incoming.key);
            if is_first && self.known.contains(&incoming.key) {
                continue;
            }
            let outfit = whose.get(incoming.person.address.as_str()).copied();
            let free = outfit.filter(|outfit| is_first && !busy.contains(outfit));
            let Some(outfit) = free.and_then(|id| working.remove(&id)) else {
                busy.extend(outfit);
                later.push(Later { incoming, act: None });
                continue;
            };
            let id = outfit.id();
            // What breaks leaves the outfit out of the working ones, and the attempt ends.
            let thought = catch_unwind(AssertUnwindSafe(|| {
                self.bot.think(outfit, incoming, &mut effects, self.now)
            }));
            let Ok(thought) = thought else {
                return Ok(Outcome::Broke(incoming.key.clone(), "the handler panicked".to_owned()));
            };
            let (outfit, thought) = thought?;
            working.insert(id, outfit);
            match thought {
                Thought::Done => firsts.push((&incoming.key, text_hash(incoming))),
                Thought::Later(act) => {
                    busy.insert(id);
                    later.push(Later { incoming, act });
                }
            }
        }
        let mut tx = store.begin().await?;
        if let Some(outbox) = self.bot.outbox.get() {
            store::sends::settle(&mut tx, outbox.me(), landed, self.now).await?;
        }
        // Whatever comes from a chat proves that it is open.
        let open = self
            .batch
            .iter()
            .filter_map(incoming)
            .filter(|from| from.what != Happening::ShutOut);
        let open: BTreeSet<&str> = open.map(|from| from.chat.address.as_str()).collect();
        store::chats::unblock_all(&mut tx, &open.into_iter().collect::<Vec<_>>()).await?;
        let rows: Vec<_> = firsts.iter().map(|(key, hash)| (*key, 0, hash.as_str())).collect();
        if !store::heard::note_all(&mut tx, &rows, self.now).await? {
            tx.rollback().await?;
            let keys: Vec<&str> = firsts.iter().map(|(key, _)| *key).collect();
            let known = store::heard::known(&mut *store.read().await?, &keys).await?;
            return Ok(Outcome::Known(known));
        }
        let ids: Vec<OutfitId> = working.keys().copied().collect();
        let before = versions::touch(&mut tx, &ids).await?;
        for (id, outfit) in working.iter_mut() {
            if before.get(id) != Some(&outfit.version) {
                tx.rollback().await?;
                return Ok(Outcome::Stale);
            }
            outfit.version += 1;
        }
        let drawn = effects.write(&mut tx, self.now).await?;
        let mut states = Vec::new();
        for outfit in working.values_mut() {
            drawn.number(outfit);
            states.extend(outfit.states_to_keep());
            if outfit.must_replay {
                store::states::forget_outfit(&mut tx, outfit.id()).await?;
            }
        }
        store::states::keep(&mut tx, &states).await?;
        working.retain(|_, outfit| !outfit.must_replay);
        self.keep_aside(&mut tx, &mut effects.sends).await?;
        for item in later {
            self.do_later(&mut tx, working, item, &mut effects.sends).await?;
        }
        let holder = self.bot.outbox.get().and_then(|outbox| outbox.holder());
        *queued = effects.sends.len();
        *sends = store::sends::insert(&mut tx, holder, &effects.sends, self.now).await?;
        tx.commit().await?;
        Ok(Outcome::Committed)
    }

    /// In which outfits the speakers are, by their addresses.
    async fn outfits_of(&self, look: &mut Look<'_>, memory: &Memory) -> Result<HashMap<&'a str, OutfitId>, StoreError> {
        let mut whose = HashMap::new();
        let mut unknown = BTreeSet::new();
        let heard = self.batch.iter().filter_map(incoming);
        for incoming in heard.filter(|incoming| !self.aside.contains_key(&incoming.key)) {
            let address = incoming.person.address.as_str();
            match memory.outfit_of(address) {
                Some(outfit) => {
                    whose.insert(address, outfit);
                }
                None => {
                    unknown.insert(address);
                }
            }
        }
        if !unknown.is_empty() {
            let asked: Vec<&str> = unknown.iter().copied().collect();
            for (address, outfit) in outfit_rows::of_people(look.db().await?, &asked).await? {
                if let Some(address) = unknown.get(address.as_str()) {
                    whose.insert(*address, outfit);
                }
            }
        }
        Ok(whose)
    }

    /// What was lately said by and to those who speak now.
    async fn remember_speakers(
        &self,
        look: &mut Look<'_>,
        working: &mut Working,
        whose: &HashMap<&str, OutfitId>,
    ) -> Result<(), StoreError> {
        let mut silent = Vec::new();
        for outfit in working.values() {
            let speaks = |address: &str| whose.get(address) == Some(&outfit.id());
            let new = outfit.people.iter().filter(|person| person.recent.is_none());
            silent.extend(
                new.filter(|person| speaks(&person.address))
                    .map(|person| person.member.id),
            );
        }
        if silent.is_empty() {
            return Ok(());
        }
        let mut recent = outfit_rows::recent(look.db().await?, &silent, self.now - RECENT).await?;
        for person in working.values_mut().flat_map(|outfit| &mut outfit.people) {
            if let Some(recent) = recent.remove(&person.member.id) {
                person.recent = Some(recent);
            }
        }
        Ok(())
    }

    /// Keeps aside what cannot be processed; who sent it in private is told.
    async fn keep_aside(&self, tx: &mut WriteTransaction, sends: &mut Vec<Outgoing>) -> Result<(), StoreError> {
        for arrived in self.batch {
            let incoming = match arrived {
                Arrived::Incoming(incoming) => incoming,
                Arrived::Unreadable { key, payload } => {
                    if store::dead::keep(tx, key, payload, "unreadable", self.now).await? {
                        tracing::warn!(key, "an update could not be read and is kept aside");
                    }
                    continue;
                }
            };
            if let Some(reason) = self.aside.get(&incoming.key) {
                set_aside(tx, incoming, reason, sends, self.now).await?;
            }
        }
        Ok(())
    }

    /// Does what memory alone could not, in a savepoint of its own.
    async fn do_later(
        &self,
        tx: &mut WriteTransaction,
        working: &mut Working,
        item: Later<'a>,
        sends: &mut Vec<Outgoing>,
    ) -> Result<(), StoreError> {
        let mut step = tx.begin().await?;
        let mut queued = Vec::new();
        let answered = self.bot.answer(
            &mut step,
            working,
            (item.incoming, item.act.map(|act| *act)),
            &mut queued,
            self.now,
        );
        let reason = match AssertUnwindSafe(answered).catch_unwind().await {
            Ok(Ok(())) => {
                step.commit().await?;
                sends.append(&mut queued);
                return Ok(());
            }
            Ok(Err(trouble)) if !trouble.blames_the_message() => return Err(trouble),
            Ok(Err(trouble)) => trouble.to_string(),
            Err(_) => "the handler panicked".to_owned(),
        };
        step.rollback().await?;
        tracing::error!(
            key = item.incoming.key,
            reason,
            "a message could not be processed and is kept aside"
        );
        set_aside(tx, item.incoming, &reason, sends, self.now).await
    }
}

/// Outfits that are loaded by one round of statements.
const LOADED_AT_ONCE: usize = 4;

/// A connection for reading, taken when something must be looked up: mostly all is remembered.
struct Look<'a> {
    store: &'a store::Store,
    db: Option<PoolConnection<Any>>,
}

impl Look<'_> {
    async fn db(&mut self) -> Result<&mut store::Db, StoreError> {
        let db = match self.db.take() {
            Some(db) => db,
            None => self.store.read().await?,
        };
        Ok(self.db.insert(db))
    }
}

/// Takes outfits out of memory, and loads those that are not there.
async fn gather(
    look: &mut Look<'_>,
    memory: &mut Memory,
    working: &mut Working,
    ids: impl Iterator<Item = OutfitId>,
) -> Result<(), StoreError> {
    let mut missing = BTreeSet::new();
    for id in ids {
        match memory.take(id) {
            Some(outfit) => {
                working.insert(id, outfit);
            }
            None if !working.contains_key(&id) => {
                missing.insert(id);
            }
            None => {}
        }
    }
    if !missing.is_empty() {
        let missing: Vec<OutfitId> = missing.into_iter().collect();
        // A few at once, since what has no kept state is loaded with all its rows.
        for few in missing.chunks(LOADED_AT_ONCE) {
            for outfit in history::load::load(look.db().await?, few).await? {
                working.insert(outfit.id(), outfit);
            }
        }
    }
    Ok(())
}

async fn set_aside(
    tx: &mut WriteTransaction,
    incoming: &Incoming,
    reason: &str,
    sends: &mut Vec<Outgoing>,
    now: i64,
) -> Result<(), StoreError> {
    let payload = serde_json::to_string(incoming).unwrap_or_default();
    let key = format!("{}#{}", incoming.key, incoming.version);
    if store::dead::keep(tx, &key, &payload, reason, now).await? && !incoming.chat.group {
        let text = Words::of(incoming.person.language.as_deref()).plain("trouble");
        sends.push(say(incoming.chat.address.clone(), text));
    }
    Ok(())
}
