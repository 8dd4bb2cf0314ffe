//! What is set by typing: how it is read, who may, what it changes.

use insta::assert_snapshot;
use proptest::prelude::*;
use tapside::message::setting::{
    Amount, Clock, Currency, Days, Field, Setting, VolumeUnit, Weekday, Wish, WishFor, read,
};
use tapside::replies::Words;
use tapside::replies::settings::{Ways, typed};

use crate::world::World;

/// Typed text, the rig in it, the setting's name, its kept value.
const ROWS: &[(&str, &str, &str, &str)] = &[
    ("resin price 9", "", "resin-price", "9"),
    ("Resin price: £9.50", "", "resin-price", "9.5"),
    ("resin costs 9 a litre", "", "resin-price", "9"),
    ("resin costs $9/L", "", "resin-price", "9"),
    ("resin costs 9 euros per liter", "", "resin-price", "9"),
    // A cubic foot has 28.316846592 litres: 250 / 28.316846592 = 8.8287.
    ("resin price 250 a cubic foot", "", "resin-price", "8.829"),
    // A US gallon has 3.785411784 litres: 34 / 3.785411784 = 8.9819.
    ("resin price 34 per gallon", "", "resin-price", "8.982"),
    ("resin 25 l costs 180", "", "resin-price", "7.2"),
    ("a bag of 25 litres costs 180", "", "resin-price", "7.2"),
    ("heron resin price 12", "heron", "resin-price", "12"),
    ("resin 25 litres", "", "resin-litres", "25"),
    ("heron resin 25 l", "heron", "resin-litres", "25"),
    ("big blue has 25 litres of resin", "big blue", "resin-litres", "25"),
    ("resin 25 l on heron", "heron", "resin-litres", "25"),
    ("membrane price 180", "", "membrane-price", "180"),
    ("membrane costs 1,180", "", "membrane-price", "1180"),
    ("labour 40", "", "membrane-labour", "40"),
    ("labor 40 per membrane change", "", "membrane-labour", "40"),
    ("resin labour 15", "", "resin-labour", "15"),
    ("prefilters cost 25", "", "prefilter-price", "25"),
    ("litres a day 800", "", "litres-per-day", "800"),
    ("heron 600 litres a day", "heron", "litres-per-day", "600"),
    ("gallons a day 100", "", "litres-per-day", "378.5411784"),
    ("currency USD", "", "currency", "USD"),
    ("currency pounds", "", "currency", "GBP"),
    ("country us", "", "country", "US"),
    ("country New Zealand", "", "country", "NZ"),
    ("due line 85", "", "due-line", "0.85"),
    ("spent line 80%", "", "spent-line", "0.8"),
    ("spot line 5", "", "spot-line", "5"),
    ("don't remind heron to flush", "heron", "nudges", "off"),
    ("pressure in psi not bar", "", "pressure-unit", "psi"),
    ("summary on sunday night at 8", "", "digest-at", "sun 20:00"),
    ("warn me under 88 percent", "", "due-line", "0.88"),
    ("glass limit is 6 ppm", "", "spot-line", "6"),
    ("tell me when the glass is over 5", "", "spot-line", "5"),
    ("línea de manchas 5", "", "spot-line", "5"),
    ("avísame cuando el vidrio pase de 4", "", "spot-line", "4"),
    ("working days mon-fri", "", "working-days", "mon,tue,wed,thu,fri"),
    (
        "working days monday to thursday and sat",
        "",
        "working-days",
        "mon,tue,wed,thu,sat",
    ),
    ("working days sat-mon", "", "working-days", "mon,sat,sun"),
    ("heron day ends 15:00", "heron", "day-ends", "15:00"),
    ("saturday ends 13:00", "", "day-ends-sat", "13:00"),
    ("Fridays ends at 4pm", "", "day-ends-fri", "16:00"),
    ("digest monday 7:00", "", "digest-at", "mon 07:00"),
    ("digest off", "", "digest", "off"),
    ("nudges off", "", "nudges", "off"),
    ("heron nudges off", "heron", "nudges", "off"),
    ("warnings off", "", "notices", "off"),
    ("quiet hours 20:00-7:00", "", "quiet-hours", "20:00-07:00"),
    ("quiet hours 8 pm to 7 am", "", "quiet-hours", "20:00-07:00"),
    ("quiet hours off", "", "quiet-hours", "off"),
    ("meter uS 0.64", "", "meter", "0.64"),
    ("meter µS/cm 0,5", "", "meter", "0.5"),
    ("meter ppm", "", "meter", "ppm"),
    ("degrees F", "", "degrees", "F"),
    ("pressure psi", "", "pressure-unit", "psi"),
    ("volume gal", "", "volume-unit", "gal"),
    ("heron prefilters every 90 days", "heron", "prefilter-days", "90"),
    ("heron prefilters every 3 months", "heron", "prefilter-days", "90"),
    ("heron two membranes", "heron", "membranes", "2"),
    ("heron has 2 membranes", "heron", "membranes", "2"),
    ("heron lying", "heron", "stands", "lying"),
    ("heron is on its side", "heron", "stands", "lying"),
    ("heron rated 150 gpd at 77 F 60 psi", "heron", "rated", "150 77 60"),
    ("heron rated 150 gpd at 25 C and 60 psi", "heron", "rated", "150 77 60"),
    ("heron also called H or big bird", "heron", "short-names", "H,big bird"),
    (
        "busy june-august 150 %",
        "",
        "busy-months",
        "100,100,100,100,100,150,150,150,100,100,100,100",
    ),
    (
        "busy nov to feb 60",
        "",
        "busy-months",
        "60,60,100,100,100,100,100,100,100,100,60,60",
    ),
    ("precio resina 9", "", "resin-price", "9"),
    ("la resina cuesta 9,50 € el litro", "", "resin-price", "9.5"),
    ("heron resina 25 litros", "heron", "resin-litres", "25"),
    ("precio de la membrana 180", "", "membrane-price", "180"),
    ("mano de obra 40", "", "membrane-labour", "40"),
    ("mano de obra resina 15", "", "resin-labour", "15"),
    ("litros al día 800", "", "litres-per-day", "800"),
    ("moneda euros", "", "currency", "EUR"),
    ("país España", "", "country", "ES"),
    ("línea de aviso 85", "", "due-line", "0.85"),
    (
        "días de trabajo lunes a viernes",
        "",
        "working-days",
        "mon,tue,wed,thu,fri",
    ),
    ("el sábado acaba a las 13:00", "", "day-ends-sat", "13:00"),
    ("resumen lunes a las 7", "", "digest-at", "mon 07:00"),
    ("sin recordatorios", "", "nudges", "off"),
    ("silencio 20:00 a 7:00", "", "quiet-hours", "20:00-07:00"),
    ("heron dos membranas", "heron", "membranes", "2"),
    ("heron prefiltros cada 90 días", "heron", "prefilter-days", "90"),
    ("heron también se llama H o pájaro", "heron", "short-names", "H,pájaro"),
];

