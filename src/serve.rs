//! The bot on Telegram: wiring, start and stop. The loops run until they are
//! told to stop: one hears, one sends, one looks at the clock, one keeps the
//! command menus.

mod connections;
mod files;
mod listen;
mod menus;
mod metrics;
mod receive;
mod sender;
mod start;
mod tally;
mod tick;
mod webhook;

use std::future::Future;
use std::process::ExitCode;
use std::sync::Arc;
use std::time::Duration;

use anyhow::Context;
use secrecy::ExposeSecret;
use tokio::signal::unix::{SignalKind, signal};
use tokio::sync::watch;
use tokio::task::JoinSet;
use tracing::{error, info, warn};

use crate::bot::{Bot, BotSettings, Tokens};
use crate::clock;
use crate::config::Settings;
use crate::outbox::{Outbox, delivery};
use crate::store::{Store, StoreError, sqlite_file};
use crate::transport::telegram::Telegram;

use tally::Tally;
pub use webhook::of as webhook_of;

/// What the host must see to, as an exit code.
const NEEDS_THE_HOST: u8 = 2;

/// How long a stop may take in all; 5 s is promised.
const STOP_WITHIN: Duration = Duration::from_millis(3500);

/// What the loops share.
struct Shared {
    telegram: Telegram,
    bot: Arc<Bot>,
    settings: Settings,
    /// What is on its way out.
    outbox: Arc<Outbox>,
    /// What was done so far.
    tally: Tally,
    /// UTC seconds.
    started_at: i64,
}

/// Runs the bot until SIGTERM or SIGINT.
///
/// # Errors
/// When the database cannot be opened or migrated, or a loop fails.
pub async fn run(settings: Settings) -> anyhow::Result<ExitCode> {
    if settings.token.is_none() {
        eprintln!("There is no token yet. Ask @BotFather on Telegram for one: open that chat and send /newbot.");
        eprintln!(
            "Then put it into the environment, or into a file named .env here, as TAPSIDE_TOKEN=... and start again."
        );
        return Ok(ExitCode::from(NEEDS_THE_HOST));
    }
    let stop = stop_signal().context("cannot listen for SIGTERM and SIGINT")?;
    tokio::pin!(stop);
    let mut waiting = JoinSet::new();
    if let Some(address) = settings.listen {
        waiting.spawn(listen::wait(listen::bind(address).await?));
    }
    let opened = tokio::select! {
        () = &mut stop => return Ok(ExitCode::SUCCESS),
        opened = start::open(settings.database_url.expose_secret()) => opened,
    };
    // Gives the address free before it is taken again.
    waiting.shutdown().await;
    let ready = opened.and_then(|store| Ok((store, sqlite_file::serve_alone(settings.database_url.expose_secret())?)));
    let (store, _alone) = match ready {
        // To start again and again would mend nothing.
        Err(trouble @ StoreError::File { .. }) => {
            error!("{trouble}.");
            return Ok(ExitCode::from(NEEDS_THE_HOST));
        }
        other => other.context("cannot open the database")?,
    };
    info!(database = ?store.kind(), zone = settings.zone, "The database is open.");
    let bot = Bot::new(
        store,
        BotSettings {
            zone: settings.zone.clone(),
            tokens: Tokens::Random,
        },
    );
    run_until(settings, Arc::new(bot), stop).await
}

