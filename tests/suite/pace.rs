//! The pace and the order of sending, shared by all copies of the bot.

use tapside::domain::envelope::{Body, Handling, Outgoing, Send, Sent};
use tapside::store::sends::Landed;
use tapside::store::{Store, chats, pace, send_leases, sends};

use super::database::{self, Guard};
use super::served::say;

const LIMIT: i64 = 28;
const MESSAGES: i64 = 150;
const START_MS: i64 = 1_772_000_000_000;
const NOW: i64 = START_MS / 1000;

async fn two_copies() -> (Store, Store, Guard) {
    let (url, guard) = database::fresh_url().await;
    let one = Store::open(&url).await.unwrap();
    one.migrate().await.unwrap();
    (one, Store::open(&url).await.unwrap(), guard)
}

fn outgoing(chat: &str, text: &str, unasked: bool) -> Outgoing {
    Outgoing {
        chat: chat.to_owned(),
        body: say(text),
        source_key: None,
        handling: Handling {
            unasked,
            ..Handling::default()
        },
    }
}

/// Inserts under a holder's name, or under nobody's; what may be handed over.
async fn insert(store: &Store, holder: Option<&str>, messages: &[(&str, &str, bool)]) -> Vec<String> {
    let messages: Vec<Outgoing> = messages
        .iter()
        .map(|(chat, text, unasked)| outgoing(chat, text, *unasked))
        .collect();
    let mut tx = store.begin().await.unwrap();
    let sends = sends::insert(&mut tx, holder, &messages, NOW).await.unwrap();
    tx.commit().await.unwrap();
    texts(&sends)
}

fn texts(sends: &[Send]) -> Vec<String> {
    let text = |send: &Send| match &send.body {
        Body::Say { text, .. } => text.clone(),
        other => panic!("{other:?}"),
    };
    sends.iter().map(text).collect()
}

async fn settle(store: &Store, me: &str, sends: &[Send], sent: Sent) {
    let landed: Vec<Landed> = sends
        .iter()
        .map(|send| Landed {
            id: send.id,
            chat: send.chat.clone(),
            sent: sent.clone(),
            tries: 1,
            pause_s: 0,
        })
        .collect();
    let mut tx = store.begin().await.unwrap();
    sends::settle(&mut tx, me, &landed, NOW).await.unwrap();
    tx.commit().await.unwrap();
}

async fn reserve(store: &Store, now_ms: i64) -> i64 {
    let mut tx = store.begin().await.unwrap();
    let share = pace::reserve_at(&mut tx, LIMIT, 16, now_ms).await.unwrap();
    tx.commit().await.unwrap();
    share.count
}

#[tokio::test]
async fn no_second_sees_more_than_the_limit_whichever_copy_sends() {
    let (one, other, _guard) = two_copies().await;
    let mut went: Vec<(i64, i64)> = Vec::new();
    let mut now = START_MS;
    let mut step = 0;
    while went.iter().map(|(_, count)| count).sum::<i64>() < MESSAGES {
        // Steps of 1 to 300 ms that follow no second.
        step += 1;
        now += 1 + step * 7_919 % 300;
        assert!(now < START_MS + 60_000, "it goes on: {went:?}");
        let (a, b) = tokio::join!(reserve(&one, now), reserve(&other, now));
        went.extend([(now, a), (now, b)]);
    }
    for (start, _) in &went {
        let end = start + 1000 + pace::USE_WITHIN_MS;
        let within = went.iter().filter(|(at, _)| (*start..end).contains(at));
        let count: i64 = within.map(|(_, count)| count).sum();
        assert!(count <= LIMIT, "{count} within a second: {went:?}");
    }
}

#[tokio::test]
async fn an_answer_passes_what_nobody_asked_for_in_its_chat_and_in_all_others() {
    let (one, _, _guard) = two_copies().await;
    insert(
        &one,
        None,
        &[
            ("tg:1", "digest", true),
            ("tg:2", "digest", true),
            ("tg:2", "first answer", false),
            ("tg:3", "digest", true),
            ("tg:2", "second answer", false),
        ],
    )
    .await;
    let claimed = sends::claim(&one, "one/1/1", 100).await.unwrap();
    let expected = ["first answer", "second answer", "digest", "digest", "digest"];
    assert_eq!(texts(&claimed), expected);
}

