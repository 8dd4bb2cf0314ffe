//! Who may do what; an outfit is closed to others.

use insta::assert_snapshot;
use tapside::domain::envelope::{Arrived, Happening};

use crate::world::{World, arrived};

#[tokio::test]
async fn a_stranger_gets_one_polite_line_an_hour_and_no_facts() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    let first = world.says("stranger", "heron?").await;
    assert!(first.contains("open the invite link"), "{first}");
    assert!(!first.contains("Heron"), "{first}");
    for _ in 0..50 {
        world.now -= 60;
        assert_eq!(world.says("stranger", "heron 180 12").await, "");
    }
    world.now += 3600;
    assert!(world.says("stranger", "hello").await.contains("invite link"));
    let history = world.says("crew", "history heron").await;
    assert_eq!(history.matches("tap 180").count(), 1, "{history}");
}

#[tokio::test]
async fn only_an_owner_runs_the_outfit_and_only_leads_run_the_fleet() {
    let mut world = World::new().await;
    for text in ["name Mine", "zone UTC", "day ends 12:00", "invite lead", "invite owner"] {
        for who in ["lead", "crew"] {
            let answer = world.says(who, text).await;
            assert!(answer.contains("Only an owner"), "{who}: {text}: {answer}");
        }
    }
    for text in ["add rig wren", "remove rig heron", "heron flushes itself", "invite"] {
        let answer = world.says("crew", text).await;
        assert!(answer.contains("Only an owner or lead"), "{text}: {answer}");
    }
    assert!(world.says("lead", "add rig wren").await.contains("Added Wren."));
    assert!(world.says("lead", "invite").await.contains("/start "));
}

#[tokio::test]
async fn the_only_owner_cannot_leave_but_crew_can_and_then_is_a_stranger() {
    let mut world = World::new().await;
    assert!(world.says("owner", "leave").await.contains("an outfit needs one"));
    world.says("newcomer", "hello").await;
    let token = world.invite().await;
    world.says("newcomer", &format!("/start {token}")).await;
    assert!(world.says("newcomer", "leave").await.contains("You've left"));
    world.now += 3600;
    assert!(world.says("newcomer", "heron 180 12").await.contains("invite link"));
}

#[tokio::test]
async fn outfits_are_closed_to_each_other() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    let token = world.desk.bot().found_token(world.now).await.unwrap();
    world.says("newcomer", &format!("/start {token}")).await;
    assert!(world.says("newcomer", "fleet").await.contains("No rigs yet"));
    assert!(!world.says("newcomer", "history heron").await.contains("180"));
    world.says("newcomer", "add rig heron").await;
    world.says("newcomer", "heron 300 30").await;
    let history = world.says("crew", "history heron").await;
    assert!(history.contains("tap 180") && !history.contains("tap 300"), "{history}");
    let moving = world.says("crew", &format!("/start {token}")).await;
    assert!(moving.contains("first type: leave"), "{moving}");
}

#[tokio::test]
async fn a_button_works_only_for_whom_it_was_made() {
    let mut world = World::new().await;
    world.says("crew", "otter 19 214").await;
    // Counted tokens: the newest button of the conversation has the highest.
    let forged = |token: &str, who: &str, now: i64| {
        let what = Happening::Press {
            token: token.to_owned(),
            press: "p".to_owned(),
        };
        arrived(&format!("forged/{token}"), 0, &format!("desk:{who}"), who, what, now)
    };
    world.says("crew-2", "hello").await;
    let batch: Vec<Arrived> = (1..30)
        .map(|n| forged(&format!("token{n:04}"), "crew-2", world.now))
        .collect();
    world.desk.bot().hear(&batch, world.now).await.unwrap();
    world.waits(1).await;
    assert!(
        world.says("crew", "otter?").await.contains("no readings yet"),
        "somebody else's press must not count"
    );
    assert!(world.says("crew", "[tap 214, RO 19]").await.contains("Otter 91.1%"));
}

/// What somebody says in the crew's group.
fn in_the_yard(key: &str, who: &str, text: &str, now: i64) -> Arrived {
    arrived(key, 0, "#desk:yard", who, Happening::Text(text.to_owned()), now)
}

#[tokio::test]
async fn in_a_group_strangers_and_chatter_get_silence() {
    let mut world = World::new().await;
    world.says("crew", "hello").await;
    world.waits(1).await;
    for (n, who) in ["stranger", "crew"].into_iter().enumerate() {
        let talk = in_the_yard(&format!("group/{n}"), who, "see you at nine by the bakery", world.now);
        world.desk.bot().hear(&[talk], world.now).await.unwrap();
    }
    assert_eq!(world.waits(1).await, "");
}

#[tokio::test]
async fn in_a_group_a_reading_is_answered_and_whoever_speaks_to_the_bot_gets_a_hint() {
    let mut world = World::new().await;
    world
        .desk
        .bot()
        .set_link("https://t.me/yard_water_bot?start=".to_owned());
    world.says("crew", "hello").await;
    let reading = in_the_yard("group/1", "crew", "heron 180 12", world.now);
    world.desk.bot().hear(&[reading], world.now).await.unwrap();
    assert!(world.waits(1).await.contains("Heron 93.3%"));
    let question = in_the_yard("group/2", "crew", "@yard_water_bot what do you eat", world.now);
    world.desk.bot().hear(&[question], world.now).await.unwrap();
    assert!(world.waits(1).await.contains("I log water readings."));
}

