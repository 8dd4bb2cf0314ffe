//! Spanish: what its answers show is understood when it is typed.

use insta::assert_snapshot;

use crate::world::World;

#[tokio::test]
async fn a_reading_is_answered_in_the_language_of_the_platform() {
    let mut world = World::new().await;
    world.desk.speaks("crew", "es-MX");
    assert_snapshot!(world.says("crew", "heron 180 12").await, @r"
    bot: Heron 93,3 % – aún es pronto
         red 180 → ósmosis 12 ppm
         Con 2 lecturas más lo sabré.
         Enjuaga la membrana antes de recoger.
    ");
    assert_snapshot!(world.says("crew", "heron red 182 → ósmosis 13 → vidrio 0,5 ppm").await, @r"
    bot: Heron 92,9 % – aún es pronto
         red 182 → ósmosis 13 → vidrio 0,5 ppm, estable desde la anterior de hoy
         Con una lectura más lo sabré.
    ");
    assert!(
        world.says("lead", "otter 180 12").await.contains("too early to tell"),
        "each in their own"
    );
}

#[tokio::test]
async fn red_is_the_mains_in_spanish_and_a_colour_in_english() {
    let mut world = World::new().await;
    world.says("crew", "my rig otter").await;
    assert!(world.says("crew", "red 214, ósmosis 19").await.contains("Otter"));
    world.says("owner", "add rig red panda").await;
    assert!(world.says("crew", "red 180 12").await.contains("Red Panda"));
    assert!(world.says("crew", "red 180, ósmosis 12").await.contains("Red Panda"));
}
