//! What can go wrong in the store, and whether the message or the database is
//! to blame.

/// Trouble with the database.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// `DATABASE_URL` names neither of the two databases.
    #[error("DATABASE_URL must start with sqlite: or postgres:, not {0}:")]
    Address(String),
    /// What the database said.
    #[error(transparent)]
    Database(#[from] sqlx::Error),
    /// A migration could not be applied.
    #[error(transparent)]
    Migration(#[from] sqlx::migrate::MigrateError),
    /// Something stored could not be read back.
    #[error("a stored {what} cannot be read: {why}")]
    Stored {
        /// What it should have been.
        what: &'static str,
        /// Why it could not be read.
        why: String,
    },
}

impl StoreError {
    /// Whether this one message is to blame, so that the rest of its batch can
    /// go on without it. Anything else (a full disk, a lock, a lost
    /// connection) concerns the whole batch, which must not be confirmed.
    pub fn blames_the_message(&self) -> bool {
        match self {
            Self::Stored { .. } => true,
            Self::Database(sqlx::Error::Database(said)) => said.code().is_some_and(|code| is_about_data(&code)),
            Self::Database(
                sqlx::Error::ColumnDecode { .. }
                | sqlx::Error::Decode(_)
                | sqlx::Error::Encode(_)
                | sqlx::Error::RowNotFound,
            ) => true,
            _ => false,
        }
    }
}

/// SQLSTATE classes 22 (data exception) and 23 (integrity) on PostgreSQL;
/// mismatch (20), too big (18) and constraint (19, low byte of the extended
/// code) on SQLite.
fn is_about_data(code: &str) -> bool {
    if code.len() == 5 {
        return code.starts_with("22") || code.starts_with("23");
    }
    code.parse::<i64>().is_ok_and(|code| matches!(code & 0xff, 18..=20))
}

#[cfg(test)]
mod tests {
    use super::is_about_data;

    #[test]
    fn a_full_disk_or_a_lock_is_never_blamed_on_the_message() {
        for code in ["13", "5", "261", "6", "10", "8", "53100", "40001", "57P01"] {
            assert!(!is_about_data(code), "{code}");
        }
        for code in ["2067", "1555", "20", "18", "22021", "23505"] {
            assert!(is_about_data(code), "{code}");
        }
    }
}
