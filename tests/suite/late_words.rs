//! What is told later than it was done, and corrected after that.

use crate::world::World;

const DAY: i64 = 86_400;

#[tokio::test]
async fn a_service_of_another_day_is_echoed_with_its_day_and_price() {
    let mut world = World::new().await;
    world.says("owner", "currency GBP").await;
    for (text, answer) in [
        (
            "otter resin changed 27/2 £140",
            "Otter: resin changed on Friday, £140. Logged. The resin count restarts from Friday.",
        ),
        (
            "mule new resin 15/1",
            "Mule: resin changed on 15 Jan. Logged. The resin count restarts from 15 Jan.",
        ),
        (
            "heron new membrane 15/01/26 £175",
            "Heron: new membrane on 15 Jan, £175. Logged. Counting from fresh since 15 Jan.",
        ),
        (
            "heron new resin",
            "Heron: resin changed. Logged. The resin count restarts now.",
        ),
        (
            "heron flushed this evening",
            "Heron: that's in the future, so I haven't logged it. Text me when it's done.",
        ),
    ] {
        let said = world.says("owner", text).await;
        assert!(said.contains(answer), "{text}: {said}");
    }
}

#[tokio::test]
async fn a_service_of_another_day_is_echoed_in_spanish() {
    let mut world = World::new().await;
    world.says("owner", "speak spanish").await;
    for (text, answer) in [
        (
            "otter resina nueva ayer",
            "Otter: resina cambiada ayer. Anotado. La cuenta de la resina empieza ayer.",
        ),
        ("otter membrana nueva 15/1", "Cuento desde cero a partir del 15"),
        ("heron membrana nueva ayer", "Cuento desde cero a partir de ayer."),
        (
            "mule resina nueva 15/1 140 euros",
            "La cuenta de la resina empieza el 15",
        ),
        ("heron lavado esta noche", "eso aún no ha pasado"),
        (
            "heron 182 13 esta tarde",
            "ese momento aún no ha llegado. ¿Anoto red 182",
        ),
        ("heron 182 13?", "Heron: red 182 → ósmosis 13 ppm. ¿Lo anoto?"),
    ] {
        let said = world.says("owner", text).await;
        assert!(said.contains(answer), "{text}: {said}");
    }
}

#[tokio::test]
async fn a_reading_of_a_time_to_come_is_asked_about() {
    let mut world = World::new().await;
    let asked = world.says("crew", "heron 182 13 this afternoon").await;
    assert!(
        asked.contains("that time hasn't come yet. Log tap 182 → RO 13 ppm as now?"),
        "{asked}"
    );
    assert!(world.says("crew", "yes").await.contains("Heron 92.9%"));
    let asked = world.says("crew", "heron 180 12?").await;
    assert!(asked.contains("Heron: tap 180 → RO 12 ppm. Log it?"), "{asked}");
}

#[tokio::test]
async fn a_correction_behind_a_service_is_the_services() {
    let mut world = World::new().await;
    world.says("owner", "currency GBP").await;
    world.says("crew", "otter 200 14").await;
    world.says("crew", "heron new resin £120").await;
    let moved = world.says("crew", "that was yesterday").await;
    assert!(
        moved.contains("Corrected:") && moved.contains("Heron: resin changed yesterday, £120."),
        "{moved}"
    );
    let priced = world.says("crew", "*130").await;
    assert!(priced.contains("Heron: resin changed yesterday, £130."), "{priced}");
    let other = world.says("crew", "not heron, mule").await;
    assert!(other.contains("Mule: resin changed yesterday, £130."), "{other}");
    let gone = world.says("crew", "scrap that").await;
    assert!(gone.contains("Undone: Mule, resin changed."), "{gone}");
    assert!(
        world.says("crew", "history otter").await.contains("tap 200 → RO 14"),
        "the reading stays"
    );
}

#[tokio::test]
async fn a_reading_is_deleted_by_its_rig_and_values() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "heron 190 13").await;
    let other = world.says("crew", "delete heron 170 12").await;
    assert!(other.contains("You've sent nothing"), "{other}");
    let gone = world.says("crew", "delete heron 180 12").await;
    assert!(gone.contains("Undone: Heron, tap 180 → RO 12 ppm."), "{gone}");
}

#[tokio::test]
async fn a_service_of_another_rig_leaves_the_question_open() {
    let mut world = World::new().await;
    world.says("crew", "otter 19 214").await;
    world.says("crew", "heron flushed").await;
    let answered = world.says("crew", "swap").await;
    assert!(answered.contains("tap 214 → RO 19"), "{answered}");
}

#[tokio::test]
async fn a_question_of_whose_service_it_was_lapses_after_an_hour() {
    let mut world = World::new().await;
    world.says("crew", "new membrane £180").await;
    world.now += 3700;
    let late = world.says("crew", "heron").await;
    assert!(!late.contains("new membrane"), "{late}");
}

#[tokio::test]
async fn who_moved_to_another_rig_is_on_it_today() {
    for text in ["switched to otter", "i'm on otter", "moved to otter", "estoy con otter"] {
        let mut world = World::new().await;
        world.says("crew", "my rig heron").await;
        world.says("crew", text).await;
        let read = world.says("crew", "160 8").await;
        assert!(read.contains("Otter"), "{text}: {read}");
        world.now += DAY;
        let read = world.says("crew", "160 8").await;
        assert!(read.contains("Heron"), "{text}, the next day: {read}");
    }
}

