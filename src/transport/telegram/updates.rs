//! Asking for updates: raw, so that one odd update cannot spoil a batch.

use std::time::Duration;

use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use serde_json::{Value, json};
use teloxide::types::AllowedUpdate;

use super::{Telegram, Trouble, outcome};

/// How long the API holds a poll open when there is nothing to tell; the
/// platform allows 50 s.
pub(super) const POLL: Duration = Duration::from_secs(25);

impl Telegram {
    /// Waits for updates. `offset` confirms everything below it, so pass it
    /// only once that is committed; 0 confirms nothing.
    ///
    /// # Errors
    /// Any [`Trouble`].
    pub async fn updates(&self, offset: i64) -> Result<Vec<Value>, Trouble> {
        let ask = GetUpdates {
            offset,
            timeout: POLL.as_secs(),
            allowed_updates: ALLOWED,
        };
        let body = serde_json::to_vec(&ask).unwrap_or_default();
        let (status, body) = self.post("getUpdates", body, POLL + Duration::from_secs(10)).await?;
        match outcome(status, &body) {
            Ok(Value::Array(updates)) => Ok(updates),
            Ok(_) => Err(Trouble::Unreachable(
                "its answer has another shape than it should".to_owned(),
            )),
            Err(trouble) => one_by_one(&body).ok_or(trouble),
        }
    }
}

/// The updates of an answer that is no JSON because one of them is none: with a number too large for any type, half of
/// a pair of surrogates, or bytes that are no text. That one keeps its id, so that it can be confirmed, and is kept as
/// it came. None when the answer is no list of updates at all.
fn one_by_one(body: &[u8]) -> Option<Vec<Value>> {
    #[derive(Deserialize)]
    struct Answer<'a> {
        #[serde(borrow)]
        result: Vec<&'a RawValue>,
    }
    #[derive(Deserialize)]
    struct Numbered {
        update_id: Option<i64>,
    }
    let text = String::from_utf8_lossy(body);
    let answer: Answer<'_> = serde_json::from_str(&text).ok()?;
    let read = |raw: &RawValue| {
        serde_json::from_str(raw.get()).unwrap_or_else(|_| {
            let id = serde_json::from_str::<Numbered>(raw.get())
                .ok()
                .and_then(|numbered| numbered.update_id);
            json!({"update_id": id, "unreadable": raw.get()})
        })
    };
    Some(answer.result.into_iter().map(read).collect())
}

/// What confirms a batch: one more than its last valid id. None when no
/// update in it has one.
pub fn next_offset(batch: &[Value]) -> Option<i64> {
    batch
        .iter()
        .filter_map(update_id)
        .max()
        .map(|last| last.saturating_add(1))
}

/// An update's id, if it has a valid one.
pub(super) fn update_id(update: &Value) -> Option<i64> {
    update.get("update_id").and_then(Value::as_i64).filter(|id| *id >= 0)
}

/// Everything the bot hears. Said with each request, since the API remembers
/// the last list that it was given, whoever gave it.
pub(super) const ALLOWED: &[AllowedUpdate] = &[
    AllowedUpdate::Message,
    AllowedUpdate::EditedMessage,
    AllowedUpdate::CallbackQuery,
    AllowedUpdate::MyChatMember,
    AllowedUpdate::MessageReaction,
];

#[derive(Serialize)]
struct GetUpdates {
    offset: i64,
    timeout: u64,
    allowed_updates: &'static [AllowedUpdate],
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_offset_is_one_more_than_the_last_id() {
        assert_eq!(
            next_offset(&[json!({"update_id": 7}), json!({"update_id": 8}), json!("odd")]),
            Some(9)
        );
        assert_eq!(next_offset(&[json!({"update_id": i64::MAX})]), Some(i64::MAX));
        for odd in [
            json!({"update_id": "7"}),
            json!({"update_id": -1}),
            json!({}),
            json!(null),
        ] {
            assert_eq!(next_offset(&[odd]), None);
        }
    }

    #[test]
    fn one_update_that_is_no_json_spoils_no_batch_and_can_be_confirmed() {
        let odd: [&[u8]; 3] = [b"1e999", br#""\ud800""#, b"\"\xff\""];
        for odd in odd {
            let mut body = br#"{"ok":true,"result":[{"update_id":7,"odd":"#.to_vec();
            body.extend_from_slice(odd);
            body.extend_from_slice(br#"},{"update_id":6,"message":{"text":"hello"}}]}"#);
            let updates = one_by_one(&body).unwrap_or_default();
            assert_eq!(next_offset(&updates), Some(8), "{updates:?}");
            assert_eq!(
                updates.get(1).map(|update| &update["message"]["text"]),
                Some(&json!("hello"))
            );
        }
        assert_eq!(one_by_one(b"<html>Log in to the hotel network</html>"), None);
    }

    #[test]
    fn each_request_says_what_the_bot_hears() {
        let ask = GetUpdates {
            offset: 0,
            timeout: 25,
            allowed_updates: ALLOWED,
        };
        assert_eq!(
            serde_json::to_value(ask).unwrap_or_default(),
            json!({"offset": 0, "timeout": 25,
                   "allowed_updates": ["message", "edited_message", "callback_query", "my_chat_member",
                                       "message_reaction"]})
        );
    }
}
