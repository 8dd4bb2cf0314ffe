//! The guide through setting up: asks one question at a time, sets what is
//! answered by the same commands that somebody could type, and lets everything
//! else through as always.

mod answer_commands;
mod known;
mod progress;
mod questions;
mod rigs;

use crate::domain::envelope::{Incoming, Outgoing};
use crate::grammar::{self, Meaning};
use crate::message::command::{self, Command};
use crate::message::setup::{self, Guide, Part, Progress, Step};
use crate::replies::caution::Occasion;
use crate::store::people::Role;
use crate::store::{self, Db, StoreError};

use super::Bot;
use super::act::Act;
use super::answer::{Answer, Press};
use super::answer_queue::queue_now;
use super::commands::{is_meant, obey};
use super::meaning_answers::record_meaning;
use super::request::Request;
use super::rig_names::proper_name;
use super::scene::{open_question, scene};
use super::texts::set_in_passing;
use super::understood::{Understood, chosen, understand};
use answer_commands::{answer_by, answer_of, carry_out, commands_of, step_of};
use known::known;
use progress::{begin, begin_rig, caution, is_set_up, one_by_one, open_set_up, pass, stop, stray};
use questions::{question, question_with, short_question};
use rigs::{listed_rigs, listed_rigs_alone, same, waiting_reading};

impl Bot {
    /// Welcomes whoever founded an outfit, with the first question.
    pub(super) async fn open_set_up(
        &self,
        db: &mut Db,
        incoming: &Incoming,
        queued: &mut Vec<Outgoing>,
        now: i64,
    ) -> Result<(), StoreError> {
        let Some(member) = store::people::find(db, &incoming.person.address).await? else {
            return Ok(());
        };
        let Some(mut request) = self.request(db, None, incoming, member.outfit_id, now).await? else {
            return Ok(());
        };
        let on = &mut request;
        let mut answer = Answer::says(on.words.plain("setup-welcome"));
        answer.occasions.push(Occasion::Joined);
        if incoming.chat.group {
            answer.and(Answer::says(on.words.plain("setup-private")));
        } else {
            caution(db, on, &mut answer).await?;
            answer.and(begin(db, on).await?);
        }
        queue_now(db, on, answer, queued).await
    }
}

/// What the guide makes of a text; none leaves it to everything else.
pub(super) async fn guided(db: &mut Db, on: &mut Request<'_>, text: &str) -> Result<Option<Answer>, StoreError> {
    let guide = setup::read(text);
    if on.incoming.chat.group {
        let called = guide == Some(Guide::Begin) && on.member.role == Role::Owner;
        return Ok(called.then(|| Answer::says(on.words.plain("setup-private"))));
    }
    if let Some(guide) = &guide
        && let Some(answer) = begun(db, on, guide).await?
    {
        return Ok(Some(answer));
    }
    let Some((progress, step)) = open_step(db, on).await? else {
        return Ok(None);
    };
    if on.incoming.version > 0 {
        return answered_again(db, on, text, &progress, step).await;
    }
    answered(db, on, text, guide, progress, step).await.map(Some)
}

/// What the guide makes of what a button keeps; none leaves it to everything else.
pub(super) async fn guided_press(db: &mut Db, on: &mut Request<'_>, act: &Act) -> Result<Option<Answer>, StoreError> {
    if on.incoming.chat.group {
        return Ok(None);
    }
    let Some((progress, step)) = open_step(db, on).await? else {
        return Ok(None);
    };
    let understood = match act.clone() {
        Act::Command(command) => {
            let about = step_of(on, &command);
            let by_text = !matches!(step, Step::Rigs | Step::Reading | Step::Crew);
            if about == Some(step) && by_text {
                return answer_by(db, on, vec![command], &progress, step).await.map(Some);
            }
            let answer = obey(db, on, command).await?;
            return after_a_command(db, on, answer, about, progress, step).await.map(Some);
        }
        Act::Meaning(meaning) => Understood {
            meaning,
            answers: false,
        },
        Act::Answer(meaning) => Understood { meaning, answers: true },
        Act::Choose(label) => match chosen(on, label) {
            Some(understood) => understood,
            None => return Ok(None),
        },
        Act::Guide(_) | Act::HalfSetting(_) | Act::Unclear(_) => return Ok(None),
    };
    between(db, on, understood, progress, step).await.map(Some)
}

