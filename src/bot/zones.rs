//! Time zones: an outfit's, and one that was typed.

use jiff::tz::{self, TimeZone};

use crate::store::outfits::Outfit;

/// The zone of that name, whatever its case, or the only one that ends in it
/// (`madrid`); else the nearest name, if one is near.
pub(super) fn zone_named(typed: &str) -> Result<(TimeZone, String), Option<String>> {
    let wanted = typed.trim().to_lowercase().replace(' ', "_");
    let names: Vec<String> = tz::db()
        .available()
        .map(|name| name.to_string())
        .filter(|name| name.contains('/') || name == "UTC")
        .collect();
    let same = names.iter().find(|name| name.to_lowercase() == wanted);
    let city = || {
        let mut ends = names.iter().filter(|name| {
            name.rsplit('/')
                .next()
                .is_some_and(|city| city.to_lowercase() == wanted)
        });
        match (ends.next(), ends.next()) {
            (Some(name), None) => Some(name),
            _ => None,
        }
    };
    if let Some(name) = same.or_else(city)
        && let Ok(zone) = TimeZone::get(name)
    {
        return Ok((zone, name.clone()));
    }
    let likeness = |name: &String| {
        let name = name.to_lowercase();
        let city = name.rsplit('/').next().unwrap_or(&name);
        strsim::jaro_winkler(&name, &wanted).max(strsim::jaro_winkler(city, &wanted))
    };
    let nearest = names
        .iter()
        .map(|name| (likeness(name), name))
        .max_by(|a, b| a.0.total_cmp(&b.0));
    Err(nearest
        .filter(|(likeness, _)| *likeness > 0.85)
        .map(|(_, name)| name.clone()))
}

/// An outfit's zone; its name was checked when it was set.
pub(super) fn zone_of(outfit: &Outfit) -> TimeZone {
    TimeZone::get(&outfit.zone).unwrap_or(TimeZone::UTC)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_zone_is_found_by_name_or_city_and_a_typo_gets_a_suggestion() {
        for (typed, name) in [
            ("Europe/Madrid", "Europe/Madrid"),
            ("europe/madrid", "Europe/Madrid"),
            ("Madrid", "Europe/Madrid"),
            ("new york", "America/New_York"),
        ] {
            assert_eq!(zone_named(typed).unwrap().1, name, "{typed}");
        }
        assert_eq!(
            zone_named("Europe/Madird").unwrap_err().as_deref(),
            Some("Europe/Madrid")
        );
        assert_eq!(zone_named("qqqq").unwrap_err(), None);
    }
}
