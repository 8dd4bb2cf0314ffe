//! Nudges: who was asked to flush which rig on which local date.

use super::{Db, StoreError};

/// A rig that somebody is to be asked about.
#[derive(Clone, Debug, PartialEq)]
pub struct Nudge<'a> {
    /// The outfit.
    pub outfit_id: i64,
    /// The rig.
    pub rig_id: i64,
    /// The local date, `2026-03-02`.
    pub on_date: &'a str,
    /// The chat that is asked.
    pub chat: &'a str,
    /// Who is asked; in a crew's chat, who worked the rig.
    pub person_id: i64,
    /// When to ask again, UTC seconds.
    pub again_at: i64,
}

/// Records a nudge; false if the rig was asked about on that date before.
///
/// # Errors
/// Whatever the database says.
pub async fn ask(db: &mut Db, nudge: &Nudge<'_>, now: i64) -> Result<bool, StoreError> {
    let asked = sqlx::query(
        "insert into nudges (outfit_id, rig_id, on_date, chat, person_id, asked_at, again_at)
         values ($1, $2, $3, $4, $5, $6, $7) on conflict (rig_id, on_date) do nothing",
    )
    .bind(nudge.outfit_id)
    .bind(nudge.rig_id)
    .bind(nudge.on_date)
    .bind(nudge.chat)
    .bind(nudge.person_id)
    .bind(now)
    .bind(nudge.again_at)
    .execute(&mut *db)
    .await?;
    Ok(asked.rows_affected() == 1)
}

/// A nudge that nobody has answered.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
pub struct Waiting {
    /// Its number.
    pub id: i64,
    /// The outfit.
    pub outfit_id: i64,
    /// The rig.
    pub rig_id: i64,
    /// The chat that was asked.
    pub chat: String,
    /// Who was asked.
    pub person_id: i64,
    /// When it was asked.
    pub asked_at: i64,
}

/// Nudges to repeat: due in `(after, now]`, neither answered nor repeated, the
/// rig not flushed since its last reading.
///
/// # Errors
/// Whatever the database says.
pub async fn to_repeat(db: &mut Db, after: i64, now: i64) -> Result<Vec<Waiting>, StoreError> {
    Ok(sqlx::query_as(
        "select id, outfit_id, rig_id, chat, person_id, asked_at from nudges
         where again_at > $1 and again_at <= $2 and repeated_at is null and not_used_at is null
           and not (select count(*) from services
                    where services.rig_id = nudges.rig_id and what = 'flush' and withdrawn_at is null
                      and done_at >= (select coalesce(max(taken_at), nudges.asked_at) from readings
                                      where readings.rig_id = nudges.rig_id and readings.withdrawn_at is null
                                        and readings.taken_at <= $2)) > 0
         order by chat, id",
    )
    .bind(after)
    .bind(now)
    .fetch_all(&mut *db)
    .await?)
}

/// Marks a nudge as repeated; false if it was before.
///
/// # Errors
/// Whatever the database says.
pub async fn repeat(db: &mut Db, id: i64, now: i64) -> Result<bool, StoreError> {
    let repeated = sqlx::query("update nudges set repeated_at = $1 where id = $2 and repeated_at is null")
        .bind(now)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(repeated.rows_affected() == 1)
}

/// Puts the repetition off; false if there is none to put off.
///
/// # Errors
/// Whatever the database says.
pub async fn put_off(
    db: &mut Db,
    outfit_id: i64,
    rig_id: i64,
    on_date: &str,
    again_at: i64,
) -> Result<bool, StoreError> {
    let put_off = sqlx::query(
        "update nudges set again_at = $1
         where rig_id = $2 and on_date = $3 and outfit_id = $4 and repeated_at is null and not_used_at is null",
    )
    .bind(again_at)
    .bind(rig_id)
    .bind(on_date)
    .bind(outfit_id)
    .execute(&mut *db)
    .await?;
    Ok(put_off.rows_affected() == 1)
}

/// Notes that the rig was not used on that date.
///
/// # Errors
/// Whatever the database says.
pub async fn not_used(db: &mut Db, outfit_id: i64, rig_id: i64, on_date: &str, now: i64) -> Result<(), StoreError> {
    sqlx::query("update nudges set not_used_at = $1 where rig_id = $2 and on_date = $3 and outfit_id = $4")
        .bind(now)
        .bind(rig_id)
        .bind(on_date)
        .bind(outfit_id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// When a rig was last asked about before `before`, unless somebody said that
/// it was not used.
///
/// # Errors
/// Whatever the database says.
pub async fn last_asked(db: &mut Db, outfit_id: i64, rig_id: i64, before: i64) -> Result<Option<i64>, StoreError> {
    Ok(sqlx::query_scalar(
        "select asked_at from nudges where rig_id = $1 and asked_at < $2 and outfit_id = $3 and not_used_at is null
         order by asked_at desc limit 1",
    )
    .bind(rig_id)
    .bind(before)
    .bind(outfit_id)
    .fetch_optional(&mut *db)
    .await?)
}

/// The rigs that a chat was asked about and that wait for an answer, since `since`.
///
/// # Errors
/// Whatever the database says.
pub async fn open_in(db: &mut Db, outfit_id: i64, chat: &str, since: i64) -> Result<Vec<i64>, StoreError> {
    Ok(sqlx::query_scalar(
        "select rig_id from nudges where chat = $1 and asked_at >= $2 and outfit_id = $3 and not_used_at is null order by id",
    )
    .bind(chat)
    .bind(since)
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?)
}
