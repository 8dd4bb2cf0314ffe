//! The facts of an outfit's week, as the digest takes them in.

use std::collections::BTreeSet;

use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::digest::resin_need::bed_workdays;
use crate::digest::week::{Done, Jump, PersonWeek, RigWeek, Role as WeekRole, Week};
use crate::message::setting::Amount;
use crate::schedule::{day_start, local_date};
use crate::store::outfits::Outfit;
use crate::store::people::Role;
use crate::store::readings::Reading;
use crate::store::{self, Db, StoreError};
use crate::water::course::Leak;
use crate::water::history::{Event, Work};

use super::decisions;
use super::following::Followed;
use super::rules::Rules;
use super::turn::zone_of;

const DAY: i64 = 86_400;
const FOUR_WEEKS: i64 = 28 * DAY;

/// Up to when a week is told of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Until {
    /// The seven days before today: the digest of a Monday morning.
    Yesterday,
    /// The seven days with today: a digest that somebody asks for.
    Now,
}

/// A week of an outfit whose fleet was followed up to `now`.
pub(super) async fn week(
    db: &mut Db,
    outfit: &Outfit,
    rules: &Rules,
    fleet: &[Followed],
    (today, until): (Date, Until),
    now: i64,
) -> Result<Week, StoreError> {
    let zone = zone_of(outfit);
    let span = Span::of(today, until, &zone, now);
    let (decisions, frost_said_on) = decisions::last(db, outfit.id, today, &zone).await?;
    let put_off = decisions::membranes_put_off(db, outfit.id, now).await?;
    Ok(Week {
        outfit: outfit.name.clone(),
        from: span.from,
        to: span.to,
        today,
        utc_offset_seconds: offset(&zone, now),
        southern: rules.is_southern(),
        rigs: fleet
            .iter()
            .map(|followed| RigWeek {
                membrane_put_off_until: (put_off.iter())
                    .find(|(rig, _)| *rig == followed.rig.id)
                    .and_then(|(_, until)| local_date(&zone, *until)),
                ..rig_week(followed, rules, &span, &zone)
            })
            .collect(),
        people: people(db, outfit.id, &span).await?,
        decisions,
        frost_said_on,
    })
}

/// The offset of a zone from UTC at an instant, seconds east.
pub(super) fn offset(zone: &TimeZone, at: i64) -> i64 {
    jiff::Timestamp::from_second(at).map_or(0, |at| i64::from(zone.to_offset(at).seconds()))
}

/// Seven local days, as dates and instants.
struct Span {
    from: Date,
    to: Date,
    starts_at: i64,
    ends_at: i64,
}

impl Span {
    fn of(today: Date, until: Until, zone: &TimeZone, now: i64) -> Self {
        let back = |days: i64| today.checked_sub(days.days()).unwrap_or(today);
        let (from, to, ends_at) = match until {
            Until::Yesterday => (back(7), back(1), day_start(zone, today).unwrap_or(now).min(now)),
            Until::Now => (back(6), today, now + 1),
        };
        Self {
            from,
            to,
            starts_at: day_start(zone, from).unwrap_or(ends_at - 7 * DAY),
            ends_at,
        }
    }

    fn holds(&self, at: i64) -> bool {
        (self.starts_at..self.ends_at).contains(&at)
    }
}

