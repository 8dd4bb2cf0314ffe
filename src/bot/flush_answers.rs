//! What people answer to a flush reminder, and the morning after a missed one.

use jiff::civil::Date;

use crate::domain::{RigId, ServiceKind};
use crate::history::rig_state::PastReading;
use crate::replies::{Words, listed};
use crate::schedule;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::request::Request;

/// After this long without an answer it is asked again, once.
pub(super) const ASK_AGAIN: i64 = 30 * 60;

/// How far back a bare "in 30 minutes" finds the question it answers.
const QUESTION_STANDS: i64 = 12 * 3600;

/// Puts a reminder off, by so many minutes where that is said; without names,
/// all that this chat was asked about.
pub(super) async fn flush_later(
    db: &mut Db,
    on: &Request<'_>,
    rigs: &[i64],
    minutes: Option<u16>,
) -> Result<Answer, StoreError> {
    let since = on.now - QUESTION_STANDS;
    let asked = store::nudges::open_in(db, on.outfit.id, &on.incoming.chat.address, since).await?;
    let meant: Vec<i64> = if rigs.is_empty() { asked } else { rigs.to_vec() };
    if meant.is_empty() {
        return Ok(Answer::silence());
    }
    let wait = minutes.map_or(ASK_AGAIN, |minutes| i64::from(minutes) * 60);
    let (again_at, today) = (on.now + wait, on.today().to_string());
    let (mut put_off, mut no_more, mut not_yet) = (Vec::new(), Vec::new(), Vec::new());
    for rig in meant {
        let name = on.rig_name(rig);
        let asked_at = store::nudges::last_asked(db, on.outfit.id, rig, on.now + 1).await?;
        if store::nudges::put_off(db, on.outfit.id, rig, &today, again_at).await? {
            put_off.push(name);
        } else if asked_at.is_some_and(|at| on.date(at) == on.today()) {
            no_more.push(name);
        } else {
            not_yet.push(name);
        }
    }
    let mut lines = Vec::new();
    if !put_off.is_empty() {
        let time = schedule::local_time(&on.zone, again_at).unwrap_or_default();
        let time = time.strftime("%H:%M").to_string();
        let rigs = name_list(on.words, &put_off);
        let facts = [("rigs", (&rigs).into()), ("time", (&time).into())];
        lines.push(on.words.say("nudge-put-off", facts));
    }
    for (key, names) in [("nudge-no-more", no_more), ("nudge-not-yet", not_yet)] {
        let Some(first) = names.first() else {
            continue;
        };
        let example = on
            .words
            .say("example-flushed", [("rig", (&first.to_lowercase()).into())]);
        let rigs = name_list(on.words, &names);
        let facts = [("rigs", (&rigs).into()), ("example", (&example).into())];
        lines.push(on.words.say(key, facts));
    }
    Ok(Answer::says(lines.join("\n")))
}

/// Which of the rigs that are flushed by hand and worked today are flushed.
pub(super) fn flush_status(on: &Request<'_>) -> Answer {
    let today = on.today();
    let (mut done, mut left) = (Vec::new(), Vec::new());
    for known in &on.known.rigs {
        let (rig, state) = (&known.rig, &known.state);
        let worked = state
            .readings
            .back()
            .is_some_and(|last| on.date(last.taken_at) == today);
        let flushed = state.last_done(ServiceKind::Flush);
        if rig.flushes_itself || rig.di_only {
            continue;
        }
        match (flushed.is_some_and(|at| on.date(at) == today), worked) {
            (true, _) => done.push(rig.name.clone()),
            (false, true) => left.push(rig.name.clone()),
            (false, false) => {}
        }
    }
    let line = |key: &str, names: &[String]| {
        let rigs = name_list(on.words, names);
        (!names.is_empty()).then(|| on.words.say(key, [("rigs", (&rigs).into())]))
    };
    let lines: Vec<String> = [line("flush-left", &left), line("flush-done", &done)]
        .into_iter()
        .flatten()
        .collect();
    if lines.is_empty() {
        return Answer::says(on.words.plain("flush-none-worked"));
    }
    Answer::says(lines.join("\n"))
}

/// Notes that rigs were not used today, so that nobody asks again.
pub(super) async fn not_used(db: &mut Db, on: &Request<'_>, rigs: &[i64]) -> Result<Answer, StoreError> {
    let today = on.today().to_string();
    let mut lines = Vec::new();
    for rig in rigs {
        store::nudges::not_used(db, on.outfit.id, *rig, &today, on.now).await?;
        let name = on.rig_name(*rig);
        lines.push(on.words.say("not-used-noted", [("rig", (&name).into())]));
    }
    Ok(Answer::says(lines.join("\n")))
}

/// The day on which a rig was left unflushed although somebody was asked, if
/// this is its first reading since.
pub(super) fn missed_flush(on: &Request<'_>, rig: RigId, before: Option<&PastReading>, taken_at: i64) -> Option<Date> {
    let before = before.filter(|before| on.date(before.taken_at) < on.date(taken_at))?;
    let known = on.known.rig(rig)?;
    let asked_at = known.asked_to_flush.filter(|at| *at < taken_at)?;
    let flushed_at = known.state.last_done(ServiceKind::Flush);
    let was_flushed = flushed_at.is_some_and(|at| at >= before.taken_at);
    (asked_at >= before.taken_at && !was_flushed).then(|| on.date(asked_at))
}

fn name_list(words: Words, names: &[String]) -> String {
    listed(words, &names.iter().map(String::as_str).collect::<Vec<_>>())
}
