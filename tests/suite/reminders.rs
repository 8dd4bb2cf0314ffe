//! The end of the day: who worked and did not flush is asked, at most twice,
//! and told the next morning.

use insta::assert_snapshot;

use tapside::domain::envelope::Happening;

use crate::world::{HOUR, World, arrived};

#[tokio::test]
async fn whoever_worked_a_rig_is_reminded_at_the_end_of_the_day() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "otter 180 12").await;
    world.says("crew", "otter flushed").await;
    assert_eq!(world.waits(8 * HOUR).await, "", "not before the day ends");
    assert_snapshot!(world.waits(HOUR).await, @r"
    bot to crew: Heron worked today and hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [In 30 minutes]  [Not used]
    ");
    assert_snapshot!(world.says("crew", "[Flushed]").await, @"bot: Heron: flushed. Logged.");
    assert_eq!(world.waits(HOUR).await, "", "once it is flushed nobody asks again");
}

#[tokio::test]
async fn several_rigs_of_one_person_are_asked_about_in_one_message() {
    let mut world = World::new().await;
    for rig in ["heron", "otter", "mule"] {
        world.says("crew", &format!("{rig} 180 12")).await;
    }
    assert_snapshot!(world.waits(9 * HOUR).await, @r"
    bot to crew: Heron, Mule and Otter worked today and haven't been flushed. Open each flush valve for ten minutes.
         [Flushed]  [In 30 minutes]  [Not used]
    ");
    assert_snapshot!(world.says("crew", "[Flushed]").await, @r"
    bot: Heron: flushed. Logged.
         Mule: flushed. Logged.
         Otter: flushed. Logged.
    ");
}

#[tokio::test]
async fn silence_is_asked_once_more_and_no_oftener() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.waits(9 * HOUR).await;
    assert_eq!(world.waits(HOUR / 2 - 60).await, "", "not yet");
    assert_snapshot!(world.waits(60).await, @r"
    bot to crew: Heron still hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [Not used]
    ");
    for _ in 0..4 {
        assert_eq!(world.waits(HOUR / 2).await, "", "twice is enough");
    }
}

#[tokio::test]
async fn the_reminder_can_be_put_off_by_button_and_by_text() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.waits(9 * HOUR).await;
    assert_snapshot!(world.says("crew", "[In 30 minutes]").await, @"bot: Heron: OK, I'll ask again at 17:33.");
    assert_eq!(
        world.waits(HOUR / 2 - 60).await,
        "",
        "the half hour starts with the press"
    );
    assert_snapshot!(world.waits(60).await, @r"
    bot to crew: Heron still hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [Not used]
    ");
    assert_snapshot!(world.says("crew", "in 30 minutes").await, @"bot: Heron: I won't ask again today. When it's done, type: heron flushed");
    assert_eq!(world.waits(HOUR).await, "");
}

#[tokio::test]
async fn a_rig_that_was_not_used_is_left_alone_that_day_and_the_next_morning() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.waits(9 * HOUR).await;
    assert_snapshot!(world.says("crew", "[Not used]").await, @"bot: Heron: not used today. Logged.");
    assert_eq!(world.waits(HOUR).await, "");
    world.now += 14 * HOUR;
    assert_snapshot!(world.says("crew", "heron 180 12").await, @r"
    bot: Heron 93.3% – too early to tell
         tap 180 → RO 12 ppm, steady since yesterday
         One more reading, and I can tell.
         Flush before you pack up.
    ");
}

#[tokio::test]
async fn a_missed_flush_is_told_with_the_first_reading_next_morning_and_only_then() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.waits(9 * HOUR).await;
    world.waits(HOUR).await;
    world.now += 14 * HOUR;
    assert_snapshot!(world.says("crew", "heron 180 12").await, @r"
    bot: Heron 93.3% – too early to tell
         It wasn't flushed (yesterday): run it to waste for ten minutes first.
         tap 180 → RO 12 ppm, steady since yesterday
         One more reading, and I can tell.
         Flush before you pack up.
    ");
    assert_snapshot!(world.says("crew", "heron 181 12").await, @r"
    bot: Heron 93.4% – good
         tap 181 → RO 12 ppm, steady since earlier today
    ");
}

#[tokio::test]
async fn nobody_is_asked_again_in_the_quiet_hours() {
    let mut world = World::new().await;
    world.says("owner", "day ends 19:45").await;
    world.says("crew", "heron 180 12").await;
    world.now += 11 * HOUR + HOUR / 2;
    assert_snapshot!(world.waits(HOUR / 2).await, @r"
    bot to crew: Heron worked today and hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [In 30 minutes]  [Not used]
    ");
    assert_eq!(world.waits(HOUR).await, "", "eight o'clock is over");
}

#[tokio::test]
async fn when_the_worker_has_left_a_lead_is_asked() {
    let mut world = World::new().await;
    world.says("lead", "fleet").await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "leave").await;
    assert_snapshot!(world.waits(9 * HOUR).await, @r"
    bot to lead: Heron worked today and hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [In 30 minutes]  [Not used]
    ");
}

#[tokio::test]
async fn when_the_worker_has_left_the_crews_group_comes_before_a_lead() {
    let mut world = World::new().await;
    world.says("lead", "fleet").await;
    world.says_in_the_group("lead", "link crew chat").await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "leave").await;
    assert_snapshot!(world.waits(9 * HOUR).await, @r"
    bot to the group: Heron worked today and hasn't been flushed. Open the flush valve for ten minutes.
         [Flushed]  [In 30 minutes]  [Not used]
    ");
    let pressed = world.says_in_the_group("crew-2", "[Flushed]").await;
    assert!(
        pressed.contains("Heron: flushed. Logged."),
        "whoever is there may answer: {pressed}"
    );
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

#[tokio::test]
async fn a_thumbs_up_on_the_reminder_says_that_it_is_done() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.waits(9 * HOUR).await;
    assert_snapshot!(world.says("crew", "[thumbs up]").await, @"bot: Heron: flushed. Logged.");
    assert_eq!(
        world.says("crew", "[thumbs up]").await,
        "",
        "on the answer it is only a thumb"
    );
}

#[tokio::test]
async fn a_thumbs_up_on_a_question_answers_nothing() {
    let mut world = World::new().await;
    world.says("crew", "otter 19 214").await;
    assert_eq!(world.says("crew", "[thumbs up]").await, "");
    assert_snapshot!(world.says("crew", "[tap 214, RO 19]").await, @r"
    bot: Otter 91.1% – too early to tell
         tap 214 → RO 19 ppm
         2 more readings, and I can tell.
         Flush before you pack up.
    ");
}

#[tokio::test]
async fn nobody_flushes_for_another_by_a_thumb() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    let due = world
        .desk
        .time_passes(world.now + 9 * HOUR)
        .await
        .expect("it falls due");
    assert_eq!(due.len(), 1);
    let on = "desk:bot/".to_owned() + &count(&world, "select max(id) from sends").await.to_string();
    let what = Happening::Reaction { on, thumbs_up: true };
    world.says("crew-2", "otter 180 12").await;
    for who in ["crew-2", "stranger", "crew"] {
        let reaction = arrived(
            &format!("r:{who}"),
            0,
            &format!("desk:{who}"),
            who,
            what.clone(),
            world.now,
        );
        world.desk.bot().hear(&[reaction], world.now).await.expect("heard");
        let flushes = count(&world, "select count(*) from services where what = 'flush'").await;
        assert_eq!(flushes, i64::from(who == "crew"), "{who}");
    }
}

async fn count(world: &World, sql: &'static str) -> i64 {
    let mut tx = world.desk.bot().store().begin().await.expect("a transaction");
    sqlx::query_scalar(sql).fetch_one(&mut *tx).await.expect("a number")
}
