//! Backup and restore of a SQLite database, and the list of outfits.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};

use insta::assert_snapshot;
use tapside::backup::{Outcome, back_up, restore};
use tapside::bot::Tokens;
use tapside::desk::{Desk, Manner};
use tapside::play::script;
use tapside::store::Store;
use tempfile::TempDir;

use super::world::{DAY, WEDNESDAY_MORNING, World};

/// A desk over a file of its own, whatever database the suite runs on.
struct Yard {
    folder: TempDir,
}

impl Yard {
    fn new() -> Self {
        Self {
            folder: tempfile::tempdir().unwrap(),
        }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn url(&self, name: &str) -> String {
        format!("sqlite:{}", self.path(name).display())
    }

    async fn desk(&self, name: &str) -> Desk {
        let store = Store::open(&self.url(name)).await.unwrap();
        store.migrate().await.unwrap();
        let mut desk = Desk::new(store, "UTC".to_owned(), Tokens::Random, name.to_owned());
        desk.settle_in(WEDNESDAY_MORNING).await.unwrap();
        desk
    }

    async fn back_up(&self, from: &str, to: &Path, force: bool) -> Result<String, String> {
        let mut out = Vec::new();
        let outcome = back_up(&self.url(from), to, force, &mut out).await;
        told(outcome, out, self)
    }

    async fn restore(&self, to: &str, from: &Path, force: bool) -> Result<String, String> {
        let mut out = Vec::new();
        let outcome = restore(&self.url(to), from, force, 1_772_000_000, &mut out).await;
        told(outcome, out, self)
    }

    fn names(&self) -> Vec<String> {
        let names = fs::read_dir(self.folder.path()).unwrap();
        let mut names: Vec<String> = names
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }
}

fn told(outcome: anyhow::Result<Outcome>, out: Vec<u8>, yard: &Yard) -> Result<String, String> {
    let short = |text: String| text.replace(&format!("{}/", yard.folder.path().display()), "");
    match outcome {
        Ok(Outcome::Done) => Ok(short(String::from_utf8(out).unwrap())),
        Ok(Outcome::OtherWay) => Err(short(String::from_utf8(out).unwrap())),
        Err(why) => Err(short(format!("{why:#}"))),
    }
}

async fn says(desk: &mut Desk, text: &str, minute: i64) -> String {
    let now = WEDNESDAY_MORNING + 60 * minute;
    let heard = desk.says("crew", Manner::Says, text, now).await.unwrap();
    script::write(&heard, Some("crew"))
}

async fn readings(desk: &Desk) -> Vec<i64> {
    let mut tx = desk.bot().store().begin().await.unwrap();
    sqlx::query_scalar("select id from readings order by id")
        .fetch_all(&mut *tx)
        .await
        .unwrap()
}

#[tokio::test]
async fn a_backup_made_while_readings_flow_is_whole_and_answers_the_same() {
    let yard = Yard::new();
    let mut desk = yard.desk("bot.sqlite").await;
    let now = WEDNESDAY_MORNING;
    desk.says("owner", Manner::Says, "add rigs heron, otter", now)
        .await
        .unwrap();
    let copy = yard.path("copy.sqlite");
    let flow = async {
        for minute in 1..=40 {
            says(&mut desk, &format!("heron 180 {}", 10 + minute % 5), minute).await;
        }
    };
    let (_, made) = tokio::join!(flow, yard.back_up("bot.sqlite", &copy, false));
    made.unwrap();
    assert_eq!(
        fs::metadata(&copy).unwrap().permissions().mode() & 0o777,
        0o600,
        "names are in it"
    );
    // What was made in the midst holds everything up to some moment, and nothing half.
    yard.restore("midst.sqlite", &copy, false).await.unwrap();
    let midst = readings(&yard.desk("midst.sqlite").await).await;
    assert!(readings(&desk).await.starts_with(&midst), "{midst:?}");

    let told = yard.back_up("bot.sqlite", &copy, true).await.unwrap();
    assert_snapshot!(told, @"Backed up to copy.sqlite: outfits 1, rigs 2, readings 40, services 0. Checked, and sound.");
    let told = yard.restore("new.sqlite", &copy, false).await.unwrap();
    assert_snapshot!(told, @"Restored new.sqlite: outfits 1, rigs 2, readings 40, services 0.");
    let mut new = yard.desk("new.sqlite").await;
    for question in ["heron?", "history heron", "fleet", "heron 182 12"] {
        let minute = 100;
        assert_eq!(
            says(&mut new, question, minute).await,
            says(&mut desk, question, minute).await
        );
    }
}

#[tokio::test]
async fn a_backup_is_never_written_over_unasked_and_nothing_is_left_behind() {
    let yard = Yard::new();
    let desk = yard.desk("bot.sqlite").await;
    let copy = yard.path("copy.sqlite");
    fs::write(&copy, "last year's").unwrap();
    let refusal = yard.back_up("bot.sqlite", &copy, false).await.unwrap_err();
    assert_snapshot!(refusal, @"copy.sqlite is there already; --force writes over it, once the new backup is sound");
    assert_eq!(fs::read(&copy).unwrap(), b"last year's");
    let refusal = yard.back_up("nowhere.sqlite", &copy, true).await.unwrap_err();
    assert_snapshot!(refusal, @"there is no database at nowhere.sqlite");
    let itself = yard.path("bot.sqlite");
    let refusal = yard.back_up("bot.sqlite", &itself, true).await.unwrap_err();
    assert_snapshot!(refusal, @"bot.sqlite is the database itself");
    yard.back_up("bot.sqlite", &copy, true).await.unwrap();
    desk.bot().store().close().await;
    assert_eq!(yard.names(), ["bot.sqlite", "copy.sqlite"]);
}

#[tokio::test]
async fn only_a_sound_backup_is_restored_and_only_over_a_database_at_rest() {
    let yard = Yard::new();
    let mut desk = yard.desk("bot.sqlite").await;
    desk.says("owner", Manner::Says, "add rigs heron", WEDNESDAY_MORNING)
        .await
        .unwrap();
    let copy = yard.path("copy.sqlite");
    yard.back_up("bot.sqlite", &copy, false).await.unwrap();

    let refusal = yard.restore("bot.sqlite", &copy, false).await.unwrap_err();
    assert_snapshot!(refusal, @"bot.sqlite is there already; --force keeps it aside under another name");
    let refusal = yard.restore("bot.sqlite", &copy, true).await.unwrap_err();
    assert_snapshot!(refusal, @"bot.sqlite is in use; stop the bot first");
    says(&mut desk, "heron 180 12", 1).await;
    desk.bot().store().close().await;
    let told = yard.restore("bot.sqlite", &copy, true).await.unwrap();
    assert_snapshot!(told, @r"
    Kept the old one as bot.sqlite.before-20260225T061320Z.
    Restored bot.sqlite: outfits 1, rigs 1, readings 0, services 0.
    ");
    assert_eq!(
        yard.names(),
        ["bot.sqlite", "bot.sqlite.before-20260225T061320Z", "copy.sqlite"]
    );
    let kept = yard.desk("bot.sqlite.before-20260225T061320Z").await;
    assert_eq!(readings(&kept).await.len(), 1, "what was texted since is not lost");
}

#[tokio::test]
async fn what_is_no_sound_backup_is_named() {
    let yard = Yard::new();
    let desk = yard.desk("bot.sqlite").await;
    let copy = yard.path("copy.sqlite");
    yard.back_up("bot.sqlite", &copy, false).await.unwrap();

    let mut bytes = fs::read(&copy).unwrap();
    let half = bytes.len() / 2;
    bytes[4096..half].fill(0x5a);
    fs::write(yard.path("damaged.sqlite"), bytes).unwrap();
    fs::write(yard.path("letter.txt"), "Dear host").unwrap();
    let other = Store::open(&yard.url("other.sqlite")).await.unwrap();
    other.close().await;
    let mut tx = desk.bot().store().begin().await.unwrap();
    sqlx::raw_sql("update _sqlx_migrations set version = 9999 where version = 1")
        .execute(&mut *tx)
        .await
        .unwrap();
    tx.commit().await.unwrap();
    let later = yard.path("later.sqlite");
    let refusal = yard.back_up("bot.sqlite", &later, false).await.unwrap_err();
    assert_snapshot!(refusal, @"later.sqlite.part comes from a later release; restore it with that one");
    for (name, words) in [
        ("damaged.sqlite", "is damaged"),
        ("letter.txt", "is damaged: file is not a database"),
        ("other.sqlite", "is no backup of Tapside's"),
        ("nowhere.sqlite", "there is no backup at"),
    ] {
        let refusal = yard.restore("new.sqlite", &yard.path(name), false).await.unwrap_err();
        assert!(refusal.contains(words), "{name}: {refusal}");
    }
    assert!(!yard.path("new.sqlite").exists());
}

#[tokio::test]
async fn postgresql_is_told_how_it_is_done_there() {
    let mut out = Vec::new();
    let outcome = back_up("postgres://ada:hush@db/tapside", Path::new("x"), false, &mut out).await;
    assert_eq!(outcome.unwrap(), Outcome::OtherWay);
    let told = String::from_utf8(out).unwrap();
    assert!(told.contains("pg_dump") && !told.contains("hush"), "{told}");
}

#[tokio::test]
async fn outfits_are_a_line_each_and_name_nobody() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.now += DAY;
    world.says("crew", "mule 180 12").await;
    world.says("crew", "scrap that").await;
    let mut out = Vec::new();
    tapside::outfits::run(world.desk.bot().store(), &mut out).await.unwrap();
    assert_snapshot!(String::from_utf8(out).unwrap(), @r"
    number  name       people  rigs  last reading  zone
    1       My outfit  2       3     2026-03-04    Europe/London
    ");
}
