//! Texts: what one comes to, and its answer; what an edited one made is withdrawn first.

use crate::domain::query::{Query, Topic};
use crate::grammar::Meaning;
use crate::message::command::{self, Affair, Command};
use crate::message::setting;
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};

use super::act::Act;
use super::addressed::is_addressed;
use super::answer::Answer;
use super::closed_outfit::closed_to;
use super::commands::is_meant;
use super::crew_chat::starts_group;
use super::hints::half_setting;
use super::perform::perform;
use super::request::Request;
use super::rig_names::fold;
use super::setup::guided;
use super::understood::understand;
use super::withdrawals::take_back;

/// Answers a text.
///
/// `act` is what it comes to by itself, if that is known.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn answer_text(
    db: &mut Db,
    on: &mut Request<'_>,
    text: &str,
    act: Option<Act>,
) -> Result<Answer, StoreError> {
    if text.trim_start().starts_with("/start")
        && let Some(linked) = starts_group(db, on).await?
    {
        return Ok(linked);
    }
    if let Some(refusal) = closed_to(on, command_of(text).as_ref()) {
        return Ok(refusal);
    }
    if let Some(answer) = guided(db, on, text).await? {
        return Ok(answer);
    }
    let act = match act {
        Some(act) => act,
        None => decide(on, text, is_addressed(db, on).await?),
    };
    perform(db, on, act).await
}

/// What a text comes to. Changes nothing. `is_addressed`: in a group, whether it is meant for the bot.
pub(super) fn decide(on: &Request<'_>, text: &str, is_addressed: bool) -> Act {
    let understood = understand(on, text);
    // Nearly all that crews text; names of rigs beat words of commands.
    if is_plainly_read(on, text, &understood.meaning) {
        return understood.act();
    }
    let command = command_of(text);
    // "We're closed next week" closes nothing but that week; "closed on mondays" is a setting.
    let is_set = matches!(
        command,
        Some(Command::Setting(_) | Command::Settings(_) | Command::Affair(Affair::Preserved(_)))
    );
    if !understood.meaning.time_off.is_empty() && !is_set {
        return understood.act();
    }
    if let Some(command) = command
        && is_meant(on, &command)
    {
        return Act::Command(command);
    }
    if let Some(command) = set_in_passing(on, text, &understood.meaning) {
        return Act::Command(command);
    }
    if half_setting(on, text, &understood.meaning).is_some() && (!on.incoming.chat.group || is_addressed) {
        return Act::HalfSetting(text.to_owned());
    }
    let is_talk = on.incoming.chat.group && !is_addressed && is_cry_for_help(&understood.meaning);
    if is_talk || understood.meaning == Meaning::default() {
        return Act::Unclear(text.to_owned());
    }
    understood.act()
}

/// An edited message: what it made is withdrawn, and its new text is read.
pub(super) async fn reread(db: &mut Db, on: &mut Request<'_>, text: &str) -> Result<Answer, StoreError> {
    if let Some(refusal) = closed_to(on, None) {
        return Ok(refusal);
    }
    // What was said before they came was said in another outfit, or to nobody.
    if on.sent_at() < on.member.joined_at {
        return Ok(Answer::silence());
    }
    let key = on.incoming.key.clone();
    store::questions::close_of_message(db, &key, on.now).await?;
    let taken_back = take_back(db, on, &key).await?;
    let mut answer = answer_text(db, on, text, None).await?;
    if taken_back.is_empty() {
        return Ok(answer);
    }
    let remade = !store::readings::of_message(db, on.outfit.id, &key).await?.is_empty()
        || !store::services::of_message(db, on.outfit.id, &key).await?.is_empty();
    if !remade {
        answer.parts.insert(0, taken_back.join("\n"));
    } else if let Some(first) = answer.parts.first_mut() {
        first.insert_str(0, &format!("{} ", on.words.plain("corrected")));
    }
    Ok(answer)
}

/// The setting that a text is beside some talk, or the settings, where it is read as nothing that is recorded.
pub(super) fn set_in_passing(on: &Request<'_>, text: &str, meaning: &Meaning) -> Option<Command> {
    let records_nothing = Meaning {
        ask: None,
        queries: Vec::new(),
        ..meaning.clone()
    } == Meaning::default();
    let is_rig = |name: &str| on.rig_named(name).is_some();
    if !records_nothing || on.incoming.chat.group {
        return None;
    }
    let one = setting::read_among(text, &is_rig).map(Command::Setting);
    one.or_else(|| setting::read_each(text, Some(&is_rig)).map(Command::Settings))
}

/// Whether a text asks for help and nothing else: in a group, that is said to people.
fn is_cry_for_help(meaning: &Meaning) -> bool {
    let only_queries = Meaning {
        queries: meaning.queries.clone(),
        ..Meaning::default()
    };
    let asks = |query: &Query| query.topic == Topic::Help;
    !meaning.queries.is_empty() && *meaning == only_queries && meaning.queries.iter().all(asks)
}

/// Whether a text is readings and nothing else, and begins with the name of a rig or has no word at all. Pasted rows are
/// no readings of now.
fn is_plainly_read(on: &Request<'_>, text: &str, meaning: &Meaning) -> bool {
    let only_readings = Meaning {
        readings: meaning.readings.clone(),
        ..Meaning::default()
    };
    if meaning.readings.is_empty() || *meaning != only_readings {
        return false;
    }
    let typed = fold(text);
    let begins = |rig: &Rig| {
        let names = on.rules.short_names(rig.id);
        let mut names = names.iter().map(String::as_str).chain([rig.name.as_str()]).map(fold);
        names.any(|name| !name.is_empty() && typed.starts_with(&name))
    };
    let in_figures = !text.chars().any(char::is_alphabetic);
    (in_figures || on.fleet.iter().any(begins)) && command::pasted(text).is_none()
}

/// The command that a text is, or the rows that are pasted below one.
fn command_of(text: &str) -> Option<Command> {
    command::read(text).or_else(|| command::pasted(text).map(Command::Affair))
}
