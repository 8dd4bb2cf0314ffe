//! What an outfit is run by: what was set, over the defaults, with types.
//!
//! The store keeps texts; here they become values, of the outfit and of each rig. Five facts have columns of their own
//! in `outfits` (name, zone, end of the day, meter factor, degrees): there the column holds, and the rows of `settings`
//! only say who changed it.

mod values;

use std::collections::HashMap;

use jiff::civil::{self, Date, Time};

use crate::message::setting::{
    Amount, Bed, Clock, Country, Currency, Days, Degrees, Field, Held, Meter, PressureUnit, Rated, Setting, Stands,
    VolumeUnit, Ways, Weekday,
};
use crate::schedule::Week;
use crate::store::outfits::Outfit;
use crate::store::rigs::Rig;
use crate::store::settings::Kept;
use crate::store::{self, Db, StoreError};
use crate::water::dates::{days_between, shifted};
use crate::water::days_off::{DaysOff, OPEN_DAYS};
use crate::water::flow::RatedElement;
use crate::water::prefilter;
use crate::water::quantity::{Flow, Pressure, Temperature};
use crate::water::renewal::Prices;
use crate::water::settings::{Limits, Settings};

use values::Values;

/// What holds in an outfit.
#[derive(Clone, Debug, PartialEq)]
pub struct Rules {
    zone: String,
    set: Vec<(Option<i64>, Setting)>,
    outfit: Values,
    rigs: HashMap<i64, Values>,
}

/// What holds for one rig, or for the outfit as a whole.
#[derive(Clone, Copy)]
pub struct RulesFor<'a> {
    outfit: &'a Values,
    own: &'a Values,
}

impl Rules {
    /// What holds in an outfit now.
    pub async fn load(db: &mut Db, outfit: &Outfit) -> Result<Self, StoreError> {
        let kept = store::settings::standing(db, outfit.id).await?;
        Ok(Self::of(outfit, &kept))
    }

    /// What holds in each of all outfits, in their order: one look for the clock.
    pub async fn of_all(db: &mut Db, outfits: &[Outfit]) -> Result<Vec<Self>, StoreError> {
        let mut kept: HashMap<i64, Vec<Kept>> = HashMap::new();
        for (outfit, one) in store::settings::standing_everywhere(db).await? {
            kept.entry(outfit).or_default().push(one);
        }
        let of = |outfit: &Outfit| Self::of(outfit, kept.get(&outfit.id).map_or(&[], Vec::as_slice));
        Ok(outfits.iter().map(of).collect())
    }

    /// The rules of an outfit's columns and what else was set. A row that no longer reads is passed over.
    pub fn of(outfit: &Outfit, kept: &[Kept]) -> Self {
        let read = |kept: &Kept| {
            let setting = Setting::kept(Field::named(&kept.name)?, &kept.value)?;
            Some((kept.rig_id, setting))
        };
        let mut rules = Self {
            zone: outfit.zone.clone(),
            set: kept.iter().filter_map(read).collect(),
            outfit: Values::default(),
            rigs: HashMap::new(),
        };
        for (rig, setting) in &rules.set {
            match rig {
                Some(rig) => rules.rigs.entry(*rig).or_default().take(setting),
                None => rules.outfit.take(setting),
            }
        }
        for (field, column) in [(Field::DayEnds, &outfit.day_ends), (Field::Degrees, &outfit.degrees)] {
            if let Some(setting) = Setting::kept(field, column) {
                rules.outfit.take(&setting);
            }
        }
        rules
    }

    /// What was set and holds, in the order in which it was set; a rig's number with its own.
    pub fn set(&self) -> &[(Option<i64>, Setting)] {
        &self.set
    }

    /// The same rules with another value, for the fleet or one rig: for questions.
    pub fn supposing(&self, rig: Option<i64>, setting: &Setting) -> Self {
        let mut other = self.clone();
        match rig {
            Some(rig) => other.rigs.entry(rig).or_default().take(setting),
            None => {
                other.outfit.take(setting);
                other.rigs.values_mut().for_each(|own| own.take(setting));
            }
        }
        other
    }

    /// A price as it was typed, in the currency's smallest unit.
    pub fn minor(&self, main: f64) -> Option<i64> {
        let digits = self.currency().map_or(2, Currency::digits);
        let minor = Amount::of_main(main)?.minor(digits);
        (minor > 0).then_some(minor)
    }

