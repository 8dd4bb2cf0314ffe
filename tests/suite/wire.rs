//! The wire: what is confirmed when, and what becomes of each delivery.

use std::time::Duration;

use serde_json::{Value, json};
use tapside::domain::envelope::{Body, Button};

use super::api_stand_in::{Fault, Model};

use super::served::{Server, run, say, texts_to};

#[tokio::test]
async fn a_text_is_answered_and_confirmed() {
    let server = Server::start().await;
    let update = server.api.with(|model| model.text(501, 501, "hello"));
    server
        .api
        .until("it is answered", |model| texts_to(model, 501).len() == 1)
        .await;
    server
        .api
        .until("it is confirmed", |model| model.confirmed == update + 1)
        .await;
    let (api, ..) = server.stop().await;
    api.with(|model| {
        let hears = json!([
            "message",
            "edited_message",
            "callback_query",
            "my_chat_member",
            "message_reaction"
        ]);
        assert!(
            model.polls.iter().all(|poll| poll["allowed_updates"] == hears),
            "said each time"
        );
        assert_eq!(model.polls[0]["offset"], 0);
        assert!(model.polls.iter().all(|poll| poll["timeout"].as_u64().unwrap() <= 50));
    });
}

#[tokio::test]
async fn nothing_is_confirmed_before_it_is_committed() {
    let server = Server::start().await;
    // The database takes nothing as long as these are away.
    server
        .execute(&[
            "alter table people rename to people_away",
            "alter table heard rename to heard_away",
        ])
        .await;
    let update = server.api.with(|model| model.text(502, 502, "hello"));
    server
        .api
        .until("it was handed out three times", |model| model.handed_out.len() >= 3)
        .await;
    server.api.with(|model| {
        assert_eq!((model.confirmed, model.sent().len()), (0, 0));
        let waits: Vec<Duration> = model.handed_out.windows(2).map(|pair| pair[1].0 - pair[0].0).collect();
        assert!(
            waits.iter().all(|wait| *wait >= Duration::from_millis(500)),
            "{waits:?}"
        );
    });
    server
        .execute(&[
            "alter table people_away rename to people",
            "alter table heard_away rename to heard",
        ])
        .await;
    server
        .api
        .until("it is confirmed", |model| model.confirmed == update + 1)
        .await;
    server
        .api
        .until("it is answered", |model| texts_to(model, 502).len() == 1)
        .await;
    server.stop().await;
}

#[tokio::test]
async fn corrupt_updates_are_kept_aside_and_the_rest_is_heard() {
    let server = Server::start().await;
    let last = server.api.with(|model| {
        for number in 0..20 {
            model.push(json!({"message": {"message_id": number, "odd": [1, {}]}}));
            model.text(600 + number, 600 + number, "hello");
        }
        // One without any number at all, in the midst.
        model.updates.insert(7, json!(["what is this"]));
        model.text(503, 503, "hello")
    });
    server
        .api
        .until("all are confirmed", |model| model.confirmed == last + 1)
        .await;
    server
        .api
        .until("people are answered", |model| {
            (600..620).all(|chat| texts_to(model, chat).len() == 1)
        })
        .await;
    server
        .api
        .until("the last is answered", |model| texts_to(model, 503).len() == 1)
        .await;
    assert_eq!(server.count("select count(*) from dead").await, 21);
    server.api.with(|model| model.updates.clear());
    server.stop().await;
}

#[tokio::test]
async fn the_layout_is_what_a_phone_shows_best() {
    let server = Server::start().await;
    let buttons = vec![Button {
        label: "As I sent it".to_owned(),
        token: "tok".to_owned(),
    }];
    let text = "Which way round?\n<otter> & co".to_owned();
    let question = Body::Say {
        text,
        buttons,
        reply_to: Some("tg:-100/3".to_owned()),
    };
    server.queue_bodies("#tg:-100/7", vec![question]).await;
    server.api.until("it is there", |model| model.sent().len() == 1).await;
    let (api, store, _guard) = server.stop().await;
    api.with(|model| {
        assert_eq!(
            model.calls[0].body,
            json!({"chat_id": -100, "message_thread_id": 7, "parse_mode": "HTML",
                   "text": "<b>Which way round?</b>\n&lt;otter&gt; &amp; co",
                   "link_preview_options": {"is_disabled": true},
                   "reply_parameters": {"message_id": 3, "allow_sending_without_reply": true},
                   "reply_markup": {"inline_keyboard": [[{"text": "As I sent it", "callback_data": "tok"}]]}})
        );
    });
    let mut tx = store.begin().await.unwrap();
    let key: String = sqlx::query_scalar("select remote_key from sends")
        .fetch_one(&mut *tx)
        .await
        .unwrap();
    assert_eq!(key, "tg:-100/1", "a reply to it can be traced");
}

#[tokio::test]
async fn what_the_api_cannot_parse_goes_out_plain() {
    let server = Server::start().await;
    let cannot = Fault::Refuse(
        400,
        "Bad Request: can't parse entities: unexpected end tag at byte offset 3",
    );
    server.api.with(|model| model.send_faults.push_back(cannot));
    server.queue("tg:504", &["a < b\nc"]).await;
    server.api.until("it is there", |model| model.sent().len() == 1).await;
    server.api.with(|model| {
        assert_eq!(model.calls.len(), 2);
        assert_eq!(model.calls[1].text(), "a < b\nc");
        assert_eq!(model.calls[1].body["parse_mode"], Value::Null);
    });
    server.stop().await;
}

