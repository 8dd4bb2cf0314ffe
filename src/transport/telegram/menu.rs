//! Telling the platform which commands to offer.

use serde::Serialize;
use serde_json::{Value, json};
use teloxide::requests::Payload;

use crate::domain::envelope::{Menu, MenuEntry, MenuPlace};

use super::{CALL_TIMEOUT, Telegram, Trouble, address};

impl Telegram {
    /// Sets a menu, or takes it away if it is empty.
    ///
    /// # Errors
    /// Any [`Trouble`].
    pub async fn offer(&self, menu: &Menu) -> Result<(), Trouble> {
        let (scope, language_code) = match &menu.place {
            MenuPlace::Everybody(language) => (json!({"type": "default"}), language.clone()),
            MenuPlace::Chat(at) => {
                let Some(place) = address::place(at) else {
                    return Err(Trouble::Refused {
                        code: 0,
                        description: "not asked: not an address of this platform".to_owned(),
                    });
                };
                (json!({"type": "chat", "chat_id": place.chat}), None)
            }
        };
        if menu.entries.is_empty() {
            self.call(&DeleteMyCommands { scope, language_code }, CALL_TIMEOUT)
                .await?;
            return Ok(());
        }
        let menu = SetMyCommands {
            commands: &menu.entries,
            scope,
            language_code,
        };
        self.call(&menu, CALL_TIMEOUT).await?;
        Ok(())
    }
}

#[derive(Serialize)]
struct SetMyCommands<'a> {
    commands: &'a [MenuEntry],
    scope: Value,
    #[serde(skip_serializing_if = "Option::is_none")]
    language_code: Option<String>,
}

impl Payload for SetMyCommands<'_> {
    type Output = Value;
    const NAME: &'static str = "setMyCommands";
}

#[derive(Serialize)]
struct DeleteMyCommands {
    scope: Value,
    #[serde(skip_serializing_if = "Option::is_none")]
    language_code: Option<String>,
}

impl Payload for DeleteMyCommands {
    type Output = Value;
    const NAME: &'static str = "deleteMyCommands";
}
