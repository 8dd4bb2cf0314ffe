//! What this process has done since it started, and when it last had word from
//! the platform. In memory: numbers for the host, which nothing depends on.

use std::sync::atomic::{AtomicBool, AtomicI64, AtomicU64, Ordering::Relaxed};

use crate::domain::envelope::Sent;

/// Counts up; never holds up what it counts.
#[derive(Debug, Default)]
pub struct Tally {
    /// Updates that were committed.
    pub heard: AtomicU64,
    /// Messages that arrived.
    pub delivered: AtomicU64,
    /// Messages that never will.
    pub failed: AtomicU64,
    /// Deliveries to be tried again.
    pub postponed: AtomicU64,
    /// Kept states of rigs that were compared with their rows.
    pub states_compared: AtomicU64,
    /// Of those, the ones that were not what their rows come to.
    pub states_wrong: AtomicU64,
    /// UTC seconds; 0 before the first.
    pub last_word_at: AtomicI64,
    /// The database took nothing of what was last to be written.
    pub database_refuses: AtomicBool,
    /// Another copy receives, and this one waits to take over.
    pub stands_by: AtomicBool,
}

impl Tally {
    /// Updates were committed, perhaps none.
    pub fn heard(&self, updates: usize, now: i64) {
        self.heard.fetch_add(updates as u64, Relaxed);
        self.last_word_at.store(now, Relaxed);
        self.stands_by.store(false, Relaxed);
    }

    /// A delivery ended.
    pub fn sent(&self, sent: &Sent) {
        let count = match sent {
            Sent::Delivered(_) => &self.delivered,
            Sent::Blocked | Sent::Refused(_) => &self.failed,
            Sent::NotBefore(_) | Sent::TooFast { .. } | Sent::Moved(_) => &self.postponed,
        };
        count.fetch_add(1, Relaxed);
    }
}
