//! A database that is not there yet when the bot starts.

use std::path::PathBuf;
use std::time::Duration;

use tokio::net::{TcpListener, UnixStream};

use super::api_stand_in::StandIn;
use super::database;
use super::process::Process;

#[tokio::test]
async fn a_database_that_is_down_at_the_start_is_waited_for() {
    let api = StandIn::start().await;
    let free = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = free.local_addr().unwrap();
    drop(free);
    let (url, _guard) = database::fresh_url().await;
    let server = Server::of(&url);
    let (user, name) = server
        .as_ref()
        .map_or(("ada", "none"), |server| (&server.user, &server.name));
    let mut process = Process::serve(
        &api,
        &format!("postgres://{user}:hush@{address}/{name}?sslmode=disable"),
    );
    process.says("The database does not answer yet").await;
    if let Some(server) = server {
        server.come_up_at(TcpListener::bind(address).await.unwrap());
        process.says("The database is open").await;
        process.says("Telegram answers").await;
    }
    let log = process.log();
    assert_eq!(log.matches("does not answer yet").count(), 1, "{log}");
    assert!(!log.contains("hush"), "{log}");
    process.terminate().await;
    assert!(process.ends(Duration::from_secs(8)).await.success());
}

/// The PostgreSQL server of the suite, if it runs on one: behind a socket of
/// its own, so that it can be away for one test.
struct Server {
    socket: PathBuf,
    user: String,
    name: String,
}

impl Server {
    fn of(url: &str) -> Option<Self> {
        let (name, options) = url.strip_prefix("postgres:///")?.split_once('?')?;
        let option = |wanted: &str| options.split('&').find_map(|option| option.strip_prefix(wanted));
        Some(Self {
            socket: PathBuf::from(option("host=")?).join(".s.PGSQL.5432"),
            user: option("user=")?.to_owned(),
            name: name.to_owned(),
        })
    }

    fn come_up_at(self, listener: TcpListener) {
        tokio::spawn(async move {
            while let Ok((mut from, _)) = listener.accept().await {
                let mut to = UnixStream::connect(&self.socket).await.unwrap();
                tokio::spawn(async move { tokio::io::copy_bidirectional(&mut from, &mut to).await });
            }
        });
    }
}
