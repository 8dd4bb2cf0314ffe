//! The digest as files, read back by other readers.

use std::io::Cursor;

use calamine::{Data, Range, Reader, Xlsx};
use icalendar::{CalendarComponent, Component};
use jiff::civil::{DateTime, date};
use tapside::bot::digest_papers::{ReadingRow, due_calendar, sheets};
use tapside::digest::decide;
use tapside::message::setting::Currency;
use tapside::papers::workbook;
use tapside::replies::Words;

use crate::digest_fleet::{TODAY, seven, sixty};

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
        litres: None,
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
        "Mule: new resin before the next window; 12 ppm at the glass will spot"
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
        (text(&readings, 1, 9), text(&readings, 2, 9)),
        ("yes".into(), "no".into())
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
