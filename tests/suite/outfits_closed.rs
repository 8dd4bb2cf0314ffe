//! An outfit is closed: whoever moved to another reaches nothing of the one that they left, and nothing of it reaches
//! them.

use std::collections::BTreeSet;
use std::path::Path;

use tapside::domain::envelope::Happening;
use tapside::store::{self, Db};

use crate::world::{DAY, HOUR, World, arrived};

/// Rows of an outfit that somebody could change: each with all that is in it.
async fn rows(db: &mut Db, outfit: i64) -> Vec<String> {
    let mut all = Vec::new();
    for sql in [
        "select cast(id as text) || ' ' || cast(rig_id as text) || ' ' || cast(feed_ppm as text) || ' ' ||
             coalesce(cast(withdrawn_at as text), '-') from readings where outfit_id = $1 order by id",
        "select cast(id as text) || ' ' || what || ' ' || coalesce(cast(withdrawn_at as text), '-')
             from services where outfit_id = $1 order by id",
        "select cast(id as text) || ' ' || coalesce(cast(not_used_at as text), '-') || ' ' ||
             coalesce(cast(again_at as text), '-') from nudges where outfit_id = $1 order by id",
        "select cast(id as text) || ' ' || name || ' ' || value from settings where outfit_id = $1 order by id",
        "select name || ' ' || coalesce(cast(removed_at as text), '-') from rigs where outfit_id = $1 order by id",
    ] {
        let found: Vec<String> = sqlx::query_scalar(sql).bind(outfit).fetch_all(&mut *db).await.unwrap();
        all.extend(found);
    }
    all
}

/// Ann records in the first outfit, is asked something there, leaves, and founds a second one with a rig of that name.
async fn moved() -> World {
    let mut world = World::new().await;
    let token = world.invite().await;
    world.joins_as("ann", "ann", &token).await;
    let first = arrived(
        "chat/1",
        0,
        "desk:ann",
        "ann",
        Happening::Text("heron 180 12".to_owned()),
        world.now,
    );
    world.desk.bot().hear(&[first], world.now).await.unwrap();
    world.says("ann", "heron flushed").await;
    world.says("ann", "otter 200 14").await;
    world.says("ann", "undo").await;
    world.says("ann", "my rig heron").await;
    world.says("ann", "otter 12").await;
    world.says("ann", "leave").await;
    let token = world.desk.bot().found_token(world.now).await.unwrap();
    world.joins_as("ann", "ann", &token).await;
    world.says("ann", "stop").await;
    world.says("ann", "add rigs heron").await;
    world
}

#[tokio::test]
async fn whoever_moved_changes_nothing_of_the_outfit_that_they_left() {
    let mut world = moved().await;
    let store = world.desk.bot().store().clone();
    let before = rows(&mut store.read().await.unwrap(), 1).await;
    assert!(before.len() > 5, "{before:?}");
    for text in [
        "*14",
        "undo",
        "put back",
        "done",
        "not used",
        "in 30 minutes",
        "that was wrong",
        "no, 10",
        "14",
        "yes",
        "otter",
        "heron 180 10",
        "undo",
        "forget it",
        "delete the last one",
        "flushed",
        "remove heron",
        "it was yesterday",
    ] {
        world.says("ann", text).await;
        let after = rows(&mut store.read().await.unwrap(), 1).await;
        assert_eq!(after, before, "{text}");
    }
    // A reply to, and an edit of, what they said there.
    let at = world.now;
    for (key, version, text) in [("chat/1", 1 << 40, "heron 180 99"), ("chat/2", 0, "*15")] {
        let mut again = arrived(
            key,
            version,
            "desk:ann",
            "ann",
            Happening::Text(text.to_owned()),
            at - 12 * 60,
        );
        if let tapside::domain::envelope::Arrived::Incoming(incoming) = &mut again {
            incoming.reply_to = Some("chat/1".to_owned());
            incoming.sent_at = if version > 0 { at - 3600 } else { at };
        }
        world.desk.bot().hear(&[again], at).await.unwrap();
        let after = rows(&mut store.read().await.unwrap(), 1).await;
        assert_eq!(after, before, "{text}");
    }
    let fed: Vec<f64> = sqlx::query_scalar("select permeate_ppm from readings where outfit_id = 2 order by id")
        .fetch_all(&mut *store.read().await.unwrap())
        .await
        .unwrap();
    assert!(
        !fed.contains(&99.0),
        "an edit of what was said in one outfit is no reading of another: {fed:?}"
    );
}

