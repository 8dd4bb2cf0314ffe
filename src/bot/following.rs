//! Following a rig through all that is kept of it, up to an instant: the one way
//! from the store into the computation. It is gone anew each time, so that an edit,
//! a withdrawal or a late reading needs nothing else.

use crate::digest::membrane_need::Behind;
use crate::digest::shopping::Lack;
use crate::message::What;
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};
use crate::water::assess::{Assessment, assess};
use crate::water::course::{Course, course};
use crate::water::glass::{Glass, glass};
use crate::water::history::Event;
use crate::water::prior::Lessons;
use crate::water::quantity::Ppm;
use crate::water::replay::lessons_of;
use crate::water::settings::Settings;

use super::record::Record;
use super::recording::service_key;
use super::rules::Rules;
use super::turn::Turn;

/// A rig followed up to an instant.
#[derive(Debug)]
pub(super) struct Followed {
    pub rig: Rig,
    pub record: Record,
    /// What the computation was told of the rig.
    pub settings: Settings,
    /// What the outfit's membranes taught.
    pub lessons: Lessons,
    pub course: Course,
    /// What it comes to.
    pub assessment: Assessment,
    /// What its membrane feeds.
    pub behind: Behind,
}

impl Followed {
    fn of(rig: &Rig, record: Record, rules: &Rules, lessons: Lessons, now: i64) -> Self {
        let settings = rules.water_settings(rig);
        let course = course(&record.events, &settings, &lessons, now);
        let assessment = assess(&course.history, &settings, &lessons, now);
        let mut followed = Self {
            rig: rig.clone(),
            record,
            settings,
            lessons,
            course,
            assessment,
            behind: Behind::Resin,
        };
        if !rules.has_bed(rig) {
            let wants_new = followed.glass().is_some_and(|seen| seen.wants_new_membrane());
            followed.behind = Behind::Glass { wants_new };
        }
        followed
    }

    /// What its RO water brings to the glass, where no resin follows.
    pub fn glass(&self) -> Option<Glass> {
        glass(&self.course.history, &self.settings, &self.lessons, &self.assessment)
    }

    /// What is missing to count its resin.
    pub fn resin_lacks(&self) -> Vec<Lack> {
        let history = &self.course.history;
        [
            (self.settings.resin_litres.is_some(), Lack::BedSize),
            (history.workday_litres(&self.settings).is_some(), Lack::Litres),
            (self.record.has_done(What::Resin), Lack::Change),
            (history.feeds.median().is_some(), Lack::Reading),
        ]
        .into_iter()
        .filter_map(|(is_known, lack)| (!is_known).then_some(lack))
        .collect()
    }

    /// Since when a new membrane is in it that nobody has read yet.
    pub fn unread_membrane_since(&self) -> Option<i64> {
        let key = service_key(What::Membrane);
        let last = self.record.services.iter().rev().find(|service| service.what == key)?;
        let is_unread = |at: i64| self.record.readings.last().is_none_or(|read| read.taken_at < at);
        (self.settings.has_membrane && is_unread(last.done_at)).then_some(last.done_at)
    }

    /// Whether this very reading is unlike the trend; another of the same instant may be.
    pub fn sets_aside(&self, kept: &Reading) -> bool {
        let is_it = |event: &Event| match event {
            Event::Reading(heard) => {
                heard.at == kept.taken_at
                    && heard.feed.ppm() == kept.feed_ppm
                    && heard.permeate.map(Ppm::ppm) == kept.permeate_ppm
            }
            Event::Service(_) => false,
        };
        let events = self.record.events.iter().zip(&self.course.doubts);
        events.into_iter().any(|(event, doubt)| doubt.is_some() && is_it(event))
    }
}

/// Follows each rig of a fleet up to `now`, in the fleet's order.
pub(super) async fn follow_fleet(
    db: &mut Db,
    rules: &Rules,
    fleet: &[Rig],
    now: i64,
) -> Result<Vec<Followed>, StoreError> {
    let mut records = Vec::with_capacity(fleet.len());
    for rig in fleet {
        records.push(Record::of_rig(db, rig.id, now).await?);
    }
    let lessons = taught(rules, fleet.iter().zip(&records));
    let follow = |(rig, record)| Followed::of(rig, record, rules, lessons, now);
    Ok(fleet.iter().zip(records).map(follow).collect())
}

/// Follows a rig up to `now`, with what the outfit's membranes taught.
pub(super) async fn follow(
    db: &mut Db,
    rules: &Rules,
    lessons: Lessons,
    rig: &Rig,
    now: i64,
) -> Result<Followed, StoreError> {
    let record = Record::of_rig(db, rig.id, now).await?;
    Ok(Followed::of(rig, record, rules, lessons, now))
}

/// What the membranes of a fleet taught until `now`, for following one of its rigs:
/// a rig whose membrane was never changed is not looked at.
pub(super) async fn lessons(
    db: &mut Db,
    rules: &Rules,
    outfit_id: i64,
    fleet: &[Rig],
    now: i64,
) -> Result<Lessons, StoreError> {
    let changes = store::services::last_done_on_fleet(db, outfit_id, service_key(What::Membrane)).await?;
    let mut renewed = Vec::new();
    for rig in fleet {
        if let Some(at) = changes.get(&rig.id) {
            renewed.push((rig, Record::of_rig(db, rig.id, now.min(*at)).await?));
        }
    }
    Ok(taught(rules, renewed.iter().map(|(rig, record)| (*rig, record))))
}

fn taught<'a>(rules: &Rules, records: impl Iterator<Item = (&'a Rig, &'a Record)>) -> Lessons {
    let lives: Vec<_> = records
        .map(|(rig, record)| (record.of_past_membranes(), rules.water_settings(rig)))
        .collect();
    lessons_of(&lives)
}

impl Turn<'_> {
    /// Follows a rig up to now.
    pub(super) async fn follow(&mut self, rig: &Rig) -> Result<Followed, StoreError> {
        let lessons = match self.lessons {
            Some(lessons) => lessons,
            None => lessons(self.db, &self.rules, self.outfit.id, &self.fleet, self.now).await?,
        };
        self.lessons = Some(lessons);
        follow(self.db, &self.rules, lessons, rig, self.now).await
    }

    /// What a rig comes to now.
    pub(super) async fn assess(&mut self, rig: &Rig) -> Result<Assessment, StoreError> {
        Ok(self.follow(rig).await?.assessment)
    }
}
