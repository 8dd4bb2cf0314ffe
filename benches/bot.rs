//! The whole bot under load: many people in as many chats text readings at
//! once, each the next as soon as the last is answered, against a stand-in of
//! the Bot API over loopback. Answers a second, and how long one waits for an
//! answer.
//!
//! `cargo bench --bench bot` on SQLite; with `TAPSIDE_TEST_DATABASE` set, on
//! that PostgreSQL server. `-- PEOPLE READINGS` for other numbers than these.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    dead_code
)]
#![allow(missing_docs)]

#[path = "../tests/suite/api_forms.rs"]
mod api_forms;
#[path = "../tests/suite/api_stand_in.rs"]
mod api_stand_in;
#[path = "../tests/suite/database.rs"]
mod database;
#[path = "../tests/suite/served.rs"]
mod served;

use std::collections::HashMap;
use std::time::{Duration, Instant};

use served::Server;

const PEOPLE: i64 = 200;
const READINGS: u32 = 25;
const PEOPLE_OF_AN_OUTFIT: i64 = 5;
/// Kept out of the way of the ids that SQL gives.
const FIRST_CHAT: i64 = 10_000;

#[tokio::main]
async fn main() {
    let mut numbers = std::env::args().filter_map(|word| word.parse::<i64>().ok());
    let people = numbers.next().unwrap_or(PEOPLE);
    let readings = numbers.next().map_or(READINGS, |readings| readings as u32);
    let server = Server::start().await;
    fill(&server, people).await;

    let started = Instant::now();
    let mut waits = talk(&server, people, readings).await;
    let took = started.elapsed();

    let stored = server.count("select count(*) from readings").await;
    waits.sort();
    println!("{:?}, {people} people in as many chats", server.store.kind());
    println!(
        "  {} answers in {:.1} s: {:.0} a second; {stored} readings stored",
        waits.len(),
        took.as_secs_f64(),
        waits.len() as f64 / took.as_secs_f64()
    );
    for (name, share) in [("median", 0.5), ("p95", 0.95), ("p99", 0.99), ("longest", 1.0)] {
        let at = ((waits.len() - 1) as f64 * share).round() as usize;
        println!(
            "  {name:<8} {:>6.0} ms from text to answer",
            waits[at].as_secs_f64() * 1e3
        );
    }
    server.stop().await;
}

/// Outfits of five people and five rigs.
async fn fill(server: &Server, people: i64) {
    let mut statements = Vec::new();
    for person in 0..people {
        let outfit = 1 + person / PEOPLE_OF_AN_OUTFIT;
        if person % PEOPLE_OF_AN_OUTFIT == 0 {
            statements.push(
                "insert into outfits (name, zone, day_ends, us_to_ppm, degrees, created_at)
                 values ('Outfit', 'UTC', '23:59', 0.5, 'C', 1)"
                    .to_owned(),
            );
        }
        let chat = FIRST_CHAT + person;
        statements.push(format!(
            "insert into people (address, chat, first_name, language, outfit_id, role, joined_at)
             values ('tg:{chat}', 'tg:{chat}', 'Ada', 'en', {outfit}, 'crew', 1)"
        ));
        let rig = rig_of(person);
        statements.push(format!(
            "insert into rigs (outfit_id, name, folded_name, added_at) values ({outfit}, '{rig}', '{rig}', 1)"
        ));
    }
    let statements: Vec<&str> = statements.iter().map(String::as_str).collect();
    server.execute(&statements).await;
}

fn rig_of(person: i64) -> &'static str {
    ["heron", "otter", "mule", "badger", "kestrel"][(person % PEOPLE_OF_AN_OUTFIT) as usize]
}

/// Everybody texts, and texts again once answered; how long each waited.
async fn talk(server: &Server, people: i64, readings: u32) -> Vec<Duration> {
    let mut asked: HashMap<i64, (Instant, u32)> = HashMap::new();
    let mut waits = Vec::new();
    let mut seen = 0;
    server.api.with(|model| {
        for person in 0..people {
            let chat = FIRST_CHAT + person;
            model.text(chat, chat, &reading(person, 0));
            asked.insert(chat, (Instant::now(), 0));
        }
    });
    while waits.len() < (people * i64::from(readings)) as usize {
        server
            .api
            .until("an answer comes", |model| model.calls.len() > seen)
            .await;
        server.api.with(|model| {
            let fresh: Vec<(i64, Instant)> = model.calls[seen..].iter().map(|call| (call.chat(), call.at)).collect();
            seen = model.calls.len();
            for (chat, at) in fresh {
                // Whatever else is said to somebody is no answer to a reading.
                let Some((since, count)) = asked.remove(&chat) else {
                    continue;
                };
                waits.push(at - since);
                if count + 1 < readings {
                    model.text(chat, chat, &reading(chat - FIRST_CHAT, count + 1));
                    asked.insert(chat, (Instant::now(), count + 1));
                }
            }
        });
    }
    waits
}

fn reading(person: i64, count: u32) -> String {
    format!(
        "{} {} {}",
        rig_of(person),
        178 + count % 5,
        11 + (person + i64::from(count)) % 3
    )
}
