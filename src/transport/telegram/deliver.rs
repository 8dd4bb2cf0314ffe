//! One delivery: a send becomes a call, and what came of it becomes a
//! [`Sent`]. Nothing here waits or tries again by itself, save for a message
//! whose layout the API will not take: that goes out plain at once.

use serde::Serialize;
use serde_json::Value;
use teloxide::payloads::{AnswerCallbackQuery, AnswerCallbackQuerySetters};
use teloxide::requests::Payload;
use teloxide::types::{
    CallbackQueryId, InlineKeyboardButton, InlineKeyboardMarkup, LinkPreviewOptions, MessageId, ParseMode,
    ReplyParameters,
};
use tokio::time::timeout;

use crate::bot::envelope::{Body, Button, Send};
use crate::store::sends::Sent;

use super::address::{self, Place};
use super::layout::{cut, html};
use super::{CALL_TIMEOUT, Telegram, Trouble};

impl Telegram {
    /// Delivers a message; the answer says what to write down of it.
    /// Takes 10 s at most, so a lease of twice that is safe.
    pub async fn deliver(&self, send: &Send) -> Sent {
        let outcome = match &send.body {
            Body::Acknowledge { press, text } => timeout(CALL_TIMEOUT, self.acknowledge(press, text.as_deref())).await,
            Body::Say {
                text,
                buttons,
                reply_to,
            } => {
                let Some(place) = address::place(&send.chat) else {
                    return Sent::Refused("not an address of this platform".to_owned());
                };
                timeout(CALL_TIMEOUT, self.say(place, text, buttons, reply_to.as_deref())).await
            }
        };
        match outcome {
            Ok(Ok(remote_key)) => Sent::Delivered(remote_key),
            Ok(Err(trouble)) => judge(trouble, send.tries),
            Err(_) => Sent::NotBefore(pause_after(send.tries)),
        }
    }

    async fn acknowledge(&self, press: &str, text: Option<&str>) -> Result<Option<String>, Trouble> {
        let mut answer = AnswerCallbackQuery::new(CallbackQueryId(press.to_owned()));
        if let Some(text) = text {
            // The platform shows 200 characters.
            answer = answer.text(text.chars().take(200).collect::<String>());
        }
        match self.call(&answer, CALL_TIMEOUT).await {
            Ok(_) => Ok(None),
            // Nobody waits for it any more; whatever the press did is done.
            Err(Trouble::Refused { description, .. }) if description.contains("query is too old") => Ok(None),
            Err(trouble) => Err(trouble),
        }
    }

    async fn say(
        &self,
        place: Place,
        text: &str,
        buttons: &[Button],
        reply_to: Option<&str>,
    ) -> Result<Option<String>, Trouble> {
        let mut message = SendMessage::new(place, text, buttons, reply_to);
        let mut sent = self.call(&message, CALL_TIMEOUT).await;
        if said(&sent, "can't parse entities") {
            message.text = cut(text);
            message.parse_mode = None;
            sent = self.call(&message, CALL_TIMEOUT).await;
        }
        if message.message_thread_id.is_some() && said(&sent, "message thread not found") {
            // The topic is gone, the group is not.
            message.message_thread_id = None;
            sent = self.call(&message, CALL_TIMEOUT).await;
        }
        let id = sent?.get("message_id").and_then(Value::as_i64);
        Ok(id.map(|id| address::of_message(place.chat, id)))
    }
}

fn said(outcome: &Result<Value, Trouble>, words: &str) -> bool {
    matches!(outcome, Err(Trouble::Refused { description, .. }) if description.contains(words))
}

/// What a failed call means for the message.
fn judge(trouble: Trouble, tries: i64) -> Sent {
    match trouble {
        // The store counts whole seconds, and a part of the first is over.
        Trouble::TooFast(seconds) => Sent::NotBefore(seconds.saturating_add(1)),
        Trouble::Moved(id) => Sent::Moved(address::of_group(id, None)),
        Trouble::Refused { code, description } if code == 403 || shut_out(&description) => Sent::Blocked,
        Trouble::Refused { description, .. } => Sent::Refused(description),
        // A wrong token is the host's to mend; the message waits for it.
        Trouble::WrongToken => Sent::NotBefore(60),
        Trouble::Unreachable(_) | Trouble::Conflict => Sent::NotBefore(pause_after(tries)),
    }
}

fn shut_out(description: &str) -> bool {
    ["Forbidden", "chat not found", "bot was blocked", "bot was kicked"]
        .iter()
        .any(|words| description.contains(words))
}

/// Seconds: 2, 4, 8 ... 60.
fn pause_after(tries: i64) -> i64 {
    1_i64
        .checked_shl(tries.clamp(1, 6) as u32)
        .map_or(60, |pause| pause.min(60))
}

