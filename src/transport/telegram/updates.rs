//! Asking for updates: raw, so that one odd update cannot spoil a batch.

use std::time::Duration;

use serde::Serialize;
use serde_json::Value;
use teloxide::requests::Payload;
use teloxide::types::AllowedUpdate;

use super::{Telegram, Trouble};

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
        self.call(&ask, POLL + Duration::from_secs(10)).await
    }
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

impl Payload for GetUpdates {
    type Output = Vec<Value>;
    const NAME: &'static str = "getUpdates";
}

#[cfg(test)]
mod tests {
    use serde_json::json;

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
