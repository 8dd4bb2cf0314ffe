//! An outfit's data moved: out as files, into an empty database, and back.

use std::io::Cursor;

use calamine::{Reader, Xlsx, open_workbook_from_rs};
use insta::assert_snapshot;
use tapside::desk::{Heard, Manner};
use tapside::message::setting::{Amount, Currency, Field, Meter, Rated, VolumeUnit, Wish, read};
use tapside::replies::Words;
use tapside::replies::settings::{Ways, typed_exactly};

use crate::world::{DAY, HOUR, World};

/// The files that somebody gets for a text, by name.
pub async fn files(world: &mut World, who: &str, text: &str) -> Vec<(String, Vec<u8>)> {
    world.now += 60;
    let heard: Vec<Heard> = world.desk.says(who, Manner::Says, text, world.now).await.unwrap();
    assert!(heard.iter().all(|heard| heard.to == who || heard.files.is_empty()));
    let files = heard.into_iter().flat_map(|heard| heard.files);
    files.map(|file| (file.name.clone(), file.bytes.to_vec())).collect()
}

fn csv_named(files: &[(String, Vec<u8>)], name: &str) -> String {
    let found = files.iter().find(|(known, _)| known == name);
    let (_, bytes) = found.unwrap_or_else(|| panic!("no {name}"));
    String::from_utf8(bytes.clone()).unwrap()
}

/// A file's rows without the column that names who told them.
fn without_tellers(csv: &str) -> Vec<String> {
    let place = csv
        .lines()
        .next()
        .unwrap()
        .split(',')
        .position(|name| name == "by")
        .unwrap();
    csv.lines()
        .map(|line| {
            let cells = line.split(',').enumerate().filter(|(at, _)| *at != place);
            cells.map(|(_, cell)| cell).collect::<Vec<_>>().join(",")
        })
        .collect()
}

/// Some weeks of an outfit: odd figures, a rig without a membrane, services.
async fn some_weeks(world: &mut World) {
    world.says("owner", "mule di only").await;
    world.says("owner", "otter flushes itself").await;
    for week in 0..11 {
        world.now += 6 * DAY + 7 * HOUR;
        let permeate = 12.0 + f64::from(week) * 0.7;
        world
            .says("crew", &format!("heron 181.{week} {permeate} 14 c 4.1 bar"))
            .await;
        world.says("lead", &format!("otter {} 21 0", 205 + week)).await;
        world.says("crew", &format!("mule 190 {week}")).await;
        world.says("crew", "heron flushed").await;
    }
    for text in [
        "name Blue Ladder",
        "country uk",
        // 181 / 25 and 6 US gallons are no round numbers.
        "resin 25 l costs 180.9",
        "membrane price 180",
        "volume gallons",
        "otter 6 gallons of resin",
        "otter 250 gallons a day",
        "labour 40",
        "busy june-august 150 %",
        "working days mon-sat",
        "saturday ends 13:00",
        "quiet hours off",
        "wearing line 88",
        "mule nudges off",
        "otter also called trailer, big one",
        "otter rated 150 gpd at 77 F 60 psi",
    ] {
        let noted = world.says("owner", text).await;
        assert!(!noted.contains("I log water readings"), "{text}: {noted}");
    }
    world.says("lead", "otter new resin").await;
    world.says("lead", "heron new resin").await;
    world.says("lead", "otter same membrane").await;
    world.says("crew", "heron 200 15").await;
    world.says("crew", "undo").await;
}

