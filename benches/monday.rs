//! Monday, seven o'clock: ten thousand outfits of five rigs are due in the same
//! minute. How long until all digests are queued, and how long does a reading
//! wait for its answer meanwhile?
//!
//! `cargo bench --bench monday` (or `-- OUTFITS READINGS`) on a fresh SQLite file; with
//! TAPSIDE_TEST_DATABASE the address of an empty PostgreSQL database.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::print_stdout,
    missing_docs,
    reason = "a bench stops at the first trouble"
)]

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use tapside::bot::{Bot, BotSettings, Tokens};
use tapside::domain::envelope::{Arrived, Chat, Happening, Incoming, Person};
use tapside::store::Store;

const RIGS: i64 = 5;
/// Monday, 2026-03-09 07:00 UTC.
const MONDAY: i64 = 1_773_039_600;
const DAY: i64 = 86_400;

#[tokio::main(flavor = "multi_thread", worker_threads = 2)]
async fn main() {
    let mut numbers = std::env::args().skip(1).filter_map(|word| word.parse::<i64>().ok());
    let outfits = numbers.next().unwrap_or(10_000);
    let readings = numbers.next().unwrap_or(20);
    let folder = tempfile::tempdir().unwrap();
    let url = std::env::var("TAPSIDE_TEST_DATABASE")
        .unwrap_or_else(|_| format!("sqlite:{}", folder.path().join("monday.sqlite").display()));
    let store = Store::open(&url).await.unwrap();
    store.migrate().await.unwrap();
    fill(&store, outfits, readings).await;
    let settings = BotSettings {
        zone: "UTC".to_owned(),
        tokens: Tokens::Random,
    };
    let bot = Arc::new(Bot::new(store.clone(), settings));

    let over = Arc::new(AtomicBool::new(false));
    let crew = tokio::spawn(text_readings(bot.clone(), over.clone()));
    let start = Instant::now();
    bot.due(MONDAY + 30).await.unwrap();
    let took = start.elapsed();
    over.store(true, Ordering::Relaxed);
    let mut waits = crew.await.unwrap();
    waits.sort();
    let at = |share: f64| waits[((waits.len() - 1) as f64 * share) as usize];

    let mut look = store.look().await.unwrap();
    let queued: i64 = sqlx::query_scalar("select count(*) from sends where unasked_at is not null")
        .fetch_one(&mut *look)
        .await
        .unwrap();
    println!(
        "{outfits} outfits, {RIGS} rigs, {readings} readings a rig ({:?}): {queued} messages queued in {:.1} s; \
         meanwhile {} readings answered, median {:.0} ms, p99 {:.0} ms, longest {:.0} ms",
        store.kind(),
        took.as_secs_f64(),
        waits.len(),
        ms(at(0.5)),
        ms(at(0.99)),
        ms(at(1.0)),
    );
}

fn ms(duration: Duration) -> f64 {
    duration.as_secs_f64() * 1000.0
}

/// Somebody of the first outfit texts a reading every 40 ms; how long each took
/// until its answer was committed.
async fn text_readings(bot: Arc<Bot>, over: Arc<AtomicBool>) -> Vec<Duration> {
    let mut waits = Vec::new();
    while !over.load(Ordering::Relaxed) {
        let number = waits.len();
        let reading = Incoming {
            key: format!("bench/{number}"),
            version: 0,
            chat: Chat {
                address: "tg:1".to_owned(),
                group: false,
            },
            person: Person {
                address: "tg:1".to_owned(),
                private_chat: "tg:1".to_owned(),
                first_name: "owner".to_owned(),
                language: Some("en".to_owned()),
            },
            sent_at: MONDAY,
            what: Happening::Text(format!("rig 1 {} 12", 170 + number % 20)),
            reply_to: None,
        };
        let start = Instant::now();
        bot.hear(&[Arrived::Incoming(reading)], MONDAY + 40).await.unwrap();
        waits.push(start.elapsed());
        tokio::time::sleep(Duration::from_millis(40)).await;
    }
    waits
}

/// Outfits, owners, rigs and readings, all alike.
async fn fill(store: &Store, outfits: i64, readings: i64) {
    let numbers = "with recursive n(i) as (select 1 union all select i + 1 from n where i < $1)";
    let founded = MONDAY - 200 * DAY;
    let mut tx = store.begin().await.unwrap();
    for (sql, count, second) in [
        (
            "insert into outfits (name, zone, day_ends, us_to_ppm, degrees, created_at)
             select 'Outfit', 'UTC', '17:00', 0.5, 'C', $2 from n",
            outfits,
            founded,
        ),
        (
            "insert into people (address, chat, first_name, outfit_id, role, joined_at)
             select 'tg:' || cast(i as text), 'tg:' || cast(i as text), 'owner', i, 'owner', $2 from n",
            outfits,
            founded,
        ),
        (
            "insert into rigs (outfit_id, name, folded_name, added_at)
             select (i - 1) / 5 + 1, 'Rig ' || cast((i - 1) % 5 + 1 as text), 'rig' || cast((i - 1) % 5 + 1 as text), $2
             from n",
            outfits * RIGS,
            founded,
        ),
        (
            "insert into readings (outfit_id, rig_id, person_id, source_key, taken_at, heard_at, feed_ppm, permeate_ppm)
             select (i - 1) / 5 + 1, i, (i - 1) / 5 + 1, 'bench', t.at, t.at, 180.0, 12.0
             from n cross join (with recursive m(j) as (select 1 union all select j + 1 from m where j < 20)
                                select $2 - j * 259200 as at from m) t",
            outfits * RIGS,
            MONDAY,
        ),
    ] {
        let sql = sql.replace("j < 20", &format!("j < {readings}"));
        let sql = match sql.split_once("select ") {
            Some((insert, rest)) => format!("{insert}{numbers} select {rest}"),
            None => sql,
        };
        sqlx::query(sqlx::AssertSqlSafe(sql))
            .bind(count)
            .bind(second)
            .execute(&mut *tx)
            .await
            .unwrap();
    }
    tx.commit().await.unwrap();
}
