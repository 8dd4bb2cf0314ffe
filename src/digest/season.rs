//! Whether frost is to be thought of.
//!
//! Common practice, no source: water of 6 C in the tap or the tank means nights
//! near zero, and without a temperature November to March (May to September
//! south of the equator) count as the frost season. Where the water was told
//! lately and was warm, the season alone says nothing: some fleets have none.

use jiff::civil::Date;

use crate::water::dates::days_between;

/// Water as cold as this is a warning, degrees Celsius.
pub const COLD_WATER_C: f64 = 6.0;
/// A temperature older than this, in days, says nothing of tonight.
const WATER_COUNTS_DAYS: i64 = 14;
/// Once spoken of, frost rests for this many days: once a season.
const RESTS_DAYS: i64 = 180;

/// Why frost is to be thought of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Frost {
    /// The water was this cold, degrees Celsius.
    ColdWater(f64),
    /// The season.
    Season,
}

/// Whether frost is to be spoken of on `today`, given the rigs' last waters
/// (degrees Celsius and date) and when it was last spoken of.
#[must_use]
pub fn frost(today: Date, southern: bool, waters: &[(f64, Date)], said_on: Option<Date>) -> Option<Frost> {
    if said_on.is_some_and(|on| days_between(on, today) < RESTS_DAYS) {
        return None;
    }
    let fresh = waters
        .iter()
        .filter(|(_, on)| (0..=WATER_COUNTS_DAYS).contains(&days_between(*on, today)))
        .map(|(celsius, _)| *celsius);
    match fresh.min_by(f64::total_cmp) {
        Some(coldest) => (coldest <= COLD_WATER_C).then_some(Frost::ColdWater(coldest)),
        None => in_frost_season(today, southern).then_some(Frost::Season),
    }
}

/// Whether a day is of the months with frost.
#[must_use]
pub fn in_frost_season(today: Date, southern: bool) -> bool {
    if southern {
        (5..=9).contains(&today.month())
    } else {
        !(4..=10).contains(&today.month())
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn cold_water_or_the_season_speak_of_frost_once() {
        let (winter, summer) = (date(2026, 12, 7), date(2026, 7, 6));
        let cold = [(11.0, date(2026, 12, 5)), (5.5, date(2026, 12, 1))];
        let warm = [(14.0, date(2026, 12, 5))];
        let old = [(4.0, date(2026, 11, 2))];
        for (today, southern, waters, said_on, told) in [
            (winter, false, &cold[..], None, Some(Frost::ColdWater(5.5))),
            (winter, false, &warm[..], None, None),
            (winter, false, &old[..], None, Some(Frost::Season)),
            (winter, false, &[][..], None, Some(Frost::Season)),
            (winter, true, &[][..], None, None),
            (summer, true, &[][..], None, Some(Frost::Season)),
            (summer, false, &[][..], None, None),
            (winter, false, &cold[..], Some(date(2026, 11, 9)), None),
            (winter, false, &[][..], Some(date(2025, 11, 10)), Some(Frost::Season)),
        ] {
            assert_eq!(
                frost(today, southern, waters, said_on),
                told,
                "{today} {southern} {waters:?}"
            );
        }
    }
}
