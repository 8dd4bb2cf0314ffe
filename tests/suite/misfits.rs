//! What arrives twice, out of order, or broken.

use insta::assert_snapshot;
use tapside::domain::envelope::{Arrived, Happening};
use tapside::store::{dead, readings};

use crate::world::{World, arrived};

fn text(key: &str, version: i64, text: &str, sent_at: i64) -> Arrived {
    arrived(
        key,
        version,
        "desk:crew",
        "crew",
        Happening::Text(text.to_owned()),
        sent_at,
    )
}

#[tokio::test]
async fn a_repeated_delivery_counts_once() {
    let mut world = World::new().await;
    world.says("crew", "hello").await;
    let batch = [
        text("m/1", 0, "heron 180 12", world.now),
        text("m/2", 0, "otter 200 10", world.now),
    ];
    for _ in 0..3 {
        world.desk.bot().hear(&batch, world.now).await.unwrap();
    }
    let answers = world.waits(1).await;
    assert_eq!(answers.matches("93.3%").count(), 1, "{answers}");
    assert_eq!(world.says("crew", "history heron").await.matches("tap 180").count(), 1);
}

#[tokio::test]
async fn an_edit_that_comes_before_its_message_wins() {
    let mut world = World::new().await;
    world.says("crew", "hello").await;
    let (first, edit) = (
        text("m/1", 0, "heron 180 21", world.now),
        text("m/1", 5, "heron 180 12", world.now),
    );
    world
        .desk
        .bot()
        .hear(&[edit.clone(), first.clone(), edit, first], world.now)
        .await
        .unwrap();
    world.waits(1).await;
    let history = world.says("crew", "history heron").await;
    assert!(history.contains("RO 12") && !history.contains("RO 21"), "{history}");
}

#[tokio::test]
async fn what_cannot_be_read_is_kept_aside_and_the_rest_goes_on() {
    let mut world = World::new().await;
    world.says("crew", "hello").await;
    let mut batch = Vec::new();
    for n in 0..100 {
        batch.push(match n % 5 {
            0 => Arrived::Unreadable {
                key: format!("u/{n}"),
                payload: "{\"update_id\":\u{0}".to_owned(),
            },
            _ => text(&format!("m/{n}"), 0, "heron 180 12", world.now),
        });
    }
    world.desk.bot().hear(&batch, world.now).await.unwrap();
    let mut tx = world.desk.bot().store().begin().await.unwrap();
    assert_eq!(dead::count(&mut tx).await.unwrap(), 20);
    let rig: i64 = 1;
    assert_eq!(readings::latest(&mut tx, rig, i64::MAX, 1000).await.unwrap().len(), 80);
    tx.commit().await.unwrap();
}

#[tokio::test]
async fn odd_texts_get_an_answer_or_silence_but_never_break() {
    let mut world = World::new().await;
    world.says("crew", "hello").await;
    let mega = "180 12 ".repeat(150_000);
    for odd in [
        "\u{0}heron 180 12",
        "'; drop table readings; --",
        "heron \u{202e}180 12",
        "<b>heron</b>",
        "🐢🐢🐢",
        "/",
        "[",
        &mega,
    ] {
        world.says("crew", odd).await;
    }
    assert!(world.says("crew", "heron 180 12").await.contains("Heron 93.3%"));
}

#[tokio::test]
async fn a_reading_from_the_future_counts_now() {
    let mut world = World::new().await;
    world.says("crew", "hello").await;
    world
        .desk
        .bot()
        .hear(&[text("m/1", 0, "heron 180 12", world.now + 9_000_000)], world.now)
        .await
        .unwrap();
    world.waits(1).await;
    assert!(world.says("crew", "history heron").await.contains("today  tap 180"));
}

/// What the handler cannot stand is rolled back whole, and whoever typed it is told so.
#[tokio::test]
async fn a_fault_of_ours_is_admitted_and_nothing_of_it_counts() {
    let mut world = World::new().await;
    world.says("crew", "hello").await;
    // No release ever wrote such a role.
    set_role(&mut world, "captain").await;
    for (key, language) in [("m/1", "en"), ("m/2", "es")] {
        let mut message = text(key, 0, "heron 180 12", world.now);
        if let Arrived::Incoming(incoming) = &mut message {
            incoming.person.language = Some(language.to_owned());
        }
        world.desk.bot().hear(&[message], world.now).await.unwrap();
    }
    assert_snapshot!(world.waits(1).await, @r"
    bot to crew: Something went wrong at my end, and this message wasn't counted. Please type it again.
    bot to crew: Algo falló de mi lado y este mensaje no cuenta. Escríbelo otra vez, por favor.
    ");
    set_role(&mut world, "crew").await;
    assert!(!world.says("crew", "history heron").await.contains("tap 180"));
    assert!(world.says("crew", "heron 180 12").await.contains("Heron 93.3%"));
}

async fn set_role(world: &mut World, role: &str) {
    let mut tx = world.desk.bot().store().begin().await.unwrap();
    sqlx::query("update people set role = $1 where address = 'desk:crew'")
        .bind(role)
        .execute(&mut *tx)
        .await
        .unwrap();
    tx.commit().await.unwrap();
}
