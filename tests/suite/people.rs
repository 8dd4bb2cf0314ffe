//! Who is in an outfit, and how they come, change and go.

use insta::assert_snapshot;

use crate::world::{DAY, HOUR, World};

async fn token(world: &mut World, text: &str) -> String {
    let said = world.says("owner", text).await;
    let token = said
        .split("/start ")
        .nth(1)
        .and_then(|rest| rest.split_whitespace().next());
    token.unwrap_or_else(|| panic!("no link in {said}")).to_owned()
}

#[tokio::test]
async fn an_invite_says_as_what_for_how_many_and_how_long() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("owner", "invite lead, 2 days").await, @r"
    bot: Send this to one person. It makes them lead and works for 2 days:
         /start token0003
    ");
    assert_snapshot!(world.says("lead", "invite 5 people for 12 hours").await, @r"
    bot: Share this with your crew. It lets 5 people in as crew and works for 12 hours:
         /start token0004
    ");
    assert_snapshot!(world.says("owner", "invite boss").await, @"bot: You can also type: invite lead | invite 2 days | invite 5 people | invite once");
    assert_snapshot!(world.says("owner", "invites").await, @r"
    bot: Open invites:
         crew, 5 more people, until today, by lead
         lead, one more person, until 6 Mar, by owner
         To end them: cancel invites
    ");
    assert_snapshot!(world.says("lead", "cancel invites").await, @"bot: The open invite no longer works.");
    assert_snapshot!(world.says("owner", "cancel invites").await, @"bot: The open invite no longer works.");
    assert_snapshot!(world.says("owner", "cancel invites").await, @"bot: There was no open invite.");
    assert_snapshot!(world.says("owner", "invites").await, @"bot: No open invites. To make one: invite");
}

#[tokio::test]
async fn an_invite_ends_by_its_uses_by_its_time_and_by_a_word() {
    let mut world = World::new().await;
    let once = token(&mut world, "invite once").await;
    assert!(
        world
            .says("newcomer-1", &format!("/start {once}"))
            .await
            .contains("as crew")
    );
    assert!(
        world
            .says("newcomer-2", &format!("/start {once}"))
            .await
            .contains("used up")
    );
    let short = token(&mut world, "invite 2 hours").await;
    world.now += 2 * HOUR;
    assert!(
        world
            .says("newcomer-2", &format!("/start {short}"))
            .await
            .contains("expired")
    );
    let ended = token(&mut world, "invite").await;
    world.says("owner", "cancel invites").await;
    world.now += HOUR;
    assert!(
        world
            .says("newcomer-2", &format!("/start {ended}"))
            .await
            .contains("expired")
    );
    let kept = token(&mut world, "invite").await;
    world.now += 6 * DAY;
    assert!(
        world
            .says("newcomer-2", &format!("/start {kept}"))
            .await
            .contains("as crew")
    );
}

#[tokio::test]
async fn whoever_is_removed_is_a_stranger_and_cannot_come_back_by_an_old_link() {
    let mut world = World::new().await;
    world.says("crew-2", "heron 180 12").await;
    let link = token(&mut world, "invite").await;
    assert_snapshot!(world.says("lead", "remove crew-2").await, @r"
    bot to crew-2: You're no longer in My outfit. Your readings stay with it.
    bot: crew-2 has been removed. Their readings stay.
         Open invites no longer work. For a new one: invite
    ");
    world.now += HOUR;
    assert!(world.says("owner", "history heron").await.contains("tap 180"));
    assert_snapshot!(world.says("owner", "remove heron").await, @"bot: Nobody's called that. For the rig, type: remove rig Heron");
    assert_snapshot!(world.says("owner", "remove wren").await, @r#"bot: There's nobody called "wren" here. Who is in: people"#);
    assert_snapshot!(world.says("owner", "remove owner").await, @"bot: To leave yourself, type: leave");
    assert!(
        world
            .says("newcomer", &format!("/start {link}"))
            .await
            .contains("used up")
    );
}

#[tokio::test]
async fn of_two_with_one_name_the_right_one_is_asked_for() {
    let mut world = World::new().await;
    let link = token(&mut world, "invite").await;
    for who in ["newcomer-1", "newcomer-2"] {
        world.joins_as(who, "Ana", &link).await;
    }
    assert_snapshot!(world.says("owner", "remove ana").await, @r"
    bot: Which one? Or type: remove ana 1
         1 Ana, crew
         2 Ana, crew
         [1 Ana, crew]  [2 Ana, crew]
    ");
    assert_snapshot!(world.says("owner", "make ana 2 lead").await, @r"
    bot to newcomer-2: You're now lead in My outfit. What you can type: help
    bot: Ana is now lead.
    ");
    assert_snapshot!(world.says("owner", "[1 Ana, crew]").await, @r"
    bot to newcomer-1: You're no longer in My outfit. Your readings stay with it.
    bot: Ana has been removed. Their readings stay.
         Open invites no longer work. For a new one: invite
    ");
    assert_snapshot!(world.says("owner", "people").await, @r"
    bot: My outfit:
         owner, owner
         Ana, lead
    ");
}

#[tokio::test]
async fn an_outfit_has_several_owners_and_never_none() {
    let mut world = World::new().await;
    world.says("crew", "hello").await;
    assert_snapshot!(world.says("owner", "make owner lead").await, @r"
    bot: You're the only owner, and an outfit needs one.
         First make somebody else an owner (make NAME owner), or close the outfit (close outfit).
    ");
    assert_snapshot!(world.says("owner", "make crew an owner").await, @r"
    bot to crew: You're now owner in My outfit. What you can type: help
    bot: crew is now owner.
    ");
    assert_snapshot!(world.says("owner", "make owner lead").await, @"bot: owner is now lead.");
    assert_snapshot!(world.says("crew", "leave").await, @r"
    bot: You're the only owner, and an outfit needs one.
         First make somebody else an owner (make NAME owner), or close the outfit (close outfit).
    ");
    assert_snapshot!(world.says("crew", "hand over to owner").await, @r"
    bot: owner will be an owner, and you a lead. Sure?
         Tap the button, or type: hand over to owner, yes
         [Hand over]
    ");
    assert_snapshot!(world.says("crew", "[Hand over]").await, @r"
    bot to owner: You're now owner in My outfit. What you can type: help
    bot: owner is an owner now. You're a lead.
    ");
    assert_snapshot!(world.says("owner", "people").await, @r"
    bot: My outfit:
         owner, owner
         crew, lead
    ");
}

#[tokio::test]
async fn whoever_is_on_another_rig_today_is_back_on_their_own_tomorrow() {
    let mut world = World::new().await;
    world.says("crew", "my rig heron").await;
    assert_snapshot!(world.says("crew", "I'm on otter today").await, @"bot: You're on Otter today. Two numbers are enough until midnight: 180 12");
    assert!(world.says("crew", "180 12").await.contains("Otter 93.3%"));
    world.now += DAY;
    assert!(world.says("crew", "180 12").await.contains("Heron 93.3%"));
    assert_snapshot!(world.says("crew", "no rig").await, @"bot: You have no rig of your own now. Name the rig each time: heron 180 12");
    assert!(world.says("crew", "181 12").await.contains("Which rig?"));
}

#[tokio::test]
async fn whoever_wants_to_be_forgotten_is_and_the_readings_stay() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    assert_snapshot!(world.says("owner", "forget me").await, @"bot: You're the only owner. First make somebody else one (make NAME owner), or close the outfit (close outfit).");
    assert_snapshot!(world.says("crew", "forget me").await, @r"
    bot: I'll delete your name, language and chat for good and remove you. Your readings stay, without a name. Sure?
         Tap the button, or type: forget me, yes
         [Forget me]
    ");
    assert_snapshot!(world.says("crew", "[Forget me]").await, @"bot: Done. You're removed and your name is gone. Thanks for the readings.");
    assert!(world.says("owner", "history heron").await.contains("tap 180"));
    assert!(!world.says("owner", "people").await.contains("crew"));
}

#[tokio::test]
async fn a_closing_outfit_records_nothing_and_can_be_kept_for_a_week() {
    let mut world = World::new().await;
    world.says("owner", "name Blue Ladder").await;
    world.says("crew", "heron 180 12").await;
    let sure = world.says("owner", "close outfit").await;
    assert!(sure.contains("close outfit Blue Ladder"), "{sure}");
    assert_snapshot!(world.says("owner", "close outfit blue ladder").await, @r"
    bot to crew: Blue Ladder has been closed by its owner. Nothing is logged, and on 11 Mar all of it is deleted.
    bot: Blue Ladder is closed: nothing is logged, and on 11 Mar all of it is deleted. To stop that: keep outfit
    ");
    assert_snapshot!(world.says("crew", "heron 181 12").await, @"bot: Blue Ladder has been closed by its owner. Nothing is logged, and on 11 Mar all of it is deleted.");
    assert_snapshot!(world.says("owner", "keep outfit").await, @r"
    bot to crew: Blue Ladder goes on. Readings count again.
    bot: Blue Ladder goes on. Readings count again.
    ");
    assert!(world.says("crew", "heron 182 12").await.contains("Heron 93.4%"));
    world.says("owner", "close outfit Blue Ladder").await;
    world.now += 7 * DAY;
    world.desk.bot().close_outfits(world.now).await.unwrap();
    assert_snapshot!(world.says("stranger", "hello").await, @"bot: This bot keeps water readings for window-cleaning crews. To join one, open the invite link from its owner.");
    assert_eq!(world.says("stranger-2", "fleet").await.matches("Heron").count(), 0);
}

#[tokio::test]
async fn a_rig_that_seems_to_have_a_new_membrane_is_asked_about_once() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("crew", "heron same membrane").await, @"bot: Heron: OK, same membrane. I won't ask again.");
    assert_snapshot!(world.says("crew", "undo").await, @"bot: Undone: Heron, same membrane.");
    let both = world.says("crew", "heron new membrane, new resin").await;
    assert!(
        both.contains("Heron: new membrane. Logged. Counting from fresh."),
        "{both}"
    );
    assert!(
        both.contains("Heron: resin changed. Logged. The resin count restarts now."),
        "{both}"
    );
}
