//! The digest as files: what its workbook and its calendar hold. Pure; whoever
//! calls it knows the time and sends the bytes.

use jiff::civil::{Date, DateTime};

use crate::digest::Digest;
use crate::message::setting::Currency;
use crate::papers::{Cell, DayEvent, Sheet, calendar};
use crate::replies::Words;
use crate::replies::digest::papers::{self as worded, Page};

/// One reading for the workbook.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadingRow {
    /// The rig's name.
    pub rig: String,
    /// Local day on which it was taken.
    pub on: Date,
    /// Dissolved solids of the tap, ppm.
    pub feed_ppm: f64,
    /// At the RO outlet, ppm.
    pub permeate_ppm: Option<f64>,
    /// After the resin, ppm.
    pub product_ppm: Option<f64>,
    /// As read, a fraction.
    pub rejection: Option<f64>,
    /// Temperature of the tap water, degrees Celsius.
    pub temperature_c: Option<f64>,
    /// Gauge pressure of the tap, kPa.
    pub pressure_kpa: Option<f64>,
    /// Whether it counts; false when it was set aside.
    pub counts: bool,
}

/// The workbook's sheets: fleet, actions, shopping, readings, and the key to
/// their columns.
pub fn sheets(words: Words, digest: &Digest, readings: &[ReadingRow], currency: Option<Currency>) -> Vec<Sheet> {
    let pages = [
        (Page::Fleet, fleet(words, digest)),
        (Page::Actions, actions(words, digest, currency)),
        (Page::Shopping, shopping(words, digest)),
        (Page::Readings, readings.iter().map(|row| reading(words, row)).collect()),
    ];
    let mut key: Vec<Vec<Cell>> = Vec::new();
    let mut sheets = Vec::new();
    for (page, rows) in pages {
        let columns = worded::columns(words, page, currency);
        for column in &columns {
            let row = vec![Cell::text(&*column.title), Cell::text(&*column.meaning)];
            if !key.contains(&row) {
                key.push(row);
            }
        }
        sheets.push(Sheet {
            name: worded::name(words, page),
            titles: columns.into_iter().map(|column| column.title).collect(),
            rows,
        });
    }
    let titles = worded::columns(words, Page::Key, currency);
    sheets.push(Sheet {
        name: worded::name(words, Page::Key),
        titles: titles.into_iter().map(|column| column.title).collect(),
        rows: key,
    });
    sheets
}

/// The calendar of the fleet's due dates, made at `stamp_utc`. `outfit` is the
/// outfit's number: it keeps the dates of two outfits apart on one phone.
pub fn due_calendar(words: Words, digest: &Digest, outfit: i64, stamp_utc: DateTime) -> String {
    let events: Vec<DayEvent> = (digest.due_dates.iter())
        .map(|due| {
            let (title, about) = worded::due_date(words, due, digest.today);
            DayEvent {
                key: format!("{}-{}", due.what.code(), due.rig),
                on: due.on,
                title,
                about,
            }
        })
        .collect();
    let name = worded::calendar_name(words, &digest.outfit);
    calendar(&name, &format!("outfit-{outfit}.tapside"), stamp_utc, &events)
}

fn fleet(words: Words, digest: &Digest) -> Vec<Vec<Cell>> {
    let row = |row: &crate::digest::fleet::FleetRow| {
        let days = |days: Option<u32>| Cell::number(days.map(f64::from));
        vec![
            Cell::text(&*row.name),
            Cell::text(worded::state(words, row)),
            Cell::share(row.rejection.map(|rejection| rejection.mid)),
            Cell::share(row.rejection.map(|rejection| rejection.low)),
            Cell::share(row.rejection.map(|rejection| rejection.high)),
            Cell::number(row.points_per_year.map(one_decimal)),
            Cell::number(row.resin_days.map(|[_, likely, _]| one_decimal(likely))),
            Cell::number(row.product_ppm),
            days(row.flushes.map(|(done, _)| done)),
            days(row.flushes.map(|(_, worked)| worked)),
            days(Some(row.readings)),
            Cell::date(row.last_reading_on),
        ]
    };
    digest.fleet.iter().map(row).collect()
}

fn actions(words: Words, digest: &Digest, currency: Option<Currency>) -> Vec<Vec<Cell>> {
    let numbered = digest.actions.iter().chain(&digest.later).zip(1_u32..);
    let mut rows = Vec::new();
    for (action, number) in numbered {
        for item in &action.items {
            let money = item.deed.money_per_month();
            rows.push(vec![
                Cell::Number(f64::from(number)),
                Cell::text(item.subject.name()),
                Cell::text(worded::what_to_do(words, item, digest.today, currency)),
                Cell::Date(item.deed.by().unwrap_or(digest.today)),
                Cell::number((money > 0.0).then(|| money.round())),
                Cell::Date(item.since),
            ]);
        }
    }
    rows
}

fn shopping(words: Words, digest: &Digest) -> Vec<Vec<Cell>> {
    let row = |purchase: &crate::digest::shopping::Purchase| {
        let rigs: Vec<&str> = purchase.rigs.iter().map(|(rig, _)| rig.as_str()).collect();
        vec![
            Cell::text(worded::good(words, purchase)),
            Cell::Number(purchase.quantity),
            Cell::number(purchase.cost),
            Cell::text(rigs.join(", ")),
        ]
    };
    digest.shopping.purchases.iter().map(row).collect()
}

fn reading(words: Words, row: &ReadingRow) -> Vec<Cell> {
    vec![
        Cell::text(&*row.rig),
        Cell::Date(row.on),
        Cell::number(Some(row.feed_ppm)),
        Cell::number(row.permeate_ppm),
        Cell::number(row.product_ppm),
        Cell::share(row.rejection),
        Cell::number(row.temperature_c.map(one_decimal)),
        Cell::number(row.pressure_kpa.map(one_decimal)),
        Cell::text(worded::counts(words, row.counts)),
    ]
}

/// An estimate's decimals beyond the first say nothing.
fn one_decimal(number: f64) -> f64 {
    (number * 10.0).round() / 10.0
}
