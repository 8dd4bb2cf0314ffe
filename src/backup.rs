//! `tapside backup` and `tapside restore`: a SQLite database into one file and
//! back, each checked before it takes the place of anything.

use std::fs::{self, File, OpenOptions};
use std::io::Write;
use std::os::unix::fs::{MetadataExt, OpenOptionsExt, chown};
use std::path::{Path, PathBuf};

use anyhow::{Context, bail};

use crate::store::backup::{self, Finding, Rest};
use crate::store::tallies::Tallies;

/// What PostgreSQL is backed up and restored with.
const POSTGRES: &str = "This database is PostgreSQL, which has its own programs for that. Back up, while the bot runs:
  pg_dump --format=custom --no-owner --file=tapside.dump \"$DATABASE_URL\"
Restore into an empty database, with the bot stopped:
  pg_restore --no-owner --single-transaction --exit-on-error --dbname=\"$DATABASE_URL\" tapside.dump
More: deploy/backup-and-restore.md";

/// How it ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It is done.
    Done,
    /// The host was told how to do it otherwise.
    OtherWay,
}

/// Writes everything that is committed into `copy`, while the bot runs.
///
/// # Errors
/// When there is nothing to back up, `copy` is there and `force` is not given,
/// or the copy is not sound; then nothing is left behind.
pub async fn back_up(url: &str, copy: &Path, force: bool, out: &mut impl Write) -> anyhow::Result<Outcome> {
    let Some(file) = backup::file_of(url) else {
        writeln!(out, "{POSTGRES}")?;
        return Ok(Outcome::OtherWay);
    };
    if !file.exists() {
        bail!("there is no database at {}", file.display());
    }
    if copy.exists() && !force {
        bail!(
            "{} is there already; --force writes over it, once the new backup is sound",
            copy.display()
        );
    }
    if same_file(&file, copy) {
        bail!("{} is the database itself", copy.display());
    }
    let part = with_ending(copy, ".part");
    let tallies = copy_checked(&file, &part).await?;
    put_in_place(&part, copy)?;
    writeln!(
        out,
        "Backed up to {}: {}. Checked, and sound.",
        copy.display(),
        sum(&tallies)
    )?;
    Ok(Outcome::Done)
}

/// Puts the backup `copy` where the database is to be; a database that is
/// there is kept aside if `force` is given.
///
/// # Errors
/// When `copy` is no sound backup, the database is in use, or it is there and
/// `force` is not given; then nothing has changed.
pub async fn restore(url: &str, copy: &Path, force: bool, now: i64, out: &mut impl Write) -> anyhow::Result<Outcome> {
    let Some(file) = backup::file_of(url) else {
        writeln!(out, "{POSTGRES}")?;
        return Ok(Outcome::OtherWay);
    };
    if same_file(&file, copy) {
        bail!("{} is the database itself", copy.display());
    }
    check(copy).await?;
    let mut there = vec![file.clone()];
    there.extend(backup::side_files(&file));
    there.retain(|file| file.exists());
    if !there.is_empty() && !force {
        bail!(
            "{} is there already; --force keeps it aside under another name",
            there[0].display()
        );
    }
    if file.exists() && backup::put_to_rest(&file).await? == Rest::InUse {
        bail!("{} is in use; stop the bot first", file.display());
    }
    // Copied as a database and not as a file: what stands in its side files comes along.
    let part = with_ending(&file, ".part");
    let tallies = copy_checked(copy, &part).await?;
    let time = jiff::Timestamp::from_second(now).unwrap_or_default();
    let ending = format!(".before-{}", time.strftime("%Y%m%dT%H%M%SZ"));
    let owner = fs::metadata(&file).or_else(|_| fs::metadata(folder_of(&file)));
    for old in there.iter().filter(|old| old.exists()) {
        let aside = with_ending(old, &ending);
        fs::rename(old, &aside).with_context(|| format!("cannot move {} aside", old.display()))?;
        writeln!(out, "Kept the old one as {}.", aside.display())?;
    }
    put_in_place(&part, &file)?;
    // Restored as root, it must still be the bot's own.
    if let Ok(owner) = owner
        && chown(&file, Some(owner.uid()), Some(owner.gid())).is_err()
    {
        writeln!(out, "See that the bot may read and write {}.", file.display())?;
    }
    writeln!(out, "Restored {}: {}.", file.display(), sum(&tallies))?;
    Ok(Outcome::Done)
}

async fn check(copy: &Path) -> anyhow::Result<Tallies> {
    if !copy.is_file() {
        bail!("there is no backup at {}", copy.display());
    }
    let name = copy.display();
    match backup::examine(copy).await? {
        Finding::Sound(tallies) => Ok(tallies),
        Finding::Foreign => bail!("{name} is no backup of Tapside's"),
        Finding::Damaged(how) => bail!("{name} is damaged: {how}"),
        Finding::FromLater => bail!("{name} comes from a later release; restore it with that one"),
    }
}

/// Copies a database and checks the copy; leaves nothing behind if that fails.
async fn copy_checked(from: &Path, part: &Path) -> anyhow::Result<Tallies> {
    let copied = async {
        private_file(part).with_context(|| format!("cannot write {}", part.display()))?;
        backup::copy(from, part).await?;
        let tallies = check(part).await?;
        File::open(part)?.sync_all()?;
        Ok(tallies)
    };
    let copied = copied.await;
    if copied.is_err() {
        let _ = fs::remove_file(part);
    }
    copied
}

/// Gives a checked copy its name, at once and for good.
fn put_in_place(part: &Path, file: &Path) -> anyhow::Result<()> {
    fs::rename(part, file).with_context(|| format!("cannot write {}", file.display()))?;
    // A rename survives a power cut once its folder is on disk.
    Ok(File::open(folder_of(file))?.sync_all()?)
}

/// An empty file that only its owner reads: names of people will be in it.
fn private_file(path: &Path) -> std::io::Result<File> {
    match fs::remove_file(path) {
        Err(why) if why.kind() != std::io::ErrorKind::NotFound => return Err(why),
        _ => {}
    }
    OpenOptions::new().write(true).create_new(true).mode(0o600).open(path)
}

fn folder_of(file: &Path) -> PathBuf {
    match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    }
}

fn same_file(one: &Path, other: &Path) -> bool {
    matches!((one.canonicalize(), other.canonicalize()), (Ok(one), Ok(other)) if one == other)
}

fn with_ending(file: &Path, ending: &str) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

fn sum(tallies: &Tallies) -> String {
    format!(
        "outfits {}, rigs {}, readings {}, services {}",
        tallies.outfits, tallies.rigs, tallies.readings, tallies.services
    )
}
