//! Services: what was done to a rig, by whom, when.

use crate::domain::ServiceKind;

use super::readings::Teller;
use super::{Db, StoreError, rows, states};

/// Something done to a rig.
#[derive(Clone, Debug, PartialEq)]
pub struct Service {
    /// Its number.
    pub id: i64,
    /// The rig.
    pub rig_id: i64,
    /// Who told it.
    pub person_id: i64,
    /// The message that it came in.
    pub source_key: String,
    /// What was done.
    pub what: ServiceKind,
    /// When it was done, UTC seconds.
    pub done_at: i64,
    /// How long it took, where that was said.
    pub minutes: Option<i64>,
    /// What it cost in the currency's smallest unit, where that was said.
    pub price_minor: Option<i64>,
    /// When it was withdrawn; none while it stands.
    pub withdrawn_at: Option<i64>,
}

impl Service {
    /// A service of which nothing more is known, to be recorded.
    pub fn new(rig_id: i64, what: ServiceKind, source_key: String, done_at: i64) -> Self {
        Self {
            id: 0,
            rig_id,
            person_id: 0,
            source_key,
            what,
            done_at,
            minutes: None,
            price_minor: None,
            withdrawn_at: None,
        }
    }
}

/// A service as its row holds it.
#[derive(sqlx::FromRow)]
struct Row {
    id: i64,
    rig_id: i64,
    person_id: i64,
    source_key: String,
    what: String,
    done_at: i64,
    minutes: Option<i64>,
    price_minor: Option<i64>,
    withdrawn_at: Option<i64>,
}

/// The services of rows. One whose word is of a later version is passed over, and never taken for another kind.
fn known(rows: Vec<Row>) -> Vec<Service> {
    let service = |row: Row| {
        Some(Service {
            id: row.id,
            rig_id: row.rig_id,
            person_id: row.person_id,
            source_key: row.source_key,
            what: ServiceKind::from_word(&row.what)?,
            done_at: row.done_at,
            minutes: row.minutes,
            price_minor: row.price_minor,
            withdrawn_at: row.withdrawn_at,
        })
    };
    rows.into_iter().filter_map(service).collect()
}

macro_rules! select {
    ($rest:literal) => {
        concat!(
            "select id, rig_id, person_id, source_key, what, done_at, minutes, price_minor, withdrawn_at from services ",
            $rest
        )
    };
}

/// Records a service that stands; its `id` and `person_id` are ignored. Returns its number.
///
/// # Errors
/// Whatever the database says.
pub async fn record(db: &mut Db, teller: Teller, service: &Service) -> Result<i64, StoreError> {
    let first = record_all(db, &[(teller, service)]).await?;
    states::forget(db, &[service.rig_id]).await?;
    Ok(first)
}

/// Records services that stand, in one statement; their `id` and `person_id` are ignored. Returns the number of the
/// first; the others follow it. The kept states of their rigs are left as they are.
///
/// # Errors
/// Whatever the database says.
pub async fn record_all(db: &mut Db, services: &[(Teller, &Service)]) -> Result<i64, StoreError> {
    if services.is_empty() {
        return Ok(0);
    }
    let first = rows::draw(db, rows::Table::Services, services.len()).await?;
    let row = |(place, (teller, service)): (usize, &(Teller, &Service))| {
        (
            first + place as i64,
            teller.outfit_id,
            service.rig_id,
            teller.person_id,
            service.source_key.clone(),
            service.what.word(),
            service.done_at,
            teller.heard_at,
            service.minutes,
            service.price_minor,
        )
    };
    let rows_of: Vec<_> = services.iter().enumerate().map(row).collect();
    sqlx::query(
        "insert into services (id, outfit_id, rig_id, person_id, source_key, what, done_at, heard_at, minutes, price_minor)
         select cast(j.value ->> 0 as bigint), cast(j.value ->> 1 as bigint), cast(j.value ->> 2 as bigint),
             cast(j.value ->> 3 as bigint), j.value ->> 4, j.value ->> 5, cast(j.value ->> 6 as bigint),
             cast(j.value ->> 7 as bigint), cast(j.value ->> 8 as bigint), cast(j.value ->> 9 as bigint)
         from jsonb_each($1) j where true",
    )
    .bind(rows::json(&rows_of)?)
    .execute(&mut *db)
    .await?;
    Ok(first)
}

