//! Where the pure rooms and the store meet. Two doors: everything enters by
//! [`Bot::hear`] or [`Bot::due`], everything leaves as a queued send.

pub mod digest_papers;
pub mod envelope;
mod past_settings;
pub mod pictures;

mod affairs;
mod answer;
mod asking;
mod buying;
mod cautioning;
mod changes;
mod closing;
mod comparing;
mod condition;
mod crew_chat;
mod decisions;
mod digests;
mod drawing;
mod due;
mod export;
mod filing;
mod fleet;
mod flushing;
mod following;
mod forgetting;
mod gathering;
mod glass;
mod hear;
mod help;
mod hours;
mod import;
mod inviting;
mod joining;
mod keeping;
mod languages;
mod looking;
mod menu;
mod money;
mod nearest;
mod noticing;
mod outfit;
mod own_rig;
mod people;
mod preserving;
mod reacting;
mod record;
mod recording;
mod renewing;
mod rewriting;
mod rules;
mod scene;
mod settings;
mod setup;
mod showing;
mod tokens;
mod turn;
mod when;

use std::collections::HashMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, PoisonError};

use crate::message::command::Page;
use tokio::sync::Semaphore;

use crate::store::Store;

pub use digests::WrittenDigest;
pub use import::MOST_FILE_BYTES;
pub use tokens::Tokens;

/// The bot.
pub struct Bot {
    store: Store,
    settings: BotSettings,
    link_base: Mutex<Option<String>>,
    /// Whether the platform shows it all that is said in groups.
    hears_groups: AtomicBool,
    /// When each stranger was last answered. In memory, since nothing of a
    /// stranger is written down.
    strangers: Mutex<HashMap<String, i64>>,
    /// When each chat was last given a hint.
    hints: Mutex<HashMap<String, i64>>,
    /// Whoever holds it draws.
    easel: Semaphore,
    /// What somebody tried in vain, and when: help begins with it.
    tried: Mutex<HashMap<String, (Page, i64)>>,
}

/// What the host decides for the bot.
pub struct BotSettings {
    /// IANA zone of new outfits.
    pub zone: String,
    /// Where secrets for links and buttons come from.
    pub tokens: Tokens,
}

impl Bot {
    /// A bot over an open, migrated store.
    pub fn new(store: Store, settings: BotSettings) -> Self {
        Self {
            store,
            settings,
            link_base: Mutex::default(),
            hears_groups: AtomicBool::new(true),
            strangers: Mutex::default(),
            hints: Mutex::default(),
            easel: Semaphore::new(1),
            tried: Mutex::default(),
        }
    }

    /// The store behind the bot.
    pub fn store(&self) -> &Store {
        &self.store
    }

    /// Tells the bot what its links start with, such as
    /// `https://t.me/NAME?start=`. Until then, links are texts to type.
    pub fn set_link(&self, base: String) {
        *self.link_base.lock().unwrap_or_else(PoisonError::into_inner) = Some(base);
    }

    /// Tells the bot whether it hears everything in groups, or only commands
    /// and replies to it. Until then it takes the former for granted.
    pub fn set_hears_groups(&self, hears: bool) {
        self.hears_groups.store(hears, Ordering::Relaxed);
    }

    fn hears_groups(&self) -> bool {
        self.hears_groups.load(Ordering::Relaxed)
    }

    /// The bot's name on the platform, once its link is known.
    fn username(&self) -> Option<String> {
        let base = self.link_base()?;
        let name = base.strip_suffix("?start=")?.rsplit('/').next()?;
        Some(name.to_owned())
    }

    fn link_base(&self) -> Option<String> {
        self.link_base.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }
}

/// Whether something may be said to `who` again, at most once in `pause`
/// seconds; remembers it if so. Keeps at most some thousands of entries.
fn once_in(said: &Mutex<HashMap<String, i64>>, who: &str, pause: i64, now: i64) -> bool {
    let mut said = said.lock().unwrap_or_else(PoisonError::into_inner);
    if said.get(who).is_some_and(|last| now < last + pause) {
        return false;
    }
    if said.len() >= 5000 {
        said.retain(|_, last| now < *last + pause);
    }
    if said.len() < 10_000 {
        said.insert(who.to_owned(), now);
    }
    true
}
