//! Faults of the database's file: what is wrong is said at once with its path, what passes by is survived.

use std::os::unix::fs::PermissionsExt;
use std::path::PathBuf;

use tapside::store::{Kind, Store, sqlite_file};

use crate::database::fresh_url;

fn file_in(folder: &tempfile::TempDir, name: &str) -> (PathBuf, String) {
    let path = folder.path().join(name);
    let url = format!("sqlite:{}", path.display());
    (path, url)
}

/// SQLite's own limit of pages stands in for the disk: past it a statement ends with SQLITE_FULL, and the transaction is
/// rolled back already.
#[tokio::test]
async fn a_full_disk_is_survived_without_a_restart() {
    let (url, _guard) = fresh_url().await;
    let store = Store::open(&url).await.unwrap();
    store.migrate().await.unwrap();
    if store.kind() != Kind::Sqlite {
        return;
    }
    for _ in 0..6 {
        let mut tx = store.begin().await.unwrap();
        let pages: i64 = sqlx::query_scalar("pragma page_count")
            .fetch_one(&mut *tx)
            .await
            .unwrap();
        sqlx::query(sqlx::AssertSqlSafe(format!("pragma max_page_count = {}", pages + 2)))
            .execute(&mut *tx)
            .await
            .unwrap();
        let full = sqlx::query("insert into dead (key, payload, reason, kept_at) values ('k', $1, '', 0)")
            .bind("x".repeat(1_000_000))
            .execute(&mut *tx)
            .await
            .unwrap_err();
        assert!(full.to_string().contains("full"), "{full}");
    }
    for key in 0..20 {
        let mut tx = store.begin().await.expect("a connection that can be used");
        sqlx::query("insert into dead (key, payload, reason, kept_at) values ($1, '', '', 0)")
            .bind(format!("{key}"))
            .execute(&mut *tx)
            .await
            .unwrap();
        tx.commit().await.unwrap();
    }
}

#[tokio::test]
async fn a_file_that_cannot_be_used_is_told_at_once_with_its_path() {
    let folder = tempfile::tempdir().unwrap();
    for (name, bytes, why) in [
        (
            "text.sqlite",
            b"not a database, but words that somebody wrote".repeat(100),
            "no SQLite database",
        ),
        (
            "torn.sqlite",
            [b"SQLite format 3\0".as_slice(), &[7; 5000]].concat(),
            "torn.sqlite",
        ),
    ] {
        let (path, url) = file_in(&folder, name);
        std::fs::write(&path, &bytes).unwrap();
        let said = Store::open(&url).await.map(|_| ()).unwrap_err().to_string();
        assert!(said.contains(name) && said.contains(why), "{said}");
        assert_eq!(std::fs::read(&path).unwrap(), bytes, "it is left as it was");
    }
    let (_, url) = file_in(&folder, "no-folder/x.sqlite");
    let said = Store::open(&url).await.map(|_| ()).unwrap_err().to_string();
    assert!(said.contains("no-folder/x.sqlite"), "{said}");
    // Another program's.
    let (path, url) = file_in(&folder, "other.sqlite");
    let mut other = <sqlx::AnyConnection as sqlx::Connection>::connect(&format!("{url}?mode=rwc"))
        .await
        .unwrap();
    sqlx::query("create table songs (name text)")
        .execute(&mut other)
        .await
        .unwrap();
    sqlx::Connection::close(other).await.unwrap();
    let said = Store::open(&url).await.map(|_| ()).unwrap_err().to_string();
    assert!(
        said.contains("another program") && said.contains(&path.display().to_string()),
        "{said}"
    );
}

#[tokio::test]
async fn what_is_only_asked_makes_no_file_and_what_is_made_is_its_owners_alone() {
    let folder = tempfile::tempdir().unwrap();
    let (path, url) = file_in(&folder, "typo.sqlite");
    let said = Store::open_existing(&url).await.map(|_| ()).unwrap_err().to_string();
    assert!(said.contains("there is no such file"), "{said}");
    assert!(!path.exists());
    let store = Store::open(&url).await.unwrap();
    store.migrate().await.unwrap();
    for ending in ["", "-wal", "-shm"] {
        let file = PathBuf::from(format!("{}{ending}", path.display()));
        let mode = std::fs::metadata(&file).unwrap().permissions().mode() & 0o777;
        assert_eq!(mode, 0o600, "{}", file.display());
    }
}

#[tokio::test]
async fn a_second_process_that_serves_the_same_file_is_told_so() {
    let folder = tempfile::tempdir().unwrap();
    let (_, url) = file_in(&folder, "served.sqlite");
    let first = sqlite_file::serve_alone(&url).unwrap();
    assert!(first.is_some());
    let said = sqlite_file::serve_alone(&url).unwrap_err().to_string();
    assert!(said.contains("another `tapside serve` runs on it"), "{said}");
    drop(first);
    assert!(sqlite_file::serve_alone(&url).unwrap().is_some());
    assert!(sqlite_file::serve_alone("postgres://db/tapside").unwrap().is_none());
}

#[tokio::test]
async fn many_bring_one_empty_database_up_to_date_at_once() {
    for _ in 0..3 {
        let (url, _guard) = fresh_url().await;
        let migrate = || async {
            let store = Store::open(&url).await?;
            let migrated = store.migrate().await;
            store.close().await;
            migrated
        };
        let all = futures_util::future::join_all((0..5).map(|_| migrate())).await;
        let failed: Vec<String> = all
            .into_iter()
            .filter_map(Result::err)
            .map(|why| why.to_string())
            .collect();
        assert!(failed.is_empty(), "{failed:?}");
    }
}
