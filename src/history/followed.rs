//! What a rig comes to at an instant: its state with the computation's assessment.

use std::cmp::Ordering;

use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::digest::week::Lack;
use crate::domain::ServiceKind;
use crate::schedule::{local_date, offset};
use crate::store::rigs::Rig;
use crate::water::assess::{Assessment, assess};
use crate::water::glass::{Glass, glass};
use crate::water::prior::Lessons;
use crate::water::settings::Settings;
use crate::water::verdict::{Behind, Ground, Verdict};

use super::known_rig::KnownRig;
use super::rig_state::RigState;
use super::rules::Rules;

/// A rig at an instant.
#[derive(Clone, Debug)]
pub struct Followed<'a> {
    /// The rig.
    pub rig: &'a Rig,
    /// What the computation was told of it.
    pub settings: &'a Settings,
    /// What its readings and services came to.
    pub state: &'a RigState,
    /// What the outfit's membranes taught.
    pub lessons: Lessons,
    /// What it comes to.
    pub assessment: Assessment,
    /// What its membrane feeds.
    pub behind: Behind,
    /// The verdict on it, which whatever is shown of it takes.
    pub verdict: Verdict,
}

impl<'a> Followed<'a> {
    /// A known rig at an instant.
    pub fn of(known: &'a KnownRig, (rules, zone): (&Rules, &TimeZone), lessons: Lessons, now: i64) -> Self {
        let assessment = assess(&known.state.filter, &known.settings, &lessons, now);
        let behind = match rules.has_bed(&known.rig) {
            true => Behind::Resin,
            false => Behind::Glass {
                wants_new: glass(&known.state.filter, &known.settings, &lessons, &assessment)
                    .is_some_and(|seen| seen.wants_new_membrane()),
            },
        };
        let standing = known.state.last_leak(now).filter(|leak| leak.until.is_none());
        let ground = Ground {
            utc_offset_seconds: offset(zone, now),
            behind,
            jump_ppm: standing.and_then(|leak| leak.before_ppm.zip(leak.after_ppm)),
        };
        Self {
            rig: &known.rig,
            settings: &known.settings,
            state: &known.state,
            lessons,
            verdict: Verdict::of(&assessment, &ground),
            assessment,
            behind,
        }
    }

    /// The one order of rigs: by verdict, then by name.
    pub fn by_urgency(&self, other: &Self) -> Ordering {
        (self.verdict.by_urgency(&other.verdict)).then_with(|| self.rig.name.cmp(&other.rig.name))
    }

    /// What its RO water brings to the glass, where no resin follows.
    pub fn glass(&self) -> Option<Glass> {
        glass(&self.state.filter, self.settings, &self.lessons, &self.assessment)
    }

    /// What is missing to count its resin.
    pub fn resin_lacks(&self) -> Vec<Lack> {
        let filter = &self.state.filter;
        [
            (self.settings.resin_litres.is_some(), Lack::BedSize),
            (filter.workday_litres(self.settings).is_some(), Lack::Litres),
            (self.state.last_done(ServiceKind::Resin).is_some(), Lack::Change),
            (filter.feeds.median().is_some(), Lack::Reading),
        ]
        .into_iter()
        .filter_map(|(is_known, lack)| (!is_known).then_some(lack))
        .collect()
    }

    /// Local date of the last reading.
    pub fn last_reading_on(&self, zone: &TimeZone) -> Option<Date> {
        local_date(zone, self.state.readings.back()?.taken_at)
    }

    /// Local date on which a kind of service was last done.
    pub fn last_done_on(&self, zone: &TimeZone, what: ServiceKind) -> Option<Date> {
        local_date(zone, self.state.last_done(what)?)
    }

    /// The last water temperature that was told, degrees Celsius, and its date.
    pub fn water(&self, zone: &TimeZone) -> Option<(f64, Date)> {
        let (at, degrees) = self.state.water?;
        Some((degrees, local_date(zone, at)?))
    }

    /// Since when a new membrane is in it that nobody has read yet.
    pub fn unread_membrane_since(&self) -> Option<i64> {
        self.state.unread_membrane_since(self.settings)
    }
}
