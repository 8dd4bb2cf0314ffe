//! Facts into words. Pure; the texts stand in a folder a language, the
//! figures in [`figures`].

pub mod asking;
pub mod buying;
pub mod caution;
pub mod comparing;
pub mod digest;
pub mod figures;
pub mod glass;
pub mod help;
pub mod looking;
pub mod membrane;
pub mod money;
pub mod notes;
pub mod nudge;
pub mod outfit;
pub mod people;
pub mod pictures;
pub mod reading;
pub mod resin;
pub mod settings;
pub mod words;

pub use words::Words;

/// Names as people list them: `Heron, Mule and Otter`.
pub fn listed(words: Words, names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [all @ .., last] => {
            let all = all.join(", ");
            words.say("list-and", [("all", (&all).into()), ("last", (*last).into())])
        }
    }
}
