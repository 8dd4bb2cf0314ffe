//! What comes in and what goes out. Transports translate the outside world to and
//! from these types and know nothing else of the bot.

mod pieces;

use std::sync::Arc;

use serde::{Deserialize, Serialize};

pub use pieces::{MOST_CAPTION_UNITS, MOST_PICTURES, MOST_TEXT_UNITS, fitting, units};

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

/// The chat that an address belongs to: a group's without its topic.
pub fn chat_of(address: &str) -> &str {
    match address.split_once('/') {
        Some((chat, _topic)) if is_group(address) => chat,
        _ => address,
    }
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
    /// Sent a file.
    Document {
        /// What the platform fetches it by.
        remote: Box<str>,
        /// How large the platform says that it is, if it does.
        size_bytes: Option<u32>,
        /// What is in it, once a transport has fetched it.
        bytes: Option<Box<[u8]>>,
    },
    /// Put another reaction under a message.
    Reaction {
        /// The key of that message.
        on: String,
        /// Whether it is a thumbs-up that was not there before.
        thumbs_up: bool,
    },
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

/// A message that the bot wants sent. However long it is: queueing cuts it
/// into pieces that a platform takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Outgoing {
    /// Where to.
    pub chat: String,
    /// What.
    pub body: Body,
    /// The message that it answers, so that a reply to it finds the reading.
    pub source_key: Option<String>,
    /// How it goes.
    pub handling: Handling,
}

/// How a message goes, whatever it carries.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Handling {
    /// Without a sound: for what nobody asked for, in the outfit's quiet hours.
    pub silent: bool,
    /// Neither forwarded nor saved: for the owner's money and people.
    pub protected: bool,
    /// Behind all answers: for what nobody asked for.
    pub unasked: bool,
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
    /// How it goes.
    pub handling: Handling,
    /// The pictures or the file of the body, in order, once they were loaded. What is gone from the store is left
    /// out; the words go all the same.
    pub files: Vec<File>,
    /// How often it was tried, this time included.
    pub tries: i64,
}

/// How a delivery ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sent {
    /// It is there; the platform's key for it, if it has one.
    Delivered(Option<String>),
    /// It did not work, and nobody knows why: not again before this many seconds have passed.
    NotBefore(i64),
    /// The platform asks for a pause of so many seconds: of the chat, or of everybody.
    TooFast {
        /// Seconds.
        wait_s: i64,
        /// It was not said of a chat.
        everywhere: bool,
    },
    /// The chat shut the bot out.
    Blocked,
    /// The group has a new address; send it there.
    Moved(String),
    /// It can never be delivered.
    Refused(String),
}

/// A file, with what is in it.
#[derive(Clone, PartialEq, Eq)]
pub struct File {
    /// Its name, with the ending that tells its kind.
    pub name: String,
    /// What is in it.
    pub bytes: Arc<Vec<u8>>,
}

impl std::fmt::Debug for File {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{} ({} bytes)", self.name, self.bytes.len())
    }
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
    /// Pictures, shown together, with words below them.
    Pictures {
        /// PNG, at most 10 MB each.
        pictures: Vec<Attachment>,
        /// Plain text; empty for none.
        caption: String,
        /// The message to answer under, in a group.
        reply_to: Option<String>,
    },
    /// Pictures that are drawn on their way out, shown together, with words
    /// below them. So a thousand digests of one minute cost no drawing in it.
    Drawings {
        /// At most ten.
        drawings: Vec<Drawing>,
        /// Plain text of at most a caption's length; empty for none.
        caption: String,
        /// The message to answer under, in a group.
        reply_to: Option<String>,
    },
    /// A file to keep, with words below it.
    Document {
        /// At most 50 MB.
        file: Attachment,
        /// Plain text; empty for none.
        caption: String,
        /// The message to answer under, in a group.
        reply_to: Option<String>,
    },
    /// A file of an outfit's export, which is made on its way out: two hundred exports of one minute hold nobody up.
    Export {
        /// The file's name, such as `readings.csv`.
        name: String,
        /// What is in it.
        of: Exported,
        /// Whose it is.
        outfit_id: i64,
        /// When it was asked for, UTC seconds.
        as_of: i64,
        /// Language tag.
        language: Option<String>,
    },
    /// The answer to a press, shown for a moment.
    Acknowledge {
        /// Which press.
        press: String,
        /// What to show, if anything.
        text: Option<String>,
    },
}

/// A file that a message carries; its bytes are kept apart from the message.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Attachment {
    /// Its name, with the ending that tells its kind, such as `heron-history.png`.
    pub name: String,
    /// The number under which the store keeps its bytes.
    pub blob: i64,
}

impl Body {
    /// The pictures or the file that it carries.
    pub fn attachments(&self) -> &[Attachment] {
        match self {
            Self::Pictures { pictures, .. } => pictures,
            Self::Document { file, .. } => std::slice::from_ref(file),
            Self::Say { .. } | Self::Drawings { .. } | Self::Export { .. } | Self::Acknowledge { .. } => &[],
        }
    }

    /// Whether delivering it takes an upload.
    pub fn is_uploaded(&self) -> bool {
        matches!(
            self,
            Self::Pictures { .. } | Self::Drawings { .. } | Self::Document { .. } | Self::Export { .. }
        )
    }
}

/// A file of an export.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Exported {
    /// All sheets, and what their columns mean.
    Workbook,
    /// The readings, to be read in again.
    Readings,
    /// The services, to be read in again.
    Services,
    /// The rigs, to be read in again.
    Rigs,
    /// The settings as they are typed.
    Settings,
}

/// A picture that is still to be drawn, from what was known at an instant.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Drawing {
    /// The file's name, such as `heron-history.png`.
    pub name: String,
    /// What it shows.
    pub of: Drawn,
    /// Whose it is.
    pub outfit_id: i64,
    /// UTC seconds.
    pub as_of: i64,
    /// Language tag.
    pub language: Option<String>,
}

/// What a drawing shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Drawn {
    /// The fleet, most urgent first: this page, from 0.
    Fleet(usize),
    /// A rig's history, by the rig's number.
    History(i64),
    /// A rig's resin.
    Resin(i64),
    /// A rig's money over time.
    Money(i64),
    /// What the fleet will probably buy in a year.
    YearAhead,
}

/// A button.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Button {
    /// What it shows.
    pub label: String,
    /// What comes back when it is pressed.
    pub token: String,
}

/// The commands that a platform offers for tapping.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Menu {
    /// Who sees it.
    pub place: MenuPlace,
    /// In order; none takes the menu away, so that the next wider one shows.
    pub entries: Vec<MenuEntry>,
}

/// Who sees a menu.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MenuPlace {
    /// Whoever has the platform in this language; in any, if none is given.
    Everybody(Option<String>),
    /// Whoever is in this chat.
    Chat(String),
}

/// One command.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MenuEntry {
    /// Small letters, without a slash.
    pub command: String,
    /// What it does, in a few words.
    pub description: String,
}
