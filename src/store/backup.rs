//! SQLite files as a whole: copied while they are in use, examined, and put to
//! rest. PostgreSQL has programs of its own for this.

use std::path::{Path, PathBuf};

use sqlx::{AnyConnection, Connection};

use super::tallies::{self, Tallies};
use super::{SQLITE_MIGRATIONS, StoreError};

/// The file that an address of SQLite names; none for PostgreSQL or memory.
pub fn file_of(url: &str) -> Option<PathBuf> {
    let file = url.strip_prefix("sqlite:")?;
    let file = file.strip_prefix("//").unwrap_or(file);
    let file = file.split('?').next().unwrap_or(file);
    (!file.is_empty() && file != ":memory:").then(|| PathBuf::from(file))
}

/// The two files that SQLite keeps beside a file in use.
pub fn side_files(file: &Path) -> [PathBuf; 2] {
    ["-wal", "-shm"].map(|ending| {
        let mut name = file.as_os_str().to_owned();
        name.push(ending);
        PathBuf::from(name)
    })
}

/// Copies everything committed so far into `copy`, which must be empty or not
/// there. Readings may come in meanwhile.
///
/// # Errors
/// Whatever the database says.
pub async fn copy(file: &Path, copy: &Path) -> Result<(), StoreError> {
    let mut db = connect(file, "ro").await?;
    sqlx::query("vacuum into $1")
        .bind(copy.to_string_lossy().into_owned())
        .execute(&mut db)
        .await?;
    db.close().await?;
    Ok(())
}

/// What a file turned out to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Finding {
    /// A sound database of this release, or of an earlier one; what is in it.
    Sound(Tallies),
    /// Not a database of Tapside's.
    Foreign,
    /// Damaged; what SQLite says of it.
    Damaged(String),
    /// A later release has worked on it, which this one does not understand.
    FromLater,
}

/// Examines a file without changing it.
///
/// # Errors
/// When the file cannot be opened.
pub async fn examine(file: &Path) -> Result<Finding, StoreError> {
    let mut db = connect(file, "ro").await?;
    let finding = look_into(&mut db).await;
    db.close().await?;
    finding
}

async fn look_into(db: &mut AnyConnection) -> Result<Finding, StoreError> {
    let said: Result<String, _> = sqlx::query_scalar("pragma integrity_check(1)")
        .fetch_one(&mut *db)
        .await;
    match said {
        Ok(said) if said == "ok" => {}
        Ok(said) => return Ok(Finding::Damaged(said)),
        // Too damaged to be looked into, or no database at all.
        Err(sqlx::Error::Database(why)) => return Ok(Finding::Damaged(why.message().to_owned())),
        Err(other) => return Err(other.into()),
    }
    let versions: Result<Vec<i64>, _> = sqlx::query_scalar("select version from _sqlx_migrations where success")
        .fetch_all(&mut *db)
        .await;
    let (Ok(versions), Ok(tallies)) = (versions, tallies::count(db).await) else {
        return Ok(Finding::Foreign);
    };
    let known = |version: &i64| SQLITE_MIGRATIONS.version_exists(*version);
    Ok(if versions.iter().all(known) {
        Finding::Sound(tallies)
    } else {
        Finding::FromLater
    })
}

/// Whether anybody has a file open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rest {
    /// Nobody; everything is in the one file now.
    AtRest,
    /// Somebody.
    InUse,
    /// It is too damaged to tell.
    Unknown,
}

/// Folds a file's side files into it, which works only while nobody else has
/// it open. (Leaving the write-ahead mode takes SQLite's exclusive lock.)
///
/// # Errors
/// When the file cannot be opened for another reason than damage.
pub async fn put_to_rest(file: &Path) -> Result<Rest, StoreError> {
    let mut db = match connect(file, "rw").await {
        Ok(db) => db,
        Err(StoreError::Database(sqlx::Error::Database(why))) => return Ok(rest_after(&*why)),
        Err(other) => return Err(other),
    };
    for pragma in ["pragma busy_timeout = 500", "pragma journal_mode = delete"] {
        match sqlx::query(pragma).fetch_all(&mut db).await {
            Ok(_) => {}
            Err(sqlx::Error::Database(why)) => return Ok(rest_after(&*why)),
            Err(other) => return Err(other.into()),
        }
    }
    db.close().await?;
    Ok(Rest::AtRest)
}

/// SQLITE_BUSY (5) and SQLITE_LOCKED (6), or anything else.
fn rest_after(why: &dyn sqlx::error::DatabaseError) -> Rest {
    let code = why.code().and_then(|code| code.parse::<i64>().ok());
    match code.map(|code| code & 0xff) {
        Some(5 | 6) => Rest::InUse,
        _ => Rest::Unknown,
    }
}

async fn connect(file: &Path, mode: &str) -> Result<AnyConnection, StoreError> {
    sqlx::any::install_default_drivers();
    // In an address, these three characters mean something else.
    let path = file.to_string_lossy();
    let path = path.replace('%', "%25").replace('?', "%3f").replace('#', "%23");
    Ok(AnyConnection::connect(&format!("sqlite:{path}?mode={mode}")).await?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_names_its_file() {
        for (url, file) in [
            ("sqlite:tapside.sqlite", Some("tapside.sqlite")),
            (
                "sqlite:///var/lib/tapside.sqlite?mode=rw",
                Some("/var/lib/tapside.sqlite"),
            ),
            ("sqlite::memory:", None),
            ("postgres://ada@db/tapside", None),
        ] {
            assert_eq!(file_of(url), file.map(PathBuf::from), "{url}");
        }
    }
}
