//! The months that are not ordinary: each share is told by a line of its own.

use crate::world::World;

#[tokio::test]
async fn a_busy_summer_leaves_the_quiet_winter() {
    let mut world = World::new().await;
    world.says("owner", "busy december-january 50 %").await;
    let told = world.says("owner", "busy june-august 150 %").await;
    assert_eq!(told, "bot: Set: busy Jun, Jul, Aug 150 %.");
    let settings = world.says("owner", "settings").await;
    assert!(settings.contains("busy Jan, Dec 50 %\n"), "{settings}");
    assert!(settings.contains("busy Jun, Jul, Aug 150 %\n"), "{settings}");
    world.says("owner", "busy default").await;
    assert!(!world.says("owner", "settings").await.contains("busy Jan"));
}
