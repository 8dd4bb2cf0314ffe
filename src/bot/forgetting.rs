//! `forget me`: whoever wants out is taken out for good.

use crate::store::{self, StoreError};

use super::answer::{Answer, Press};
use super::turn::Turn;

impl Turn<'_> {
    pub(super) async fn forget_me(&mut self, sure: bool) -> Result<Answer, StoreError> {
        if self.is_last_owner(&self.member.clone()).await? {
            return Ok(Answer::says(self.words.plain("forget-last-owner")));
        }
        if !sure {
            let mut answer = Answer::says(self.words.plain("forget-sure"));
            answer.buttons.push(Press {
                label: self.words.plain("forget-button"),
                says: "forget me, yes".to_owned(),
            });
            return Ok(answer);
        }
        self.note("forgotten", "").await?;
        store::forgetting::person(self.db, self.member.id).await?;
        Ok(Answer::says(self.words.plain("forgotten")))
    }
}
