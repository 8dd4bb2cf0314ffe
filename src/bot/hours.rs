//! An outfit's clock: its zone, when its days end, when it wants to be told
//! something, and when it must not be rung.

use jiff::ToSpan;
use jiff::civil::{Date, Time, Weekday};
use jiff::tz::TimeZone;

use crate::message::setting::Weekday as SaidDay;
use crate::schedule::{self, Week};
use crate::store::outfits::Outfit;

use super::rules::Rules;
use crate::history::zone_of;

const DAYS: [(Weekday, SaidDay); 7] = [
    (Weekday::Monday, SaidDay::Monday),
    (Weekday::Tuesday, SaidDay::Tuesday),
    (Weekday::Wednesday, SaidDay::Wednesday),
    (Weekday::Thursday, SaidDay::Thursday),
    (Weekday::Friday, SaidDay::Friday),
    (Weekday::Saturday, SaidDay::Saturday),
    (Weekday::Sunday, SaidDay::Sunday),
];

/// When an outfit works and rests, in its own zone.
pub(super) struct Hours {
    pub zone: TimeZone,
    /// When owners get the digest.
    pub digest: Week,
    /// When single due messages are sent: on working days, at the digest's hour.
    pub notices: Week,
    quiet: Option<(Time, Time)>,
}

impl Hours {
    pub fn of(outfit: &Outfit, rules: &Rules) -> Self {
        let (digest_day, time) = rules.digest_at();
        let (mut digest, mut notices) = (Week::default(), Week::default());
        for (day, said) in DAYS {
            if said == digest_day && rules.digest() {
                digest.set(day, Some(time));
            }
            if rules.working_days().includes(said) && rules.notices() {
                notices.set(day, Some(time));
            }
        }
        Self {
            zone: zone_of(outfit),
            digest,
            notices,
            quiet: rules.quiet_hours(),
        }
    }

    /// Whether nobody wants to be rung at this instant.
    pub fn is_quiet(&self, at: i64) -> bool {
        let time = schedule::local_time(&self.zone, at);
        self.quiet
            .zip(time)
            .is_some_and(|((from, until), time)| schedule::within(time, from, until))
    }
}

/// Further ahead no day of work is looked for.
const MOST_DAYS_OFF: usize = 60;

/// The next day after a date on which the outfit works; the very next if it
/// never does.
pub(super) fn next_workday(rules: &Rules, date: Date) -> Date {
    let works = |date: &Date| {
        rules.off_on(None, *date).is_none()
            && DAYS
                .iter()
                .any(|(day, said)| *day == date.weekday() && rules.working_days().includes(*said))
    };
    let tomorrow = date.checked_add(1.day()).unwrap_or(date);
    tomorrow
        .series(1.day())
        .take(MOST_DAYS_OFF)
        .find(works)
        .unwrap_or(tomorrow)
}
