//! Telling the platform to call, or to wait until it is asked.

use reqwest::Url;
use secrecy::{ExposeSecret, SecretString};
use serde::Serialize;
use serde_json::Value;
use teloxide::requests::Payload;
use teloxide::types::AllowedUpdate;

use super::updates::ALLOWED;
use super::{CALL_TIMEOUT, Telegram, Trouble};

/// Calls at once: as many as a database with one writer takes in its stride.
const CALLS_AT_ONCE: u8 = 8;

impl Telegram {
    /// From now on the platform calls `url`, with `secret` in a header.
    ///
    /// # Errors
    /// Any [`Trouble`].
    pub async fn be_called(&self, url: &Url, secret: &SecretString) -> Result<(), Trouble> {
        let ask = SetWebhook {
            url: url.as_str(),
            secret_token: secret.expose_secret(),
            max_connections: CALLS_AT_ONCE,
            allowed_updates: ALLOWED,
        };
        self.call(&ask, CALL_TIMEOUT).await.map(|_| ())
    }

    /// From now on the platform waits to be asked; what it has not delivered
    /// yet, it keeps.
    ///
    /// # Errors
    /// Any [`Trouble`].
    pub async fn be_asked(&self) -> Result<(), Trouble> {
        self.call(&DeleteWebhook {}, CALL_TIMEOUT).await.map(|_| ())
    }
}

#[derive(Serialize)]
struct SetWebhook<'a> {
    url: &'a str,
    secret_token: &'a str,
    max_connections: u8,
    allowed_updates: &'static [AllowedUpdate],
}

impl Payload for SetWebhook<'_> {
    type Output = Value;
    const NAME: &'static str = "setWebhook";
}

#[derive(Serialize)]
struct DeleteWebhook {}

impl Payload for DeleteWebhook {
    type Output = Value;
    const NAME: &'static str = "deleteWebhook";
}
