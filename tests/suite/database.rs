//! A fresh database for each test: a SQLite file of its own, or, where
//! TAPSIDE_TEST_DATABASE gives the address of a PostgreSQL server, a database
//! of its own there.

use std::sync::atomic::{AtomicU32, Ordering};

use sqlx::{AnyConnection, AssertSqlSafe, Connection};

/// Keeps the database for as long as the test runs. A SQLite file goes with
/// it; on PostgreSQL the whole server is thrown away after the suite.
pub struct Guard {
    _folder: Option<tempfile::TempDir>,
}

static COUNT: AtomicU32 = AtomicU32::new(0);

/// The address of an empty database.
pub async fn fresh_url() -> (String, Guard) {
    let Ok(server) = std::env::var("TAPSIDE_TEST_DATABASE") else {
        let folder = tempfile::tempdir().unwrap();
        let url = format!("sqlite:{}", folder.path().join("tapside.sqlite").display());
        return (url, Guard { _folder: Some(folder) });
    };
    let name = format!("t_{}_{}", std::process::id(), COUNT.fetch_add(1, Ordering::Relaxed));
    sqlx::any::install_default_drivers();
    let mut db = AnyConnection::connect(&server).await.unwrap();
    sqlx::raw_sql(AssertSqlSafe(format!("create database {name} template template0")))
        .execute(&mut db)
        .await
        .unwrap();
    db.close().await.unwrap();
    (with_name(&server, &name), Guard { _folder: None })
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
