//! The zones of the countries, and which one a place means.
//!
//! Names are those of the IANA time zone database, written down from memory
//! and checked against the database that is built in. Most likely zone first,
//! by where most people live.

use super::super::setting::Country;
use super::guide::plain;

const ZONES: [(&str, &[&str]); 38] = [
    (
        "US",
        &[
            "America/New_York",
            "America/Chicago",
            "America/Los_Angeles",
            "America/Denver",
            "America/Phoenix",
            "America/Anchorage",
            "Pacific/Honolulu",
        ],
    ),
    ("GB", &["Europe/London"]),
    ("IE", &["Europe/Dublin"]),
    (
        "CA",
        &[
            "America/Toronto",
            "America/Vancouver",
            "America/Edmonton",
            "America/Winnipeg",
            "America/Halifax",
            "America/St_Johns",
        ],
    ),
    (
        "AU",
        &[
            "Australia/Sydney",
            "Australia/Brisbane",
            "Australia/Perth",
            "Australia/Melbourne",
            "Australia/Adelaide",
            "Australia/Darwin",
            "Australia/Hobart",
        ],
    ),
    ("NZ", &["Pacific/Auckland"]),
    ("ZA", &["Africa/Johannesburg"]),
    ("ES", &["Europe/Madrid"]),
    (
        "MX",
        &[
            "America/Mexico_City",
            "America/Tijuana",
            "America/Hermosillo",
            "America/Cancun",
        ],
    ),
    ("PT", &["Europe/Lisbon"]),
    ("FR", &["Europe/Paris"]),
    ("DE", &["Europe/Berlin"]),
    ("AT", &["Europe/Vienna"]),
    ("CH", &["Europe/Zurich"]),
    ("IT", &["Europe/Rome"]),
    ("NL", &["Europe/Amsterdam"]),
    ("BE", &["Europe/Brussels"]),
    ("LU", &["Europe/Luxembourg"]),
    ("PL", &["Europe/Warsaw"]),
    ("CZ", &["Europe/Prague"]),
    ("HU", &["Europe/Budapest"]),
    ("RO", &["Europe/Bucharest"]),
    ("SE", &["Europe/Stockholm"]),
    ("NO", &["Europe/Oslo"]),
    ("DK", &["Europe/Copenhagen"]),
    ("FI", &["Europe/Helsinki"]),
    ("IS", &["Atlantic/Reykjavik"]),
    ("GR", &["Europe/Athens"]),
    ("JP", &["Asia/Tokyo"]),
    ("SG", &["Asia/Singapore"]),
    ("BR", &["America/Sao_Paulo", "America/Manaus", "America/Cuiaba"]),
    ("AR", &["America/Argentina/Buenos_Aires"]),
    ("CL", &["America/Santiago"]),
    ("CO", &["America/Bogota"]),
    ("PE", &["America/Lima"]),
    ("UY", &["America/Montevideo"]),
    ("CR", &["America/Costa_Rica"]),
    ("DO", &["America/Santo_Domingo"]),
];

