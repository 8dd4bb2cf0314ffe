//! Questions to one person.

use crate::grammar::{self, Ask, Choice, When};
use crate::replies::asking::{self, Names, Reason};
use crate::store::questions::Question;
use crate::store::{self, Db, StoreError};

use super::act::Act;
use super::answer::{Answer, Press, QUESTION_LIVES};
use super::effects::{Asked, Effects};
use super::examples::example;
use super::request::{HOUR, Request};
use super::scene::{remember_question, scene};
use super::understood::Source;

/// A question that is due, with its words.
pub(super) struct DueQuestion {
    ask: Ask,
    answer: Answer,
}

impl DueQuestion {
    /// The words and buttons of a question, by what its rigs have shown so far.
    pub fn of(on: &Request<'_>, ask: Ask) -> Self {
        let scene = scene(on, None);
        let fleet: Vec<(i64, String)> = on.fleet.iter().map(|rig| (rig.id, rig.name.clone())).collect();
        let asked = ask.drafts.first().and_then(|draft| draft.rig);
        let example = match asked {
            Some(rig) => format!("{} 180 12", on.rig_name(rig).to_lowercase()),
            None => example(on),
        };
        let known = scene.fleet.iter().find(|rig| Some(rig.id) == asked);
        let names = Names {
            fleet: &fleet,
            example: &example,
            usual_feed_ppm: known.and_then(|rig| rig.usual_feed_ppm),
            di_only: known.is_some_and(|rig| rig.di_only),
            reason: match ask.drafts.first() {
                Some(draft) if draft.when == Some(When::Ahead) => Reason::Ahead,
                Some(draft) if !grammar::is_strange(draft, &scene) => Reason::Unsure,
                _ => Reason::Strange,
            },
        };
        let mut answer = Answer::says(asking::question(on.words, &ask, &names));
        let press = |choice: &Choice| Press {
            label: asking::label(on.words, choice.label, &names),
            act: Act::Choose(choice.label),
        };
        answer.buttons = ask.choices.iter().map(press).collect();
        Self { ask, answer }
    }

    /// Asks it, about the message that raised it.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn ask(mut self, db: &mut Db, on: &mut Request<'_>, source: Source) -> Result<Answer, StoreError> {
        let (mut question, until) = asked(on, self.ask, source);
        question.id =
            store::questions::open(db, &on.incoming.chat.address, on.member.id, &question, until, on.now).await?;
        self.answer.question_id = Some(question.id);
        remember_question(on, question, until);
        Ok(self.answer)
    }

    /// The same from memory; what was open here is closed already.
    pub fn ask_from_memory(mut self, on: &mut Request<'_>, effects: &mut Effects, source: Source) -> Answer {
        let (mut question, until) = asked(on, self.ask, source);
        question.id = effects.ask(Asked {
            chat: on.incoming.chat.address.clone(),
            person_id: on.member.id,
            question: question.clone(),
            expires_at: until,
            is_closed: false,
        });
        self.answer.question_id = Some(question.id);
        remember_question(on, question, until);
        self.answer
    }
}

/// A question as it waits, and until when.
fn asked(on: &Request<'_>, ask: Ask, source: Source) -> (Question, i64) {
    // A name typed hours later answers no question of whose resin it was.
    let lives = if ask.service.is_some() { HOUR } else { QUESTION_LIVES };
    let question = Question {
        id: 0,
        ask,
        source_key: source.key,
        taken_at: source.sent_at,
    };
    (question, on.now + lives)
}
