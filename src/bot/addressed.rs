//! Whether a text in a group is meant for the bot.

use crate::domain::envelope::Happening;
use crate::store::{self, Db, StoreError};

use super::request::Request;

/// Whether a text names the bot.
pub(super) fn is_named(on: &Request<'_>) -> bool {
    let (Happening::Text(text), Some(name)) = (&on.incoming.what, on.bot.username()) else {
        return false;
    };
    text.to_lowercase().contains(&format!("@{}", name.to_lowercase()))
}

/// Whether a text in a group names the bot or replies to it.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn is_addressed(db: &mut Db, on: &Request<'_>) -> Result<bool, StoreError> {
    match &on.incoming.reply_to {
        _ if is_named(on) => Ok(true),
        Some(replied) => Ok(store::sends::was_sent(db, replied).await?),
        None => Ok(false),
    }
}
