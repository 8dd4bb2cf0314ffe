//! One row: its cells into a reading, a service or a rig.

use csv::StringRecord;

use crate::domain::ServiceKind;

use super::dates::{Order, moment};
use super::headings::{Heading, Headings, Kind, plain};
use super::{Moment, Why};

/// One row.
#[derive(Clone, Debug, PartialEq)]
pub enum Row {
    /// A reading.
    Reading(ReadingRow),
    /// A service.
    Service(ServiceRow),
    /// A rig.
    Rig(RigRow),
}

/// What a row says that was read on a rig.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "the names say it, units included")]
pub struct ReadingRow {
    pub rig: String,
    pub at: Moment,
    pub feed_ppm: f64,
    pub permeate_ppm: Option<f64>,
    pub product_ppm: Option<f64>,
    /// In the outfit's degrees.
    pub temperature: Option<f64>,
    pub temperature_c: Option<f64>,
    pub pressure_kpa: Option<f64>,
    pub permeate_lpm: Option<f64>,
    pub waste_lpm: Option<f64>,
    pub feed_us: Option<f64>,
    pub permeate_us: Option<f64>,
    pub product_us: Option<f64>,
}

/// What a row says that was done to a rig.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "the names say it")]
pub struct ServiceRow {
    pub rig: String,
    pub at: Moment,
    pub what: ServiceKind,
    pub minutes: Option<i64>,
    /// In the outfit's currency.
    pub price: Option<f64>,
    pub price_minor: Option<i64>,
}

/// What a row says of a rig.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it")]
pub struct RigRow {
    pub name: String,
    pub di_only: bool,
    pub flushes_itself: bool,
}

/// One kPa in psi and bar: NIST SP 811, appendix B.
const KPA_PER_PSI: f64 = 6.894_757;
const KPA_PER_BAR: f64 = 100.0;

/// No handheld meter shows more.
const MOST_PPM: f64 = 20_000.0;

/// The services, by how a sheet may call them; the first of these that is in the cell.
const SERVICES: [(&str, ServiceKind); 19] = [
    ("preserv", ServiceKind::Preserved),
    ("conserv", ServiceKind::Preserved),
    ("samemembrane", ServiceKind::SameMembrane),
    ("mismamembrana", ServiceKind::SameMembrane),
    ("prefilt", ServiceKind::Prefilter),
    ("filter", ServiceKind::Prefilter),
    ("filtro", ServiceKind::Prefilter),
    ("membran", ServiceKind::Membrane),
    ("repack", ServiceKind::Repack),
    ("compact", ServiceKind::Repack),
    ("resin", ServiceKind::Resin),
    ("flush", ServiceKind::Flush),
    ("lava", ServiceKind::Flush),
    ("enjuag", ServiceKind::Flush),
    ("oring", ServiceKind::ORing),
    ("junta", ServiceKind::ORing),
    ("torica", ServiceKind::ORing),
    ("meter", ServiceKind::Meter),
    ("medidor", ServiceKind::Meter),
];

/// A cell that is wrong, and what is wrong with it.
type Wrong = (String, Why);

/// A row's cells and how to read them.
pub struct Cells<'a> {
    pub record: &'a StringRecord,
    pub headings: &'a Headings,
    pub order: Order,
    pub marks: &'a Marks,
}

/// Which mark stands before the decimals.
pub struct Marks {
    /// Whether a comma may, where a column does not tell.
    pub decimal_comma: bool,
    /// What each column tells of itself.
    pub of_columns: Vec<Option<char>>,
}

