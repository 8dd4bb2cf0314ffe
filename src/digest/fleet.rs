//! The fleet's rows, most urgent first.

use jiff::civil::Date;

use crate::water::assess::Basis;
use crate::water::condition::Condition;
use crate::water::days_off::DaysOff;
use crate::water::forecast::Interval;
use crate::water::prefilter;
use crate::water::verdict::{Resin, Told, Verdict, is_laid_up};

use super::action::Action;
use super::week::{RigWeek, Week};

/// One rig in the fleet's table.
#[derive(Clone, Debug, PartialEq)]
pub struct FleetRow {
    /// The rig's number in the store.
    pub id: i64,
    /// Its name.
    pub name: String,
    /// The membrane's state; none on a DI-only rig.
    pub condition: Option<Condition>,
    /// What is held of the membrane in one word; none on a DI-only rig.
    pub told: Option<Told>,
    /// Standardised rejection with its 80 % interval, fractions.
    pub rejection: Option<Interval>,
    /// What that rests on.
    pub basis: Option<Basis>,
    /// Points of rejection lost a year.
    pub points_per_year: Option<f64>,
    /// Working days that the resin lasts: low, likely, high; none when it
    /// cannot be counted or the rig is laid up.
    pub resin_days: Option<[f64; 3]>,
    /// Last product reading of this bed, ppm.
    pub product_ppm: Option<f64>,
    /// Days flushed and days worked, on a rig that is flushed by hand.
    pub flushes: Option<(u32, u32)>,
    /// How the prefilters stand.
    pub prefilter: prefilter::State,
    /// Readings this week.
    pub readings: u32,
    /// Of them set aside.
    pub set_aside: u32,
    /// When it is away on the day of the digest.
    pub off: Option<DaysOff>,
    /// Last reading ever.
    pub last_reading_on: Option<Date>,
    /// Nothing asks for this rig: a sound membrane or a bed that holds, read
    /// this week.
    pub calm: bool,
}

/// The rows, the most urgent first: by [`Verdict::by_urgency`], then by name.
#[must_use]
pub fn rows(week: &Week, actions: &[Action]) -> Vec<FleetRow> {
    let is_asked = |id: i64| {
        let items = actions.iter().flat_map(|action| &action.items);
        items.filter_map(|item| item.subject.rig()).any(|asked| asked == id)
    };
    let verdicts = week.rigs.iter().map(|rig| (rig, rig.verdict(week.utc_offset_seconds)));
    let mut rigs: Vec<(&RigWeek, Verdict)> = verdicts.collect();
    rigs.sort_by(|(a, of_a), (b, of_b)| {
        of_a.by_urgency(of_b)
            .then_with(|| (&a.name, a.id).cmp(&(&b.name, b.id)))
    });
    let row = |(rig, verdict): &(&RigWeek, Verdict)| row(rig, verdict, is_asked(rig.id), week);
    rigs.iter().map(row).collect()
}

fn row(rig: &RigWeek, verdict: &Verdict, is_asked_for: bool, week: &Week) -> FleetRow {
    let level = verdict.level.filter(|_| rig.has_membrane);
    FleetRow {
        id: rig.id,
        name: rig.name.clone(),
        condition: verdict.state.filter(|_| rig.has_membrane),
        told: verdict.held().filter(|_| rig.has_membrane),
        rejection: level.map(|level| level.rejection),
        basis: level.map(|level| level.basis),
        points_per_year: rig.assessment.points_per_year.filter(|_| rig.has_membrane),
        // What stands may have used none.
        resin_days: match verdict.resin {
            Resin::Nothing => Some([0.0; 3]),
            Resin::Days(days) if !is_laid_up(&rig.assessment, week.utc_offset_seconds) => Some(days),
            Resin::Days(_) | Resin::Loose | Resin::Unknown => None,
        },
        product_ppm: rig.assessment.resin.and_then(|bed| bed.product_ppm),
        flushes: (rig.has_membrane && rig.manual_flush).then_some((rig.days_flushed, rig.days_worked)),
        prefilter: rig.assessment.prefilter.state,
        readings: rig.readings,
        set_aside: rig.set_aside,
        off: rig.off.away,
        last_reading_on: rig.last_reading_on,
        calm: !is_asked_for && rig.readings > 0 && (!rig.has_membrane || verdict.state == Some(Condition::Good)),
    }
}
