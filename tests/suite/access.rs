//! Who may do what; an outfit is closed to others.

use tapside::bot::envelope::{Arrived, Happening};

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
    assert!(
        world
            .says("lead", "add rig wren")
            .await
            .contains("Wren is on the fleet.")
    );
    assert!(world.says("lead", "invite").await.contains("/start "));
}

#[tokio::test]
async fn the_only_owner_cannot_leave_but_crew_can_and_then_is_a_stranger() {
    let mut world = World::new().await;
    assert!(
        world
            .says("owner", "leave")
            .await
            .contains("cannot be left without one")
    );
    world.says("newcomer", "hello").await;
    let token = world.invite().await;
    world.says("newcomer", &format!("/start {token}")).await;
    assert!(world.says("newcomer", "leave").await.contains("You have left"));
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
    assert!(world.says("crew", "[tap 214, RO 19]").await.contains("Otter 91.1 %"));
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
    assert!(world.waits(1).await.contains("Heron 93.3 %"));
    let question = in_the_yard("group/2", "crew", "@yard_water_bot what do you eat", world.now);
    world.desk.bot().hear(&[question], world.now).await.unwrap();
    assert!(world.waits(1).await.contains("I read water."));
}

/// What is typed, who of owner, lead and crew may do it, and what it says to them.
const RIGHTS: [(&str, [bool; 3], &str); 23] = [
    ("heron 180 12", [true, true, true], "Heron 9"),
    ("heron flushed", [true, true, true], "Noted"),
    ("heron same membrane", [true, true, true], "Noted"),
    ("heron preserved", [true, true, true], "Noted"),
    ("fleet", [true, true, true], "3 rigs"),
    ("history heron", [true, true, true], "newest first"),
    ("people", [true, true, true], "owner, owner"),
    ("my rig heron", [true, true, true], "is your rig"),
    ("no rig", [true, true, true], "no rig of your own"),
    ("invite", [true, true, false], "/start "),
    ("invites", [true, true, false], "Open invites"),
    ("cancel invites", [true, true, false], "open invite"),
    ("add rig wren", [true, true, false], "Wren"),
    ("invite lead", [true, false, false], "/start "),
    ("make crew-9 lead", [true, false, false], "crew-9"),
    ("remove lead-9", [true, false, false], "lead-9 is out"),
    ("hand over to crew-8", [true, false, false], "Sure?"),
    ("name Mine", [true, false, false], "is called"),
    ("export", [true, false, false], "all that I keep"),
    ("import", [true, false, false], "CSV"),
    ("changes", [true, false, false], "newest first"),
    ("close outfit", [true, false, false], "for good"),
    ("keep outfit", [true, false, false], "not closing"),
];

#[tokio::test]
async fn each_command_is_for_whom_it_is_and_touches_no_other_outfit() {
    let mut world = World::new().await;
    for who in ["lead", "crew", "crew-8", "crew-9", "lead-9"] {
        world.says(who, "hello").await;
    }
    let token = world.desk.bot().found_token(world.now).await.unwrap();
    world.says("newcomer", &format!("/start {token}")).await;
    // Crew first, so that what an owner changes is not in their way.
    for (text, rights, says) in RIGHTS {
        for (who, may) in ["owner", "lead", "crew"].into_iter().zip(rights).rev() {
            let answer = world.says(who, text).await;
            let refused = answer.contains("Only an owner");
            assert_eq!(!refused, may, "{who}: {text}: {answer}");
            assert!(
                !may || answer.contains(says) || answer.contains("already"),
                "{who}: {text}: {answer}"
            );
        }
        let elsewhere = world.says("newcomer", text).await;
        for secret in ["crew-8", "crew-9", "tap 180", "3 rigs"] {
            assert!(!elsewhere.contains(&format!("{secret} ")), "{text}: {elsewhere}");
        }
    }
    let people = world.says("owner", "people").await;
    assert!(
        people.contains("crew-9, lead") && people.contains("crew-8, crew"),
        "{people}"
    );
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
