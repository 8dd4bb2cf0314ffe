//! The loops against a stand-in of the Bot API: what is confirmed when, and
//! what comes of everything that goes wrong on the way.

use std::process::ExitCode;
use std::sync::Arc;
use std::time::Duration;

use serde_json::{Value, json};
use sqlx::AssertSqlSafe;
use tapside::bot::envelope::{Body, Button, Outgoing};
use tapside::bot::{Bot, BotSettings, Tokens};
use tapside::clock;
use tapside::config::{LogLevel, Settings, limits};
use tapside::serve::run_until;
use tapside::store::{Store, sends};
use tokio::sync::oneshot;
use tokio::task::JoinHandle;

use super::api_stand_in::{Fault, Model, StandIn, TOKEN};
use super::database::{self, Guard};
use super::process::{Process, bare};

/// A bot that runs within the test.
struct Server {
    api: StandIn,
    store: Store,
    url: String,
    stop: Option<oneshot::Sender<()>>,
    running: JoinHandle<anyhow::Result<ExitCode>>,
    _guard: Guard,
}

impl Server {
    async fn start() -> Self {
        Self::start_against(StandIn::start().await).await
    }

    async fn start_against(api: StandIn) -> Self {
        let (url, guard) = database::fresh_url().await;
        let store = Store::open(&url).await.unwrap();
        store.migrate().await.unwrap();
        let (stop, running) = run(&api, &url, "one").await;
        Self {
            api,
            store,
            url,
            stop: Some(stop),
            running,
            _guard: guard,
        }
    }

    /// Queues texts from outside, as a reading's answer is queued from inside.
    async fn queue(&self, chat: &str, texts: &[&str]) {
        let bodies = texts.iter().map(|text| say(text)).collect();
        self.queue_bodies(chat, bodies).await;
    }

    async fn queue_bodies(&self, chat: &str, bodies: Vec<Body>) {
        let mut tx = self.store.begin().await.unwrap();
        for body in bodies {
            let outgoing = Outgoing {
                chat: chat.to_owned(),
                body,
                source_key: None,
            };
            sends::queue(&mut tx, &outgoing, clock::now()).await.unwrap();
        }
        tx.commit().await.unwrap();
    }

    async fn execute(&self, statements: &[&str]) {
        let mut tx = self.store.begin().await.unwrap();
        for statement in statements {
            sqlx::raw_sql(AssertSqlSafe((*statement).to_owned()))
                .execute(&mut *tx)
                .await
                .unwrap();
        }
        tx.commit().await.unwrap();
    }

    async fn count(&self, sql: &'static str) -> i64 {
        let mut tx = self.store.begin().await.unwrap();
        sqlx::query_scalar(sql).fetch_one(&mut *tx).await.unwrap()
    }

    /// Stops the bot, and sees it end well.
    async fn stop(mut self) -> (StandIn, Store) {
        self.stop.take().unwrap().send(()).unwrap();
        let ended = tokio::time::timeout(Duration::from_secs(5), &mut self.running).await;
        let code = ended.expect("it stops within 5 s").unwrap().unwrap();
        assert_eq!(format!("{code:?}"), format!("{:?}", ExitCode::SUCCESS));
        (self.api.clone(), self.store.clone())
    }
}

async fn run(api: &StandIn, url: &str, instance: &str) -> (oneshot::Sender<()>, JoinHandle<anyhow::Result<ExitCode>>) {
    let settings = Settings {
        token: Some(TOKEN.to_owned().into()),
        database_url: url.to_owned().into(),
        api_url: api.api_url().parse().unwrap(),
        zone: "UTC".to_owned(),
        limits: limits(0, 0),
        instance: instance.to_owned(),
        log: LogLevel::Info,
    };
    let store = Store::open(url).await.unwrap();
    let bot = Bot::new(
        store,
        BotSettings {
            zone: settings.zone.clone(),
            tokens: Tokens::Random,
        },
    );
    let (stop, stopped) = oneshot::channel();
    let running = tokio::spawn(run_until(settings, Arc::new(bot), async move {
        let _ = stopped.await;
    }));
    (stop, running)
}

fn say(text: &str) -> Body {
    Body::Say {
        text: text.to_owned(),
        buttons: Vec::new(),
        reply_to: None,
    }
}

