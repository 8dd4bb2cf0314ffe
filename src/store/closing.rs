//! Deleting an outfit with all that belongs to it.

use super::{Db, StoreError, forgetting};

/// Every table whose rows name their outfit, in the order in which they can go.
const OF_OUTFIT: [&str; 16] = [
    "delete from set_ups where outfit_id = $1",
    "delete from buttons where outfit_id = $1
         or question_id in (select id from questions where person_id in (select id from people where outfit_id = $1))",
    "delete from questions where person_id in (select id from people where outfit_id = $1)",
    "delete from invites where outfit_id = $1",
    "delete from imports where outfit_id = $1",
    "delete from changes where outfit_id = $1",
    "delete from settings where outfit_id = $1",
    "delete from digests where outfit_id = $1",
    "delete from notes where outfit_id = $1",
    "delete from nudges where outfit_id = $1",
    "delete from states where rig_id in (select id from rigs where outfit_id = $1)",
    "delete from services where outfit_id = $1",
    "delete from readings where outfit_id = $1",
    // Whoever moved to another outfit before that was seen to may still be named with a rig of this one.
    "update people set own_rig_id = null, today_rig_id = null, nudged_rig_id = null
         where own_rig_id in (select id from rigs where outfit_id = $1)
             or today_rig_id in (select id from rigs where outfit_id = $1)
             or nudged_rig_id in (select id from rigs where outfit_id = $1)",
    "delete from rigs where outfit_id = $1",
    "update people set outfit_id = null, role = null, own_rig_id = null, today_rig_id = null, nudged_rig_id = null
         where outfit_id = $1",
];

/// The tables that may still name a person who was in more than one outfit.
const NAMING: [&str; 7] = [
    "invites", "readings", "services", "settings", "changes", "imports", "nudges",
];

/// Deletes an outfit: its rigs, readings, services, settings, links, people,
/// and what was said to them. Somebody who recorded in another outfit, too, is
/// forgotten there as well, but the readings stay.
///
/// # Errors
/// Whatever the database says.
pub async fn delete(db: &mut Db, outfit_id: i64) -> Result<(), StoreError> {
    let mut people: Vec<i64> = sqlx::query_scalar("select id from people where outfit_id = $1")
        .bind(outfit_id)
        .fetch_all(&mut *db)
        .await?;
    let crew_chat = super::settings::crew_chat(db, outfit_id).await?;
    people.extend(gone_before(db, outfit_id).await?);
    for sql in OF_OUTFIT {
        sqlx::query(sql).bind(outfit_id).execute(&mut *db).await?;
    }
    for person in people {
        forgetting::person(db, person).await?;
        if !is_named(db, person).await? {
            sqlx::query("delete from people where id = $1")
                .bind(person)
                .execute(&mut *db)
                .await?;
        }
    }
    if let Some(chat) = crew_chat {
        forgetting::chat_and_its_keys(db, &chat).await?;
    }
    sqlx::query("delete from outfits where id = $1")
        .bind(outfit_id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Who recorded here, and is in no outfit any more.
async fn gone_before(db: &mut Db, outfit_id: i64) -> Result<Vec<i64>, StoreError> {
    Ok(sqlx::query_scalar(
        "select id from people where outfit_id is null and (
             id in (select person_id from readings where outfit_id = $1)
             or id in (select person_id from services where outfit_id = $1)
             or id in (select person_id from changes where outfit_id = $1))",
    )
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?)
}

async fn is_named(db: &mut Db, person_id: i64) -> Result<bool, StoreError> {
    for table in NAMING {
        let sql = sqlx::AssertSqlSafe(format!("select count(*) from {table} where person_id = $1"));
        let found: i64 = sqlx::query_scalar(sql).bind(person_id).fetch_one(&mut *db).await?;
        if found > 0 {
            return Ok(true);
        }
    }
    Ok(false)
}