/// Larger places that no zone is named after, and what people call their time;
/// plain and small, for the countries that have several zones.
const PLACES: [(&str, &str, &str); 57] = [
    ("US", "eastern", "America/New_York"),
    ("US", "central", "America/Chicago"),
    ("US", "mountain", "America/Denver"),
    ("US", "pacific", "America/Los_Angeles"),
    ("US", "boston", "America/New_York"),
    ("US", "philadelphia", "America/New_York"),
    ("US", "washington", "America/New_York"),
    ("US", "atlanta", "America/New_York"),
    ("US", "miami", "America/New_York"),
    ("US", "tampa", "America/New_York"),
    ("US", "orlando", "America/New_York"),
    ("US", "charlotte", "America/New_York"),
    ("US", "cleveland", "America/New_York"),
    ("US", "columbus", "America/New_York"),
    ("US", "pittsburgh", "America/New_York"),
    ("US", "dallas", "America/Chicago"),
    ("US", "houston", "America/Chicago"),
    ("US", "austin", "America/Chicago"),
    ("US", "san antonio", "America/Chicago"),
    ("US", "minneapolis", "America/Chicago"),
    ("US", "st louis", "America/Chicago"),
    ("US", "kansas city", "America/Chicago"),
    ("US", "nashville", "America/Chicago"),
    ("US", "new orleans", "America/Chicago"),
    ("US", "salt lake city", "America/Denver"),
    ("US", "albuquerque", "America/Denver"),
    ("US", "tucson", "America/Phoenix"),
    ("US", "las vegas", "America/Los_Angeles"),
    ("US", "san diego", "America/Los_Angeles"),
    ("US", "san francisco", "America/Los_Angeles"),
    ("US", "seattle", "America/Los_Angeles"),
    ("US", "portland", "America/Los_Angeles"),
    ("US", "sacramento", "America/Los_Angeles"),
    ("CA", "ottawa", "America/Toronto"),
    ("CA", "montreal", "America/Toronto"),
    ("CA", "calgary", "America/Edmonton"),
    ("CA", "victoria", "America/Vancouver"),
    ("AU", "canberra", "Australia/Sydney"),
    ("AU", "newcastle", "Australia/Sydney"),
    ("AU", "geelong", "Australia/Melbourne"),
    ("AU", "gold coast", "Australia/Brisbane"),
    ("AU", "cairns", "Australia/Brisbane"),
    ("MX", "guadalajara", "America/Mexico_City"),
    ("MX", "puebla", "America/Mexico_City"),
    ("MX", "mexico", "America/Mexico_City"),
    ("MX", "ciudad de mexico", "America/Mexico_City"),
    ("MX", "cdmx", "America/Mexico_City"),
    ("PL", "krakow", "Europe/Warsaw"),
    ("PL", "gdansk", "Europe/Warsaw"),
    ("PL", "wroclaw", "Europe/Warsaw"),
    ("ES", "barcelona", "Europe/Madrid"),
    ("ES", "valencia", "Europe/Madrid"),
    ("ES", "sevilla", "Europe/Madrid"),
    ("FR", "lyon", "Europe/Paris"),
    ("BR", "rio de janeiro", "America/Sao_Paulo"),
    ("BR", "brasilia", "America/Sao_Paulo"),
    ("BR", "curitiba", "America/Sao_Paulo"),
];

/// The zones of a country, most likely first.
pub fn zones_of(country: Country) -> &'static [&'static str] {
    ZONES
        .iter()
        .find(|row| row.0 == country.code())
        .map_or(&[], |row| row.1)
}

/// The country that a zone lies in.
pub fn country_of(zone: &str) -> Option<Country> {
    let row = ZONES.iter().find(|row| row.1.contains(&zone))?;
    Country::of_code(row.0)
}

/// The zone of a place: in a country, or wherever it lies if no country is told.
pub fn zone_of_place(place: &str, country: Option<Country>) -> Option<&'static str> {
    let code = country.map(Country::code);
    let place = plain(place);
    let place = place.strip_suffix(" time").unwrap_or(&place);
    PLACES
        .iter()
        .find(|row| code.is_none_or(|code| row.0 == code) && row.1 == place)
        .map(|row| row.2)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_country_has_a_zone_and_leads_back() {
        for country in Country::all() {
            let zones = zones_of(country);
            assert!(!zones.is_empty(), "{}", country.code());
            for zone in zones {
                assert_eq!(country_of(zone), Some(country), "{zone}");
            }
        }
    }

    #[test]
    fn a_place_is_found_in_its_own_country() {
        let country = Country::of_code("US");
        assert_eq!(zone_of_place("dallas", country), Some("America/Chicago"));
        assert_eq!(zone_of_place("pacific time", country), Some("America/Los_Angeles"));
        assert_eq!(zone_of_place("dallas", Country::of_code("GB")), None);
        assert_eq!(zone_of_place("dallas", None), Some("America/Chicago"));
        for (code, _, zone) in PLACES {
            assert_eq!(country_of(zone).map(Country::code), Some(code), "{zone}");
        }
    }
}
