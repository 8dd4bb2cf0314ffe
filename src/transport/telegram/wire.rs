//! One raw update into what the bot hears. Pure, and never fails: what the
//! bot has no use for is nothing, what cannot be read is kept as it came.
//!
//! The shapes below name only what is used, so a new field or a new kind of
//! entity, picture or sticker cannot break the reading of a text.

use chrono::{DateTime, Utc};
use serde::Deserialize;
use serde_json::Value;
use sha2::{Digest, Sha256};

use crate::domain::envelope::{Arrived, Chat, Happening, Incoming, Person};
use crate::domain::name;

use super::address;
use super::updates::update_id;

/// Reads an update that came at `now` (UTC seconds).
pub fn read(raw: &Value, now: i64) -> Option<Arrived> {
    let Some(id) = update_id(raw) else {
        return Some(unreadable(raw, None));
    };
    match Update::deserialize(raw) {
        Ok(update) => update.happening(id, now).map(|mut incoming| {
            // A date that cannot be is none.
            if incoming.sent_at <= 0 {
                incoming.sent_at = now;
            }
            Arrived::Incoming(incoming)
        }),
        Err(_) => Some(unreadable(raw, Some(id))),
    }
}

fn unreadable(raw: &Value, id: Option<i64>) -> Arrived {
    let payload = raw.to_string();
    let name = match id {
        Some(id) => id.to_string(),
        // 64 bits tell the few that have no id apart.
        None => Sha256::digest(payload.as_bytes())
            .iter()
            .take(8)
            .map(|byte| format!("{byte:02x}"))
            .collect(),
    };
    Arrived::Unreadable {
        key: format!("tg:update:{name}"),
        payload,
    }
}

#[derive(Deserialize)]
struct Update {
    message: Option<Message>,
    edited_message: Option<Message>,
    callback_query: Option<CallbackQuery>,
    my_chat_member: Option<MemberChange>,
    message_reaction: Option<ReactionChange>,
}

#[derive(Deserialize)]
struct Message {
    message_id: i64,
    #[serde(with = "chrono::serde::ts_seconds")]
    date: DateTime<Utc>,
    #[serde(default, with = "chrono::serde::ts_seconds_option")]
    edit_date: Option<DateTime<Utc>>,
    chat: WireChat,
    from: Option<User>,
    /// Who wrote it first, where it was passed on.
    forward_origin: Option<Origin>,
    /// Set when another bot wrote it for somebody.
    via_bot: Option<Value>,
    /// Set when a group or channel speaks, not a person.
    sender_chat: Option<Value>,
    #[serde(default)]
    is_topic_message: bool,
    message_thread_id: Option<i64>,
    reply_to_message: Option<Mentioned>,
    text: Option<String>,
    caption: Option<String>,
    photo: Option<Value>,
    voice: Option<Value>,
    document: Option<Document>,
    migrate_to_chat_id: Option<i64>,
    migrate_from_chat_id: Option<i64>,
}

/// Where a message that was passed on comes from.
#[derive(Deserialize)]
struct Origin {
    date: i64,
    sender_user: Option<User>,
}

#[derive(Deserialize)]
struct Document {
    file_id: String,
    #[serde(default)]
    file_name: String,
    #[serde(default)]
    mime_type: String,
    file_size: Option<i64>,
}

#[derive(Deserialize)]
struct Mentioned {
    message_id: i64,
}

#[derive(Deserialize)]
struct WireChat {
    id: i64,
    #[serde(rename = "type")]
    kind: String,
}

#[derive(Deserialize)]
struct User {
    id: i64,
    #[serde(default)]
    is_bot: bool,
    #[serde(default)]
    first_name: String,
    language_code: Option<String>,
}

#[derive(Deserialize)]
struct CallbackQuery {
    id: String,
    from: User,
    message: Option<PressedMessage>,
    data: Option<String>,
}

/// The message with the button; all but its chat may be out of reach.
#[derive(Deserialize)]
struct PressedMessage {
    chat: WireChat,
    #[serde(default)]
    is_topic_message: bool,
    message_thread_id: Option<i64>,
}

