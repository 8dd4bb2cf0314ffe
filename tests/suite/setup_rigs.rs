//! Rigs in the guide: lists of them, one rig's facts, facts copied, a rig without resin.

use insta::assert_snapshot;

use tapside::message::setting::Country;
use tapside::message::setup::zones_of;

use crate::setup::{claimed, says};
use crate::world::World;

#[tokio::test]
async fn a_pasted_table_is_read_and_a_line_that_is_none_is_named() {
    let (mut world, _) = claimed("en").await;
    let table = "name, short name, kind, resin litres\nHeron, H, RO and DI, 25\nBig Blue; BB; DI only; 7\nMule,,RO only,\n\
                 please add the others tomorrow morning";
    says(&mut world, &["skip", "uk"]).await;
    let heard = world.says("boss", table).await;
    assert!(heard.contains("Added: Heron, Big Blue, Mule."), "{heard}");
    assert!(
        heard.contains("I didn't understand \"please add the others tomorrow morning\": no rig was added for it."),
        "{heard}"
    );
    says(&mut world, &["stop"]).await;
    assert!(world.says("boss", "h 180 12").await.contains("Heron 93.3%"));
    assert!(
        world
            .says("boss", "bb tap 160 glass 2")
            .await
            .contains("tap 160 → glass 2 ppm")
    );
    assert!(
        world
            .says("boss", "heron settings")
            .await
            .contains("heron resin 25 litres")
    );
}

#[tokio::test]
async fn nothing_is_said_of_resin_on_a_rig_without_it() {
    let mut world = World::new().await;
    world.says("owner", "heron ro only").await;
    world.says("owner", "resin 25 litres").await;
    world.says("crew", "heron 214 34").await;
    for asked in ["heron?", "heron settings"] {
        let told = world.says("owner", asked).await.to_lowercase();
        assert!(
            !told.replace("heron resin default", "").contains("resin"),
            "{asked}: {told}"
        );
    }
    for _ in 0..5 {
        world.says("crew", "heron 214 35").await;
    }
    let heard = world.says("crew", "heron 214 35").await;
    assert!(heard.contains("plan a new one") && !heard.contains("resin"), "{heard}");
    let guided = world.says("owner", "set up heron").await;
    assert!(
        guided.contains("Is this right for Heron? RO only, 1 membrane, flushed by hand"),
        "{guided}"
    );
    assert!(
        world.says("owner", "[That fits]").await.contains("rated for"),
        "no question about resin"
    );
}

#[tokio::test]
async fn a_lead_sets_one_rig_up_and_copies_it() {
    let mut world = World::new().await;
    world.says("lead", "set up otter").await;
    world.says("lead", "flushes itself, 2 membranes").await;
    world.says("lead", "25").await;
    world.says("lead", "150 gpd at 77 F 60 psi").await;
    assert_snapshot!(world.says("lead", "every 3 months").await, @r"
    bot: Set for Otter: prefilters every 90 days.
         .
         Otter is set up. To see it: otter settings
    ");
    assert_snapshot!(world.says("lead", "mule same as otter").await, @"bot: Mule: same as Otter.");
    assert!(
        world
            .says("lead", "mule settings")
            .await
            .contains("mule rated 150 gpd at 77 F 60 psi")
    );
    assert_snapshot!(world.says("lead", "set up").await, @"bot: Only an owner can do that.");
    assert_snapshot!(world.says("crew", "set up otter").await, @"bot: Only an owner or lead can do that.");
}

#[test]
fn every_zone_of_a_country_is_in_the_zone_database() {
    for country in Country::all() {
        for zone in zones_of(country) {
            assert!(
                jiff::tz::TimeZone::get(zone).is_ok(),
                "{} has no {zone}",
                country.code()
            );
        }
    }
}
