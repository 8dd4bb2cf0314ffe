//! The four sheets, read row by row into a fleet.

use std::collections::HashMap;
use std::io::{BufRead, BufReader, Read, Write};

use csv::{ReaderBuilder, StringRecord, Trim};

use super::cell::{self, AsOf, Instant};
use crate::water::history::{Reading, Service, ServiceKind};
use crate::water::quantity::{Ppm, Pressure, Refused, Temperature, Volume};
use crate::water::renewal::Prices;
use crate::water::settings::Settings;

/// No rig was read before this, UTC seconds: 2000-01-01. An earlier date is a slip.
const EARLIEST: i64 = 946_684_800;

/// Rows that could not be read: each is named as it is met, so that none is kept.
pub struct Troubles<'a> {
    err: &'a mut dyn Write,
    rows: usize,
    /// The first failure to write.
    failed: std::io::Result<()>,
}

impl<'a> Troubles<'a> {
    /// Names them on `err`.
    pub fn new(err: &'a mut dyn Write) -> Self {
        Self {
            err,
            rows: 0,
            failed: Ok(()),
        }
    }

    fn say(&mut self, line: std::fmt::Arguments) {
        if self.failed.is_ok() {
            self.failed = writeln!(self.err, "{line}");
        }
    }

    /// A file that cannot be used.
    pub fn file(&mut self, file: &str, why: &str) {
        self.say(format_args!("{file}: {why}"));
    }

    fn row(&mut self, file: &str, line: u64, column: &str, why: &str) {
        self.rows += 1;
        self.say(format_args!("{file}, line {line}, column {column}: {why}; row skipped"));
    }

    /// Tells how many rows were skipped.
    ///
    /// # Errors
    /// The first failure to write.
    pub fn finish(mut self) -> std::io::Result<()> {
        match self.rows {
            0 => {}
            1 => self.say(format_args!("1 row skipped")),
            rows => self.say(format_args!("{rows} rows skipped")),
        }
        self.failed
    }
}

/// One readable reading in 64 bytes, so that a million of them fit anywhere; what was
/// not told is not a number.
#[derive(Debug)]
pub struct ReadingRow {
    rig: u32,
    pub at: i64,
    feed: f64,
    permeate: f64,
    product: f64,
    celsius: f64,
    kpa: f64,
    litres: f64,
}

impl ReadingRow {
    fn new(rig: usize, reading: &Reading) -> Option<Self> {
        Some(Self {
            rig: u32::try_from(rig).ok()?,
            at: reading.at,
            feed: reading.feed.ppm(),
            permeate: reading.permeate.map_or(f64::NAN, Ppm::ppm),
            product: reading.product.map_or(f64::NAN, Ppm::ppm),
            celsius: reading.temperature.map_or(f64::NAN, Temperature::celsius),
            kpa: reading.pressure.map_or(f64::NAN, Pressure::kpa),
            litres: reading.litres.map_or(f64::NAN, Volume::litres),
        })
    }

    /// Its rig.
    pub fn rig(&self) -> usize {
        self.rig as usize
    }

    /// Whether it told the RO outlet.
    pub fn has_permeate(&self) -> bool {
        !self.permeate.is_nan()
    }

    /// The reading; `None` never in practice, as its feed was a quantity before.
    pub fn reading(&self) -> Option<Reading> {
        Some(Reading {
            at: self.at,
            feed: Ppm::new(self.feed).ok()?,
            permeate: Ppm::new(self.permeate).ok(),
            product: Ppm::new(self.product).ok(),
            temperature: Temperature::from_celsius(self.celsius).ok(),
            pressure: Pressure::from_kpa(self.kpa).ok(),
            litres: Volume::from_litres(self.litres).ok(),
            permeate_flow: None,
            waste_flow: None,
        })
    }
}

/// Texts one behind the other in one buffer.
#[derive(Debug, Default)]
pub struct Texts {
    buffer: String,
    ends: Vec<u32>,
}

impl Texts {
    fn push(&mut self, text: &str) {
        self.buffer.push_str(text);
        self.ends.push(u32::try_from(self.buffer.len()).unwrap_or(u32::MAX));
    }

    /// The n-th text; empty where none was kept.
    pub fn get(&self, nth: usize) -> &str {
        let end = self.ends.get(nth).map_or(0, |&end| end as usize);
        let start = nth
            .checked_sub(1)
            .and_then(|before| self.ends.get(before))
            .map_or(0, |&end| end as usize);
        self.buffer.get(start..end).unwrap_or_default()
    }
}

