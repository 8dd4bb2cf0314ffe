//! Updates as the platform sends them, and as it should not.
#![allow(clippy::panic)]

use proptest::prelude::*;
use serde_json::{Value, json};

use super::read;
use crate::domain::envelope::{Arrived, Happening, Incoming};

const NOW: i64 = 1_772_000_000;

fn heard(raw: &Value) -> Incoming {
    match read(raw, NOW) {
        Some(Arrived::Incoming(incoming)) => incoming,
        other => panic!("{raw} gave {other:?}"),
    }
}

fn unreadable_key(raw: &Value) -> String {
    match read(raw, NOW) {
        Some(Arrived::Unreadable { key, payload }) => {
            assert_eq!(
                serde_json::from_str::<Value>(&payload).ok().as_ref(),
                Some(raw),
                "kept as it came"
            );
            key
        }
        other => panic!("{raw} gave {other:?}"),
    }
}

fn private(more: &Value) -> Value {
    let mut message = json!({
        "message_id": 31, "date": 1_771_999_990, "chat": {"id": 12, "type": "private", "first_name": "Ada"},
        "from": {"id": 12, "is_bot": false, "first_name": "Ada", "language_code": "es"},
    });
    add(&mut message, more);
    message
}

fn group(more: &Value) -> Value {
    let mut message = private(&json!({"chat": {"id": -1005, "type": "supergroup", "title": "Vans", "is_forum": true}}));
    add(&mut message, more);
    message
}

fn add(to: &mut Value, more: &Value) {
    if let (Some(to), Some(more)) = (to.as_object_mut(), more.as_object()) {
        to.extend(more.clone());
    }
}

fn message(message: &Value) -> Value {
    json!({"update_id": 900, "message": message})
}

#[test]
fn a_private_text_is_heard_with_its_key_and_its_time() {
    let incoming = heard(&message(&private(&json!({"text": "heron 180 12"}))));
    assert_eq!(incoming.key, "tg:12/31");
    assert_eq!((incoming.version, incoming.sent_at), (0, 1_771_999_990));
    assert_eq!((incoming.chat.address.as_str(), incoming.chat.group), ("tg:12", false));
    assert_eq!(incoming.person.address, "tg:12");
    assert_eq!(incoming.person.private_chat, "tg:12");
    assert_eq!(incoming.person.first_name, "Ada");
    assert_eq!(incoming.person.language.as_deref(), Some("es"));
    assert_eq!(incoming.what, Happening::Text("heron 180 12".to_owned()));
    assert_eq!(incoming.reply_to, None);
}

#[test]
fn a_topic_counts_only_when_the_message_is_in_one() {
    let in_topic = json!({"text": "x", "message_thread_id": 7, "is_topic_message": true});
    assert_eq!(heard(&message(&group(&in_topic))).chat.address, "#tg:-1005/7");
    // In a plain supergroup a reply chain has a thread id too.
    let in_chain = json!({"text": "x", "message_thread_id": 7, "reply_to_message": {"message_id": 7}});
    let incoming = heard(&message(&group(&in_chain)));
    assert_eq!(
        (incoming.chat.address.as_str(), incoming.chat.group),
        ("#tg:-1005", true)
    );
    assert_eq!(incoming.person.private_chat, "tg:12");
    assert_eq!(incoming.reply_to.as_deref(), Some("tg:-1005/7"));
}

#[test]
fn a_reply_to_the_topic_itself_is_no_reply() {
    let root =
        json!({"text": "x", "message_thread_id": 7, "is_topic_message": true, "reply_to_message": {"message_id": 7}});
    assert_eq!(heard(&message(&group(&root))).reply_to, None);
    let reply =
        json!({"text": "x", "message_thread_id": 7, "is_topic_message": true, "reply_to_message": {"message_id": 8}});
    assert_eq!(heard(&message(&group(&reply))).reply_to.as_deref(), Some("tg:-1005/8"));
}

fn file(size_bytes: Option<u32>) -> Happening {
    Happening::Document {
        remote: "f".into(),
        size_bytes,
        bytes: None,
    }
}