#[test]
fn settings_are_read_as_people_type_them() {
    for (text, rig, name, value) in ROWS {
        let wished = read(text);
        let rig_read = wished.as_ref().map(|wished| wished.rig.clone().unwrap_or_default());
        assert_eq!(rig_read.as_deref(), Some(*rig), "{text}");
        let Some(Wish::Set(setting)) = wished.map(|wished| wished.wish) else {
            panic!("{text} sets nothing");
        };
        assert_eq!(
            (setting.field().name(), setting.text().as_str()),
            (*name, *value),
            "{text}"
        );
    }
}

#[test]
fn defaults_and_lists_are_asked_for() {
    let wish = |rig: Option<&str>, wish| WishFor {
        rig: rig.map(str::to_owned),
        wish,
        sure: false,
    };
    for (text, wished) in [
        ("resin price default", wish(None, Wish::Default(Field::ResinPrice))),
        (
            "heron resin default",
            wish(Some("heron"), Wish::Default(Field::ResinLitres)),
        ),
        ("precio resina normal", wish(None, Wish::Default(Field::ResinPrice))),
        ("settings", wish(None, Wish::ShowAll)),
        ("heron settings", wish(Some("heron"), Wish::ShowAll)),
        ("ajustes", wish(None, Wish::ShowAll)),
    ] {
        assert_eq!(read(text), Some(wished), "{text}");
    }
}

#[test]
fn readings_services_and_questions_set_nothing() {
    for text in [
        "heron 180 12",
        "heron 180 12 0",
        "new resin heron",
        "resin changed",
        "heron new resin 25",
        "membrane heron?",
        "resin costs 9?",
        "resin costs",
        "heron resin",
        "day off",
        "two vans today",
        "resin price lots",
        "due line 8500",
        "working days",
        "",
        "🐢",
    ] {
        assert_eq!(read(text), None, "{text}");
    }
}

