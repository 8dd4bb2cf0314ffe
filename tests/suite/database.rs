//! A fresh database for each test: a SQLite file of its own, or, where
//! TAPSIDE_TEST_DATABASE gives the address of a PostgreSQL server, a database
//! of its own there.

use std::sync::atomic::{AtomicU32, Ordering};

use sqlx::{AnyConnection, AssertSqlSafe, Connection};

/// Keeps the database for as long as the test runs.
pub struct Guard {
    _folder: Option<tempfile::TempDir>,
    /// The PostgreSQL server and the database there.
    on_server: Option<(String, String)>,
}

impl Drop for Guard {
    /// All databases of a suite together are 5 GB, more than some disks have.
    fn drop(&mut self) {
        let Some((server, name)) = self.on_server.take() else {
            return;
        };
        // A runtime may not block within another one: hence the thread.
        let dropped = std::thread::spawn(move || {
            let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
            runtime.block_on(async {
                let mut db = AnyConnection::connect(&server).await.map_err(std::io::Error::other)?;
                // Forced: what a test left running may still hold connections.
                let drop = AssertSqlSafe(format!("drop database {name} with (force)"));
                sqlx::raw_sql(drop)
                    .execute(&mut db)
                    .await
                    .map_err(std::io::Error::other)
            })
        });
        if !std::thread::panicking() {
            dropped.join().unwrap().unwrap();
        }
    }
}

static COUNT: AtomicU32 = AtomicU32::new(0);

/// The address of an empty database.
pub async fn fresh_url() -> (String, Guard) {
    let Ok(server) = std::env::var("TAPSIDE_TEST_DATABASE") else {
        let folder = tempfile::tempdir().unwrap();
        let url = format!("sqlite:{}", folder.path().join("tapside.sqlite").display());
        let guard = Guard {
            _folder: Some(folder),
            on_server: None,
        };
        return (url, guard);
    };
    let name = format!("t_{}_{}", std::process::id(), COUNT.fetch_add(1, Ordering::Relaxed));
    sqlx::any::install_default_drivers();
    let mut db = AnyConnection::connect(&server).await.unwrap();
    sqlx::raw_sql(AssertSqlSafe(format!("create database {name} template template0")))
        .execute(&mut db)
        .await
        .unwrap();
    db.close().await.unwrap();
    let url = with_name(&server, &name);
    let guard = Guard {
        _folder: None,
        on_server: Some((server, name)),
    };
    (url, guard)
}

fn with_name(server: &str, name: &str) -> String {
    let (address, options) = server
        .split_once('?')
        .map_or((server, ""), |(address, options)| (address, options));
    let (host, _) = address.rsplit_once('/').unwrap();
    if options.is_empty() {
        format!("{host}/{name}")
    } else {
        format!("{host}/{name}?{options}")
    }
}

#[test]
fn only_the_name_of_the_database_changes() {
    assert_eq!(
        with_name("postgres:///postgres?host=/run/db&user=ada", "t_1"),
        "postgres:///t_1?host=/run/db&user=ada"
    );
    assert_eq!(
        with_name("postgres://ada@db:5432/postgres", "t_1"),
        "postgres://ada@db:5432/t_1"
    );
}