#[derive(Serialize)]
struct SendMessage {
    chat_id: i64,
    #[serde(skip_serializing_if = "Option::is_none")]
    message_thread_id: Option<i64>,
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    parse_mode: Option<ParseMode>,
    link_preview_options: LinkPreviewOptions,
    #[serde(skip_serializing_if = "Option::is_none")]
    reply_parameters: Option<ReplyParameters>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reply_markup: Option<InlineKeyboardMarkup>,
}

impl Payload for SendMessage {
    // Only the id is wanted, so a message of tomorrow's shape does no harm.
    type Output = Value;
    const NAME: &'static str = "sendMessage";
}

impl SendMessage {
    fn new(place: Place, text: &str, buttons: &[Button], reply_to: Option<&str>) -> Self {
        let laid_out = html(&cut(text));
        Self {
            chat_id: place.chat,
            message_thread_id: place.topic,
            parse_mode: Some(ParseMode::Html),
            text: laid_out,
            link_preview_options: LinkPreviewOptions {
                is_disabled: true,
                url: None,
                prefer_small_media: false,
                prefer_large_media: false,
                show_above_text: false,
            },
            reply_parameters: reply_to.and_then(|key| reply(place, key)),
            reply_markup: keyboard(buttons),
        }
    }
}

/// A message of another chat is not answered under.
fn reply(place: Place, key: &str) -> Option<ReplyParameters> {
    let (chat, message) = address::message(key)?;
    if chat != place.chat {
        return None;
    }
    Some(ReplyParameters::new(MessageId(i32::try_from(message).ok()?)).allow_sending_without_reply())
}

/// One button a row: a gloved thumb finds it.
fn keyboard(buttons: &[Button]) -> Option<InlineKeyboardMarkup> {
    if buttons.is_empty() {
        return None;
    }
    let rows = buttons
        .iter()
        .map(|button| [InlineKeyboardButton::callback(&button.label, &button.token)]);
    Some(InlineKeyboardMarkup::new(rows))
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    fn place(address: &str) -> Place {
        address::place(address).unwrap_or(Place { chat: 0, topic: None })
    }

    #[test]
    fn a_question_goes_to_its_topic_under_its_message_with_one_button_a_row() {
        let buttons = ["a", "b"].map(|name| Button {
            label: name.to_uppercase(),
            token: name.to_owned(),
        });
        let message = SendMessage::new(
            place("#tg:-100/7"),
            "Which way round?\n<3 & all",
            &buttons,
            Some("tg:-100/9"),
        );
        assert_eq!(
            serde_json::to_value(message).unwrap_or_default(),
            json!({
                "chat_id": -100, "message_thread_id": 7, "parse_mode": "HTML",
                "text": "<b>Which way round?</b>\n&lt;3 &amp; all",
                "link_preview_options": {"is_disabled": true},
                "reply_parameters": {"message_id": 9, "allow_sending_without_reply": true},
                "reply_markup": {"inline_keyboard": [
                    [{"text": "A", "callback_data": "a"}], [{"text": "B", "callback_data": "b"}]]},
            })
        );
    }

    #[test]
    fn a_message_of_another_chat_is_not_answered_under() {
        let message = SendMessage::new(place("tg:5"), "Noted.", &[], Some("tg:-100/9"));
        assert_eq!(
            serde_json::to_value(message).unwrap_or_default(),
            json!({"chat_id": 5, "parse_mode": "HTML", "text": "Noted.", "link_preview_options": {"is_disabled": true}})
        );
    }

    #[test]
    fn trouble_says_what_becomes_of_the_message() {
        let refused = |code, description: &str| Trouble::Refused {
            code,
            description: description.to_owned(),
        };
        let rows = [
            (Trouble::TooFast(61), 1, Sent::NotBefore(62)),
            (Trouble::Moved(-1007), 1, Sent::Moved("#tg:-1007".to_owned())),
            (refused(403, "Forbidden: user is deactivated"), 1, Sent::Blocked),
            (refused(403, "words nobody has met yet"), 1, Sent::Blocked),
            (refused(400, "Bad Request: chat not found"), 1, Sent::Blocked),
            (
                refused(400, "Bad Request: message is too long"),
                1,
                Sent::Refused("Bad Request: message is too long".to_owned()),
            ),
            (
                Trouble::Unreachable("it answered 502".to_owned()),
                1,
                Sent::NotBefore(2),
            ),
            (
                Trouble::Unreachable("it answered 502".to_owned()),
                5,
                Sent::NotBefore(32),
            ),
            (
                Trouble::Unreachable("it answered 502".to_owned()),
                6,
                Sent::NotBefore(60),
            ),
            (
                Trouble::Unreachable("it answered 502".to_owned()),
                i64::MAX,
                Sent::NotBefore(60),
            ),
            (Trouble::WrongToken, 1, Sent::NotBefore(60)),
        ];
        for (trouble, tries, expected) in rows {
            assert_eq!(judge(trouble.clone(), tries), expected, "{trouble:?}");
        }
    }
}
