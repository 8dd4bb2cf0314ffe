//! What one message is answered with, before it is queued.

use crate::bot::envelope::Outgoing;

/// A button before it has a token.
#[derive(Clone, Debug, PartialEq)]
pub struct Press {
    /// What it shows.
    pub label: String,
    /// The text that does the same.
    pub says: String,
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
    }
}
