//! Starting without an API, standing by, stopping.

use std::time::Duration;

use tapside::store::Store;

use super::api_stand_in::{Fault, StandIn, TOKEN};
use super::database::{self};
use super::process::{Process, bare};

use super::served::{Server, run, texts_to};

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
    let mut server = Server::start().await;
    server.api.with(|model| {
        model.hold = true;
        model.send_faults.push_back(Fault::Hold);
    });
    server.queue("tg:534", &["once"]).await;
    server
        .api
        .until("it is under way", |model| {
            model.calls.len() == 1 && !model.polls.is_empty()
        })
        .await;
    server.stop.take().unwrap().send(()).unwrap();
    // The receiving loop has ended once its right to receive is given back.
    let told = async { while server.count("select count(*) from leases").await > 0 {} };
    tokio::time::timeout(Duration::from_secs(2), told).await.unwrap();
    server.api.with(|model| model.hold = false);
    (&mut server.running).await.unwrap().unwrap();
    assert_eq!(
        server
            .count("select count(*) from sends where finished_at is null")
            .await,
        0
    );
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
