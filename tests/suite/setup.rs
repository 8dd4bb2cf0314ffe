//! The guide through setting up, from the host's link on.

use insta::assert_snapshot;

use tapside::bot::Tokens;
use tapside::desk::{Desk, Manner};
use tapside::store::Store;

use crate::database::fresh_url;
use crate::world::{DAY, World};

/// An outfit that was just claimed by its boss, and the first question.
pub async fn claimed(language: &str) -> (World, String) {
    let mut world = World::empty().await;
    world.desk.speaks("boss", language);
    let token = world.desk.bot().claim_token(world.now).await.unwrap().unwrap();
    let welcome = world.says("boss", &format!("/start {token}")).await;
    (world, welcome)
}

/// The boss says these one after another; the answer to the last.
pub async fn says(world: &mut World, lines: &[&str]) -> String {
    let mut heard = String::new();
    for line in lines {
        heard = world.says("boss", line).await;
    }
    heard
}

#[tokio::test]
async fn five_messages_lead_from_the_link_to_the_first_reading() {
    let (mut world, welcome) = claimed("en").await;
    assert_snapshot!(welcome, @r"
    bot: This outfit is yours. I ask a few things, one at a time, and each can wait: skip, or stop.
         Take readings and text with both feet on safe ground, never from a ladder or near an edge.
         Purified water isn't drinking water.
         .
         What is the outfit called?
         [Skip]
    ");
    assert_snapshot!(world.says("boss", "Blue Ladder").await, @r"
    bot: The outfit is called Blue Ladder.
         .
         Which country do you work in?
         It sets units, currency and clock. Not listed? Type it.
         [United Kingdom]  [United States]  [Skip]
    ");
    assert_snapshot!(world.says("boss", "[United Kingdom]").await, @r"
    bot: Set: country GB.
         Using meter ppm, degrees C, pressure bar, volume litres, currency GBP. To change one, type it, like: meter uS
         Local time is Europe/London: it's 08:03 there.
         .
         Which rigs do you have?
         All names in one message, like: heron, otter. A pasted list is fine too.
         [Skip]
    ");
    assert_snapshot!(world.says("boss", "heron, otter and mule").await, @r"
    bot: Added: Heron, Otter, Mule. Send readings like this: heron 180 12
         Check local rules before you run waste water anywhere or connect to a tap (backflow). Leave plumbing to a licensed plumber.
         .
         Try it whenever you like, tap first, then the RO outlet.
         Let it run a few minutes and rinse the cup. The RO outlet is the hose that feeds the resin.
         The rest of the set-up takes about two minutes.
         [Go on]  [Later]
    ");
    assert_snapshot!(world.says("boss", "heron 180 12").await, @r"
    bot: Heron 93.3% – too early to tell
         tap 180 → RO 12 ppm
         2 more readings, and I can tell.
         Flush before you pack up.
         .
         That's all a crew has to text. Go on with the set-up? About two minutes.
         [Go on]  [Later]
    ");
}

#[tokio::test]
async fn the_rest_is_answered_by_button() {
    let (mut world, _) = claimed("en").await;
    says(&mut world, &["Blue Ladder", "[United Kingdom]", "heron, otter, mule"]).await;
    for (press, asked) in [
        (
            "[Go on]",
            "Is this right? working days Monday - Friday, day ends 17:00, digest Monday 07:00",
        ),
        ("[One by one]", "Which days do you work?"),
        ("[Monday - Saturday]", "When does the working day end?"),
        ("[16:00]", "When do you want the weekly digest?"),
        (
            "[Friday 16:00]",
            "Is this right for Heron? RO and DI, 1 membrane, flushed by hand, upright",
        ),
        ("[One by one]", "Heron: what does it run on?"),
        ("[RO and DI]", "Heron: how many membranes?"),
        ("[2 membranes]", "Heron: how is the membrane flushed?"),
        ("[flushes itself]", "Heron: is the resin bottle upright or on its side?"),
        ("[lying]", "Heron: how much resin does it hold?"),
        (
            "[25 litres]",
            "Is this right for Mule? RO and DI, 1 membrane, flushed by hand, upright",
        ),
        ("[Same as Heron]", "Is this right for Otter?"),
        ("[Yes, that's right]", "Otter: how much resin does it hold?"),
        ("[Skip]", "What does one new membrane cost you?"),
        ("180", "What does a litre of resin cost you?"),
        ("25 litres cost 225", "About how much water"),
        ("[800 litres]", "Invite your crew now?"),
        ("[Invite]", "The outfit is set up."),
    ] {
        let heard = world.says("boss", press).await;
        assert!(heard.contains(asked), "{press} was answered by:\n{heard}");
    }
    assert_snapshot!(world.says("boss", "mule settings").await, @r"
    bot: Mule. To change a line, type it with another value.
         mule resin 25 litres
         mule 2 membranes
         mule RO and DI
         mule lying
         Back to the default: mule resin default
    ");
    let settings = world.says("boss", "settings").await;
    for line in [
        "resin price £9 a litre",
        "membrane price £180",
        "800 litres a day",
        "day ends 16:00",
    ] {
        assert!(settings.contains(line), "{line} is missing in:\n{settings}");
    }
    assert!(world.says("boss", "mule 180 12").await.contains("93.3%"));
}

#[tokio::test]
async fn every_step_can_be_skipped_by_text_and_skipped_ones_are_asked_again_later() {
    let (mut world, _) = claimed("en").await;
    let mut heard = says(&mut world, &["skip", "skip"]).await;
    assert!(heard.contains("What time is it where you work?"), "{heard}");
    heard = says(&mut world, &["skip", "heron", "skip", "skip", "skip", "skip"]).await;
    assert!(heard.contains("one new membrane cost"), "{heard}");
    heard = says(&mut world, &["skip", "skip", "skip", "skip"]).await;
    assert!(heard.contains("The outfit is set up."), "{heard}");
    assert!(
        world
            .says("boss", "set up")
            .await
            .contains("What is the outfit called?")
    );
    assert!(world.says("boss", "Blue Ladder").await.contains("Which country"));
}

#[tokio::test]
async fn it_stops_and_goes_on_where_it_was_left() {
    let (mut world, _) = claimed("en").await;
    says(&mut world, &["Blue Ladder"]).await;
    assert_snapshot!(world.says("boss", "stop").await, @"bot: Fine, that can wait. Readings work all the same. To go on: set up");
    assert!(
        world.says("boss", "spain").await.contains("I log water readings"),
        "nobody asked"
    );
    assert!(world.says("boss", "set up").await.contains("Which country"));
    world.now += DAY;
    assert!(
        !world.says("boss", "spain").await.contains("country ES"),
        "a question of yesterday has lapsed"
    );
    assert!(world.says("boss", "/setup").await.contains("Which country"));
    assert!(
        world
            .says("boss", "spain")
            .await
            .contains("Local time is Europe/Madrid")
    );
}

#[tokio::test]
async fn nonsense_gets_the_question_again_and_loses_nothing() {
    let (mut world, _) = claimed("en").await;
    assert_snapshot!(world.says("boss", "what is this?").await, @r#"
    bot: I didn't get "what is this?".
         .
         What is the outfit called?
         [Skip]
    "#);
    for (answer, told) in [
        ("Blue Ladder", "called Blue Ladder"),
        ("atlantis", "I didn't get \"atlantis\"."),
        ("usa", "pressure psi, volume gallons, currency USD"),
        ("banana", "No zone called \"banana\""),
        ("Dallas, TX", "America/Chicago"),
        ("please come back tomorrow morning", "I didn't get"),
        ("heron", "Added Heron."),
        ("[Go on]", "Is this right?"),
        ("mon-sat, banana", "I didn't get"),
        ("mon-sat, 4.30 pm", "ends at 16:30."),
        ("2 membranes, green", "I didn't get"),
        ("2 membranes, lying", "how much resin"),
        ("lots", "I didn't get"),
        ("1 cubic foot", "resin 7.48 gallons"),
        ("dunno", "I didn't get"),
        ("$180", "membrane price $180"),
    ] {
        let heard = world.says("boss", answer).await;
        assert!(heard.contains(told), "{answer} was answered by:\n{heard}");
    }
}

#[tokio::test]
async fn a_reading_in_the_middle_is_recorded_and_the_question_comes_again() {
    let (mut world, _) = claimed("en").await;
    says(&mut world, &["Blue Ladder", "uk", "heron, otter", "go on"]).await;
    assert_snapshot!(world.says("boss", "heron 180 12").await, @r"
    bot: Heron 93.3% – too early to tell
         tap 180 → RO 12 ppm
         2 more readings, and I can tell.
         Flush before you pack up.
         .
         Is this right? working days Monday - Friday, day ends 17:00, digest Monday 07:00
         [Yes, that's right]  [One by one]
    ");
    let doubt = world.says("boss", "otter 19 214").await;
    assert!(
        doubt.contains("which way round?") && !doubt.contains("Is this right"),
        "one question at a time:\n{doubt}"
    );
    let settled = world.says("boss", "[tap 214, RO 19]").await;
    assert!(settled.contains("Otter 91.1%"), "{settled}");
    assert!(
        settled.contains("The rest of the set-up waits."),
        "after three the guide waits:\n{settled}"
    );
}

#[tokio::test]
async fn the_first_message_may_be_a_reading() {
    let (mut world, _) = claimed("en").await;
    assert_snapshot!(world.says("boss", "heron 180 12").await, @r"
    bot: No rigs yet. An owner or lead types: add rig heron
         [Add Heron]
    ");
    assert_snapshot!(world.says("boss", "[Add Heron]").await, @r"
    bot: Added Heron. Send readings like this: heron 180 12
         .
         Heron 93.3% – too early to tell
         tap 180 → RO 12 ppm
         2 more readings, and I can tell.
         Flush before you pack up.
         Check local rules before you run waste water anywhere or connect to a tap (backflow). Leave plumbing to a licensed plumber.
         .
         What is the outfit called?
         [Skip]
    ");
}

#[tokio::test]
async fn an_edited_answer_is_answered_again_and_an_old_button_answers_no_other_question() {
    let (mut world, _) = claimed("en").await;
    world.says("boss", "Blue Laddr").await;
    assert_snapshot!(world.edits("boss", "Blue Ladder").await, @r"
    bot: The outfit is called Blue Ladder.
         .
         Which country do you work in?
         [United Kingdom]  [United States]  [Skip]
    ");
    says(&mut world, &["[United States]", "[Chicago 02:04]"]).await;
    let heard = world.says("boss", "[United Kingdom]").await;
    assert!(
        heard.contains("country GB") && heard.contains("Which rigs do you have?"),
        "{heard}"
    );
}

#[tokio::test]
async fn a_restart_in_the_middle_loses_nothing() {
    let (url, _guard) = fresh_url().await;
    let mut now = 1_772_611_200;
    let open = |session: &str, store: Store, tokens: Tokens| {
        Desk::new(store, "Europe/London".to_owned(), tokens, session.to_owned())
    };
    let store = Store::open(&url).await.unwrap();
    store.migrate().await.unwrap();
    let mut desk = open("before", store.clone(), Tokens::counted());
    desk.settle_in(now).await.unwrap();
    now += 60;
    desk.says("owner", Manner::Says, "Blue Ladder", now).await.unwrap();
    store.close().await;
    let store = Store::open(&url).await.unwrap();
    let mut desk = open("after", store.clone(), Tokens::Random);
    now += 60;
    let heard = desk.says("owner", Manner::Says, "uk", now).await.unwrap();
    let text = &heard[0].text;
    assert!(
        text.contains("country GB") && text.contains("Which rigs do you have?"),
        "{text}"
    );
    store.close().await;
}

#[tokio::test]
async fn it_speaks_spanish() {
    let (mut world, welcome) = claimed("es-MX").await;
    assert_snapshot!(welcome, @r"
    bot: Esta empresa es tuya. Pregunto unas pocas cosas, de una en una, y todas pueden esperar: omitir, o parar.
         Mide y escribe con los dos pies en suelo seguro, nunca desde una escalera ni cerca de un borde.
         El agua purificada no es agua potable.
         .
         ¿Cómo se llama la empresa?
         [Omitir]
    ");
    for (answer, asked) in [
        ("Escalera Azul", "[México]  [Reino Unido]  [Omitir]"),
        ("españa", "La hora local es la de Europe/Madrid"),
        ("garza, nutria y mula", "Pruébalo cuando quieras"),
        ("garza 180 12", "Garza 93,3 % – aún es pronto"),
        ("seguir", "¿Es así?"),
        ("no", "¿Qué días trabajas?"),
        ("lun-sáb", "¿A qué hora acaba la jornada?"),
        ("a las 16:30", "¿Cuándo quieres el resumen semanal?"),
        (
            "viernes 16:00",
            "¿Es así Garza? ósmosis y resina, 1 membrana, se lava a mano, de pie",
        ),
        ("2 membranas, se lava solo, tumbado", "Garza: ¿cuánta resina lleva?"),
        ("25 litros", "¿Es así Mula?"),
        ("igual que garza", "¿Es así Nutria?"),
        ("solo ósmosis", "Nutria: solo ósmosis."),
        ("180 euros", "¿Cuánto te cuesta un litro de resina?"),
        ("25 litros cuestan 225", "precio resina 9 € el litro"),
        ("más o menos nada", "No entendí \"más o menos nada\"."),
        ("600", "¿Invitas ya a tu gente?"),
        ("omitir", "La empresa está configurada."),
        (
            "configurar mula",
            "¿Es así Mula? ósmosis y resina, 2 membranas, se lava solo, tumbado",
        ),
        ("parar", "Para seguir: configurar"),
    ] {
        let heard = world.says("boss", answer).await;
        assert!(heard.contains(asked), "{answer} was answered by:\n{heard}");
    }
}

#[tokio::test]
async fn names_that_come_a_question_late_are_shown_how_to_add() {
    for (language, late, shown) in [
        ("en", "otter, mule", "More rigs? Type: add rigs otter, mule"),
        (
            "es",
            "nutria, mula",
            "¿Más equipos? Escribe: agregar equipos nutria, mula",
        ),
    ] {
        let mut world = World::empty().await;
        world.desk.speaks("owner", language);
        world.desk.settle_in(world.now).await.unwrap();
        for said in ["Blue Ladder", "uk", "heron"] {
            world.says("owner", said).await;
        }
        let answer = world.says("owner", late).await;
        assert!(answer.contains(shown), "{answer}");
        world.says("owner", shown.split(": ").nth(1).unwrap()).await;
        let fleet = world.says("owner", "fleet").await;
        assert!(fleet.contains("3 "), "{fleet}");
    }
}

#[tokio::test]
async fn a_larger_place_is_known_wherever_it_lies() {
    let mut world = World::new().await;
    for (typed, zone) in [
        ("zone Dallas", "America/Chicago"),
        ("zone Kraków", "Europe/Warsaw"),
        ("zona Ciudad de México", "America/Mexico_City"),
        ("zona Guadalajara", "America/Mexico_City"),
    ] {
        let answer = world.says("owner", typed).await;
        assert!(answer.contains(zone), "{typed}: {answer}");
    }
}
