//! Answers to "why?" and "compare the rigs".

use crate::history::Followed;
use crate::replies::comparing;
use crate::store::rigs::Rig;

use super::answer::Answer;
use super::condition::membrane_deeds;
use super::glass_answers::glass_lines;
use super::membrane_answer::membrane;
use super::refusals::unknown_rig;
use super::request::Request;
use super::rig_answers::one_rig;

/// Why a rig has its state.
pub(super) fn why(on: &Request<'_>, rig: &Rig) -> Answer {
    let Some(followed) = on.follow(rig.id) else {
        return unknown_rig(on, &rig.name);
    };
    let assessment = &followed.assessment;
    if rig.di_only {
        let product = followed.state.filter.last_reading.and_then(|last| last.product);
        return match product {
            Some(product) => Answer::says(comparing::without_membrane(on.words, &rig.name, product.ppm())),
            None => one_rig(on, rig),
        };
    }
    let (Some(level), Some(held)) = (followed.verdict.level, followed.verdict.held()) else {
        return membrane(on, rig);
    };
    let mut lines = vec![comparing::level(on.words, &rig.name, &level, held)];
    lines.extend(membrane_deeds(on, &followed));
    lines.extend(
        assessment
            .reasons
            .iter()
            .filter_map(|reason| comparing::reason(on.words, *reason)),
    );
    lines.extend(glass_lines(on, &followed));
    Answer::says(lines.join("\n"))
}

/// Rigs beside each other, the most urgent first; all if none is named.
pub(super) fn compare(on: &Request<'_>, ids: &[i64]) -> Answer {
    let mut lines = Vec::new();
    let fleet = on.known.follow_fleet(on.now).into_iter();
    let mut asked: Vec<Followed<'_>> = fleet
        .filter(|followed| ids.is_empty() || ids.contains(&followed.rig.id))
        .collect();
    asked.sort_by(Followed::by_urgency);
    for followed in &asked {
        let rig = followed.rig;
        let level = followed.verdict.level.zip(followed.verdict.held());
        lines.push(match level {
            Some((level, held)) => comparing::level(on.words, &rig.name, &level, held),
            None if followed.unread_membrane_since().is_some() => {
                on.words.say("rig-new-membrane", [("rig", (&rig.name).into())])
            }
            None => comparing::without_level(on.words, &rig.name, !rig.di_only),
        });
    }
    if lines.is_empty() {
        return Answer::says(on.words.plain("fleet-empty"));
    }
    Answer::says(lines.join("\n"))
}
