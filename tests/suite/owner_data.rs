//! The owner's data: taken away, brought in, looked through, deleted.

use insta::assert_snapshot;
use tapside::domain::envelope::{Happening, is_group};

use crate::world::{DAY, World, arrived};

#[tokio::test]
async fn rows_are_shown_first_and_importing_twice_adds_nothing() {
    let mut world = World::new().await;
    let rows = "import\nrig;date;time;tap;ro;colour\nheron;02.03.2026;07:40;180;12,5;red\nwren;02.03.2026;08:00;190;20;\n\
                heron;;;180;12;\nheron;03.03.2026;07:40;many;12;\nheron;03.03.2036;07:40;180;12;";
    assert_snapshot!(world.says("owner", rows).await, @r#"
    bot: 2 new readings, 2 Mar
         New rigs, would be added: Wren
         1 line has a future date and is left out.
         Columns that I don't know: colour
         2 lines can't be read and would be left out:
         line 4: no date, or none that I can read
         line 5: no tap reading ("many")
         Import it? Tap a button, or type: import now | drop import
         [Import]  [Drop]
    "#);
    assert!(world.says("owner", "heron?").await.contains("no readings yet"));
    assert_snapshot!(world.says("owner", "[Import]").await, @r"
    bot: Imported: 2 readings, 1 rig.
         If that was wrong, type: undo import
    ");
    assert!(
        world
            .says("owner", "history heron")
            .await
            .contains("tap 180 → RO 12.5 ppm")
    );
    assert_snapshot!(world.says("owner", rows).await, @r#"
    bot: Nothing new to import.
         2 lines are here already and left out.
         1 line has a future date and is left out.
         Columns that I don't know: colour
         2 lines can't be read and would be left out:
         line 4: no date, or none that I can read
         line 5: no tap reading ("many")
    "#);
    assert_snapshot!(world.says("owner", "import now").await, @"bot: Nothing is waiting to be imported. How it works: import");
    assert_snapshot!(world.says("owner", "undo").await, @"bot: You've sent nothing in the last 12 hours that I can undo.");
    assert_snapshot!(world.says("owner", "undo import").await, @r"
    bot: Import undone.
         No longer counted: 2 readings.
         Removed again: Wren.
    ");
    assert!(world.says("owner", "heron?").await.contains("no readings yet"));
    world.says("owner", rows).await;
    assert_snapshot!(world.says("owner", "drop import").await, @"bot: OK, nothing imported.");
}

#[tokio::test]
async fn unclear_dates_are_asked_about() {
    let mut world = World::new().await;
    let rows = "import\nrig,date,tap,ro\nheron,02/03/2026,180,12";
    assert_snapshot!(world.says("owner", rows).await, @r"
    bot: Is 02/03/2026 written with the day first, or the month first?
         Tap a button, or type: day first | month first
         [Day first]  [Month first]
    ");
    assert_snapshot!(world.says("owner", "[Month first]").await, @r"
    bot: 1 new reading, 3 Feb
         Import it? Tap a button, or type: import now | drop import
         [Import]  [Drop]
    ");
    assert_snapshot!(world.says("owner", "import").await, @r"
    bot: Send me a sheet as a CSV file, or paste its rows below the word import:
         import
         rig,date,tap,ro
         heron,2026-03-02 07:40,180,12
         Services: rig,date,service. Settings: a line each, like: resin price 9. You see what would come in before it does.
    ");
    assert_snapshot!(world.says("owner", "import\nname,age\nanna,3").await, @r"
    bot: I can't tell the columns. The first line must name them, like this:
         rig,date,tap,ro
         or for services: rig,date,service
    ");
}

#[tokio::test]
async fn who_changed_what_is_told_to_the_owner() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "undo").await;
    world.says("owner", "make crew lead").await;
    world.says("owner", "resin price 9").await;
    world.now += DAY;
    assert_snapshot!(world.says("owner", "changes").await, @r#"
    bot: Who changed what, newest first
         yesterday  owner: set "resin price 9 a litre"
         yesterday  owner: made crew lead
         yesterday  crew: undid Heron, tap 180 → RO 12 ppm
         yesterday  owner: added Mule
         yesterday  owner: added Otter
         yesterday  owner: added Heron
         yesterday  owner: joined
    "#);
    assert!(world.says("crew", "changes").await.contains("Only an owner"));
}

#[tokio::test]
async fn a_groups_chat_is_linked_where_it_is_and_keeps_its_link_when_it_moves() {
    let mut world = World::new().await;
    assert_snapshot!(world.says("lead", "link crew chat").await, @"bot: Add me to your crew's group and type it there: link crew chat");
    world.desk.bot().set_hears_groups(false);
    world.says("crew", "hello").await;
    for (who, text) in [
        ("crew", "link crew chat"),
        ("lead", "link crew chat"),
        ("owner", "export"),
    ] {
        let what = Happening::Text(text.to_owned());
        let said = arrived(&format!("yard/{who}/{text}"), 0, "#desk:yard", who, what, world.now);
        world.desk.bot().hear(&[said], world.now).await.unwrap();
    }
    let heard = world.waits(1).await;
    let in_the_yard = heard.split("\nbot to lead").next().unwrap_or_default();
    assert_snapshot!(in_the_yard, @r"
    bot to #desk:yard: Only an owner or lead can do that.
    bot to #desk:yard: This is My outfit's crew chat now. Readings count here as they do in private: heron 180 12
         Reminders that reach nobody in private come here. To end it: unlink crew chat
         But I can't see ordinary messages here yet: in groups Telegram shows me only commands and replies to me.
         Make me an administrator of this group. Or ask my host to switch privacy mode off at @BotFather (/setprivacy), then take me out of the group and add me again.
    bot to #desk:yard: That's for our private chat. Type it there.
    ");
    let to = "#desk:big-yard".to_owned();
    let moved = arrived("moved", 0, "#desk:yard", "lead", Happening::Moved { to }, world.now);
    world.desk.bot().hear(&[moved], world.now).await.unwrap();
    let mut tx = world.desk.bot().store().begin().await.unwrap();
    let chat = tapside::store::settings::crew_chat(&mut tx, 1).await.unwrap().unwrap();
    drop(tx);
    assert!(is_group(&chat));
    assert_eq!(chat, "#desk:big-yard");
    assert_snapshot!(world.says("lead", "unlink crew chat").await, @"bot: No crew chat is linked any more. Readings in groups still count.");
}