    /// What holds for the outfit as a whole.
    pub fn outfit(&self) -> RulesFor<'_> {
        RulesFor {
            outfit: &self.outfit,
            own: &self.outfit,
        }
    }

    /// What holds for one rig.
    pub fn rig(&self, rig_id: i64) -> RulesFor<'_> {
        RulesFor {
            outfit: &self.outfit,
            own: self.rigs.get(&rig_id).unwrap_or(&self.outfit),
        }
    }

    /// Other names of a rig.
    pub fn short_names(&self, rig_id: i64) -> Vec<String> {
        let own = self.rigs.get(&rig_id);
        own.and_then(|own| own.get(Field::ShortNames)).unwrap_or_default()
    }

    /// What holds of a setting for the outfit as a whole: what was set, or else its default.
    fn holds<T: Held>(&self, field: Field) -> Option<T> {
        self.outfit.get(field).or_else(|| field.default()?.get())
    }

    /// Where the outfit works, if that was said.
    pub fn country(&self) -> Option<Country> {
        self.outfit.get(Field::Country)
    }

    /// What the outfit pays with, if it was said or its country tells.
    pub fn currency(&self) -> Option<Currency> {
        self.outfit.get(Field::Currency).or_else(|| self.country()?.currency())
    }

    /// Whether bare degrees are Celsius.
    pub fn celsius(&self) -> bool {
        self.holds(Field::Degrees) != Some(Degrees::Fahrenheit)
    }

    /// Whether a bare reading is conductivity.
    pub fn reads_conductivity(&self) -> bool {
        matches!(self.holds(Field::Meter), Some(Meter::Conductivity(_)))
    }

    /// The unit in which pressures are told.
    pub fn pressure_unit(&self) -> PressureUnit {
        self.outfit
            .get(Field::PressureUnit)
            .unwrap_or(match self.country().map(Country::ways) {
                Some(Ways::American | Ways::Mixed) => PressureUnit::Psi,
                Some(Ways::Metric) | None => PressureUnit::Bar,
            })
    }

    /// The unit in which volumes are told.
    pub fn volume_unit(&self) -> VolumeUnit {
        self.outfit
            .get(Field::VolumeUnit)
            .unwrap_or(match self.country().map(Country::ways) {
                Some(Ways::American) => VolumeUnit::Gallons,
                Some(Ways::Mixed | Ways::Metric) | None => VolumeUnit::Litres,
            })
    }

    /// How many years readings and services are kept; none: for good.
    pub fn keeps(&self) -> Option<u16> {
        self.outfit.get(Field::Keep).flatten()
    }

    /// Whether dates have the month before the day, by the country or else by the degrees.
    pub fn month_first(&self) -> bool {
        match self.country().map(Country::ways) {
            Some(ways) => ways == Ways::American,
            None => !self.celsius(),
        }
    }

    /// Whether a rig has a bed of resin: all have, unless it was said to run on RO alone.
    pub fn has_bed(&self, rig: &Rig) -> bool {
        let told = self.rigs.get(&rig.id).and_then(|own| own.get(Field::ResinBed));
        rig.di_only || told != Some(Bed::Absent)
    }

    /// Below which rejections a membrane is wearing, due and spent.
    pub fn limits(&self) -> Limits {
        let usual = Limits::default();
        Limits {
            wearing: self.holds(Field::WearingLine).unwrap_or(usual.wearing),
            due: self.holds(Field::DueLine).unwrap_or(usual.due),
            spent: self.holds(Field::SpentLine).unwrap_or(usual.spent),
            spots_ppm: self.holds(Field::SpotLine).unwrap_or(usual.spots_ppm),
        }
    }

    /// The spans off that were told, of the outfit or of one rig.
    pub fn time_off(&self, rig_id: Option<i64>) -> &[DaysOff] {
        match rig_id {
            None => Some(&self.outfit),
            Some(rig) => self.rigs.get(&rig),
        }
        .and_then(|values| values.held::<Vec<DaysOff>>(Field::TimeOff))
        .map_or(&[], Vec::as_slice)
    }

    /// Why a rig does not work on a day, or nobody does: its own reason before the outfit's. None on a day of work.
    pub fn off_on(&self, rig_id: Option<i64>, day: Date) -> Option<DaysOff> {
        let own = self.time_off(rig_id).iter();
        own.chain(self.time_off(None)).find(|span| span.holds(day)).copied()
    }

    /// The last day before a date on which a rig was off, or everybody.
    pub fn last_off(&self, rig_id: i64, day: Date) -> Option<Date> {
        let spans = self.time_off(Some(rig_id)).iter().chain(self.time_off(None));
        spans.filter_map(DaysOff::last).filter(|last| *last < day).max()
    }

    /// The days on which crews work; Monday to Friday if nobody said.
    pub fn working_days(&self) -> Days {
        self.holds(Field::WorkingDays).unwrap_or(Days::MONDAY_TO_FRIDAY)
    }

    /// The rigs whose day has an end of its own.
    pub fn rigs_with_own_hours(&self) -> Vec<i64> {
        let ends = |values: &Values, field| values.get::<Clock>(field).is_some();
        let own = |values: &Values| {
            ends(values, Field::DayEnds) || Weekday::ALL.iter().any(|day| ends(values, Field::DayEndsOn(*day)))
        };
        let mut rigs: Vec<i64> = self
            .rigs
            .iter()
            .filter(|(_, values)| own(values))
            .map(|(id, _)| *id)
            .collect();
        rigs.sort_unstable();
        rigs
    }

    /// When owners get the digest, local time; Monday at seven if nobody said.
    pub fn digest_at(&self) -> (Weekday, Time) {
        let at = self.holds(Field::DigestAt);
        let (day, clock) = at.unwrap_or((Weekday::Monday, Clock::MIDNIGHT));
        (day, time(clock))
    }

    /// Whether owners get the digest.
    pub fn digest(&self) -> bool {
        self.holds(Field::Digest).unwrap_or(true)
    }

    /// Whether the due messages other than nudge and digest are sent.
    pub fn notices(&self) -> bool {
        self.holds(Field::Notices).unwrap_or(true)
    }

    /// From when to when nothing is sent unasked, local time; eight to seven if nobody said.
    pub fn quiet_hours(&self) -> Option<(Time, Time)> {
        let (from, to) = self.holds::<Option<(Clock, Clock)>>(Field::QuietHours)??;
        Some((time(from), time(to)))
    }

    /// Whether the outfit works south of the equator, by its country or else its zone.
    pub fn is_southern(&self) -> bool {
        match self.country() {
            Some(country) => country.is_southern(),
            None => is_southern_zone(&self.zone),
        }
    }

    /// All that the computation is told of a rig.
    pub fn water_settings(&self, rig: &Rig) -> Settings {
        let own = self.rig(rig.id);
        Settings {
            has_membrane: !rig.di_only,
            limits: self.limits(),
            prices: own.prices().filter(|_| self.has_bed(rig)),
            resin_litres: own.resin_litres().filter(|_| self.has_bed(rig)),
            litres_per_workday: own.litres_per_day(),
            workdays_per_week: self.working_days().count() as f64,
            month_shares: self
                .outfit
                .get(Field::BusyMonths)
                .map_or([1.0; 12], |months: [u16; 12]| {
                    months.map(|percent| f64::from(percent) / 100.0)
                }),
            off: spans_off(self.time_off(Some(rig.id)), self.time_off(None)),
            southern: self.is_southern(),
            prefilter: own.prefilter_interval(),
            manual_flush: !rig.flushes_itself && !rig.di_only,
            rated: own.rated(),
            ..Settings::default()
        }
    }
}