#[test]
fn pictures_and_voices_are_told_apart_from_texts() {
    let rows = [
        (
            json!({"photo": [{"file_id": "f"}], "caption": "heron 180 12"}),
            Happening::Text("heron 180 12".to_owned()),
        ),
        (json!({"photo": [{"file_id": "f"}]}), Happening::Picture),
        (json!({"voice": {"file_id": "f", "duration": 3}}), Happening::Voice),
        (
            json!({"document": {"file_id": "f"}, "caption": "180 12"}),
            Happening::Text("180 12".to_owned()),
        ),
        (
            json!({"document": {"file_id": "f", "file_name": "a.CSV", "file_size": 90}, "caption": "all of May"}),
            file(Some(90)),
        ),
        (
            json!({"document": {"file_id": "f", "mime_type": "application/pdf", "file_size": 90}}),
            file(None),
        ),
    ];
    for (more, what) in rows {
        assert_eq!(heard(&message(&private(&more))).what, what, "{more}");
    }
}

#[test]
fn an_entity_of_a_kind_not_invented_yet_does_not_hide_the_text() {
    let more = json!({"text": "heron 180 12", "entities": [{"type": "hologram", "offset": 0, "length": 5, "depth": {}}],
                      "effect": [1, {"x": null}]});
    assert_eq!(
        heard(&message(&private(&more))).what,
        Happening::Text("heron 180 12".to_owned())
    );
}

#[test]
fn edits_share_the_key_and_grow_even_within_one_second() {
    let edited = |update: i64, at: i64| {
        let message = private(&json!({"text": "heron 180 14", "edit_date": at}));
        heard(&json!({"update_id": update, "edited_message": message}))
    };
    let first = edited(901, 1_772_000_000);
    assert_eq!(first.key, "tg:12/31");
    assert!(first.version > 0);
    assert!(
        edited(902, 1_772_000_000).version > first.version,
        "two edits sent on coming back into coverage"
    );
    assert!(
        edited(3, 1_772_000_001).version > first.version,
        "ids start anew after a quiet week"
    );
    assert_eq!(edited(901, 1_772_000_000).version, first.version, "the same edit again");
}

#[test]
fn a_press_carries_its_token_and_what_to_acknowledge() {
    let from = json!({"id": 12, "is_bot": false, "first_name": "Ada"});
    let near = json!({"message_id": 8, "date": 1, "chat": {"id": -1005, "type": "supergroup"},
                      "message_thread_id": 7, "is_topic_message": true});
    let press =
        heard(&json!({"update_id": 5, "callback_query": {"id": "77", "from": from, "message": near, "data": "tok"}}));
    assert_eq!(
        (press.key.as_str(), press.chat.address.as_str(), press.sent_at),
        ("tg:press:77", "#tg:-1005/7", NOW)
    );
    assert_eq!(
        press.what,
        Happening::Press {
            token: "tok".to_owned(),
            press: "77".to_owned()
        }
    );
    // An old message is out of reach: no date, no text. One may be missing.
    let far = json!({"message_id": 8, "date": 0, "chat": {"id": 12, "type": "private"}});
    for message in [far, Value::Null] {
        let query = json!({"id": "78", "from": from, "message": message, "data": "tok"});
        assert_eq!(
            heard(&json!({"update_id": 6, "callback_query": query})).chat.address,
            "tg:12"
        );
    }
    assert_eq!(
        read(
            &json!({"update_id": 7, "callback_query": {"id": "79", "from": from}}),
            NOW
        ),
        None
    );
}

#[test]
fn being_shut_out_and_let_in_is_heard() {
    let rows = [
        (json!({"status": "kicked"}), Some(Happening::ShutOut)),
        (json!({"status": "left"}), Some(Happening::ShutOut)),
        (
            json!({"status": "restricted", "is_member": false}),
            Some(Happening::ShutOut),
        ),
        (
            json!({"status": "restricted", "is_member": true}),
            Some(Happening::LetIn),
        ),
        (json!({"status": "member"}), Some(Happening::LetIn)),
        (json!({"status": "administrator"}), Some(Happening::LetIn)),
        (json!({"status": "something new"}), None),
    ];
    for (status, expected) in rows {
        let change = json!({"chat": {"id": -1005, "type": "group"}, "from": {"id": 12, "first_name": "Ada"},
                            "date": 1_771_999_990, "old_chat_member": 5, "new_chat_member": status});
        let what = match read(&json!({"update_id": 44, "my_chat_member": change}), NOW) {
            Some(Arrived::Incoming(incoming)) => {
                assert_eq!(
                    (incoming.key.as_str(), incoming.chat.address.as_str()),
                    ("tg:member:44", "#tg:-1005")
                );
                Some(incoming.what)
            }
            _ => None,
        };
        assert_eq!(what, expected, "{status}");
    }
}

