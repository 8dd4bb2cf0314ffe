//! Buttons that were pressed, and reactions: a thumbs-up on a flush reminder says that it is done.

use crate::domain::envelope::Body;
use crate::store::{self, Db, StoreError};

use super::act::Act;
use super::answer::Answer;
use super::messages::carry;
use super::perform::perform_press;
use super::request::Request;

/// Does what a button keeps, for whoever may press it.
pub(super) async fn pressed(db: &mut Db, on: &mut Request<'_>, token: &str, press: &str) -> Result<Answer, StoreError> {
    let found = store::questions::button(db, token, on.now).await?;
    let refusal = match &found {
        None => Some("press-closed"),
        Some(button) if button.outfit_id != on.outfit.id => Some("press-not-yours"),
        Some(button) if button.person_id.is_some_and(|person| person != on.member.id) => Some("press-not-yours"),
        Some(_) => None,
    };
    let act = found.and_then(|button| Act::of_kept(&button.says));
    let refusal = refusal.or(act.is_none().then_some("press-outdated"));
    let body = Body::Acknowledge {
        press: press.to_owned(),
        text: refusal.map(|key| on.words.plain(key)),
    };
    let acknowledged = carry(on.incoming.chat.address.clone(), body);
    let mut answer = match act.filter(|_| refusal.is_none()) {
        Some(act) => perform_press(db, on, act).await?,
        None => Answer::silence(),
    };
    answer.to_others.insert(0, acknowledged);
    Ok(answer)
}

/// Somebody put a reaction under the message with this key.
pub(super) async fn reacted(
    db: &mut Db,
    on: &mut Request<'_>,
    reacted_to: &str,
    thumbs_up: bool,
) -> Result<Answer, StoreError> {
    if !thumbs_up {
        return Ok(Answer::silence());
    }
    let Some(token) = store::sends::first_button(db, reacted_to).await? else {
        return Ok(Answer::silence());
    };
    let Some(button) = store::questions::button(db, &token, on.now).await? else {
        return Ok(Answer::silence());
    };
    let theirs = button.outfit_id == on.outfit.id && button.person_id.is_none_or(|person| person == on.member.id);
    match Act::of_kept(&button.says).filter(Act::is_flush) {
        // A question has several answers, and a thumb does not say which.
        Some(act) if theirs && button.question_id.is_none() => perform_press(db, on, act).await,
        _ => Ok(Answer::silence()),
    }
}
