//! The digest for whoever asks for it.

use jiff::civil::Date;

use crate::domain::envelope::{Body, Handling};
use crate::history;
use crate::schedule::slot_on;
use crate::store::{Db, StoreError};

use super::answer::Answer;
use super::digests;
use super::messages::{in_private, privately};
use super::refusals::may_not;
use super::request::Request;
use super::week_facts::Until;

/// The digest of the last seven days, now: to the asker's private chat, since it
/// speaks of money and people.
pub(super) async fn digest_now(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    let week = (on.today(), Until::Now);
    let Some(made) = digests::make(db, &on.known, week, on.now).await? else {
        return Ok(Answer::says(on.words.plain("fleet-empty")));
    };
    let member = on.member.clone();
    let handling = Handling {
        protected: true,
        ..Handling::default()
    };
    on.bot.send_digest(db, &made, &member, handling, on.now).await?;
    Ok(in_private(on))
}

/// What a digest had no room for: of the Monday that is named, else of the
/// last seven days.
pub(super) async fn digest_more(db: &mut Db, on: &Request<'_>, of: &str) -> Result<Answer, StoreError> {
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    let (week, at) = match of.parse::<Date>().ok().and_then(|monday| sent_on(on, monday)) {
        Some((monday, at)) => ((monday, Until::Yesterday), at),
        None => ((on.today(), Until::Now), on.now),
    };
    let past = match at < on.now {
        true => history::load::as_of(db, on.outfit.id, at).await?,
        false => None,
    };
    let known = past.as_deref().unwrap_or(&on.known);
    let Some(made) = digests::make(db, known, week, at).await? else {
        return Ok(Answer::says(on.words.plain("fleet-empty")));
    };
    let text = made.more(on.words).unwrap_or_else(|| on.words.plain("digest-no-more"));
    let body = Body::Say {
        text,
        buttons: Vec::new(),
        reply_to: None,
    };
    let mut answer = in_private(on);
    answer.to_others.push(privately(on, body));
    Ok(answer)
}

/// A day that is past, and when its digest was due.
fn sent_on(on: &Request<'_>, monday: Date) -> Option<(Date, i64)> {
    let (_, time) = on.rules.digest_at();
    let slot = slot_on(&on.zone, monday, time)?;
    (slot.at <= on.now).then_some((monday, slot.at))
}