#[tokio::test]
async fn the_whole_pause_that_the_api_asks_for_is_kept() {
    let server = Server::start().await;
    server.api.with(|model| model.send_faults.push_back(Fault::TooFast(2)));
    server.queue("tg:505", &["first", "second"]).await;
    server
        .api
        .until("both are there", |model| texts_to(model, 505).len() == 2)
        .await;
    server.api.with(|model| {
        assert_eq!(texts_to(model, 505), ["first", "second"]);
        let wait = model.calls[1].at - model.calls[0].at;
        assert!(wait >= Duration::from_secs(2), "{wait:?}");
    });
    server.stop().await;
}

#[tokio::test]
async fn a_pause_outlives_a_restart() {
    let server = Server::start().await;
    server.api.with(|model| model.send_faults.push_back(Fault::TooFast(4)));
    server.queue("tg:506", &["once"]).await;
    server.api.until("it was tried", |model| model.calls.len() == 1).await;
    let url = server.url.clone();
    let (guard_api, _store) = (server.api.clone(), server.store.clone());
    // The file stays until the test ends.
    let Server {
        stop, running, _guard, ..
    } = server;
    stop.unwrap().send(()).unwrap();
    running.await.unwrap().unwrap();
    let (stop, running) = run(&guard_api, &url, "one").await;
    guard_api.until("it is there", |model| model.sent().len() == 1).await;
    guard_api.with(|model| {
        let wait = model.calls[1].at - model.calls[0].at;
        assert!(wait >= Duration::from_secs(4), "{wait:?}");
    });
    stop.send(()).unwrap();
    running.await.unwrap().unwrap();
}

#[tokio::test]
async fn a_chat_that_shut_the_bot_out_is_left_alone() {
    let server = Server::start().await;
    let blocked = Fault::Refuse(403, "Forbidden: bot was blocked by the user");
    server.api.with(|model| model.send_faults.push_back(blocked));
    server.queue("tg:507", &["one", "two", "three"]).await;
    server.api.until("it was tried", |model| model.calls.len() == 1).await;
    server.queue("tg:507", &["four"]).await;
    server.queue("tg:508", &["hello"]).await;
    server
        .api
        .until("the other chat is served", |model| texts_to(model, 508) == ["hello"])
        .await;
    let (api, ..) = server.stop().await;
    api.with(|model| assert_eq!(model.calls.iter().filter(|call| call.chat() == 507).count(), 1));
}

#[tokio::test]
async fn a_group_that_moved_gets_its_messages_in_order_at_its_new_place() {
    let server = Server::start().await;
    server
        .api
        .with(|model| model.send_faults.push_back(Fault::Moved(-1009)));
    server.queue("#tg:-9", &["one", "two"]).await;
    server
        .api
        .until("both are there", |model| model.sent().len() == 2)
        .await;
    server
        .api
        .with(|model| assert_eq!(texts_to(model, -1009), ["one", "two"]));
    server.stop().await;
}

#[tokio::test]
async fn order_holds_over_every_fault_and_only_a_lost_answer_repeats() {
    let server = Server::start().await;
    let faults = [Fault::BadGateway, Fault::Drop, Fault::Html, Fault::LoseAnswer];
    server.api.with(|model| model.send_faults.extend(faults));
    // One chat each, so that the faults' pauses run side by side.
    for chat in 510..514 {
        server.queue(&format!("tg:{chat}"), &["one", "two"]).await;
    }
    let done = |model: &Model| (510..514).all(|chat| texts_to(model, chat).last().is_some_and(|text| text == "two"));
    server.api.until("all are there", done).await;
    server.api.with(|model| {
        let mut repeats = 0;
        for chat in 510..514 {
            let mut texts = texts_to(model, chat);
            repeats += texts.len() - 2;
            texts.dedup();
            assert_eq!(texts, ["one", "two"]);
        }
        assert_eq!(repeats, 1);
    });
    server.stop().await;
}

#[tokio::test]
async fn a_press_is_acknowledged_and_one_that_is_too_old_is_forgotten() {
    let server = Server::start().await;
    let old = Fault::Refuse(
        400,
        "Bad Request: query is too old and response timeout expired or query ID is invalid",
    );
    server.api.with(|model| model.press_faults.push_back(old));
    let press = |press: &str| Body::Acknowledge {
        press: press.to_owned(),
        text: Some("Noted".to_owned()),
    };
    server
        .queue_bodies("tg:520", vec![press("77"), press("78"), say("after")])
        .await;
    server
        .api
        .until("what follows is there", |model| texts_to(model, 520) == ["after"])
        .await;
    let (api, ..) = server.stop().await;
    api.with(|model| {
        let text = "Noted";
        let expected = ["77", "78"].map(|id| json!({"callback_query_id": id, "text": text}));
        assert_eq!(model.acknowledged, expected);
    });
}
