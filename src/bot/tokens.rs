//! Secrets in links and buttons: nobody can guess one.

use std::sync::atomic::{AtomicU64, Ordering};

/// Where tokens come from.
pub enum Tokens {
    /// The system's randomness.
    Random,
    /// Counted up, for conversations that must read the same each time.
    Counted(AtomicU64),
}

impl Tokens {
    /// Counted tokens from the start.
    pub fn counted() -> Self {
        Self::Counted(AtomicU64::new(0))
    }

    /// A new token of letters and digits, fit for a start link and a button.
    ///
    /// # Errors
    /// When the system has no randomness to give.
    pub fn draw(&self) -> Result<String, getrandom::Error> {
        match self {
            Self::Counted(count) => Ok(format!("token{:04}", count.fetch_add(1, Ordering::Relaxed) + 1)),
            Self::Random => {
                let mut bytes = [0_u8; 16];
                getrandom::fill(&mut bytes)?;
                Ok(crate::store::invites::hex(&bytes))
            }
        }
    }
}
