//! The values that were set, each in its place.

use crate::message::setting::{
    Amount, Clock, Country, Currency, Days, Degrees, Meter, PressureUnit, Rated, Setting, Stands, VolumeUnit, Ways,
    Weekday,
};
use crate::store::rigs::Rig;

/// What was set for an outfit or a rig; what was not is none or empty.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Values {
    pub currency: Option<Currency>,
    pub country: Option<Country>,
    pub resin_price: Option<Amount>,
    pub membrane_price: Option<Amount>,
    pub prefilter_price: Option<Amount>,
    pub membrane_labour: Option<Amount>,
    pub resin_labour: Option<Amount>,
    pub resin_litres: Option<f64>,
    pub litres_per_day: Option<f64>,
    pub busy_months: Option<[u16; 12]>,
    pub wearing_line: Option<f64>,
    pub due_line: Option<f64>,
    pub spent_line: Option<f64>,
    pub working_days: Option<Days>,
    pub day_ends: Option<Clock>,
    pub day_ends_on: [Option<Clock>; 7],
    pub digest_at: Option<(Weekday, Clock)>,
    pub digest: Option<bool>,
    pub nudges: Option<bool>,
    pub notices: Option<bool>,
    /// The inner none: nothing is quiet.
    pub quiet_hours: Option<Option<(Clock, Clock)>>,
    pub meter: Option<Meter>,
    pub degrees: Option<Degrees>,
    pub pressure_unit: Option<PressureUnit>,
    pub volume_unit: Option<VolumeUnit>,
    pub prefilter_days: Option<u16>,
    pub membranes: Option<u8>,
    pub resin_bed: Option<bool>,
    pub stands: Option<Stands>,
    pub rated: Option<Rated>,
    pub short_names: Vec<String>,
    /// The inner none: for good.
    pub keep: Option<Option<u16>>,
}

impl Values {
    /// Puts a setting in its place, over one before.
    pub(super) fn take(&mut self, setting: Setting) {
        match setting {
            Setting::Currency(currency) => self.currency = Some(currency),
            Setting::Country(country) => self.country = Some(country),
            Setting::ResinPrice(amount) => self.resin_price = Some(amount),
            Setting::MembranePrice(amount) => self.membrane_price = Some(amount),
            Setting::PrefilterPrice(amount) => self.prefilter_price = Some(amount),
            Setting::MembraneLabour(amount) => self.membrane_labour = Some(amount),
            Setting::ResinLabour(amount) => self.resin_labour = Some(amount),
            Setting::ResinLitres(litres) => self.resin_litres = Some(litres),
            Setting::LitresPerDay(litres) => self.litres_per_day = Some(litres),
            Setting::BusyMonths(months) => self.busy_months = Some(months),
            Setting::WearingLine(line) => self.wearing_line = Some(line),
            Setting::DueLine(line) => self.due_line = Some(line),
            Setting::SpentLine(line) => self.spent_line = Some(line),
            Setting::WorkingDays(days) => self.working_days = Some(days),
            Setting::DayEnds(clock) => self.day_ends = Some(clock),
            Setting::DayEndsOn(day, clock) => self.day_ends_on[day.from_monday()] = Some(clock),
            Setting::DigestAt(day, clock) => self.digest_at = Some((day, clock)),
            Setting::Digest(on) => self.digest = Some(on),
            Setting::Nudges(on) => self.nudges = Some(on),
            Setting::Notices(on) => self.notices = Some(on),
            Setting::QuietHours(hours) => self.quiet_hours = Some(hours),
            Setting::Meter(meter) => self.meter = Some(meter),
            Setting::Degrees(degrees) => self.degrees = Some(degrees),
            Setting::PressureUnit(unit) => self.pressure_unit = Some(unit),
            Setting::VolumeUnit(unit) => self.volume_unit = Some(unit),
            Setting::PrefilterDays(days) => self.prefilter_days = Some(days),
            Setting::Membranes(count) => self.membranes = Some(count),
            Setting::ResinBed(there) => self.resin_bed = Some(there),
            Setting::Stands(stands) => self.stands = Some(stands),
            Setting::Rated(rated) => self.rated = Some(rated),
            Setting::ShortNames(names) => self.short_names = names,
            Setting::Keep(years) => self.keep = Some(years),
        }
    }
}

impl super::Rules {
    /// How many years readings and services are kept; none: for good.
    pub fn keeps(&self) -> Option<u16> {
        self.outfit.keep.flatten()
    }

    /// Whether dates have the month before the day, by the country or else by the degrees.
    pub fn month_first(&self) -> bool {
        match self.outfit.country.map(Country::ways) {
            Some(ways) => ways == Ways::American,
            None => !self.celsius(),
        }
    }

    /// Whether a rig has a bed of resin: all have, unless it was said to run on RO alone.
    pub fn has_bed(&self, rig: &Rig) -> bool {
        let told = self.rigs.get(&rig.id).and_then(|own| own.resin_bed);
        rig.di_only || told.unwrap_or(true)
    }
}
