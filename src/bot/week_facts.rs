//! The facts of an outfit's week, as the digest takes them in.

use std::collections::{BTreeSet, HashMap};

use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::digest::resin_need::bed_workdays;
use crate::digest::week::{Done, Jump, Off, PersonWeek, RigWeek, Week};
use crate::domain::{RigId, ServiceKind};
use crate::history::{Followed, Outfit};
use crate::message::setting::Amount;
use crate::schedule::{day_start, local_date, offset};
use crate::store::{self, Db, StoreError};

use super::decisions;

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

/// A week of an outfit, as it stands at `now`.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn week(
    db: &mut Db,
    known: &Outfit,
    (today, until): (Date, Until),
    now: i64,
) -> Result<Week, StoreError> {
    let (id, zone) = (known.id(), &known.zone);
    let span = Span::of(today, until, zone, now);
    let (decisions, frost_said_on) = decisions::last(db, id, today, zone).await?;
    let put_off = decisions::membranes_put_off(db, id, now).await?;
    let put_off: HashMap<RigId, Date> = put_off
        .iter()
        .filter_map(|(rig, until)| Some((*rig, local_date(zone, *until)?)))
        .collect();
    let mut logs = logs(db, known, &span).await?;
    let followed = known.follow_fleet(now);
    Ok(Week {
        outfit: known.row.name.clone(),
        from: span.from,
        to: span.to,
        today,
        utc_offset_seconds: offset(zone, now),
        southern: known.rules.is_southern(),
        rigs: followed
            .iter()
            .map(|followed| RigWeek {
                membrane_put_off_until: put_off.get(&followed.rig.id).copied(),
                ..rig_week(
                    followed,
                    known,
                    logs.remove(&followed.rig.id).unwrap_or_default(),
                    (&span, now),
                )
            })
            .collect(),
        people: people(db, known, &span).await?,
        decisions,
        frost_said_on,
        was_closed: days(span.from, today).any(|day| known.rules.off_on(None, day).is_some()),
    })
}

/// What was logged of a rig in a week, and how often in the four weeks before.
#[derive(Default)]
struct Log {
    readings: Vec<i64>,
    services: Vec<(ServiceKind, i64)>,
    readings_before: i64,
}