/// The standing services of rigs from instants and numbers on: rig, instant, a number of no use here, number, as the
/// parameter of a set-based statement.
pub(super) async fn tails(db: &mut Db, from: &str) -> Result<Vec<Service>, StoreError> {
    let rows = sqlx::query_as(
        "select s.id, s.rig_id, s.person_id, s.source_key, s.what, s.done_at, s.minutes, s.price_minor, s.withdrawn_at
         from jsonb_each($1) j cross join services s
         where s.rig_id = cast(j.value ->> 0 as bigint) and s.done_at >= cast(j.value ->> 1 as bigint)
           and s.id > cast(j.value ->> 3 as bigint) and s.withdrawn_at is null",
    )
    .bind(from)
    .fetch_all(&mut *db)
    .await?;
    Ok(known(rows))
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
pub async fn withdraw(db: &mut Db, outfit_id: i64, id: i64, now: i64) -> Result<(), StoreError> {
    let rigs: Vec<i64> =
        sqlx::query_scalar("update services set withdrawn_at = $1 where id = $2 and outfit_id = $3 returning rig_id")
            .bind(now)
            .bind(id)
            .bind(outfit_id)
            .fetch_all(&mut *db)
            .await?;
    states::forget(db, &rigs).await
}

/// What a person told and was withdrawn at `since` or later, of what was heard within a day before; not what was
/// corrected or edited, which stands in other words, nor what an import told. Oldest first.
///
/// # Errors
/// Whatever the database says.
pub async fn last_withdrawn(
    db: &mut Db,
    outfit_id: i64,
    person_id: i64,
    since: i64,
) -> Result<Vec<Service>, StoreError> {
    let rows = sqlx::query_as(select!(
        "where person_id = $1 and withdrawn_at >= $2 and heard_at >= $3 and outfit_id = $4
           and source_key not like 'import:%'
           and not exists (select 1 from services newer where newer.source_key = services.source_key
                           and newer.outfit_id = services.outfit_id
                           and newer.withdrawn_at is null and newer.heard_at >= services.withdrawn_at)
         order by withdrawn_at, id"
    ))
    .bind(person_id)
    .bind(since)
    .bind(since - 86_400)
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?;
    Ok(known(rows))
}

/// Lets a withdrawn service stand again.
///
/// # Errors
/// Whatever the database says.
pub async fn restore(db: &mut Db, outfit_id: i64, id: i64) -> Result<(), StoreError> {
    let rigs: Vec<i64> =
        sqlx::query_scalar("update services set withdrawn_at = null where id = $1 and outfit_id = $2 returning rig_id")
            .bind(id)
            .bind(outfit_id)
            .fetch_all(&mut *db)
            .await?;
    states::forget(db, &rigs).await
}

/// The standing services of one message.
///
/// # Errors
/// Whatever the database says.
pub async fn of_message(db: &mut Db, outfit_id: i64, source_key: &str) -> Result<Vec<Service>, StoreError> {
    let rows = sqlx::query_as(select!(
        "where source_key = $1 and outfit_id = $2 and withdrawn_at is null order by id"
    ))
    .bind(source_key)
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?;
    Ok(known(rows))
}

/// The message with which a person last recorded a service that stands, heard
/// at `since` or later, and when it was heard.
///
/// # Errors
/// Whatever the database says.
pub async fn last_message(
    db: &mut Db,
    outfit_id: i64,
    person_id: i64,
    since: i64,
) -> Result<Option<(String, i64)>, StoreError> {
    Ok(sqlx::query_as(
        "select source_key, heard_at from services
         where person_id = $1 and heard_at >= $2 and outfit_id = $3 and withdrawn_at is null
           and source_key not like 'import:%'
         order by heard_at desc, id desc limit 1",
    )
    .bind(person_id)
    .bind(since)
    .bind(outfit_id)
    .fetch_optional(&mut *db)
    .await?)
}

/// All standing services of a rig, oldest first.
///
/// # Errors
/// Whatever the database says.
pub async fn of_rig(db: &mut Db, rig_id: i64) -> Result<Vec<Service>, StoreError> {
    let rows = sqlx::query_as(select!(
        "where rig_id = $1 and withdrawn_at is null order by done_at, id"
    ))
    .bind(rig_id)
    .fetch_all(&mut *db)
    .await?;
    Ok(known(rows))
}

/// Every service of an outfit, withdrawn or not, in the order in which they were done.
///
/// # Errors
/// Whatever the database says.
pub async fn of_outfit(db: &mut Db, outfit_id: i64) -> Result<Vec<Service>, StoreError> {
    let rows = sqlx::query_as(select!("where outfit_id = $1 order by done_at, id"))
        .bind(outfit_id)
        .fetch_all(&mut *db)
        .await?;
    Ok(known(rows))
}

/// When a service of this kind was last done to a rig.
///
/// # Errors
/// Whatever the database says.
pub async fn last_done(db: &mut Db, rig_id: i64, what: ServiceKind) -> Result<Option<i64>, StoreError> {
    Ok(sqlx::query_scalar(
        "select done_at from services where rig_id = $1 and what = $2 and withdrawn_at is null
         order by done_at desc limit 1",
    )
    .bind(rig_id)
    .bind(what.word())
    .fetch_optional(&mut *db)
    .await?)
}

/// When a service of this kind was last done to a rig, and the first name of who
/// told it, while that is known.
///
/// # Errors
/// Whatever the database says.
pub async fn last_done_by(
    db: &mut Db,
    rig_id: i64,
    what: ServiceKind,
) -> Result<Option<(i64, Option<String>)>, StoreError> {
    Ok(sqlx::query_as(
        "select services.done_at, people.first_name from services
         left join people on people.id = services.person_id
         where services.rig_id = $1 and services.what = $2 and services.withdrawn_at is null
         order by services.done_at desc, services.id desc limit 1",
    )
    .bind(rig_id)
    .bind(what.word())
    .fetch_optional(&mut *db)
    .await?)
}
