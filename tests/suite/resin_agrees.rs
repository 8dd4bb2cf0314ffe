//! What is said of resin and its cost, in each answer the same. World starts on
//! Wednesday, 4 March 2026, 8:00 in London.

use insta::assert_snapshot;

use crate::figures_agree::{imports, lines_with, priced, to_monday, year_of};
use crate::world::DAY;

/// 12 ppm after four days: 200 litres of 180 ppm a day are 37 g, 130 of the bed's 500 g in the calendar's
/// share of a working day. A quarter used does not spot: water slips past.
#[tokio::test]
async fn a_bed_that_slips_is_repacked_before_any_resin_is_bought() {
    let mut world = priced().await;
    for said in ["mule di only", "mule 200 litres a day", "mule new resin"] {
        world.says("owner", said).await;
    }
    world.waits(4 * DAY).await;
    assert_snapshot!(world.says("crew", "mule 180 12").await, @r"
    bot: Mule: repack the resin tight before the next window, 12 ppm will spot. It's nearly new, so it's loose, not used up.
         tap 180 → glass 12 ppm
         .
         Before you open a housing: turn the water off and let the pressure out.
    ");
    let asked = world.says("owner", "resin mule?").await;
    assert!(asked.contains("water is slipping past"), "{asked}");
    let list = world.says("owner", "what do we need to buy?").await;
    assert!(lines_with(&list, "resin 25").is_empty(), "{list}");
    let digest = to_monday(&mut world).await;
    assert!(
        digest.contains("repack the resin tight before the next window"),
        "{digest}"
    );
    assert!(!digest.contains("shopping"), "{digest}");
    // Where that did not help, it is the resin after all.
    world.says("crew", "mule repacked").await;
    let again = world.says("crew", "mule 180 12").await;
    assert!(again.contains("change the resin before the next window"), "{again}");
    let list = world.says("owner", "what do we need to buy?").await;
    assert_eq!(lines_with(&list, "resin 25"), ["Resin 25 litres: Mule – about £225"]);
}

/// 600 litres of 300 ppm at a tenth, and 4 ppm of carbon dioxide: 20.4 g on a working day, 14.6 on one of the calendar.
/// From 5 January to 4 March, 58 days: 845 of the bed's 500 g by what was told; told litres count exp(-0.22) until a
/// bed was used up, and in the dip of winter another exp(-0.15): 845 x 0.80 x 0.86 = 583 g, 117 %.
#[tokio::test]
async fn what_ran_before_the_first_reading_is_counted_by_its_water() {
    let mut world = priced().await;
    imports(
        &mut world,
        &["heron,2026-02-24,300,30\n", "heron,2026-02-25,300,30\n"].map(str::to_owned),
    )
    .await;
    world
        .says("owner", "import\nrig,date,service\nheron,2026-01-05,resin")
        .await;
    world.says("owner", "import now").await;
    let used = used_percent(&world.says("owner", "resin heron?").await);
    assert!((105..=130).contains(&used), "{used}");
    // 204 litres of 454 ppm on a calendar day for 30 days: the glass of a DI-only rig tells its water at once.
    world.says("owner", "mule di only").await;
    world.says("owner", "mule 200 litres a day").await;
    world
        .says("owner", "import\nrig,date,service\nmule,2026-02-18,resin")
        .await;
    world.says("owner", "import now").await;
    let before = world.says("owner", "resin mule?").await;
    assert_eq!(
        before,
        "bot: Mule: to forecast the resin I still need, for example:\n     mule 180 0"
    );
    world.says("crew", "mule 450 0").await;
    // 14 days of 142.9 litres of 454 mg: 908 of 500 g.
    let used = used_percent(&world.says("owner", "resin mule?").await);
    // The same discount, and the end of the dip: 183 x 0.80 x 0.89 = 131 %.
    assert!((118..=142).contains(&used), "{used}");
}

fn used_percent(said: &str) -> i64 {
    let number = said.split("About ").nth(1).and_then(|rest| rest.split('%').next());
    number
        .and_then(|number| number.parse().ok())
        .unwrap_or_else(|| panic!("{said}"))
}

#[tokio::test]
async fn it_is_the_glass_that_says_so_where_the_count_does_not() {
    let mut world = priced().await;
    for said in ["mule di only", "mule 200 litres a day", "mule new resin", "mule 200 0"] {
        world.says("owner", said).await;
    }
    world.waits(11 * DAY).await;
    world.says("crew", "mule 200 4").await;
    world.waits(3 * DAY).await;
    world.says("crew", "mule 200 6").await;
    assert_snapshot!(world.says("owner", "resin mule?").await, @r"
    bot: Mule: going by the glass, the resin is nearly used up. Test it daily and carry resin.
         About 60% used, 6 ppm at the glass.
    ");
}

#[tokio::test]
async fn only_what_is_missing_is_asked_for() {
    let mut world = priced().await;
    world.says("owner", "mule resin 11 litres").await;
    world.says("owner", "mule 150 litres a day").await;
    world.says("crew", "mule 180 12").await;
    world.says("crew", "heron 180 12").await;
    assert_snapshot!(world.says("owner", "what do we need to buy?").await, @r"
    bot: Nothing to buy for the next two weeks.
         Can't say yet for Heron, Mule: I need the last resin change. Like this: heron new resin
         Can't say yet for Otter: I need the last resin change and a reading. Like this: otter new resin
    ");
}

/// The bill of a year: 160 ppm at a twentieth and 4 ppm of carbon dioxide are 12 mg a litre, 7.2 g of the bed's
/// 500 on a working day. 261 working days of 68 a bed are 3.8 beds of 9 x 25 + 25 = 250: some 950, of which
/// the carbon dioxide alone is a third.
#[tokio::test]
async fn the_resin_bill_is_the_one_that_the_beds_come_to() {
    let mut world = priced().await;
    world.says("owner", "resin labour 25").await;
    imports(&mut world, &[year_of("heron", (160.0, 8.0), (160.0, 8.0))]).await;
    world.says("crew", "heron new resin").await;
    world.says("crew", "heron 160 8").await;
    let days = world.says("owner", "resin heron?").await;
    let money = world.says("owner", "membrane heron?").await;
    assert_snapshot!(format!("{days}\n{money}"), @r"
    bot: Heron: resin for about 82 working days (40 to 119).
         Hardly used yet. No glass reading since the change.
    bot: Heron 95.0% (95–95, from 53 readings) – good
         Cheapest to change between now and Apr 2027.
         For now, waiting saves about £1 a month.
         Resin is costing about £770 a year. With a new membrane at the best time, resin and membrane together come to about £780 a year.
         Waiting for 80% (in Jan 2035) would cost about £5,200 more over its life.
         If resin cost 20% more: now. 20% less: Apr 2026.
         Your prices: resin £9 a litre, membrane £220.
         It loses about 0.8 points a year.
    ");
}
