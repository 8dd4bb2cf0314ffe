//! What the host says on the command line and in the environment.
//!
//! Secrets come from the environment only, since a command line can be read
//! by everybody on the machine, and they print as nothing.

use std::net::SocketAddr;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use reqwest::Url;
use secrecy::SecretString;

use crate::read_lines::ReadArgs;
use crate::spreadsheet::AssessArgs;
use crate::store::sends::Limits;

/// A chat bot for crews who clean windows with purified water: two readings in, the membrane's state out
#[derive(Debug, Parser)]
#[command(name = "tapside", version, about, propagate_version = true)]
pub struct CommandLine {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// What can be done.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Talk to the bot here in the terminal; needs no token and no set-up
    Chat(ChatArgs),
    /// Play conversations from files; fails when an answer differs
    #[command(hide = true)]
    Play(PlayArgs),
    /// Write the weekly digest of a date as files (text, pictures, spreadsheet, calendar); sends nothing
    Digest(DigestArgs),
    /// Show what the bot would understand of the lines on standard input; stores nothing
    #[command(hide = true)]
    Read(ReadArgs),
    /// Print the manual page, or the completions of a shell
    #[command(hide = true)]
    Manual(ManualArgs),
    /// Assess rigs from spreadsheets (CSV) of readings and jobs, without the bot
    Assess(AssessArgs),
    /// Run the bot on Telegram
    Serve(ServeArgs),
    /// Check settings, database and token, and say what is wrong
    Check(ServeArgs),
    /// Print a one-time link that makes whoever opens it the owner of a new outfit
    Claim(ServeArgs),
    /// List the outfits, a line each, without names of people
    Outfits(DatabaseArgs),
    /// Write a checked copy of the database into a file while the bot runs (SQLite)
    Backup(CopyArgs),
    /// Replace the database with a backup; stop the bot first (SQLite)
    Restore(CopyArgs),
    /// Bring the database's tables up to date (`serve` does this itself)
    Migrate(DatabaseArgs),
}

/// Settings of `chat`.
#[derive(Args, Clone, Debug)]
pub struct ChatArgs {
    /// Where to keep the conversation's data: `sqlite:FILE`
    #[arg(long, value_name = "URL", default_value = "sqlite:tapside-chat.sqlite")]
    pub database: String,
    /// Time zone of the outfit, such as Europe/Madrid [default: this machine's]
    #[arg(long, env = "TAPSIDE_ZONE", value_name = "ZONE", value_parser = known_zone)]
    pub zone: Option<String>,
    /// Write the bot's pictures and files into this folder
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
}

/// Settings of `play`.
#[derive(Args, Clone, Debug)]
pub struct PlayArgs {
    /// The conversations
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// Write the answers into the files instead of comparing them
    #[arg(long)]
    pub update: bool,
    /// Write the bot's pictures and files into this folder
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
}

/// Settings of `manual`.
#[derive(Args, Clone, Debug)]
pub struct ManualArgs {
    /// Print the completions of this shell instead of the manual page
    #[arg(long, value_name = "SHELL", value_enum)]
    pub completions: Option<clap_complete::Shell>,
}

/// Settings of `digest`.
#[derive(Args, Clone, Debug)]
pub struct DigestArgs {
    /// The day of the digest, such as 2026-10-19 [default: the last Monday of the demo fleet's season, autumn 2026]
    #[arg(long, value_name = "DATE")]
    pub as_of: Option<String>,
    /// The database: `sqlite:FILE` or `postgres://...` [default: the demo fleet]
    #[arg(long, value_name = "URL")]
    pub database: Option<SecretString>,
    /// The outfit's number, as `tapside outfits` lists it
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub outfit: i64,
    /// The language: en or es
    #[arg(long, value_name = "TAG")]
    pub language: Option<String>,
    /// Write all files into this folder instead of printing the texts
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
}

/// Where the data are.
#[derive(Args, Clone)]
pub struct DatabaseArgs {
    /// The database: `sqlite:FILE` or `postgres://...`
    #[arg(
        long = "database",
        env = "DATABASE_URL",
        hide_env_values = true,
        value_name = "URL",
        default_value = "sqlite:tapside.sqlite"
    )]
    pub url: SecretString,
}

impl std::fmt::Debug for DatabaseArgs {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        // The address may hold a password.
        out.debug_struct("DatabaseArgs").finish_non_exhaustive()
    }
}

/// Settings of `backup` and `restore`.
#[derive(Args, Clone, Debug)]
pub struct CopyArgs {
    /// The database.
    #[command(flatten)]
    pub database: DatabaseArgs,
    /// The backup
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// `backup`: overwrite FILE; `restore`: replace the present database, which is kept beside it
    #[arg(long)]
    pub force: bool,
}