impl Cells<'_> {
    /// The row.
    pub fn row(&self) -> Result<Row, Wrong> {
        let rig = self.cell(Heading::Rig).map(unmarked).unwrap_or_default().to_owned();
        if rig.is_empty() {
            return Err((String::new(), Why::NoRig));
        }
        // A quotation mark that is not closed swallows what follows.
        if rig.contains(['\n', '\t', ';', ',']) {
            return Err((rig, Why::OpenQuote));
        }
        match self.headings.kind() {
            Kind::Readings => self.reading(rig).map(Row::Reading),
            Kind::Services => self.service(rig).map(Row::Service),
            Kind::Rigs => Ok(Row::Rig(RigRow {
                name: rig,
                di_only: self.says(Heading::RigKind, &["di", "dionly", "nomembrane", "resin", "resina"]),
                flushes_itself: self.says(Heading::FlushKind, &["itself", "auto", "automatic", "solo", "sola"]),
            })),
        }
    }

    fn reading(&self, rig: String) -> Result<ReadingRow, Wrong> {
        let at = self.moment()?;
        let ppm = |heading| self.within(heading, 0.0, MOST_PPM);
        let feed_ppm = match ppm(Heading::Feed) {
            Ok(Some(feed)) => feed,
            Ok(None) => return Err((String::new(), Why::NoFeed)),
            Err((cell, Why::NoNumber)) => return Err((cell, Why::NoFeed)),
            Err(wrong) => return Err(wrong),
        };
        let (permeate_ppm, product_ppm) = (ppm(Heading::Permeate)?, ppm(Heading::Product)?);
        if permeate_ppm.is_none() && product_ppm.is_none() {
            return Err((String::new(), Why::NoSecond));
        }
        let fahrenheit = self.within(Heading::Fahrenheit, 23.0, 140.0)?;
        let celsius = self.within(Heading::Celsius, -5.0, 60.0)?;
        let (degrees, degree) = self.measured(Heading::Degrees, -5.0, 140.0)?.unzip();
        let of_cell = match degree.as_deref() {
            Some("c") => degrees,
            Some("f") => degrees.map(celsius_of),
            _ => None,
        };
        let kpa = self.within(Heading::Kpa, 0.0, 7000.0)?;
        let psi = self.within(Heading::Psi, 0.0, 1000.0)?;
        let bar = self.within(Heading::Bar, 0.0, 70.0)?;
        let flow = |heading| self.within(heading, 0.0, 1000.0);
        let us = |heading| self.within(heading, 0.0, 5.0 * MOST_PPM);
        Ok(ReadingRow {
            rig,
            at,
            feed_ppm,
            permeate_ppm,
            product_ppm,
            temperature: degrees.filter(|_| of_cell.is_none()),
            temperature_c: celsius.or(fahrenheit.map(celsius_of)).or(of_cell),
            pressure_kpa: kpa
                .or(psi.map(|psi| psi * KPA_PER_PSI))
                .or(bar.map(|bar| bar * KPA_PER_BAR))
                .or(self
                    .measured(Heading::Pressure, 0.0, 7000.0)?
                    .map(|(number, unit)| kpa_of(number, &unit))),
            permeate_lpm: flow(Heading::PermeateFlow)?,
            waste_lpm: flow(Heading::WasteFlow)?,
            feed_us: us(Heading::FeedUs)?,
            permeate_us: us(Heading::PermeateUs)?,
            product_us: us(Heading::ProductUs)?,
        })
    }

    fn service(&self, rig: String) -> Result<ServiceRow, Wrong> {
        let at = self.moment()?;
        let written = self.cell(Heading::What).unwrap_or_default();
        let plain = plain(written);
        let known = SERVICES.iter().find(|(name, _)| plain.contains(name));
        let what = known
            .map(|(_, what)| *what)
            .ok_or((written.to_owned(), Why::NoService))?;
        let whole = |heading, most| Ok(self.within(heading, 0.0, most)?.map(|number| number.round() as i64));
        Ok(ServiceRow {
            rig,
            at,
            what,
            minutes: whole(Heading::Minutes, 10_000.0)?,
            price: self.price()?,
            price_minor: whole(Heading::PriceMinor, 1e12)?,
        })
    }

    fn moment(&self) -> Result<Moment, Wrong> {
        let date = self.cell(Heading::Date).unwrap_or_default();
        moment(date, self.cell(Heading::Clock), self.order).ok_or((date.to_owned(), Why::NoTime))
    }

    fn says(&self, heading: Heading, words: &[&str]) -> bool {
        self.cell(heading)
            .is_some_and(|cell| words.contains(&plain(cell).as_str()))
    }

    fn within(&self, heading: Heading, least: f64, most: f64) -> Result<Option<f64>, Wrong> {
        let Some(cell) = self.cell(heading) else {
            return Ok(None);
        };
        let number = self.number(heading, cell).ok_or((cell.to_owned(), Why::NoNumber))?;
        if (least..=most).contains(&number) {
            Ok(Some(number))
        } else {
            Err((cell.to_owned(), Why::TooFar))
        }
    }

    /// A number with the unit that stands behind it, plain; an empty one where none does.
    fn measured(&self, heading: Heading, least: f64, most: f64) -> Result<Option<(f64, String)>, Wrong> {
        let Some(cell) = self.cell(heading) else {
            return Ok(None);
        };
        let bare = cell.trim_end_matches(|letter: char| !letter.is_ascii_digit());
        let unit = plain(cell.get(bare.len()..).unwrap_or_default());
        let known = ["", "c", "f", "psi", "bar", "kpa"].contains(&unit.as_str());
        match self.number(heading, bare).filter(|_| known) {
            None => Err((cell.to_owned(), Why::NoNumber)),
            Some(number) if (least..=most).contains(&number) => Ok(Some((number, unit))),
            Some(_) => Err((cell.to_owned(), Why::TooFar)),
        }
    }

    fn number(&self, heading: Heading, cell: &str) -> Option<f64> {
        let mark = self
            .headings
            .place(heading)
            .and_then(|place| *self.marks.of_columns.get(place)?);
        number(cell, mark, self.marks.decimal_comma)
    }

    /// A price without the currency's sign, on whichever side that stands.
    fn price(&self) -> Result<Option<f64>, Wrong> {
        let Some(cell) = self.cell(Heading::Price) else {
            return Ok(None);
        };
        let bare = cell.trim_matches(|sign: char| !(sign.is_ascii_digit() || sign == '-'));
        match self.number(Heading::Price, bare) {
            Some(price) if price >= 0.0 => Ok(Some(price)),
            _ => Err((cell.to_owned(), Why::NoNumber)),
        }
    }

    fn cell(&self, heading: Heading) -> Option<&str> {
        self.headings.cell(self.record, heading)
    }
}

