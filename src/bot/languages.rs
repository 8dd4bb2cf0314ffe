//! The language of the answers: the platform's, until somebody chooses one.

use crate::replies::Words;
use crate::replies::words::LANGUAGES;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::turn::Turn;

/// What `language automatic` is read as.
const PLATFORM: &str = "platform";

impl Turn<'_> {
    /// Keeps the chosen language, and answers in it.
    pub(super) async fn choose_language(&mut self, typed: &str) -> Result<Answer, StoreError> {
        let chosen = LANGUAGES.iter().map(|(tag, _)| *tag).find(|tag| *tag == typed);
        if chosen.is_none() && typed != PLATFORM {
            return Ok(Answer::says(self.words.plain("language-unknown")));
        }
        store::people::choose_language(self.db, self.member.id, chosen).await?;
        let tag = chosen.map(str::to_owned).or(self.member.platform_language.clone());
        self.words = Words::of(tag.as_deref());
        self.member.language = tag;
        Ok(Answer::says(self.words.plain("language-set")))
    }

    /// Which language it is, and how to choose another.
    pub(super) fn which_language(&self) -> Answer {
        Answer::says(self.words.plain("language-now"))
    }
}
