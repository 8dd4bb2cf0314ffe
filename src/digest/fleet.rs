//! The fleet's rows, most urgent first.

use jiff::civil::Date;

use crate::water::condition::Condition;
use crate::water::forecast::Interval;
use crate::water::prefilter;
use crate::water::resin::BedState;

use super::action::Action;
use super::rig_findings;
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
    /// Standardised rejection with its 80 % interval, fractions.
    pub rejection: Option<Interval>,
    /// Rejection of the whole rig while a jump stands, a fraction.
    pub with_jump: Option<f64>,
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
    /// Last reading ever.
    pub last_reading_on: Option<Date>,
    /// Nothing asks for this rig: a sound membrane or a bed that holds, read
    /// this week.
    pub calm: bool,
}

/// The rows, in order: rigs of the actions as the actions stand, then by state,
/// then by rejection, lowest first, then by name.
#[must_use]
pub fn rows(week: &Week, actions: &[Action]) -> Vec<FleetRow> {
    let asked: Vec<i64> = actions
        .iter()
        .flat_map(|action| &action.items)
        .filter_map(|item| item.subject.rig())
        .collect();
    let place = |id: i64| asked.iter().position(|asked| *asked == id);
    let mut rows: Vec<FleetRow> = week
        .rigs
        .iter()
        .map(|rig| row(rig, place(rig.id).is_some(), week.today))
        .collect();
    rows.sort_by(|a, b| {
        let place = |row: &FleetRow| place(row.id).unwrap_or(usize::MAX);
        let rejection = |row: &FleetRow| row.rejection.map_or(1.0, |interval| interval.mid);
        (place(a).cmp(&place(b)))
            .then_with(|| concern(a.condition).cmp(&concern(b.condition)))
            .then_with(|| rejection(a).total_cmp(&rejection(b)))
            .then_with(|| (&a.name, a.id).cmp(&(&b.name, b.id)))
    });
    rows
}

fn row(rig: &RigWeek, is_asked_for: bool, today: Date) -> FleetRow {
    let assessment = &rig.assessment;
    FleetRow {
        id: rig.id,
        name: rig.name.clone(),
        condition: assessment.condition.filter(|_| rig.has_membrane),
        rejection: assessment.rejection.filter(|_| rig.has_membrane),
        with_jump: assessment.fault.as_ref().map(|fault| fault.seen_rejection),
        points_per_year: assessment.points_per_year.filter(|_| rig.has_membrane),
        // What stands may have used none, and a bed that water slips past does not tell
        // by its product how long it lasts.
        resin_days: assessment
            .resin
            .filter(|bed| !rig_findings::is_laid_up(rig, today) && bed.state != BedState::EarlyBreakthrough)
            .and_then(|bed| bed.working_days),
        product_ppm: assessment.resin.and_then(|bed| bed.product_ppm),
        flushes: (rig.has_membrane && rig.manual_flush).then_some((rig.days_flushed, rig.days_worked)),
        prefilter: assessment.prefilter.state,
        readings: rig.readings,
        set_aside: rig.set_aside,
        last_reading_on: rig.last_reading_on,
        calm: !is_asked_for
            && rig.readings > 0
            && (!rig.has_membrane || assessment.condition == Some(Condition::Sound)),
    }
}

/// The states from the most pressing on; a DI-only rig last.
fn concern(condition: Option<Condition>) -> u8 {
    match condition {
        Some(Condition::Check) => 0,
        Some(Condition::Spent) => 1,
        Some(Condition::Due) => 2,
        Some(Condition::Wearing) => 3,
        Some(Condition::Unproven) => 4,
        Some(Condition::Sound) => 5,
        None => 6,
    }
}
