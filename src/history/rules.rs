//! What an outfit is run by: what was set, over the defaults, with types.
//!
//! The store keeps texts; here they become values, of the outfit and of each rig. Five facts have columns of their own
//! in `outfits` (name, zone, end of the day, meter factor, degrees): there the column holds, and the rows of `settings`
//! only say who changed it.

mod values;

use std::collections::HashMap;

use jiff::civil::{self, Time};

use crate::message::setting::{
    Amount, Clock, Country, Currency, Days, Degrees, Field, Meter, PressureUnit, Setting, Stands, VolumeUnit, Ways,
    Weekday,
};
use crate::schedule::Week;
use crate::store::outfits::Outfit;
use crate::store::rigs::Rig;
use crate::store::settings::Kept;
use crate::store::{self, Db, StoreError};
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
        for (rig, setting) in rules.set.clone() {
            match rig {
                Some(rig) => rules.rigs.entry(rig).or_default().take(setting),
                None => rules.outfit.take(setting),
            }
        }
        rules.outfit.day_ends = Clock::typed(&outfit.day_ends, None);
        rules.outfit.degrees = Some(if outfit.degrees == "F" {
            Degrees::Fahrenheit
        } else {
            Degrees::Celsius
        });
        rules
    }

    /// What was set and holds, in the order in which it was set; a rig's number with its own.
    pub fn set(&self) -> &[(Option<i64>, Setting)] {
        &self.set
    }

    /// The same rules with another value, for the fleet or one rig: for questions.
    pub fn supposing(&self, rig: Option<i64>, setting: Setting) -> Self {
        let mut other = self.clone();
        match rig {
            Some(rig) => other.rigs.entry(rig).or_default().take(setting),
            None => {
                other.outfit.take(setting.clone());
                other.rigs.values_mut().for_each(|own| own.take(setting.clone()));
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
        self.rigs
            .get(&rig_id)
            .map(|own| own.short_names.clone())
            .unwrap_or_default()
    }

    /// What the outfit pays with, if it was said or its country tells.
    pub fn currency(&self) -> Option<Currency> {
        self.outfit.currency.or_else(|| self.outfit.country?.currency())
    }

    /// Whether bare degrees are Celsius.
    pub fn celsius(&self) -> bool {
        self.outfit.degrees != Some(Degrees::Fahrenheit)
    }

    /// Whether a bare reading is conductivity.
    pub fn reads_conductivity(&self) -> bool {
        matches!(self.outfit.meter, Some(Meter::Conductivity(_)))
    }

    /// The unit in which pressures are told.
    pub fn pressure_unit(&self) -> PressureUnit {
        self.outfit
            .pressure_unit
            .unwrap_or(match self.outfit.country.map(Country::ways) {
                Some(Ways::American | Ways::Mixed) => PressureUnit::Psi,
                Some(Ways::Metric) | None => PressureUnit::Bar,
            })
    }

    /// The unit in which volumes are told.
    pub fn volume_unit(&self) -> VolumeUnit {
        self.outfit
            .volume_unit
            .unwrap_or(match self.outfit.country.map(Country::ways) {
                Some(Ways::American) => VolumeUnit::Gallons,
                Some(Ways::Mixed | Ways::Metric) | None => VolumeUnit::Litres,
            })
    }

    /// Below which rejections a membrane is wearing, due and spent.
    pub fn limits(&self) -> Limits {
        let usual = Limits::default();
        Limits {
            wearing: self.outfit.wearing_line.unwrap_or(usual.wearing),
            due: self.outfit.due_line.unwrap_or(usual.due),
            spent: self.outfit.spent_line.unwrap_or(usual.spent),
        }
    }

    /// The days on which crews work; Monday to Friday if nobody said.
    pub fn working_days(&self) -> Days {
        self.outfit.working_days.unwrap_or(Days::MONDAY_TO_FRIDAY)
    }

    /// The rigs whose day has an end of its own.
    pub fn rigs_with_own_hours(&self) -> Vec<i64> {
        let own = |values: &Values| values.day_ends.is_some() || values.day_ends_on.iter().any(Option::is_some);
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
        let seven = Clock::new(7, 0).unwrap_or(Clock::MIDNIGHT);
        let (day, clock) = self.outfit.digest_at.unwrap_or((Weekday::Monday, seven));
        (day, time(clock))
    }

    /// Whether owners get the digest.
    pub fn digest(&self) -> bool {
        self.outfit.digest.unwrap_or(true)
    }

    /// Whether the due messages other than nudge and digest are sent.
    pub fn notices(&self) -> bool {
        self.outfit.notices.unwrap_or(true)
    }

    /// From when to when nothing is sent unasked, local time; eight to seven if nobody said.
    pub fn quiet_hours(&self) -> Option<(Time, Time)> {
        let usual = Clock::new(20, 0).zip(Clock::new(7, 0));
        let (from, to) = self.outfit.quiet_hours.unwrap_or(usual)?;
        Some((time(from), time(to)))
    }

    /// Whether the outfit works south of the equator, by its country or else its zone.
    pub fn is_southern(&self) -> bool {
        match self.outfit.country {
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
                .busy_months
                .map_or([1.0; 12], |months| months.map(|percent| f64::from(percent) / 100.0)),
            southern: self.is_southern(),
            prefilter: own.prefilter_interval(),
            manual_flush: !rig.flushes_itself && !rig.di_only,
            rated: own.rated(),
            ..Settings::default()
        }
    }
}

impl RulesFor<'_> {
    fn either<T: Copy>(&self, value: impl Fn(&Values) -> Option<T>) -> Option<T> {
        value(self.own).or_else(|| value(self.outfit))
    }

    /// Resin, per litre.
    pub fn resin_price(&self) -> Option<Amount> {
        self.either(|values| values.resin_price)
    }

    /// One membrane.
    pub fn membrane_price(&self) -> Option<Amount> {
        self.either(|values| values.membrane_price)
    }

    /// One change of prefilters.
    pub fn prefilter_price(&self) -> Option<Amount> {
        self.either(|values| values.prefilter_price)
    }

    /// Labour to change the membranes.
    pub fn membrane_labour(&self) -> Option<Amount> {
        self.either(|values| values.membrane_labour)
    }

    /// Labour to change the bed.
    pub fn resin_labour(&self) -> Option<Amount> {
        self.either(|values| values.resin_labour)
    }

    /// Litres of resin in the bed.
    pub fn resin_litres(&self) -> Option<f64> {
        self.either(|values| values.resin_litres)
    }

    /// Purified litres on a working day, as told.
    pub fn litres_per_day(&self) -> Option<f64> {
        self.either(|values| values.litres_per_day)
    }

    /// How many membranes it has.
    pub fn membranes(&self) -> u8 {
        self.own.membranes.unwrap_or(1)
    }

    /// How its resin bed stands, if that was said.
    pub fn stands(&self) -> Option<Stands> {
        self.own.stands
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
        self.either(|values| values.nudges).unwrap_or(true)
    }

    /// When the working day ends on a day of the week, local time.
    pub fn day_ends(&self, day: Weekday) -> Time {
        let on_that_day = self.either(|values| values.day_ends_on[day.from_monday()]);
        let usual = || self.either(|values| values.day_ends);
        time(
            on_that_day
                .or_else(usual)
                .or(Clock::new(17, 0))
                .unwrap_or(Clock::MIDNIGHT),
        )
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
        let days = self.either(|values| values.prefilter_days);
        prefilter::Interval {
            days: days.map_or(prefilter::Interval::default().days, f64::from),
            litres: None,
        }
    }

    /// What its membranes give together at the conditions of their test.
    fn rated(&self) -> Option<RatedElement> {
        let rated = self.either(|values| values.rated)?;
        let together = rated.gallons_per_day * f64::from(self.membranes());
        Some(RatedElement {
            flow: Flow::from_us_gallons_per_day(together).ok()?,
            net_pressure: Pressure::from_psi(rated.pressure_psi).ok()?,
            temperature: Temperature::from_fahrenheit(rated.temperature_f).ok()?,
        })
    }
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