#[derive(Deserialize)]
struct MemberChange {
    chat: WireChat,
    from: User,
    #[serde(with = "chrono::serde::ts_seconds")]
    date: DateTime<Utc>,
    new_chat_member: Membership,
}

#[derive(Deserialize)]
struct Membership {
    status: String,
    is_member: Option<bool>,
}

/// Who put which reactions under a message; told in groups only to a bot that
/// is an administrator there.
#[derive(Deserialize)]
struct ReactionChange {
    chat: WireChat,
    message_id: i64,
    /// Missing when a group or channel reacts.
    user: Option<User>,
    #[serde(with = "chrono::serde::ts_seconds")]
    date: DateTime<Utc>,
    #[serde(default)]
    old_reaction: Vec<Reaction>,
    #[serde(default)]
    new_reaction: Vec<Reaction>,
}

#[derive(Deserialize)]
struct Reaction {
    /// Missing for a custom one.
    emoji: Option<String>,
}

impl Update {
    fn happening(self, id: i64, now: i64) -> Option<Incoming> {
        if let Some(message) = self.message {
            return message.happening(0);
        }
        if let Some(message) = self.edited_message {
            let version = message.edit_version(id);
            return message.happening(version);
        }
        if let Some(query) = self.callback_query {
            return query.happening(now);
        }
        if let Some(change) = self.message_reaction {
            return change.happening(id);
        }
        self.my_chat_member?.happening(id)
    }
}

impl Message {
    /// Edits made out of coverage arrive with one date: the update's id,
    /// which counts up, tells them apart.
    fn edit_version(&self, update_id: i64) -> i64 {
        let edited_at = self.edit_date.unwrap_or(self.date).timestamp().clamp(0, 1 << 40);
        (edited_at << 20) | (update_id & 0xf_ffff)
    }

    fn happening(self, version: i64) -> Option<Incoming> {
        let topic = self.message_thread_id.filter(|_| self.is_topic_message);
        let key = address::of_message(self.chat.id, self.message_id);
        // What was passed on counts from when it was written first.
        let written_at = self.forward_origin.as_ref().map(|origin| origin.date);
        let sent_at = written_at.unwrap_or(i64::MAX).min(self.date.timestamp());
        if let Some((from, to)) = self.moved() {
            // The platform itself may be named as the sender of this one.
            let person = self.from.unwrap_or_else(|| User::unnamed(self.chat.id)).person();
            let chat = Chat {
                address: address::of_group(from, None),
                group: true,
            };
            let what = Happening::Moved {
                to: address::of_group(to, None),
            };
            return Some(Incoming {
                key,
                version,
                chat,
                person,
                sent_at,
                what,
                reply_to: None,
            });
        }
        // What a bot wrote is no reading of anybody's, this bot's own answers least of all.
        let first = self.forward_origin.and_then(|origin| origin.sender_user);
        if self.via_bot.is_some() || first.is_some_and(|user| user.is_bot) {
            return None;
        }
        let person = self
            .from
            .filter(|user| !user.is_bot && self.sender_chat.is_none())?
            .person();
        let words = self.text.or(self.caption);
        let what = match (self.document, words, self.photo, self.voice) {
            // Words under a sheet are a remark about it.
            (Some(document), words, ..) if words.is_none() || document.is_sheet() => document.happening(),
            (_, Some(text), ..) => Happening::Text(clean(text)),
            (_, None, Some(_), _) => Happening::Picture,
            (_, None, None, Some(_)) => Happening::Voice,
            (_, None, None, None) => return None,
        };
        // In a topic, what replies to nothing is said to reply to the topic.
        let replied = self
            .reply_to_message
            .filter(|replied| Some(replied.message_id) != topic);
        let reply_to = replied.map(|replied| address::of_message(self.chat.id, replied.message_id));
        let chat = self.chat.chat(topic)?;
        Some(Incoming {
            key,
            version,
            chat,
            person,
            sent_at,
            what,
            reply_to,
        })
    }

    /// From where to where a group moved. It is told twice, once in each.
    fn moved(&self) -> Option<(i64, i64)> {
        match (self.migrate_to_chat_id, self.migrate_from_chat_id) {
            (Some(to), _) => Some((self.chat.id, to)),
            (None, Some(from)) => Some((from, self.chat.id)),
            (None, None) => None,
        }
    }
}