#[test]
fn a_thumbs_up_counts_when_it_is_put_there_and_not_when_it_stays() {
    let thumb = json!({"type": "emoji", "emoji": "\u{1f44d}"});
    let fire = json!({"type": "emoji", "emoji": "\u{1f525}"});
    let custom = json!({"type": "custom_emoji", "custom_emoji_id": "9"});
    let rows = [
        (json!([]), json!([thumb]), true),
        (json!([fire]), json!([fire, thumb]), true),
        (json!([thumb]), json!([thumb, fire]), false),
        (json!([thumb]), json!([]), false),
        (json!([]), json!([fire, custom]), false),
    ];
    let from = json!({"id": 12, "is_bot": false, "first_name": "Ada"});
    for (old, new, thumbs_up) in rows {
        let change = json!({"chat": {"id": -1005, "type": "supergroup"}, "message_id": 31, "user": from,
                            "date": 1_771_999_990, "old_reaction": old, "new_reaction": new});
        let incoming = heard(&json!({"update_id": 45, "message_reaction": change}));
        assert_eq!(
            (incoming.key.as_str(), incoming.chat.address.as_str(), incoming.sent_at),
            ("tg:reaction:45", "#tg:-1005", 1_771_999_990)
        );
        let on = "tg:-1005/31".to_owned();
        assert_eq!(incoming.what, Happening::Reaction { on, thumbs_up }, "{change}");
    }
    let nobody =
        json!({"chat": {"id": -1005, "type": "supergroup"}, "message_id": 31, "date": 1, "new_reaction": [thumb]});
    assert_eq!(read(&json!({"update_id": 46, "message_reaction": nobody}), NOW), None);
}

#[test]
fn a_group_that_moves_says_so_twice_with_one_meaning() {
    let bot = json!({"id": 1_087_968_824, "is_bot": true, "first_name": "Group"});
    let old = group(&json!({"chat": {"id": -5, "type": "group"}, "migrate_to_chat_id": -1005}));
    let new = group(&json!({"from": bot, "sender_chat": {"id": -1005}, "migrate_from_chat_id": -5}));
    let mut unnamed = old.clone();
    unnamed.as_object_mut().and_then(|fields| fields.remove("from"));
    for raw in [old, new, unnamed] {
        let incoming = heard(&message(&raw));
        assert_eq!(incoming.chat.address, "#tg:-5");
        assert_eq!(
            incoming.what,
            Happening::Moved {
                to: "#tg:-1005".to_owned()
            }
        );
    }
}

#[test]
fn what_no_person_said_is_nothing() {
    let bot = json!({"id": 9, "is_bot": true, "first_name": "Bot"});
    let rows = [
        private(&json!({"text": "180 12", "from": bot})),
        group(&json!({"text": "180 12", "sender_chat": {"id": -1005}})),
        private(&json!({"sticker": {"emoji": "x"}})),
        private(&json!({"location": {"latitude": 1.0}})),
        group(&json!({"new_chat_members": [bot]})),
        private(&json!({"text": "180 12", "chat": {"id": -9, "type": "channel"}})),
    ];
    for raw in rows {
        assert_eq!(read(&message(&raw), NOW), None, "{raw}");
    }
    assert_eq!(
        read(&json!({"update_id": 1, "poll_answer": {"poll_id": "p"}}), NOW),
        None
    );
}

#[test]
fn what_cannot_be_read_is_kept_under_its_id_or_a_hash() {
    let broken = private(&json!({"text": {"not": "a text"}}));
    assert_eq!(unreadable_key(&message(&broken)), "tg:update:900");
    let undated = private(&json!({"text": "x", "date": "yesterday"}));
    assert_eq!(unreadable_key(&message(&undated)), "tg:update:900");
    assert_eq!(
        unreadable_key(&message(&private(&json!({"text": "x", "date": i64::MAX})))),
        "tg:update:900"
    );
    let nameless = [
        json!({"message": private(&json!({"text": "x"}))}),
        json!({"update_id": -3}),
        json!(["odd"]),
        json!(null),
    ];
    let keys: Vec<String> = nameless.iter().map(unreadable_key).collect();
    for (at, key) in keys.iter().enumerate() {
        assert!(
            key.starts_with("tg:update:") && key.len() == "tg:update:".len() + 16,
            "{key}"
        );
        assert!(!keys[..at].contains(key), "told apart: {keys:?}");
    }
    assert_eq!(unreadable_key(&nameless[0]), keys[0], "the same again has the same key");
}

