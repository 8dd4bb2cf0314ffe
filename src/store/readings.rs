//! Readings: what was read on a rig, by whom, when. A withdrawn reading stays
//! in the record, marked.

use std::collections::HashMap;

use super::{Db, StoreError, rows, states};

/// What a reading says, as it is kept.
#[derive(Clone, Debug, Default, PartialEq, sqlx::FromRow)]
pub struct Reading {
    /// Its number.
    pub id: i64,
    /// The rig.
    pub rig_id: i64,
    /// Who sent it.
    pub person_id: i64,
    /// The message that it came in.
    pub source_key: String,
    /// When the water was tested, UTC seconds.
    pub taken_at: i64,
    /// Tap.
    pub feed_ppm: f64,
    /// RO outlet; none on a rig without a membrane.
    pub permeate_ppm: Option<f64>,
    /// DI outlet.
    pub product_ppm: Option<f64>,
    /// Tap as typed in uS/cm.
    pub feed_raw_us: Option<f64>,
    /// RO outlet as typed in uS/cm.
    pub permeate_raw_us: Option<f64>,
    /// DI outlet as typed in uS/cm.
    pub product_raw_us: Option<f64>,
    /// Feed water temperature.
    pub temperature_c: Option<f64>,
    /// Feed pressure, gauge.
    pub pressure_kpa: Option<f64>,
    /// Permeate flow.
    pub permeate_lpm: Option<f64>,
    /// Flow to waste.
    pub waste_lpm: Option<f64>,
    /// When it was withdrawn; none while it stands.
    pub withdrawn_at: Option<i64>,
}

macro_rules! select {
    ($rest:literal) => {
        concat!(
            "select id, rig_id, person_id, source_key, taken_at, feed_ppm, permeate_ppm, product_ppm, feed_raw_us, \
             permeate_raw_us, product_raw_us, temperature_c, pressure_kpa, permeate_lpm, waste_lpm, withdrawn_at \
             from readings ",
            $rest
        )
    };
}

/// Who tells a reading, and when it was heard.
#[derive(Clone, Copy, Debug)]
pub struct Teller {
    /// Their outfit.
    pub outfit_id: i64,
    /// Their number.
    pub person_id: i64,
    /// When the bot heard it.
    pub heard_at: i64,
}

/// Records a reading that stands; its `id` and `person_id` are ignored. Returns its number.
///
/// # Errors
/// Whatever the database says.
pub async fn record(db: &mut Db, teller: Teller, reading: &Reading) -> Result<i64, StoreError> {
    let first = record_all(db, &[(teller, reading)]).await?;
    states::forget(db, &[reading.rig_id]).await?;
    Ok(first)
}

/// Records readings that stand, in one statement; their `id` and `person_id` are ignored. Returns the number of the
/// first; the others follow it. The kept states of their rigs are left as they are.
///
/// # Errors
/// Whatever the database says.
pub async fn record_all(db: &mut Db, readings: &[(Teller, &Reading)]) -> Result<i64, StoreError> {
    if readings.is_empty() {
        return Ok(0);
    }
    let first = rows::draw(db, rows::Table::Readings, readings.len()).await?;
    let row = |(place, (teller, reading)): (usize, &(Teller, &Reading))| {
        (
            (
                first + place as i64,
                teller.outfit_id,
                reading.rig_id,
                teller.person_id,
                reading.source_key.clone(),
                reading.taken_at,
                teller.heard_at,
                reading.feed_ppm,
            ),
            (
                reading.permeate_ppm,
                reading.product_ppm,
                reading.feed_raw_us,
                reading.permeate_raw_us,
                reading.product_raw_us,
                reading.temperature_c,
                reading.pressure_kpa,
                reading.permeate_lpm,
                reading.waste_lpm,
            ),
        )
    };
    let rows_of: Vec<_> = readings.iter().enumerate().map(row).collect();
    sqlx::query(
        "insert into readings (id, outfit_id, rig_id, person_id, source_key, taken_at, heard_at, feed_ppm, permeate_ppm,
             product_ppm, feed_raw_us, permeate_raw_us, product_raw_us, temperature_c, pressure_kpa, permeate_lpm, waste_lpm)
         select cast(j.value -> 0 ->> 0 as bigint), cast(j.value -> 0 ->> 1 as bigint),
             cast(j.value -> 0 ->> 2 as bigint), cast(j.value -> 0 ->> 3 as bigint), j.value -> 0 ->> 4,
             cast(j.value -> 0 ->> 5 as bigint), cast(j.value -> 0 ->> 6 as bigint),
             cast(j.value -> 0 ->> 7 as double precision), cast(j.value -> 1 ->> 0 as double precision),
             cast(j.value -> 1 ->> 1 as double precision), cast(j.value -> 1 ->> 2 as double precision),
             cast(j.value -> 1 ->> 3 as double precision), cast(j.value -> 1 ->> 4 as double precision),
             cast(j.value -> 1 ->> 5 as double precision), cast(j.value -> 1 ->> 6 as double precision),
             cast(j.value -> 1 ->> 7 as double precision), cast(j.value -> 1 ->> 8 as double precision)
         from jsonb_each($1) j where true",
    )
    .bind(rows::json(&rows_of)?)
    .execute(&mut *db)
    .await?;
    Ok(first)
}

