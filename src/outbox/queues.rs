//! What a process holds of the messages on their way out: a queue a chat, and which chats may be served when.
//!
//! One message of a chat is under way at a time. Within a chat, answers to presses go first, then answers, then what
//! nobody asked for; each in the order of their numbers. The instant is handed in, in milliseconds that never go back.

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashMap, HashSet, VecDeque};
use std::sync::Arc;

use crate::domain::envelope::{Send, Sent, chat_of};
use crate::store::pace::USE_WITHIN_MS;
use crate::store::sends::{Landed, Limits};

use super::limits::{LONGEST_PAUSE_S, Pace};
use super::order::{Load, RANKS, Rank, put_in, rank};

/// After so many failed tries, some three minutes, a message no longer holds its chat up: the next one is tried before
/// it, and once anything was delivered between two of its tries it is set aside, since then the fault is its own.
pub const MOST_TRIES: i64 = 8;

/// A chat's queue.
#[derive(Default)]
struct Line {
    waiting: VecDeque<Send>,
    /// The number of the message that is being delivered.
    under_way: Option<i64>,
    /// When all that went is paid for by its gaps.
    paid_at: i64,
    /// Left alone until then, whatever waits.
    not_before: i64,
    /// The entry in `ready` or `later` that counts; others of this chat are left over.
    entry: u64,
}

/// All of it.
pub struct Queues {
    pace: Pace,
    lines: HashMap<Arc<str>, Line>,
    ready: [VecDeque<(Arc<str>, u64)>; RANKS],
    later: BinaryHeap<Reverse<(i64, u64, Arc<str>)>>,
    entries: u64,
    /// Waiting or under way.
    held: usize,
    under_way: usize,
    /// Until then the leases hold for certain; after it nothing is taken.
    leased_until: i64,
    /// Under way, and somebody else's by now: their leases ran out meanwhile.
    lost: HashSet<i64>,
    /// Nothing goes to anybody until then.
    pause_until: i64,
    /// Until when what was reserved may be sent, and how many of it are left.
    share: (i64, i64),
    /// No more can be reserved before then.
    no_share_before: i64,
    /// A message had to wait for its share.
    share_wanted: bool,
    landed: Vec<Landed>,
    /// Since when the first of them waits to be written down.
    landed_at: Option<i64>,
    /// How many were delivered so far.
    delivered: u64,
    /// What failed, by number: how many had been delivered at its last try.
    failed: HashMap<i64, u64>,
}

impl Queues {
    /// None yet.
    pub fn new(limits: &Limits) -> Self {
        Self {
            pace: Pace::new(limits),
            lines: HashMap::new(),
            ready: Default::default(),
            later: BinaryHeap::new(),
            entries: 0,
            held: 0,
            under_way: 0,
            leased_until: 0,
            lost: HashSet::new(),
            pause_until: 0,
            share: (0, 0),
            no_share_before: 0,
            share_wanted: false,
            landed: Vec::new(),
            landed_at: None,
            delivered: 0,
            failed: HashMap::new(),
        }
    }

    /// Takes in what this process holds the lease of, each at its place in its chat.
    pub fn push(&mut self, sends: Vec<Send>, now: i64) {
        for send in sends {
            let base: Arc<str> = chat_of(&send.chat).into();
            self.held += 1;
            let line = self.lines.entry(base.clone()).or_default();
            let at = put_in(&mut line.waiting, send);
            if at == 0 && line.under_way.is_none() {
                self.place(&base, now);
            }
        }
    }

    /// The next message that may go, if any; it is under way until it is [`Self::land`]ed.
    pub fn take(&mut self, load: Load, now: i64) -> Option<Send> {
        self.ripen(now);
        if now < self.pause_until || now >= self.leased_until {
            return None;
        }
        let ranks: &[Rank] = match load {
            Load::Text => &[Rank::Press, Rank::Answer, Rank::Unasked],
            Load::File => &[Rank::AskedFile, Rank::UnaskedFile],
        };
        ranks.iter().find_map(|rank| self.take_of(*rank, now))
    }

    fn take_of(&mut self, rank: Rank, now: i64) -> Option<Send> {
        loop {
            let (base, entry) = self.ready.get(rank as usize)?.front()?.clone();
            let Some(line) = self.lines.get_mut(&base).filter(|line| line.entry == entry) else {
                self.ready.get_mut(rank as usize)?.pop_front();
                continue;
            };
            if rank != Rank::Press && self.pace.per_second.is_some() {
                if now > self.share.0 || self.share.1 == 0 {
                    self.share_wanted = true;
                    return None;
                }
                self.share.1 -= 1;
            }
            self.ready.get_mut(rank as usize)?.pop_front();
            let mut send = line.waiting.pop_front()?;
            line.under_way = Some(send.id);
            self.under_way += 1;
            line.entry = 0;
            if rank != Rank::Press {
                line.paid_at = line.paid_at.max(now).saturating_add(self.pace.of(&base).0);
            }
            send.tries = send.tries.saturating_add(1);
            return Some(send);
        }
    }

