//! What every message says beside what it carries: where it goes, how, and
//! which message it answers.

use serde::Serialize;
use teloxide::types::{MessageId, ReplyParameters};

use crate::domain::envelope::Handling;

use super::Trouble;
use super::address::{self, Place};

/// The fields that all sending methods share.
#[derive(Clone, Serialize)]
pub(super) struct Header {
    chat_id: i64,
    #[serde(skip_serializing_if = "Option::is_none")]
    message_thread_id: Option<i64>,
    #[serde(skip_serializing_if = "is_off")]
    disable_notification: bool,
    #[serde(skip_serializing_if = "is_off")]
    protect_content: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    reply_parameters: Option<ReplyParameters>,
}

impl Header {
    pub fn new(place: Place, handling: Handling, reply_to: Option<&str>) -> Self {
        Self {
            chat_id: place.chat,
            message_thread_id: place.topic,
            disable_notification: handling.silent,
            protect_content: handling.protected,
            reply_parameters: reply_to.and_then(|key| reply(place, key)),
        }
    }

    /// Leaves the topic if the API says that it is gone; the group is not.
    pub fn leaves_topic<T>(&mut self, outcome: &Result<T, Trouble>) -> bool {
        let gone = self.message_thread_id.is_some() && said(outcome, "message thread not found");
        if gone {
            self.message_thread_id = None;
        }
        gone
    }

    /// The key of a message that this was sent as.
    pub fn key(&self, message_id: Option<i64>) -> Option<String> {
        message_id.map(|id| address::of_message(self.chat_id, id))
    }
}

/// Whether the API refused with these words.
pub(super) fn said<T>(outcome: &Result<T, Trouble>, words: &str) -> bool {
    matches!(outcome, Err(Trouble::Refused { description, .. }) if description.contains(words))
}

/// A message of another chat is not answered under.
fn reply(place: Place, key: &str) -> Option<ReplyParameters> {
    let (chat, message) = address::message(key)?;
    if chat != place.chat {
        return None;
    }
    Some(ReplyParameters::new(MessageId(i32::try_from(message).ok()?)).allow_sending_without_reply())
}

fn is_off(flag: &bool) -> bool {
    !flag
}
