//! A message of words, with buttons below them.

use serde::Serialize;
use serde_json::Value;
use teloxide::requests::Payload;
use teloxide::types::{InlineKeyboardButton, InlineKeyboardMarkup, LinkPreviewOptions, ParseMode};

use crate::domain::envelope::{Button, MOST_TEXT_UNITS};

use super::header::{Header, said};
use super::layout::{cut, html};
use super::{CALL_TIMEOUT, Telegram, Trouble};

impl Telegram {
    /// Sends words; the key of the message.
    pub(super) async fn say(&self, header: Header, text: &str, buttons: &[Button]) -> Result<Option<String>, Trouble> {
        let mut message = SendMessage::new(header, text, buttons);
        let mut sent = self.call(&message, CALL_TIMEOUT).await;
        if said(&sent, "can't parse entities") {
            message.text = cut(text, MOST_TEXT_UNITS);
            message.parse_mode = None;
            sent = self.call(&message, CALL_TIMEOUT).await;
        }
        if message.header.leaves_topic(&sent) {
            sent = self.call(&message, CALL_TIMEOUT).await;
        }
        let id = sent?.get("message_id").and_then(Value::as_i64);
        Ok(message.header.key(id))
    }
}

#[derive(Serialize)]
struct SendMessage {
    #[serde(flatten)]
    header: Header,
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    parse_mode: Option<ParseMode>,
    link_preview_options: LinkPreviewOptions,
    #[serde(skip_serializing_if = "Option::is_none")]
    reply_markup: Option<InlineKeyboardMarkup>,
}

impl Payload for SendMessage {
    // Only the id is wanted, so a message of tomorrow's shape does no harm.
    type Output = Value;
    const NAME: &'static str = "sendMessage";
}

impl SendMessage {
    fn new(header: Header, text: &str, buttons: &[Button]) -> Self {
        Self {
            header,
            text: html(&cut(text, MOST_TEXT_UNITS)),
            parse_mode: Some(ParseMode::Html),
            link_preview_options: LinkPreviewOptions {
                is_disabled: true,
                url: None,
                prefer_small_media: false,
                prefer_large_media: false,
                show_above_text: false,
            },
            reply_markup: keyboard(buttons),
        }
    }
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

    use super::super::address::{Place, place};
    use super::*;
    use crate::domain::envelope::Handling;

    fn header(address: &str, handling: Handling, reply_to: &str) -> Header {
        Header::new(
            place(address).unwrap_or(Place { chat: 0, topic: None }),
            handling,
            Some(reply_to),
        )
    }

    #[test]
    fn a_question_goes_to_its_topic_under_its_message_with_one_button_a_row() {
        let buttons = ["a", "b"].map(|name| Button {
            label: name.to_uppercase(),
            token: name.to_owned(),
        });
        let header = header("#tg:-100/7", Handling::default(), "tg:-100/9");
        let message = SendMessage::new(header, "Which way round?\n<3 & all", &buttons);
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
        let header = header("tg:5", Handling::default(), "tg:-100/9");
        assert_eq!(
            serde_json::to_value(SendMessage::new(header, "Noted.", &[])).unwrap_or_default(),
            json!({"chat_id": 5, "parse_mode": "HTML", "text": "Noted.", "link_preview_options": {"is_disabled": true}})
        );
    }

    #[test]
    fn an_owners_report_at_night_makes_no_sound_and_is_not_passed_on() {
        let handling = Handling {
            silent: true,
            protected: true,
            ..Handling::default()
        };
        let message = SendMessage::new(header("tg:5", handling, ""), "Monday.", &[]);
        let message = serde_json::to_value(message).unwrap_or_default();
        assert_eq!(
            (&message["disable_notification"], &message["protect_content"]),
            (&json!(true), &json!(true))
        );
    }
}