impl RulesFor<'_> {
    /// What was set of a setting, for the rig or else for the outfit.
    fn told<T: Held>(&self, field: Field) -> Option<T> {
        self.own.get(field).or_else(|| self.outfit.get(field))
    }

    /// Resin, per litre.
    pub fn resin_price(&self) -> Option<Amount> {
        self.told(Field::ResinPrice)
    }

    /// One membrane.
    pub fn membrane_price(&self) -> Option<Amount> {
        self.told(Field::MembranePrice)
    }

    /// One change of prefilters.
    pub fn prefilter_price(&self) -> Option<Amount> {
        self.told(Field::PrefilterPrice)
    }

    /// Labour to change the membranes.
    pub fn membrane_labour(&self) -> Option<Amount> {
        self.told(Field::MembraneLabour)
    }

    /// Labour to change the bed.
    pub fn resin_labour(&self) -> Option<Amount> {
        self.told(Field::ResinLabour)
    }

    /// Litres of resin in the bed.
    pub fn resin_litres(&self) -> Option<f64> {
        self.told(Field::ResinLitres)
    }

    /// Purified litres on a working day, as told.
    pub fn litres_per_day(&self) -> Option<f64> {
        self.told(Field::LitresPerDay)
    }

    /// How many membranes it has.
    pub fn membranes(&self) -> u16 {
        self.own.get(Field::Membranes).unwrap_or(1)
    }

    /// How its resin bed stands, if that was said.
    pub fn stands(&self) -> Option<Stands> {
        self.own.get(Field::Stands)
    }

    /// What renewing costs, once both prices are known: in the currency's main
    /// unit, all of the rig's membranes together. Labour that nobody told is none.
    pub fn prices(&self) -> Option<Prices> {
        let main = |amount: Option<Amount>| amount.map_or(0.0, Amount::main);
        Some(Prices {
            membrane: self.membrane_price()?.main() * f64::from(self.membranes()),
            membrane_labour: main(self.membrane_labour()),
            resin_per_litre: self.resin_price()?.main(),
            resin_labour: main(self.resin_labour()),
        })
    }

    /// Whether it is asked about at the end of the day.
    pub fn nudges(&self) -> bool {
        self.told(Field::Nudges).unwrap_or(true)
    }

    /// When the working day ends on a day of the week, local time.
    pub fn day_ends(&self, day: Weekday) -> Time {
        let on_that_day = self.told(Field::DayEndsOn(day));
        let usual = || self.told(Field::DayEnds);
        let otherwise = || Field::DayEnds.default()?.get();
        time(on_that_day.or_else(usual).or_else(otherwise).unwrap_or(Clock::MIDNIGHT))
    }

    /// When the working day ends, by day of the week: also on days off, since whoever works has a rig to flush.
    pub fn week(&self) -> Week {
        let mut week = Week::default();
        for (day, civil) in Weekday::ALL.into_iter().zip(CIVIL) {
            week.set(civil, Some(self.day_ends(day)));
        }
        week
    }

    fn prefilter_interval(&self) -> prefilter::Interval {
        let days: Option<u16> = self.told(Field::PrefilterDays);
        prefilter::Interval {
            days: days.map_or(prefilter::Interval::default().days, f64::from),
            litres: None,
        }
    }

    /// What its membranes give together at the conditions of their test.
    fn rated(&self) -> Option<RatedElement> {
        let rated: Rated = self.told(Field::Rated)?;
        let together = rated.gallons_per_day * f64::from(self.membranes());
        Some(RatedElement {
            flow: Flow::from_us_gallons_per_day(together).ok()?,
            net_pressure: Pressure::from_psi(rated.pressure_psi).ok()?,
            temperature: Temperature::from_fahrenheit(rated.temperature_f).ok()?,
        })
    }
}

