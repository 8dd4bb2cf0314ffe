//! The file of a SQLite database before it is used: made for its owner alone, looked at once so that what is wrong with
//! it is said with its path, and locked by the one process that serves it.

use std::fs::{File, OpenOptions, TryLockError};
use std::os::unix::fs::OpenOptionsExt;
use std::path::{Path, PathBuf};
use std::time::Duration;

use sqlx::{AnyConnection, Connection, Executor};

use super::StoreError;
use super::backup::file_of;

/// Another process may be making the same file ready: so often it is tried again, and so long is between two tries.
const TRIES: u32 = 60;
const BETWEEN: Duration = Duration::from_millis(50);

/// Makes the file if `make` says so and it is not there. What is written beside it gets the same rights.
///
/// # Errors
/// [`StoreError::File`] if it is not there, or cannot be made.
pub fn prepare(url: &str, make: bool) -> Result<(), StoreError> {
    let Some(path) = file_of(url).filter(|path| !path.exists()) else {
        return Ok(());
    };
    if !make {
        return Err(wrong(&path, "there is no such file", "check DATABASE_URL"));
    }
    match OpenOptions::new().write(true).create_new(true).mode(0o600).open(&path) {
        Ok(_) => Ok(()),
        Err(why) if why.kind() == std::io::ErrorKind::AlreadyExists => Ok(()),
        Err(why) => Err(wrong(&path, &why.to_string(), "its folder must be there, and writable")),
    }
}

/// Opens the file once by itself: a pool would try a bad file again and again, and say only that it took too long.
///
/// # Errors
/// [`StoreError::File`] with what is wrong.
pub async fn look_at(url: &str, options: &str) -> Result<(), StoreError> {
    let Some(path) = file_of(url) else { return Ok(()) };
    for _ in 0..TRIES {
        let Err(why) = try_out(options).await else {
            return Ok(());
        };
        let code = match &why {
            sqlx::Error::Database(said) => said
                .code()
                .and_then(|code| code.parse::<i64>().ok())
                .unwrap_or_default(),
            _ => 0,
        };
        // Somebody else is at it: what uses the file waits in its own way.
        if matches!(code & 0xff, 5 | 6) {
            tokio::time::sleep(BETWEEN).await;
            continue;
        }
        return Err(match code & 0xff {
            8 => wrong(
                &path,
                "it can only be read",
                "let the user who runs this write it and its folder",
            ),
            11 => wrong(&path, "it is damaged", "put a backup back with: tapside restore"),
            14 => wrong(
                &path,
                "it cannot be opened",
                "let the user who runs this write it and its folder",
            ),
            26 => wrong(&path, "it is no SQLite database", "check DATABASE_URL"),
            _ => wrong(&path, &why.to_string(), "check DATABASE_URL"),
        });
    }
    Ok(())
}

async fn try_out(url: &str) -> Result<(), sqlx::Error> {
    let mut db = AnyConnection::connect(url).await?;
    db.execute("pragma journal_mode = wal").await?;
    // Reads the first page, and says whether the file can be written.
    let tables: Vec<String> = sqlx::query_scalar("select name from sqlite_master where type = 'table'")
        .fetch_all(&mut db)
        .await?;
    if !tables.is_empty() && !tables.iter().any(|name| name == "_sqlx_migrations") {
        return Err(sqlx::Error::Configuration("its tables are another program's".into()));
    }
    db.execute("begin immediate").await?;
    db.execute("rollback").await?;
    db.close().await
}

fn wrong(path: &Path, why: &str, remedy: &str) -> StoreError {
    StoreError::File {
        path: path.display().to_string(),
        why: why.to_owned(),
        remedy: remedy.to_owned(),
    }
}

/// Takes the right to serve this file; it ends with the process, however that ends. None for PostgreSQL, whose copies
/// share it.
///
/// # Errors
/// [`StoreError::File`] while another process serves it.
pub fn serve_alone(url: &str) -> Result<Option<File>, StoreError> {
    let Some(path) = file_of(url) else { return Ok(None) };
    // Not the file itself: to close it a second time would let go of SQLite's own locks.
    let mut name = path.clone().into_os_string();
    name.push("-served");
    let beside = PathBuf::from(name);
    let lock = OpenOptions::new()
        .write(true)
        .create(true)
        .truncate(false)
        .mode(0o600)
        .open(&beside);
    let lock = lock.map_err(|why| wrong(&beside, &why.to_string(), "its folder must be there, and writable"))?;
    match lock.try_lock() {
        Ok(()) => Ok(Some(lock)),
        Err(TryLockError::WouldBlock) => Err(wrong(
            &path,
            "another `tapside serve` runs on it",
            "stop that one first, or use PostgreSQL for several",
        )),
        Err(TryLockError::Error(why)) => Err(wrong(&beside, &why.to_string(), "see what the system says")),
    }
}
