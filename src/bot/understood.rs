//! What a text or a pressed choice means, beside the question that may be open.

use crate::grammar::{self, Label, Meaning, Scene};
use crate::store::questions::Question;

use super::act::Act;
use super::request::Request;
use super::scene::{open_question, scene};

/// What was understood of a message.
pub(super) struct Understood {
    pub meaning: Meaning,
    /// It is the answer to the open question, and does not stand alone.
    pub answers: bool,
}

impl Understood {
    /// It as an act.
    pub fn act(self) -> Act {
        match self.answers {
            true => Act::Answer(self.meaning),
            false => Act::Meaning(self.meaning),
        }
    }
}

/// The message that a reading belongs to, and when it was sent.
#[derive(Clone, Debug)]
pub(super) struct Source {
    pub key: String,
    pub sent_at: i64,
}

impl Source {
    /// The message that is answered now.
    pub fn own(on: &Request<'_>) -> Self {
        Self {
            key: on.incoming.key.clone(),
            sent_at: on.sent_at(),
        }
    }

    /// The message that raised a question.
    pub fn of(question: &Question) -> Self {
        Self {
            key: question.source_key.clone(),
            sent_at: question.taken_at,
        }
    }
}
/// What a text means here; empty if it means nothing.
pub(super) fn understand(on: &Request<'_>, text: &str) -> Understood {
    let scene = scene(on, open_question(on).as_ref());
    let meaning = grammar::read(text, &scene);
    Understood {
        answers: scene.open.is_some() && !stands_alone(text, scene),
        meaning,
    }
}

/// What a choice means as the answer to the open question; none if none is open.
pub(super) fn chosen(on: &Request<'_>, label: Label) -> Option<Understood> {
    let open = open_question(on)?;
    let scene = scene(on, Some(&open));
    Some(Understood {
        meaning: grammar::choose(label, &open.ask, &scene),
        answers: true,
    })
}

/// Whether a text says something that needs no question.
fn stands_alone(text: &str, scene: Scene) -> bool {
    let alone = grammar::read(text, &Scene { open: None, ..scene });
    !alone.readings.is_empty() || !alone.services.is_empty()
}