#[tokio::test]
async fn an_export_read_into_an_empty_outfit_gives_the_same_assessments() {
    let mut old = World::new().await;
    some_weeks(&mut old).await;
    let first = files(&mut old, "owner", "export").await;
    let names: Vec<&str> = first.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(
        names,
        [
            "tapside-2026-05-12.xlsx",
            "readings.csv",
            "services.csv",
            "rigs.csv",
            "settings.txt"
        ]
    );
    assert_snapshot!(csv_named(&first, "settings.txt"), @r"
    name Blue Ladder
    zone Europe/London
    resin price 7.2360 a litre
    membrane price £180
    labour £40 a membrane change
    busy Jun, Jul, Aug 150 %
    working days Monday - Saturday
    Saturday ends 13:00
    quiet hours off
    wearing line 88 %
    country GB
    volume gallons
    Mule reminders off
    Otter 250 gallons a day
    Otter resin 6 gallons
    Otter rated 150 gpd at 77 F 60 psi
    Otter also called trailer or big one
    ");

    let mut new = World::empty().await;
    new.desk.settle_in(new.now).await.unwrap();
    new.now = old.now - 60;
    for name in ["settings.txt", "readings.csv", "services.csv", "rigs.csv"] {
        let preview = new.says("owner", &format!("import\n{}", csv_named(&first, name))).await;
        assert!(preview.contains("Import it?"), "{preview}");
    }
    let imported = new.says("owner", "import now").await;
    assert_snapshot!(imported, @r"
    bot: Imported: 33 readings, 14 services, 3 rigs, 16 settings.
         If that was wrong, type: undo import
    ");
    let second = files(&mut new, "owner", "export").await;
    assert_eq!(csv_named(&second, "settings.txt"), csv_named(&first, "settings.txt"));
    for name in ["readings.csv", "services.csv"] {
        let mut told = without_tellers(&csv_named(&first, name));
        told.retain(|line| !line.contains(",200,15,"));
        assert_eq!(without_tellers(&csv_named(&second, name)), told, "{name}");
    }
    old.now = new.now;
    for question in [
        "heron?",
        "otter?",
        "mule?",
        "when does heron need a membrane",
        "membrane otter?",
        "resin otter?",
        "what if resin costs 12?",
        "history otter",
        "what do we need to buy?",
        "settings",
        "otter settings",
        "trailer?",
        "fleet",
    ] {
        let answer = old.says("owner", question).await;
        assert_eq!(new.says("owner", question).await, answer, "{question}");
        assert!(question != "membrane otter?" || answer.contains('£'), "{answer}");
    }
}

#[tokio::test]
async fn settings_come_in_as_they_are_typed_and_go_again() {
    let mut world = World::new().await;
    world.says("owner", "resin price 8").await;
    let text = "import\n# Of last year.\nname Blue Ladder\nzone Europe/Madrid\nresin price 9\nheron resin 25 litres\n\
                wren 2 membranes\nkeep 3 years\ntwo membranes\nheron currency EUR\nzone Atlantis\ndue line 70\n\
                heron also called mule\nbring the ladder";
    assert_snapshot!(world.says("owner", text).await, @r#"
    bot: 5 settings are new or change:
         name Blue Ladder
         zone Europe/Madrid
         resin price 9
         heron resin 25 litres
         wren 2 membranes
         New rigs, would be added: Wren
         Left out, since it deletes what is old. To set it, type: keep 3 years
         6 lines can't be read and would be left out:
         line 8: that holds for one rig, and none is named ("two membranes")
         line 9: that holds for the whole outfit, not for one rig ("heron currency EUR")
         line 10: no zone that I know ("zone Atlantis")
         and 3 more
         Import it? Tap a button, or type: import now | drop import
         [Import]  [Drop]
    "#);
    assert_snapshot!(world.says("owner", "[Import]").await, @r"
    bot: Imported: 1 rig, 5 settings.
         If that was wrong, type: undo import
    ");
    assert_snapshot!(world.says("owner", "wren settings").await, @r"
    bot: Wren. To change a line, type it with another value.
         wren 2 membranes
         Not set yet. For example:
         wren resin 25 litres
         wren 800 litres a day
         Back to the default: wren resin default
    ");
    assert!(world.says("owner", "zone Madrid").await.contains("Europe/Madrid"));
    assert!(world.says("owner", text).await.contains("5 lines are here already"));
    world.says("owner", "heron resin 20 litres").await;
    assert_snapshot!(world.says("owner", "undo import").await, @r"
    bot: Import undone.
         4 settings are as before.
         Removed again: Wren.
    ");
    let settings = world.says("owner", "settings").await;
    assert!(
        settings.contains("My outfit.") && settings.contains("resin price 8 a litre"),
        "{settings}"
    );
    assert!(world.says("owner", "heron settings").await.contains("resin 20 litres"));
    assert!(!world.says("owner", "fleet").await.contains("Wren"));
}

#[tokio::test]
async fn one_yes_is_undone_as_a_whole() {
    let mut world = World::new().await;
    world
        .says("owner", "import\nrig,kind,flush\nheron,di,hand\nwren,ro,hand")
        .await;
    world
        .says("owner", "import\nrig,date,tap,ro\nwren,2026-03-01,180,12")
        .await;
    world.says("owner", "import now").await;
    world.says("crew", "wren 181 12").await;
    assert_snapshot!(world.says("owner", "undo import").await, @r"
    bot: Import undone.
         No longer counted: 1 reading.
         1 setting is as before.
         Kept, since there's more on it by now: Wren.
    ");
    assert!(
        world.says("crew", "heron 180 12").await.contains("Heron 93.3%"),
        "it has a membrane again"
    );
    assert!(!world.says("owner", "history wren").await.contains("tap 180"));
    assert_snapshot!(world.says("owner", "undo import").await, @"bot: There's no import to undo.");
}

/// The last sheet of the workbook, line by line.
fn key_of(files: &[(String, Vec<u8>)]) -> String {
    let (_, bytes) = files.iter().find(|(name, _)| name.ends_with(".xlsx")).unwrap();
    let mut book: Xlsx<_> = open_workbook_from_rs(Cursor::new(bytes.clone())).unwrap();
    let names = book.sheet_names();
    let key = book.worksheet_range(names.last().unwrap()).unwrap();
    let mut lines = vec![format!("[{}]", names.last().unwrap())];
    for row in key.rows() {
        let cells: Vec<String> = row.iter().map(ToString::to_string).collect();
        lines.push(cells.join(" | "));
    }
    lines.join("\n")
}

#[tokio::test]
async fn the_last_sheet_of_an_export_explains_each_column() {
    let mut world = World::new().await;
    let english = files(&mut world, "owner", "export").await;
    assert_snapshot!(key_of(&english), @r#"
    [key]
    sheet | column | meaning
    readings | rig | The rig's name; a removed rig has "removed" after it.
    readings | time | When the water was tested, by the outfit's clock (ISO 8601).
    readings | feed_ppm | Tap (feed), ppm of dissolved solids.
    readings | permeate_ppm | RO outlet (permeate), ppm of dissolved solids. Empty on a rig without a membrane.
    readings | product_ppm | Glass (product, behind the resin), ppm of dissolved solids.
    readings | temp_c | Temperature of the feed water, degrees Celsius.
    readings | pressure_kpa | Pressure of the feed water, kPa above the air's (gauge).
    readings | permeate_lpm | Flow of the permeate, litres a minute.
    readings | waste_lpm | Flow to waste, litres a minute.
    readings | feed_us | Tap as it was typed in uS/cm, where it was.
    readings | permeate_us | RO outlet as it was typed in uS/cm, where it was.
    readings | product_us | Glass as it was typed in uS/cm, where it was.
    readings | by | Who sent it: first name.
    readings | withdrawn | When it was undone. Such a row no longer counts, and isn't read in again.
    services | rig | The rig's name; a removed rig has "removed" after it.
    services | time | When it was done, by the outfit's clock (ISO 8601).
    services | what | membrane, resin, repack, prefilter, flush, oring, preserved, or same-membrane: somebody said that it was not changed.
    services | minutes | How long it took, in minutes.
    services | price_minor | What it cost, in the smallest unit of the outfit's currency, such as cents.
    services | by | Who sent it: first name.
    services | withdrawn | When it was undone. Such a row no longer counts, and isn't read in again.
    rigs | rig | The rig's name; a removed rig has "removed" after it.
    rigs | kind | ro: with a membrane. di: resin alone.
    rigs | flush | hand: flushed by hand. itself: flushes itself.
    rigs | added | When it was added.
    rigs | removed | When it was removed.
    settings | rig | The rig, if it is set for one rig alone.
    settings | name | Which setting.
    settings | value | Its value, as it is kept.
    settings | since | Since when.
    settings | by | Who sent it: first name.
    people | name | First name.
    people | role | owner, lead or crew.
    people | since | Since when.
    "#);
    world.says("owner", "idioma español").await;
    let spanish = files(&mut world, "owner", "exportar").await;
    assert_snapshot!(key_of(&spanish), @r#"
    [clave]
    hoja | columna | significado
    readings | rig | El nombre del equipo; si se quitó, lleva "removed" detrás.
    readings | time | Cuándo se midió el agua, según el reloj de la empresa (ISO 8601).
    readings | feed_ppm | Red (entrada), ppm de sólidos disueltos.
    readings | permeate_ppm | Salida de ósmosis (permeado), ppm de sólidos disueltos. Vacío en un equipo sin membrana.
    readings | product_ppm | Vidrio (producto, tras la resina), ppm de sólidos disueltos.
    readings | temp_c | Temperatura del agua de entrada, grados Celsius.
    readings | pressure_kpa | Presión del agua de entrada, kPa sobre la del aire (manométrica).
    readings | permeate_lpm | Caudal de permeado, litros por minuto.
    readings | waste_lpm | Caudal al desagüe, litros por minuto.
    readings | feed_us | La red como se escribió en uS/cm, si fue así.
    readings | permeate_us | La salida de ósmosis como se escribió en uS/cm, si fue así.
    readings | product_us | El vidrio como se escribió en uS/cm, si fue así.
    readings | by | Quién la mandó: nombre de pila.
    readings | withdrawn | Cuándo se anuló. Esa fila ya no cuenta ni se vuelve a leer.
    services | rig | El nombre del equipo; si se quitó, lleva "removed" detrás.
    services | time | Cuándo se hizo, según el reloj de la empresa (ISO 8601).
    services | what | membrane (membrana), resin (resina), repack (compactada), prefilter (prefiltro), flush (enjuague), oring (junta), preserved (en conservante), o same-membrane: alguien dijo que no se cambió.
    services | minutes | Cuánto duró, en minutos.
    services | price_minor | Lo que costó, en la unidad menor de la moneda de la empresa, como céntimos.
    services | by | Quién la mandó: nombre de pila.
    services | withdrawn | Cuándo se anuló. Esa fila ya no cuenta ni se vuelve a leer.
    rigs | rig | El nombre del equipo; si se quitó, lleva "removed" detrás.
    rigs | kind | ro: con membrana. di: solo resina.
    rigs | flush | hand: se enjuaga a mano. itself: se enjuaga solo.
    rigs | added | Cuándo se agregó.
    rigs | removed | Cuándo se quitó.
    settings | rig | El equipo, si el ajuste es solo de uno.
    settings | name | Qué ajuste.
    settings | value | Su valor, tal como se guarda.
    settings | since | Desde cuándo.
    settings | by | Quién la mandó: nombre de pila.
    people | name | Nombre de pila.
    people | role | owner (dueño), lead (encargado) o crew (operario).
    people | since | Desde cuándo.
    "#);
}

/// Every sample in both languages, with figures that no round number says.
#[test]
fn a_setting_is_written_to_its_last_digit_and_read_back() {
    let amount = |text| Amount::kept(text).unwrap();
    let rated = Rated {
        gallons_per_day: 152.125,
        temperature_f: 77.0,
        pressure_psi: 60.5,
    };
    let ways = |volume| Ways {
        currency: Currency::of_code("GBP"),
        volume,
    };
    for setting in [
        Field::ResinPrice.to(amount("7.236")),
        Field::ResinPrice.to(amount("1234.5")),
        Field::MembranePrice.to(amount("0.125")),
        Field::MembraneLabour.to(amount("40")),
        Field::ResinLitres.to(22.712_470_704),
        Field::ResinLitres.to(28.317),
        Field::LitresPerDay.to(567.811_767_6),
        Field::DueLine.to(0.855),
        Field::Meter.to(Meter::Conductivity(0.647)),
        Field::Rated.to(rated),
        Field::Keep.to(Some(1_u16)),
        Field::Keep.to(None::<u16>),
    ] {
        for tag in ["en", "es"] {
            for volume in [VolumeUnit::Litres, VolumeUnit::Gallons] {
                let text = typed_exactly(Words::of(Some(tag)), &setting, ways(volume));
                let back = read(&text).map(|wished| wished.wish);
                assert_eq!(back, Some(Wish::Set(setting.clone())), "{text}");
            }
        }
    }
}
