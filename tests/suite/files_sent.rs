//! Pictures and files: how they go over the wire, what becomes of them when
//! they cannot go, and what a desk shows of them.

use serde_json::json;
use tapside::clock;
use tapside::domain::envelope::{Attachment, Body, Handling, Outgoing};
use tapside::play::script;
use tapside::store::{Store, blobs, sends};

use super::api_forms::Upload;
use super::api_stand_in::Fault;
use super::served::{Server, texts_to};
use super::world::{DAY, World};

/// Bytes that no text column would keep: every value, a NUL among them.
fn picture(number: u8) -> Vec<u8> {
    (0..=255).chain([number]).collect()
}

async fn keep(store: &Store, names: &[&str], now: i64) -> Vec<Attachment> {
    let mut tx = store.begin().await.unwrap();
    let mut kept = Vec::new();
    for (number, name) in names.iter().enumerate() {
        let blob = blobs::keep(&mut tx, &picture(number as u8), now).await.unwrap();
        kept.push(Attachment {
            name: (*name).to_owned(),
            blob,
        });
    }
    tx.commit().await.unwrap();
    kept
}

async fn pictures(store: &Store, names: &[&str], caption: &str) -> Body {
    Body::Pictures {
        pictures: keep(store, names, clock::now()).await,
        caption: caption.to_owned(),
        reply_to: None,
    }
}

async fn document(store: &Store, caption: &str) -> Body {
    Body::Document {
        file: keep(store, &["fleet.xlsx"], clock::now()).await.remove(0),
        caption: caption.to_owned(),
        reply_to: Some("tg:600/4".to_owned()),
    }
}

fn upload(part: &str, name: &str, number: u8) -> Upload {
    Upload {
        part: part.to_owned(),
        name: name.to_owned(),
        bytes: picture(number),
    }
}

#[tokio::test]
async fn a_picture_an_album_and_a_file_arrive_byte_for_byte() {
    let server = Server::start().await;
    let one = pictures(&server.store, &["heron.png"], "Heron <sound>\nsteady").await;
    let album = pictures(&server.store, &["fleet.png", "otter.png"], "Monday").await;
    let file = document(&server.store, "").await;
    server.queue_bodies("tg:600", vec![one, album, file]).await;
    server.api.until("all are there", |model| model.sent().len() == 3).await;
    let (api, store, _guard) = server.stop().await;
    api.with(|model| {
        let [one, album, file] = &model.calls[..] else {
            panic!("{:#?}", model.calls)
        };
        assert_eq!(one.method, "sendphoto");
        assert_eq!(
            one.body,
            json!({"chat_id": 600, "caption": "<b>Heron &lt;sound&gt;</b>\nsteady", "parse_mode": "HTML"})
        );
        assert_eq!(one.files, [upload("photo", "heron.png", 0)]);
        assert_eq!(album.method, "sendmediagroup");
        assert_eq!(
            album.body,
            json!({"chat_id": 600, "media": [
                {"type": "photo", "media": "attach://picture0", "caption": "Monday", "parse_mode": "HTML"},
                {"type": "photo", "media": "attach://picture1"}]})
        );
        assert_eq!(
            album.files,
            [upload("picture0", "fleet.png", 0), upload("picture1", "otter.png", 1)]
        );
        assert_eq!(file.method, "senddocument");
        let under = json!({"message_id": 4, "allow_sending_without_reply": true});
        assert_eq!(file.body, json!({"chat_id": 600, "reply_parameters": under}));
        assert_eq!(file.files, [upload("document", "fleet.xlsx", 0)]);
    });
    let mut tx = store.begin().await.unwrap();
    let keys: Vec<String> = sqlx::query_scalar("select remote_key from sends order by id")
        .fetch_all(&mut *tx)
        .await
        .unwrap();
    assert_eq!(keys, ["tg:600/1", "tg:600/2", "tg:600/4"]);
}

