//! What is kept of an outfit, as sheets.

use std::collections::BTreeMap;

use jiff::Timestamp;
use jiff::tz::TimeZone;

use crate::history::Outfit;
use crate::papers::Cell;
use crate::replies::Words;
use crate::store::readings::Reading;
use crate::store::rigs::Stay;
use crate::store::services::Service;
use crate::store::settings::Kept;
use crate::store::{self, Db, StoreError};

use crate::bot::export::columns::{Named, PEOPLE, READINGS, RIGS, SERVICES, SETTINGS};
use crate::bot::people::people_names;

/// A sheet before it is a file.
pub struct Sheet {
    /// Its name: `readings` is `readings.csv`.
    pub name: &'static str,
    pub columns: &'static [Named],
    pub rows: Vec<Vec<Cell>>,
}

/// What numbers are called, and instants by the outfit's clock.
struct Names {
    rigs: BTreeMap<i64, String>,
    people: BTreeMap<i64, String>,
    zone: TimeZone,
}

impl Names {
    fn rig(&self, id: i64) -> Cell {
        self.rigs.get(&id).map_or(Cell::Empty, |name| text(name))
    }

    fn person(&self, id: i64) -> Cell {
        self.people.get(&id).map_or(Cell::Empty, |name| text(name))
    }

    /// ISO 8601 with the offset of that day.
    fn at(&self, at: Option<i64>) -> Cell {
        let there = at
            .and_then(|at| Timestamp::from_second(at).ok())
            .map(|at| at.to_zoned_datetime(self.zone.clone()));
        there.map_or(Cell::Empty, |at| text(&at.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()))
    }

    fn reading(&self, reading: &Reading) -> Vec<Cell> {
        vec![
            self.rig(reading.rig_id),
            self.at(Some(reading.taken_at)),
            Cell::Number(reading.feed_ppm),
            Cell::number(reading.permeate_ppm),
            Cell::number(reading.product_ppm),
            Cell::number(reading.temperature_c),
            Cell::number(reading.pressure_kpa),
            Cell::number(reading.permeate_lpm),
            Cell::number(reading.waste_lpm),
            Cell::number(reading.feed_raw_us),
            Cell::number(reading.permeate_raw_us),
            Cell::number(reading.product_raw_us),
            self.person(reading.person_id),
            self.at(reading.withdrawn_at),
        ]
    }

    fn service(&self, service: &Service) -> Vec<Cell> {
        let whole = |number: Option<i64>| Cell::number(number.map(|number| number as f64));
        vec![
            self.rig(service.rig_id),
            self.at(Some(service.done_at)),
            text(service.what.word()),
            whole(service.minutes),
            whole(service.price_minor),
            self.person(service.person_id),
            self.at(service.withdrawn_at),
        ]
    }

    fn of_rig(&self, stay: &Stay) -> Vec<Cell> {
        vec![
            self.rig(stay.rig.id),
            text(if stay.rig.di_only { "di" } else { "ro" }),
            text(if stay.rig.flushes_itself { "itself" } else { "hand" }),
            self.at(Some(stay.added_at)),
            self.at(stay.removed_at),
        ]
    }
}

/// Readings, services, rigs, settings, people.
pub(in crate::bot) async fn of_outfit(db: &mut Db, known: &Outfit, words: Words) -> Result<Vec<Sheet>, StoreError> {
    let outfit_id = known.id();
    let rigs = store::rigs::of_outfit(db, outfit_id).await?;
    let readings = store::readings::of_outfit(db, outfit_id).await?;
    let services = store::services::of_outfit(db, outfit_id).await?;
    let settings = store::settings::standing(db, outfit_id).await?;
    let people = store::people::of_outfit(db, outfit_id).await?;
    let mut tellers: Vec<i64> = readings.iter().map(|reading| reading.person_id).collect();
    tellers.extend(services.iter().map(|service| service.person_id));
    tellers.extend(settings.iter().filter_map(|setting| setting.person_id));
    let names = Names {
        rigs: names_of(&rigs),
        people: people_names(db, words, tellers).await?,
        zone: known.zone.clone(),
    };
    let sheet = |name, columns, rows| Sheet { name, columns, rows };
    // What has a column of its own holds as it stands there.
    let columns = [
        (store::settings::NAME, &known.row.name),
        (store::settings::ZONE, &known.row.zone),
        ("day-ends", &known.row.day_ends),
    ];
    let in_column = |setting: &&Kept| setting.rig_id.is_none() && columns.iter().any(|(name, _)| *name == setting.name);
    let row = |setting: &Kept| {
        vec![
            setting.rig_id.map_or(Cell::Empty, |rig| names.rig(rig)),
            text(&setting.name),
            text(&setting.value),
            names.at(Some(setting.set_at)),
            setting.person_id.map_or(Cell::Empty, |person| names.person(person)),
        ]
    };
    let mut set: Vec<Vec<Cell>> = columns
        .iter()
        .map(|(name, value)| {
            let kept = settings.iter().find(|kept| in_column(kept) && kept.name == *name);
            let unset = || vec![Cell::Empty, text(name), text(value), Cell::Empty, Cell::Empty];
            kept.map_or_else(unset, row)
        })
        .collect();
    let shown = settings
        .iter()
        .filter(|setting| setting.name != store::settings::CREW_CHAT && !in_column(setting));
    set.extend(shown.map(row));
    Ok(vec![
        sheet(
            "readings",
            &READINGS,
            readings.iter().map(|reading| names.reading(reading)).collect(),
        ),
        sheet(
            "services",
            &SERVICES,
            services.iter().map(|service| names.service(service)).collect(),
        ),
        sheet("rigs", &RIGS, rigs.iter().map(|rig| names.of_rig(rig)).collect()),
        sheet("settings", &SETTINGS, set),
        sheet(
            "people",
            &PEOPLE,
            people
                .iter()
                .map(|person| {
                    vec![
                        text(&person.first_name),
                        text(person.role.word()),
                        names.at(Some(person.joined_at)),
                    ]
                })
                .collect(),
        ),
    ])
}

/// A rig that is off the fleet is told from one of the same name that is on it.
fn names_of(stays: &[Stay]) -> BTreeMap<i64, String> {
    let name = |stay: &Stay| match stay.removed_at {
        None => stay.rig.name.clone(),
        Some(_) => format!("{} (removed {})", stay.rig.name, stay.rig.id),
    };
    stays.iter().map(|stay| (stay.rig.id, name(stay))).collect()
}

fn text(text: &str) -> Cell {
    if text.is_empty() {
        return Cell::Empty;
    }
    Cell::text(text)
}
