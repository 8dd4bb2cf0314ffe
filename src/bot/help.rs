//! Help: what to tell by role and by what was just tried.

use crate::grammar::{Ask, Term};
use crate::message::command::Page;
use crate::replies::Words;
use crate::replies::asking::{self, Names, Reason};
use crate::replies::help::{self, Tried};
use crate::store::{self, Db, StoreError};

use super::addressed::is_addressed;
use super::answer::Answer;
use super::examples::{example, known_rig, other_rig};
use super::request::Request;
use super::scene::CORRECTABLE;

/// The short help.
pub(super) async fn help(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    let chat = on.incoming.chat.address.clone();
    let open = store::questions::waiting(db, &chat, on.member.id, on.now).await?;
    let question = open.map(|open| question_again(on, &open.ask));
    let tried = if let Some(question) = &question {
        Tried::Question(question)
    } else if on.fleet.is_empty() && on.member.role.leads() {
        Tried::NoRigs
    } else if let Some(page) = on.bot.tried(&on.incoming.person.address, on.now) {
        Tried::About(page)
    } else if has_sent(db, on).await? {
        Tried::Sent
    } else {
        Tried::Nothing
    };
    Ok(Answer::says(help::short(
        on.words,
        on.member.role,
        tried,
        &known_rig(on),
    )))
}

/// A page of help, also one that a question is about ("help why flush?"); in a group nothing on what there is no
/// page for, since that was hardly said to the bot.
pub(super) async fn help_on(db: &mut Db, on: &Request<'_>, page: Option<Page>) -> Result<Answer, StoreError> {
    let Some(page) = page else {
        let spoken_to = !on.incoming.chat.group || is_addressed(db, on).await?;
        return Ok(match on.text().and_then(Page::about).filter(|_| spoken_to) {
            Some(page) => page_on(on, page),
            None if spoken_to => Answer::says(help::no_page(on.words)),
            None => Answer::silence(),
        });
    };
    Ok(page_on(on, page))
}

fn page_on(on: &Request<'_>, page: Page) -> Answer {
    let rig = known_rig(on);
    let other = other_rig(&on.fleet, &rig);
    Answer::says(help::page(on.words, page, &rig, &other))
}

/// What a word means.
pub(super) fn meaning(words: Words, term: Term) -> Answer {
    Answer::says(help::meaning(words, term))
}

fn question_again(on: &Request<'_>, ask: &Ask) -> String {
    let fleet: Vec<(i64, String)> = on.fleet.iter().map(|rig| (rig.id, rig.name.clone())).collect();
    let names = Names {
        fleet: &fleet,
        example: &example(on),
        usual_feed_ppm: None,
        di_only: false,
        reason: Reason::Strange,
    };
    asking::question(on.words, ask, &names)
}

async fn has_sent(db: &mut Db, on: &Request<'_>) -> Result<bool, StoreError> {
    let since = on.now - CORRECTABLE;
    Ok(store::readings::last_message(db, on.outfit.id, on.member.id, since)
        .await?
        .is_some()
        || store::services::last_message(db, on.outfit.id, on.member.id, since)
            .await?
            .is_some())
}