#[test]
fn no_message_of_the_crews_is_taken_for_a_setting() {
    let demos = [
        include_str!("../../demo-conversations/1-first-day.txt"),
        include_str!("../../demo-conversations/2-ordinary-week.txt"),
        include_str!("../../demo-conversations/3-things-going-wrong.txt"),
        include_str!("../../demo-conversations/4-a-leak-and-not-wear.txt"),
    ];
    let said = demos
        .iter()
        .flat_map(|demo| demo.lines())
        .filter(|line| line.starts_with("crew"));
    for (_, text) in said.filter_map(|line| line.split_once(": ")) {
        assert_eq!(read(text), None, "{text}");
    }
}

fn some_clock() -> impl Strategy<Value = Clock> {
    (0..24_u8, 0..60_u8).prop_filter_map("a time", |(hour, minute)| Clock::new(hour, minute))
}

/// Settings of every kind whose shown form carries the whole value.
fn some_setting() -> impl Strategy<Value = Setting> {
    let cents = (1..2_000_000_i64).prop_filter_map("money", |cents| Amount::of_minor(cents, 2));
    let tenths = (10..4000_u32).prop_map(|tenths| f64::from(tenths) / 10.0);
    let line = (400..990_u32).prop_map(|per_mille| f64::from(per_mille) / 1000.0);
    let day = (0..7_usize).prop_map(|day| Weekday::ALL[day]);
    let days = any::<[bool; 7]>().prop_filter_map("a day", Days::new);
    let months = (any::<[bool; 12]>(), 1..500_u16)
        .prop_filter("a busy month", |(busy, share)| busy.contains(&true) && *share != 100)
        .prop_map(|(busy, share)| Field::BusyMonths.to(busy.map(|busy| if busy { share } else { 100 })));
    let numbers = (tenths, line).prop_flat_map(|(tenths, line)| {
        prop::sample::select(vec![
            Field::ResinLitres.to(tenths),
            Field::LitresPerDay.to(tenths * 10.0),
            Field::WearingLine.to(line),
            Field::DueLine.to(line),
            Field::SpentLine.to(line),
        ])
    });
    let moneys = cents.prop_flat_map(|amount| {
        prop::sample::select(vec![
            Field::ResinPrice.to(amount),
            Field::MembranePrice.to(amount),
            Field::PrefilterPrice.to(amount),
            Field::MembraneLabour.to(amount),
            Field::ResinLabour.to(amount),
        ])
    });
    let times = (some_clock(), some_clock(), day).prop_flat_map(|(one, other, day)| {
        prop::sample::select(vec![
            Field::DayEnds.to(one),
            Field::DayEndsOn(day).to(one),
            Field::DigestAt.to((day, one)),
            Field::QuietHours.to((one != other).then_some((one, other))),
        ])
    });
    let currencies = (0..30_usize).prop_filter_map("a currency", |n| {
        Currency::all().nth(n).map(|one| Field::Currency.to(one))
    });
    prop_oneof![
        numbers,
        moneys,
        times,
        months,
        days.prop_map(|days| Field::WorkingDays.to(days)),
        currencies
    ]
}

proptest! {
    #[test]
    fn no_text_makes_the_reader_of_settings_fail(text in "\\PC{0,200}") {
        let _ = read(&text);
    }

    #[test]
    fn what_is_kept_comes_back(setting in some_setting()) {
        prop_assert_eq!(Setting::kept(setting.field(), &setting.text()), Some(setting));
    }

    /// Whatever is shown can be typed, and sets the same.
    #[test]
    fn what_is_shown_can_be_typed(setting in some_setting(), spanish in any::<bool>(), currency in 0..36_usize) {
        let currency = Currency::all().nth(currency).filter(|currency| currency.digits() >= 2);
        let words = Words::of(Some(if spanish { "es" } else { "en" }));
        let shown = typed(words, &setting, Ways { currency, volume: VolumeUnit::Litres });
        let wished = read(&shown);
        prop_assert_eq!(wished, Some(WishFor::set(None, setting)), "{}", shown);
    }
}

#[test]
fn the_other_settings_too_are_shown_as_they_are_typed() {
    for (text, rig, ..) in ROWS
        .iter()
        .filter(|row| !row.0.contains("price") && !row.0.contains("cost"))
    {
        let Some(WishFor {
            wish: Wish::Set(setting),
            ..
        }) = read(text)
        else {
            panic!("{text}");
        };
        for tag in ["en", "es"] {
            let ways = Ways {
                currency: None,
                volume: VolumeUnit::Litres,
            };
            let shown = format!("{rig} {}", typed(Words::of(Some(tag)), &setting, ways));
            let back = match read(&shown) {
                Some(WishFor {
                    wish: Wish::Set(back), ..
                }) => back,
                other => panic!("{shown}: {other:?}"),
            };
            let same = back == setting || setting.field() == Field::LitresPerDay;
            assert!(same, "{shown}");
        }
    }
}