#[tokio::test]
async fn a_closed_outfit_is_deleted_though_people_moved_and_others_are_closed_with_it() {
    let mut world = moved().await;
    let store = world.desk.bot().store().clone();
    {
        // As an older release left them: on a rig, and reminded of one, that they have nothing to do with any more.
        let mut tx = store.begin().await.unwrap();
        sqlx::query("update people set nudged_rig_id = 1, today_rig_id = 1 where address = 'desk:ann'")
            .execute(&mut *tx)
            .await
            .unwrap();
        tx.commit().await.unwrap();
    }
    let name = store::outfits::get(&mut store.read().await.unwrap(), 1)
        .await
        .unwrap()
        .name;
    let closing = world.says("owner", &format!("close outfit {name}")).await;
    assert!(closing.contains("deleted"), "{closing}");
    world.waits(8 * DAY).await;
    let mut db = store.read().await.unwrap();
    let left: Vec<i64> = store::outfits::all(&mut db)
        .await
        .unwrap()
        .iter()
        .map(|outfit| outfit.id)
        .collect();
    assert_eq!(left, [2]);
    assert_eq!(rows(&mut db, 1).await, Vec::<String>::new());
}

#[tokio::test]
async fn the_invites_of_whoever_may_less_end_with_what_they_may_no_more() {
    let mut world = World::new().await;
    let link = |said: String| {
        let token = said
            .split("/start ")
            .nth(1)
            .and_then(|rest| rest.split_whitespace().next());
        token.unwrap_or_else(|| panic!("no link in {said}")).to_owned()
    };
    world.says("lead", "fleet").await;
    world.says("owner", "make lead owner").await;
    let (owner, lead, crew) = (
        link(world.says("lead", "invite owner").await),
        link(world.says("lead", "invite lead").await),
        link(world.says("lead", "invite").await),
    );
    world.says("owner", "make lead lead").await;
    for ended in [&owner, &lead] {
        assert!(
            world.says("ann", &format!("/start {ended}")).await.contains("expired"),
            "above a lead"
        );
        world.now += HOUR;
    }
    assert!(world.says("ann", &format!("/start {crew}")).await.contains("as crew"));
    world.says("owner", "make lead crew").await;
    assert!(world.says("bea", &format!("/start {crew}")).await.contains("expired"));
    // An owner who hands over is a lead.
    let mine = link(world.says("owner", "invite owner").await);
    let handed = world.says("owner", "hand over to lead, yes").await;
    assert!(handed.contains("is an owner now"), "{handed}");
    assert!(world.says("cleo", &format!("/start {mine}")).await.contains("expired"));
}

#[tokio::test]
async fn a_group_is_of_one_outfit() {
    let mut world = moved().await;
    world.says_in_the_group("owner", "link chat").await;
    let said = world.says_in_the_group("ann", "link chat").await;
    assert!(said.contains("Another business uses this chat"), "{said}");
    let store = world.desk.bot().store().clone();
    let mut db = store.read().await.unwrap();
    assert_eq!(store::settings::crew_chat(&mut db, 2).await.unwrap(), None);
    drop(db);
    world.says_in_the_group("owner", "unlink chat").await;
    let said = world.says_in_the_group("ann", "link chat").await;
    assert!(!said.contains("Another business"), "{said}");
}

/// Tables whose rows are of an outfit and are found by a person or by a message.
const OF_AN_OUTFIT: [&str; 7] = [
    "readings", "services", "nudges", "imports", "invites", "changes", "digests",
];

/// Statements that see to a person in all outfits at once, by their beginnings, and why.
const OF_NO_OUTFIT: [&str; 4] = [
    // Whoever goes or is forgotten: nothing of any outfit may wait for them.
    "update nudges set chat = '', repeated_at",
    "update imports set source = '', settled_at",
    "update invites set uses_left = 0 where person_id = $1",
    // Keys of a chat that is forgotten.
    "update readings set source_key",
];

#[test]
fn every_statement_that_finds_rows_by_a_person_or_a_message_names_the_outfit() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/store");
    let (mut checked, mut open) = (0, BTreeSet::new());
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        // A statement is a string; the parts of those put together by a macro stand apart, and the table's name is the file's.
        for statement in text.split('"').skip(1).step_by(2) {
            let flat = statement.split_whitespace().collect::<Vec<_>>().join(" ");
            let by = ["person_id = ", "source_key = ", "person_id = cast"];
            let finds = by
                .iter()
                .any(|by| flat.contains(&format!("where {by}")) || flat.contains(&format!("and {by}")));
            let own = path.file_stem().unwrap().to_string_lossy().into_owned();
            let of_outfit = OF_AN_OUTFIT.iter().any(|table| {
                flat.contains(&format!("from {table}"))
                    || flat.contains(&format!("update {table}"))
                    || (flat.starts_with("where") && own == *table)
            });
            if !finds || !of_outfit {
                continue;
            }
            checked += 1;
            if !flat.contains("outfit_id") && !OF_NO_OUTFIT.iter().any(|start| flat.starts_with(start)) {
                open.insert(format!("{own}: {flat}"));
            }
        }
    }
    assert!(checked >= 8, "{checked} statements were looked at");
    assert!(open.is_empty(), "{open:#?}");
}