/// One readable service.
#[derive(Debug)]
pub struct ServiceRow {
    pub rig: usize,
    pub service: Service,
    pub cost: Option<f64>,
}

/// A question about one rig.
#[derive(Debug)]
pub struct Query {
    pub rig: usize,
    pub as_of: String,
    /// UTC seconds.
    pub at: i64,
    /// Offset by which dates are told, seconds; `None`: the rig's own.
    pub offset: Option<i32>,
}

/// A question whose day is still to be placed by the rig's own clock.
#[derive(Debug)]
pub struct Asked {
    rig: usize,
    written: String,
    as_of: AsOf,
}

/// Everything that the sheets say.
#[derive(Debug, Default)]
pub struct Fleet {
    pub names: Vec<String>,
    index: HashMap<String, usize>,
    pub readings: Vec<ReadingRow>,
    /// The readings' times as written, where they are asked for.
    pub times: Option<Texts>,
    /// What is dated after this is a slip, UTC seconds.
    pub latest: i64,
    pub services: Vec<ServiceRow>,
    /// Settings of each rig by index; fewer than names when some were not told.
    pub settings: HashMap<usize, Settings>,
    /// Prices that the rigs sheet left open, by what services cost.
    pub unpriced: HashMap<usize, Prices>,
    offsets: HashMap<usize, i32>,
}

impl Fleet {
    fn rig(&mut self, name: &str) -> usize {
        if let Some(&rig) = self.index.get(name) {
            return rig;
        }
        let rig = self.names.len();
        self.names.push(name.to_owned());
        self.index.insert(name.to_owned(), rig);
        rig
    }

    /// Offset of the rig's first reading, seconds; 0 without any.
    pub fn offset_of(&self, rig: usize) -> i32 {
        self.offsets.get(&rig).copied().unwrap_or(0)
    }

    /// Whether an instant can be one of a rig's events.
    fn date_makes_sense(&self, at: i64) -> Result<(), Wrong> {
        match at {
            ..EARLIEST => Err(("time", "is before the year 2000".to_owned())),
            at if at > self.latest => Err((
                "time",
                "is after the day that is asked about, and after today".to_owned(),
            )),
            _ => Ok(()),
        }
    }

    /// Places questions once the rigs' clocks are known.
    pub fn place(&self, asked: Vec<Asked>) -> Vec<Query> {
        let place = |asked: Asked| {
            let (at, offset) = self.end_of(asked.as_of, asked.rig);
            Query {
                rig: asked.rig,
                as_of: asked.written,
                at,
                offset,
            }
        };
        asked.into_iter().map(place).collect()
    }

    fn end_of(&self, as_of: AsOf, rig: usize) -> (i64, Option<i32>) {
        match as_of {
            AsOf::Instant(Instant { at, offset }) => (at, Some(offset)),
            AsOf::Day(day) => ((day + 1) * 86_400 - 1 - i64::from(self.offset_of(rig)), None),
        }
    }
}

/// One row with its columns by name.
struct Row<'a> {
    record: &'a StringRecord,
    columns: &'a HashMap<String, usize>,
    decimal_comma: bool,
}

/// What is wrong with a cell: its column and why.
type Wrong = (&'static str, String);

impl Row<'_> {
    fn cell(&self, column: &'static str) -> Option<&str> {
        self.columns
            .get(column)
            .and_then(|&i| self.record.get(i))
            .filter(|text| !text.is_empty())
    }

    fn text(&self, column: &'static str) -> Result<&str, Wrong> {
        self.cell(column).ok_or_else(|| (column, "is empty".to_owned()))
    }

    fn parsed<T>(&self, column: &'static str, parse: impl Fn(&str) -> Result<T, &'static str>) -> Result<T, Wrong> {
        let text = self.text(column)?;
        parse(text).map_err(|why| (column, format!("{text:?} {why}")))
    }

    fn number(&self, column: &'static str) -> Result<Option<f64>, Wrong> {
        match self.cell(column) {
            None => Ok(None),
            Some(_) => self
                .parsed(column, |text| cell::number(text, self.decimal_comma))
                .map(Some),
        }
    }

    fn amount(&self, column: &'static str) -> Result<Option<f64>, Wrong> {
        match self.number(column)? {
            Some(amount) if amount < 0.0 => Err((column, format!("{amount} is below 0"))),
            amount => Ok(amount),
        }
    }

    fn quantity<T>(&self, column: &'static str, make: fn(f64) -> Result<T, Refused>) -> Result<Option<T>, Wrong> {
        self.number(column)?
            .map(make)
            .transpose()
            .map_err(|refused| (column, refused.to_string()))
    }
}