/// Settings of `serve` and `check`. The token is read from TAPSIDE_TOKEN.
#[derive(Args, Clone, Debug)]
pub struct ServeArgs {
    #[command(flatten)]
    database: DatabaseArgs,
    /// Address of the Bot API server
    #[arg(long, env = "TAPSIDE_API_URL", value_name = "URL", default_value = "https://api.telegram.org", value_parser = http_url)]
    api_url: Url,
    /// Time zone of new outfits, such as Europe/Madrid [default: this machine's]
    #[arg(long, env = "TAPSIDE_ZONE", value_name = "ZONE", value_parser = known_zone)]
    zone: Option<String>,
    /// Most messages sent in a second, over all chats; 0 sets no limit
    #[arg(long, env = "TAPSIDE_SENDS_PER_SECOND", value_name = "COUNT", default_value_t = 28,
          value_parser = clap::value_parser!(i64).range(0..=1000))]
    sends_per_second: i64,
    /// Seconds between messages to one person, and three times that to one group; 0 sets no gap
    #[arg(long, env = "TAPSIDE_CHAT_GAP", value_name = "SECONDS", default_value_t = 1,
          value_parser = clap::value_parser!(i64).range(0..=60))]
    chat_gap: i64,
    /// This copy's name when several share one database [default: the machine's name]
    #[arg(long, env = "TAPSIDE_INSTANCE", value_name = "NAME")]
    instance: Option<String>,
    /// Answer /healthz and /metrics on this address, such as 127.0.0.1:9464 [default: nowhere]
    #[arg(long, env = "TAPSIDE_LISTEN", value_name = "ADDRESS")]
    listen: Option<SocketAddr>,
    /// Have Telegram call this https address; needs --listen and TAPSIDE_WEBHOOK_SECRET [default: poll Telegram]
    #[arg(long, env = "TAPSIDE_WEBHOOK_URL", value_name = "URL", value_parser = http_url)]
    webhook_url: Option<Url>,
    /// How much to log
    #[arg(long, env = "TAPSIDE_LOG", value_name = "LEVEL", value_enum, default_value_t = LogLevel::Info)]
    log: LogLevel,
}

/// How much to log.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum LogLevel {
    /// What needs somebody now
    Error,
    /// Also what may need somebody
    Warn,
    /// Also starts, stops and outfits
    Info,
    /// Also every batch and delivery
    Debug,
}

/// Everything that `serve` needs to know.
#[derive(Clone)]
pub struct Settings {
    /// The bot's token, if one is set.
    pub token: Option<SecretString>,
    /// Where the data are; may hold a password.
    pub database_url: SecretString,
    /// Where the Bot API is.
    pub api_url: Url,
    /// IANA zone of new outfits.
    pub zone: String,
    /// How fast messages may go out.
    pub limits: Limits,
    /// Which copy this is, the same after a restart.
    pub instance: String,
    /// Where to answer after the bot's health, if anywhere.
    pub listen: Option<SocketAddr>,
    /// The address that Telegram is to call, if it is to.
    pub webhook_url: Option<Url>,
    /// What Telegram then proves itself with.
    pub webhook_secret: Option<SecretString>,
    /// How much to log.
    pub log: LogLevel,
}

impl Settings {
    /// The settings from the command line and, for the secrets, from the
    /// environment.
    pub fn new(args: ServeArgs) -> Self {
        Self {
            token: secret("TAPSIDE_TOKEN"),
            database_url: args.database.url,
            api_url: args.api_url,
            zone: args.zone.unwrap_or_else(zone_of_this_machine),
            limits: limits(args.sends_per_second, args.chat_gap),
            instance: args.instance.unwrap_or_else(name_of_this_machine),
            listen: args.listen,
            webhook_url: args.webhook_url,
            webhook_secret: secret("TAPSIDE_WEBHOOK_SECRET"),
            log: args.log,
        }
    }
}

impl std::fmt::Debug for Settings {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("Settings")
            .field("token", &self.token.as_ref().map(|_| "(set)"))
            .field("api_url", &self.api_url.host_str())
            .field("zone", &self.zone)
            .field("limits", &self.limits)
            .field("instance", &self.instance)
            .field("listen", &self.listen)
            .field("webhook", &self.webhook_url.as_ref().and_then(Url::host_str))
            .field("log", &self.log)
            .finish_non_exhaustive()
    }
}

