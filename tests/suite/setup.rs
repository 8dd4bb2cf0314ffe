//! The guide through setting up, from the host's link on.

use insta::assert_snapshot;

use crate::world::World;

#[tokio::test]
async fn look() {
    let mut world = World::empty().await;
    let token = world.desk.bot().claim_token(world.now).await.unwrap().unwrap();
    let script = std::env::var("SCRIPT").unwrap_or_default();
    if std::env::var_os("ES").is_some() {
        world.desk.speaks("boss", "es-ES");
    }
    println!("{}", world.says("boss", &format!("/start {token}")).await);
    for line in script.split('|') {
        let line = line.replace("\\n", "\n");
        println!("> {line}\n{}", world.says("boss", &line).await);
    }
    let _ = assert_snapshot;
}
