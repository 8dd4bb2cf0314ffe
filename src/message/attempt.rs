//! What somebody seems to have tried whose message means nothing yet: the
//! nearest right example is chosen by it.

use super::command::Page;
use super::meaning::Scene;
use super::senses::Sense;
use super::tokens::Token;
use super::{number_words, phrases, rig_name, tokens};

/// Longer texts are talk.
const MOST_WORDS: usize = 8;

/// What a message seems to be about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Attempt {
    /// The rig that it names.
    pub rig: Option<i64>,
    /// What it is about, if that can be told.
    pub about: Option<Page>,
}

impl Attempt {
    /// The page of help for it, if it is more than talk.
    pub fn page(self) -> Option<Page> {
        self.about.or(self.rig.map(|_| Page::Reading))
    }
}

/// What a message that could not be understood was about.
pub fn of(text: &str, scene: &Scene) -> Attempt {
    if text.split_whitespace().count() > MOST_WORDS {
        return Attempt::default();
    }
    let Some(tokens) = tokens::cut(text) else {
        return Attempt::default();
    };
    let mut tokens = number_words::join(phrases::join(rig_name::find(tokens, &scene.fleet)));
    phrases::mend_slips(&mut tokens);
    let mut rigs = tokens
        .iter()
        .filter_map(Token::mention)
        .flat_map(|mention| &mention.rigs);
    let rig = rigs.next().copied().filter(|first| rigs.all(|other| other == first));
    let has = |senses: &[Sense]| tokens.iter().any(|token| token.has_any(senses));
    let about = if has(&[Sense::Flush, Sense::Flushed]) {
        Some(Page::Flush)
    } else if has(&[Sense::Prefilter]) {
        Some(Page::Prefilters)
    } else if has(&[Sense::Membrane, Sense::ORing]) {
        Some(Page::Membrane)
    } else if has(&[Sense::Resin, Sense::Repacked]) {
        Some(Page::Resin)
    } else if tokens
        .iter()
        .any(|token| token.number().is_some_and(|number| !number.in_words))
    {
        Some(Page::Reading)
    } else {
        None
    };
    Attempt { rig, about }
}
