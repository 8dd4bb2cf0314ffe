//! Services: what was done to a rig, by whom, when.

use std::collections::HashMap;

use super::readings::Teller;
use super::{Db, StoreError};

/// Something done to a rig.
#[derive(Clone, Debug, Default, PartialEq, sqlx::FromRow)]
pub struct Service {
    /// Its number.
    pub id: i64,
    /// The rig.
    pub rig_id: i64,
    /// Who told it.
    pub person_id: i64,
    /// The message that it came in.
    pub source_key: String,
    /// `membrane`, `resin`, `repack`, `prefilter`, `flush` or `oring`.
    pub what: String,
    /// When it was done, UTC seconds.
    pub done_at: i64,
    /// How long it took, where that was said.
    pub minutes: Option<i64>,
    /// What it cost in the currency's smallest unit, where that was said.
    pub price_minor: Option<i64>,
    /// When it was withdrawn; none while it stands.
    pub withdrawn_at: Option<i64>,
}

macro_rules! select {
    ($rest:literal) => {
        concat!(
            "select id, rig_id, person_id, source_key, what, done_at, minutes, price_minor, withdrawn_at from services ",
            $rest
        )
    };
}

/// Records a service that stands; its `id` and `person_id` are ignored.
///
/// # Errors
/// Whatever the database says.
pub async fn record(db: &mut Db, teller: Teller, service: &Service) -> Result<(), StoreError> {
    sqlx::query(
        "insert into services (outfit_id, rig_id, person_id, source_key, what, done_at, heard_at, minutes, price_minor)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9)",
    )
    .bind(teller.outfit_id)
    .bind(service.rig_id)
    .bind(teller.person_id)
    .bind(&service.source_key)
    .bind(&service.what)
    .bind(service.done_at)
    .bind(teller.heard_at)
    .bind(service.minutes)
    .bind(service.price_minor)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// Sets what a service cost, in the currency's smallest unit.
///
/// # Errors
/// Whatever the database says.
pub async fn set_price(db: &mut Db, id: i64, minor: i64) -> Result<(), StoreError> {
    sqlx::query("update services set price_minor = $1 where id = $2")
        .bind(minor)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Marks a service as withdrawn.
///
/// # Errors
/// Whatever the database says.
pub async fn withdraw(db: &mut Db, id: i64, now: i64) -> Result<(), StoreError> {
    sqlx::query("update services set withdrawn_at = $1 where id = $2")
        .bind(now)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// The standing services of one message.
///
/// # Errors
/// Whatever the database says.
pub async fn of_message(db: &mut Db, source_key: &str) -> Result<Vec<Service>, StoreError> {
    Ok(
        sqlx::query_as(select!("where source_key = $1 and withdrawn_at is null order by id"))
            .bind(source_key)
            .fetch_all(&mut *db)
            .await?,
    )
}

/// The message with which a person last recorded a service that stands, heard
/// at `since` or later, and when it was heard.
///
/// # Errors
/// Whatever the database says.
pub async fn last_message(db: &mut Db, person_id: i64, since: i64) -> Result<Option<(String, i64)>, StoreError> {
    Ok(sqlx::query_as(
        "select source_key, heard_at from services
         where person_id = $1 and heard_at >= $2 and withdrawn_at is null and source_key not like 'import:%'
         order by heard_at desc, id desc limit 1",
    )
    .bind(person_id)
    .bind(since)
    .fetch_optional(&mut *db)
    .await?)
}

/// All standing services of a rig, oldest first.
///
/// # Errors
/// Whatever the database says.
pub async fn of_rig(db: &mut Db, rig_id: i64) -> Result<Vec<Service>, StoreError> {
    Ok(sqlx::query_as(select!(
        "where rig_id = $1 and withdrawn_at is null order by done_at, id"
    ))
    .bind(rig_id)
    .fetch_all(&mut *db)
    .await?)
}

/// Every service of an outfit, withdrawn or not, in the order in which they were done.
///
/// # Errors
/// Whatever the database says.
pub async fn of_outfit(db: &mut Db, outfit_id: i64) -> Result<Vec<Service>, StoreError> {
    Ok(sqlx::query_as(select!("where outfit_id = $1 order by done_at, id"))
        .bind(outfit_id)
        .fetch_all(&mut *db)
        .await?)
}

/// When a service of this kind was last done to a rig.
///
/// # Errors
/// Whatever the database says.
pub async fn last_done(db: &mut Db, rig_id: i64, what: &str) -> Result<Option<i64>, StoreError> {
    Ok(sqlx::query_scalar(
        "select done_at from services where rig_id = $1 and what = $2 and withdrawn_at is null
         order by done_at desc limit 1",
    )
    .bind(rig_id)
    .bind(what)
    .fetch_optional(&mut *db)
    .await?)
}

/// When a service of this kind was last done to each rig of a fleet; rigs to which it
/// never was are left out.
///
/// # Errors
/// Whatever the database says.
pub async fn last_done_on_fleet(db: &mut Db, outfit_id: i64, what: &str) -> Result<HashMap<i64, i64>, StoreError> {
    // A look into the index for each rig; a join would read every service of the kind.
    let rows: Vec<(i64, Option<i64>)> = sqlx::query_as(
        "select id, (select max(done_at) from services
                     where rig_id = rigs.id and what = $2 and withdrawn_at is null)
         from rigs where outfit_id = $1 and removed_at is null",
    )
    .bind(outfit_id)
    .bind(what)
    .fetch_all(&mut *db)
    .await?;
    Ok(rows.into_iter().filter_map(|(rig, at)| Some((rig, at?))).collect())
}

/// When a service of this kind was last done to a rig, and the first name of who
/// told it, while that is known.
///
/// # Errors
/// Whatever the database says.
pub async fn last_done_by(db: &mut Db, rig_id: i64, what: &str) -> Result<Option<(i64, Option<String>)>, StoreError> {
    Ok(sqlx::query_as(
        "select services.done_at, people.first_name from services
         left join people on people.id = services.person_id
         where services.rig_id = $1 and services.what = $2 and services.withdrawn_at is null
         order by services.done_at desc, services.id desc limit 1",
    )
    .bind(rig_id)
    .bind(what)
    .fetch_optional(&mut *db)
    .await?)
}
