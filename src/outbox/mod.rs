//! Messages on their way out, in the memory of the process that holds their leases.
//!
//! Whoever inserts messages under [`Outbox::holder`]'s name hands what it got back to [`Outbox::push`] once that is
//! committed; whoever begins a transaction anyway takes along what has landed ([`Outbox::take_landed`]) and settles it.
//! [`delivery::run`] does the rest: what waits in the database, leases, shares of the platform's limits.

pub mod delivery;
mod limits;
mod order;
mod queues;

use std::sync::atomic::{AtomicBool, Ordering::Relaxed};
use std::sync::{Mutex, MutexGuard, PoisonError};

use tokio::sync::Notify;

use crate::clock::uptime_ms;
use crate::domain::envelope::{Send, Sent};
use crate::store::sends::{Landed, Limits};

use order::Load;
use queues::Queues;

/// With more messages than this in memory, new ones wait in the database.
const MOST_HELD: usize = 10_000;

/// The messages that this process holds, and what became of them.
pub struct Outbox {
    /// Names this process as the holder of its leases.
    me: String,
    open: AtomicBool,
    queues: Mutex<Queues>,
    texts: Notify,
    files: Notify,
    /// Something is there that the delivering loop must see to.
    changed: Notify,
    /// Something was queued that must be claimed.
    queued: Notify,
}

impl Outbox {
    /// An empty outbox of a process. Names of processes start with their copy's name and a slash, with the process's
    /// number between the next two ([`delivery::is_dead`]).
    pub fn new(me: String, limits: &Limits) -> Self {
        Self {
            me,
            open: AtomicBool::new(false),
            queues: Mutex::new(Queues::new(limits)),
            texts: Notify::new(),
            files: Notify::new(),
            changed: Notify::new(),
            queued: Notify::new(),
        }
    }

    /// In whose name messages are inserted that are handed over at once; none while that is not to be: before the
    /// start, after the stop, while the database is away, and when too much is held already.
    pub fn holder(&self) -> Option<&str> {
        let queues = self.lock();
        let takes = self.open.load(Relaxed) && queues.held() < MOST_HELD && queues.is_leased(uptime_ms());
        takes.then_some(&self.me)
    }

    /// The name of this process, for settling.
    pub fn me(&self) -> &str {
        &self.me
    }

    /// Takes over what was inserted under [`Self::holder`]'s name, once that is committed.
    pub fn push(&self, sends: Vec<Send>) {
        if sends.is_empty() {
            return;
        }
        self.lock().push(sends, uptime_ms());
        self.wake();
    }

    /// What has landed and is to be written down; whoever takes it settles it in their transaction
    /// ([`crate::store::sends::settle`], in the name of [`Self::me`]), or puts it back when that fails.
    #[must_use = "what is not settled must be put back"]
    pub fn take_landed(&self) -> Vec<Landed> {
        self.lock().take_landed()
    }

    /// What was taken could not be settled.
    pub fn put_back(&self, landed: Vec<Landed>) {
        self.lock().put_back(landed, uptime_ms());
        self.changed.notify_one();
    }

    /// Something was queued without a holder, and is committed: it is looked for at once.
    pub fn look(&self) {
        self.queued.notify_one();
    }

    /// How many messages this process holds.
    pub fn held(&self) -> usize {
        self.lock().held()
    }

    /// The next message that a worker is to deliver.
    async fn next(&self, load: Load) -> Send {
        let notify = match load {
            Load::Text => &self.texts,
            Load::File => &self.files,
        };
        loop {
            let woken = notify.notified();
            let (taken, more, share_wanted) = {
                let (mut queues, now) = (self.lock(), uptime_ms());
                let taken = queues.take(load, now);
                let more = taken.is_some() && queues.has_ready(load, now);
                (taken, more, queues.share_wanted(now) > 0)
            };
            // Whoever is woken wakes the next one, as long as there is something for it.
            if more {
                notify.notify_one();
            }
            if share_wanted {
                self.changed.notify_one();
            }
            match taken {
                Some(send) => return send,
                None => woken.await,
            }
        }
    }

    /// A delivery ended.
    fn land(&self, send: Send, sent: Sent) {
        let (first, later) = {
            let (mut queues, now) = (self.lock(), uptime_ms());
            let first = queues.landed_at().is_none();
            let later = !matches!(sent, Sent::Delivered(_));
            queues.land(send, sent, now);
            (first, later)
        };
        if first || later {
            self.changed.notify_one();
        }
    }

    /// Wakes a worker of each kind that has something to do.
    fn wake(&self) {
        let (texts, files, wait) = {
            let (mut queues, now) = (self.lock(), uptime_ms());
            let (texts, files) = (queues.has_ready(Load::Text, now), queues.has_ready(Load::File, now));
            (texts, files, queues.next_change(now).is_some())
        };
        if texts {
            self.texts.notify_one();
        }
        if files {
            self.files.notify_one();
        }
        if wait {
            self.changed.notify_one();
        }
    }

    fn lock(&self) -> MutexGuard<'_, Queues> {
        self.queues.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
