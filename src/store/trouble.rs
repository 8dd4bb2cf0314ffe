//! What can go wrong in the store, and whether the message or the database is
//! to blame.

/// Trouble with the database.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// `DATABASE_URL` names neither of the two databases.
    #[error("DATABASE_URL must start with sqlite: or postgres:, not {0}:")]
    Address(String),
    /// The file of a SQLite database cannot be used.
    #[error("{path}: {why}; {remedy}")]
    File {
        /// Which file.
        path: String,
        /// What is wrong with it.
        why: String,
        /// What the host can do.
        remedy: String,
    },
    /// What the database said.
    #[error(transparent)]
    Database(#[from] sqlx::Error),
    /// A migration could not be applied.
    #[error(transparent)]
    Migration(#[from] sqlx::migrate::MigrateError),
    /// Another process changes the same rows all the time.
    #[error("the outfits of this batch are being changed all the time")]
    Busy,
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
    /// Whether the database cannot be reached, or not yet: it may come by
    /// itself. A wrong password or a missing database will not.
    pub fn is_absence(&self) -> bool {
        let said = match self {
            Self::Database(why) => why,
            Self::Migration(sqlx::migrate::MigrateError::Execute(why)) => why,
            _ => return false,
        };
        match said {
            sqlx::Error::Io(_) | sqlx::Error::PoolTimedOut => true,
            sqlx::Error::Database(said) => said.code().is_some_and(|code| is_about_reach(&code)),
            _ => false,
        }
    }

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

/// On PostgreSQL the SQLSTATE class 08 (connection), 57P (starting up or
/// shutting down), and 53300 (too many connections).
fn is_about_reach(code: &str) -> bool {
    // Locked by another program, on SQLite.
    let is_locked = code.parse::<i64>().is_ok_and(|code| matches!(code & 0xff, 5 | 6)) && code.len() < 5;
    is_locked || code.len() == 5 && (code.starts_with("08") || code.starts_with("57P") || code == "53300")
}

#[cfg(test)]
mod tests {
    use super::{is_about_data, is_about_reach};

    #[test]
    fn a_server_that_starts_up_is_waited_for_and_a_wrong_password_is_not() {
        for code in ["57P03", "57P01", "53300", "08006"] {
            assert!(is_about_reach(code), "{code}");
        }
        for code in ["28P01", "3D000", "42501", "14"] {
            assert!(!is_about_reach(code), "{code}");
        }
    }

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
