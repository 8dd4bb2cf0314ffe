//! What crosses the bot's two doors. Transports translate the outside world
//! to and from these types and know nothing else of the bot.

use serde::{Deserialize, Serialize};

/// Something that a transport brought.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Arrived {
    /// Something somebody did.
    Incoming(Incoming),
    /// Something that could not be read; kept as it came.
    Unreadable {
        /// Unique for the event.
        key: String,
        /// As it came.
        payload: String,
    },
}

/// Something somebody did in a chat.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Incoming {
    /// Unique for the event; for a message the same over all its edits.
    pub key: String,
    /// Grows with each edit of a message; 0 for the original.
    pub version: i64,
    /// Where.
    pub chat: Chat,
    /// Who.
    pub person: Person,
    /// When, UTC seconds.
    pub sent_at: i64,
    /// What.
    pub what: Happening,
    /// The key of the message that this one replies to.
    pub reply_to: Option<String>,
}

/// A chat's address and kind.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Chat {
    /// The platform's address, written for [`is_group`].
    pub address: String,
    /// Several people.
    pub group: bool,
}

/// Whether an address is a group's. Groups are written with a leading `#`.
pub fn is_group(address: &str) -> bool {
    address.starts_with('#')
}

/// All that is kept of a person.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Person {
    /// The platform's id.
    pub address: String,
    /// Their private chat with the bot.
    pub private_chat: String,
    /// First name.
    pub first_name: String,
    /// Language tag, such as `en`.
    pub language: Option<String>,
}

/// What somebody did.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Happening {
    /// Wrote a text, or a caption under a picture.
    Text(String),
    /// Pressed a button.
    Press {
        /// The button's token.
        token: String,
        /// What the platform wants acknowledged.
        press: String,
    },
    /// Sent a picture without a caption.
    Picture,
    /// Sent a voice note.
    Voice,
    /// Shut the bot out of the chat.
    ShutOut,
    /// Let the bot in again.
    LetIn,
    /// The group got a new address.
    Moved {
        /// The new address.
        to: String,
    },
}

/// A message that the bot wants sent.
#[derive(Clone, Debug, PartialEq)]
pub struct Outgoing {
    /// Where to.
    pub chat: String,
    /// What.
    pub body: Body,
    /// The message that it answers, so that a reply to it finds the reading.
    pub source_key: Option<String>,
}

/// A message on its way out.
#[derive(Clone, Debug, PartialEq)]
pub struct Send {
    /// Its number.
    pub id: i64,
    /// Where to.
    pub chat: String,
    /// What.
    pub body: Body,
    /// Which try this is, from 1.
    pub tries: i64,
}

/// What a message carries.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Body {
    /// Words, with at most three buttons below them.
    Say {
        /// Plain text; the first line is the verdict.
        text: String,
        /// One a row.
        buttons: Vec<Button>,
        /// The message to answer under, in a group.
        reply_to: Option<String>,
    },
    /// The answer to a press, shown for a moment.
    Acknowledge {
        /// Which press.
        press: String,
        /// What to show, if anything.
        text: Option<String>,
    },
}

impl Body {
    /// Whether the platform counts this towards its limits.
    pub fn counts_against_limits(&self) -> bool {
        matches!(self, Self::Say { .. })
    }
}

/// A button.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Button {
    /// What it shows.
    pub label: String,
    /// What comes back when it is pressed.
    pub token: String,
}
