//! Days off: what is off is left in peace, what works again is taken up again.

use crate::world::{DAY, HOUR, World};

/// Everything that is said unasked in so many hours.
async fn unasked(world: &mut World, hours: i64) -> String {
    let mut said = String::new();
    for _ in 0..hours {
        said.push_str(&world.waits(HOUR).await);
    }
    said
}

/// What is set of a rig, or of the outfit.
async fn set(world: &mut World, whose: &str) -> Option<String> {
    let settings = world.says("owner", format!("{whose} settings").trim()).await;
    let line = settings.lines().find(|line| line.contains("time off"))?;
    Some(line.trim().to_owned())
}

#[tokio::test]
async fn a_rig_that_is_off_is_not_chased_and_a_reading_brings_it_back() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "otter 180 12").await;
    world.says("crew", "heron is at the garage").await;
    let evening = unasked(&mut world, 10).await;
    assert!(
        evening.contains("Otter worked today") && !evening.contains("Heron"),
        "{evening}"
    );
    world.says("crew", "otter flushed").await;
    // Five and fourteen days without a reading, a Monday in between.
    let weeks = unasked(&mut world, 16 * 24).await;
    assert!(!weeks.contains("No reading from Heron"), "{weeks}");
    assert!(weeks.contains("No reading from Otter"), "{weeks}");
    let back = world.says("crew", "heron 180 12").await;
    assert!(back.contains("Heron is back at work."), "{back}");
    assert_eq!(set(&mut world, "heron").await, None);
    // What the reading did is undone with it.
    world.says("crew", "undo").await;
    assert!(set(&mut world, "heron").await.is_some());
    world.says("crew", "heron 180 12").await;
    let again = world.says("crew", "heron 181 12").await;
    assert!(!again.contains("back at work"), "{again}");
}

#[tokio::test]
async fn nothing_falls_due_while_everybody_is_off() {
    let mut world = World::new().await;
    for rig in ["heron", "otter", "mule"] {
        world.says("crew", &format!("{rig} 180 12 flushed")).await;
    }
    world.says("owner", "we're closed for three weeks").await;
    assert_eq!(
        set(&mut world, "").await.as_deref(),
        Some("time off 2026-03-04 to 2026-03-24")
    );
    let monday = unasked(&mut world, 6 * 24).await;
    assert!(
        !monday.contains("no reading") && !monday.contains("No reading"),
        "{monday}"
    );
    assert_eq!(
        unasked(&mut world, 14 * 24).await,
        "",
        "nor a digest of a week in which nobody worked"
    );
    world.says("owner", "we're back").await;
    assert_eq!(set(&mut world, "").await, None);
}

#[tokio::test]
async fn crews_tell_of_rigs_and_leads_of_everybody() {
    let mut world = World::new().await;
    for text in ["we're closed next week", "off till monday", "no work tomorrow"] {
        world.says("crew", text).await;
        assert_eq!(set(&mut world, "").await, None, "{text}");
    }
    world.says("lead", "off till monday").await;
    assert_eq!(
        set(&mut world, "").await.as_deref(),
        Some("time off 2026-03-04 to 2026-03-08")
    );
    world.says("lead", "undo").await;
    assert_eq!(set(&mut world, "").await, None);
    // In the group only what is plain is taken.
    assert_eq!(world.says_in_the_group("lead", "off till monday").await, "");
    assert_eq!(world.says_in_the_group("crew", "we're closed next week").await, "");
    world
        .says_in_the_group("crew", "mule is in the workshop till friday")
        .await;
    assert_eq!(
        set(&mut world, "mule").await.as_deref(),
        Some("mule time off 2026-03-04 to 2026-03-05 garage")
    );
}

#[tokio::test]
async fn undo_takes_back_the_last_thing_told_and_once() {
    let mut world = World::new().await;
    world.says("crew", "heron laid up till friday").await;
    world.says("crew", "heron laid up till monday").await;
    assert_eq!(
        set(&mut world, "heron").await.as_deref(),
        Some("heron time off 2026-03-04 to 2026-03-08 winter")
    );
    world.says("crew", "undo").await;
    assert_eq!(
        set(&mut world, "heron").await.as_deref(),
        Some("heron time off 2026-03-04 to 2026-03-05 winter")
    );
    assert!(
        world.says("crew", "undo").await.contains("nothing in the last"),
        "nothing of their own is left"
    );
    // A reading that was told later goes first.
    world.says("crew", "otter is at the garage").await;
    world.says("crew", "mule 180 12").await;
    assert!(world.says("crew", "undo").await.contains("180"));
    assert!(set(&mut world, "otter").await.is_some());
}

#[tokio::test]
async fn days_off_survive_an_export_as_they_stand() {
    let mut world = World::new().await;
    world.says("crew", "heron is at the garage").await;
    world.says("owner", "closed 24 december to 2 january").await;
    for whose in ["", "heron"] {
        let line = set(&mut world, whose).await.expect("a line");
        world.says("owner", &format!("{whose} time off default")).await;
        assert_eq!(set(&mut world, whose).await, None);
        world.says("owner", &line).await;
        assert_eq!(set(&mut world, whose).await, Some(line));
    }
    let fleet = world.says("owner", "fleet").await;
    assert!(fleet.contains("at the garage"), "{fleet}");
    world.waits(DAY).await;
}

#[tokio::test]
async fn what_nobody_said_is_not_taken() {
    let mut world = World::new().await;
    for text in [
        "heron isn't off the road",
        "might park heron up next week",
        "is heron off next week?",
        "the merchant is closed till monday",
        "customer is on holiday until friday",
        "if heron is in the garage who takes otter",
        "heron's spare membrane is in the garage",
        "tom reckons heron is off the road",
        "heron parked up",
        "we were off last week",
        "heron needs to go in for its mot",
    ] {
        world.says("owner", text).await;
        for whose in ["", "heron", "otter", "mule"] {
            assert_eq!(set(&mut world, whose).await, None, "{text}");
        }
    }
}
