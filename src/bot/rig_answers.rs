//! Answers about one rig: how it is, its history.

use crate::domain::ServiceKind;
use crate::replies::figures;
use crate::replies::looking::{self, Past};
use crate::store::rigs::Rig;
use crate::water::prefilter;
use crate::water::verdict::Deed;

use super::answer::Answer;
use super::condition::deed_of;
use super::days_off;
use super::past_readings::{looked_up, newest};
use super::preservative::preserved_line;
use super::refusals::unknown_rig;
use super::request::Request;

const HISTORY_LINES: usize = 10;

/// When logged prefilters are due, and whether that is past.
fn due_of(prefilter: &prefilter::Assessment) -> Option<(bool, i64)> {
    match prefilter.state {
        prefilter::State::NeverLogged => None,
        prefilter::State::Overdue => Some((true, prefilter.due_at?)),
        prefilter::State::InDate | prefilter::State::DueSoon => Some((false, prefilter.due_at?)),
    }
}

pub(super) fn one_rig(on: &Request<'_>, rig: &Rig) -> Answer {
    let Some(followed) = on.follow(rig.id) else {
        return unknown_rig(on, &rig.name);
    };
    let last = newest(on, &followed);
    let last_done = |what: ServiceKind| followed.state.last_done(what).map(|at| on.date(at));
    let by_hand = !rig.flushes_itself && !rig.di_only;
    let example = format!("{} 180 12", rig.name.to_lowercase());
    let facts = looking::Rig {
        name: &rig.name,
        last: last.as_ref(),
        resin_on: on.rules.has_bed(rig).then(|| last_done(ServiceKind::Resin)),
        flushed_on: by_hand.then(|| last_done(ServiceKind::Flush)),
        deed: deed_of(on, &followed).map(|deed| deed.sentence(on.words)),
        prefilters: due_of(&followed.assessment.prefilter)
            .filter(|_| !matches!(followed.verdict.deed(), Some(Deed::Prefilters { .. })))
            .map(|(overdue, at)| (overdue, on.date(at))),
        example: &example,
    };
    let told = looking::rig(on.words, &facts, on.today());
    with_rest(on, rig, told)
}

pub(super) fn history(on: &Request<'_>, rig: &Rig) -> Answer {
    let readings = on
        .known
        .rig(rig.id)
        .into_iter()
        .flat_map(|known| known.state.readings.iter().rev());
    let past: Vec<Past> = readings
        .take(HISTORY_LINES)
        .map(|reading| looked_up(on, reading))
        .collect();
    let example = format!("{} 180 12", rig.name.to_lowercase());
    let told = looking::history(on.words, &rig.name, &past, &example, on.today());
    with_rest(on, rig, told)
}

fn with_rest(on: &Request<'_>, rig: &Rig, told: String) -> Answer {
    let off = days_off::line(on, rig.id).map(|off| figures::capital(&off) + ".");
    let lines = [Some(told), preserved_line(on, rig), off];
    Answer::says(lines.into_iter().flatten().collect::<Vec<_>>().join("\n"))
}
