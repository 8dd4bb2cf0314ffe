//! What nobody needs any more is cleared away, so that no table grows with the
//! mere passing of days.

use jiff::ToSpan;
use jiff::tz::TimeZone;

use crate::schedule::local_date;
use crate::store::{StoreError, blobs, heard, notes, questions, sends, slots};

use super::Bot;

/// Seconds.
const DAY: i64 = 86_400;

impl Bot {
    /// Clears away what is old at `now`. Nothing is delivered again after a day, no
    /// question or button outlives its expiry, and no slot is looked for after its
    /// window; the rest of the time is for looking into complaints.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn clear_away(&self, now: i64) -> Result<(), StoreError> {
        let mut tx = self.store.begin().await?;
        heard::forget(&mut tx, now - 14 * DAY).await?;
        // A picture is far larger than the words that say it was sent.
        blobs::forget(&mut tx, now - 2 * DAY).await?;
        sends::forget(&mut tx, now - 30 * DAY).await?;
        questions::forget_buttons(&mut tx, now - 2 * DAY).await?;
        questions::forget(&mut tx, now - 30 * DAY).await?;
        slots::forget(&mut tx, now - 60 * DAY).await?;
        let today = local_date(&TimeZone::UTC, now).unwrap_or_default();
        if let Ok(date) = today.checked_sub(7.days()) {
            notes::forget_counts(&mut tx, &date.to_string()).await?;
        }
        Ok(tx.commit().await?)
    }
}