#[tokio::test]
async fn a_press_outlives_neither_role_nor_membership() {
    let mut world = World::new().await;
    for who in ["crew", "lead"] {
        world.says(who, "hello").await;
    }
    world.says("owner", "make crew owner").await;
    world.says("crew", "hand over to lead").await;
    world.says("owner", "make crew crew").await;
    assert!(world.says("crew", "[Hand over]").await.contains("Only an owner"));
    world.says("crew", "forget me").await;
    world.says("owner", "remove crew").await;
    // At the desk a crew member is let in again by speaking; the button is for who they were.
    world.says("owner", "people").await;
    let token = world.invite().await;
    world.says("owner", "cancel invites").await;
    assert!(
        world
            .says("stranger", &format!("/start {token}"))
            .await
            .contains("used up")
    );
}

/// A press of a button by its token, as a transport brings it.
fn press(token: &str, who: &str, now: i64) -> Arrived {
    let what = Happening::Press {
        token: token.to_owned(),
        press: format!("press/{who}/{token}/{now}"),
    };
    arrived(
        &format!("press/{who}/{token}/{now}"),
        0,
        &format!("desk:{who}"),
        who,
        what,
        now,
    )
}

/// Presses every token that there can be; what is said to that.
async fn press_all(world: &mut World, who: &str) -> String {
    let presses: Vec<Arrived> = (1..60)
        .map(|n| press(&format!("token{n:04}"), who, world.now))
        .collect();
    world.desk.bot().hear(&presses, world.now).await.unwrap();
    world.waits(1).await
}

#[tokio::test]
async fn another_outfits_owner_presses_in_vain_and_so_does_a_stranger() {
    let mut world = World::new().await;
    let token = world.desk.bot().found_token(world.now).await.unwrap();
    world.says("newcomer", &format!("/start {token}")).await;
    world.says("newcomer", "stop").await;
    world
        .says("owner", "import\nrig,date,tap,ro\nheron,2026-03-01,180,12")
        .await;
    world.says("crew", "otter 19 214").await;
    for who in ["newcomer", "stranger"] {
        let answer = press_all(&mut world, who).await;
        assert!(
            !answer.contains("Otter") && !answer.contains("Imported"),
            "{who}: {answer}"
        );
    }
    assert!(world.says("lead", "otter?").await.contains("no readings yet"));
    assert!(world.says("lead", "heron?").await.contains("no readings yet"));
}

#[tokio::test]
async fn a_button_is_void_after_its_time_and_counts_once() {
    let mut world = World::new().await;
    world.says("crew", "otter 19 214").await;
    world.now += 13 * 3600;
    assert_snapshot!(world.says("crew", "[tap 214, RO 19]").await, @"bot: That question is closed. Type it instead.");
    assert!(world.says("crew", "otter?").await.contains("no readings yet"));
    world.says("crew", "otter 19 214").await;
    assert!(world.says("crew", "[tap 214, RO 19]").await.contains("Otter 91.1%"));
    let again = world.says("crew", "[tap 214, RO 19]").await;
    assert!(!again.contains("Otter 91.1%"), "{again}");
    assert_eq!(world.says("crew", "history otter").await.matches("tap 214").count(), 1);
}

#[tokio::test]
async fn a_founding_link_founds_one_outfit() {
    let mut world = World::new().await;
    let token = world.desk.bot().found_token(world.now).await.unwrap();
    assert!(
        world
            .says("newcomer-1", &format!("/start {token}"))
            .await
            .contains("This outfit is yours")
    );
    assert!(
        world
            .says("newcomer-2", &format!("/start {token}"))
            .await
            .contains("used up")
    );
    let late = world.desk.bot().found_token(world.now).await.unwrap();
    world.now += 31 * 86_400;
    assert!(
        world
            .says("newcomer-2", &format!("/start {late}"))
            .await
            .contains("expired")
    );
    let guessed = world.says("newcomer-3", "/start token9999").await;
    assert!(guessed.contains("used up"), "{guessed}");
}

#[tokio::test]
async fn in_a_crews_chat_a_stranger_is_told_that_nothing_was_noted() {
    let mut world = World::new().await;
    world.says_in_the_group("owner", "link crew chat").await;
    assert_eq!(world.says_in_the_group("stranger", "see you at nine").await, "");
    assert_eq!(world.says_in_the_group("stranger", "heron?").await, "");
    assert_snapshot!(world.says_in_the_group("stranger", "heron 180 12").await, @"bot to the group: I don't know you yet, so I didn't log that. Open the invite link from your owner or lead, then send it again.");
    assert_eq!(
        world.says_in_the_group("stranger", "heron 180 12").await,
        "",
        "once an hour"
    );
    world.says_in_the_group("owner", "unlink crew chat").await;
    world.now += 3600;
    assert_eq!(world.says_in_the_group("stranger", "heron 180 12").await, "");
    assert!(world.says("owner", "heron?").await.contains("no readings yet"));
}

#[tokio::test]
async fn a_button_from_before_an_update_says_so_and_records_nothing() {
    let mut world = World::new().await;
    assert!(world.says("crew", "otter 19 214").await.contains("[tap 214, RO 19]"));
    for kept in ["tap 214 RO 19", r#"{"v":0,"act":{"Choose":"Keep"}}"#, "{}"] {
        let mut tx = world.desk.bot().store().begin().await.unwrap();
        sqlx::query("update buttons set says = $1")
            .bind(kept)
            .execute(&mut *tx)
            .await
            .unwrap();
        tx.commit().await.unwrap();
        let answer = world.says("crew", "[tap 214, RO 19]").await;
        assert_eq!(
            answer, "bot: That button is from before an update. Type it instead, or ask again.",
            "{kept}"
        );
    }
    world.says("crew", "idioma español").await;
    assert_snapshot!(world.says("crew", "[tap 214, RO 19]").await, @"bot: Ese botón es de antes de una actualización. Escríbelo, o vuelve a preguntar.");
    assert!(
        world.says("crew", "tap 214 RO 19").await.contains("Otter 91,1 %"),
        "the question still stands"
    );
}
