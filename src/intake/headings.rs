//! What a sheet's columns hold, by their headings in English and Spanish.

use csv::StringRecord;
use std::collections::HashMap;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs)]
pub enum Heading {
    Rig,
    /// The day, or the day and the time.
    Date,
    /// The time of day alone.
    Clock,
    Feed,
    Permeate,
    Product,
    /// In whatever degrees the outfit uses.
    Degrees,
    Celsius,
    Fahrenheit,
    /// In the unit that the cell tells, else by its size.
    Pressure,
    Kpa,
    Psi,
    Bar,
    PermeateFlow,
    WasteFlow,
    FeedUs,
    PermeateUs,
    ProductUs,
    What,
    Minutes,
    /// In the outfit's currency.
    Price,
    /// In its smallest unit, as an export has it.
    PriceMinor,
    Withdrawn,
    RigKind,
    FlushKind,
    /// Known, and of no use here.
    Nothing,
}

/// What the rows of a sheet are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Readings.
    Readings,
    /// Services.
    Services,
    /// Rigs.
    Rigs,
}

use Heading::*;

/// A heading as letters and figures alone, small and plain, and what it means.
const KNOWN: [(&[&str], Heading); 26] = [
    (
        &[
            "rig",
            "rigs",
            "van",
            "unit",
            "vehicle",
            "trailer",
            "equipo",
            "furgo",
            "furgoneta",
            "camioneta",
            "remolque",
        ],
        Rig,
    ),
    (
        &[
            "date",
            "day",
            "datetime",
            "dateandtime",
            "timestamp",
            "when",
            "taken",
            "done",
            "fecha",
            "dia",
            "fechayhora",
        ],
        Date,
    ),
    (&["time", "hour", "clock", "hora"], Clock),
    (
        &[
            "feed", "feedppm", "tap", "tapppm", "tapwater", "taptds", "feedtds", "tdsin", "red", "redppm", "grifo",
            "entrada",
        ],
        Feed,
    ),
    (
        &[
            "permeate",
            "permeateppm",
            "ro",
            "roppm",
            "rooutlet",
            "rotds",
            "rooutletppm",
            "osmosis",
            "osmosisppm",
            "osmosisinversa",
            "reverseosmosis",
            "permeado",
            "salidadeosmosis",
        ],
        Permeate,
    ),
    (
        &[
            "product",
            "productppm",
            "glass",
            "glassppm",
            "di",
            "dippm",
            "dioutlet",
            "ditds",
            "vidrio",
            "vidrioppm",
            "producto",
        ],
        Product,
    ),
    (&["temp", "temperature", "temperatura", "watertemp"], Degrees),
    (
        &["tempc", "temperaturec", "temperaturac", "watertempc", "celsius", "c"],
        Celsius,
    ),
    (
        &["tempf", "temperaturef", "temperaturaf", "watertempf", "fahrenheit", "f"],
        Fahrenheit,
    ),
    (&["pressure", "presion"], Pressure),
    (&["kpa", "pressurekpa", "presionkpa"], Kpa),
    (&["psi", "pressurepsi", "presionpsi"], Psi),
    (&["bar", "pressurebar", "presionbar"], Bar),
    (&["permeatelpm", "roflow", "roflowlpm"], PermeateFlow),
    (&["wastelpm", "wasteflow", "wasteflowlpm"], WasteFlow),
    (&["feedus", "tapus", "redus"], FeedUs),
    (&["permeateus", "rous", "osmosisus"], PermeateUs),
    (&["productus", "glassus", "vidrious"], ProductUs),
    (&["what", "service", "work", "job", "trabajo", "servicio", "que"], What),
    (&["minutes", "min", "minutos"], Minutes),
    (&["price", "cost", "paid", "precio", "coste", "costo", "importe"], Price),
    (&["priceminor"], PriceMinor),
    (&["withdrawn"], Withdrawn),
    (&["kind", "type", "tipo"], RigKind),
    (&["flush", "flushing", "lavado"], FlushKind),
    (
        &[
            "by",
            "added",
            "removed",
            "id",
            "who",
            "crew",
            "litres",
            "rejection",
            "quien",
        ],
        Nothing,
    ),
];

/// The columns of a sheet.
pub struct Headings {
    places: HashMap<Heading, usize>,
    left_out: Vec<String>,
}

impl Headings {
    /// Reads the first line; none if it does not name what rows need.
    pub fn read(line: &StringRecord) -> Option<Self> {
        let mut places = HashMap::new();
        let mut left_out = Vec::new();
        for (place, written) in line.iter().enumerate() {
            match KNOWN.iter().find(|(names, _)| names.contains(&plain(written).as_str())) {
                Some((_, heading)) => {
                    places.entry(*heading).or_insert(place);
                }
                None if written.is_empty() => {}
                None => left_out.push(written.to_owned()),
            }
        }
        // A time without a date beside it holds both.
        if !places.contains_key(&Date)
            && let Some(place) = places.remove(&Clock)
        {
            places.insert(Date, place);
        }
        let headings = Self { places, left_out };
        let of_rig = headings.has(RigKind) || headings.has(FlushKind);
        let of_time = headings.has(Date) && (headings.has(Feed) || headings.has(What));
        (headings.has(Rig) && (of_rig || of_time)).then_some(headings)
    }

    /// What the rows are.
    pub fn kind(&self) -> Kind {
        if self.has(Date) && self.has(Feed) {
            Kind::Readings
        } else if self.has(Date) && self.has(What) {
            Kind::Services
        } else {
            Kind::Rigs
        }
    }

    /// Headings that say nothing to us.
    pub fn left_out(&self) -> Vec<String> {
        self.left_out.clone()
    }

    /// A cell by what its column holds; none if it is empty or there is no such column.
    pub fn cell<'a>(&self, record: &'a StringRecord, heading: Heading) -> Option<&'a str> {
        let place = *self.places.get(&heading)?;
        record.get(place).map(str::trim).filter(|cell| !cell.is_empty())
    }

    /// Which column holds something.
    pub fn place(&self, heading: Heading) -> Option<usize> {
        self.places.get(&heading).copied()
    }

    fn has(&self, heading: Heading) -> bool {
        self.places.contains_key(&heading)
    }
}

/// Letters and figures alone, small, without accents.
pub(super) fn plain(written: &str) -> String {
    deunicode::deunicode(&written.replace(['°', 'º'], ""))
        .to_lowercase()
        .chars()
        .filter(char::is_ascii_alphanumeric)
        .collect()
}
