//! Questions to one person, and presses of the buttons below them.

use crate::message::{self, Ask, Scene, When};
use crate::replies::asking::{self, Names, Reason};
use crate::store::questions::Question;
use crate::store::{self, StoreError};

use super::answer::{Answer, Press};
use super::envelope::Body;
use super::recording::Source;
use super::turn::{HOUR, QUESTION_LIVES, Turn, carry};

impl Turn<'_> {
    pub(super) async fn ask(&mut self, ask: Ask, scene: &Scene, source: Source) -> Result<Answer, StoreError> {
        let fleet: Vec<(i64, String)> = self.fleet.iter().map(|rig| (rig.id, rig.name.clone())).collect();
        let asked = ask.drafts.first().and_then(|draft| draft.rig);
        let usual = scene
            .fleet
            .iter()
            .find(|rig| Some(rig.id) == asked)
            .and_then(|rig| rig.usual_feed_ppm);
        let example = match asked {
            Some(rig) => format!("{} 180 12", self.rig_name(rig).to_lowercase()),
            None => self.example(),
        };
        let names = Names {
            fleet: &fleet,
            example: &example,
            usual_feed_ppm: usual,
            reason: match ask.drafts.first() {
                Some(draft) if draft.when == Some(When::Ahead) => Reason::Ahead,
                Some(draft) if !message::is_strange(draft, scene) => Reason::Unsure,
                _ => Reason::Strange,
            },
        };
        let mut answer = Answer::says(asking::question(self.words, &ask, &names));
        answer.buttons = ask
            .choices
            .iter()
            .map(|choice| Press {
                label: asking::label(self.words, choice.label, &names),
                says: choice.says.clone(),
            })
            .collect();
        let question = Question {
            id: 0,
            ask,
            source_key: source.key,
            taken_at: source.sent_at,
        };
        // A name typed hours later answers no question of whose resin it was.
        let lives = if question.ask.service.is_some() {
            HOUR
        } else {
            QUESTION_LIVES
        };
        let (chat, until) = (&self.incoming.chat.address, self.now + lives);
        answer.question_id =
            Some(store::questions::open(self.db, chat, self.member.id, &question, until, self.now).await?);
        Ok(answer)
    }

    /// A press says its button's text, for whoever may press it.
    pub(super) async fn pressed(&mut self, token: &str, press: &str) -> Result<Answer, StoreError> {
        let found = store::questions::button(self.db, token, self.now).await?;
        let refusal = match &found {
            None => Some("press-closed"),
            Some(button) if button.outfit_id != self.outfit.id => Some("press-not-yours"),
            Some(button) if button.person_id.is_some_and(|person| person != self.member.id) => Some("press-not-yours"),
            Some(_) => None,
        };
        let body = Body::Acknowledge {
            press: press.to_owned(),
            text: refusal.map(|key| self.words.plain(key)),
        };
        let acknowledged = carry(self.incoming.chat.address.clone(), body);
        let mut answer = match (refusal, found) {
            (None, Some(button)) => self.read(&button.says).await?,
            _ => Answer::silence(),
        };
        answer.to_others.insert(0, acknowledged);
        Ok(answer)
    }
}
