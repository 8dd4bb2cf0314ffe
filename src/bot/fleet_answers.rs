//! The fleet at a glance, and who is quiet.

use crate::history::Followed;
use crate::replies::looking;
use crate::replies::reading::Deed;
use crate::water::verdict::{self, Kind, Told};

use super::answer::Answer;
use super::condition::deed_of;
use super::days_off;
use super::past_readings::newest;
use super::request::Request;

/// From this many days without a reading on, a rig is quiet.
const QUIET_DAYS: i32 = 3;

pub(super) fn whole_fleet(on: &Request<'_>) -> Answer {
    let mut fleet = on.known.follow_fleet(on.now);
    fleet.sort_by(Followed::by_urgency);
    let line = |followed: &Followed<'_>| {
        let name = followed.rig.name.clone();
        let last = newest(on, followed);
        // The word beside the reading says it already.
        let is_said = |deed: &verdict::Deed| {
            let told = last.as_ref().and_then(|last| last.membrane);
            deed.kind() == Kind::ReadAgain && !matches!(told, None | Some((_, Told::State(_))))
        };
        // What is off asks for nothing.
        if let Some(off) = days_off::line(on, followed.rig.id) {
            let deed = Deed {
                what: off,
                why: String::new(),
            };
            return (name, last, Some(deed));
        }
        let deed = deed_of(on, followed).filter(|_| !followed.verdict.deed().is_some_and(is_said));
        (name, last, deed)
    };
    let rigs: Vec<_> = fleet.iter().map(line).collect();
    Answer::says(looking::fleet(on.words, &on.outfit.name, &rigs, on.today()))
}

pub(super) fn quiet(on: &Request<'_>) -> Answer {
    let today = on.today();
    let mut rigs = Vec::new();
    for known in &on.known.rigs {
        let day = known.state.readings.back().map(|last| on.date(last.taken_at));
        let is_off = on.rules.off_on(Some(known.rig.id), today).is_some();
        if !is_off && day.is_none_or(|day| (today - day).get_days() >= QUIET_DAYS) {
            rigs.push((known.rig.name.clone(), day));
        }
    }
    Answer::says(looking::quiet(on.words, &rigs, today))
}
