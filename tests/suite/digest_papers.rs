//! The digest as files, read back by other readers.

use std::io::Cursor;

use calamine::{Data, Range, Reader, Xlsx};
use icalendar::{CalendarComponent, Component};
use jiff::civil::{DateTime, date};
use tapside::bot::digest_sheets::{ReadingRow, due_calendar, sheets};
use tapside::digest::decide;
use tapside::message::setting::Currency;
use tapside::papers::workbook;
use tapside::replies::Words;
use tapside::water::condition::Condition;

use crate::digest_fleet::{LATER, TODAY, renewal, seven, sixty, worn};

const STAMP: DateTime = date(2026, 3, 2).at(7, 0, 0, 0);

fn reading(rig: &str, counts: bool) -> ReadingRow {
    ReadingRow {
        rig: rig.to_owned(),
        on: date(2026, 2, 27),
        feed_ppm: 180.0,
        permeate_ppm: Some(12.0),
        product_ppm: None,
        rejection: Some(168.0 / 180.0),
        temperature_c: Some(11.0),
        pressure_kpa: None,
        counts,
    }
}

fn book(tag: &str) -> Xlsx<Cursor<Vec<u8>>> {
    let readings = [reading("Heron", true), reading("Otter", false)];
    let sheets = sheets(
        Words::of(Some(tag)),
        &decide(&seven()),
        &readings,
        Currency::of_code("USD"),
    );
    Xlsx::new(Cursor::new(workbook(&sheets, STAMP).unwrap())).unwrap()
}

fn text(sheet: &Range<Data>, row: u32, column: u32) -> String {
    sheet
        .get_value((row, column))
        .map(ToString::to_string)
        .unwrap_or_default()
}

#[test]
fn the_workbook_has_five_sheets_and_a_key_to_every_column() {
    for (tag, names) in [
        ("en", ["Fleet", "Actions", "Shopping", "Readings", "Key"]),
        ("es", ["Flota", "Qué hacer", "Compras", "Lecturas", "Leyenda"]),
    ] {
        let mut book = book(tag);
        assert_eq!(book.sheet_names(), names);
        let key = book.worksheet_range(names[4]).unwrap();
        let explained: Vec<String> = (1..key.height() as u32).map(|row| text(&key, row, 0)).collect();
        for name in &names[..4] {
            let sheet = book.worksheet_range(name).unwrap();
            for column in 0..sheet.width() as u32 {
                let title = text(&sheet, 0, column);
                assert!(explained.contains(&title), "{name}: {title}");
            }
        }
        for row in 1..key.height() as u32 {
            assert!(text(&key, row, 1).len() > 5, "{}", text(&key, row, 0));
        }
    }
}

/// The rows of the key, title and meaning a line each.
fn key(tag: &str, name: &str) -> String {
    let key = book(tag).worksheet_range(name).unwrap();
    let rows = (0..key.height() as u32).map(|row| format!("{}\n{}", text(&key, row, 0), text(&key, row, 1)));
    rows.collect::<Vec<_>>().join("\n")
}

