//! `tapside digest`: the digest of a date as files, without sending anything.

use std::io::Write;
use std::path::Path;

use anyhow::{Context, bail};
use jiff::civil::{Date, Time};
use secrecy::ExposeSecret;

use crate::bot::{Bot, BotSettings, Tokens, WrittenDigest};
use crate::config::DigestArgs;
use crate::play;
use crate::schedule::slot_on;
use crate::store::Store;

/// The fleet that is shown when no database is named.
const DEMO: &str = include_str!("../demo-conversations/9-season.txt");
/// The last Monday of the demo.
const DEMO_ENDS: &str = "2026-11-30";
const MORNING: Time = Time::constant(7, 0, 0, 0);

/// Writes the digest's texts, pictures, workbook and calendar into a folder, or
/// prints the texts alone.
///
/// # Errors
/// A database that cannot be read, an outfit that there is not, or a file that
/// cannot be written.
pub async fn run(args: &DigestArgs, out: &mut impl Write) -> anyhow::Result<()> {
    let as_of: Date = match &args.as_of {
        Some(date) => date
            .parse()
            .with_context(|| format!("no date like 2026-03-02: {date}"))?,
        None => DEMO_ENDS.parse()?,
    };
    let folder = tempfile::tempdir().context("cannot make a temporary folder")?;
    let url = match &args.database {
        Some(url) => url.expose_secret().to_owned(),
        None => {
            let url = format!("sqlite:{}", folder.path().join("demo.sqlite").display());
            play::play(&until(DEMO, as_of), async || Ok(url.clone()), false).await?;
            url
        }
    };
    let store = Store::open_existing(&url).await?;
    if store.migrations_missing().await? > 0 {
        bail!("the tables are not up to date: run `tapside migrate` first");
    }
    let settings = BotSettings {
        zone: "UTC".to_owned(),
        tokens: Tokens::Random,
    };
    let bot = Bot::new(store, settings);
    let zone = bot
        .zone_of(args.outfit)
        .await
        .context("there is no such outfit; `tapside outfits` lists them")?;
    let at = slot_on(&zone, as_of, MORNING).context("no such day")?.at;
    let digest = bot.digest_at(args.outfit, as_of, at, args.language.as_deref()).await?;
    bot.store().close().await;
    let Some(digest) = digest else {
        writeln!(out, "This outfit has no rigs, so it gets no digest.")?;
        return Ok(());
    };
    match &args.out {
        Some(folder) => write(&digest, folder, out),
        None => Ok(writeln!(out, "{}", texts(&digest))?),
    }
}

/// The conversation before a date.
fn until(script: &str, date: Date) -> String {
    let is_later = |line: &&str| {
        let day = line.strip_prefix("@ ").and_then(|rest| rest.get(..10));
        day.and_then(|day| day.parse::<Date>().ok())
            .is_some_and(|day| day >= date)
    };
    let lines: Vec<&str> = script.lines().take_while(|line| !is_later(line)).collect();
    lines.join("\n")
}

fn texts(digest: &WrittenDigest) -> String {
    let more = digest.more.as_deref().unwrap_or_default();
    format!("{}\n\n{more}", digest.text).trim_end().to_owned()
}

fn write(digest: &WrittenDigest, folder: &Path, out: &mut impl Write) -> anyhow::Result<()> {
    std::fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))?;
    let mut files: Vec<(&str, &[u8])> = vec![("digest.xlsx", &digest.workbook)];
    let texts = texts(digest);
    files.push(("digest.txt", texts.as_bytes()));
    if let Some(calendar) = &digest.calendar {
        files.push(("due.ics", calendar.as_bytes()));
    }
    files.extend(
        digest
            .pictures
            .iter()
            .map(|(name, bytes)| (name.as_str(), bytes.as_slice())),
    );
    for (name, bytes) in files {
        let path = folder.join(name);
        std::fs::write(&path, bytes).with_context(|| format!("cannot write {}", path.display()))?;
        writeln!(out, "{}", path.display())?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn a_conversation_is_cut_before_a_date() {
        let script = "zone UTC\n@ 2026-03-02 07:00\ncrew: one\n@ 2026-03-09 07:00\ncrew: two\n";
        assert_eq!(
            until(script, date(2026, 3, 9)),
            "zone UTC\n@ 2026-03-02 07:00\ncrew: one"
        );
        assert_eq!(until(script, date(2026, 3, 10)), script.trim_end());
    }
}