/// Spans off as the computation takes them: in order and apart, days by UTC as its months are.
fn spans_off(own: &[DaysOff], outfit: &[DaysOff]) -> Vec<(i64, i64)> {
    let at = |day: Date| days_between(Date::constant(1970, 1, 1), day) * 86_400;
    let span = |span: &DaysOff| (at(span.from), at(span.back.unwrap_or(shifted(span.from, OPEN_DAYS))));
    let mut spans: Vec<(i64, i64)> = own.iter().chain(outfit).map(span).collect();
    spans.sort_unstable();
    spans.dedup_by(|next, before| {
        let touches = next.0 <= before.1;
        before.1 = if touches { before.1.max(next.1) } else { before.1 };
        touches
    });
    spans
}

/// The days of the week as the schedule names them.
const CIVIL: [civil::Weekday; 7] = [
    civil::Weekday::Monday,
    civil::Weekday::Tuesday,
    civil::Weekday::Wednesday,
    civil::Weekday::Thursday,
    civil::Weekday::Friday,
    civil::Weekday::Saturday,
    civil::Weekday::Sunday,
];

/// A time of day as the schedule takes it.
fn time(clock: Clock) -> Time {
    Time::new(clock.hour() as i8, clock.minute() as i8, 0, 0).unwrap_or(Time::midnight())
}

/// Zones south of the equator: whole regions, and the larger cities of South America and Africa.
fn is_southern_zone(zone: &str) -> bool {
    const REGIONS: [&str; 4] = ["Australia/", "Antarctica/", "America/Argentina/", "Pacific/Auckland"];
    const CITIES: [&str; 13] = [
        "America/Buenos_Aires",
        "America/Sao_Paulo",
        "America/Santiago",
        "America/Montevideo",
        "America/Asuncion",
        "America/Lima",
        "America/La_Paz",
        "Africa/Johannesburg",
        "Africa/Windhoek",
        "Africa/Harare",
        "Africa/Lusaka",
        "Africa/Maputo",
        "Pacific/Chatham",
    ];
    REGIONS.iter().any(|region| zone.starts_with(region)) || CITIES.contains(&zone)
}
