//! What nobody needs any more is cleared away, and what somebody does stays.

use crate::world::{HOUR, World};

const DAY: i64 = 24 * HOUR;
const PASSING: [&str; 6] = ["questions", "buttons", "heard", "sends", "slots", "unasked"];

async fn rows(world: &World, table: &str) -> i64 {
    let mut look = world.desk.bot().store().look().await.unwrap();
    let sql = sqlx::AssertSqlSafe(format!("select count(*) from {table}"));
    sqlx::query_scalar(sql).fetch_one(&mut *look).await.unwrap()
}

async fn clear(world: &World, days: i64) {
    world.desk.bot().clear_away(world.now + days * DAY).await.unwrap();
}

#[tokio::test]
async fn what_passes_by_is_cleared_away_and_what_was_recorded_stays() {
    let mut world = World::new().await;
    world.says("crew", "heron 180 12").await;
    world.says("crew", "otter 12 180").await;
    world.waits(10 * HOUR).await;
    for table in PASSING {
        assert!(rows(&world, table).await > 0, "{table}");
    }
    clear(&world, 1).await;
    for table in PASSING {
        assert!(rows(&world, table).await > 0, "{table} after a day");
    }
    clear(&world, 100).await;
    for table in PASSING {
        assert_eq!(rows(&world, table).await, 0, "{table} after a hundred days");
    }
    assert_eq!(rows(&world, "readings").await, 1);
    assert_eq!(rows(&world, "nudges").await, 1);
}