impl Document {
    fn is_sheet(&self) -> bool {
        let name = self.file_name.to_lowercase();
        self.mime_type.starts_with("text/") || [".csv", ".tsv", ".txt"].iter().any(|end| name.ends_with(end))
    }

    fn happening(self) -> Happening {
        Happening::Document {
            size_bytes: self
                .file_size
                .filter(|_| self.is_sheet())
                .and_then(|size| size.try_into().ok()),
            remote: clean(self.file_id).into(),
            bytes: None,
        }
    }
}

impl CallbackQuery {
    fn happening(self, now: i64) -> Option<Incoming> {
        let person = self.from.person();
        let chat = match self.message {
            Some(message) => {
                let topic = message.message_thread_id.filter(|_| message.is_topic_message);
                message.chat.chat(topic)?
            }
            None => Chat {
                address: person.private_chat.clone(),
                group: false,
            },
        };
        let press = clean(self.id);
        Some(Incoming {
            key: format!("tg:press:{press}"),
            version: 0,
            chat,
            person,
            // A press carries no time of its own.
            sent_at: now,
            what: Happening::Press {
                token: clean(self.data?),
                press,
            },
            reply_to: None,
        })
    }
}

impl MemberChange {
    fn happening(self, id: i64) -> Option<Incoming> {
        let what = match (self.new_chat_member.status.as_str(), self.new_chat_member.is_member) {
            ("kicked" | "left", _) | ("restricted", Some(false)) => Happening::ShutOut,
            ("member" | "administrator" | "creator" | "restricted", _) => Happening::LetIn,
            _ => return None,
        };
        Some(Incoming {
            key: format!("tg:member:{id}"),
            version: 0,
            chat: self.chat.chat(None)?,
            person: self.from.person(),
            sent_at: self.date.timestamp(),
            what,
            reply_to: None,
        })
    }
}

impl ReactionChange {
    fn happening(self, id: i64) -> Option<Incoming> {
        let thumb = |reactions: &[Reaction]| {
            let shown = |reaction: &Reaction| {
                reaction
                    .emoji
                    .as_deref()
                    .is_some_and(|shown| shown.starts_with('\u{1f44d}'))
            };
            reactions.iter().any(shown)
        };
        let what = Happening::Reaction {
            on: address::of_message(self.chat.id, self.message_id),
            thumbs_up: thumb(&self.new_reaction) && !thumb(&self.old_reaction),
        };
        Some(Incoming {
            key: format!("tg:reaction:{id}"),
            version: 0,
            // No topic is told; the message itself knows where it stands.
            chat: self.chat.chat(None)?,
            person: self.user.filter(|user| !user.is_bot)?.person(),
            sent_at: self.date.timestamp(),
            what,
            reply_to: None,
        })
    }
}

impl WireChat {
    /// None for a channel: nobody texts a reading there.
    fn chat(&self, topic: Option<i64>) -> Option<Chat> {
        match self.kind.as_str() {
            "private" => Some(Chat {
                address: address::of_person(self.id),
                group: false,
            }),
            "group" | "supergroup" => Some(Chat {
                address: address::of_group(self.id, topic),
                group: true,
            }),
            _ => None,
        }
    }
}

impl User {
    fn unnamed(id: i64) -> Self {
        Self {
            id,
            is_bot: false,
            first_name: String::new(),
            language_code: None,
        }
    }

    fn person(self) -> Person {
        Person {
            address: address::of_person(self.id),
            // A private chat has the id of the person.
            private_chat: address::of_person(self.id),
            first_name: self.first_name.chars().filter(|mark| !name::is_hidden(*mark)).collect(),
            language: self.language_code.map(clean),
        }
    }
}

/// PostgreSQL takes no NUL in a text, and nobody means one.
fn clean(text: String) -> String {
    if text.contains('\0') {
        text.replace('\0', "")
    } else {
        text
    }
}

#[cfg(test)]
#[path = "wire_tests.rs"]
mod tests;