/// Reads a sheet; `needed` are columns that it cannot do without.
fn each_row(
    source: impl Read,
    file: &str,
    needed: &[&str],
    troubles: &mut Troubles<'_>,
    mut take: impl FnMut(&Row) -> Result<(), Wrong>,
) {
    let mut source = BufReader::with_capacity(1 << 16, source);
    let mut first = Vec::new();
    if let Err(error) = source.read_until(b'\n', &mut first) {
        return troubles.file(file, &format!("cannot be read ({error})"));
    }
    // Spreadsheets write a byte order mark, and semicolons or tabs in half of the world.
    let head = first.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(&first);
    let count = |separator: u8| head.iter().filter(|&&b| b == separator).count();
    let delimiter = [b',', b';', b'\t']
        .into_iter()
        .max_by_key(|&s| (count(s), s == b','))
        .unwrap_or(b',');
    let mut reader = ReaderBuilder::new()
        .delimiter(delimiter)
        .flexible(true)
        .trim(Trim::All)
        .has_headers(true)
        .from_reader(head.chain(source));
    let columns: HashMap<String, usize> = match reader.byte_headers() {
        Ok(headers) => headers
            .iter()
            .map(|name| String::from_utf8_lossy(name).to_lowercase())
            .zip(0..)
            .collect(),
        Err(error) => return troubles.file(file, &format!("has no readable header ({error})")),
    };
    if let Some(missing) = needed.iter().find(|&&name| !columns.contains_key(name)) {
        return troubles.file(file, &format!("line 1 has no column {missing}"));
    }
    for record in reader.byte_records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                troubles.row(
                    file,
                    error.position().map_or(0, csv::Position::line),
                    "-",
                    &error.to_string(),
                );
                continue;
            }
        };
        let line = record.position().map_or(0, csv::Position::line);
        let record = StringRecord::from_byte_record_lossy(record);
        if record.iter().all(str::is_empty) {
            continue;
        }
        let row = Row {
            record: &record,
            columns: &columns,
            decimal_comma: delimiter != b',',
        };
        if let Err((column, why)) = take(&row) {
            troubles.row(file, line, column, &why);
        }
    }
}

/// Reads `rig,time,feed_ppm,permeate_ppm,product_ppm,temp_c,pressure_kpa,litres`.
pub fn read_readings(source: impl Read, file: &str, fleet: &mut Fleet, troubles: &mut Troubles) {
    each_row(source, file, &["rig", "time", "feed_ppm"], troubles, |row| {
        let name = row.text("rig")?;
        let time = row.parsed("time", cell::instant)?;
        row.text("feed_ppm")?;
        let Some(feed) = row.quantity("feed_ppm", Ppm::new)? else {
            return Ok(());
        };
        let permeate = row.quantity("permeate_ppm", Ppm::new)?;
        let product = row.quantity("product_ppm", Ppm::new)?;
        if permeate.is_none() && product.is_none() {
            return Err(("permeate_ppm", "is empty".to_owned()));
        }
        let reading = Reading {
            at: time.at,
            feed,
            permeate,
            product,
            temperature: row.quantity("temp_c", Temperature::from_celsius)?,
            pressure: row.quantity("pressure_kpa", Pressure::from_kpa)?,
            litres: row.quantity("litres", Volume::from_litres)?,
            permeate_flow: None,
            waste_flow: None,
        };
        fleet.date_makes_sense(time.at)?;
        let rig = fleet.rig(name);
        fleet.offsets.entry(rig).or_insert(time.offset);
        if let Some(kept) = ReadingRow::new(rig, &reading) {
            fleet.readings.push(kept);
            if let Some(times) = &mut fleet.times {
                times.push(row.text("time")?);
            }
        }
        Ok(())
    });
}

/// Reads `rig,time,what,cost`.
pub fn read_services(source: impl Read, file: &str, fleet: &mut Fleet, troubles: &mut Troubles) {
    each_row(source, file, &["rig", "time", "what"], troubles, |row| {
        let name = row.text("rig")?;
        let time = row.parsed("time", cell::instant_or_day)?;
        let what = row.parsed("what", work)?;
        let cost = row.amount("cost")?;
        fleet.date_makes_sense(time.at)?;
        let rig = fleet.rig(name);
        fleet.services.push(ServiceRow {
            rig,
            service: Service { at: time.at, what },
            cost,
        });
        Ok(())
    });
}

