//! All SQL, one text for SQLite and PostgreSQL.
//!
//! Portable by habit: `bigint`, `double precision` and `text` only; instants
//! are UTC seconds in `..._at`; a flag is a nullable `..._at`; parameters are
//! `$1`; no `now()` in SQL, save in leases and pauses ([`clock`]). Where the two databases must differ, the variants
//! stand side by side on [`Kind`].

pub mod backup;
pub mod blobs;
pub mod cautions;
pub mod changes;
pub mod chats;
pub mod clearing;
pub mod clock;
pub mod closing;
pub mod dead;
pub mod digests;
pub mod forgetting;
pub mod heard;
pub mod imports;
pub mod invites;
pub mod keeping;
pub mod leases;
pub mod menus;
pub mod notes;
pub mod nudges;
pub mod outfit_rows;
pub mod outfits;
pub mod pace;
pub mod people;
pub mod questions;
pub mod readings;
pub mod rigs;
pub mod rows;
pub mod send_leases;
pub mod sends;
pub mod services;
pub mod set_ups;
pub mod settings;
pub mod slots;
pub mod sqlite_file;
pub mod states;
pub mod tails;
pub mod tallies;
pub mod trouble;
pub mod versions;
pub mod week;
mod write_transaction;

use std::sync::Arc;
use std::time::Duration;

use sqlx::any::AnyPoolOptions;
use sqlx::migrate::Migrator;
use sqlx::pool::PoolConnection;
use sqlx::{Any, AnyConnection, AnyPool, Connection, Executor, Transaction};
use tokio::sync::Mutex;

pub use trouble::StoreError;
pub use write_transaction::WriteTransaction;

/// What every statement runs on: a connection inside a transaction.
pub type Db = AnyConnection;

static SQLITE_MIGRATIONS: Migrator = sqlx::migrate!("migrations/sqlite");
static POSTGRES_MIGRATIONS: Migrator = sqlx::migrate!("migrations/postgres");

/// Which database is behind the store.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// The embedded default: one file, one writer at a time.
    Sqlite,
    /// For many outfits on one host, or replicas.
    Postgres,
}

/// An open database.
#[derive(Clone)]
pub struct Store {
    pool: AnyPool,
    kind: Kind,
    /// Whose turn it is to write, on SQLite.
    turn: Arc<Mutex<()>>,
}

impl Store {
    /// Opens the database at `url` (`sqlite:FILE` or `postgres://...`). A
    /// SQLite file that is not there yet is made.
    ///
    /// # Errors
    /// [`StoreError::Address`] for another kind of address, otherwise whatever
    /// the database says.
    pub async fn open(url: &str) -> Result<Self, StoreError> {
        Self::open_or_make(url, true).await
    }

    /// Opens a database that must be there already.
    ///
    /// # Errors
    /// As [`Self::open`]; [`StoreError::File`] where no SQLite file is.
    pub async fn open_existing(url: &str) -> Result<Self, StoreError> {
        Self::open_or_make(url, false).await
    }

    async fn open_or_make(url: &str, make: bool) -> Result<Self, StoreError> {
        sqlx::any::install_default_drivers();
        let (kind, options) = address(url)?;
        sqlite_file::prepare(url, make)?;
        sqlite_file::look_at(url, &options).await?;
        let url = options;
        let connections = match kind {
            Kind::Sqlite => 4,
            Kind::Postgres => 8,
        };
        let pool = AnyPoolOptions::new()
            .max_connections(connections)
            .acquire_timeout(Duration::from_secs(20))
            // A transaction that could not be rolled back, as on a full disk, leaves its connection of no use.
            .before_acquire(|db, _| Box::pin(async move { Ok(!db.is_in_transaction()) }))
            .after_connect(move |db, _| {
                Box::pin(async move {
                    if kind == Kind::Sqlite {
                        // FULL: a confirmed reading survives a power cut.
                        db.execute("pragma journal_mode = wal").await?;
                        db.execute("pragma synchronous = full").await?;
                        db.execute("pragma foreign_keys = on").await?;
                        db.execute("pragma busy_timeout = 10000").await?;
                        // Fewer checkpoints, and pages that stay in memory: a fifth more readings a second.
                        db.execute("pragma wal_autocheckpoint = 8000").await?;
                        db.execute("pragma cache_size = -8000").await?;
                        db.execute("pragma temp_store = memory").await?;
                    }
                    Ok(())
                })
            })
            .connect(&url)
            .await?;
        Ok(Self {
            pool,
            kind,
            turn: Arc::default(),
        })
    }

    /// Which database this is.
    pub fn kind(&self) -> Kind {
        self.kind
    }

    /// Brings the tables up to date; returns how many migrations there are.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn migrate(&self) -> Result<usize, StoreError> {
        let migrations = self.migrations();
        match self.kind {
            // One process after the other: SQLite has no lock of the kind that is taken for this on PostgreSQL.
            Kind::Sqlite => {
                let mut tx = self.begin().await?;
                migrations.run(&mut *tx).await?;
                tx.commit().await?;
            }
            Kind::Postgres => migrations.run(&self.pool).await?,
        }
        Ok(migrations.iter().count())
    }

    /// How many migrations this database still lacks.
    ///
    /// # Errors
    /// Whatever the database says, unless it is that nothing was ever migrated.
    pub async fn migrations_missing(&self) -> Result<usize, StoreError> {
        let mut db = self.pool.acquire().await?;
        let known = self.migrations().iter().count();
        let done: Result<i64, _> = sqlx::query_scalar("select count(*) from _sqlx_migrations where success")
            .fetch_one(&mut *db)
            .await;
        match done {
            Ok(done) => Ok(known.saturating_sub(done as usize)),
            Err(sqlx::Error::Database(_)) => Ok(known),
            Err(other) => Err(other.into()),
        }
    }

    fn migrations(&self) -> &'static Migrator {
        match self.kind {
            Kind::Sqlite => &SQLITE_MIGRATIONS,
            Kind::Postgres => &POSTGRES_MIGRATIONS,
        }
    }

    /// Begins a transaction that may write.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn begin(&self) -> Result<WriteTransaction, StoreError> {
        // A deferred SQLite transaction that reads first and then writes fails
        // at once with "locked", in spite of the busy timeout.
        let (begin, turn) = match self.kind {
            Kind::Sqlite => ("begin immediate", Some(self.turn.clone().lock_owned().await)),
            Kind::Postgres => ("begin", None),
        };
        Ok(WriteTransaction::new(self.pool.begin_with(begin).await?, turn))
    }

    /// Begins a transaction that only reads. It sees one state of things and, on
    /// SQLite, waits for no writer.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn look(&self) -> Result<Transaction<'static, Any>, StoreError> {
        Ok(self.pool.begin().await?)
    }

    /// A connection for reading alone, outside any transaction: it waits for
    /// no writer.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn read(&self) -> Result<PoolConnection<Any>, StoreError> {
        Ok(self.pool.acquire().await?)
    }

    /// Closes all connections.
    pub async fn close(&self) {
        self.pool.close().await;
    }
}

fn address(url: &str) -> Result<(Kind, String), StoreError> {
    if url.starts_with("postgres://") || url.starts_with("postgresql://") {
        return Ok((Kind::Postgres, url.to_owned()));
    }
    let Some(file) = url.strip_prefix("sqlite:") else {
        return Err(StoreError::Address(
            url.split(':').next().unwrap_or_default().to_owned(),
        ));
    };
    let make = if file.contains('?') { "" } else { "?mode=rwc" };
    Ok((Kind::Sqlite, format!("sqlite:{file}{make}")))
}
