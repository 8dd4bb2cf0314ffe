//! What one message is answered with, before it is queued.

use crate::domain::envelope::Outgoing;
use crate::replies::caution::Occasion;

use super::act::Act;
use super::request::HOUR;

/// How long a question waits for its answer, and its buttons with it.
pub(super) const QUESTION_LIVES: i64 = 12 * HOUR;

/// A button before it has a token.
#[derive(Clone, Debug, PartialEq)]
pub struct Press {
    /// What it shows.
    pub label: String,
    /// What it does.
    pub act: Act,
}

/// An answer in the making.
#[derive(Debug, Default)]
pub struct Answer {
    /// Paragraphs, in order.
    pub parts: Vec<String>,
    /// At most three buttons.
    pub buttons: Vec<Press>,
    /// The question that the buttons answer.
    pub question_id: Option<i64>,
    /// Messages to others.
    pub to_others: Vec<Outgoing>,
    /// What it is about, for the cautions behind it.
    pub occasions: Vec<Occasion>,
}

impl Answer {
    /// An answer of one paragraph.
    pub fn says(part: String) -> Self {
        Self {
            parts: vec![part],
            ..Self::default()
        }
    }

    /// No answer.
    pub fn silence() -> Self {
        Self::default()
    }

    /// Puts another answer's words behind this one's.
    pub fn and(&mut self, other: Self) {
        self.parts.extend(other.parts);
        self.buttons.extend(other.buttons);
        self.question_id = self.question_id.or(other.question_id);
        self.to_others.extend(other.to_others);
        self.occasions.extend(other.occasions);
    }
}
