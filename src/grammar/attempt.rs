//! What somebody seems to have tried whose message means nothing yet: the nearest right example is chosen by it.

use super::{Scene, item, names_of, number, role};
use crate::language::lexer::{self, Form};
use crate::language::lexicon::LEXICON;
use crate::language::names::Hit;
use crate::language::senses::{Sense, Senses};

/// Longer texts are talk.
const MOST_WORDS: usize = 8;

/// What a message that could not be understood was about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tried {
    /// A flush.
    Flush,
    /// Prefilters.
    Prefilters,
    /// The membrane.
    Membrane,
    /// The resin.
    Resin,
    /// A reading.
    Reading,
}

/// What a message seems to be about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Attempt {
    /// The rig that it names.
    pub rig: Option<i64>,
    /// What it is about, if that can be told.
    pub about: Option<Tried>,
}

impl Attempt {
    /// What to give an example of, if it is more than talk.
    pub fn tried(self) -> Option<Tried> {
        self.about.or(self.rig.map(|_| Tried::Reading))
    }
}

/// What a message that could not be understood was about.
pub fn of(text: &str, scene: &Scene) -> Attempt {
    if text.split_whitespace().take(MOST_WORDS + 1).count() > MOST_WORDS {
        return Attempt::default();
    }
    let tokens = lexer::lex(text).tokens;
    let ids = LEXICON.words_of(&tokens);
    let items = item::items(&tokens, &ids, &names_of(scene));
    let roles = number::roles(&items, scene);
    let one = |item: &item::Item| match &item.rig {
        Some(Hit::One(at)) => scene.fleet.get(*at).map(|rig| rig.id),
        _ => None,
    };
    let mut rigs = items.iter().filter_map(one);
    let rig = rigs.next().filter(|first| rigs.all(|other| other == *first));
    let has = |senses: Senses| items.iter().any(|item| item.is_word() && item.any(senses));
    let value =
        |(item, role): (&item::Item, &role::Role)| role.is_free() && !matches!(item.num, Some((_, Form::Words)));
    let about = if has(Senses::of([Sense::flush, Sense::flushed])) {
        Some(Tried::Flush)
    } else if has(Senses::of([Sense::prefilter])) {
        Some(Tried::Prefilters)
    } else if has(Senses::of([Sense::membrane, Sense::oring])) {
        Some(Tried::Membrane)
    } else if has(Senses::of([Sense::resin, Sense::repack])) {
        Some(Tried::Resin)
    } else if items.iter().zip(&roles).any(value) {
        Some(Tried::Reading)
    } else {
        None
    };
    Attempt { rig, about }
}