#[test]
fn a_nul_is_taken_out() {
    let incoming = heard(&message(&private(&json!({"text": "heron\u{0} 180 12"}))));
    assert_eq!(incoming.what, Happening::Text("heron 180 12".to_owned()));
}

/// Any JSON, with the platform's own field names often enough to get deep.
fn any_json() -> impl Strategy<Value = Value> {
    let names = prop_oneof![
        4 => prop::sample::select(vec![
            "update_id", "message", "edited_message", "callback_query", "my_chat_member", "message_id", "date",
            "edit_date", "chat", "from", "id", "type", "text", "caption", "photo", "voice", "data", "new_chat_member",
            "status", "is_bot", "first_name", "migrate_to_chat_id", "reply_to_message", "message_thread_id",
            "message_reaction", "user", "new_reaction", "emoji",
        ]).prop_map(str::to_owned),
        1 => "\\PC{0,8}",
    ];
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        prop::sample::select(vec!["private", "group", "kicked", "member"]).prop_map(Value::from),
        "\\PC{0,20}".prop_map(Value::from),
    ];
    leaf.prop_recursive(5, 80, 12, move |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            prop::collection::hash_map(names.clone(), inner, 0..12).prop_map(Value::from_iter),
        ]
    })
}

proptest! {
    #[test]
    fn no_json_breaks_the_reading(raw in any_json(), id in any::<i64>()) {
        let _ = read(&raw, NOW);
        let _ = read(&json!({"update_id": id, "message": raw}), NOW);
        let _ = read(&json!({"update_id": id, "edited_message": private(&raw)}), NOW);
        let _ = read(&json!({"update_id": 1, "message": private(&raw)}), NOW);
        let _ = read(&json!({"update_id": 1, "callback_query": raw}), NOW);
        let _ = read(&json!({"update_id": 1, "message_reaction": raw}), NOW);
    }
}

#[test]
fn what_a_bot_wrote_is_no_reading_and_what_is_passed_on_counts_from_when_it_was_written() {
    let text = |more: &Value| {
        let mut text = private(&json!({"text": "heron 180 12"}));
        add(&mut text, more);
        read(&message(&text), NOW)
    };
    let bot = json!({"id": 5, "is_bot": true, "first_name": "Tapside"});
    let origin =
        |sender: &Value, date: i64| json!({"forward_origin": {"type": "user", "date": date, "sender_user": sender}});
    assert_eq!(text(&origin(&bot, 1_771_000_000)), None, "its own answer, passed on");
    assert_eq!(text(&json!({"via_bot": bot})), None);
    let bea = json!({"id": 6, "is_bot": false, "first_name": "Bea"});
    let sent_at = |arrived| match arrived {
        Some(Arrived::Incoming(incoming)) => incoming.sent_at,
        other => panic!("{other:?}"),
    };
    assert_eq!(sent_at(text(&origin(&bea, 1_771_000_000))), 1_771_000_000);
    assert_eq!(
        sent_at(text(&origin(&bea, i64::MAX))),
        1_771_999_990,
        "never later than it was passed on"
    );
    let hidden = json!({"forward_origin": {"type": "hidden_user", "date": 1_771_000_000, "sender_user_name": "Bea"}});
    assert_eq!(sent_at(text(&hidden)), 1_771_000_000);
    for date in [-5, 0] {
        assert_eq!(sent_at(text(&json!({"date": date}))), NOW, "a date that cannot be");
    }
}

#[test]
fn a_name_has_no_marks_that_turn_what_stands_behind_it() {
    let from = json!({"from": {"id": 12, "first_name": "A\u{202e}da\u{0}\n\u{2066}"}, "text": "x"});
    assert_eq!(heard(&message(&private(&from))).person.first_name, "Ada");
}
