//! How long what is kept is kept.

use std::collections::BTreeMap;

use insta::assert_snapshot;
use sqlx::AssertSqlSafe;

use crate::world::{DAY, HOUR, World};

#[tokio::test]
async fn what_is_older_than_an_owner_wants_goes_for_good_and_only_after_a_yes() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "heron flushed").await;
    world.now += 400 * DAY;
    world.says("crew", "heron 200 16").await;
    world.says("lead", "keep 1 year").await;
    assert_snapshot!(world.says("lead", "keep 1 year").await, @"bot: Only an owner can do that.");
    assert_eq!(world.says_in_the_group("lead", "keep 1 year").await, "");
    assert_snapshot!(world.says_in_the_group("owner", "keep 1 year").await, @"bot to the group: That's for our private chat. Type it there.");
    assert_snapshot!(world.says("owner", "keep 1 year").await, @r#"
    bot: With "keep 1 year", everything from before 8 Apr 2026 is deleted for good: now 1 reading, 1 service, and from then on whatever gets older. Sure?
         It won't count in anything I work out. A copy first: export
         Tap the button, or type: keep 1 year, yes
         [Delete]
    "#);
    world.waits(HOUR).await;
    assert!(
        world.says("owner", "history heron").await.contains("tap 180"),
        "no yes, no deletion"
    );
    assert_snapshot!(world.says("owner", "[Delete]").await, @r"
    bot: Set: keep 1 year. Everything from before 8 Apr 2026 is deleted for good within a day: 1 reading, 1 service.
         To stop that: keep everything
    ");
    assert!(world.says("owner", "settings").await.contains("keep 1 year"));
    world.desk.bot().due(world.now).await.unwrap();
    let history = world.says("owner", "history heron").await;
    assert!(!history.contains("tap 180") && history.contains("tap 200"), "{history}");
    let counts = rows(&world).await;
    assert_eq!(counts, [1, 0], "withdrawn or not, nothing is left");
    assert_snapshot!(world.says("owner", "changes").await, @r#"
    bot: Who changed what, newest first
         today  by itself: 2 rows were too old to be kept and are deleted
         today  owner: set "keep 1 year"
         4 Mar 2026  owner: added Mule
         4 Mar 2026  owner: added Otter
         4 Mar 2026  owner: added Heron
         4 Mar 2026  owner: joined
    "#);
    // From here on each day takes what has got older.
    world.now += 368 * DAY;
    world.desk.bot().due(world.now).await.unwrap();
    assert_eq!(rows(&world).await, [0, 0]);
    assert_snapshot!(world.says("owner", "keep 2 years").await, @r"
    bot: No readings yet. Two numbers a day are enough: heron 180 12
         My outfit, 3 Apr to 9 Apr: 3 rigs, no readings.
         .
         Heron too early to tell, never read
         Mule too early to tell, never read
         Otter too early to tell, never read
         [More]
    bot: [picture: fleet.png]
    bot: Set: keep 2 years. Nothing is that old yet. From now on older rows are deleted for good, without asking again.
    ");
    assert_snapshot!(world.says("owner", "keep everything").await, @"bot: Set: keep everything. Nothing is deleted for its age.");
}

/// How many readings and services there are, counting or not.
async fn rows(world: &World) -> [usize; 2] {
    let mut tx = world.desk.bot().store().begin().await.unwrap();
    let readings = tapside::store::readings::of_outfit(&mut tx, 1).await.unwrap();
    let services = tapside::store::services::of_outfit(&mut tx, 1).await.unwrap();
    [readings.len(), services.len()]
}

#[tokio::test]
async fn what_one_outfit_deletes_is_its_own() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    let token = world.desk.bot().found_token(world.now).await.unwrap();
    world.says("newcomer", &format!("/start {token}")).await;
    world.says("newcomer", "stop").await;
    world.says("newcomer", "add rig heron").await;
    world.says("newcomer", "heron 190 19").await;
    world.now += 800 * DAY;
    world.says("newcomer", "keep 1 year").await;
    assert_snapshot!(world.says("newcomer", "keep 1 year, yes").await, @r"
    bot: Set: keep 1 year. Everything from before 12 May 2027 is deleted for good within a day: 1 reading.
         To stop that: keep everything
    ");
    world.desk.bot().due(world.now).await.unwrap();
    assert!(world.says("newcomer", "heron?").await.contains("no readings yet"));
    assert!(world.says("owner", "history heron").await.contains("tap 180"));
}

#[tokio::test]
async fn what_only_carried_messages_is_cleared_away_after_its_time() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "otter 19 214").await;
    world.says("owner", "invite 1 day").await;
    world
        .says("owner", "import\nrig,date,tap,ro\nheron,2026-03-01,180,12")
        .await;
    world.waits(9 * HOUR).await;
    let mut tx = world.desk.bot().store().begin().await.unwrap();
    tapside::store::dead::keep(&mut tx, "odd/1", "{}", "unread", world.now)
        .await
        .unwrap();
    tx.commit().await.unwrap();
    let before = tables(&world).await;
    for table in [
        "heard",
        "sends",
        "buttons",
        "questions",
        "invites",
        "slots",
        "dead",
        "unasked",
    ] {
        assert!(before[table] > 0, "{table} is empty before");
    }
    world.desk.bot().clear_away(world.now).await.unwrap();
    assert_eq!(tables(&world).await, before, "nothing is old yet");
    world.desk.bot().clear_away(world.now + 70 * DAY).await.unwrap();
    let after = tables(&world).await;
    for table in [
        "heard",
        "sends",
        "buttons",
        "questions",
        "invites",
        "slots",
        "dead",
        "unasked",
    ] {
        assert_eq!(after[table], 0, "{table}");
    }
    for table in ["people", "rigs", "settings", "outfits", "imports"] {
        assert_eq!(after[table], before[table], "{table}");
    }
    assert_snapshot!(world.says("owner", "import now").await, @"bot: Nothing is waiting to be imported. How it works: import");
}

/// How many rows each table has.
async fn tables(world: &World) -> BTreeMap<&'static str, i64> {
    let mut look = world.desk.bot().store().look().await.unwrap();
    let mut counts = BTreeMap::new();
    for table in [
        "heard",
        "sends",
        "buttons",
        "questions",
        "invites",
        "slots",
        "dead",
        "unasked",
        "people",
        "rigs",
        "settings",
        "outfits",
        "imports",
    ] {
        let sql = AssertSqlSafe(format!("select count(*) from {table}"));
        let count: i64 = sqlx::query_scalar(sql).fetch_one(&mut *look).await.unwrap();
        counts.insert(table, count);
    }
    counts
}
