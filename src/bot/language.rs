//! The language of the answers: the platform's, until somebody chooses one.

use crate::replies::Words;
use crate::replies::words::LANGUAGES;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::request::Request;

/// What `language automatic` is read as.
const PLATFORM: &str = "platform";

/// Keeps the chosen language, and answers in it.
pub(super) async fn choose_language(db: &mut Db, on: &mut Request<'_>, typed: &str) -> Result<Answer, StoreError> {
    let chosen = LANGUAGES.iter().map(|(tag, _)| *tag).find(|tag| *tag == typed);
    if chosen.is_none() && typed != PLATFORM {
        return Ok(Answer::says(on.words.plain("language-unknown")));
    }
    store::people::choose_language(db, on.member.id, chosen).await?;
    let tag = chosen.map(str::to_owned).or(on.member.platform_language.clone());
    on.words = Words::of(tag.as_deref());
    on.member.language = tag;
    Ok(Answer::says(on.words.plain("language-set")))
}

/// Which language it is, and how to choose another.
pub(super) fn which_language(words: Words) -> Answer {
    Answer::says(words.plain("language-now"))
}
