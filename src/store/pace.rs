//! How many messages may go now, so that no second, whenever it starts, sees more than the limit. What was reserved in
//! the last second stands in one row, which all copies share and take turns at: one statement for as many messages as
//! are ready, and none while there is no limit.

use super::{Db, StoreError};

/// What is reserved must be sent within so many milliseconds.
pub const USE_WITHIN_MS: i64 = 100;

/// For so many milliseconds it counts: it may be sent at the end of its moment, and a second later counts no more.
const WINDOW: i64 = 1000 + USE_WITHIN_MS;

/// What was reserved and counts still: UTC milliseconds, and how many.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Marks(Vec<(i64, i64)>);

impl Marks {
    /// How many more may go at `now_ms`.
    fn room(&self, per_second: i64) -> i64 {
        let used: i64 = self.0.iter().map(|(_, count)| count).sum();
        (per_second - used).max(0)
    }

    /// What counts at `now_ms`. One that lies ahead was made by a
    /// clock that ran fast, or before this one was put back: it counts from now.
    fn read(written: &str, now_ms: i64) -> Self {
        let mark = |mark: &str| {
            let (at, count) = mark.split_once(':')?;
            Some((at.parse::<i64>().ok()?.min(now_ms), count.parse().ok()?))
        };
        let marks = written.split(' ').filter_map(mark);
        Self(marks.filter(|(at, _)| now_ms - at < WINDOW).collect())
    }

    fn write(&self) -> String {
        let marks = self.0.iter().map(|(at, count)| format!("{at}:{count}"));
        marks.collect::<Vec<_>>().join(" ")
    }
}

/// What a process may send at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    /// So many messages, within [`USE_WITHIN_MS`].
    pub count: i64,
    /// When no more were to be had: when to ask again, in milliseconds from now.
    pub again_in_ms: i64,
}

/// Reserves up to `wanted` messages of the next moment, for this process alone, by the database's clock.
///
/// # Errors
/// Whatever the database says.
pub async fn reserve(db: &mut Db, per_second: i64, wanted: i64) -> Result<Share, StoreError> {
    // The turn first, since waiting for it takes time.
    sqlx::query("update pace set marks = marks where name = 'sends'")
        .execute(&mut *db)
        .await?;
    let now_ms = super::clock::now_ms(db).await?;
    reserve_at(db, per_second, wanted, now_ms).await
}

/// The same, at `now_ms`.
///
/// # Errors
/// Whatever the database says.
pub async fn reserve_at(db: &mut Db, per_second: i64, wanted: i64, now_ms: i64) -> Result<Share, StoreError> {
    // An update, since that makes copies take turns until the transaction ends.
    let written: String = sqlx::query_scalar("update pace set marks = marks where name = 'sends' returning marks")
        .fetch_one(&mut *db)
        .await?;
    let mut marks = Marks::read(&written, now_ms);
    let count = marks.room(per_second).min(wanted);
    if count > 0 {
        marks.0.push((now_ms, count));
        sqlx::query("update pace set marks = $1 where name = 'sends'")
            .bind(marks.write())
            .execute(&mut *db)
            .await?;
    }
    let oldest = marks.0.first().map_or(now_ms, |(at, _)| *at);
    Ok(Share {
        count,
        again_in_ms: (oldest + WINDOW - now_ms).max(1),
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Claims as they come: how much later, and how many are wanted. Returns
    /// when how many went.
    fn claims(limit: i64, asked: &[(i64, i64)]) -> Vec<(i64, i64)> {
        let mut written = String::new();
        let mut now = 1_772_000_000_000;
        let mut went = Vec::new();
        for (later, wanted) in asked {
            now += later;
            let mut marks = Marks::read(&written, now);
            let goes = marks.room(limit).min(*wanted);
            if goes > 0 {
                marks.0.push((now, goes));
                written = marks.write();
                went.push((now, goes));
            }
        }
        went
    }

    proptest! {
        #[test]
        fn no_second_sees_more_than_the_limit(
            limit in 1_i64..60,
            asked in prop::collection::vec((0_i64..700, 0_i64..40), 1..200),
        ) {
            let went = claims(limit, &asked);
            // Each is sent at the least lucky moment of those that it may be sent at.
            for (start, _) in &went {
                let end = start + USE_WITHIN_MS + 1000;
                let within = went.iter().filter(|(at, _)| (*start..end).contains(at));
                prop_assert!(within.map(|(_, count)| count).sum::<i64>() <= limit);
            }
        }

        #[test]
        fn whoever_asks_often_loses_nothing_of_the_limit(limit in 1_i64..60, windows in 1_i64..20) {
            let asked = vec![(10, i64::MAX); (windows * WINDOW / 10) as usize];
            let went: i64 = claims(limit, &asked).iter().map(|(_, count)| count).sum();
            prop_assert_eq!(went, limit * windows);
        }

        #[test]
        fn no_text_in_the_row_stops_the_sending(written in "\\PC{0,40}", now in any::<i32>()) {
            let now = i64::from(now);
            prop_assert!(Marks::read(&written, now).0.iter().all(|(at, _)| *at <= now));
        }
    }

    #[test]
    fn a_clock_that_is_put_back_holds_up_sending_for_a_second_and_not_for_an_hour() {
        let hour_ahead = "3600000:28";
        assert_eq!(Marks::read(hour_ahead, 0).room(28), 0);
        let rewritten = Marks::read(hour_ahead, 0).write();
        assert_eq!(Marks::read(&rewritten, WINDOW - 1).room(28), 0);
        assert_eq!(Marks::read(&rewritten, WINDOW).room(28), 28);
    }
}