fn work(text: &str) -> Result<ServiceKind, &'static str> {
    match text.to_lowercase().as_str() {
        "membrane" => Ok(ServiceKind::Membrane),
        "resin" => Ok(ServiceKind::Resin),
        "repack" => Ok(ServiceKind::Repack),
        "prefilter" => Ok(ServiceKind::Prefilter),
        "flush" => Ok(ServiceKind::Flush),
        "oring" | "o-ring" => Ok(ServiceKind::ORing),
        "meter" => Ok(ServiceKind::Meter),
        _ => Err("is none of membrane, resin, repack, prefilter, flush, oring, meter"),
    }
}

/// Reads the rigs' prices and use.
pub fn read_rigs(source: impl Read, file: &str, fleet: &mut Fleet, troubles: &mut Troubles) {
    each_row(source, file, &["rig"], troubles, |row| {
        let name = row.text("rig")?;
        let membrane = row.amount("membrane_price")?;
        let resin = row.amount("resin_price_per_litre")?;
        let resin_litres = row.amount("resin_litres")?.filter(|&litres| litres > 0.0);
        let resin_labour = row.amount("labour_per_resin_change")?.unwrap_or(0.0);
        let membrane_labour = row.amount("labour_per_membrane")?.unwrap_or(0.0);
        let litres_per_workday = row.amount("litres_per_workday")?.filter(|&litres| litres > 0.0);
        let workdays = row.amount("workdays_per_week")?;
        if let Some(days) = workdays
            && days > 7.0
        {
            return Err(("workdays_per_week", format!("{days} is above 7")));
        }
        let rig = fleet.rig(name);
        let prices = Prices {
            membrane: membrane.unwrap_or(0.0),
            membrane_labour,
            resin_per_litre: resin.unwrap_or(0.0),
            resin_labour,
        };
        let known = membrane.is_some() && resin.is_some();
        if !known {
            fleet.unpriced.insert(rig, prices);
        }
        let mut settings = Settings {
            prices: known.then_some(prices),
            resin_litres,
            litres_per_workday,
            ..Settings::default()
        };
        if let Some(days) = workdays.filter(|&days| days > 0.0) {
            settings.workdays_per_week = days;
        }
        fleet.settings.insert(rig, settings);
        Ok(())
    });
}

/// Reads `rig,as_of`.
pub fn read_queries(source: impl Read, file: &str, fleet: &mut Fleet, asked: &mut Vec<Asked>, troubles: &mut Troubles) {
    each_row(source, file, &["rig", "as_of"], troubles, |row| {
        let name = row.text("rig")?;
        let as_of = row.parsed("as_of", cell::as_of)?;
        asked.push(Asked {
            rig: fleet.rig(name),
            written: row.text("as_of")?.to_owned(),
            as_of,
        });
        Ok(())
    });
}

/// The last event that can have happened, by the questions and by the clock: a day and a
/// half after the later of them, since clocks and zones differ.
pub fn latest(asked: impl Iterator<Item = AsOf>, clock: i64) -> i64 {
    let ends = asked.map(|as_of| match as_of {
        AsOf::Instant(Instant { at, .. }) => at,
        AsOf::Day(day) => (day + 1) * 86_400,
    });
    ends.fold(clock, i64::max).saturating_add(36 * 3600)
}

impl Asked {
    /// What it asks for.
    pub fn as_of(&self) -> AsOf {
        self.as_of
    }
}

/// One question for every rig, in the order of first mention.
pub fn ask_every_rig(fleet: &Fleet, written: &str, as_of: AsOf) -> Vec<Query> {
    (0..fleet.names.len())
        .map(|rig| {
            let (at, offset) = fleet.end_of(as_of, rig);
            Query {
                rig,
                as_of: written.to_owned(),
                at,
                offset,
            }
        })
        .collect()
}

/// One question for every rig, as of the last reading of all.
pub fn ask_at_last_reading(fleet: &Fleet) -> Vec<Query> {
    let Some(at) = fleet.readings.iter().map(|row| row.at).max() else {
        return Vec::new();
    };
    (0..fleet.names.len())
        .map(|rig| {
            let written = cell::date(at, fleet.offset_of(rig)).map_or_else(String::new, |date| date.to_string());
            Query {
                rig,
                as_of: written,
                at,
                offset: None,
            }
        })
        .collect()
}