fn rig_week(followed: &Followed, rules: &Rules, span: &Span, zone: &TimeZone) -> RigWeek {
    let Followed {
        rig,
        settings,
        course,
        assessment,
        ..
    } = followed;
    let date = |at: i64| local_date(zone, at).unwrap_or_default();
    let own = rules.rig(rig.id);
    let this_week = || {
        followed
            .record
            .readings
            .iter()
            .filter(|reading| span.holds(reading.taken_at))
    };
    let before = span.starts_at - FOUR_WEEKS..span.starts_at;
    let worked: BTreeSet<Date> = this_week().map(|reading| date(reading.taken_at)).collect();
    let flushed = followed
        .record
        .services
        .iter()
        .filter(|service| service.what == "flush");
    let flushed: BTreeSet<Date> = flushed.map(|service| date(service.done_at)).collect();
    let set_aside = followed.record.events.iter().zip(&course.doubts);
    let set_aside = set_aside.filter(|(event, doubt)| doubt.is_some() && span.holds(event.at()));
    RigWeek {
        id: rig.id,
        name: rig.name.clone(),
        has_membrane: settings.has_membrane,
        behind: followed.behind,
        manual_flush: settings.manual_flush,
        assessment: assessment.clone(),
        litres_per_workday: course.history.workday_litres(settings),
        resin_litres: settings.resin_litres,
        bed_workdays: bed_workdays(&course.history, settings),
        workdays_per_week: settings.workdays_per_week,
        resin_lacks: followed.resin_lacks(),
        resin_price: own.resin_price().map(Amount::main),
        membranes: f64::from(own.membranes()),
        membrane_price: own
            .membrane_price()
            .map(|price| price.main() * f64::from(own.membranes())),
        membrane_put_off_until: None,
        prefilter_price: own.prefilter_price().map(|price| price.main()),
        readings: count(this_week()),
        readings_before: count(
            followed
                .record
                .readings
                .iter()
                .filter(|reading| before.contains(&reading.taken_at)),
        ),
        last_reading_on: followed.record.last_reading_on(zone),
        days_worked: count(worked.iter()),
        days_flushed: count(worked.intersection(&flushed)),
        jump: jump(followed, span, zone),
        services: followed
            .record
            .events
            .iter()
            .filter_map(|event| match event {
                Event::Service(service) if span.holds(service.at) && service.what != Work::Flush => Some(Done {
                    what: service.what,
                    on: date(service.at),
                }),
                _ => None,
            })
            .collect(),
        is_preserved: followed.record.is_preserved(),
        set_aside: count(set_aside),
        water: followed.record.water(zone),
    }
}

fn count<T>(of: impl Iterator<Item = T>) -> u32 {
    u32::try_from(of.count()).unwrap_or(u32::MAX)
}

/// The jump that stands, else the last one that ended within the week.
fn jump(followed: &Followed, span: &Span, zone: &TimeZone) -> Option<Jump> {
    let date = |at: i64| local_date(zone, at).unwrap_or_default();
    let matters = |leak: &&Leak| leak.until.is_none_or(|until| span.holds(until));
    let leak = followed.course.leaks.iter().rev().find(matters)?;
    let last = |of: &dyn Fn(&Reading) -> bool| {
        let latest = followed.record.readings.iter().rev();
        latest
            .filter(|reading| of(reading))
            .find_map(|reading| reading.permeate_ppm)
    };
    // What was read within a jump before this one says nothing of the healthy rig.
    let jumped = |reading: &Reading| {
        let leaks = &followed.course.leaks;
        leaks
            .iter()
            .any(|leak| reading.taken_at >= leak.since && leak.until.is_none_or(|until| reading.taken_at < until))
    };
    let healthy = last(&|reading| reading.taken_at < leak.since && !jumped(reading));
    Some(Jump {
        opened_on: date(leak.since),
        closed_on: leak.until.map(date),
        before_ppm: healthy.or_else(|| last(&|reading| reading.taken_at < leak.since))?,
        after_ppm: last(&|reading| {
            reading.taken_at >= leak.since && leak.until.is_none_or(|until| reading.taken_at < until)
        })?,
    })
}

async fn people(db: &mut Db, outfit_id: i64, span: &Span) -> Result<Vec<PersonWeek>, StoreError> {
    let now = store::week::readings_by_person(db, outfit_id, span.starts_at, span.ends_at).await?;
    let before = store::week::readings_by_person(db, outfit_id, span.starts_at - FOUR_WEEKS, span.starts_at).await?;
    let of = |counts: &[(i64, i64)], id: i64| {
        let found = counts.iter().find(|(person, _)| *person == id);
        found.map_or(0, |(_, count)| u32::try_from(*count).unwrap_or(u32::MAX))
    };
    let everybody = store::people::of_outfit(db, outfit_id).await?;
    Ok(everybody
        .into_iter()
        .map(|member| PersonWeek {
            id: member.id,
            readings: of(&now, member.id),
            readings_before: of(&before, member.id),
            name: member.first_name,
            role: match member.role {
                Role::Owner => WeekRole::Owner,
                Role::Lead => WeekRole::Lead,
                Role::Crew => WeekRole::Crew,
            },
        })
        .collect())
}
