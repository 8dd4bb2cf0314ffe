//! `tapside check`: whether settings, database and token are good, in plain
//! words, one line each.

use std::io::Write;

use secrecy::ExposeSecret;

use crate::config::Settings;
use crate::serve::webhook_of;
use crate::store::{Kind, Store};
use crate::transport::telegram::{Telegram, Trouble};

/// Prints what is good and what is not; true if the bot can be served.
///
/// # Errors
/// When nothing can be printed.
pub async fn run(settings: &Settings, out: &mut impl Write) -> anyhow::Result<bool> {
    writeln!(out, "zone      good: new outfits start in {}", settings.zone)?;
    let webhook = webhook(settings);
    if let Some(finding) = &webhook {
        match finding {
            Ok(good) => writeln!(out, "webhook   good: {good}")?,
            Err(bad) => writeln!(out, "webhook   BAD: {bad}")?,
        }
    }
    let database = database(settings).await;
    let token = token(settings).await;
    for (name, finding) in [("database", &database), ("token", &token)] {
        match finding {
            Ok(good) => writeln!(out, "{name:<9} good: {good}")?,
            Err(bad) => writeln!(out, "{name:<9} BAD: {bad}")?,
        }
    }
    Ok(database.is_ok() && token.is_ok() && webhook.is_none_or(|finding| finding.is_ok()))
}

/// None if none is asked for.
fn webhook(settings: &Settings) -> Option<Result<&'static str, &'static str>> {
    match webhook_of(settings) {
        Ok(None) => None,
        Ok(Some(_)) => Some(Ok("Telegram is told to call when the bot starts")),
        Err(bad) => Some(Err(bad)),
    }
}

async fn database(settings: &Settings) -> Result<String, String> {
    let store = Store::open(settings.database_url.expose_secret())
        .await
        .map_err(|why| why.to_string())?;
    let missing = store.migrations_missing().await.map_err(|why| why.to_string());
    let writable = store.begin().await.map_err(|why| why.to_string());
    let kind = match store.kind() {
        Kind::Sqlite => "SQLite",
        Kind::Postgres => "PostgreSQL",
    };
    drop(writable?);
    store.close().await;
    Ok(match missing? {
        0 => format!("{kind}, tables up to date"),
        _ => format!("{kind}; its tables are brought up to date by serve or migrate"),
    })
}

async fn token(settings: &Settings) -> Result<String, String> {
    let Some(token) = settings.token.clone() else {
        return Err("TAPSIDE_TOKEN is not set; Telegram's own bot-making chat gives one".to_owned());
    };
    let telegram = Telegram::new(token, settings.api_url.clone()).map_err(|why| why.to_string())?;
    match telegram.identity().await {
        Ok(identity) if identity.hears_groups => Ok(format!("it belongs to @{}", identity.username)),
        Ok(identity) => Ok(format!(
            "it belongs to @{}; in groups it hears only commands and replies, since privacy mode is on",
            identity.username
        )),
        Err(Trouble::WrongToken) => Err("Telegram does not know this token; copy it anew".to_owned()),
        Err(trouble) => Err(format!("Telegram could not be asked: {trouble}")),
    }
}
