//! The only file that reads the clock; everything else is told the time.

use std::sync::LazyLock;
use std::time::{Instant, SystemTime, UNIX_EPOCH};

/// Now, in UTC seconds since 1970.
pub fn now() -> i64 {
    now_ms() / 1000
}

/// Now, in UTC milliseconds since 1970.
pub fn now_ms() -> i64 {
    SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .map_or(0, |since| since.as_millis() as i64)
}

/// Milliseconds since the first call: for durations, since it never goes back.
pub fn uptime_ms() -> i64 {
    static START: LazyLock<Instant> = LazyLock::new(Instant::now);
    i64::try_from(START.elapsed().as_millis()).unwrap_or(i64::MAX)
}