#[tokio::test]
async fn only_one_copy_holds_messages_of_a_chat_at_a_time() {
    let (one, other, _guard) = two_copies().await;
    let (me, you) = ("one/1/1", "other/2/2");
    assert_eq!(insert(&one, Some(me), &[("tg:1", "a", false)]).await, ["a"]);
    // The other copy hears the next text of that chat: it may neither hand over nor claim.
    let handed = insert(&other, Some(you), &[("tg:1", "b", false), ("tg:2", "c", false)]).await;
    assert_eq!(handed, ["c"]);
    assert!(sends::claim(&other, you, 100).await.unwrap().is_empty());
    // Nor may what comes later overtake the one that waits.
    assert!(insert(&one, Some(me), &[("tg:1", "d", false)]).await.is_empty());
    // Its holder is killed and started again.
    let mut tx = one.begin().await.unwrap();
    assert_eq!(send_leases::take_back(&mut tx, "other", |_| true).await.unwrap(), 1);
    assert_eq!(send_leases::take_back(&mut tx, "one", |_| false).await.unwrap(), 0);
    assert_eq!(send_leases::take_back(&mut tx, "one", |_| true).await.unwrap(), 1);
    tx.commit().await.unwrap();
    let claimed = sends::claim(&other, you, 100).await.unwrap();
    assert_eq!(texts(&claimed), ["a", "b", "c", "d"]);
    assert!(sends::claim(&one, me, 100).await.unwrap().is_empty(), "never twice");
    settle(&other, me, &claimed, Sent::Delivered(None)).await;
    assert_eq!(
        insert(&one, Some(me), &[("tg:1", "e", false)]).await.len(),
        0,
        "whoever holds nothing settles nothing"
    );
    settle(&other, you, &claimed, Sent::Delivered(None)).await;
    let claimed = sends::claim(&one, me, 100).await.unwrap();
    assert_eq!(texts(&claimed), ["e"]);
}

#[tokio::test]
async fn what_nobody_asked_for_is_never_handed_over_and_holds_up_no_answer() {
    let (one, _, _guard) = two_copies().await;
    let handed = insert(
        &one,
        Some("one/1/1"),
        &[("tg:1", "digest", true), ("tg:1", "answer", false)],
    )
    .await;
    assert_eq!(handed, ["answer"]);
}

#[tokio::test]
async fn a_pause_of_a_chat_and_of_all_is_kept_by_the_other_copy_and_for_its_topics() {
    let (one, other, _guard) = two_copies().await;
    let (me, you) = ("one/1/1", "other/2/2");
    insert(&one, None, &[("#tg:-1/7", "a", false), ("tg:2", "b", false)]).await;
    let claimed = sends::claim(&one, me, 100).await.unwrap();
    let wait = |everywhere| Sent::TooFast {
        wait_s: 3600,
        everywhere,
    };
    settle(&one, me, &claimed[..1], wait(false)).await;
    let mut tx = one.begin().await.unwrap();
    send_leases::release(&mut tx, me).await.unwrap();
    tx.commit().await.unwrap();
    let claimed = sends::claim(&other, you, 100).await.unwrap();
    assert_eq!(texts(&claimed), ["b"]);
    assert!(insert(&other, Some(you), &[("#tg:-1/8", "c", false)]).await.is_empty());
    let mut db = other.begin().await.unwrap();
    assert_eq!(chats::pause_of_all(&mut db).await.unwrap(), 0);
    drop(db);
    settle(&other, you, &claimed, wait(true)).await;
    let mut db = one.begin().await.unwrap();
    let pause = chats::pause_of_all(&mut db).await.unwrap();
    assert!((3590..=3600).contains(&pause), "{pause}");
}

#[tokio::test]
async fn whatever_comes_from_a_chat_unblocks_it_and_its_topics() {
    let (one, _, _guard) = two_copies().await;
    insert(&one, None, &[("#tg:-1/7", "a", false)]).await;
    let claimed = sends::claim(&one, "one/1/1", 100).await.unwrap();
    settle(&one, "one/1/1", &claimed, Sent::Blocked).await;
    let mut tx = one.begin().await.unwrap();
    assert!(chats::is_blocked(&mut tx, "#tg:-1").await.unwrap());
    assert!(chats::is_blocked(&mut tx, "#tg:-1/9").await.unwrap());
    chats::unblock_all(&mut tx, &["tg:5", "#tg:-1/9", "#tg:-1/8"])
        .await
        .unwrap();
    assert!(!chats::is_blocked(&mut tx, "#tg:-1/7").await.unwrap());
    tx.commit().await.unwrap();
    assert_eq!(insert(&one, Some("one/1/1"), &[("#tg:-1/7", "b", false)]).await, ["b"]);
}

#[tokio::test]
async fn a_chat_with_thousands_of_messages_holds_up_no_other() {
    let (one, _, _guard) = two_copies().await;
    let mut many = vec![("tg:1", "flood", false); 2000];
    many.push(("tg:2", "answer", false));
    insert(&one, None, &many).await;
    let claimed = sends::claim(&one, "one/1/1", 100).await.unwrap();
    assert!(texts(&claimed).contains(&"answer".to_owned()));
}
