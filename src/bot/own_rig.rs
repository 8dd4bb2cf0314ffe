//! The rig that somebody's bare readings are about: today's, or the one that stays.

use jiff::ToSpan;

use crate::schedule;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::examples::example;
use super::refusals::unknown_rig;
use super::request::Request;

pub(super) async fn set_own_rig(db: &mut Db, on: &Request<'_>, name: &str) -> Result<Answer, StoreError> {
    let Some(rig) = on.rig_named(name) else {
        return Ok(unknown_rig(on, name));
    };
    store::people::set_own_rig(db, on.member.id, Some(rig.id)).await?;
    store::people::set_todays_rig(db, on.member.id, None, 0).await?;
    Ok(Answer::says(on.words.say("own-rig", [("rig", (&rig.name).into())])))
}

/// On a rig until the end of the local day.
pub(super) async fn ride_today(db: &mut Db, on: &Request<'_>, typed: &str) -> Result<Answer, StoreError> {
    let Some(rig) = on.rig_named(typed) else {
        return Ok(unknown_rig(on, typed));
    };
    let tomorrow = on.today().checked_add(1.day()).ok();
    let until = tomorrow
        .and_then(|tomorrow| schedule::day_start(&on.zone, tomorrow))
        .unwrap_or(on.now + 86_400);
    store::people::set_todays_rig(db, on.member.id, Some(rig.id), until).await?;
    Ok(Answer::says(
        on.words.say("own-rig-today", [("rig", (&rig.name).into())]),
    ))
}

/// On no rig, today and from now on.
pub(super) async fn ride_none(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    store::people::set_todays_rig(db, on.member.id, None, 0).await?;
    store::people::set_own_rig(db, on.member.id, None).await?;
    Ok(Answer::says(
        on.words.say("own-rig-none", [("example", (&example(on)).into())]),
    ))
}
