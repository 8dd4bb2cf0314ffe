//! What one answer says, another must not deny: the digest, the lists, a rig's own
//! answer. World starts on Wednesday, 4 March 2026, 8:00 in London.

use std::collections::BTreeSet;

use insta::assert_snapshot;
use tapside::digest::week::RigWeek;
use tapside::digest::{Kind, decide};

use crate::digest_fleet::sixty;
use crate::world::{DAY, HOUR, World};

/// An outfit with prices and sizes: resin at 9 a litre, beds of 25 litres, a membrane 220.
pub async fn priced() -> World {
    let mut world = World::new().await;
    for said in [
        "country GB",
        "warnings off",
        "resin price 9",
        "membrane price 220",
        "resin 25 litres",
        "heron 600 litres a day",
        "otter 400 litres a day",
    ] {
        world.says("owner", said).await;
    }
    world
}

/// Weekly readings of a rig until 2026-02-28, from one pair of tap and RO to another.
pub fn year_of(rig: &str, from: (f64, f64), to: (f64, f64)) -> String {
    const WEEKS: i64 = 52;
    let first = jiff::civil::date(2025, 3, 8);
    let row = |week: i64| {
        let share = week as f64 / (WEEKS - 1) as f64;
        let between = |from: f64, to: f64| (from + (to - from) * share).round();
        let (tap, ro) = (between(from.0, to.0), between(from.1, to.1));
        let day = first + jiff::Span::new().days(7 * week);
        format!("{rig},{day},{tap},{ro}\n")
    };
    (0..WEEKS).map(row).collect()
}

pub async fn imports(world: &mut World, rows: &[String]) {
    let rows = rows.concat();
    world
        .says("owner", &format!("import\nrig,date,tap,ro\n{}", rows.trim_end()))
        .await;
    let taken = world.says("owner", "import now").await;
    assert!(taken.contains("Imported: "), "{taken}");
}

/// The next Monday at 07:00; what is said until then.
pub async fn to_monday(world: &mut World) -> String {
    let monday = 1_772_434_800;
    let ahead = (monday - world.now - 1).rem_euclid(7 * DAY) + 1;
    let mut heard = String::new();
    for _ in 0..ahead / HOUR {
        heard = world.waits(HOUR).await;
    }
    heard + &world.waits(ahead % HOUR).await
}

pub fn lines_with<'a>(said: &'a str, part: &str) -> Vec<&'a str> {
    said.lines()
        .map(str::trim)
        .filter(|line| line.to_lowercase().contains(part))
        .collect()
}

/// Otter fell from 93.4 to 86.3% and costs more resin each month than a membrane spread
/// over its life; Heron keeps 94 to 95%.
#[tokio::test]
async fn the_digest_orders_the_membranes_that_the_shopping_list_orders() {
    let mut world = priced().await;
    world.says("owner", "membrane price 320").await;
    let rows = [
        year_of("heron", (160.0, 8.0), (165.0, 9.0)),
        year_of("otter", (320.0, 21.0), (316.0, 38.0)),
    ];
    imports(&mut world, &rows).await;
    world.says("crew", "heron 160 10").await;
    world.says("crew", "otter 320 44").await;
    let digest = to_monday(&mut world).await;
    let list = world.says("owner", "what do we need to buy?").await;
    let heron = world.says("owner", "membrane heron?").await;
    assert!(heron.contains("waiting saves about"), "{heron}");
    assert_eq!(lines_with(&list, "membranes:"), ["Membranes: Otter – about £320"]);
    assert!(digest.contains("Otter needs a new membrane"), "{digest}");
    assert!(digest.contains("1 membrane, £320"), "{digest}");
    assert_eq!(lines_with(&digest, "heron").len(), 1, "in the table alone: {digest}");
}

#[tokio::test]
async fn a_membrane_that_was_put_off_stays_out_until_the_day_that_was_said() {
    let mut world = priced().await;
    imports(&mut world, &[year_of("otter", (320.0, 21.0), (316.0, 38.0))]).await;
    world.says("crew", "otter 320 44").await;
    assert!(to_monday(&mut world).await.contains("Otter needs a new membrane"));
    assert_snapshot!(world.says("owner", "otter membrane not now").await, @"bot: OK: Otter's membrane stays out of the digest and the shopping list until 6 Apr.");
    let list = world.says("owner", "what do we need to buy?").await;
    assert_eq!(
        lines_with(&list, "membrane"),
        ["Otter's membrane is put off until 6 Apr."]
    );
    for _ in 0..3 {
        world.says("crew", "otter 320 44").await;
        let digest = to_monday(&mut world).await;
        assert!(!digest.contains("due for a membrane"), "{digest}");
    }
    world.waits(7 * DAY).await;
    world.says("crew", "otter 320 44").await;
    let digest = to_monday(&mut world).await;
    assert!(digest.contains("Otter needs a new membrane"), "{digest}");
}

