//! Messages that answer none, and those that go to the private chat alone.

use crate::domain::envelope::{Body, Handling, Outgoing};

use super::answer::Answer;
use super::request::Request;

/// A message of words alone.
pub(super) fn say(chat: String, text: String) -> Outgoing {
    let body = Body::Say {
        text,
        buttons: Vec::new(),
        reply_to: None,
    };
    carry(chat, body)
}

/// A message that answers none.
pub(super) fn carry(chat: String, body: Body) -> Outgoing {
    Outgoing {
        chat,
        body,
        source_key: None,
        handling: Handling::default(),
    }
}

/// A message of money and people: to the private chat, not to be passed on.
pub(super) fn privately(on: &Request<'_>, body: Body) -> Outgoing {
    Outgoing {
        handling: Handling {
            protected: true,
            ..Handling::default()
        },
        ..carry(on.member.chat.clone(), body)
    }
}

/// Says in a group where the answer went; nothing in private.
pub(super) fn in_private(on: &Request<'_>) -> Answer {
    if on.incoming.chat.group {
        return Answer::says(on.words.plain("sent-in-private"));
    }
    Answer::silence()
}