/// Does what the guide is told to; none if it is told nothing that fits.
pub(super) async fn steer(db: &mut Db, on: &mut Request<'_>, guide: Guide) -> Result<Option<Answer>, StoreError> {
    if let Some(answer) = begun(db, on, &guide).await? {
        return Ok(Some(answer));
    }
    match open_step(db, on).await? {
        Some((progress, step)) => steered(db, on, guide, &progress, step).await,
        None => Ok(None),
    }
}

/// An edited answer, answered again; none if the message answered nothing.
pub(super) async fn answered_again(
    db: &mut Db,
    on: &mut Request<'_>,
    text: &str,
    progress: &Progress,
    open: Step,
) -> Result<Option<Answer>, StoreError> {
    let answered = progress.answered.iter().rev().find(|(key, _)| *key == on.incoming.key);
    let Some((_, step)) = answered.cloned() else {
        return Ok(None);
    };
    let mut said = if step == Step::Rigs {
        match listed_rigs_alone(db, on, text).await? {
            Some(said) => said,
            None => return Ok(None),
        }
    } else {
        let commands = commands_of(on, text, step);
        if commands.is_empty() {
            return Ok(None);
        }
        carry_out(db, on, commands).await?
    };
    said.and(short_question(on, open));
    Ok(Some(said))
}

/// What needs no open question: to begin, and to give a rig the facts of another.
async fn begun(db: &mut Db, on: &mut Request<'_>, guide: &Guide) -> Result<Option<Answer>, StoreError> {
    match guide {
        Guide::Begin => begin(db, on).await.map(Some),
        Guide::BeginRig(name) if on.rig_named(name).is_some() => begin_rig(db, on, name).await.map(Some),
        Guide::Same { rig: Some(rig), like } => match on.rig_named(rig) {
            Some(rig) => same(db, on, &[rig.id], like).await.map(Some),
            None => Ok(None),
        },
        _ => Ok(None),
    }
}

/// The guide's open question, and how far it is.
async fn open_step(db: &mut Db, on: &Request<'_>) -> Result<Option<(Progress, Step)>, StoreError> {
    let open = open_set_up(db, on).await?;
    Ok(open.and_then(|open| open.progress.step.map(|step| (open.progress, step))))
}

/// A text while a question of the guide is open.
async fn answered(
    db: &mut Db,
    on: &mut Request<'_>,
    text: &str,
    guide: Option<Guide>,
    progress: Progress,
    step: Step,
) -> Result<Answer, StoreError> {
    // A question about a reading goes first: its figures must not be lost.
    if !on.fleet.is_empty() && open_question(on).is_some() {
        let understood = understand(on, text);
        if understood.meaning != Meaning::default() {
            return between(db, on, understood, progress, step).await;
        }
    }
    if let Some(guide) = guide
        && let Some(answer) = steered(db, on, guide, &progress, step).await?
    {
        return Ok(answer);
    }
    // A name or a place can be any word; all else is read first.
    let greedy = matches!(step, Step::Name | Step::Zone);
    if !greedy && let Some(answer) = answer_of(db, on, text, &progress, step).await? {
        return Ok(answer);
    }
    let command = command::read(text).filter(|command| is_meant(on, command));
    let in_passing = || set_in_passing(on, text, &alone(on, text)).filter(|_| greedy);
    if let Some(command) = command.or_else(in_passing) {
        let about = step_of(on, &command);
        let answer = obey(db, on, command).await?;
        return after_a_command(db, on, answer, about, progress, step).await;
    }
    if step == Step::Rigs
        && let Some(answer) = listed_rigs(db, on, text, &progress).await?
    {
        return Ok(answer);
    }
    if greedy
        && alone(on, text) == Meaning::default()
        && let Some(answer) = answer_of(db, on, text, &progress, step).await?
    {
        return Ok(answer);
    }
    let understood = understand(on, text);
    if understood.meaning == Meaning::default() {
        return Ok(not_understood(on, text, step));
    }
    between(db, on, understood, progress, step).await
}

/// What a text means by itself.
fn alone(on: &Request<'_>, text: &str) -> Meaning {
    grammar::read(text, &scene(on, None))
}