/// Runs the bot, over an open and migrated store, until `stop` is ready.
///
/// # Errors
/// When a loop fails.
pub async fn run_until(settings: Settings, bot: Arc<Bot>, stop: impl Future<Output = ()>) -> anyhow::Result<ExitCode> {
    let token = settings.token.clone().context("there is no token")?;
    let telegram = Telegram::new(token, settings.api_url.clone())?;
    let webhook = match webhook::of(&settings) {
        Ok(webhook) => webhook,
        Err(what) => {
            error!("{what}.");
            return Ok(ExitCode::from(NEEDS_THE_HOST));
        }
    };
    let listener = match settings.listen {
        Some(address) => Some(listen::bind(address).await?),
        None => None,
    };
    let started_at = clock::now();
    let me = sender::holder(&settings.instance, clock::now_ms());
    let outbox = Arc::new(Outbox::new(me, &settings.limits));
    bot.send_through(outbox.clone());
    let shared = Arc::new(Shared {
        telegram,
        bot,
        settings,
        outbox,
        tally: Tally::default(),
        started_at,
    });
    let (tell, told) = watch::channel(false);
    let mut loops = JoinSet::new();
    // First of all, so that a start that takes long is told as such.
    if let Some(listener) = listener {
        loops.spawn(listen::run(listener, webhook.clone(), shared.clone(), told.clone()));
    }
    tokio::pin!(stop);
    let reached = tokio::select! {
        () = &mut stop => return Ok(ExitCode::SUCCESS),
        reached = start::reach(&shared.telegram) => reached,
    };
    let Some(identity) = reached else {
        error!("Telegram does not know this token. Copy it anew from the chat that made the bot into TAPSIDE_TOKEN.");
        return Ok(ExitCode::from(NEEDS_THE_HOST));
    };
    start::introduce(&shared.bot, &identity).await;
    let chosen = tokio::select! {
        () = &mut stop => return Ok(ExitCode::SUCCESS),
        chosen = start::choose_way(&shared.telegram, webhook.as_ref()) => chosen,
    };
    match (chosen, &webhook) {
        (Ok(()), Some(_)) => info!("Telegram calls."),
        (Ok(()), None) => {
            loops.spawn(receive::run(shared.clone(), told.clone()));
        }
        (Err(trouble), _) => {
            error!(%trouble, "Telegram does not take TAPSIDE_WEBHOOK_URL.");
            return Ok(ExitCode::from(NEEDS_THE_HOST));
        }
    }
    let (outbox, store) = (shared.outbox.clone(), shared.bot.store().clone());
    let copy = shared.settings.instance.clone();
    loops.spawn(delivery::run(outbox, store, copy, shared.clone(), told.clone()));
    loops.spawn(menus::run(shared.clone(), told.clone()));
    loops.spawn(tick::run(shared.clone(), told));
    let failed = tokio::select! {
        () = &mut stop => None,
        ended = loops.join_next() => Some(ended),
    };
    tell.send_replace(true);
    let all = async { while loops.join_next().await.is_some() {} };
    if tokio::time::timeout(STOP_WITHIN, all).await.is_err() {
        warn!("Something did not end in time; what it had not committed will come again.");
    }
    // Closing waits for connections, and a stuck one must not hold the stop up.
    let _ = tokio::time::timeout(Duration::from_millis(300), shared.bot.store().close()).await;
    if failed.is_some() {
        anyhow::bail!("a part of the bot ended by itself");
    }
    info!("Stopped; nothing is lost.");
    Ok(ExitCode::SUCCESS)
}

/// Prints a one-time link with which somebody founds one more outfit.
///
/// # Errors
/// When the database cannot be opened or written.
pub async fn claim(settings: &Settings, out: &mut impl std::io::Write) -> anyhow::Result<()> {
    let store = Store::open(settings.database_url.expose_secret()).await?;
    store.migrate().await?;
    let zone = settings.zone.clone();
    let bot = Bot::new(
        store,
        BotSettings {
            zone,
            tokens: Tokens::Random,
        },
    );
    let token = bot.found_token(clock::now()).await?;
    bot.store().close().await;
    let identity = match settings.token.clone() {
        Some(secret) => Telegram::new(secret, settings.api_url.clone())?.identity().await.ok(),
        None => None,
    };
    match identity {
        Some(identity) => {
            let link = format!("https://t.me/{}?start={token}", identity.username);
            writeln!(out, "Whoever opens this link once owns a new outfit: {link}")?;
        }
        None => writeln!(
            out,
            "Whoever sends this to the bot once owns a new outfit: /start {token}"
        )?,
    }
    Ok(())
}

fn stop_signal() -> std::io::Result<impl Future<Output = ()>> {
    let mut terminate = signal(SignalKind::terminate())?;
    let mut interrupt = signal(SignalKind::interrupt())?;
    Ok(async move {
        tokio::select! {
            _ = terminate.recv() => info!("Stopping, as asked."),
            _ = interrupt.recv() => info!("Stopping, as asked from the keyboard."),
        }
    })
}

/// Waits, unless told to stop; true if so.
async fn told_within(told: &mut watch::Receiver<bool>, wait: Duration) -> bool {
    tokio::time::timeout(wait, told.wait_for(|stop| *stop)).await.is_ok()
}

/// How long to wait after the nth failure in a row: 0.5 s, doubling to 8 s.
fn pause_after(failures: u32) -> Duration {
    Duration::from_millis(500 << failures.saturating_sub(1).min(4))
}
