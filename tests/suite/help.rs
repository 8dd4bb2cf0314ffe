//! Help that answers: by role, by what was just tried, a page at a time.

use insta::assert_snapshot;

use tapside::domain::envelope::{Arrived, Chat, Happening, Incoming, Person};

use crate::world::{DAY, World};

#[tokio::test]
async fn help_is_five_lines_at_most_and_depends_on_the_role() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("crew", "help").await, @r"
    bot: Send a rig, then tap, RO and, if you read it, glass: heron 180 12 | heron 180 12 0
         Did a job: heron flushed | heron new resin
         Look it up: heron? | fleet | history heron
         More: help reading | help questions | help safety | help topics
    ");
    let told = |said: String| said.lines().last().unwrap_or_default().trim().to_owned();
    assert_eq!(
        told(world.says("lead", "help").await),
        "More: help rigs | help people | help safety | help topics"
    );
    assert_eq!(
        told(world.says("owner", "help").await),
        "More: help settings | help prices | help safety | help topics"
    );
}

#[tokio::test]
async fn help_begins_with_what_was_just_tried() {
    let mut world = World::empty().await;
    world.desk.settle_in(world.now).await.unwrap();
    assert!(
        world
            .says("owner", "help")
            .await
            .contains("First add your rigs: add rig heron")
    );
    world.says("owner", "add rigs heron, otter").await;
    world.says("crew", "heron needs resin").await;
    assert!(
        world
            .says("crew", "help")
            .await
            .contains("What you just tried: help resin")
    );
    world.now += 3600;
    world.says("crew", "heron 180 12").await;
    assert!(
        world
            .says("crew", "help")
            .await
            .contains("Last one wrong? Edit your message, or type: undo")
    );
    world.says("crew", "heron 12 180").await;
    assert_snapshot!(world.says("crew", "help").await, @r"
    bot: I'm waiting for an answer: Heron: which way round? The RO is above the tap.
         To drop it, type: undo
    ");
}

#[tokio::test]
async fn wrong_input_meets_the_nearest_right_example() {
    let mut world = World::new().await;
    for (typed, answer) in [
        ("otter needs flushing", "bot: When it's done, type: otter flushed"),
        (
            "mule needs a new membrane",
            "bot: When it's changed, type: mule new membrane   How it is: membrane mule?",
        ),
        (
            "otter will get prefilters",
            "bot: When it's done, type: otter new prefilters",
        ),
        (
            "the otter",
            "bot: What about Otter? A reading: otter 180 12   How it is: otter?",
        ),
        (
            "we are late",
            "bot: I log water readings. Like this: heron 180 12   More: help",
        ),
    ] {
        assert_eq!(world.says("crew", typed).await, answer, "{typed}");
    }
    assert_eq!(
        world.says("crew", "late we are").await,
        "",
        "mere chatter gets one hint in ten minutes"
    );
    assert_snapshot!(world.says("crew", "otter 180").await, @"bot: Otter: got tap 180. What's the RO? Just the number, or both: otter 180 12");
    assert!(world.says("crew", "12").await.contains("Otter 93.3%"));
}

#[tokio::test]
async fn a_word_is_explained_and_a_question_stays_one() {
    let mut world = World::new().await;
    assert!(
        world
            .says("crew", "what does due mean?")
            .await
            .starts_with("bot: Plan a new one: ")
    );
    assert!(world.says("crew", "What is rejection?").await.contains("Rejection: "));
    assert!(
        world
            .says("crew", "hey, what does salt passage mean")
            .await
            .contains("Salt passage: ")
    );
    world.desk.speaks("crew", "es");
    assert!(
        world
            .says("crew", "¿qué significa due?")
            .await
            .starts_with("bot: Por cambiar: ")
    );
    assert!(world.says("crew", "¿qué es el vidrio?").await.contains("Vidrio: "));
}

#[tokio::test]
async fn the_chosen_language_stays_whatever_the_platform_says() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("crew", "idioma español").await, @"bot: A partir de ahora te respondo en español.");
    world.desk.speaks("crew", "fr");
    assert!(world.says("crew", "heron 180 12").await.contains("ósmosis"));
    assert_snapshot!(world.says("crew", "language english").await, @"bot: From now on I answer you in English.");
    world.desk.speaks("crew", "es");
    assert!(world.says("crew", "heron 180 12").await.contains("too early to tell"));
    assert_snapshot!(world.says("crew", "language automatic").await, @"bot: A partir de ahora te respondo en español.");
    assert!(
        world
            .says("crew", "idioma klingon")
            .await
            .contains("inglés y en español")
    );
}

#[tokio::test]
async fn in_a_group_a_cry_for_help_is_none_of_the_bots_business() {
    let mut world = World::new().await;
    world.waits(1).await;
    for (index, (text, heard)) in [("help lads", false), ("help qqqq", false), ("help flush", true)]
        .into_iter()
        .enumerate()
    {
        world.now += 60;
        let person = Person {
            address: "desk:owner".into(),
            private_chat: "desk:owner".into(),
            first_name: "owner".into(),
            language: Some("en".into()),
        };
        let incoming = Incoming {
            key: format!("group/{index}"),
            version: 0,
            chat: Chat {
                address: "desk:-100".into(),
                group: true,
            },
            person,
            sent_at: world.now,
            what: Happening::Text(text.into()),
            reply_to: None,
        };
        world
            .desk
            .bot()
            .hear(&[Arrived::Incoming(incoming)], world.now)
            .await
            .unwrap();
        assert_eq!(!world.waits(1).await.is_empty(), heard, "{text}");
    }
}

#[tokio::test]
async fn half_typed_things_are_met_in_private_and_not_in_a_group() {
    let mut world = World::new().await;
    for text in ["resin price", "resin price is up again", "add rig"] {
        assert_eq!(world.says_in_the_group("owner", text).await, "", "{text}");
    }
    assert_eq!(world.says("owner", "add rig").await, "bot: Like this: add rig lynx");
    // A crew member is shown nothing that only others may do, and talk stays talk.
    for text in ["add the van to the list", "make us some tea"] {
        assert!(!world.says("crew", text).await.contains("Like this: add rig"), "{text}");
        assert!(!world.says("crew", text).await.contains("NAME"), "{text}");
    }
}

#[tokio::test]
async fn a_caution_is_told_once_a_person_and_again_a_year_on() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("crew", "heron new membrane").await, @r"
    bot: Heron: new membrane. Logged. Counting from fresh.
         .
         Before you open a housing: turn the water off and let the pressure out.
         New membranes can come in preservative. Wear gloves and eye protection, follow the label, run the first water to waste.
    ");
    assert!(
        !world
            .says("crew", "heron new prefilters")
            .await
            .contains("let the pressure out"),
        "told already"
    );
    assert!(
        world
            .says("lead", "otter new prefilters")
            .await
            .contains("let the pressure out"),
        "not to the lead"
    );
    assert!(world.says("crew", "heron 180 12 2C").await.contains("Ice ruins"));
    assert!(!world.says("crew", "heron 180 12 2C").await.contains("Ice ruins"));
    world.now += 330 * DAY;
    assert!(world.says("crew", "heron 180 12 2C").await.contains("Ice ruins"));
}
