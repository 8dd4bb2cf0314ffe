//! The platform calls, instead of being asked. It is told that all is well
//! only once what it brought is committed; else it brings it again.

use std::sync::Arc;
use std::sync::atomic::Ordering::Relaxed;

use axum::Router;
use axum::body::Bytes;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::routing::post;
use reqwest::Url;
use secrecy::{ExposeSecret, SecretString};
use serde_json::Value;
use sha2::{Digest, Sha256};
use subtle::ConstantTimeEq;
use tracing::error;

use crate::clock;
use crate::config::Settings;
use crate::transport::telegram;

use super::{Shared, files};

/// The header in which the platform brings the secret.
const SECRET_HEADER: &str = "x-telegram-bot-api-secret-token";

/// Where the platform calls, and what it proves itself with.
#[derive(Clone, Debug)]
pub struct Webhook {
    /// The address from outside.
    pub url: Url,
    /// The secret.
    pub secret: SecretString,
}

/// The webhook of the settings, if they ask for one.
///
/// # Errors
/// What the host must put right, in plain words.
pub fn of(settings: &Settings) -> Result<Option<Webhook>, &'static str> {
    let Some(url) = settings.webhook_url.clone() else {
        return Ok(None);
    };
    if url.scheme() != "https" {
        return Err("TAPSIDE_WEBHOOK_URL must start with https://, since Telegram calls nothing else");
    }
    if settings.listen.is_none() {
        return Err(
            "TAPSIDE_WEBHOOK_URL needs TAPSIDE_LISTEN: the address that your web server passes the calls on to",
        );
    }
    // A path that the router would take for a pattern, or that is taken, ends the program after all is registered.
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"/-_.~".contains(&byte);
    if !url.path().bytes().all(plain) || ["/healthz", "/metrics"].contains(&url.path()) {
        return Err(
            "TAPSIDE_WEBHOOK_URL must have a path of letters, digits, / - _ . ~ that is neither /healthz nor /metrics",
        );
    }
    let is_secret = |secret: &str| {
        let plain = |byte: u8| byte.is_ascii_alphanumeric() || byte == b'_' || byte == b'-';
        (16..=256).contains(&secret.len()) && secret.bytes().all(plain)
    };
    match settings.webhook_secret.clone() {
        Some(secret) if is_secret(secret.expose_secret()) => Ok(Some(Webhook { url, secret })),
        _ => Err("TAPSIDE_WEBHOOK_SECRET must be 16 to 256 letters, digits, _ or -; `openssl rand -hex 24` makes one"),
    }
}

/// The route that the platform calls.
pub fn routes(webhook: &Webhook) -> Router<Arc<Shared>> {
    // Kept as a hash: equal lengths, whatever is brought.
    let expected = Sha256::digest(webhook.secret.expose_secret());
    let hear = move |State(shared): State<Arc<Shared>>, headers: HeaderMap, body: Bytes| async move {
        let brought = headers.get(SECRET_HEADER).map_or(&b""[..], |secret| secret.as_bytes());
        if !bool::from(Sha256::digest(brought).ct_eq(&expected)) {
            return StatusCode::UNAUTHORIZED;
        }
        hear(&shared, &body).await
    };
    Router::new().route(webhook.url.path(), post(hear))
}

async fn hear(shared: &Shared, body: &[u8]) -> StatusCode {
    let now = clock::now();
    // What is no JSON can never be read: it is kept aside like any such update.
    let raw = serde_json::from_slice(body).unwrap_or_else(|_| Value::from(String::from_utf8_lossy(body)));
    let mut arrived: Vec<_> = telegram::read(&raw, now).into_iter().collect();
    let heard = match files::fetch(shared, &mut arrived).await {
        Ok(()) => shared.bot.hear(&arrived, now).await,
        Err(trouble) => Err(trouble),
    };
    shared.tally.database_refuses.store(heard.is_err(), Relaxed);
    if let Err(trouble) = heard {
        error!(%trouble, "An update could not be committed; Telegram brings it again.");
        return StatusCode::SERVICE_UNAVAILABLE;
    }
    shared.tally.heard(1, now);
    StatusCode::OK
}
