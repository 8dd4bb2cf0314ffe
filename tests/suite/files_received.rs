//! Files on their way in: only an owner's small sheets are fetched.

use serde_json::json;

use crate::api_stand_in::Model;
use crate::served::{Server, texts_to};

const OWNER: i64 = 501;
const STRANGER: i64 = 502;

/// Somebody sends a file to the bot.
fn sends_file(model: &mut Model, person: i64, id: &str, size: usize) {
    let date = tapside::clock::now();
    model.push(json!({"message": {
        "message_id": 900 + person, "date": date, "chat": {"id": person, "type": "private"},
        "from": {"id": person, "is_bot": false, "first_name": "Ada", "language_code": "en"},
        "document": {"file_id": id, "file_name": "readings.csv", "mime_type": "text/csv", "file_size": size},
    }}));
}

#[tokio::test]
async fn an_owners_sheet_is_fetched_and_shown_and_a_strangers_is_not() {
    let server = Server::start().await;
    let bot = tapside::bot::Bot::new(
        server.store.clone(),
        tapside::bot::BotSettings {
            zone: "Europe/London".to_owned(),
            tokens: tapside::bot::Tokens::Random,
        },
    );
    let token = bot.found_token(tapside::clock::now()).await.unwrap();
    let rows = "rig,date,tap,ro\nheron,2026-03-02,180,12\n";
    server.api.with(|model| {
        model.files.insert("sheet".to_owned(), rows.as_bytes().to_vec());
        model.files.insert("huge".to_owned(), vec![b'x'; 1_000_001]);
        model.text(OWNER, OWNER, &format!("/start {token}"))
    });
    server
        .api
        .until("the owner is welcomed", |model| texts_to(model, OWNER).len() == 1)
        .await;
    server
        .api
        .with(|model| sends_file(model, STRANGER, "sheet", rows.len()));
    server.api.with(|model| sends_file(model, OWNER, "sheet", rows.len()));
    server
        .api
        .until("the rows are shown", |model| texts_to(model, OWNER).len() == 2)
        .await;
    let preview = server.api.with(|model| texts_to(model, OWNER)[1].clone());
    assert!(preview.contains("1 new reading"), "{preview}");
    // The platform may say less than there is, or have nothing any more.
    server.api.with(|model| {
        let date = tapside::clock::now();
        for (message, id) in [(1, "huge"), (2, "gone")] {
            model.push(json!({"message": {
                "message_id": 800 + message, "date": date, "chat": {"id": OWNER, "type": "private"},
                "from": {"id": OWNER, "is_bot": false, "first_name": "Ada", "language_code": "en"},
                "document": {"file_id": id, "file_name": "a.csv", "file_size": 10},
            }}));
        }
    });
    server
        .api
        .until("both are answered", |model| texts_to(model, OWNER).len() == 4)
        .await;
    server.api.with(|model| {
        let told = texts_to(model, OWNER);
        assert!(told[2..].iter().all(|text| text.contains("up to 1 MB")), "{told:?}");
        assert_eq!(texts_to(model, STRANGER), Vec::<String>::new());
    });
}