    /// A delivery ended.
    pub fn land(&mut self, send: Send, sent: Sent, now: i64) {
        let base: Arc<str> = chat_of(&send.chat).into();
        self.under_way = self.under_way.saturating_sub(1);
        let sent = self.judged(&send, sent);
        let line = self.lines.entry(base.clone()).or_default();
        line.under_way = None;
        if self.lost.remove(&send.id) {
            self.held = self.held.saturating_sub(1);
            return self.place(&base, now);
        }
        let pause = line.paid_at.saturating_sub(now).max(0);
        self.landed_at.get_or_insert(now);
        self.landed.push(Landed {
            id: send.id,
            chat: send.chat.clone(),
            sent: sent.clone(),
            tries: send.tries,
            pause_s: (pause + 999) / 1000,
        });
        match sent {
            Sent::Delivered(_) | Sent::Refused(_) => self.held = self.held.saturating_sub(1),
            // What waits there is cancelled, or is claimed again at its new place.
            Sent::Blocked | Sent::Moved(_) => {
                self.held = self.held.saturating_sub(1 + line.waiting.len());
                for dropped in line.waiting.drain(..) {
                    self.failed.remove(&dropped.id);
                }
            }
            Sent::TooFast { wait_s, everywhere } => {
                let until = now.saturating_add(wait_s * 1000);
                if everywhere {
                    self.pause_until = self.pause_until.max(until);
                } else {
                    line.not_before = line.not_before.max(until);
                }
                put_in(&mut line.waiting, send);
            }
            Sent::NotBefore(wait_s) => {
                line.not_before = line.not_before.max(now.saturating_add(wait_s * 1000));
                let patient = send.tries < MOST_TRIES;
                let at = put_in(&mut line.waiting, send);
                if !patient && at == 0 && line.waiting.len() > 1 {
                    line.waiting.swap(0, 1);
                }
            }
        }
        self.place(&base, now);
    }

    /// How an ending is to be taken: pauses are capped, and a message whose every try fails while others arrive is to
    /// blame itself.
    fn judged(&mut self, send: &Send, sent: Sent) -> Sent {
        match sent {
            Sent::NotBefore(wait_s) => {
                let others = self.failed.insert(send.id, self.delivered);
                if send.tries >= MOST_TRIES && others.is_some_and(|before| before < self.delivered) {
                    self.failed.remove(&send.id);
                    return Sent::Refused(format!(
                        "set aside: it failed {} times while others arrived",
                        send.tries
                    ));
                }
                Sent::NotBefore(wait_s.clamp(0, LONGEST_PAUSE_S))
            }
            Sent::TooFast { wait_s, everywhere } => Sent::TooFast {
                wait_s: wait_s.clamp(1, LONGEST_PAUSE_S),
                everywhere,
            },
            sent => {
                self.failed.remove(&send.id);
                self.delivered += u64::from(matches!(sent, Sent::Delivered(_)));
                sent
            }
        }
    }

    /// Puts a chat among those that may be served, or that may later; or nowhere.
    fn place(&mut self, base: &Arc<str>, now: i64) {
        let Some(line) = self.lines.get_mut(base) else { return };
        line.entry = 0;
        let Some(front) = line.waiting.front() else {
            if line.under_way.is_none() && line.paid_at <= now && line.not_before <= now {
                self.lines.remove(base);
            }
            return;
        };
        if line.under_way.is_some() {
            return;
        }
        let rank = rank(front);
        let mut at = line.not_before;
        if rank != Rank::Press {
            at = at.max(line.paid_at.saturating_sub(self.pace.of(base).1));
        }
        self.entries += 1;
        line.entry = self.entries;
        if at > now {
            self.later.push(Reverse((at, self.entries, base.clone())));
        } else if let Some(ready) = self.ready.get_mut(rank as usize) {
            ready.push_back((base.clone(), self.entries));
        }
    }

    /// Chats whose time has come become ready.
    fn ripen(&mut self, now: i64) {
        while self.later.peek().is_some_and(|Reverse((at, ..))| *at <= now) {
            let Some(Reverse((_, entry, base))) = self.later.pop() else {
                return;
            };
            if self.lines.get(&base).is_some_and(|line| line.entry == entry) {
                self.place(&base, now);
            }
        }
    }