/// Resin of 5 January, one reading of 300 to 30 ppm: 34 mg/l with the carbon dioxide, 600 litres on
/// five days of seven: 14.6 g a day, 500 g in 34 days. By 23 March it is used up twice over.
#[tokio::test]
async fn a_bed_that_is_used_up_stays_in_the_digest_though_nobody_read_the_rig() {
    let mut world = priced().await;
    imports(&mut world, &["heron,2026-01-12,300,30\n".to_owned()]).await;
    world.says("owner", "heron new resin on 5 jan").await;
    world.says("crew", "heron 300 30").await;
    to_monday(&mut world).await;
    let digest = to_monday(&mut world).await;
    assert!(digest.contains("No readings since 4 Mar"), "{digest}");
    assert!(digest.contains("Heron: new resin today"), "{digest}");
    let list = world.says("owner", "what do we need to buy?").await;
    assert_eq!(lines_with(&list, "resin 25"), ["Resin 25 litres: Heron – about £225"]);
    assert!(digest.contains("25 L of resin, £225"), "{digest}");
    assert!(world.says("owner", "digest").await.contains("Heron: new resin today"));
}

#[tokio::test]
async fn nothing_is_called_well_while_something_is_to_be_bought() {
    let mut world = priced().await;
    world.says("crew", "heron new resin").await;
    for rig in ["heron", "otter", "mule"] {
        world.says("crew", &format!("{rig} 300 30")).await;
    }
    // 22.4 g of the 500 a working day: 24 working days by what was told, and some 30 since told litres count a fifth
    // less until a bed was used up; so it ends within a fortnight of the digest, not within a week.
    world.waits(26 * DAY).await;
    for rig in ["heron", "otter", "mule"] {
        world.says("crew", &format!("{rig} 300 30 flushed")).await;
    }
    let digest = to_monday(&mut world).await;
    assert_snapshot!(digest, @r"
    bot to owner: Nothing to fix this week, just something to buy.
         My outfit, 30 Mar to 5 Apr: 3 rigs, 3 readings.
         .
         Heron too early to tell, resin 9 d, flushed 1/1
         Mule too early to tell, flushed 1/1
         Otter too early to tell, flushed 1/1
         Two weeks' shopping: 25 L of resin, £225.
         [More]
    bot to owner: [picture: fleet.png]
    ");
}

async fn reads(world: &mut World, rig: &str, times: usize, figures: &str) {
    for _ in 0..times {
        world.waits(DAY).await;
        world.says("crew", &format!("{rig} {figures}")).await;
    }
}

#[tokio::test]
async fn a_doubted_reading_has_the_same_word_wherever_it_is_told() {
    let mut world = priced().await;
    reads(&mut world, "heron", 20, "180 12").await;
    let told = world.says("crew", "heron 160 50").await;
    assert!(told.contains("Heron 68.8% – read again"), "{told}");
    let asked = world.says("crew", "heron?").await;
    assert!(asked.contains("Heron 68.8% as read – read again"), "{asked}");
    let fleet = world.says("crew", "fleet").await;
    assert!(fleet.contains("Heron 68.8% – read again"), "{fleet}");
}

#[tokio::test]
async fn a_new_membrane_is_new_everywhere_until_it_is_read() {
    let mut world = priced().await;
    reads(&mut world, "heron", 20, "180 60").await;
    world.says("crew", "heron new membrane").await;
    assert_snapshot!(world.says("crew", "heron?").await, @r"
    bot: Heron: new membrane, no reading yet
         Before that: tap 180 → RO 60 ppm, today
         Last resin: not logged. Last flush: not logged.
    ");
    assert_snapshot!(world.says("crew", "fleet").await, @r"
    bot: My outfit: 3 rigs
         Heron: new membrane, no reading yet
         Mule – no readings yet
         Otter – no readings yet
    ");
    assert_snapshot!(world.says("owner", "membrane heron?").await, @"bot: Heron: new membrane since today, no reading yet.");
    assert_snapshot!(world.says("owner", "compare heron and otter").await, @r"
    bot: Heron: new membrane, no reading yet
         Otter – too early to tell
    ");
    let list = world.says("owner", "what do we need to buy?").await;
    assert!(lines_with(&list, "Below your limit").is_empty(), "{list}");
    world.says("crew", "heron 180 9").await;
    let read = world.says("crew", "heron?").await;
    assert!(read.contains("Heron 95.0% as read – good"), "{read}");
}

#[tokio::test]
async fn one_low_reading_sends_nobody_to_buy() {
    let mut world = priced().await;
    world.says("crew", "otter 320 22").await;
    world.waits(DAY).await;
    assert_snapshot!(world.says("crew", "otter 320 96").await, @r"
    bot: Otter 70.0% – too early to tell
         tap 320 → RO 96 ppm, down 23.1 since yesterday
         Read it again: 70.0% is low, but it's too early to blame the membrane; rinse the cup, then check hoses and O-rings.
         One more reading, and I can tell.
         Flush before you pack up.
         .
         Before you open a housing: turn the water off and let the pressure out.
    ");
    let asked = world.says("crew", "otter?").await;
    assert!(asked.contains("Otter 70.0% as read – too early to tell"), "{asked}");
}

#[tokio::test]
async fn a_mended_rig_is_told_that_it_is_back() {
    let mut world = priced().await;
    reads(&mut world, "heron", 12, "190 13").await;
    reads(&mut world, "heron", 5, "190 34").await;
    let jumped = world.says("crew", "heron?").await;
    assert!(jumped.contains("look for a leak"), "{jumped}");
    world.waits(DAY).await;
    assert_snapshot!(world.says("crew", "heron 190 13").await, @r"
    bot: Heron 93.2% – back to normal
         tap 190 → RO 13 ppm, up 11.1 since yesterday
         Read it once more: it's back to what it was before the jump; one more like it and it's fixed.
         Flush before you pack up.
    ");
    let asked = world.says("crew", "heron?").await;
    assert!(asked.contains("Heron 93.2% as read – back to normal"), "{asked}");
    world.waits(DAY).await;
    assert_snapshot!(world.says("crew", "heron 190 13").await, @r"
    bot: Heron 93.2% – good
         tap 190 → RO 13 ppm, steady since yesterday
         Flush before you pack up.
    ");
}

/// 25 litres at 9 are 225; what is 12 or 30 litres from then on was 9 and 25 on that day.
#[tokio::test]
async fn a_later_price_or_size_leaves_what_was_paid() {
    let mut world = priced().await;
    world.says("crew", "heron new resin").await;
    let cost = async |world: &mut World| {
        let said = world.says("owner", "what did heron cost this year?").await;
        said.lines().next().unwrap_or_default().to_owned()
    };
    let first = cost(&mut world).await;
    assert!(first.ends_with("about £225."), "{first}");
    world.waits(DAY).await;
    world.says("owner", "resin price 12").await;
    world.says("owner", "heron resin 30 litres").await;
    assert!(cost(&mut world).await.ends_with("about £225."));
    // 12 a litre for 30 litres: 360 more.
    world.says("crew", "heron new resin").await;
    assert!(cost(&mut world).await.ends_with("about £585."));
}

#[test]
fn a_picture_of_the_fleet_counts_the_rigs_that_the_digest_asks_a_hand_for() {
    let week = sixty();
    let digest = decide(&week);
    let hands = [
        Kind::ChangeResin,
        Kind::RepackResin,
        Kind::ResinSoon,
        Kind::FindLeak,
        Kind::NewMembrane,
        Kind::Prefilters,
        Kind::AskMembrane,
        Kind::PlanMembrane,
    ];
    let actions = digest.actions.iter().chain(&digest.later);
    let asked: BTreeSet<i64> = actions
        .filter(|action| hands.contains(&action.kind))
        .flat_map(|action| &action.items)
        .filter_map(|item| item.subject.rig())
        .collect();
    let of_week = |rig: &RigWeek| !rig.verdict(week.utc_offset_seconds).deeds.is_empty();
    let counted = week.rigs.iter().filter(|rig| of_week(rig));
    assert_eq!(counted.map(|rig| rig.id).collect::<BTreeSet<_>>(), asked);
    assert!(asked.len() > 10);
}