#[test]
fn the_key_says_what_each_column_means() {
    insta::assert_snapshot!(key("en", "Key"), @r"
    column
    meaning
    rig
    Its name.
    state
    Of the membrane: good, fading, plan a new one, worn out; too early to tell with too few readings; look for a leak after a jump.
    rejection, %
    Share of the dissolved solids that the membrane holds back, at 12 °C and the rig's usual pressure.
    low, %
    Nine times out of ten the rejection is above this.
    high, %
    Nine times out of ten the rejection is below this.
    lost, points a year
    Points of rejection that the membrane loses a year.
    resin left, working days
    Working days that the bed is likely to last.
    glass, ppm
    Last dissolved solids after the resin; from 10 ppm the glass spots.
    flushed, days
    Days of the week at whose end the rig was flushed.
    worked, days
    Days of the week on which the rig worked.
    readings
    Readings of the week.
    last reading
    Day of the last reading ever.
    no.
    The order: risk to the glass, then faults, then money a month, then dates.
    what to do
    What, and why.
    by
    Do it by this day.
    a month, USD
    What waiting costs a month, where it is known.
    open since
    The first Monday in a row that asked for it.
    what to buy
    For the next two weeks.
    quantity
    Litres of resin, sets of prefilters, membranes.
    cost, USD
    Where prices are set.
    for
    The rigs it is for.
    day
    Local day on which the reading was taken.
    tap, ppm
    Dissolved solids of the tap.
    RO, ppm
    Dissolved solids at the RO outlet.
    rejection as read, %
    (tap - RO) / tap, not corrected.
    water, °C
    Temperature of the tap water.
    pressure, kPa
    Of the tap, above the air's.
    counts
    Yes, or no when it was set aside as doubtful.
    ");
    insta::assert_snapshot!(key("es", "Leyenda"), @r"
    columna
    significado
    equipo
    Su nombre.
    estado
    De la membrana: bien, con desgaste, por cambiar, agotada; aún es pronto con pocas lecturas; buscar una fuga tras un salto.
    rechazo, %
    Parte de los sólidos disueltos que la membrana retiene, a 12 °C y con la presión habitual del equipo.
    mínimo, %
    Nueve de cada diez veces el rechazo está por encima.
    máximo, %
    Nueve de cada diez veces el rechazo está por debajo.
    pierde, puntos al año
    Puntos de rechazo que la membrana pierde al año.
    resina, días de trabajo
    Días de trabajo que la carga durará probablemente.
    vidrio, ppm
    Últimos sólidos disueltos tras la resina; desde 10 ppm el vidrio queda con manchas.
    enjuagado, días
    Días de la semana al final de los cuales se enjuagó la membrana.
    trabajado, días
    Días de la semana en que el equipo trabajó.
    lecturas
    Lecturas de la semana.
    última lectura
    Día de la última lectura de todas.
    n.º
    El orden: riesgo para el vidrio, luego averías, luego dinero al mes, luego fechas.
    qué hacer
    Qué, y por qué.
    para
    El día para el que debe estar hecho.
    al mes, USD
    Lo que cuesta esperar un mes, si se sabe.
    pendiente desde
    El primer lunes seguido que lo pidió.
    qué comprar
    Para las próximas dos semanas.
    cantidad
    Litros de resina, juegos de prefiltros, membranas.
    coste, USD
    Donde hay precios.
    para
    Los equipos a los que toca.
    día
    Día local en que se tomó la lectura.
    red, ppm
    Sólidos disueltos del agua de red.
    ósmosis, ppm
    Sólidos disueltos a la salida de la ósmosis.
    rechazo sin corregir, %
    (red - ósmosis) / red, sin corregir.
    agua, °C
    Temperatura del agua de red.
    presión, kPa
    De la red, por encima de la del aire.
    cuenta
    Sí, o no si se apartó por dudosa.
    ");
}

#[test]
fn where_no_currency_is_told_the_columns_of_money_say_so() {
    for (tag, shopping, title) in [
        ("en", "Shopping", "cost, no currency set"),
        ("es", "Compras", "coste, moneda sin indicar"),
    ] {
        let sheets = sheets(Words::of(Some(tag)), &decide(&seven()), &[], None);
        let sheet = sheets.iter().find(|sheet| sheet.name == shopping).unwrap();
        assert_eq!(sheet.titles[2], title);
    }
}

#[test]
fn numbers_are_numbers_and_days_are_days() {
    let mut book = book("en");
    let fleet = book.worksheet_range("Fleet").unwrap();
    assert_eq!(text(&fleet, 1, 0), "Mule");
    assert_eq!(fleet.get_value((1, 2)), Some(&Data::Float(0.936)));
    // 27 February 2026: three days before day 46083 of the 1900 date system.
    let Some(Data::DateTime(day)) = fleet.get_value((1, 11)) else {
        panic!("{:?}", fleet.get_value((1, 11)));
    };
    assert_eq!(day.as_f64(), 46_080.0);
    let actions = book.worksheet_range("Actions").unwrap();
    assert_eq!(text(&actions, 0, 4), "a month, USD");
    assert_eq!(
        text(&actions, 1, 2),
        "Mule: change the resin before the next window; 12 ppm at the glass will spot"
    );
    let shopping = book.worksheet_range("Shopping").unwrap();
    let costs: Vec<Option<&Data>> = (1..4).map(|row| shopping.get_value((row, 2))).collect();
    assert_eq!(
        costs,
        [108.0, 28.0, 160.0]
            .map(Data::Float)
            .iter()
            .map(Some)
            .collect::<Vec<_>>()
    );
    let readings = book.worksheet_range("Readings").unwrap();
    assert_eq!(
        (text(&readings, 1, 8), text(&readings, 2, 8)),
        ("yes".into(), "no".into())
    );
    let lecturas = self::book("es").worksheet_range("Lecturas").unwrap();
    assert_eq!(
        (text(&lecturas, 1, 8), text(&lecturas, 2, 8)),
        ("sí".into(), "no".into())
    );
}

#[test]
fn the_calendar_has_each_due_date_once() {
    let digest = decide(&sixty());
    let file = due_calendar(Words::of(Some("en")), &digest, 7, STAMP);
    let read: icalendar::Calendar = file.parse().unwrap();
    let events: Vec<_> = (read.components.iter())
        .filter_map(|component| match component {
            CalendarComponent::Event(event) => Some(event),
            _ => None,
        })
        .collect();
    assert_eq!(events.len(), digest.due_dates.len());
    let mut keys: Vec<&str> = events.iter().filter_map(|event| event.get_uid()).collect();
    assert!(keys.contains(&"membrane-29@outfit-7.tapside"), "{keys:?}");
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), events.len());
    let yak = events
        .iter()
        .find(|event| event.get_uid() == Some("membrane-29@outfit-7.tapside"))
        .unwrap();
    assert_eq!(yak.get_summary(), Some("Yak: new membrane, cheapest about now"));
    assert_eq!(yak.get_description(), Some("Between mid Mar and mid May."));
    assert!(digest.due_dates.iter().all(|due| due.on >= TODAY));
}

