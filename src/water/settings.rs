//! What an owner tells of a rig: limits, prices, use. All have defaults.

use serde::{Deserialize, Serialize};

use super::flow::RatedElement;
use super::prefilter;
use super::renewal::Prices;

/// Lines that the owner may move: of the standardised rejection, fractions, and of the glass
/// (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Limits {
    /// Below this a membrane is wearing.
    pub wearing: f64,
    /// Below this a new one is weighed.
    pub due: f64,
    /// Below this it is done.
    pub spent: f64,
    /// From these dissolved solids on, ppm, the glass spots.
    pub spots_ppm: f64,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            wearing: 0.90,
            due: 0.85,
            spent: 0.80,
            spots_ppm: 10.0,
        }
    }
}

/// Everything that the computation is told of a rig.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Settings {
    /// False on a DI-only rig.
    pub has_membrane: bool,
    /// Lines of the rejection.
    pub limits: Limits,
    /// What things cost; without them the money is not judged.
    pub prices: Option<Prices>,
    /// Litres of resin in the bed; without them its life is not judged.
    pub resin_litres: Option<f64>,
    /// Purified litres on a working day, as told; learned from readings if given there.
    pub litres_per_workday: Option<f64>,
    /// Working days a week.
    pub workdays_per_week: f64,
    /// How hard the rig works from January to December, 1 on average.
    pub month_shares: [f64; 12],
    /// Spans in which it does not work at all, UTC seconds, in order and apart: from, to.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub off: Vec<(i64, i64)>,
    /// Whether the rig works south of the equator.
    pub southern: bool,
    /// When prefilters are changed.
    pub prefilter: prefilter::Interval,
    /// Whether a valve is turned by hand at the end of the day.
    pub manual_flush: bool,
    /// The element's rating, for the expected flow.
    pub rated: Option<RatedElement>,
    /// Age of the membrane that was in the rig at its first reading, years, as told:
    /// 0 for a new one; `None` where nobody knows.
    #[serde(default)]
    pub first_membrane_years: Option<f64>,
    /// From when on another meter is read with, UTC seconds: what jumps there is the meter.
    #[serde(default)]
    pub new_meter_at: Option<i64>,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            has_membrane: true,
            limits: Limits::default(),
            prices: None,
            resin_litres: None,
            litres_per_workday: None,
            workdays_per_week: 5.0,
            month_shares: [1.0; 12],
            off: Vec::new(),
            southern: false,
            prefilter: prefilter::Interval::default(),
            manual_flush: false,
            rated: None,
            first_membrane_years: None,
            new_meter_at: None,
        }
    }
}

impl Settings {
    /// How hard the rig works at an instant, 1 on average and 0 on days off; months by UTC.
    #[must_use]
    pub fn use_share(&self, at: i64) -> f64 {
        if self.off.iter().any(|(from, to)| (*from..*to).contains(&at)) {
            return 0.0;
        }
        self.month_share(at)
    }

    /// How hard it works between two instants, 1 on average: days off count as none.
    ///
    /// # Examples
    /// Five of ten days off.
    /// ```
    /// use tapside::water::settings::Settings;
    /// let settings = Settings { off: vec![(5 * 86_400, 20 * 86_400)], ..Settings::default() };
    /// assert!((settings.share_between(0, 10 * 86_400) - 0.5).abs() < 1e-12);
    /// ```
    #[must_use]
    #[allow(clippy::cast_precision_loss)]
    pub fn share_between(&self, from: i64, to: i64) -> f64 {
        let share = self.month_share(from + (to - from) / 2);
        let overlap = |(start, end): &(i64, i64)| (to.min(*end) - from.max(*start)).max(0);
        let off: i64 = self.off.iter().map(overlap).sum();
        share * (1.0 - off as f64 / (to - from).max(1) as f64).max(0.0)
    }

    fn month_share(&self, at: i64) -> f64 {
        let mean = self.month_shares.iter().sum::<f64>() / 12.0;
        if mean <= 0.0 {
            return 1.0;
        }
        (self.month_shares[month_of(at)] / mean).max(0.0)
    }

    /// Whether it was told how busy the months are.
    #[must_use]
    pub fn tells_months(&self) -> bool {
        self.month_shares.iter().any(|&share| share != self.month_shares[0])
    }
}

/// Month of an instant in UTC, 0 for January.
///
/// # References
/// The civil-from-days algorithm (H. Hinnant, "chrono-compatible low-level date
/// algorithms"): the year begins in March, so that the leap day comes last.
#[must_use]
pub fn month_of(at: i64) -> usize {
    let day_of_era = (at.div_euclid(86_400) + 719_468).rem_euclid(146_097);
    let year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let from_march = (5 * day_of_year + 2) / 153;
    usize::try_from((from_march + 2) % 12).unwrap_or(0)
}
