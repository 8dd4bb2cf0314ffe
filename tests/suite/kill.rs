//! The real program, killed fifty times between receiving and answering:
//! each reading is in the database once, and each is answered.

use std::time::Duration;

use tapside::store::Store;

use super::api_stand_in::StandIn;
use super::database;
use super::process::Process;

const OWNER: i64 = 12;
const KILLS: usize = 50;
const READINGS_A_ROUND: usize = 6;

/// Readings go to several groups, so that a chat whose answer was under way
/// at a kill does not keep the others from being answered, and killed, too.
const GROUPS: i64 = 25;

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
    let before = 2;
    api.until("all is answered", |model| model.sent().len() >= before + texted)
        .await;
    process.terminate().await;
    assert!(process.ends(Duration::from_secs(5)).await.success());

    let mut tx = store.begin().await.unwrap();
    let stored: Vec<(String, i64)> = sqlx::query_as("select source_key, count(*) from readings group by source_key")
        .fetch_all(&mut *tx)
        .await
        .unwrap();
    assert_eq!(stored.len(), texted, "none is lost");
    assert!(stored.iter().all(|(_, count)| *count == 1), "none is doubled");
    let waiting: i64 = sqlx::query_scalar("select count(*) from sends where finished_at is null")
        .fetch_one(&mut *tx)
        .await
        .unwrap();
    let repeated = api.with(|model| model.sent().len()) + waiting as usize - before - texted;
    assert!(
        repeated <= KILLS * 16,
        "at most what was under way at a kill: {repeated}"
    );
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
    let group = -1_000_000 - (number as i64 % GROUPS);
    let reading = format!("heron {} {}", 160 + number % 40, 9 + number % 7);
    api.with(|model| model.text(group, OWNER, &reading));
}
