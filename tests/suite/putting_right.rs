//! Slips of the thumb: edits, undo, corrections.

use insta::assert_snapshot;

use crate::world::{DAY, World};

#[tokio::test]
async fn an_edited_message_corrects_the_reading_that_it_made() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 21").await;
    assert_snapshot!(world.edits("crew", "heron 180 12").await, @r"
    bot: Corrected: Heron 93.3% – too early to tell
         tap 180 → RO 12 ppm
         2 more readings, and I can tell.
         Flush before you pack up.
    ");
    let history = world.says("crew", "history heron").await;
    assert_eq!(history.matches("tap 180").count(), 1, "{history}");
}

#[tokio::test]
async fn an_edit_that_changes_no_text_says_nothing() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    assert_eq!(world.edits("crew", "heron 180 12").await, "");
}

#[tokio::test]
async fn an_edit_to_something_else_withdraws_and_says_so() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    let answer = world.edits("crew", "never mind").await;
    assert!(answer.contains("Undone: Heron, tap 180 → RO 12 ppm."), "{answer}");
    assert!(world.says("crew", "history heron").await.contains("no readings yet"));
}

#[tokio::test]
async fn undo_takes_back_the_last_thing_of_ones_own() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.says("crew-2", "otter 200 10").await;
    world.says("crew", "heron flushed").await;
    assert_snapshot!(world.says("crew", "undo").await, @"bot: Undone: Heron, flushed.");
    assert_snapshot!(world.says("crew", "undo").await, @"bot: Undone: Heron, tap 180 → RO 12 ppm. Kept on file, not counted.");
    assert_snapshot!(world.says("crew", "undo").await, @"bot: You've sent nothing in the last 12 hours that I can undo.");
    assert!(
        world.says("crew", "history otter").await.contains("tap 200"),
        "another's reading stays"
    );
}

#[tokio::test]
async fn undo_reaches_back_twelve_hours_and_no_further() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.now += DAY;
    assert!(world.says("crew", "undo").await.contains("You've sent nothing"));
}

#[tokio::test]
async fn undo_drops_an_open_question() {
    let mut world = World::new().await;
    world.says("crew", "otter 19 214").await;
    assert_snapshot!(world.says("crew", "undo").await, @"bot: OK, not logged.");
    let late = world.says("crew", "[tap 214, RO 19]").await;
    assert!(late.contains("closed"), "{late}");
}

#[tokio::test]
async fn a_lead_may_withdraw_what_the_crew_sent_by_naming_the_rig() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.says("lead", "otter 200 10").await;
    let answer = world.says("lead", "delete heron's last reading").await;
    assert!(answer.contains("Undone: Heron, tap 180 → RO 12 ppm."), "{answer}");
    assert!(world.says("crew", "history heron").await.contains("no readings yet"));
}

#[tokio::test]
async fn a_starred_number_corrects_the_last_reading() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 21").await;
    assert_snapshot!(world.says("crew", "*12").await, @r"
    bot: Corrected: Heron 93.3% – too early to tell
         tap 180 → RO 12 ppm
         2 more readings, and I can tell.
    ");
    let moved = world.says("crew", "that was otter").await;
    assert!(moved.contains("Otter 93.3%"), "{moved}");
    assert!(world.says("crew", "history heron").await.contains("no readings yet"));
}
