//! What is taken back: it stays in the record, marked.

use std::collections::BTreeSet;

use crate::history::rig_state::PastReading;
use crate::replies::reading;
use crate::store::readings::Reading;
use crate::store::services::Service;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::days_off;
use super::past_readings::figures_of;
use super::request::Request;
use super::scene::CORRECTABLE;

/// Takes back the sender's last message of the last 12 hours, or drops the
/// open question.
pub(super) async fn undo(db: &mut Db, on: &mut Request<'_>) -> Result<Answer, StoreError> {
    let chat = on.incoming.chat.address.clone();
    if store::questions::waiting(db, &chat, on.member.id, on.now)
        .await?
        .is_some()
    {
        store::questions::close_all(db, &chat, on.member.id, on.now).await?;
        return Ok(Answer::says(on.words.plain("dropped")));
    }
    let since = on.now - CORRECTABLE;
    let reading = store::readings::last_message(db, on.outfit.id, on.member.id, since).await?;
    let service = store::services::last_message(db, on.outfit.id, on.member.id, since).await?;
    let told = reading.into_iter().chain(service).max_by_key(|(_, heard_at)| *heard_at);
    let heard_at = told.as_ref().map(|(_, heard_at)| *heard_at);
    let mut lines = Vec::new();
    let mut with_off = heard_at;
    if let Some((set_at, line)) = days_off::take_back(db, on, heard_at).await? {
        lines.push(line);
        with_off = Some(set_at);
    }
    if let Some((source, _)) = told.filter(|_| heard_at == with_off) {
        lines.extend(take_back(db, on, &source).await?);
    }
    if lines.is_empty() {
        return Ok(Answer::says(on.words.plain("nothing-to-withdraw")));
    }
    Ok(Answer::says(lines.join("\n")))
}

/// Withdraws all that one message made; says what, a line each.
pub(super) async fn take_back(db: &mut Db, on: &mut Request<'_>, source_key: &str) -> Result<Vec<String>, StoreError> {
    let (mut lines, mut rigs) = (Vec::new(), BTreeSet::new());
    for old in store::readings::of_message(db, on.outfit.id, source_key).await? {
        store::readings::withdraw(db, on.outfit.id, old.id, on.now).await?;
        lines.push(withdrawn(on, &old));
        rigs.insert(old.rig_id);
    }
    for old in store::services::of_message(db, on.outfit.id, source_key).await? {
        store::services::withdraw(db, on.outfit.id, old.id, on.now).await?;
        lines.push(withdrawn_service(on, &old));
        rigs.insert(old.rig_id);
    }
    on.changed(db, rigs).await?;
    Ok(lines)
}

/// Puts back what the sender told and was withdrawn last, within the last 12 hours; not what was corrected since.
pub(super) async fn put_back(db: &mut Db, on: &mut Request<'_>) -> Result<Answer, StoreError> {
    let since = on.now - CORRECTABLE;
    let mut readings = store::readings::last_withdrawn(db, on.outfit.id, on.member.id, since).await?;
    let mut services = store::services::last_withdrawn(db, on.outfit.id, on.member.id, since).await?;
    readings.retain(|one| on.rig(one.rig_id).is_some());
    services.retain(|one| on.rig(one.rig_id).is_some());
    let instants = readings.iter().map(|one| one.withdrawn_at);
    let last = instants.chain(services.iter().map(|one| one.withdrawn_at)).max();
    readings.retain(|one| Some(one.withdrawn_at) == last);
    services.retain(|one| Some(one.withdrawn_at) == last);
    let (mut lines, mut rigs) = (Vec::new(), BTreeSet::new());
    for old in readings {
        store::readings::restore(db, on.outfit.id, old.id).await?;
        let (rig, echo) = (
            on.rig_name(old.rig_id),
            reading::echo(on.words, figures_of(on, &PastReading::from(&old))),
        );
        let said = [("rig", (&rig).into()), ("echo", (&echo).into())];
        lines.push(on.words.say("put-back-reading", said));
        rigs.insert(old.rig_id);
    }
    for old in services {
        store::services::restore(db, on.outfit.id, old.id).await?;
        let (rig, what) = (on.rig_name(old.rig_id), reading::service_word(on.words, old.what));
        let said = [("rig", (&rig).into()), ("what", (&what).into())];
        lines.push(on.words.say("put-back-service", said));
        rigs.insert(old.rig_id);
    }
    if lines.is_empty() {
        return Ok(Answer::says(on.words.plain("nothing-to-put-back")));
    }
    on.changed(db, rigs).await?;
    Ok(Answer::says(lines.join("\n")))
}

pub(super) fn withdrawn(on: &Request<'_>, old: &Reading) -> String {
    let echo = reading::echo(on.words, figures_of(on, &PastReading::from(old)));
    let rig = on.rig_name(old.rig_id);
    on.words
        .say("withdrawn-reading", [("rig", (&rig).into()), ("echo", (&echo).into())])
}

pub(super) fn withdrawn_service(on: &Request<'_>, old: &Service) -> String {
    let what = reading::service_word(on.words, old.what);
    let rig = on.rig_name(old.rig_id);
    on.words
        .say("withdrawn-service", [("rig", (&rig).into()), ("what", (&what).into())])
}