fn texts_to(model: &Model, chat: i64) -> Vec<String> {
    model
        .sent()
        .iter()
        .filter(|call| call.chat() == chat)
        .map(|call| call.text().to_owned())
        .collect()
}

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
    let (api, _) = server.stop().await;
    api.with(|model| {
        let hears = json!(["message", "edited_message", "callback_query", "my_chat_member"]);
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
    let (api, store) = server.stop().await;
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
    let (api, _) = server.stop().await;
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
    let (api, _) = server.stop().await;
    api.with(|model| {
        let text = "Noted";
        let expected = ["77", "78"].map(|id| json!({"callback_query_id": id, "text": text}));
        assert_eq!(model.acknowledged, expected);
    });
}

#[tokio::test]
async fn an_api_that_is_down_at_the_start_is_waited_for() {
    let api = StandIn::down().await;
    api.with(|model| {
        model.me_faults.extend([Fault::BadGateway, Fault::Html]);
        model
            .poll_faults
            .extend([Fault::BadGateway, Fault::Drop, Fault::TooFast(1)]);
        model.text(530, 530, "hello");
    });
    let (url, _guard) = database::fresh_url().await;
    let mut process = Process::serve(&api, &url);
    process.says("waiting until it does").await;
    api.come_up().await;
    api.until("the first is answered", |model| texts_to(model, 530).len() == 1)
        .await;
    let log = process.log();
    assert_eq!(log.matches("waiting until it does").count(), 1, "{log}");
    process.terminate().await;
    assert!(process.ends(Duration::from_secs(5)).await.success());
}

#[tokio::test]
async fn another_poller_is_left_the_floor() {
    let api = StandIn::start().await;
    let conflict = "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running";
    api.with(|model| {
        model.poll_faults.push_back(Fault::Refuse(409, conflict));
        model.text(531, 531, "hello");
    });
    let server = Server::start_against(api).await;
    server.api.until("it polls again", |model| model.polls.len() >= 2).await;
    server
        .api
        .until("it is answered", |model| texts_to(model, 531).len() == 1)
        .await;
    server.stop().await;
}

#[tokio::test]
async fn of_two_copies_one_polls_and_the_other_takes_over() {
    let server = Server::start().await;
    server
        .api
        .until("the first polls", |model| !model.polls.is_empty())
        .await;
    let (stop, running) = run(&server.api, &server.url, "two").await;
    // Both send, so a message goes out once all the same.
    server.queue("tg:532", &["once"]).await;
    server.api.until("it is there", |model| model.sent().len() == 1).await;
    server
        .api
        .with(|model| assert_eq!(model.polls.len(), 1, "the second stands by"));
    let api = server.api.clone();
    let Server {
        stop: stop_first,
        running: first,
        _guard,
        ..
    } = server;
    stop_first.unwrap().send(()).unwrap();
    first.await.unwrap().unwrap();
    let update = api.with(|model| model.text(533, 533, "hello"));
    api.until("the second hears", |model| model.confirmed == update + 1)
        .await;
    api.until("the second answers", |model| texts_to(model, 533).len() == 1)
        .await;
    stop.send(()).unwrap();
    running.await.unwrap().unwrap();
    api.with(|model| assert_eq!(texts_to(model, 532), ["once"]));
}

#[tokio::test]
async fn a_delivery_under_way_at_the_stop_is_written_down() {
    let server = Server::start().await;
    server.api.with(|model| {
        model.hold = true;
        model.send_faults.push_back(Fault::Hold);
    });
    server.queue("tg:534", &["once"]).await;
    server
        .api
        .until("it is under way", |model| model.calls.len() == 1)
        .await;
    let api = server.api.clone();
    let Server {
        stop,
        running,
        store,
        _guard,
        ..
    } = server;
    stop.unwrap().send(()).unwrap();
    api.with(|model| model.hold = false);
    running.await.unwrap().unwrap();
    let mut tx = store.begin().await.unwrap();
    assert_eq!(sends::waiting(&mut tx).await.unwrap(), 0);
}

#[tokio::test]
async fn sigterm_ends_it_well_and_no_log_line_has_the_token_or_a_text() {
    let api = StandIn::start().await;
    let (url, _guard) = database::fresh_url().await;
    api.with(|model| {
        model.poll_faults.extend([Fault::Drop, Fault::BadGateway, Fault::Html]);
        model.send_faults.extend([Fault::Drop, Fault::LoseAnswer]);
        model.text(535, 535, "a text to keep quiet about");
    });
    let mut process = Process::serve(&api, &url);
    api.until("it is answered", |model| texts_to(model, 535).len() == 2)
        .await;
    api.until("it polls", |model| model.updates.is_empty()).await;
    process.terminate().await;
    assert_eq!(process.ends(Duration::from_secs(5)).await.code(), Some(0));
    let log = process.log();
    assert!(log.contains("Stopped"), "{log}");
    for secret in [TOKEN, "stand-in-secret", "keep quiet", "Ada"] {
        assert!(!log.contains(secret), "{secret} in\n{log}");
    }
    let store = Store::open(&url).await.unwrap();
    let mut tx = store.begin().await.unwrap();
    let held: i64 = sqlx::query_scalar("select count(*) from leases")
        .fetch_one(&mut *tx)
        .await
        .unwrap();
    assert_eq!(held, 0, "a successor need not wait");
}

#[tokio::test]
async fn without_a_token_two_lines_say_what_to_do() {
    let mut command = bare();
    command.arg("serve");
    let mut process = Process::spawn(command);
    assert_eq!(process.ends(Duration::from_secs(5)).await.code(), Some(2));
    let log = process.log();
    assert_eq!(log.lines().count(), 2, "{log}");
    assert!(log.contains("@BotFather") && log.contains("TAPSIDE_TOKEN"), "{log}");
}

#[tokio::test]
async fn a_wrong_token_is_told_in_plain_words() {
    let api = StandIn::start().await;
    let (url, _guard) = database::fresh_url().await;
    let mut command = bare();
    command
        .args(["serve", "--api-url", &api.api_url()])
        .env("DATABASE_URL", &url)
        .env("TAPSIDE_TOKEN", "1:not-it-at-all");
    let mut process = Process::spawn(command);
    assert_eq!(process.ends(Duration::from_secs(5)).await.code(), Some(2));
    let log = process.log();
    assert!(
        log.contains("does not know this token") && !log.contains("not-it-at-all"),
        "{log}"
    );
}