#[tokio::test]
async fn when_a_part_was_changed_is_told_by_its_day() {
    let mut world = World::new().await;
    world.says("crew", "otter 200 14").await;
    world.says("crew", "otter new resin 15/1").await;
    for text in [
        "when was resin last changed on otter",
        "¿cuándo se cambió la resina de otter?",
    ] {
        let told = world.says("crew", text).await;
        assert!(told.contains("15 Jan") && !told.contains("200"), "{text}: {told}");
    }
}

#[tokio::test]
async fn who_is_flushed_is_told_of_the_rigs_that_worked() {
    let mut world = World::new().await;
    assert!(
        world
            .says("lead", "has everyone flushed?")
            .await
            .contains("No hand-flushed rig has worked today.")
    );
    world.says("crew", "heron 180 12\notter 200 10").await;
    world.says("crew", "heron flushed").await;
    for text in ["has everyone flushed?", "which rigs are not flushed?"] {
        let told = world.says("lead", text).await;
        assert!(
            told.contains("Worked today and not flushed yet: Otter.\n     Flushed today: Heron."),
            "{told}"
        );
    }
    world.says("lead", "speak spanish").await;
    let told = world.says("lead", "¿quién no ha enjuagado?").await;
    assert!(
        told.contains("Trabajaron hoy y están sin enjuagar: Otter.") && told.contains("Enjuagados hoy: Heron."),
        "{told}"
    );
    world.now += DAY;
    let told = world.says("lead", "¿quién no ha enjuagado?").await;
    assert!(
        told.contains("Hoy no ha trabajado ningún equipo que se enjuague a mano."),
        "{told}"
    );
}

#[tokio::test]
async fn a_price_that_is_asked_for_is_shown_with_what_is_set() {
    let mut world = World::new().await;
    world.says("owner", "currency GBP").await;
    world.says("owner", "resin price 9").await;
    for text in [
        "resin price?",
        "prices",
        "what is the resin price?",
        "¿cuál es el precio de la resina?",
    ] {
        let told = world.says("owner", text).await;
        assert!(told.contains("£9"), "{text}: {told}");
    }
}

#[tokio::test]
async fn costs_are_told_of_the_months_that_are_asked_about() {
    let mut world = World::new().await;
    world.says("owner", "currency GBP").await;
    world.says("owner", "otter new resin 15/1/26 £100").await;
    for (text, has) in [
        ("what did otter cost in january?", true),
        ("what did otter cost since january?", true),
        ("what did otter cost in february?", false),
        ("what did otter cost in 2025?", false),
        ("what did otter cost in 2026?", true),
        ("¿cuánto costó otter en enero?", true),
        ("¿cuánto costó otter en 2025?", false),
    ] {
        let told = world.says("owner", text).await;
        assert_eq!(told.contains("£100"), has, "{text}: {told}");
    }
}

#[tokio::test]
async fn a_tap_three_times_off_is_doubted_from_the_second_reading_on() {
    for text in ["otter 1180 120", "otter 1,200 45", "otter 1400 14", "otter 40 2"] {
        let mut world = World::new().await;
        world.says("crew", "otter 200 14").await;
        let asked = world.says("crew", text).await;
        assert!(
            asked.contains("Otter: the tap has been 200 so far, and you sent"),
            "{text}: {asked}"
        );
    }
    let mut world = World::new().await;
    world.says("owner", "speak spanish").await;
    world.says("owner", "otter 200 14").await;
    let asked = world.says("owner", "otter 1180 120").await;
    assert!(asked.contains("la red daba 200 hasta ahora y mandaste 1180"), "{asked}");
}

#[tokio::test]
async fn talk_in_a_group_corrects_nothing() {
    let mut world = World::new().await;
    world.says_in_the_group("crew", "heron 180 12").await;
    world.now += 1200;
    for text in [
        "forget it mate",
        "make it 10",
        "i meant 10",
        "no, 10",
        "eran las 8",
        "no time for otter",
    ] {
        assert_eq!(world.says_in_the_group("crew", text).await, "", "{text}");
    }
    assert!(world.says_in_the_group("crew", "*10").await.contains("tap 180 → RO 10"));
}

#[tokio::test]
async fn a_reading_that_moves_fits_the_kind_of_its_rig() {
    let mut world = World::new().await;
    world.says("owner", "mule di only").await;
    world.says("crew", "heron 180 12").await;
    let moved = world.says("crew", "that was mule").await;
    assert!(moved.contains("tap 180 → glass 12 ppm"), "{moved}");
    world.says("crew", "mule 180 4").await;
    assert_eq!(
        world.says("crew", "that was heron").await,
        "bot: Heron has a membrane, so its RO reading is missing. I changed nothing. Send all of it: heron 180 12"
    );
    assert!(world.says("crew", "mule?").await.contains("glass 4 ppm"));
    world.desk.speaks("crew-2", "es");
    world.says("crew-2", "mule 170 3").await;
    assert_eq!(
        world.says("crew-2", "era heron").await,
        "bot: Heron tiene membrana y falta su lectura de ósmosis. No cambié nada. Mándala entera: heron 170 12"
    );
}
