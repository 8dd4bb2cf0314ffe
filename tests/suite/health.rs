//! What the host's monitoring is told.

use std::net::SocketAddr;

use tokio::net::TcpListener;

use super::api_stand_in::StandIn;
use super::served::{Server, texts_to};

async fn free_address() -> SocketAddr {
    TcpListener::bind("127.0.0.1:0").await.unwrap().local_addr().unwrap()
}

async fn ask(address: SocketAddr, path: &str) -> (u16, String, String) {
    let answer = reqwest::get(format!("http://{address}{path}")).await.unwrap();
    let kind = answer.headers().get("content-type");
    let kind = kind.map_or_else(String::new, |kind| kind.to_str().unwrap().to_owned());
    (answer.status().as_u16(), kind, answer.text().await.unwrap())
}

#[tokio::test]
async fn health_is_a_word_and_the_numbers_name_nobody() {
    let address = free_address().await;
    let server = Server::start_with(StandIn::start().await, |settings| settings.listen = Some(address)).await;
    server
        .api
        .with(|model| model.text(701, 701, "a text to keep quiet about"));
    server
        .api
        .until("it is answered", |model| texts_to(model, 701).len() == 1)
        .await;
    let settled = async {
        while server
            .count("select count(*) from sends where finished_at is null")
            .await
            > 0
        {}
    };
    settled.await;
    assert_eq!(ask(address, "/healthz").await.0, 200);
    let (code, kind, numbers) = ask(address, "/metrics").await;
    assert_eq!(
        (code, kind.as_str()),
        (200, "application/openmetrics-text; version=1.0.0; charset=utf-8")
    );
    for line in [
        "tapside_heard_total 1",
        "tapside_sends_waiting 0",
        "tapside_database_up 1",
    ] {
        assert!(numbers.lines().any(|told| told == line), "{line} in\n{numbers}");
    }
    for private in ["Ada", "701", "keep quiet"] {
        assert!(!numbers.contains(private), "{private} in\n{numbers}");
    }
    assert_eq!(ask(address, "/").await.0, 404);
    server.stop().await;
}

#[tokio::test]
async fn a_database_that_does_not_answer_is_told_in_a_plain_word() {
    let address = free_address().await;
    let server = Server::start_with(StandIn::start().await, |settings| settings.listen = Some(address)).await;
    server.api.until("it polls", |model| !model.polls.is_empty()).await;
    server.execute(&["alter table dead rename to dead_away"]).await;
    let (code, _, word) = ask(address, "/healthz").await;
    assert_eq!((code, word.as_str()), (503, "the database does not answer\n"));
    let (_, _, numbers) = ask(address, "/metrics").await;
    assert!(numbers.contains("tapside_database_up 0"), "{numbers}");
    server.execute(&["alter table dead_away rename to dead"]).await;
    assert_eq!(ask(address, "/healthz").await.0, 200);
    server.stop().await;
}

#[tokio::test]
async fn an_address_that_is_taken_is_told_at_the_start() {
    let taken = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = taken.local_addr().unwrap();
    let mut server = Server::start_with(StandIn::start().await, |settings| settings.listen = Some(address)).await;
    let trouble = (&mut server.running).await.unwrap().unwrap_err();
    assert!(trouble.to_string().contains("TAPSIDE_LISTEN"), "{trouble:#}");
}
