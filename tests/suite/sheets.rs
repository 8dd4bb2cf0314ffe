//! Sheets of people's own, as they come: units, prices, slips, several at once.

use insta::assert_snapshot;
use tapside::desk::Manner;

use crate::world::World;

/// A month of sane rows, and a swapped pair, and a slipped point.
const SLIPS: &str = "import\nrig,date,tap,ro\nheron,2026-02-02,180,12\nheron,2026-02-03,182,12\nheron,2026-02-04,178,11\n\
                     heron,2026-02-05,12,180\nheron,2026-02-06,1800,12\nheron,2026-02-07,181,12";

#[tokio::test]
async fn rows_that_look_like_slips_are_pointed_out() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("owner", SLIPS).await, @r#"
    bot: 6 new readings, 2 Feb to 7 Feb
         2 lines come in, but look like slips:
         line 5: the RO isn't below the tap ("12 / 180")
         line 6: the tap is far from its usual ("1800 / 12")
         Import it? Tap a button, or type: import now | drop import
         [Import]  [Drop]
    "#);
    world.desk.speaks("owner-2", "es");
    let spanish = world.says("owner-2", SLIPS).await;
    for told in [
        "2 líneas entran, pero parecen errores:",
        "línea 5: la ósmosis no queda por debajo de la red",
        "línea 6: la red queda lejos de lo habitual",
    ] {
        assert!(spanish.contains(told), "{spanish}");
    }
    let one = SLIPS.replace("1800,12", "180,12");
    let spanish = world.says("owner-2", &one).await;
    assert!(spanish.contains("1 línea entra, pero parece un error:"), "{spanish}");
    assert!(
        world
            .says("owner", &one)
            .await
            .contains("1 line comes in, but looks like a slip:")
    );
}

#[tokio::test]
async fn a_temperature_without_a_unit_is_in_the_outfits_degrees() {
    let mut world = World::new().await;
    world.says("owner", "country US").await;
    world
        .says("owner", "import\nrig,date,tap,ro,temp\nheron,2026-02-02,180,12,55")
        .await;
    world.says("owner", "import now").await;
    let heard = world
        .desk
        .says("owner", Manner::Says, "export", world.now)
        .await
        .unwrap();
    let file = heard
        .iter()
        .flat_map(|heard| &heard.files)
        .find(|file| file.name == "readings.csv");
    let readings = String::from_utf8(file.unwrap().bytes.to_vec()).unwrap();
    // (55 - 32) / 1.8
    assert!(readings.contains(",12.8,") || readings.contains(",12.77"), "{readings}");
}

#[tokio::test]
async fn a_price_in_a_sheet_counts() {
    let mut world = World::new().await;
    world.says("owner", "country UK").await;
    world
        .says(
            "owner",
            "import\nrig,date,what,cost\nheron,3 Feb 2026,membrane,£300\nheron,2026-02-04,resin,$12.50 each",
        )
        .await;
    world.says("owner", "import now").await;
    let cost = world.says("owner", "what did heron cost this year?").await;
    assert!(
        cost.contains("£310") || cost.contains("£312") || cost.contains("£313"),
        "{cost}"
    );
}

#[tokio::test]
async fn an_import_of_several_sheets_is_undone_as_a_whole() {
    let mut world = World::new().await;
    world
        .says("owner", "import\nrig,date,tap,ro\nheron,2026-02-02,180,12")
        .await;
    world
        .says("owner", "import\nrig,date,service\nheron,2026-02-02,new resin")
        .await;
    world.says("owner", "import now").await;
    assert!(world.says("owner", "heron?").await.contains("Last resin: 2 Feb"));
    world.says("owner", "undo import").await;
    let after = world.says("owner", "heron?").await;
    assert!(after.contains("no readings yet") && !after.contains("2 Feb"), "{after}");
}

#[tokio::test]
async fn an_article_before_a_rigs_name_makes_no_new_rig() {
    let mut world = World::new().await;
    world.says("owner", "add rig nutria").await;
    let rows = "import\nrig,date,tap,ro\nla Nutria,2026-02-02,180,12";
    let preview = world.says("owner", rows).await;
    assert!(preview.contains("1 new reading"), "{preview}");
    assert!(!preview.contains("would be added"), "{preview}");
    world.says("owner", "import now").await;
    let again = world.says("owner", rows).await;
    assert!(again.contains("1 line is here already"), "{again}");
}
