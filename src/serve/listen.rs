//! What the host's monitoring asks over HTTP: `/healthz` in a word, `/metrics`
//! in numbers (OpenMetrics 1.0). No person's data in either. The platform's
//! calls come in here, too, where it is to call.

use std::net::SocketAddr;
use std::sync::Arc;
use std::sync::atomic::Ordering::Relaxed;
use std::time::Duration;

use anyhow::Context;
use axum::Router;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use tokio::net::TcpListener;
use tokio::sync::watch;

use crate::clock;
use crate::store::tallies::{self, Tallies};

use super::connections::Limited;
use super::webhook::{self, Webhook};
use super::{Shared, metrics};

/// A poll is answered within 25 s, so this is three of them.
const SILENT_FOR: i64 = 90;

/// A database that takes longer than this is as good as away.
const PATIENCE: Duration = Duration::from_secs(3);

/// Takes the address; nothing is answered before [`run`].
///
/// # Errors
/// When the address is taken or not this machine's.
pub async fn bind(address: SocketAddr) -> anyhow::Result<TcpListener> {
    TcpListener::bind(address)
        .await
        .with_context(|| format!("cannot listen on {address} (TAPSIDE_LISTEN)"))
}

/// Answers while the database is waited for at the start: that, whatever is asked.
pub async fn wait(listener: TcpListener) {
    let waiting = async || (StatusCode::SERVICE_UNAVAILABLE, "waiting for the database\n");
    let routes = Router::new().fallback(waiting);
    if let Err(trouble) = axum::serve(Limited::new(listener), routes).await {
        tracing::error!(%trouble, "Nobody can ask after the bot's health yet.");
    }
}

/// Answers until told to stop.
pub async fn run(
    listener: TcpListener,
    webhook: Option<Webhook>,
    shared: Arc<Shared>,
    mut told: watch::Receiver<bool>,
) {
    let routes = Router::new()
        .route("/healthz", get(healthz))
        .route("/metrics", get(numbers))
        .merge(webhook.as_ref().map_or_else(Router::new, webhook::routes))
        .with_state(shared);
    let stop = async move {
        let _ = told.wait_for(|stop| *stop).await;
    };
    if let Err(trouble) = axum::serve(Limited::new(listener), routes)
        .with_graceful_shutdown(stop)
        .await
    {
        tracing::error!(%trouble, "Nobody can ask after the bot's health any more.");
    }
}

async fn healthz(State(shared): State<Arc<Shared>>) -> Response {
    let tallies = count(&shared).await;
    // Nobody knows how long it takes until the platform has something to bring.
    let asks = shared.settings.webhook_url.is_none() && !shared.tally.stands_by.load(Relaxed);
    let silent_for = asks.then(|| clock::now() - shared.tally.last_word_at.load(Relaxed).max(shared.started_at));
    let database = match (tallies.is_some(), shared.tally.database_refuses.load(Relaxed)) {
        (false, _) => Some("the database does not answer"),
        (true, true) => Some("the database takes nothing; its disk may be full, or another program may hold it locked"),
        (true, false) => None,
    };
    match ill(database, silent_for) {
        None => (StatusCode::OK, "good\n".to_owned()).into_response(),
        Some(why) => (StatusCode::SERVICE_UNAVAILABLE, format!("{why}\n")).into_response(),
    }
}

/// What is wrong, if anything; `database` is what is wrong with that; `silent_for` is how many seconds ago the
/// platform last said something, none if another copy listens to it,
/// or if it calls by itself.
fn ill(database: Option<&str>, silent_for: Option<i64>) -> Option<String> {
    if let Some(why) = database {
        return Some(why.to_owned());
    }
    silent_for
        .filter(|seconds| *seconds > SILENT_FOR)
        .map(|seconds| format!("no word from Telegram for {seconds} s"))
}

async fn numbers(State(shared): State<Arc<Shared>>) -> Response {
    let tallies = count(&shared).await;
    match metrics::write(&shared.tally, tallies.as_ref(), clock::now()) {
        Ok(text) => ([(header::CONTENT_TYPE, metrics::CONTENT_TYPE)], text).into_response(),
        Err(_) => StatusCode::INTERNAL_SERVER_ERROR.into_response(),
    }
}

async fn count(shared: &Shared) -> Option<Tallies> {
    let counted = async {
        let mut db = shared.bot.store().read().await.ok()?;
        tallies::count(&mut db).await.ok()
    };
    tokio::time::timeout(PATIENCE, counted).await.ok().flatten()
}

#[cfg(test)]
mod tests {
    use super::ill;

    #[test]
    fn a_plain_word_says_what_is_wrong() {
        assert_eq!(ill(None, Some(0)), None);
        assert_eq!(ill(None, Some(90)), None);
        assert_eq!(ill(None, None), None, "another copy listens");
        assert_eq!(ill(None, Some(91)).as_deref(), Some("no word from Telegram for 91 s"));
        assert_eq!(
            ill(Some("the disk is full"), Some(0)).as_deref(),
            Some("the disk is full")
        );
    }
}
