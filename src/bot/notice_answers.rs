//! What people answer to what they were told unasked.

use crate::digest::notes::Topic;
use crate::domain::ServiceKind;
use crate::message::command::{Affair, Command};
use crate::replies::figures;
use crate::replies::notes::{Press, answered};
use crate::store::{self, Db, StoreError};

use super::act::Act;
use super::answer::Answer;
use super::decisions;
use super::refusals::unknown_rig;
use super::request::Request;

const WEEK: i64 = 7 * 86_400;

/// What a button below a note does, of the rig that it is about.
pub(super) fn act_of(rig: Option<&(i64, String)>, topic: Topic, press: Press) -> Act {
    let name = rig.map_or_else(String::new, |(_, name)| name.to_lowercase());
    let done = |what| Act::done(what, rig.map(|(id, _)| *id));
    let about = match topic {
        Topic::Resin => "resin",
        Topic::Frost => "frost",
        Topic::Membrane | Topic::AskMembrane => "membrane",
        Topic::Idle30 | Topic::Idle14 | Topic::Idle5 => "idle",
        Topic::Prefilters => "prefilters",
    };
    match (press, topic) {
        (Press::Done, Topic::Idle5 | Topic::Idle14) => done(ServiceKind::Flush),
        (Press::Done, Topic::Idle30) => Act::Command(Command::Affair(Affair::Preserved(name))),
        (Press::Done, Topic::Resin) => done(ServiceKind::Resin),
        (Press::Done, Topic::Prefilters) => done(ServiceKind::Prefilter),
        (Press::Done, Topic::Membrane | Topic::AskMembrane) | (Press::NewMembrane, _) => done(ServiceKind::Membrane),
        (Press::SameMembrane, _) => Act::Command(Command::Affair(Affair::SameMembrane(name))),
        (Press::InAWeek, _) => Act::Command(Command::NoteAgain(name, about.to_owned())),
        // Frost is of no rig, and there is nothing to be done at once.
        (Press::NotNow, _) | (Press::Done, Topic::Frost) => Act::Command(Command::NoteLetBe(name, about.to_owned())),
    }
}

/// The notes that a typed word is about.
fn topics(about: &str) -> &'static [Topic] {
    match about {
        "resin" => &[Topic::Resin],
        "membrane" => &[Topic::Membrane, Topic::AskMembrane],
        "prefilters" => &[Topic::Prefilters],
        "idle" => &[Topic::Idle5, Topic::Idle14, Topic::Idle30],
        "frost" => &[Topic::Frost],
        _ => &[],
    }
}

/// "Heron membrane in a week", "frost not now": says it again later, or lets
/// it be.
pub(super) async fn answer_note(
    db: &mut Db,
    on: &Request<'_>,
    rig: &str,
    about: &str,
    again: bool,
) -> Result<Answer, StoreError> {
    let rig = match (rig, about) {
        ("", "frost") => None,
        (name, _) => match on.rig_named(name) {
            Some(rig) => Some(rig.id),
            None => return Ok(unknown_rig(on, name)),
        },
    };
    if again {
        for topic in topics(about) {
            store::notes::put_off(db, on.outfit.id, rig, topic.code(), on.now + WEEK).await?;
        }
    }
    if let (false, "membrane", Some(rig)) = (again, about, rig)
        && on.member.role.leads()
        && let Some(answer) = put_membrane_off(db, on, rig).await?
    {
        return Ok(answer);
    }
    let press = if again { Press::InAWeek } else { Press::NotNow };
    Ok(Answer::says(answered(on.words, press)))
}

/// Lets a membrane be for a while, if a new one is asked for; says until when.
async fn put_membrane_off(db: &mut Db, on: &Request<'_>, rig_id: i64) -> Result<Option<Answer>, StoreError> {
    let Some(followed) = on.follow(rig_id) else {
        return Ok(None);
    };
    let today = on.today();
    if followed.verdict.membrane_due().is_none() {
        return Ok(None);
    }
    decisions::put_membrane_off(db, on.outfit.id, rig_id, on.now).await?;
    let until = figures::day(on.words, on.date(on.now + decisions::PUT_OFF), today);
    let facts = [("rig", (&followed.rig.name).into()), ("day", (&until).into())];
    Ok(Some(Answer::says(on.words.say("note-answer-put-off", facts))))
}
