//! Countries: the units, the currency and the half of the globe that come with one.
//!
//! Codes are those of ISO 3166-1, currencies of ISO 4217, written down from
//! memory; the units are common practice, no source.

use super::currency::Currency;

/// A country where an outfit works.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Country(&'static Row);

#[derive(Debug, PartialEq, Eq)]
struct Row {
    code: &'static str,
    currency: &'static str,
    /// What people there read: Fahrenheit, psi, gallons.
    ways: Ways,
    southern: bool,
    /// Names that mean it, plain and small.
    names: &'static [&'static str],
}

/// The units that people of a country read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ways {
    /// Fahrenheit, psi, US gallons.
    American,
    /// Celsius, psi, litres.
    Mixed,
    /// Celsius, bar, litres.
    Metric,
}

use Ways::{American, Metric, Mixed};

const fn row(
    code: &'static str,
    currency: &'static str,
    ways: Ways,
    southern: bool,
    names: &'static [&'static str],
) -> Row {
    Row {
        code,
        currency,
        ways,
        southern,
        names,
    }
}

static TABLE: [Row; 38] = [
    row(
        "US",
        "USD",
        American,
        false,
        &["usa", "united states", "america", "estados unidos", "eeuu"],
    ),
    row(
        "GB",
        "GBP",
        Metric,
        false,
        &[
            "uk",
            "united kingdom",
            "britain",
            "england",
            "scotland",
            "wales",
            "reino unido",
        ],
    ),
    row("IE", "EUR", Metric, false, &["ireland", "irlanda"]),
    row("CA", "CAD", Mixed, false, &["canada"]),
    row("AU", "AUD", Metric, true, &["australia"]),
    row("NZ", "NZD", Metric, true, &["new zealand", "nueva zelanda"]),
    row("ZA", "ZAR", Metric, true, &["south africa", "sudafrica"]),
    row("ES", "EUR", Metric, false, &["spain", "espana"]),
    row("MX", "MXN", Metric, false, &["mexico"]),
    row("PT", "EUR", Metric, false, &["portugal"]),
    row("FR", "EUR", Metric, false, &["france", "francia"]),
    row("DE", "EUR", Metric, false, &["germany", "alemania", "deutschland"]),
    row("AT", "EUR", Metric, false, &["austria", "osterreich"]),
    row("CH", "CHF", Metric, false, &["switzerland", "suiza"]),
    row("IT", "EUR", Metric, false, &["italy", "italia"]),
    row(
        "NL",
        "EUR",
        Metric,
        false,
        &["netherlands", "holland", "paises bajos", "holanda"],
    ),
    row("BE", "EUR", Metric, false, &["belgium", "belgica"]),
    row("LU", "EUR", Metric, false, &["luxembourg", "luxemburgo"]),
    row("PL", "PLN", Metric, false, &["poland", "polonia", "polska"]),
    row(
        "CZ",
        "CZK",
        Metric,
        false,
        &["czechia", "czech republic", "chequia", "republica checa", "cesko"],
    ),
    row("HU", "HUF", Metric, false, &["hungary", "hungria", "magyarorszag"]),
    row("RO", "RON", Metric, false, &["romania", "rumania"]),
    row("SE", "SEK", Metric, false, &["sweden", "suecia", "sverige"]),
    row("NO", "NOK", Metric, false, &["norway", "noruega", "norge"]),
    row("DK", "DKK", Metric, false, &["denmark", "dinamarca", "danmark"]),
    row("FI", "EUR", Metric, false, &["finland", "finlandia", "suomi"]),
    row("IS", "ISK", Metric, false, &["iceland", "islandia"]),
    row("GR", "EUR", Metric, false, &["greece", "grecia"]),
    row("JP", "JPY", Metric, false, &["japan", "japon"]),
    row("SG", "SGD", Metric, false, &["singapore", "singapur"]),
    row("BR", "BRL", Metric, true, &["brazil", "brasil"]),
    row("AR", "ARS", Metric, true, &["argentina"]),
    row("CL", "CLP", Metric, true, &["chile"]),
    row("CO", "COP", Metric, false, &["colombia"]),
    row("PE", "PEN", Metric, true, &["peru"]),
    row("UY", "UYU", Metric, true, &["uruguay"]),
    row("CR", "CRC", Metric, false, &["costa rica"]),
    row(
        "DO",
        "DOP",
        Metric,
        false,
        &["dominican republic", "republica dominicana"],
    ),
];

impl Country {
    /// The country of an ISO 3166-1 two-letter code, whatever its case.
    pub fn of_code(code: &str) -> Option<Self> {
        TABLE.iter().find(|row| row.code.eq_ignore_ascii_case(code)).map(Self)
    }

    /// The country that a code or a name means, plain and small.
    pub fn typed(text: &str) -> Option<Self> {
        Self::of_code(text).or_else(|| TABLE.iter().find(|row| row.names.contains(&text)).map(Self))
    }

    /// All of them.
    pub fn all() -> impl Iterator<Item = Self> {
        TABLE.iter().map(Self)
    }

    /// Its two-letter code.
    pub fn code(self) -> &'static str {
        self.0.code
    }

    /// What people pay with there.
    pub fn currency(self) -> Option<Currency> {
        Currency::of_code(self.0.currency)
    }

    /// The units that people read there.
    pub fn ways(self) -> Ways {
        self.0.ways
    }

    /// Whether people there read gallons and cubic feet.
    pub fn is_american(self) -> bool {
        self.0.ways == American
    }

    /// Whether most of it lies south of the equator.
    pub fn is_southern(self) -> bool {
        self.0.southern
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_country_has_a_currency_that_is_known() {
        for country in Country::all() {
            assert!(country.currency().is_some(), "{}", country.code());
        }
        assert_eq!(Country::typed("new zealand").map(Country::code), Some("NZ"));
        assert_eq!(Country::typed("atlantis"), None);
    }
}
