//! Where the pure rooms and the store meet. Two doors: everything enters by
//! [`Bot::hear`] or [`Bot::due`], everything leaves as a queued send.

use crate::history::rules;

pub mod digest_sheets;
pub mod pictures;

mod act;
mod addressed;
mod answer;
mod answer_queue;
mod arrival;
mod batch;
mod cautions;
mod changes;
mod closed_outfit;
mod commands;
mod condition;
mod corrections;
mod cost_answers;
mod crew_chat;
mod days_off;
mod decisions;
mod digest_answers;
mod digest_files;
mod digests;
mod drawings;
mod due;
mod effects;
mod examples;
mod export;
mod fleet_answers;
mod flush_answers;
mod glass_answers;
mod hear;
mod help;
mod hints;
mod hours;
mod import;
mod invites;
mod kept_states;
mod language;
mod log_answers;
mod meaning_answers;
mod membrane_answer;
mod membrane_money;
mod membrane_question;
mod menu;
mod messages;
mod newcomers;
mod notice_answers;
mod outfit_commands;
mod own_rig;
mod past_readings;
mod past_settings;
mod people;
mod perform;
mod picture_answers;
mod preservative;
mod presses;
mod query_answers;
mod questions;
mod readings;

mod refusals;
mod request;
mod resin_answers;
mod retention;
mod rig_answers;
mod rig_commands;
mod rig_comparison;
mod rig_names;
mod scene;
mod services;
mod setting_conflicts;
mod setting_values;
mod settings;
mod setup;
mod shopping_answer;
mod spans;
mod strangers;
mod texts;
mod think;
mod tokens;
mod understood;
mod used_up;
mod week_facts;
mod when;
mod withdrawals;
mod year_ahead;
mod zones;

use std::collections::HashMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use tokio::sync::Semaphore;

use crate::history::Memory;
use crate::message::command::Page;
use crate::outbox::Outbox;
use crate::store::Store;

pub use digests::WrittenDigest;
pub use import::offers::MOST_FILE_BYTES;
pub use kept_states::Compared;
pub use tokens::Tokens;

/// The bot.
pub struct Bot {
    store: Store,
    settings: BotSettings,
    /// What is remembered of outfits; whoever holds it hears.
    memory: tokio::sync::Mutex<Memory>,
    /// Through which answers leave at once, if this process sends.
    outbox: OnceLock<Arc<Outbox>>,
    link_base: Mutex<Option<String>>,
    /// Whether the platform shows it all that is said in groups.
    hears_groups: AtomicBool,
    /// When each stranger was last answered. In memory, since nothing of a
    /// stranger is written down.
    strangers: Mutex<HashMap<String, i64>>,
    /// When each chat was last given a hint.
    hints: Mutex<HashMap<String, i64>>,
    /// Whoever holds it draws.
    drawing: Semaphore,
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
            memory: tokio::sync::Mutex::default(),
            outbox: OnceLock::new(),
            link_base: Mutex::default(),
            hears_groups: AtomicBool::new(true),
            strangers: Mutex::default(),
            hints: Mutex::default(),
            drawing: Semaphore::new(1),
            tried: Mutex::default(),
        }
    }

    /// The store behind the bot.
    pub fn store(&self) -> &Store {
        &self.store
    }

    /// Lets answers leave through an outbox. The first one stays.
    pub fn send_through(&self, outbox: Arc<Outbox>) {
        let _ = self.outbox.set(outbox);
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
    // With more of them an hour than are remembered, the limit holds and the line is left out.
    if said.len() >= 10_000 {
        return false;
    }
    said.insert(who.to_owned(), now);
    true
}