/// Does what the guide was told to; none if it was told nothing that fits.
async fn steered(
    db: &mut Db,
    on: &mut Request<'_>,
    guide: Guide,
    progress: &Progress,
    step: Step,
) -> Result<Option<Answer>, StoreError> {
    let at_once = matches!(step, Step::Hours | Step::Rig(_, Part::Facts));
    Ok(Some(match guide {
        Guide::Stop => stop(db, on, progress, "setup-stopped").await?,
        Guide::No if step == Step::Reading => stop(db, on, progress, "setup-stopped").await?,
        Guide::No if at_once => one_by_one(db, on, progress, step).await?,
        Guide::OneByOne(of) if at_once && of.is_none_or(|of| of == step) => one_by_one(db, on, progress, step).await?,
        Guide::Pass(of) if of.is_none_or(|of| of == step) => pass(db, on, progress, step, Answer::default()).await?,
        Guide::No => pass(db, on, progress, step, Answer::default()).await?,
        // The button of an older question: this one stays.
        Guide::Pass(Some(_)) | Guide::OneByOne(Some(_)) => question(on, step),
        Guide::Same { rig: None, like } => match step {
            Step::Rig(id, _) => same(db, on, &[id], &like).await?,
            _ => return Ok(None),
        },
        Guide::AllSame(like) => {
            let known = known(db, on).await?;
            let unset = known.rigs.iter().filter(|rig| !is_set_up(progress, rig));
            let unset: Vec<i64> = unset.map(|rig| rig.id).collect();
            same(db, on, &unset, &like).await?
        }
        Guide::OneByOne(None) | Guide::Begin | Guide::BeginRig(_) | Guide::Pass(None) | Guide::Same { .. } => {
            return Ok(None);
        }
    }))
}

/// A command that was typed in between, and the open question again; or the
/// next one, if the command was its answer.
async fn after_a_command(
    db: &mut Db,
    on: &mut Request<'_>,
    answer: Answer,
    about: Option<Step>,
    mut progress: Progress,
    step: Step,
) -> Result<Answer, StoreError> {
    on.reload(db).await?;
    match about {
        Some(about) if about == step => {
            let mut answer = answer;
            if step == Step::Rigs {
                answer.and(waiting_reading(db, on).await?);
            }
            pass(db, on, &progress, step, answer).await
        }
        Some(about) => {
            progress.passed.push(about);
            if about == Step::Rigs {
                let mut answer = answer;
                answer.and(waiting_reading(db, on).await?);
                return stray(db, on, answer, progress, step).await;
            }
            stray(db, on, answer, progress, step).await
        }
        None => stray(db, on, answer, progress, step).await,
    }
}

/// A text of which nothing is understood, and the question again.
fn not_understood(on: &Request<'_>, text: &str, step: Step) -> Answer {
    let said: String = text.chars().take(40).collect();
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut answer = Answer::says(on.words.say("setup-not-understood", [("text", (&said).into())]));
    let roster = setup::Roster::read(text);
    if roster.rows.len() > 1 && roster.not_understood.is_empty() {
        let names: Vec<&str> = roster.rows.iter().map(|row| row.name.as_str()).collect();
        let names = names.join(", ");
        answer
            .parts
            .push(on.words.say("setup-more-rigs", [("names", (&names).into())]));
    }
    answer.and(question(on, step));
    answer
}

/// What is no answer: acted on as always, and the question again.
async fn between(
    db: &mut Db,
    on: &mut Request<'_>,
    understood: Understood,
    progress: Progress,
    step: Step,
) -> Result<Answer, StoreError> {
    let meaning = understood.meaning;
    let first_reading = step == Step::Reading && !meaning.readings.is_empty();
    let named = meaning.ask.as_ref().and_then(|ask| ask.typed_name.clone());
    let mut answer = record_meaning(db, on, meaning, understood.answers).await?;
    if first_reading {
        answer.and(question_with(on, step, "setup-reading-done"));
        return Ok(answer);
    }
    // The first reading of all may come before there is a rig.
    if !on.fleet.is_empty() {
        return stray(db, on, answer, progress, step).await;
    }
    if let Some(name) = named {
        let name = proper_name(&name).unwrap_or(name);
        let add = on.words.say("setup-add-rig", [("rig", (&name).into())]);
        answer.buttons = vec![Press {
            label: add,
            act: Act::Command(Command::AddRigs(vec![name])),
        }];
        return Ok(answer);
    }
    answer.question_id = None;
    stray(db, on, answer, progress, step).await
}