fn celsius_of(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) / 1.8
}

/// A pressure in kPa. Without a unit its size tells it: rigs run at 2 to 10 bar (common
/// practice, no source), which are 29 to 145 psi and 200 to 1000 kPa.
fn kpa_of(number: f64, unit: &str) -> f64 {
    match unit {
        "bar" => number * KPA_PER_BAR,
        "psi" => number * KPA_PER_PSI,
        "kpa" => number,
        _ if number <= 15.0 => number * KPA_PER_BAR,
        _ if number <= 170.0 => number * KPA_PER_PSI,
        _ => number,
    }
}

/// The decimal mark that each column shows: what other than three digits follow, or what
/// stands last where there are both. A column that shows none has `None`.
pub fn decimal_marks<'a>(records: impl Iterator<Item = &'a StringRecord>) -> Vec<Option<char>> {
    let mut marks: Vec<Option<char>> = Vec::new();
    for record in records {
        if marks.len() < record.len() {
            marks.resize(record.len(), None);
        }
        for (mark, cell) in marks.iter_mut().zip(record) {
            *mark = mark.or_else(|| decimal_mark(cell));
        }
    }
    marks
}

fn decimal_mark(cell: &str) -> Option<char> {
    let is_number = |cell: &str| {
        cell.chars()
            .all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | '-'))
    };
    let (before, last) = cell.rsplit_once([',', '.']).filter(|_| is_number(cell))?;
    let mark = cell[before.len()..].chars().next()?;
    let other = if mark == ',' { '.' } else { ',' };
    if before.contains(mark) {
        // Several of one kind part thousands; with the other among them it is no number.
        return (!before.contains(other)).then_some(other);
    }
    (before.contains(other) || last.trim().len() != 3).then_some(mark)
}

/// A number, by the mark that its column shows. Where that shows none, a comma with three
/// digits behind it could be either mark, so that it is none.
fn number(cell: &str, mark: Option<char>, decimal_comma: bool) -> Option<f64> {
    let cell = cell.trim_end_matches("ppm").trim();
    if let Some(mark) = decimal_mark(cell).or(mark) {
        let (whole, decimals) = cell.split_once(mark).unwrap_or((cell, ""));
        let thousands = if mark == ',' { '.' } else { ',' };
        // Thousands are groups of three; anything else is a slip, not a number to be mended.
        if !whole.split(thousands).skip(1).all(|group| group.len() == 3) {
            return None;
        }
        let plain = format!("{}.{decimals}", whole.replace(thousands, ""));
        return plain.parse().ok().filter(|number: &f64| number.is_finite());
    }
    let plain = match cell.split_once(',') {
        None => cell.to_owned(),
        Some((_, decimals)) if decimals.contains(['.', ',']) || decimals.len() == 3 && !decimal_comma => return None,
        Some((whole, decimals)) => format!("{whole}.{decimals}"),
    };
    plain.parse().ok().filter(|number: &f64| number.is_finite())
}

/// A text without the mark that keeps a spreadsheet from taking it for a formula.
fn unmarked(text: &str) -> &str {
    match text.strip_prefix('\'') {
        Some(rest) if rest.starts_with(['=', '+', '-', '@']) => rest,
        _ => text,
    }
}