/// Marks a reading as withdrawn.
///
/// # Errors
/// Whatever the database says.
pub async fn withdraw(db: &mut Db, outfit_id: i64, id: i64, now: i64) -> Result<(), StoreError> {
    let rigs: Vec<i64> =
        sqlx::query_scalar("update readings set withdrawn_at = $1 where id = $2 and outfit_id = $3 returning rig_id")
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
) -> Result<Vec<Reading>, StoreError> {
    Ok(sqlx::query_as(select!(
        "where person_id = $1 and withdrawn_at >= $2 and heard_at >= $3 and outfit_id = $4
           and source_key not like 'import:%'
           and not exists (select 1 from readings newer where newer.source_key = readings.source_key
                           and newer.outfit_id = readings.outfit_id
                           and newer.withdrawn_at is null and newer.heard_at >= readings.withdrawn_at)
         order by withdrawn_at, id"
    ))
    .bind(person_id)
    .bind(since)
    .bind(since - 86_400)
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?)
}

/// Lets a withdrawn reading stand again.
///
/// # Errors
/// Whatever the database says.
pub async fn restore(db: &mut Db, outfit_id: i64, id: i64) -> Result<(), StoreError> {
    let rigs: Vec<i64> =
        sqlx::query_scalar("update readings set withdrawn_at = null where id = $1 and outfit_id = $2 returning rig_id")
            .bind(id)
            .bind(outfit_id)
            .fetch_all(&mut *db)
            .await?;
    states::forget(db, &rigs).await
}

/// The standing readings of one message.
///
/// # Errors
/// Whatever the database says.
pub async fn of_message(db: &mut Db, outfit_id: i64, source_key: &str) -> Result<Vec<Reading>, StoreError> {
    Ok(sqlx::query_as(select!(
        "where source_key = $1 and outfit_id = $2 and withdrawn_at is null order by id"
    ))
    .bind(source_key)
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?)
}

/// The message with which a person last recorded a reading that stands, heard
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
        "select source_key, heard_at from readings
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

/// Standing readings of a rig that were heard at `since` or later, latest heard
/// first; of one person, if one is named.
///
/// # Errors
/// Whatever the database says.
pub async fn heard_since(
    db: &mut Db,
    (outfit_id, rig_id): (i64, i64),
    person_id: Option<i64>,
    since: i64,
) -> Result<Vec<Reading>, StoreError> {
    Ok(sqlx::query_as(select!(
        "where rig_id = $1 and heard_at >= $2 and outfit_id = $4 and withdrawn_at is null
           and person_id = coalesce($3, person_id)
         order by heard_at desc, id desc"
    ))
    .bind(rig_id)
    .bind(since)
    .bind(person_id)
    .bind(outfit_id)
    .fetch_all(&mut *db)
    .await?)
}

/// Up to `count` standing readings of a rig taken before `before`, newest first.
///
/// # Errors
/// Whatever the database says.
pub async fn latest(db: &mut Db, rig_id: i64, before: i64, count: i64) -> Result<Vec<Reading>, StoreError> {
    Ok(sqlx::query_as(select!(
        "where rig_id = $1 and taken_at < $2 and withdrawn_at is null order by taken_at desc, id desc limit $3"
    ))
    .bind(rig_id)
    .bind(before)
    .bind(count)
    .fetch_all(&mut *db)
    .await?)
}

