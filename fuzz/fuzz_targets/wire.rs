//! Any JSON as an update of the platform's, alone and in each place where the
//! platform puts what people did.
#![no_main]

use libfuzzer_sys::fuzz_target;
use serde_json::{Value, json};
use tapside::domain::envelope::{Arrived, Happening};
use tapside::transport::telegram::{next_offset, read};

const NOW: i64 = 1_772_000_000;

const KINDS: [&str; 5] = ["message", "edited_message", "callback_query", "my_chat_member", "message_reaction"];

fuzz_target!(|data: &[u8]| {
    let Ok(value) = serde_json::from_slice::<Value>(data) else { return };
    let mut batch = vec![value.clone()];
    batch.extend(KINDS.map(|kind| json!({"update_id": 7, kind: value})));
    assert!(next_offset(&batch).is_some_and(|next| next >= 8));
    for raw in batch {
        check(&raw);
    }
});

fn check(raw: &Value) {
    let arrived = read(raw, NOW);
    assert_eq!(arrived, read(raw, NOW), "the same update has the same meaning: {raw}");
    match arrived {
        None => {}
        Some(Arrived::Unreadable { key, payload }) => {
            assert!(key.starts_with("tg:update:"), "{raw}");
            assert_eq!(serde_json::from_str::<Value>(&payload).ok().as_ref(), Some(raw), "kept as it came");
        }
        Some(Arrived::Incoming(incoming)) => {
            assert!(incoming.key.starts_with("tg:") && incoming.version >= 0, "{raw}");
            let written = serde_json::to_string(&incoming).unwrap_or_default();
            assert!(!written.contains("\\u0000"), "PostgreSQL takes no NUL: {raw}");
            assert_eq!(incoming.chat.group, incoming.chat.address.starts_with('#'), "{raw}");
            if let Happening::Text(text) = incoming.what {
                assert!(!text.contains('\0'), "{raw}");
            }
        }
    }
}
