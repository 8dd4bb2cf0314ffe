//! An answer on its way: its messages, cautions and buttons.

use crate::domain::envelope::{Body, Button, Handling, Outgoing};
use crate::store::questions::Button as StoredButton;
use crate::store::{self, Db, StoreError};

use super::answer::{Answer, QUESTION_LIVES};
use super::effects::Effects;
use super::request::Request;
use super::{Bot, cautions};

/// Queues an answer among the effects: to others first, then here, with its buttons.
///
/// # Errors
/// When the system has no random numbers.
pub(super) fn queue(on: &mut Request<'_>, effects: &mut Effects, mut answer: Answer) -> Result<(), StoreError> {
    effects.sends.append(&mut answer.to_others);
    if answer.parts.is_empty() {
        return Ok(());
    }
    let cautions = cautions::lines_from_memory(on, effects, &answer.occasions);
    if !cautions.is_empty() {
        answer.parts.push(cautions.join("\n"));
    }
    let mut buttons = Vec::new();
    for press in answer.buttons.into_iter().take(3) {
        let stored = StoredButton {
            outfit_id: on.outfit.id,
            question_id: answer.question_id,
            person_id: Some(on.member.id),
            says: press.act.kept(),
            expires_at: on.now + QUESTION_LIVES,
        };
        let token = on.bot.token()?;
        effects.button(token.clone(), stored);
        buttons.push(Button {
            label: press.label,
            token,
        });
    }
    let reply_to = on.incoming.chat.group.then(|| on.incoming.key.clone());
    let body = Body::Say {
        text: answer.parts.join("\n\n"),
        buttons,
        reply_to,
    };
    effects.sends.push(Outgoing {
        chat: on.incoming.chat.address.clone(),
        body,
        source_key: Some(on.incoming.key.clone()),
        handling: Handling::default(),
    });
    Ok(())
}

/// Queues an answer behind others, with what its buttons and cautions need in the database.
///
/// # Errors
/// Whatever the database says, or when the system has no random numbers.
pub(super) async fn queue_now(
    db: &mut Db,
    on: &mut Request<'_>,
    answer: Answer,
    queued: &mut Vec<Outgoing>,
) -> Result<(), StoreError> {
    let mut effects = Effects::default();
    queue(on, &mut effects, answer)?;
    effects.write(db, on.now).await?;
    queued.append(&mut effects.sends);
    Ok(())
}

impl Bot {
    fn token(&self) -> Result<String, StoreError> {
        self.settings.tokens.draw().map_err(|why| StoreError::Stored {
            what: "token",
            why: why.to_string(),
        })
    }

    /// A button under a fresh token.
    ///
    /// # Errors
    /// Whatever the database says, or when the system has no random numbers.
    pub(super) async fn button(&self, db: &mut Db, label: String, stored: &StoredButton) -> Result<Button, StoreError> {
        let token = self.token()?;
        store::questions::keep_button(db, &token, stored).await?;
        Ok(Button { label, token })
    }
}