#[tokio::test]
async fn an_owner_sets_prices_and_sees_what_holds() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("owner", "resin price 9").await, @r"
    bot: Set: resin price 9 a litre.
         No currency set. Type for example: currency EUR
    ");
    assert_snapshot!(world.says("owner", "country UK").await, @"bot: Set: country GB.");
    assert_snapshot!(world.says("owner", "resin costs 9.50 a litre").await, @"bot: Set: resin price £9.50 a litre.");
    assert_snapshot!(world.says("owner", "heron resin 25 l").await, @"bot: Set for Heron: resin 25 litres.");
    assert_snapshot!(world.says("owner", "settings").await, @r"
    bot: My outfit. To change a line, type it with another value.
         resin price £9.50 a litre
         country GB
         Defaults:
         currency GBP
         working days Monday - Friday
         day ends 17:00
         digest Monday 07:00
         digest on
         reminders on
         warnings on
         quiet hours 20:00-07:00
         wearing line 90 %
         due line 85 %
         spent line 80 %
         spot line 10 ppm
         meter ppm
         degrees C
         pressure bar
         volume litres
         prefilters every 180 days
         keep everything
         Not set yet. For example:
         membrane price £180
         Back to the default: due line default
    ");
    assert_snapshot!(world.says("owner", "heron settings").await, @r"
    bot: Heron. To change a line, type it with another value.
         heron resin 25 litres
         Not set yet. For example:
         heron 800 litres a day
         Back to the default: heron resin default
    ");
    assert_snapshot!(world.says("owner", "resin price default").await, @"bot: That's no longer set.");
    assert_snapshot!(world.says("owner", "due line 78").await, @"bot: The lines must fall from wearing over due to spent. Now: 90, 85, 80 %. Move the others first.");
    assert_snapshot!(world.says("owner", "two membranes").await, @"bot: That's for one rig. Like this: heron 2 membranes");
    assert_snapshot!(world.says("owner", "heron currency EUR").await, @"bot: That's for the whole outfit, so without a rig's name: currency EUR");
}

#[tokio::test]
async fn crew_set_nothing_and_leads_only_what_a_rig_is() {
    let mut world = World::new().await;
    for text in [
        "resin price 9",
        "due line 84",
        "digest off",
        "heron day ends 15:00",
        "currency EUR",
    ] {
        for who in ["lead", "crew"] {
            let refused = world.says(who, text).await;
            assert!(refused.contains("Only an owner can"), "{who}: {text}: {refused}");
        }
    }
    let refused = world.says("crew", "heron resin 25 l").await;
    assert_snapshot!(refused, @"bot: Only an owner or lead can do that.");
    let noted = world.says("lead", "heron resin 25 l").await;
    assert_snapshot!(noted, @"bot: Set for Heron: resin 25 litres.");
}

#[tokio::test]
async fn a_short_name_means_its_rig_and_only_that() {
    let mut world = World::new().await;
    world.says("owner", "heron also called big bird").await;
    assert!(world.says("crew", "big bird 180 12").await.contains("Heron 93.3%"));
    assert!(world.says("crew", "big bird?").await.contains("Heron 93.3%"));
    assert_snapshot!(world.says("owner", "otter also called Big Bird").await, @r#"bot: "big bird" means Heron already."#);
    assert_snapshot!(world.says("owner", "mule also called otter").await, @r#"bot: "Otter" means Otter already."#);
}

/// 360 and 24 uS/cm at half a ppm each are 180 and 12 ppm.
#[tokio::test]
async fn a_meter_that_shows_conductivity_is_read_so() {
    let mut world = World::new().await;
    world.says("owner", "meter uS 0.5").await;
    let answer = world.says("crew", "heron 360 24").await;
    assert!(answer.contains("tap 180 → RO 12 ppm"), "{answer}");
    let answer = world.says("crew", "heron 180 ppm 12 ppm").await;
    assert!(answer.contains("tap 180 → RO 12 ppm"), "{answer}");
    world.says("owner", "meter ppm").await;
    let answer = world.says("crew", "heron 181 12").await;
    assert!(answer.contains("tap 181 → RO 12 ppm"), "{answer}");
}