/// When each rig of a fleet was last read before `before`; rigs that never were are
/// left out.
///
/// # Errors
/// Whatever the database says.
pub async fn last_taken_on_fleet(db: &mut Db, outfit_id: i64, before: i64) -> Result<HashMap<i64, i64>, StoreError> {
    // A look into the index for each rig; a join would read every reading.
    let rows: Vec<(i64, Option<i64>)> = sqlx::query_as(
        "select id, (select max(taken_at) from readings
                     where rig_id = rigs.id and taken_at < $2 and withdrawn_at is null)
         from rigs where outfit_id = $1 and removed_at is null",
    )
    .bind(outfit_id)
    .bind(before)
    .fetch_all(&mut *db)
    .await?;
    Ok(rows.into_iter().filter_map(|(rig, at)| Some((rig, at?))).collect())
}

/// Every reading of an outfit, withdrawn or not, in the order in which they were taken.
///
/// # Errors
/// Whatever the database says.
pub async fn of_outfit(db: &mut Db, outfit_id: i64) -> Result<Vec<Reading>, StoreError> {
    Ok(sqlx::query_as(select!("where outfit_id = $1 order by taken_at, id"))
        .bind(outfit_id)
        .fetch_all(&mut *db)
        .await?)
}

/// The last readings that were withdrawn one by one, newest first; not those of an
/// import that was undone.
///
/// # Errors
/// Whatever the database says.
pub async fn withdrawn(db: &mut Db, outfit_id: i64, count: i64) -> Result<Vec<Reading>, StoreError> {
    Ok(sqlx::query_as(select!(
        "where outfit_id = $1 and withdrawn_at is not null and source_key not like 'import:%'
         order by withdrawn_at desc, id desc limit $2"
    ))
    .bind(outfit_id)
    .bind(count)
    .fetch_all(&mut *db)
    .await?)
}

/// How often somebody logged something of a rig.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
pub struct Count {
    /// The person.
    pub person_id: i64,
    /// Their first name, while they are known.
    pub first_name: Option<String>,
    /// The rig.
    pub rig_id: i64,
    /// Readings and services.
    pub logged: i64,
}

/// Who logged how much of which rig in a span, most active person first:
/// readings and services that stand.
///
/// # Errors
/// Whatever the database says.
pub async fn counts(db: &mut Db, outfit_id: i64, from: i64, until: i64) -> Result<Vec<Count>, StoreError> {
    let mut counts: Vec<Count> = sqlx::query_as(
        "select logged.person_id, people.first_name, logged.rig_id, count(*) as logged
         from (select person_id, rig_id from readings
               where outfit_id = $1 and taken_at >= $2 and taken_at < $3 and withdrawn_at is null
               union all
               select person_id, rig_id from services
               where outfit_id = $1 and done_at >= $2 and done_at < $3 and withdrawn_at is null) logged
         left join people on people.id = logged.person_id
         group by logged.person_id, people.first_name, logged.rig_id",
    )
    .bind(outfit_id)
    .bind(from)
    .bind(until)
    .fetch_all(&mut *db)
    .await?;
    let of = |person: i64| -> i64 {
        let theirs = counts.iter().filter(|count| count.person_id == person);
        theirs.map(|count| count.logged).sum()
    };
    let totals: HashMap<i64, i64> = counts
        .iter()
        .map(|count| (count.person_id, of(count.person_id)))
        .collect();
    counts.sort_by_key(|count| {
        let total = totals.get(&count.person_id).copied().unwrap_or_default();
        (-total, count.person_id, -count.logged, count.rig_id)
    });
    Ok(counts)
}

/// When the rig was last read in a span, and by whom.
///
/// # Errors
/// Whatever the database says.
pub async fn last_worked(db: &mut Db, rig_id: i64, from: i64, until: i64) -> Result<Option<(i64, i64)>, StoreError> {
    Ok(sqlx::query_as(
        "select taken_at, person_id from readings
         where rig_id = $1 and taken_at >= $2 and taken_at < $3 and withdrawn_at is null
         order by taken_at desc, id desc limit 1",
    )
    .bind(rig_id)
    .bind(from)
    .bind(until)
    .fetch_optional(&mut *db)
    .await?)
}
