//! The real program, killed fifty times between receiving and answering:
//! each reading is in the database once, and each is answered.

use std::collections::HashSet;
use std::time::Duration;

use tapside::store::Store;

use super::api_stand_in::{Model, StandIn};
use super::database;
use super::process::Process;

const OWNER: i64 = 12;
const KILLS: usize = 50;
const READINGS_A_ROUND: usize = 6;

/// Deliveries that can be under way at a kill, each of which may repeat.
const AT_ONCE: usize = 32;

#[tokio::test]
async fn no_reading_is_lost_or_doubled_by_fifty_kills() {
    let api = StandIn::start().await;
    let (url, _guard) = database::fresh_url().await;
    set_up(&api, &url).await;

    let mut texted = 0;
    for round in 0..KILLS {
        let mut process = Process::serve(&api, &url);
        let (handed_out, calls, confirmed) =
            api.with(|model| (model.handed_out.len(), model.calls.len(), model.confirmed));
        for _ in 0..READINGS_A_ROUND {
            text_a_reading(&api, texted);
            texted += 1;
        }
        // Each round dies at another step of a message's way.
        match round % 4 {
            0 => {
                api.until("updates are handed out", |model| model.handed_out.len() > handed_out)
                    .await
            }
            1 => {
                api.until("a batch is confirmed", |model| model.confirmed > confirmed)
                    .await
            }
            2 => {
                api.until("an answer is under way", |model| model.calls.len() > calls)
                    .await
            }
            _ => {
                api.until("updates are handed out", |model| model.handed_out.len() > handed_out)
                    .await;
                // This places the kill, and waits for nothing.
                tokio::time::sleep(Duration::from_micros(round as u64 * 1_237 % 30_000)).await;
            }
        }
        process.kill().await;
    }

    let mut process = Process::serve(&api, &url);
    api.until("all is confirmed", |model| model.updates.is_empty()).await;
    let store = Store::open(&url).await.unwrap();
    let answered = |model: &Model| {
        let chats: HashSet<i64> = model.sent().iter().map(|call| call.chat()).collect();
        (0..texted).all(|number| chats.contains(&group(number)))
    };
    api.until("each is answered", answered).await;
    process.terminate().await;
    assert!(process.ends(Duration::from_secs(5)).await.success());

    let mut tx = store.begin().await.unwrap();
    let stored: Vec<(String, i64)> = sqlx::query_as("select source_key, count(*) from readings group by source_key")
        .fetch_all(&mut *tx)
        .await
        .unwrap();
    assert_eq!(stored.len(), texted, "none is lost");
    assert!(stored.iter().all(|(_, count)| *count == 1), "none is doubled");
    // Besides the answers there are two from the set-up.
    let repeated = api.with(|model| model.sent().len()) - texted - 2;
    assert!(repeated <= KILLS * AT_ONCE, "no more than was under way: {repeated}");
}

/// The first owner opens the link from the log and adds a rig.
async fn set_up(api: &StandIn, url: &str) {
    let mut process = Process::serve(api, url);
    let line = process.says("?start=").await;
    let (_, token) = line.split_once("?start=").unwrap();
    let token: String = token
        .chars()
        .take_while(|char| char.is_ascii_alphanumeric() || "-_".contains(*char))
        .collect();
    api.with(|model| model.text(OWNER, OWNER, &format!("/start {token}")));
    api.until("the owner is let in", |model| model.sent().len() == 1).await;
    api.with(|model| model.text(OWNER, OWNER, "add rig heron"));
    api.until("the rig is there", |model| model.sent().len() == 2).await;
    process.terminate().await;
    assert!(process.ends(Duration::from_secs(5)).await.success());
}

fn text_a_reading(api: &StandIn, number: usize) {
    let reading = format!("heron {} {}", 160 + number % 40, 9 + number % 7);
    api.with(|model| model.text(group(number), OWNER, &reading));
}

/// Each reading has a chat of its own: one whose answer was under way at a
/// kill waits for its lease, and the others can be answered, and killed, at
/// once.
fn group(number: usize) -> i64 {
    -1_000_000 - number as i64
}
