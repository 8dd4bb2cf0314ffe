//! The end of the day: who worked and did not flush is asked once.

use insta::assert_snapshot;

use crate::world::{HOUR, World};

#[tokio::test]
async fn whoever_worked_a_rig_is_reminded_once_at_the_end_of_the_day() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "otter 180 12").await;
    world.says("crew", "otter flushed").await;
    assert_eq!(world.waits(8 * HOUR).await, "", "not before the day ends");
    assert_snapshot!(world.waits(HOUR).await, @r"
    bot to crew: Heron worked today and is not flushed yet. Full waste, ten minutes.
         [Flushed]  [Not used]
    ");
    assert_eq!(world.waits(HOUR / 2).await, "", "once");
    assert_snapshot!(world.says("crew", "[Flushed]").await, @"bot: Heron: flushed. Noted.");
}

#[tokio::test]
async fn a_reminder_that_the_host_slept_through_is_not_sent_late_at_night() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    assert_eq!(world.waits(13 * HOUR).await, "");
}

#[tokio::test]
async fn a_rig_that_did_not_work_is_left_alone() {
    let mut world = World::new().await;
    assert_eq!(world.waits(9 * HOUR).await, "");
}
