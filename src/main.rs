//! The command: reads the settings and does what is asked.

use std::io::{IsTerminal, Write as _};
use std::process::ExitCode;

use clap::{CommandFactory, Parser};
use secrecy::ExposeSecret;
use tapside::backup::{self, Outcome};
use tapside::config::{Command, CommandLine, LogLevel, Settings, zone_of_this_machine};
use tapside::play::Files;
use tapside::store::Store;
use tracing_subscriber::filter::{LevelFilter, Targets};
use tracing_subscriber::prelude::*;

/// What was looked at is not as it should be.
const NOT_GOOD: u8 = 1;

/// It is to be done with another program.
const ANOTHER_WAY: u8 = 2;

#[tokio::main]
async fn main() -> ExitCode {
    match run().await {
        Ok(code) => code,
        Err(trouble) => {
            eprintln!("tapside: {}", in_one_line(&trouble));
            ExitCode::from(NOT_GOOD)
        }
    }
}

/// What went wrong and why; a cause that repeats what was said is left out.
fn in_one_line(trouble: &anyhow::Error) -> String {
    trouble
        .chain()
        .map(ToString::to_string)
        .fold(String::new(), |said, cause| match said.as_str() {
            "" => cause,
            _ if said.contains(&cause) => said,
            _ => format!("{said}: {cause}"),
        })
}

async fn run() -> anyhow::Result<ExitCode> {
    // A missing .env is fine; a broken one is reported.
    if let Err(why) = dotenvy::dotenv()
        && !why.not_found()
    {
        eprintln!("The file .env cannot be read, so it is left out.");
    }
    match CommandLine::parse().command {
        Command::Serve(args) => {
            let settings = Settings::new(args);
            log_to_stderr(settings.log);
            tapside::serve::run(settings).await
        }
        Command::Migrate(database) => {
            let store = Store::open(database.url.expose_secret()).await?;
            store.migrate().await?;
            store.close().await;
            eprintln!("The tables are up to date.");
            Ok(ExitCode::SUCCESS)
        }
        Command::Outfits(database) => {
            let url = database.url.expose_secret();
            let store = Store::open_existing(url).await?;
            tapside::outfits::run(&store, &mut std::io::stdout()).await?;
            store.close().await;
            Ok(ExitCode::SUCCESS)
        }
        Command::Backup(args) => {
            let url = args.database.url.expose_secret();
            let outcome = backup::back_up(url, &args.file, args.force, &mut std::io::stdout()).await?;
            Ok(code_of(outcome))
        }
        Command::Restore(args) => {
            let url = args.database.url.expose_secret();
            let now = tapside::clock::now();
            let outcome = backup::restore(url, &args.file, args.force, now, &mut std::io::stdout()).await?;
            Ok(code_of(outcome))
        }
        Command::Check(args) => {
            let good = tapside::check::run(&Settings::new(args), &mut std::io::stdout()).await?;
            Ok(ExitCode::from(if good { 0 } else { NOT_GOOD }))
        }
        Command::Claim(args) => {
            let settings = Settings::new(args);
            tapside::serve::claim(&settings, &mut std::io::stdout()).await?;
            Ok(ExitCode::SUCCESS)
        }
        Command::Chat(args) => {
            let mut files = Files::new(args.out);
            tapside::chat::run(
                &args.database,
                args.zone.unwrap_or_else(zone_of_this_machine),
                &mut files,
            )
            .await?;
            Ok(ExitCode::SUCCESS)
        }
        Command::Manual(args) => {
            let mut command = CommandLine::command();
            let mut out = Vec::new();
            match args.completions {
                Some(shell) => clap_complete::generate(shell, &mut command, "tapside", &mut out),
                None => clap_mangen::Man::new(command).render(&mut out)?,
            }
            std::io::stdout().write_all(&out)?;
            Ok(ExitCode::SUCCESS)
        }
        Command::Read(args) => {
            tapside::read_lines::run(&args, std::io::stdin().lock(), &mut std::io::stdout().lock())?;
            Ok(ExitCode::SUCCESS)
        }
        Command::Assess(args) => {
            let mut out = std::io::BufWriter::new(std::io::stdout().lock());
            Ok(ExitCode::from(tapside::spreadsheet::run(
                &args,
                &mut out,
                &mut std::io::stderr().lock(),
            )))
        }
        Command::Digest(args) => {
            tapside::digest_files::run(&args, &mut std::io::stdout()).await?;
            Ok(ExitCode::SUCCESS)
        }
        Command::Play(args) => {
            let mut files = Files::new(args.out);
            let as_written = tapside::play::run(&args.files, args.update, &mut files, &mut std::io::stdout()).await?;
            Ok(ExitCode::from(if as_written { 0 } else { NOT_GOOD }))
        }
    }
}

fn code_of(outcome: Outcome) -> ExitCode {
    match outcome {
        Outcome::Done => ExitCode::SUCCESS,
        Outcome::OtherWay => ExitCode::from(ANOTHER_WAY),
    }
}

/// The log goes to stderr. Libraries say only what may need somebody.
fn log_to_stderr(level: LogLevel) {
    let level = match level {
        LogLevel::Error => LevelFilter::ERROR,
        LogLevel::Warn => LevelFilter::WARN,
        LogLevel::Info => LevelFilter::INFO,
        LogLevel::Debug => LevelFilter::DEBUG,
    };
    let wanted = Targets::new()
        .with_target("tapside", level)
        .with_default(LevelFilter::WARN.min(level));
    tracing_subscriber::registry()
        .with(
            tracing_subscriber::fmt::layer()
                .with_writer(std::io::stderr)
                .with_ansi(std::io::stderr().is_terminal())
                .with_target(false),
        )
        .with(wanted)
        .init();
    // What a panic says may quote a message; where it happened may be told.
    std::panic::set_hook(Box::new(|panicked| {
        let place = panicked.location().map(ToString::to_string).unwrap_or_default();
        tracing::error!(place, "A part of the program panicked.");
    }));
}
