//! A transaction that may write. SQLite has one writer at a time, who is waited for here and in turn: left to the file's
//! own lock, whoever waits sleeps and looks again, and the busiest never gets it.

use std::ops::{Deref, DerefMut};

use sqlx::{Any, AnyConnection, Connection, Transaction};
use tokio::sync::OwnedMutexGuard;

use super::StoreError;

/// A transaction that may write. Dropped, it is rolled back.
pub struct WriteTransaction {
    tx: Transaction<'static, Any>,
    /// Let go behind the transaction.
    _turn: Option<OwnedMutexGuard<()>>,
}

impl WriteTransaction {
    pub(super) fn new(tx: Transaction<'static, Any>, turn: Option<OwnedMutexGuard<()>>) -> Self {
        Self { tx, _turn: turn }
    }

    /// A step of its own within the transaction.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn begin(&mut self) -> Result<Transaction<'_, Any>, StoreError> {
        Ok(Connection::begin(&mut *self.tx).await?)
    }

    /// Makes all of it count.
    ///
    /// # Errors
    /// Whatever the database says; nothing of it counts then.
    pub async fn commit(self) -> Result<(), StoreError> {
        Ok(self.tx.commit().await?)
    }

    /// Takes all of it back.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn rollback(self) -> Result<(), StoreError> {
        Ok(self.tx.rollback().await?)
    }
}

impl Deref for WriteTransaction {
    type Target = AnyConnection;

    fn deref(&self) -> &Self::Target {
        &self.tx
    }
}

impl DerefMut for WriteTransaction {
    fn deref_mut(&mut self) -> &mut Self::Target {
        &mut self.tx
    }
}
