//! Telegram calls the bot: who may, and when it is told that all is well.

use std::net::SocketAddr;

use serde_json::{Value, json};
use tokio::net::TcpListener;

use super::api_stand_in::StandIn;
use super::served::{Server, texts_to};

const SECRET: &str = "a-secret-of-this-test_42";

async fn called() -> (Server, SocketAddr) {
    let free = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = free.local_addr().unwrap();
    drop(free);
    let server = Server::start_with(StandIn::start().await, |settings| {
        settings.listen = Some(address);
        settings.webhook_url = Some("https://bot.example.org/hook/here".parse().unwrap());
        settings.webhook_secret = Some(SECRET.to_owned().into());
    })
    .await;
    server.api.until("it is told", |model| model.webhook.is_some()).await;
    (server, address)
}

async fn call(address: SocketAddr, secret: Option<&str>, body: String) -> u16 {
    let mut call = reqwest::Client::new()
        .post(format!("http://{address}/hook/here"))
        .body(body);
    if let Some(secret) = secret {
        call = call.header("X-Telegram-Bot-Api-Secret-Token", secret);
    }
    call.send().await.unwrap().status().as_u16()
}

fn text(id: i64, text: &str) -> String {
    json!({"update_id": id, "message": {"message_id": id, "date": 1_772_000_000, "text": text,
        "chat": {"id": 720, "type": "private"}, "from": {"id": 720, "first_name": "Ada"}}})
    .to_string()
}

#[tokio::test]
async fn a_call_is_answered_once_it_is_committed() {
    let (server, address) = called().await;
    server.api.with(|model| {
        let told = model.webhook.as_ref().unwrap();
        assert_eq!(told["url"], "https://bot.example.org/hook/here");
        assert_eq!(told["secret_token"], SECRET);
        let hears = told["allowed_updates"].as_array().unwrap();
        assert!(hears.contains(&json!("message_reaction")));
    });
    assert_eq!(call(address, Some(SECRET), text(1, "hello")).await, 200);
    server
        .api
        .until("it is answered", |model| texts_to(model, 720).len() == 1)
        .await;
    // What cannot be committed must come again; what cannot be read must not.
    server.execute(&["alter table dead rename to dead_away"]).await;
    assert_eq!(call(address, Some(SECRET), "no JSON at all".to_owned()).await, 503);
    server.execute(&["alter table dead_away rename to dead"]).await;
    for odd in ["no JSON at all", r#"{"update_id":3,"message":{"odd":1}}"#] {
        assert_eq!(call(address, Some(SECRET), odd.to_owned()).await, 200, "{odd}");
    }
    assert_eq!(server.count("select count(*) from dead").await, 2);
    server
        .api
        .with(|model| assert!(model.polls.is_empty(), "it is not asked as well"));
    server.stop().await;
}

#[tokio::test]
async fn without_the_secret_nothing_is_written() {
    let (server, address) = called().await;
    for secret in [
        None,
        Some(""),
        Some("a-secret-of-this-test_43"),
        Some(&SECRET[..SECRET.len() - 1]),
    ] {
        for body in [text(5, "hello"), "no JSON".to_owned()] {
            assert_eq!(call(address, secret, body).await, 401, "{secret:?}");
        }
    }
    for table in [
        "select count(*) from dead",
        "select count(*) from sends",
        "select count(*) from heard",
    ] {
        assert_eq!(server.count(table).await, 0, "{table}");
    }
    server.stop().await;
}

#[tokio::test]
async fn whoever_polls_again_says_so() {
    let server = Server::start().await;
    server.api.until("it polls", |model| !model.polls.is_empty()).await;
    server.api.with(|model| assert_eq!(model.webhook, Some(Value::Null)));
    server.stop().await;
}

#[tokio::test]
async fn half_a_setting_is_told_in_plain_words() {
    type Change = fn(&mut tapside::config::Settings);
    let rows: [(Change, &str); 6] = [
        (
            |settings| settings.webhook_url = "http://bot.example.org/".parse().ok(),
            "https://",
        ),
        // The router would take these for patterns, or has them already, and end the program behind the registration.
        (
            |settings| settings.webhook_url = "https://bot.example.org/:x".parse().ok(),
            "path",
        ),
        (
            |settings| settings.webhook_url = "https://bot.example.org/{x}".parse().ok(),
            "path",
        ),
        (
            |settings| settings.webhook_url = "https://bot.example.org/healthz".parse().ok(),
            "path",
        ),
        (|settings| settings.listen = None, "TAPSIDE_LISTEN"),
        (
            |settings| settings.webhook_secret = Some("short".to_owned().into()),
            "TAPSIDE_WEBHOOK_SECRET",
        ),
    ];
    let api = StandIn::start().await;
    for (change, hint) in rows {
        let mut settings = super::served::settings(&api, "sqlite:none", "one");
        settings.listen = "127.0.0.1:1".parse().ok();
        settings.webhook_url = "https://bot.example.org/".parse().ok();
        settings.webhook_secret = Some(SECRET.to_owned().into());
        assert!(tapside::serve::webhook_of(&settings).is_ok());
        change(&mut settings);
        let told = tapside::serve::webhook_of(&settings).unwrap_err();
        assert!(told.contains(hint), "{told}");
    }
}
