//! Reactions: a thumbs-up on a flush reminder says that it is done. Any other
//! reaction, and a thumbs-up on anything else, is just that.

use crate::store::{self, StoreError};

use super::answer::Answer;
use super::turn::Turn;

impl Turn<'_> {
    /// Somebody put a reaction under the message with this key.
    pub async fn reacted(&mut self, on: &str, thumbs_up: bool) -> Result<Answer, StoreError> {
        if !thumbs_up {
            return Ok(Answer::silence());
        }
        let Some(token) = store::sends::first_button(self.db, on).await? else {
            return Ok(Answer::silence());
        };
        let Some(button) = store::questions::button(self.db, &token, self.now).await? else {
            return Ok(Answer::silence());
        };
        let theirs =
            button.outfit_id == self.outfit.id && button.person_id.is_none_or(|person| person == self.member.id);
        // A question has several answers, and a thumb does not say which.
        if !theirs || button.question_id.is_some() || !button.says.ends_with("flushed") {
            return Ok(Answer::silence());
        }
        self.read(&button.says).await
    }
}
