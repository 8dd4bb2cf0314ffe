//! `tapside play`: demo conversations on a clock of their own, checked against
//! the answers that stand in them.

mod files;
pub mod script;

use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::{Context, anyhow};
use jiff::tz::TimeZone;

use crate::bot::Tokens;
use crate::desk::{Desk, Heard, Manner, THE_GROUP};
use crate::schedule::slot_on;
use crate::store::Store;
pub use files::Files;
use script::{Cue, Step};

/// Where a conversation starts that says nothing of time.
const START: i64 = 1_772_438_400; // 2026-03-02 08:00 UTC, a Monday
/// While the clock moves on, what falls due is looked for this often.
const LOOK_EVERY: i64 = 60 * 60;

/// A played conversation: as it should be written, and where it differed.
pub struct Played {
    /// The script with the answers that were given.
    pub script: String,
    /// For each difference: line, expected, given.
    pub differences: Vec<(usize, String, String)>,
    /// Everything that the bot said.
    pub heard: Vec<Heard>,
}

/// Plays files one after another, each on an outfit of its own, and prints
/// them; true if every answer stood there. With `update` the files are
/// rewritten instead. Pictures and files of the conversations go to `kept`.
///
/// # Errors
/// A file that cannot be read or written, a line that is not understood, or
/// trouble with the database.
pub async fn run(files: &[PathBuf], update: bool, kept: &mut Files, out: &mut impl Write) -> anyhow::Result<bool> {
    let mut as_written = true;
    for file in files {
        let text = std::fs::read_to_string(file).with_context(|| format!("cannot read {}", file.display()))?;
        let folder = tempdir()?;
        let mut count = 0;
        let fresh = async || {
            count += 1;
            let place = folder.path().join(format!("play-{count}.sqlite"));
            Ok(format!("sqlite:{}", place.display()))
        };
        let played = play(&text, fresh, kept.is_wanted())
            .await
            .with_context(|| format!("in {}", file.display()))?;
        writeln!(out, "{}", played.script.trim_end())?;
        kept.keep(&played.heard)?;
        if update {
            std::fs::write(file, &played.script)?;
            continue;
        }
        for (line, expected, given) in &played.differences {
            as_written = false;
            writeln!(
                out,
                "\n{}:{line}: the answer differs\nexpected:\n{expected}\ngiven:\n{given}",
                file.display()
            )?;
        }
    }
    Ok(as_written)
}

/// Plays one script on databases whose addresses `fresh` gives; pictures are
/// named, and drawn only if somebody wants to `draw` them.
///
/// # Errors
/// A line that is not understood, or trouble with the database.
pub async fn play(
    text: &str,
    mut fresh: impl AsyncFnMut() -> anyhow::Result<String>,
    draw: bool,
) -> anyhow::Result<Played> {
    let steps = script::read(text).map_err(|why| anyhow!(why))?;
    let zone_name = steps
        .iter()
        .find_map(|step| {
            if let Cue::Zone(zone) = &step.cue {
                Some(zone.clone())
            } else {
                None
            }
        })
        .unwrap_or_else(|| "UTC".to_owned());
    let zone = TimeZone::get(&zone_name).with_context(|| format!("no zone called {zone_name}"))?;
    let mut store = open(&fresh().await?).await?;
    let mut desk = Desk::new(store.clone(), zone_name.clone(), Tokens::counted(), "play".to_owned());
    if draw {
        desk.draw();
    }
    let mut now = START;
    let mut seated = false;
    let mut played = Played {
        script: String::new(),
        differences: Vec::new(),
        heard: Vec::new(),
    };
    for step in &steps {
        let (heard, speaker) = match &step.cue {
            Cue::Remark | Cue::Zone(_) => (Vec::new(), None),
            Cue::EmptyDatabase => {
                store.close().await;
                store = open(&fresh().await?).await?;
                desk = desk.before(store.clone(), zone_name.clone());
                seated = false;
                (Vec::new(), None)
            }
            Cue::Speaks { who, language } => {
                desk.speaks(who, language);
                (Vec::new(), None)
            }
            Cue::Clock(local) => {
                let at = slot_on(&zone, local.date(), local.time()).context("no such time")?.at;
                // Before anybody is there, nothing falls due.
                let heard = if seated {
                    pass_time(&mut desk, now, at).await?
                } else {
                    Vec::new()
                };
                now = at;
                (heard, None)
            }
            Cue::Line { who, manner, text } => {
                if !seated {
                    seated = true;
                    if !text.starts_with("/start") {
                        desk.settle_in(now).await?;
                        // The guide has a conversation of its own.
                        desk.says("owner", Manner::Says, "stop", now).await?;
                    } else {
                        desk.bot().claim_token(now).await?;
                    }
                }
                let place = if *manner == Manner::InGroup { THE_GROUP } else { who };
                (desk.says(who, *manner, text, now).await?, Some(place))
            }
        };
        // Two messages are never sent in the same second.
        now += i64::from(speaker.is_some());
        note(&mut played, step, &script::write(&heard, speaker));
        played.heard.extend(heard);
    }
    store.close().await;
    Ok(played)
}

async fn open(url: &str) -> anyhow::Result<Store> {
    let store = Store::open(url).await?;
    store.migrate().await?;
    Ok(store)
}

async fn pass_time(desk: &mut Desk, from: i64, until: i64) -> anyhow::Result<Vec<Heard>> {
    let mut heard = Vec::new();
    let mut at = from;
    while at < until {
        at = (at + LOOK_EVERY).min(until);
        heard.extend(desk.time_passes(at).await?);
    }
    Ok(heard)
}

fn note(played: &mut Played, step: &Step, given: &str) {
    played.script.push_str(&step.written);
    played.script.push('\n');
    if !given.is_empty() {
        played.script.push_str(given);
        played.script.push('\n');
    }
    if given != step.expected {
        played
            .differences
            .push((step.line, step.expected.clone(), given.to_owned()));
    }
}

fn tempdir() -> anyhow::Result<tempfile::TempDir> {
    tempfile::tempdir().context("cannot make a temporary folder")
}

/// All conversations in a folder, by name.
///
/// # Errors
/// When the folder cannot be read.
pub fn conversations(folder: &Path) -> std::io::Result<Vec<PathBuf>> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)?
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<Result<_, _>>()?;
    files.retain(|file| file.extension().is_some_and(|extension| extension == "txt"));
    files.sort();
    Ok(files)
}
