//! The platform's limits, as the queues keep them.

use crate::domain::envelope::is_group;
use crate::store::sends::Limits;

/// The longest pause that the platform can impose, in seconds: whatever it says, an hour later it is asked again.
pub(super) const LONGEST_PAUSE_S: i64 = 3600;

/// The platform's limits, in milliseconds.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pace {
    /// Messages in any second over all chats, if there is a limit.
    pub per_second: Option<i64>,
    private_gap: i64,
    private_burst: i64,
    group_gap: i64,
    group_burst: i64,
}

impl Pace {
    pub fn new(limits: &Limits) -> Self {
        let ms = |seconds: i64| seconds.clamp(0, LONGEST_PAUSE_S) * 1000;
        Self {
            per_second: (limits.per_second < i64::MAX / 2).then_some(limits.per_second),
            private_gap: ms(limits.private_gap),
            private_burst: ms(limits.burst),
            // A burst is paid for by a longer gap: (60 s + 6 s) / 3.3 s are the 20 messages that a minute may see.
            group_gap: ms(limits.group_gap) * 11 / 10,
            group_burst: ms(limits.group_gap) * 2,
        }
    }

    /// The gap after a message, and how far a burst may run ahead.
    pub fn of(&self, chat: &str) -> (i64, i64) {
        if is_group(chat) {
            (self.group_gap, self.group_burst)
        } else {
            (self.private_gap, self.private_burst)
        }
    }
}
