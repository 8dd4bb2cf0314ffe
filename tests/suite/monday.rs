//! What the bot says of its own accord: the digest on Monday, and what is due
//! between. World starts on Wednesday, 4 March 2026, 8:00 in London.

use insta::assert_snapshot;

use crate::world::{HOUR, World};

const DAY: i64 = 24 * HOUR;

/// Until the next Monday, 7:00: four days and 23 hours from the start.
async fn to_monday(world: &mut World) -> String {
    let start = world.now;
    let mut heard = String::new();
    while world.now < start + 4 * DAY + 23 * HOUR {
        heard = world.waits(HOUR).await;
    }
    heard
}

#[tokio::test]
async fn owners_get_the_digest_on_monday_morning_once_and_nobody_else() {
    let mut world = World::new().await;
    world.says("owner", "warnings off").await;
    world.says("lead", "otter flushes itself").await;
    for rig in ["heron", "otter"] {
        world.says("crew", &format!("{rig} 180 12 flushed")).await;
    }
    assert_snapshot!(to_monday(&mut world).await, @r"
    bot to owner: Frost risk at night.
         My outfit, 2 Mar to 8 Mar: 3 rigs, 2 readings.
         .
         1. Frost season: keep the rigs warm at night, or drain them as the maker says
             ice ruins membranes and splits housings
         .
         Heron too early to tell, flushed 1/1
         Otter too early to tell
         Mule too early to tell, never read
         [More]
    bot to owner: [picture: fleet.png]
    ");
    assert_eq!(world.waits(HOUR).await, "", "once");
    assert_snapshot!(world.says("owner", "[More]").await, @r"
    bot: Can't forecast resin yet (needs bed size, litres a day, last change): Heron, Mule, Otter
         Prefilters never logged: Heron, Otter
         .
         No reading last week: Mule (never read)
    ");
    assert_snapshot!(world.says("crew", "digest").await, @"bot: Only an owner or lead can do that.");
    assert!(world.says("lead", "digest").await.contains("[picture: fleet.png]"));
}

#[tokio::test]
async fn day_and_hour_are_the_owners_to_set_and_so_is_silence() {
    let mut world = World::new().await;
    world.says("owner", "warnings off").await;
    world.says("owner", "digest friday 6:00").await;
    world.says("crew", "heron 180 12 flushed").await;
    assert_eq!(world.waits(DAY + 21 * HOUR).await, "", "not before six");
    assert!(world.waits(HOUR).await.contains("My outfit, "), "Friday at six");
    world.says("owner", "digest off").await;
    assert_eq!(world.waits(7 * DAY).await, "");
}

#[tokio::test]
async fn a_host_that_slept_sends_the_digest_late_but_not_a_day_late() {
    let mut world = World::new().await;
    world.says("owner", "warnings off").await;
    world.says("crew", "heron 180 12 flushed").await;
    world.now += 5 * DAY + 20 * HOUR;
    assert!(world.waits(0).await.contains("bot to owner: "), "20 hours late");
    world.now += 8 * DAY;
    assert_eq!(world.waits(0).await, "", "a day late is no news");
}

#[tokio::test]
async fn a_week_without_readings_says_so_and_invents_nothing() {
    let mut world = World::new().await;
    world.says("owner", "warnings off").await;
    world.says("crew", "heron 180 12 flushed").await;
    to_monday(&mut world).await;
    let mut heard = String::new();
    for _ in 0..7 * 24 {
        heard = world.waits(HOUR).await;
    }
    assert_snapshot!(heard, @r"
    bot to owner: No readings since 4 Mar. Please get one from each rig today.
         My outfit, 9 Mar to 15 Mar: 3 rigs, no readings.
         .
         By the last readings:
         1. Heron: no reading since 4 Mar
             parked, or not logged?
         .
         Heron too early to tell, last read on 4 Mar
         Mule too early to tell, never read
         Otter too early to tell, never read
         [More]
    bot to owner: [picture: fleet.png]
         [picture: heron-history.png]
    ");
}

#[tokio::test]
async fn a_rig_that_stands_is_spoken_of_at_five_fourteen_and_thirty_days() {
    let mut world = World::new().await;
    world.says("owner", "digest off").await;
    world.says("lead", "remove rig mule").await;
    world.says("lead", "remove rig otter").await;
    world.says("crew", "heron 180 12 flushed").await;
    let mut told = Vec::new();
    for day in 1..60 {
        let heard = world.waits(DAY).await;
        if heard.contains("No reading from Heron") {
            told.push(day);
        }
    }
    // On working days alone: the 5th, 14th and 30th day is a Monday, a Wednesday, a Friday.
    assert_eq!(told, [5, 14, 30]);
}

#[tokio::test]
async fn a_membrane_in_preservative_is_left_in_peace_until_it_works_again() {
    let mut world = World::new().await;
    world.says("lead", "remove rig mule").await;
    world.says("lead", "remove rig otter").await;
    world.says("crew", "heron 180 12 flushed").await;
    world.waits(6 * DAY).await;
    assert_snapshot!(world.says("lead", "heron preserved").await, @r"
    bot: Heron: membrane in preservative. Logged. I won't ask about it until it's back at work.
         Renew the preservative as its label says; before the next window, flush it well.
    ");
    let mut asked = String::new();
    for _ in 0..60 {
        asked += &world.waits(DAY).await;
    }
    assert!(!asked.contains("has stood"), "{asked}");
    assert!(!asked.contains("if it stands"), "{asked}");
    assert!(
        world
            .says("crew", "heron?")
            .await
            .contains("Membrane in preservative since 10 Mar")
    );
    assert_snapshot!(world.says("lead", "undo").await, @"bot: You've sent nothing in the last 12 hours that I can undo.");
    world.says("lead", "heron preserved").await;
    assert_snapshot!(world.says("lead", "undo").await, @"bot: Undone: Heron, membrane in preservative.");
    world.says("crew", "heron 180 12 flushed").await;
    assert!(!world.says("crew", "heron?").await.contains("preservative"));
    let mut asked = String::new();
    for _ in 0..7 {
        asked += &world.waits(DAY).await;
    }
    assert!(asked.contains("for 5 days"), "{asked}");
}

#[tokio::test]
async fn nobody_is_told_more_than_three_things_a_day_unasked() {
    let mut world = World::new().await;
    world.says("owner", "digest off").await;
    world.says("lead", "add rigs ibis, lynx, wren, crane").await;
    for rig in ["heron", "otter", "mule", "ibis", "lynx", "wren", "crane"] {
        world.says("crew", &format!("{rig} 180 12 flushed")).await;
    }
    let heard = world.waits(5 * DAY).await;
    assert_eq!(heard.matches("bot to lead: ").count(), 3, "{heard}");
    assert_eq!(heard.matches("bot to ").count(), 3, "{heard}");
    let next = world.waits(DAY).await;
    assert_eq!(
        next.matches("bot to lead: ").count(),
        3,
        "the rest comes next day: {next}"
    );
}

#[tokio::test]
async fn whoever_may_be_asked_to_flush_has_room_left_for_that() {
    let mut world = World::new().await;
    world.says("owner", "digest off").await;
    for rig in ["heron", "otter", "mule"] {
        world.says("owner", &format!("{rig} resin 11 litres")).await;
        world.says("owner", &format!("{rig} 800 litres a day")).await;
        world.says("crew", &format!("{rig} new resin")).await;
    }
    let mut most = 0;
    for _ in 0..10 {
        let mut day = String::new();
        for rig in ["heron", "otter", "mule"] {
            world.says("crew", &format!("{rig} 400 60")).await;
        }
        for _ in 0..24 {
            day += &world.waits(HOUR).await;
        }
        assert!(day.contains("been flushed"), "{day}");
        most = most.max(day.matches("bot to crew: ").count());
    }
    assert_eq!(most, 3, "the question, its repetition, and one thing more");
}

#[tokio::test]
async fn what_was_put_off_comes_again_in_a_week() {
    let mut world = World::new().await;
    world.says("owner", "digest off").await;
    world.says("crew", "heron 180 12 4C flushed").await;
    assert_snapshot!(world.waits(DAY).await, @r"
    bot to owner: Frost: the water was down to 4 °C (39 °F).
         Keep the rigs warm tonight, or drain them as the maker says.
         .
         Ice ruins membranes and splits housings. Keep the rig warm, or drain it the way its maker says (a dried-out membrane is ruined too).
         [In a week]  [Got it]
    ");
    assert_snapshot!(world.says("owner", "[In a week]").await, @"bot: OK, I'll ask again in a week.");
    let mut told = Vec::new();
    for day in 1..12 {
        world.says("crew", "heron 180 12 4C flushed").await;
        if world.waits(DAY).await.contains("Frost") {
            told.push(day);
        }
    }
    assert_eq!(told, [7]);
}

#[tokio::test]
async fn a_digest_on_request_tells_of_today_too_and_the_button_of_its_own_monday() {
    let mut world = World::new().await;
    world.says("owner", "warnings off").await;
    world.says("crew", "heron 180 12 flushed").await;
    let asked = world.says("owner", "digest").await;
    assert!(asked.contains("26 Feb to 4 Mar: 3 rigs, 1 reading."), "{asked}");
    to_monday(&mut world).await;
    world.says("crew", "otter 180 12").await;
    let monday = world.says("owner", "[More]").await;
    assert!(
        monday.contains("No reading last week: Mule (never read), Otter (never read)"),
        "{monday}"
    );
    let now = world.says("owner", "digest more").await;
    assert!(
        now.contains("No reading last week: Mule (never read)\n") || now.ends_with("Mule (never read)"),
        "{now}"
    );
}
