//! A crew member texts two readings; the bot answers.

use insta::assert_snapshot;

use crate::world::{DAY, World};

#[tokio::test]
async fn a_reading_is_answered_at_once_with_rejection_state_and_echo() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("crew", "heron 180 12").await, @r"
    bot: Heron 93.3% – too early to tell
         tap 180 → RO 12 ppm
         2 more readings, and I can tell.
         Flush before you pack up.
    ");
}

/// Worked arithmetic, common practice: 150/6, 230/46, 200/10. 380/5 gives
/// 98.684, printed as 98.6 in an RO equipment manual (rev B 05/1999, section
/// 6-2, appendix "Calculated values"), a slip for 98.7.
#[tokio::test]
async fn worked_examples_give_their_printed_rejection() {
    let mut world = World::new().await;
    for (text, percent) in [
        ("heron 150/6", "96.0%"),
        ("heron 230/46", "80.0%"),
        ("heron 200/10", "95.0%"),
        ("heron 380/5", "98.7%"),
    ] {
        let answer = world.says("crew", text).await;
        assert!(
            answer.starts_with(&format!("bot: Heron {percent} – ")),
            "{text}: {answer}"
        );
    }
}

#[tokio::test]
async fn a_first_reading_proves_nothing() {
    let mut world = World::new().await;
    for (rig, permeate, state) in [
        ("wren", 20, "90.0% – too early to tell"),
        ("teal", 21, "89.5% – too early to tell"),
        ("swift", 31, "84.5% – too early to tell"),
        ("robin", 41, "79.5% – too early to tell"),
    ] {
        world.says("owner", &format!("add rig {rig}")).await;
        let answer = world.says("crew", &format!("{rig} 200 {permeate}")).await;
        assert!(answer.contains(state), "{rig}: {answer}");
    }
}