/// A secret of the environment; an empty one is none.
fn secret(name: &str) -> Option<SecretString> {
    let secret = std::env::var(name).ok()?.trim().to_owned();
    (!secret.is_empty()).then(|| secret.into())
}

/// The platform allows 30 messages a second in all, one a second to a person
/// and 20 a minute to a group; short bursts pass.
pub fn limits(sends_per_second: i64, chat_gap_seconds: i64) -> Limits {
    Limits {
        per_second: if sends_per_second == 0 {
            i64::MAX / 2
        } else {
            sends_per_second
        },
        private_gap: chat_gap_seconds,
        group_gap: 3 * chat_gap_seconds,
        burst: 3 * chat_gap_seconds,
    }
}

/// The machine's zone, if it can be told, else UTC.
pub fn zone_of_this_machine() -> String {
    let from_environment = std::env::var("TZ")
        .ok()
        .map(|zone| zone.trim_start_matches(':').to_owned());
    let from_file = || {
        std::fs::read_to_string("/etc/timezone")
            .ok()
            .map(|zone| zone.trim().to_owned())
    };
    let from_link = || {
        let target = std::fs::read_link("/etc/localtime").ok()?;
        target
            .to_str()?
            .split_once("zoneinfo/")
            .map(|(_, zone)| zone.to_owned())
    };
    let known = |zone: &String| known_zone(zone).is_ok();
    from_environment
        .filter(known)
        .or_else(|| from_link().filter(known))
        .or_else(|| from_file().filter(known))
        .unwrap_or_else(|| "UTC".to_owned())
}

fn name_of_this_machine() -> String {
    let from_file = std::fs::read_to_string("/etc/hostname").ok();
    let name = from_file.or_else(|| std::env::var("HOSTNAME").ok()).unwrap_or_default();
    let name = name.trim();
    if name.is_empty() {
        "tapside".to_owned()
    } else {
        name.to_owned()
    }
}

fn known_zone(name: &str) -> Result<String, String> {
    match jiff::tz::TimeZone::get(name) {
        Ok(zone) => Ok(zone.iana_name().unwrap_or(name).to_owned()),
        Err(_) => Err("not a time zone that is known; write it like Europe/Madrid or America/Denver".to_owned()),
    }
}

fn http_url(text: &str) -> Result<Url, String> {
    let url: Url = text
        .parse()
        .map_err(|_| "not an address; write it like http://127.0.0.1:8081".to_owned())?;
    if !matches!(url.scheme(), "http" | "https") || url.host_str().is_none() {
        return Err("the address must start with http:// or https://".to_owned());
    }
    Ok(url)
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_command_line_is_well_formed() {
        CommandLine::command().debug_assert();
    }

    fn serve(args: &[&str]) -> Result<ServeArgs, String> {
        let line = ["tapside", "serve"].iter().chain(args);
        match CommandLine::try_parse_from(line).map(|line| line.command) {
            Ok(Command::Serve(args)) => Ok(args),
            Ok(other) => Err(format!("{other:?}")),
            Err(why) => Err(why.to_string()),
        }
    }

    #[test]
    fn bad_settings_are_refused_with_what_to_write() {
        let rows = [
            (["--zone", "Mars/Base"], "Europe/Madrid"),
            (["--api-url", "127.0.0.1"], "not an address"),
            (["--api-url", "ftp://x"], "http://"),
            (["--sends-per-second", "5000"], "0..=1000"),
            (["--listen", "9464"], "invalid socket address"),
            (["--token", "12:ab"], "unexpected argument"),
        ];
        for (args, hint) in rows {
            let refusal = serve(&args).err().unwrap_or_default();
            assert!(refusal.contains(hint), "{args:?}: {refusal}");
        }
    }

    #[test]
    fn nothing_secret_is_printed() {
        let args = serve(&["--database", "postgres://ada:hush@db/t", "--zone", "Europe/Madrid"]).ok();
        let shown = format!("{args:?}");
        let settings = args.map(|args| Settings {
            token: Some("12:hush".to_owned().into()),
            webhook_secret: Some("hush-hush".to_owned().into()),
            ..Settings::new(args)
        });
        let shown = format!("{shown} {settings:?}");
        assert!(shown.contains("Europe/Madrid") && !shown.contains("hush"), "{shown}");
    }

    #[test]
    fn no_limit_and_no_gap_can_be_asked_for() {
        let none = limits(0, 0);
        assert!(none.per_second > 1_000_000);
        assert_eq!((none.private_gap, none.group_gap, none.burst), (0, 0, 0));
        let usual = limits(28, 1);
        assert_eq!((usual.per_second, usual.private_gap, usual.group_gap), (28, 1, 3));
    }
}