async fn logs(db: &mut Db, known: &Outfit, span: &Span) -> Result<HashMap<RigId, Log>, StoreError> {
    let mut logs: HashMap<RigId, Log> = HashMap::new();
    let (id, from, until) = (known.id(), span.starts_at, span.ends_at);
    for (rig, at) in store::week::readings(db, id, from, until).await? {
        logs.entry(rig).or_default().readings.push(at);
    }
    for (rig, what, at) in store::week::services(db, id, from, until).await? {
        logs.entry(rig).or_default().services.push((what, at));
    }
    for (rig, count) in store::week::readings_of_rigs(db, id, from - FOUR_WEEKS, from).await? {
        logs.entry(rig).or_default().readings_before = count;
    }
    Ok(logs)
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

fn rig_week(followed: &Followed<'_>, known: &Outfit, log: Log, (span, now): (&Span, i64)) -> RigWeek {
    let Followed {
        rig,
        settings,
        state,
        assessment,
        ..
    } = followed;
    let zone = &known.zone;
    let date = |at: i64| local_date(zone, at).unwrap_or_default();
    let own = known.rules.rig(rig.id);
    let worked: BTreeSet<Date> = log.readings.iter().map(|at| date(*at)).collect();
    let flushes = log.services.iter().filter(|(what, _)| *what == ServiceKind::Flush);
    let flushed: BTreeSet<Date> = flushes.map(|(_, at)| date(*at)).collect();
    let shown = |what: ServiceKind| what != ServiceKind::Flush && what != ServiceKind::Preserved;
    RigWeek {
        id: rig.id,
        name: rig.name.clone(),
        has_membrane: settings.has_membrane,
        behind: followed.behind,
        manual_flush: settings.manual_flush,
        assessment: assessment.clone(),
        litres_per_workday: state.filter.workday_litres(settings),
        resin_litres: settings.resin_litres,
        bed_workdays: bed_workdays(&state.filter, settings),
        workdays_per_week: settings.workdays_per_week,
        resin_lacks: followed.resin_lacks(),
        resin_price: own.resin_price().map(Amount::main),
        membranes: f64::from(own.membranes()),
        membrane_price: own
            .membrane_price()
            .map(|price| price.main() * f64::from(own.membranes())),
        membrane_put_off_until: None,
        prefilter_price: own.prefilter_price().map(|price| price.main()),
        readings: count(log.readings.iter()),
        readings_before: u32::try_from(log.readings_before).unwrap_or(u32::MAX),
        last_reading_on: followed.last_reading_on(zone),
        days_worked: count(worked.iter()),
        days_flushed: count(worked.intersection(&flushed)),
        jump: jump(followed, span, (zone, now)),
        services: log
            .services
            .iter()
            .filter(|(what, _)| shown(*what))
            .map(|(what, at)| Done {
                what: *what,
                on: date(*at),
            })
            .collect(),
        is_preserved: state.preserved_at().is_some(),
        off: off(known, rig.id, (span.from, date(now))),
        set_aside: count(state.aside.iter().filter(|aside| span.holds(aside.at))),
        water: followed.water(zone),
    }
}

/// Two weeks are shopped for.
const DAYS_AHEAD: i32 = 14;

/// The days from one to another, both included.
fn days(from: Date, to: Date) -> impl Iterator<Item = Date> {
    from.series(1.day()).take_while(move |day| *day <= to)
}

fn off(known: &Outfit, rig: RigId, (from, today): (Date, Date)) -> Off {
    let is_off = |day: &Date| known.rules.off_on(Some(rig), *day).is_some();
    let mut spans = known.rules.time_off(Some(rig)).iter().copied();
    let away = spans.find(|span| span.holds(today));
    let ahead = today.series(1.day()).take(DAYS_AHEAD as usize).filter(is_off).count();
    Off {
        away,
        lately: days(from, today).any(|day| is_off(&day)),
        ahead: ahead as f64 / f64::from(DAYS_AHEAD),
    }
}

fn count<T>(of: impl Iterator<Item = T>) -> u32 {
    u32::try_from(of.count()).unwrap_or(u32::MAX)
}

/// The jump that stands, else the last one that ended within the week.
fn jump(followed: &Followed<'_>, span: &Span, (zone, now): (&TimeZone, i64)) -> Option<Jump> {
    let date = |at: i64| local_date(zone, at).unwrap_or_default();
    let leak = followed.state.last_leak(now)?;
    leak.until.is_none_or(|until| span.holds(until)).then_some(())?;
    Some(Jump {
        opened_on: date(leak.since),
        closed_on: leak.until.map(date),
        before_ppm: leak.before_ppm?,
        after_ppm: leak.after_ppm?,
    })
}

async fn people(db: &mut Db, known: &Outfit, span: &Span) -> Result<Vec<PersonWeek>, StoreError> {
    let id = known.id();
    let now = store::week::readings_by_person(db, id, span.starts_at, span.ends_at).await?;
    let before = store::week::readings_by_person(db, id, span.starts_at - FOUR_WEEKS, span.starts_at).await?;
    let of = |counts: &[(i64, i64)], id: i64| {
        let found = counts.iter().find(|(person, _)| *person == id);
        found.map_or(0, |(_, count)| u32::try_from(*count).unwrap_or(u32::MAX))
    };
    let week = |person: &crate::history::outfit::Person| PersonWeek {
        id: person.member.id,
        readings: of(&now, person.member.id),
        readings_before: of(&before, person.member.id),
        name: person.member.first_name.clone(),
        role: person.member.role,
    };
    Ok(known.people.iter().map(week).collect())
}
