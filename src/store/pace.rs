//! How many messages may go now, so that no second, whenever it starts, sees
//! more than the limit. The claims of the last second stand in one row, which
//! all replicas share and take turns at.

use super::{Db, StoreError};

/// Milliseconds.
const WINDOW: i64 = 1000;

/// Claims that count still.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Marks(Vec<(i64, i64)>);

impl Marks {
    /// How many more may go at `now_ms`.
    fn room(&self, per_second: i64) -> i64 {
        let used: i64 = self.0.iter().map(|(_, count)| count).sum();
        (per_second - used).max(0)
    }

    /// The claims that count at `now_ms`. One that lies ahead was made by a
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

/// How many messages may go at `now_ms`. Until the transaction ends, no other
/// replica is told.
pub(super) async fn room(db: &mut Db, per_second: i64, now_ms: i64) -> Result<(i64, Marks), StoreError> {
    // An update, since that makes replicas take turns.
    let written: String = sqlx::query_scalar("update pace set marks = marks where name = 'sends' returning marks")
        .fetch_one(&mut *db)
        .await?;
    let marks = Marks::read(&written, now_ms);
    Ok((marks.room(per_second), marks))
}

/// Notes that so many go at `now_ms`.
pub(super) async fn note(db: &mut Db, mut marks: Marks, count: usize, now_ms: i64) -> Result<(), StoreError> {
    marks.0.push((now_ms, count as i64));
    sqlx::query("update pace set marks = $1 where name = 'sends'")
        .bind(marks.write())
        .execute(&mut *db)
        .await?;
    Ok(())
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
            for (start, _) in &went {
                let within = went.iter().filter(|(at, _)| (*start..*start + WINDOW).contains(at));
                prop_assert!(within.map(|(_, count)| count).sum::<i64>() <= limit);
            }
        }

        #[test]
        fn whoever_asks_often_loses_nothing_of_the_limit(limit in 1_i64..60, seconds in 1_i64..20) {
            let asked = vec![(10, i64::MAX); (seconds * 100) as usize];
            let went: i64 = claims(limit, &asked).iter().map(|(_, count)| count).sum();
            prop_assert_eq!(went, limit * seconds);
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
        assert_eq!(Marks::read(&rewritten, 999).room(28), 0);
        assert_eq!(Marks::read(&rewritten, 1000).room(28), 28);
    }
}