    /// Whether a worker for this would find something, as far as is known without looking closely.
    pub fn has_ready(&mut self, load: Load, now: i64) -> bool {
        self.ripen(now);
        let some = |rank: Rank| self.ready.get(rank as usize).is_some_and(|ready| !ready.is_empty());
        now >= self.pause_until
            && now < self.leased_until
            && match load {
                Load::Text => some(Rank::Press) || some(Rank::Answer) || some(Rank::Unasked),
                Load::File => some(Rank::AskedFile) || some(Rank::UnaskedFile),
            }
    }

    /// When something changes by itself: a chat's time comes, or a pause of all is over.
    pub fn next_change(&self, now: i64) -> Option<i64> {
        let later = self.later.peek().map(|Reverse((at, ..))| *at);
        let pause = (self.pause_until > now).then_some(self.pause_until);
        let share = (self.share_wanted && self.no_share_before > now).then_some(self.no_share_before);
        [later, pause, share].into_iter().flatten().min()
    }

    /// How many messages want a share of the platform's limit now; none while there is no limit.
    pub fn share_wanted(&self, now: i64) -> i64 {
        let Some(per_second) = self.pace.per_second.filter(|_| self.share_wanted) else {
            return 0;
        };
        if now < self.no_share_before || now < self.pause_until {
            return 0;
        }
        let ready: usize = self.ready.iter().skip(Rank::Answer as usize).map(VecDeque::len).sum();
        i64::try_from(ready).unwrap_or(i64::MAX).min(per_second)
    }

    /// What was reserved by a statement that began at `asked_at` and is committed `now`.
    pub fn take_share(&mut self, count: i64, again_in_ms: i64, asked_at: i64, now: i64) {
        // Even where a commit takes long something goes.
        let until = (asked_at + USE_WITHIN_MS).max(now + USE_WITHIN_MS / 2);
        self.share = (until, count);
        self.share_wanted = count == 0;
        if count == 0 {
            self.no_share_before = now + again_in_ms;
        }
    }

    /// What this process is to send a second at most, if there is a limit.
    pub fn per_second(&self) -> Option<i64> {
        self.pace.per_second
    }

    /// Nothing goes to anybody for so long, as another copy was told.
    pub fn pause_all(&mut self, wait_s: i64, now: i64) {
        let until = now.saturating_add(wait_s.clamp(0, LONGEST_PAUSE_S) * 1000);
        self.pause_until = self.pause_until.max(until);
    }

    /// What is to be written down; whoever takes it writes it down or puts it back.
    pub fn take_landed(&mut self) -> Vec<Landed> {
        self.landed_at = None;
        std::mem::take(&mut self.landed)
    }

    /// It could not be written down: it is again, before what landed since.
    pub fn put_back(&mut self, mut landed: Vec<Landed>, now: i64) {
        if landed.is_empty() {
            return;
        }
        self.landed_at.get_or_insert(now);
        landed.append(&mut self.landed);
        self.landed = landed;
    }

    /// Since when the first ending waits to be written down.
    pub fn landed_at(&self) -> Option<i64> {
        self.landed_at
    }

    /// Until when the leases of all that is held are certain to hold.
    pub fn set_leased_until(&mut self, until: i64) {
        self.leased_until = until;
    }

    /// Whether the leases hold.
    pub fn is_leased(&self, now: i64) -> bool {
        now < self.leased_until
    }

    /// How many messages are being delivered.
    pub fn under_way(&self) -> usize {
        self.under_way
    }

    /// How many messages are held: waiting or under way.
    pub fn held(&self) -> usize {
        self.held
    }

    /// Drops what is not among `kept`: its lease ran out, and somebody else has it.
    pub fn keep_only(&mut self, kept: &HashSet<i64>, now: i64) {
        let bases: Vec<Arc<str>> = self.lines.keys().cloned().collect();
        for base in bases {
            if let Some(line) = self.lines.get_mut(&base) {
                let before = line.waiting.len();
                line.waiting.retain(|send| kept.contains(&send.id));
                self.held = self.held.saturating_sub(before - line.waiting.len());
                self.lost.extend(line.under_way.filter(|id| !kept.contains(id)));
            }
            self.place(&base, now);
        }
    }

    /// Forgets chats of which nothing is left to remember.
    pub fn tidy(&mut self, now: i64) {
        self.lines.retain(|_, line| {
            line.under_way.is_some() || !line.waiting.is_empty() || line.paid_at > now || line.not_before > now
        });
    }
}

#[cfg(test)]
#[path = "queues_tests.rs"]
mod tests;
