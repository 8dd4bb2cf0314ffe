//! `tapside check`: whether settings, database and token are good, in plain
//! words, one line each.

use std::io::Write;
use std::time::Duration;

use secrecy::ExposeSecret;

use crate::config::Settings;
use crate::serve::webhook_of;
use crate::store::backup::file_of;
use crate::store::{Kind, Store};
use crate::transport::telegram::{Telegram, Trouble};

/// A database that takes longer has not answered.
const LOOK_WITHIN: Duration = Duration::from_secs(4);

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
    let looked = tokio::time::timeout(LOOK_WITHIN, look_into_database(settings)).await;
    looked.unwrap_or_else(|_| {
        Err("it did not answer within 5 s; another program may hold it locked, or its server is away".to_owned())
    })
}

async fn look_into_database(settings: &Settings) -> Result<String, String> {
    let url = settings.database_url.expose_secret();
    if let Some(file) = file_of(url).filter(|file| !file.exists()) {
        let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty());
        let there = folder.is_none_or(|folder| folder.is_dir());
        let path = file.display();
        return match there {
            true => Ok(format!("SQLite; {path} is not there yet, serve makes it")),
            false => Err(format!(
                "{path}: its folder is not there; make it, or check DATABASE_URL"
            )),
        };
    }
    let store = Store::open_existing(url).await.map_err(|why| why.to_string())?;
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
