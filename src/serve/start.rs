//! Reaching the database and the API for the first time, and what the host is
//! told then.

use std::time::Duration;

use tracing::{error, info, warn};

use crate::bot::Bot;
use crate::clock;
use crate::store::{Store, StoreError};
use crate::transport::telegram::{Identity, Telegram, Trouble};

use super::pause_after;
use super::webhook::Webhook;

/// An attempt that takes longer than this has met no database.
const OPEN_WITHIN: Duration = Duration::from_secs(5);

/// Opens the database and brings its tables up to date; waits for a server
/// that is not there yet.
///
/// # Errors
/// What waiting would not mend.
pub async fn open(url: &str) -> Result<Store, StoreError> {
    let mut failures = 0;
    loop {
        let opened = tokio::time::timeout(OPEN_WITHIN, Store::open(url)).await;
        let why = match opened {
            Ok(Ok(store)) => match store.migrate().await {
                Ok(_) => return Ok(store),
                Err(trouble) if trouble.is_absence() => trouble.to_string(),
                Err(trouble) => return Err(trouble),
            },
            Ok(Err(trouble)) if trouble.is_absence() => trouble.to_string(),
            Ok(Err(trouble)) => return Err(trouble),
            Err(_) => "no answer in time".to_owned(),
        };
        if failures == 0 {
            warn!(why, "The database does not answer yet; waiting until it does.");
        }
        failures += 1;
        tokio::time::sleep(pause_after(failures)).await;
    }
}

/// Asks who the bot is until there is an answer; none if the token is wrong.
pub async fn reach(telegram: &Telegram) -> Option<Identity> {
    let mut failures = 0;
    loop {
        match telegram.identity().await {
            Ok(identity) => {
                info!(bot = identity.username, "Telegram answers.");
                return Some(identity);
            }
            Err(Trouble::WrongToken) => return None,
            Err(trouble) => {
                if failures == 0 {
                    warn!(%trouble, "Telegram does not answer yet; waiting until it does.");
                }
                failures += 1;
            }
        }
        tokio::time::sleep(pause_after(failures)).await;
    }
}

/// Tells the platform whether to call or to wait until it is asked; what it
/// refuses, if it does.
pub async fn choose_way(telegram: &Telegram, webhook: Option<&Webhook>) -> Result<(), Trouble> {
    let mut failures = 0;
    loop {
        let told = match webhook {
            Some(webhook) => telegram.be_called(&webhook.url, &webhook.secret).await,
            None => telegram.be_asked().await,
        };
        match told {
            Ok(()) => return Ok(()),
            Err(Trouble::Unreachable(_) | Trouble::TooFast(_) | Trouble::Conflict) => failures += 1,
            Err(trouble) => return Err(trouble),
        }
        tokio::time::sleep(pause_after(failures)).await;
    }
}

/// Tells the bot its link, and the host what is left to do.
pub async fn introduce(bot: &Bot, identity: &Identity) {
    let link = format!("https://t.me/{}?start=", identity.username);
    bot.set_link(link.clone());
    bot.set_hears_groups(identity.hears_groups);
    if !identity.hears_groups {
        info!("In groups only commands and replies reach the bot; @BotFather changes that with /setprivacy.");
    }
    match bot.claim_token(clock::now()).await {
        // This link is meant for the log: it is how the first owner gets in.
        Ok(Some(token)) => info!("Nobody owns an outfit yet. Open this link once to own the first: {link}{token}"),
        Ok(None) => {}
        Err(trouble) => error!(%trouble, "The link for the first owner could not be made."),
    }
}
