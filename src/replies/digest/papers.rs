//! The words of the digest's workbook and calendar.

use jiff::civil::Date;

use crate::digest::Item;
use crate::digest::due_dates::{Due, DueDate};
use crate::digest::fleet::FleetRow;
use crate::digest::shopping::Purchase;
use crate::message::setting::Currency;
use crate::replies::Words;
use crate::replies::figures;
use crate::replies::reading::told_word;

use super::actions;

/// A sheet of the workbook.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Page {
    /// The fleet's table.
    Fleet,
    /// What to do.
    Actions,
    /// What to buy.
    Shopping,
    /// The week's readings.
    Readings,
    /// What the columns mean.
    Key,
}

/// A column: its title with its unit, and what it means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its title.
    pub title: String,
    /// What it means.
    pub meaning: String,
}

/// A sheet's name.
pub fn name(words: Words, page: Page) -> String {
    words.plain(match page {
        Page::Fleet => "sheet-fleet",
        Page::Actions => "sheet-actions",
        Page::Shopping => "sheet-shopping",
        Page::Readings => "sheet-readings",
        Page::Key => "sheet-key",
    })
}

/// A sheet's columns, in order.
pub fn columns(words: Words, page: Page, currency: Option<Currency>) -> Vec<Column> {
    let keys: &[&str] = match page {
        Page::Fleet => &[
            "column-rig",
            "column-state",
            "column-rejection",
            "column-low",
            "column-high",
            "column-trend",
            "column-resin",
            "column-glass",
            "column-flushed",
            "column-worked",
            "column-count",
            "column-last",
        ],
        Page::Actions => &[
            "column-number",
            "column-rig",
            "column-what",
            "column-by",
            "column-month",
            "column-since",
        ],
        Page::Shopping => &["column-good", "column-quantity", "column-cost", "column-for"],
        Page::Readings => &[
            "column-rig",
            "column-day",
            "column-tap",
            "column-ro",
            "column-glass",
            "column-raw",
            "column-water",
            "column-pressure",
            "column-aside",
        ],
        Page::Key => return key_columns(words),
    };
    keys.iter().map(|key| column(words, key, currency)).collect()
}

fn key_columns(words: Words) -> Vec<Column> {
    let of = |key: &str| Column {
        title: words.plain(key),
        meaning: String::new(),
    };
    vec![of("sheet-key-column"), of("sheet-key-meaning")]
}

/// The text of a column has its title in the first line, its meaning in the second.
fn column(words: Words, key: &str, currency: Option<Currency>) -> Column {
    let currency = currency.map_or_else(
        || words.plain("sheet-no-currency"),
        |currency| currency.code().to_owned(),
    );
    let text = words.say(key, [("currency", (&currency).into())]);
    let (title, meaning) = text.split_once('\n').unwrap_or((&text, ""));
    Column {
        title: title.to_owned(),
        meaning: meaning.to_owned(),
    }
}

/// A row's state, empty on a rig without a membrane.
pub fn state(words: Words, row: &FleetRow) -> String {
    row.told.map(|told| told_word(words, told)).unwrap_or_default()
}

/// What an item wants, and why, in one line.
pub fn what_to_do(words: Words, item: &Item, today: Date, currency: Option<Currency>) -> String {
    let said = actions::one(words, item, today, currency);
    let lines: Vec<&str> = said.lines().map(str::trim).collect();
    lines.join("; ")
}

/// What to buy: "12 L of resin".
pub fn good(words: Words, purchase: &Purchase) -> String {
    super::good(words, purchase)
}

/// Whether a reading counts.
pub fn counts(words: Words, counts: bool) -> String {
    words.plain(if counts { "sheet-yes" } else { "sheet-no" })
}

/// The calendar's name.
pub fn calendar_name(words: Words, outfit: &str) -> String {
    words.say("calendar-name", [("outfit", outfit.into())])
}

/// A due date's title, and what is to be said of its range.
pub fn due_date(words: Words, due: &DueDate, today: Date) -> (String, String) {
    let key = match due.what {
        Due::Resin => "calendar-resin",
        Due::Prefilters => "calendar-prefilters",
        Due::Membrane => "calendar-membrane",
    };
    let title = words.say(key, [("rig", (&due.name).into())]);
    let about = due
        .range
        .map_or_else(String::new, |range| told_range(words, due, range, today));
    (title, about)
}

/// A membrane's range is told in parts of months, a bed's in days.
fn told_range(words: Words, due: &DueDate, (early, late): (Date, Date), today: Date) -> String {
    let (key, [early, late]) = match due.what {
        Due::Membrane => (
            "calendar-range",
            [early, late].map(|date| figures::rough(words, date, today)),
        ),
        Due::Resin | Due::Prefilters => (
            "calendar-range-days",
            [early, late].map(|date| figures::spoken::short_date(words, date)),
        ),
    };
    words.say(key, [("early", (&early).into()), ("late", (&late).into())])
}
