//! Hours of an outfit and of a rig: when the end-of-day question comes.

use insta::assert_snapshot;

use crate::world::{HOUR, World};

#[tokio::test]
async fn a_rig_with_hours_of_its_own_is_asked_about_at_its_own_time() {
    let mut world = World::new().await;
    world.says("owner", "otter day ends 15:00").await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "otter 180 12").await;
    assert_snapshot!(world.waits(7 * HOUR).await, @r"
    bot to crew: Otter worked today and hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [In 30 minutes]  [Not used]
    ");
    world.says("crew", "otter flushed").await;
    assert_snapshot!(world.waits(2 * HOUR).await, @r"
    bot to crew: Heron worked today and hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [In 30 minutes]  [Not used]
    ");
}

#[tokio::test]
async fn saturdays_may_end_earlier() {
    let mut world = World::new().await;
    world.says("owner", "saturday ends 13:00").await;
    world.now += 3 * 24 * HOUR;
    world.says("crew", "heron 180 12").await;
    assert_eq!(world.waits(4 * HOUR).await, "");
    assert_snapshot!(world.waits(HOUR).await, @r"
    bot to crew: Heron worked today and hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [In 30 minutes]  [Not used]
    ");
}

#[tokio::test]
async fn reminders_can_be_turned_off_for_all_or_for_one_rig() {
    let mut world = World::new().await;
    world.says("owner", "otter nudges off").await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "otter 180 12").await;
    assert_snapshot!(world.waits(9 * HOUR).await, @r"
    bot to crew: Heron worked today and hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [In 30 minutes]  [Not used]
    ");
    world.says("crew", "heron flushed").await;
    world.says("owner", "nudges off").await;
    world.now += 15 * HOUR;
    world.says("crew", "heron 180 12").await;
    assert_eq!(world.waits(9 * HOUR).await, "");
}

#[tokio::test]
async fn an_outfit_elsewhere_ends_its_day_by_its_own_clock() {
    let mut world = World::new().await;
    world.says("owner", "zone America/Los_Angeles").await;
    world.says("owner", "warnings off").await;
    world.says("crew", "heron 180 12").await;
    assert_eq!(
        world.waits(10 * HOUR).await,
        "",
        "five o'clock in London is morning there"
    );
    assert_snapshot!(world.waits(7 * HOUR).await, @r"
    bot to crew: Heron worked today and hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [In 30 minutes]  [Not used]
    ");
}
