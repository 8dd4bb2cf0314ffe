//! Three copies of the real program on one database, killed a hundred times
//! while digests fall due: each outfit gets its digest, and gets it once.

use std::time::Duration;

use jiff::{Timestamp, tz::TimeZone};
use tapside::clock;
use tapside::message::setting::{Clock, Field, Weekday};
use tapside::store::Store;

use super::api_stand_in::StandIn;
use super::database;
use super::process::Process;

const REPLICAS: usize = 3;
const ROUNDS: usize = 50;
/// Killed and started again together, so that they look at the same slots at once.
const KILLED_A_ROUND: usize = 2;
const OUTFITS_A_ROUND: usize = 4;

#[tokio::test]
async fn each_digest_is_queued_once_by_three_copies_and_a_hundred_kills() {
    let api = StandIn::start().await;
    let (url, _guard) = database::fresh_url().await;
    let store = Store::open(&url).await.unwrap();
    store.migrate().await.unwrap();
    // Due at the first minute of today, which the window of a day reaches back to.
    let local = TimeZone::UTC.to_datetime(Timestamp::from_second(clock::now()).unwrap());
    let today = Weekday::ALL[local.date().weekday().to_monday_zero_offset() as usize];
    let at = Field::DigestAt.to((today, Clock::new(0, 0).unwrap())).text();

    let mut copies: Vec<Process> = (0..REPLICAS).map(|_| Process::serve(&api, &url)).collect();
    for round in 0..ROUNDS {
        for number in 0..OUTFITS_A_ROUND {
            found(&store, round * OUTFITS_A_ROUND + number, &at).await;
        }
        for turn in 0..KILLED_A_ROUND {
            copies[(round + turn) % REPLICAS].kill().await;
        }
        for turn in 0..KILLED_A_ROUND {
            copies[(round + turn) % REPLICAS] = Process::serve(&api, &url);
        }
        // This places the next kill, and waits for nothing.
        tokio::time::sleep(Duration::from_millis(150 + round as u64 * 37 % 200)).await;
    }
    // A copy looks at the clock when it starts.
    for copy in &mut copies {
        copy.kill().await;
    }
    copies = (0..REPLICAS).map(|_| Process::serve(&api, &url)).collect();
    let outfits = (ROUNDS * OUTFITS_A_ROUND) as i64;
    let queued = async { while count(&store, "select count(*) from digests").await < outfits {} };
    tokio::time::timeout(Duration::from_secs(60), queued)
        .await
        .expect("every digest is made");
    for copy in &mut copies {
        copy.kill().await;
    }

    assert_eq!(
        count(&store, "select count(*) from slots where key like 'digest/%'").await,
        outfits
    );
    // A digest is two messages: its words and its pictures.
    let pictures = count(&store, "select count(*) from sends where body like '%\"Drawings\"%'").await;
    assert_eq!(pictures, outfits, "none is lost, none is doubled");
    let all = count(&store, "select count(*) from sends where unasked_at is not null").await;
    assert_eq!(all, 2 * outfits);
}

async fn count(store: &Store, sql: &'static str) -> i64 {
    let mut look = store.look().await.unwrap();
    sqlx::query_scalar(sql).fetch_one(&mut *look).await.unwrap()
}

/// An outfit whose owner waits for a digest, with one reading a week old.
async fn found(store: &Store, number: usize, digest_at: &str) {
    let mut tx = store.begin().await.unwrap();
    let long_ago = clock::now() - 30 * 86_400;
    let outfit: i64 = sqlx::query_scalar(
        "insert into outfits (name, zone, day_ends, us_to_ppm, degrees, created_at)
         values ('Blue Ladder', 'UTC', '17:00', 0.5, 'C', $1) returning id",
    )
    .bind(long_ago)
    .fetch_one(&mut *tx)
    .await
    .unwrap();
    let chat = format!("tg:{}", 1_000 + number);
    let owner: i64 = sqlx::query_scalar(
        "insert into people (address, chat, first_name, outfit_id, role, joined_at)
         values ($1, $1, 'owner', $2, 'owner', $3) returning id",
    )
    .bind(&chat)
    .bind(outfit)
    .bind(long_ago)
    .fetch_one(&mut *tx)
    .await
    .unwrap();
    let rig: i64 = sqlx::query_scalar(
        "insert into rigs (outfit_id, name, folded_name, added_at) values ($1, 'Heron', 'heron', $2) returning id",
    )
    .bind(outfit)
    .bind(long_ago)
    .fetch_one(&mut *tx)
    .await
    .unwrap();
    sqlx::query(
        "insert into readings (outfit_id, rig_id, person_id, source_key, taken_at, heard_at, feed_ppm, permeate_ppm)
         values ($1, $2, $3, 'test', $4, $4, 180.0, 12.0)",
    )
    .bind(outfit)
    .bind(rig)
    .bind(owner)
    .bind(clock::now() - 3 * 86_400)
    .execute(&mut *tx)
    .await
    .unwrap();
    for (name, value) in [("digest-at", digest_at), ("notices", "off"), ("nudges", "off")] {
        sqlx::query("insert into settings (outfit_id, name, value, set_at) values ($1, $2, $3, $4)")
            .bind(outfit)
            .bind(name)
            .bind(value)
            .bind(long_ago)
            .execute(&mut *tx)
            .await
            .unwrap();
    }
    tx.commit().await.unwrap();
}