#[tokio::test]
async fn when_a_picture_is_refused_for_good_its_words_arrive() {
    let server = Server::start().await;
    server.api.with(|model| {
        model.send_faults.extend([
            Fault::BadGateway,
            Fault::Refuse(400, "Bad Request: PHOTO_INVALID_DIMENSIONS"),
        ]);
    });
    let one = pictures(&server.store, &["heron.png"], "Heron is fine").await;
    server.queue_bodies("tg:601", vec![one]).await;
    server
        .api
        .until("the words are there", |model| model.sent().len() == 1)
        .await;
    server.api.with(|model| {
        let methods: Vec<&str> = model.calls.iter().map(|call| call.method.as_str()).collect();
        assert_eq!(methods, ["sendphoto", "sendphoto", "sendmessage"]);
        assert_eq!(texts_to(model, 601), ["Heron is fine"]);
    });
    // A file that is gone from the store, and had no words: its name is told.
    let gone = document(&server.store, "").await;
    server.execute(&["delete from blobs"]).await;
    server.queue_bodies("tg:602", vec![gone]).await;
    server
        .api
        .until("its name is there", |model| texts_to(model, 602) == ["fleet.xlsx"])
        .await;
    server.stop().await;
}

#[tokio::test]
async fn a_chat_that_shut_the_bot_out_gets_no_words_of_a_picture_either() {
    let server = Server::start().await;
    server.api.with(|model| {
        model
            .send_faults
            .push_back(Fault::Refuse(403, "Forbidden: bot was kicked"))
    });
    let one = pictures(&server.store, &["heron.png"], "Heron").await;
    server.queue_bodies("tg:603", vec![one]).await;
    server.api.until("it was tried", |model| model.calls.len() == 1).await;
    server.queue("tg:604", &["hello"]).await;
    server
        .api
        .until("the other is served", |model| texts_to(model, 604) == ["hello"])
        .await;
    let (api, ..) = server.stop().await;
    api.with(|model| assert_eq!(model.calls.iter().filter(|call| call.chat() == 603).count(), 1));
}

#[tokio::test]
async fn a_long_text_arrives_whole_in_messages_that_end_with_a_line() {
    let server = Server::start().await;
    let line = "Heron 93.3% – sound, tap 180 → RO 12 ppm";
    let text = vec![line; 150].join("\n");
    server.queue("tg:605", &[&text]).await;
    server
        .api
        .until("both are there", |model| model.sent().len() == 2)
        .await;
    server.api.with(|model| {
        let texts = texts_to(model, 605);
        assert!(texts.iter().all(|text| text.ends_with("→ RO 12 ppm")), "whole lines");
        let whole = texts
            .concat()
            .replace("<b>", "")
            .replace("</b>", "")
            .replace("&gt;", ">");
        assert_eq!(whole, text);
        assert!(!texts[1].contains("<b>"), "a piece that goes on has no verdict");
    });
    server.stop().await;
}

#[tokio::test]
async fn a_picture_is_kept_as_long_as_somebody_waits_for_it() {
    let mut world = World::new().await;
    let store = world.desk.bot().store().clone();
    let mut kept = keep(&store, &["heron.png", "nobody-wants.png"], world.now).await;
    kept.truncate(1);
    let body = Body::Pictures {
        pictures: kept,
        caption: "Heron".to_owned(),
        reply_to: None,
    };
    let outgoing = Outgoing {
        chat: "desk:owner".to_owned(),
        body,
        source_key: None,
        handling: Handling::default(),
    };
    let mut tx = store.begin().await.unwrap();
    sends::queue(&mut tx, &outgoing, world.now).await.unwrap();
    tx.commit().await.unwrap();
    let count = async || {
        let mut tx = store.begin().await.unwrap();
        blobs::forget(&mut tx, world.now + DAY).await.unwrap();
        tx.commit().await.unwrap();
        let mut tx = store.begin().await.unwrap();
        sqlx::query_scalar::<_, i64>("select count(*) from blobs")
            .fetch_one(&mut *tx)
            .await
            .unwrap()
    };
    assert_eq!(count().await, 1, "what nobody carries goes, what waits stays");
    let heard = world.desk.time_passes(world.now).await.unwrap();
    insta::assert_snapshot!(script::write(&heard[..1], None), @r"
      bot to owner: [picture: heron.png]
           Heron
    ");
    assert_eq!(*heard[0].files[0].bytes, picture(0));
    assert_eq!(count().await, 0);
}
