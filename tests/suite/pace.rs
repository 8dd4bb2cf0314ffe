//! The pace of sending, shared by all copies of the bot, on a set clock.

use tapside::bot::envelope::{Handling, Outgoing};
use tapside::config::limits;
use tapside::store::{Store, sends};

use super::database;
use super::served::say;

const LIMIT: i64 = 28;
const MESSAGES: i64 = 150;
const START_MS: i64 = 1_772_000_000_000;

#[tokio::test]
async fn no_second_sees_more_than_the_limit_whichever_copy_sends() {
    let (url, _guard) = database::fresh_url().await;
    let one = Store::open(&url).await.unwrap();
    one.migrate().await.unwrap();
    let other = Store::open(&url).await.unwrap();
    let mut tx = one.begin().await.unwrap();
    for chat in 0..MESSAGES {
        let outgoing = Outgoing {
            chat: format!("tg:{chat}"),
            body: say("hello"),
            source_key: None,
            handling: Handling::default(),
        };
        sends::queue(&mut tx, &outgoing, START_MS / 1000).await.unwrap();
    }
    tx.commit().await.unwrap();

    let pace = limits(LIMIT, 1);
    let mut went: Vec<(i64, i64)> = Vec::new();
    let mut now = START_MS;
    let mut step = 0;
    while went.iter().map(|(_, count)| count).sum::<i64>() < MESSAGES {
        // Steps of 1 to 300 ms that follow no second.
        step += 1;
        now += 1 + step * 7_919 % 300;
        assert!(now < START_MS + 60_000, "it goes on: {went:?}");
        let (a, b) = tokio::join!(
            sends::claim(&one, "one/1", &pace, 16, 25, now),
            sends::claim(&other, "other/1", &pace, 16, 25, now)
        );
        for claimed in [a.unwrap(), b.unwrap()] {
            went.push((now, claimed.len() as i64));
        }
    }
    for (start, _) in &went {
        let within = went.iter().filter(|(at, _)| (*start..start + 1000).contains(at));
        let count: i64 = within.map(|(_, count)| count).sum();
        assert!(count <= LIMIT, "{count} within a second: {went:?}");
    }
    let sum: i64 = went.iter().map(|(_, count)| count).sum();
    assert_eq!(sum, MESSAGES, "each went once");
}

#[tokio::test]
async fn an_answer_passes_what_nobody_asked_for_in_its_chat_and_in_all_others() {
    let (url, _guard) = database::fresh_url().await;
    let store = Store::open(&url).await.unwrap();
    store.migrate().await.unwrap();
    let mut tx = store.begin().await.unwrap();
    for (chat, text, unasked) in [
        ("tg:1", "digest", true),
        ("tg:2", "digest", true),
        ("tg:2", "first answer", false),
        ("tg:3", "digest", true),
        ("tg:2", "second answer", false),
    ] {
        let outgoing = Outgoing {
            chat: chat.to_owned(),
            body: say(text),
            source_key: None,
            handling: Handling {
                unasked,
                ..Handling::default()
            },
        };
        sends::queue(&mut tx, &outgoing, START_MS / 1000).await.unwrap();
    }
    tx.commit().await.unwrap();

    let mut went = Vec::new();
    for second in 0..5 {
        let now = START_MS + second * 10_000;
        for send in sends::claim(&store, "me/1", &limits(LIMIT, 1), 1, 25, now)
            .await
            .unwrap()
        {
            let mut tx = store.begin().await.unwrap();
            let sent = sends::Sent::Delivered(None);
            sends::settle(&mut tx, &send, "me/1", &sent, now / 1000).await.unwrap();
            tx.commit().await.unwrap();
            went.push((send.chat.clone(), send.body));
        }
    }
    let expected = [
        ("tg:2", "first answer"),
        ("tg:2", "second answer"),
        ("tg:1", "digest"),
        ("tg:2", "digest"),
        ("tg:3", "digest"),
    ];
    assert_eq!(went, expected.map(|(chat, text)| (chat.to_owned(), say(text))));
}
