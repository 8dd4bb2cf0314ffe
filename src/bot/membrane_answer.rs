//! What is known of a rig's membrane.

use crate::replies::{figures, membrane};
use crate::store::rigs::Rig;
use crate::water::assess::Reason;

use super::answer::Answer;
use super::condition::membrane_deeds;
use super::glass_answers::glass_lines;
use super::membrane_money::{money_lines, money_missing};
use super::refusals::unknown_rig;
use super::request::Request;
use super::rig_answers::one_rig;

/// What is known of a rig's membrane: its level, its trend, its due line.
pub(super) fn membrane(on: &Request<'_>, rig: &Rig) -> Answer {
    let Some(followed) = on.follow(rig.id) else {
        return unknown_rig(on, &rig.name);
    };
    let money = money_lines(on, rig, &followed);
    let glass = glass_lines(on, &followed);
    let missing = match money.is_none() && glass.is_empty() {
        true => money_missing(on, rig, &followed),
        false => Vec::new(),
    };
    let unread = followed.unread_membrane_since();
    let deeds = membrane_deeds(on, &followed);
    let assessment = followed.assessment;
    let (Some(level), Some(held)) = (followed.verdict.level, followed.verdict.held()) else {
        return if let Some(since) = unread {
            let day = figures::day(on.words, on.date(since), on.today());
            let facts = [("rig", (&rig.name).into()), ("day", (&day).into())];
            Answer::says(on.words.say("membrane-new", facts))
        } else if rig.di_only || assessment.last_reading_at.is_none() {
            one_rig(on, rig)
        } else {
            let facts = [
                ("rig", (&rig.name).into()),
                ("readings", i64::from(assessment.readings_used).into()),
            ];
            let not_yet = on.words.say("membrane-not-yet", facts);
            Answer::says([vec![not_yet], deeds].concat().join("\n"))
        };
    };
    let facts = membrane::Facts {
        rig: &rig.name,
        level,
        held,
        points_per_year: assessment.points_per_year,
        due: (money.is_none() && assessment.fault.is_none()).then(|| {
            let due = membrane::DueLine::of(assessment.due, |at| on.date(at));
            (followed.settings.limits.due, due)
        }),
        deeds: &deeds,
        old_days: assessment.reasons.iter().find_map(|reason| match reason {
            Reason::LastReadingOld { days } if assessment.fault.is_none() => Some(*days),
            _ => None,
        }),
        verdict: &money.unwrap_or(glass),
        missing: &missing,
    };
    Answer::says(membrane::answer(on.words, &facts))
}