/// The titles of a calendar's dates, each with what is said of it.
fn dates(tag: &str) -> Vec<String> {
    let mut week = seven();
    week.rigs.truncate(5);
    week.rigs[4] = worn(week.rigs[4].clone(), 0.862, Condition::Fading, renewal(LATER, -4.0));
    let file = due_calendar(Words::of(Some(tag)), &decide(&week), 7, STAMP);
    let read: icalendar::Calendar = file.parse().unwrap();
    assert!(file.contains("X-WR-CALNAME:"));
    let told = read.components.iter().filter_map(|component| match component {
        CalendarComponent::Event(event) => Some(event),
        _ => None,
    });
    told.map(|event| {
        [event.get_summary(), event.get_description()]
            .into_iter()
            .flatten()
            .collect::<Vec<_>>()
            .join("\n")
    })
    .collect()
}

#[test]
fn a_calendar_says_what_is_due_and_in_which_range() {
    insta::assert_snapshot!(dates("en").join("\n"), @r"
    Mule: resin likely used up
    Otter: new membrane, cheapest about now
    Swift: change the prefilters
    Swift: new membrane, cheapest about now
    Between mid Mar and mid May.
    Heron: resin likely used up
    Between 19 Mar and 21 Apr.
    Kestrel: resin likely used up
    Between 19 Mar and 21 Apr.
    Otter: resin likely used up
    Between 19 Mar and 21 Apr.
    Swift: resin likely used up
    Between 19 Mar and 21 Apr.
    Heron: change the prefilters
    Kestrel: change the prefilters
    Mule: change the prefilters
    Otter: change the prefilters
    ");
    insta::assert_snapshot!(dates("es").join("\n"), @r"
    Mule: resina probablemente gastada
    Otter: membrana nueva, lo más barato es por estas fechas
    Swift: cambiar los prefiltros
    Swift: membrana nueva, lo más barato es por estas fechas
    Entre mediados de mar y mediados de may.
    Heron: resina probablemente gastada
    Entre el 19 mar y el 21 abr.
    Kestrel: resina probablemente gastada
    Entre el 19 mar y el 21 abr.
    Otter: resina probablemente gastada
    Entre el 19 mar y el 21 abr.
    Swift: resina probablemente gastada
    Entre el 19 mar y el 21 abr.
    Heron: cambiar los prefiltros
    Kestrel: cambiar los prefiltros
    Mule: cambiar los prefiltros
    Otter: cambiar los prefiltros
    ");
}