#[tokio::test]
async fn the_change_since_the_last_reading_is_told() {
    let mut world = World::new().await;
    world.says("crew", "heron 200 10").await;
    world.now += DAY;
    assert_snapshot!(world.says("crew", "heron 200 12").await, @r"
    bot: Heron 94.0% – too early to tell
         tap 200 → RO 12 ppm, down 1.0 since yesterday
         One more reading, and I can tell.
         Flush before you pack up.
    ");
    assert_snapshot!(world.says("crew", "heron 200 12").await, @r"
    bot: Heron 94.0% – good
         tap 200 → RO 12 ppm, steady since earlier today
    ");
}

#[tokio::test]
async fn water_that_would_spot_comes_first() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("crew", "heron tap 210 ro 14 di 12").await, @r"
    bot: Heron: change the resin before the next window, 12 ppm will spot.
         tap 210 → RO 14 → glass 12 ppm, rejection 93.3% – too early to tell
         2 more readings, and I can tell.
         Flush before you pack up.
    ");
    let below = world.says("crew", "heron tap 210 ro 14 di 9").await;
    assert!(!below.contains("spot"), "{below}");
}

#[tokio::test]
async fn a_rig_that_flushes_itself_is_not_reminded() {
    let mut world = World::new().await;
    world.says("owner", "otter flushes itself").await;
    let answer = world.says("crew", "otter 180 12").await;
    assert!(!answer.contains("lush"), "{answer}");
}

#[tokio::test]
async fn the_glass_is_judged_by_the_outfits_own_limit() {
    let mut world = World::new().await;
    world.says("owner", "heron resin 25 litres").await;
    world.says("owner", "heron new resin").await;
    let spots = |said: &str| said.contains("will spot");
    assert!(!spots(&world.says("owner", "heron 180 12 6").await));
    world.says("owner", "spot line 5").await;
    assert!(spots(&world.says("owner", "heron 180 12 7").await));
    world.says("owner", "spot line 9").await;
    assert!(!spots(&world.says("owner", "heron 180 12 8").await));
}

#[tokio::test]
async fn a_rig_without_a_membrane_is_read_at_tap_and_glass() {
    let mut world = World::new().await;
    world.says("owner", "mule is di only").await;
    assert_snapshot!(world.says("crew", "mule 180 4").await, @r"
    bot: Mule – 4 ppm at the glass
         tap 180 → glass 4 ppm
    ");
}

#[tokio::test]
async fn a_swapped_pair_is_asked_about_and_answered_with_a_thumb() {
    let mut world = World::new().await;
    let question = world.says("crew", "otter 19 214").await;
    assert!(question.contains("which way round?"), "{question}");
    assert!(question.contains("[tap 214, RO 19]"), "{question}");
    assert!(
        world.says("crew", "otter?").await.contains("no readings yet"),
        "nothing may be stored before the answer"
    );
    let answer = world.says("crew", "[tap 214, RO 19]").await;
    assert!(answer.contains("Otter 91.1%"), "{answer}");
}

#[tokio::test]
async fn a_late_answer_counts_the_reading_when_it_was_sent() {
    let mut world = World::new().await;
    world.says("crew", "otter 19 214").await;
    world.now += 10 * 3600;
    world.says("crew", "other way round").await;
    let history = world.says("crew", "history otter").await;
    assert!(history.contains("today  tap 214 → RO 19 ppm  91.1%"), "{history}");
}

#[tokio::test]
async fn history_and_fleet_are_looked_up() {
    let mut world = World::new().await;
    world.says("crew", "heron 200 10").await;
    world.now += 2 * DAY;
    world.says("crew", "heron 200 12").await;
    world.says("crew", "otter 200 32").await;
    assert_snapshot!(world.says("crew", "history heron").await, @r"
    bot: Heron, newest first
         today  tap 200 → RO 12 ppm  94.0%
         Wednesday  tap 200 → RO 10 ppm  95.0%
    ");
    assert_snapshot!(world.says("crew", "fleet").await, @r"
    bot: My outfit: 3 rigs
         Otter 84.0% – too early to tell, today; read it again
         Heron 94.0% – too early to tell, today
         Mule – no readings yet
    ");
    assert_snapshot!(world.says("crew", "heron?").await, @r"
    bot: Heron 94.0% as read – too early to tell
         tap 200 → RO 12 ppm, today
         Last resin: not logged. Last flush: not logged.
    ");
}

/// On PostgreSQL a prepared statement once kept the types of the first reading.
#[tokio::test]
async fn readings_with_and_without_extras_follow_each_other() {
    let mut world = World::new().await;
    for text in [
        "heron 180 12",
        "heron 181 12 13C",
        "heron tap 182 ro 12 glass 1",
        "heron 183 12",
        "heron 184 12 14C 4 bar",
    ] {
        let answer = world.says("crew", text).await;
        assert!(answer.contains("Heron 93."), "{text}: {answer}");
    }
}

#[tokio::test]
async fn a_reading_is_not_doubted_for_another_of_the_same_time() {
    let mut world = World::new().await;
    for time in ["6:00", "6:30", "7:00"] {
        world.says("crew", &format!("heron 180 12 at {time}")).await;
    }
    let doubted = world.says("crew", "heron 180 8 at 7:30").await;
    assert!(doubted.contains("read again"), "{doubted}");
    let again = world.says("crew", "heron 180 12 at 7:30").await;
    assert!(again.contains("Heron 93.3% – good"), "{again}");
}

#[tokio::test]
async fn the_lines_that_an_owner_sets_decide_the_word() {
    let mut world = World::new().await;
    for word in [
        "87.0% – too early to tell",
        "87.0% – too early to tell",
        "87.0% – fading",
    ] {
        assert!(world.says("crew", "heron 200 26").await.contains(word), "{word}");
    }
    world.says("owner", "due line 88").await;
    assert!(
        world
            .says("crew", "heron 200 26")
            .await
            .contains("87.0% – plan a new one")
    );
}
