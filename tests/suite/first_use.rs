//! From the host's link to the crew's first reading.

use insta::assert_snapshot;

use crate::world::World;

#[tokio::test]
async fn whoever_opens_the_hosts_link_owns_an_outfit_and_can_start_at_once() {
    let mut world = World::empty().await;
    let token = world.desk.bot().claim_token(world.now).await.unwrap().unwrap();
    assert_snapshot!(world.says("newcomer-1", &format!("/start {token}")).await, @r"
    bot: This outfit is yours. I ask a few things, one at a time, and each can wait: skip, or stop.
         Take readings and text with both feet on safe ground, never from a ladder or near an edge.
         Purified water isn't drinking water.
         .
         What is the outfit called?
         [Skip]
    ");
    assert!(world.says("newcomer-1", "add rig heron").await.contains("Added Heron."));
    assert!(world.says("newcomer-1", "heron 180 12").await.contains("Heron 93.3%"));
    assert_eq!(
        world.desk.bot().claim_token(world.now).await.unwrap(),
        None,
        "one outfit, no second link"
    );
}

#[tokio::test]
async fn a_link_works_once() {
    let mut world = World::empty().await;
    let token = world.desk.bot().claim_token(world.now).await.unwrap().unwrap();
    world.says("newcomer-1", &format!("/start {token}")).await;
    let second = world.says("newcomer-2", &format!("/start {token}")).await;
    assert!(second.contains("used up or has expired"), "{second}");
}

#[tokio::test]
async fn a_crew_member_joins_by_invite_and_texts_at_once() {
    let mut world = World::new().await;
    let token = world.invite().await;
    assert_snapshot!(world.says("newcomer", &format!("/start {token}")).await, @r"
    bot: You're in My outfit as crew.
         Text a rig and two readings, tap first: heron 180 12
         Take readings and text with both feet on safe ground, never from a ladder or near an edge.
         Purified water isn't drinking water.
    bot to owner: newcomer joined as crew.
    ");
    assert!(world.says("newcomer", "heron 180 12").await.contains("Heron 93.3%"));
}

#[tokio::test]
async fn an_invite_expires() {
    let mut world = World::new().await;
    let token = world.invite().await;
    world.now += 8 * crate::world::DAY;
    assert!(
        world
            .says("newcomer", &format!("/start {token}"))
            .await
            .contains("expired")
    );
}

#[tokio::test]
async fn name_and_zone_are_set_by_typing() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("owner", "name Blue Ladder").await, @"bot: The outfit is called Blue Ladder.");
    assert_snapshot!(world.says("owner", "zone madrid").await, @"bot: Local time is Europe/Madrid: it's 09:03 there.");
    assert_snapshot!(world.says("owner", "zone Europe/Madird").await, @r#"bot: No zone called "Europe/Madird". Did you mean Europe/Madrid?"#);
    assert_snapshot!(world.says("owner", "day ends 16:30").await, @"bot: The working day ends at 16:30. I'll ask then about rigs that worked and weren't flushed.");
    assert!(world.says("owner", "fleet").await.contains("Blue Ladder: 3 rigs"));
}

#[tokio::test]
async fn rigs_come_and_go_by_typing() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("owner", "add rig big blue").await, @"bot: Added Big Blue. Send readings like this: big blue 180 12");
    assert_snapshot!(world.says("owner", "add rig Big-Blue").await, @"bot: You already have Big-Blue.");
    assert!(world.says("owner", "add rig 12").await.contains("isn't a number alone"));
    assert_snapshot!(world.says("owner", "remove rig big blue").await, @"bot: Big Blue removed. Its readings are kept.");
    assert!(
        world.says("owner", "remove rig he").await.contains("No rig called"),
        "a rig goes only by its whole name"
    );
}

#[tokio::test]
async fn a_rig_that_was_taken_off_comes_back_with_its_history() {
    for (language, back, shown) in [
        (
            "en",
            "add rig heron",
            "bot: Heron is back, with everything I had kept of it.",
        ),
        (
            "es",
            "agregar equipo heron",
            "bot: Heron ha vuelto, con todo lo que guardé de él.",
        ),
    ] {
        let mut world = World::new().await;
        world.says("crew", "heron 180 12").await;
        world.says("owner", "remove rig heron").await;
        world.desk.speaks("lead", language);
        assert_eq!(world.says("lead", back).await, shown);
        assert!(world.says("crew", "history heron").await.contains("tap 180"));
    }
}
