//! How far the guide is: the next question, the way past one, the pause.

use crate::message::setup::{self, KnownRig, Part, Progress, Step};
use crate::store::people::Role;
use crate::store::set_ups::SetUp;
use crate::store::{self, Db, StoreError};

use crate::bot::answer::{Answer, QUESTION_LIVES};
use crate::bot::cautions;
use crate::bot::refusals::may_not;
use crate::bot::request::Request;
use crate::bot::setup::known::{any_rig, is_read, known};
use crate::bot::setup::questions::{question, question_with, short_question};

/// After so many messages about something else the guide waits to be called.
const STRAYS: u8 = 3;

/// Edits of so many answers are taken as answers again.
const REMEMBERED: usize = 8;

pub(in crate::bot) fn is_set_up(progress: &Progress, rig: &KnownRig) -> bool {
    rig.facts || progress.passed.contains(&Step::Rig(rig.id, Part::Facts))
}

/// Puts the open question shortly behind what was said in between; after
/// some of it the guide waits.
pub(in crate::bot) async fn stray(
    db: &mut Db,
    on: &Request<'_>,
    mut answer: Answer,
    mut progress: Progress,
    step: Step,
) -> Result<Answer, StoreError> {
    progress.strayed = progress.strayed.saturating_add(1);
    if progress.strayed >= STRAYS {
        answer.and(stop(db, on, &progress, "setup-waits").await?);
        return Ok(answer);
    }
    keep_set_up(db, on, progress, false).await?;
    // A question about a reading comes first and alone.
    if answer.buttons.is_empty() && answer.question_id.is_none() {
        caution(db, on, &mut answer).await?;
        answer.and(short_question(on, step));
    }
    Ok(answer)
}

/// Begins, or goes on where it was left; what was skipped is asked again
/// when nothing else is left.
pub(in crate::bot) async fn begin(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    if on.member.role != Role::Owner {
        return Ok(may_not(on.words, "who-owner"));
    }
    let kept = store::set_ups::of(db, on.member.id, on.outfit.id).await?;
    let mut progress = kept.map(|kept: SetUp<Progress>| kept.progress).unwrap_or_default();
    progress.whole = true;
    if setup::next(&progress, &known(db, on).await?).is_none() {
        let answered_by_itself = |step: &Step| matches!(step, Step::Reading | Step::Hours | Step::Rig(_, Part::Facts));
        progress.passed.retain(answered_by_itself);
        progress.wanted.clear();
    }
    ask_next(db, on, progress, Answer::default()).await
}

pub(in crate::bot) async fn begin_rig(db: &mut Db, on: &Request<'_>, name: &str) -> Result<Answer, StoreError> {
    let Some(rig) = on.rig_named(name) else {
        return Ok(Answer::silence());
    };
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    let open = open_set_up(db, on).await?;
    let kept = store::set_ups::of(db, on.member.id, on.outfit.id).await?;
    let mut progress = kept.map(|kept: SetUp<Progress>| kept.progress).unwrap_or_default();
    progress.whole &= open.is_some();
    let parts = [Part::Facts, Part::Resin, Part::Rated, Part::Prefilters].map(|part| Step::Rig(rig.id, part));
    progress
        .passed
        .retain(|step| !matches!(step, Step::Rig(id, _) if *id == rig.id));
    progress
        .wanted
        .retain(|step| !matches!(step, Step::Rig(id, _) if *id == rig.id));
    progress.wanted.splice(0..0, parts);
    ask_next(db, on, progress, Answer::default()).await
}

pub(in crate::bot) async fn stop(
    db: &mut Db,
    on: &Request<'_>,
    progress: &Progress,
    key: &str,
) -> Result<Answer, StoreError> {
    keep_set_up(db, on, progress.clone(), true).await?;
    Ok(Answer::says(on.words.plain(key)))
}

pub(in crate::bot) async fn one_by_one(
    db: &mut Db,
    on: &Request<'_>,
    progress: &Progress,
    step: Step,
) -> Result<Answer, StoreError> {
    let singly = match step {
        Step::Rig(id, _) => [Part::Kind, Part::Membranes, Part::Flush, Part::Stands]
            .map(|part| Step::Rig(id, part))
            .to_vec(),
        _ => vec![Step::WorkingDays, Step::DayEnds, Step::Digest],
    };
    let mut progress = progress.clone();
    progress.passed.retain(|passed| !singly.contains(passed));
    progress.wanted.retain(|wanted| !singly.contains(wanted));
    progress.wanted.splice(0..0, singly);
    pass(db, on, &progress, step, Answer::default()).await
}

/// A question is done with: says what came of it, and asks the next one.
pub(in crate::bot) async fn pass(
    db: &mut Db,
    on: &Request<'_>,
    progress: &Progress,
    step: Step,
    said: Answer,
) -> Result<Answer, StoreError> {
    let mut progress = progress.clone();
    progress.passed.push(step);
    progress.strayed = 0;
    progress.answered.push((on.incoming.key.clone(), step));
    let forgotten = progress.answered.len().saturating_sub(REMEMBERED);
    progress.answered.drain(..forgotten);
    ask_next(db, on, progress, said).await
}

/// Puts the next question behind what was said.
pub(in crate::bot) async fn ask_next(
    db: &mut Db,
    on: &Request<'_>,
    mut progress: Progress,
    mut said: Answer,
) -> Result<Answer, StoreError> {
    let last = progress.step;
    progress.step = setup::next(&progress, &known(db, on).await?);
    let whole = progress.whole;
    let next = progress.step;
    keep_set_up(db, on, progress, false).await?;
    caution(db, on, &mut said).await?;
    said.and(match (next, last) {
        (Some(Step::Reading), _) if is_read(db, on).await? => question_with(on, Step::Reading, "setup-reading-known"),
        (Some(step), _) => question(on, step),
        (None, Some(Step::Rig(id, _))) if !whole => {
            let name = on.rig_name(id);
            let small = name.to_lowercase();
            let facts = [("rig", (&name).into()), ("name", (&small).into())];
            Answer::says(on.words.say("setup-rig-done", facts))
        }
        (None, _) => Answer::says(on.words.say("setup-done", [("rig", (&any_rig(&on.fleet)).into())])),
    });
    Ok(said)
}

/// Says what is due of cautions now, so that the question stands last.
pub(in crate::bot) async fn caution(db: &mut Db, on: &Request<'_>, said: &mut Answer) -> Result<(), StoreError> {
    let occasions = std::mem::take(&mut said.occasions);
    let lines = cautions::lines(db, on.words, on.member.id, &occasions, on.now).await?;
    match said.parts.last_mut() {
        Some(last) => lines.iter().for_each(|line| last.extend(["\n", line])),
        None if lines.is_empty() => {}
        None => said.parts.push(lines.join("\n")),
    }
    Ok(())
}

/// The set-up whose question is open: neither put off nor older than its buttons.
pub(in crate::bot) async fn open_set_up(db: &mut Db, on: &Request<'_>) -> Result<Option<SetUp<Progress>>, StoreError> {
    let kept = store::set_ups::of(db, on.member.id, on.outfit.id).await?;
    Ok(kept.filter(|kept| kept.stopped_at.is_none() && on.now < kept.asked_at + QUESTION_LIVES))
}

async fn keep_set_up(db: &mut Db, on: &Request<'_>, progress: Progress, stopped: bool) -> Result<(), StoreError> {
    let set_up = SetUp {
        progress,
        asked_at: on.now,
        stopped_at: stopped.then_some(on.now),
    };
    store::set_ups::keep(db, on.member.id, on.outfit.id, &set_up).await
}
