//! Who sent nothing this week.

use jiff::civil::Date;

use super::findings::is_quiet;
use super::week::Week;
use crate::domain::Role;

/// Rigs and people without readings.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Quiet {
    /// Rigs not read this week, with their last reading; longest silent first.
    pub rigs: Vec<(String, Option<Date>)>,
    /// People who used to send readings and sent none, the busiest first.
    pub people: Vec<QuietPerson>,
}

/// Somebody who went quiet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuietPerson {
    /// First name.
    pub name: String,
    /// What the person may do.
    pub role: Role,
    /// Readings in the four weeks before.
    pub before: u32,
}

/// Who was quiet.
#[must_use]
pub fn of(week: &Week) -> Quiet {
    let mut rigs: Vec<(String, Option<Date>)> = week
        .rigs
        .iter()
        .filter(|rig| rig.readings == 0 && !rig.off.lately)
        .map(|rig| (rig.name.clone(), rig.last_reading_on))
        .collect();
    rigs.sort_by(|a, b| (a.1, &a.0).cmp(&(b.1, &b.0)));
    let mut people: Vec<QuietPerson> = week
        .people
        .iter()
        .filter(|person| is_quiet(person, week))
        .map(|person| QuietPerson {
            name: person.name.clone(),
            role: person.role,
            before: person.readings_before,
        })
        .collect();
    people.sort_by(|a, b| (b.before, &a.name).cmp(&(a.before, &b.name)));
    Quiet { rigs, people }
}
