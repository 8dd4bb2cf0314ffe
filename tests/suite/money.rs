//! Money, resin, shopping and costs as people ask for them. Every sum is worked
//! out by hand beside it; prices are invented.

use insta::assert_snapshot;

use crate::world::{DAY, World};

/// Prices and sizes: resin 6 a litre and 15 labour, a bed of 25 litres, a
/// membrane of 180 and 40 labour.
async fn priced() -> World {
    let mut world = World::new().await;
    for text in [
        "country UK",
        "resin price 6",
        "resin labour 15",
        "membrane price 180",
        "labour 40",
        "prefilter price 25",
        "otter resin 25 litres",
        "otter 400 litres a day",
        "otter flushes itself",
    ] {
        let answer = world.says("owner", text).await;
        assert!(
            answer.contains("Set") || answer.contains("flushes itself"),
            "{text}: {answer}"
        );
    }
    world
}

/// Two changes of resin: one at the price told, 150; one as set, 25 x 6 + 15 = 165.
/// A membrane as set: 180 + 40 = 220. Prefilters as set: 25. In all 560.
#[tokio::test]
async fn a_year_costs_what_was_logged_at_its_price() {
    let mut world = priced().await;
    world.says("crew", "otter new resin").await;
    world.now += DAY;
    for text in [
        "otter new membrane",
        "otter new resin £150",
        "otter prefilters changed",
        "otter repacked resin",
        "heron new resin",
    ] {
        world.says("crew", text).await;
    }
    assert_snapshot!(world.says("owner", "what did otter cost this year?").await, @r"
    bot: Otter, 1 Jan to 5 Mar: about £560.
         1 new membrane £220
         2 resin changes £315
         1 change of prefilters £25
         Logged work at the price you gave, or your set price that day, labour included.
    ");
    assert_snapshot!(world.says("owner", "what did otter cost last year?").await, @"bot: Otter, 1 Jan 2025 to 31 Dec 2025: no resin, membrane or prefilters were logged.");
    let heron = world.says("owner", "what did heron cost this year?").await;
    assert!(heron.contains("1 of these has no price"), "{heron}");
}

/// Told a moment after its deed, a price is that deed's: one change of resin, 150.
#[tokio::test]
async fn a_price_may_follow_its_deed() {
    let mut world = priced().await;
    world.says("crew", "otter new resin").await;
    world.says("crew", "otter new resin £150").await;
    let cost = world.says("owner", "what did otter cost this year?").await;
    assert!(cost.contains("1 resin change £150"), "{cost}");
}

/// 25 L of resin take 25 x 20 = 500 g. Tap 180 and 4 ppm of carbon dioxide are
/// 0.184 g a litre, 18.4 g on a day of 100 L: 27.17 days. The spread of a first
/// cycle is 0.30 x 500 x 1.2816 = 192 g, so 308/18.4 = 16.7 to 692/18.4 = 37.6.
#[tokio::test]
async fn the_days_that_resin_lasts_are_counted() {
    let mut world = World::new().await;
    world.says("lead", "mule di only").await;
    let asked = world.says("owner", "how long will the resin last on mule?").await;
    assert!(
        asked.contains("mule resin 25 litres") && asked.contains("mule 800 litres a day"),
        "{asked}"
    );
    world.says("lead", "mule resin 25 litres").await;
    world.says("lead", "mule 100 litres a day").await;
    world.says("crew", "mule new resin").await;
    assert_snapshot!(world.says("crew", "mule 180 0").await, @r"
    bot: Mule – 0 ppm at the glass
         tap 180 → glass 0 ppm
         Resin: about 35 working days.
    ");
    assert_snapshot!(world.says("owner", "how long will the resin last on mule?").await, @"
    bot: Mule: resin for about 35 working days (16 to 53).
         Hardly used yet, 0 ppm at the glass.
    ");
}

/// A glass that is high when hardly any resin is used is no spent resin.
#[tokio::test]
async fn an_early_breakthrough_is_repacked_not_bought() {
    let mut world = World::new().await;
    for text in [
        "mule di only",
        "mule resin 25 litres",
        "mule 100 litres a day",
        "mule lying",
    ] {
        world.says("lead", text).await;
    }
    world.says("crew", "mule new resin").await;
    world.now += DAY;
    let answer = world.says("crew", "mule 180 7").await;
    assert!(answer.contains("Repack the resin tight"), "{answer}");
    let asked = world.says("crew", "how long will the resin last on mule?").await;
    assert!(
        asked.contains("it isn't used up") && asked.contains("on its side"),
        "{asked}"
    );
}

/// Resin at the end: 25 L x 6 = 150. Prefilters of 180 days ago: 25. In all 175.
#[tokio::test]
async fn what_to_buy_is_counted_and_summed() {
    let mut world = priced().await;
    world.says("owner", "remove rig mule").await;
    world.says("owner", "remove rig heron").await;
    for text in ["otter new resin", "otter prefilters changed", "otter new membrane"] {
        world.says("crew", text).await;
    }
    world.says("crew", "otter tap 300 ro 15 glass 0").await;
    assert_snapshot!(world.says("owner", "what do we need to buy?").await, @"bot: Nothing to buy for the next two weeks.");
    world.now += 180 * DAY;
    world.says("crew", "otter tap 300 ro 15 glass 12").await;
    assert_snapshot!(world.says("owner", "what do we need to buy?").await, @r"
    bot: To buy for the next two weeks:
         Resin 25 litres: Otter – about £150
         Prefilters: Otter – about £25
         In all about £175.
    ");
}

/// Nothing is promised without prices, and who is asked for them is who can tell.
#[tokio::test]
async fn what_is_missing_is_asked_of_those_who_know() {
    let mut world = World::new().await;
    world.says("crew", "otter new membrane").await;
    world.says("crew", "otter 300 32").await;
    let owner = world.says("owner", "membrane otter?").await;
    for typed in [
        "resin price 9 a litre",
        "membrane price 180",
        "otter resin 25 litres",
        "otter 800 litres a day",
    ] {
        assert!(owner.contains(typed), "{typed}: {owner}");
    }
    let crew = world.says("crew", "membrane otter?").await;
    assert!(!crew.contains("resin price"), "{crew}");
    let buy = world.says("owner", "what do we need to buy?").await;
    assert!(
        buy.contains("can't say whether a new membrane pays") || buy.contains("Can't say yet"),
        "{buy}"
    );
}

/// A year of wear on hard water: at ten times the price of resin a new membrane
/// pays at once, at a tenth not yet. Nothing is stored by asking.
#[tokio::test]
async fn another_price_is_tried_and_not_kept() {
    let mut world = priced().await;
    world.says("crew", "otter new membrane").await;
    for (fortnight, permeate) in (0..26).zip(15..) {
        world.now += 14 * DAY;
        let permeate = 15 + (permeate - 15 + fortnight % 2) * 16 / 26;
        world.says("crew", &format!("otter 300 {permeate}")).await;
    }
    let dear = world.says("owner", "what if resin costs 60?").await;
    assert!(dear.contains("Otter: a new membrane pays now"), "{dear}");
    let cheap = world.says("owner", "what if resin costs 0.6 on otter?").await;
    assert!(
        cheap.contains("Otter: ") && !cheap.contains("Otter: a new membrane pays now"),
        "{cheap}"
    );
    let settings = world.says("owner", "settings").await;
    assert!(settings.contains("resin price £6 a litre"), "{settings}");
    let verdict = world.says("owner", "membrane otter?").await;
    assert!(verdict.contains("Resin is costing about £"), "{verdict}");
    assert!(verdict.contains("Waiting for 80%"), "{verdict}");
    let why = world.says("owner", "why is otter due?").await;
    assert!(why.starts_with("bot: Otter 8"), "{why}");
}

#[tokio::test]
async fn rigs_are_compared_and_people_counted() {
    let mut world = World::new().await;
    world.says("owner", "mule is di only").await;
    for (rig, permeate) in [("heron", 8), ("otter", 16)] {
        world.says("crew", &format!("{rig} new membrane")).await;
        world.says("crew", &format!("{rig} 200 {permeate}")).await;
    }
    world.says("lead", "heron 200 8").await;
    let compared = world.says("owner", "compare rigs").await;
    let places = ["Otter", "Heron", "Mule – no membrane"].map(|rig| compared.find(rig));
    assert!(places.iter().all(Option::is_some) && places.is_sorted(), "{compared}");
    assert_snapshot!(world.says("owner", "who logged what").await, @r"
    bot: Logged Monday to today:
         crew: Heron 2, Otter 2
         lead: Heron 1
    ");
    let did = world.says("owner", "who changed the membrane on otter?").await;
    assert!(did.contains("Otter, today: crew"), "{did}");
}

/// Chilean pesos have no smaller coin (ISO 4217): 150 are kept and told as 150.
#[tokio::test]
async fn a_currency_without_a_smaller_coin_is_kept_whole() {
    let mut world = World::new().await;
    world.says("owner", "currency CLP").await;
    assert_snapshot!(world.says("owner", "resin price 900").await, @"bot: Set: resin price $900 a litre.");
    world.says("crew", "heron new resin $150").await;
    let cost = world.says("owner", "what did heron cost this year?").await;
    assert!(cost.contains("about $150."), "{cost}");
}
