//! What is remembered of outfits, read for many of them at once.

use std::collections::HashMap;

use super::outfits::Outfit;
use super::people::{self, Member};
use super::questions::{self, Question};
use super::readings::{self, Reading};
use super::rigs::{self, Rig};
use super::services::{self, Service};
use super::settings::Kept;
use super::{Db, StoreError, rows};

#[derive(sqlx::FromRow)]
struct Versioned {
    version: i64,
    #[sqlx(flatten)]
    outfit: Outfit,
}

/// The outfits with these numbers, each with its version. What is not there is left out.
///
/// # Errors
/// Whatever the database says.
pub async fn outfits(db: &mut Db, ids: &[i64]) -> Result<Vec<(i64, Outfit)>, StoreError> {
    let found: Vec<Versioned> = sqlx::query_as(
        "select o.version, o.id, o.name, o.zone, o.day_ends, o.us_to_ppm, o.degrees, o.created_at, o.closing_at
         from jsonb_each($1) j join outfits o on o.id = cast(j.value ->> 0 as bigint)",
    )
    .bind(rows::of_ids(ids)?)
    .fetch_all(&mut *db)
    .await?;
    Ok(found.into_iter().map(|row| (row.version, row.outfit)).collect())
}

/// The outfits in which people are, by their addresses. Who is in none is left out.
///
/// # Errors
/// Whatever the database says.
pub async fn of_people(db: &mut Db, addresses: &[&str]) -> Result<Vec<(String, i64)>, StoreError> {
    let rows_of: Vec<(&str,)> = addresses.iter().map(|address| (*address,)).collect();
    Ok(sqlx::query_as(
        "select p.address, p.outfit_id from jsonb_each($1) j join people p on p.address = j.value ->> 0
         where p.outfit_id is not null",
    )
    .bind(rows::json(&rows_of)?)
    .fetch_all(&mut *db)
    .await?)
}

#[derive(sqlx::FromRow)]
struct Addressed {
    address: String,
    #[sqlx(flatten)]
    row: people::Row,
}

/// Everybody in these outfits, with their addresses, in the order in which they came.
///
/// # Errors
/// Whatever the database says.
pub async fn members(db: &mut Db, ids: &[i64]) -> Result<Vec<(String, Member)>, StoreError> {
    let found: Vec<Addressed> = sqlx::query_as(
        "select p.address, p.id, p.chat, p.first_name, coalesce(p.chosen_language, p.language) as answers_in,
             p.language, p.outfit_id, p.role, p.own_rig_id, p.today_rig_id, p.today_until_at, p.joined_at
         from jsonb_each($1) j join people p on p.outfit_id = cast(j.value ->> 0 as bigint)
         order by p.joined_at, p.id",
    )
    .bind(rows::of_ids(ids)?)
    .fetch_all(&mut *db)
    .await?;
    let member = |found: Addressed| Ok((found.address, people::member(found.row)?));
    found.into_iter().map(member).collect()
}

/// The fleets of these outfits, each by name.
///
/// # Errors
/// Whatever the database says.
pub async fn fleets(db: &mut Db, ids: &[i64]) -> Result<Vec<(i64, Rig)>, StoreError> {
    type Row = (i64, i64, String, Option<i64>, Option<i64>);
    let found: Vec<Row> = sqlx::query_as(
        "select g.outfit_id, g.id, g.name, g.di_only_at, g.flushes_itself_at
         from jsonb_each($1) j join rigs g on g.outfit_id = cast(j.value ->> 0 as bigint)
         where g.removed_at is null order by g.folded_name",
    )
    .bind(rows::of_ids(ids)?)
    .fetch_all(&mut *db)
    .await?;
    let rig = |(outfit, id, name, di_only, flushes): Row| (outfit, rigs::rig(id, name, di_only, flushes));
    Ok(found.into_iter().map(rig).collect())
}

/// What is set and holds in these outfits, in the order in which it was set.
///
/// # Errors
/// Whatever the database says.
pub async fn settings(db: &mut Db, ids: &[i64]) -> Result<Vec<(i64, Kept)>, StoreError> {
    let found: Vec<super::settings::OfOutfit> = sqlx::query_as(
        "select s.outfit_id, s.rig_id, s.name, s.value, s.person_id, s.set_at from settings s
         where s.value <> '' and s.id in (
             select max(id) from settings
             where outfit_id in (select cast(value ->> 0 as bigint) from jsonb_each($1))
             group by outfit_id, rig_id, name)
         order by s.id",
    )
    .bind(rows::of_ids(ids)?)
    .fetch_all(&mut *db)
    .await?;
    Ok(found.into_iter().map(|row| (row.outfit_id, row.kept)).collect())
}

/// When each rig of these outfits was last asked about at the end of a day, unless somebody said that it was not used.
///
/// # Errors
/// Whatever the database says.
pub async fn asked_to_flush(db: &mut Db, ids: &[i64]) -> Result<Vec<(i64, i64)>, StoreError> {
    Ok(sqlx::query_as(
        "select n.rig_id, max(n.asked_at) from jsonb_each($1) j
         join nudges n on n.outfit_id = cast(j.value ->> 0 as bigint)
         where n.not_used_at is null group by n.rig_id",
    )
    .bind(rows::of_ids(ids)?)
    .fetch_all(&mut *db)
    .await?)
}

/// What is remembered of one person, beside their row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Recent {
    /// The rig of the last reminder, if there was just one, and when.
    pub nudged: Option<(i64, i64)>,
    /// Rigs that they were asked about and that are neither flushed nor unused, and when they were asked.
    pub unanswered: Vec<(i64, i64)>,
    /// The standing readings of their last message with any, and when it was heard.
    pub readings: Option<(i64, Vec<Reading>)>,
    /// The standing services of their last message with any, and when it was heard.
    pub services: Option<(i64, Vec<Service>)>,
    /// Open questions: the chat, the question, when it expires.
    pub questions: Vec<(String, Question, i64)>,
    /// When each caution was told.
    pub cautions: HashMap<String, i64>,
    /// Whether they are, or were, guided through setting up.
    pub guided: bool,
}

/// The message in which each of some people last told something that stands in a table, and when; no file counts.
macro_rules! lately {
    ($table:literal) => {
        concat!(
            "select p.id, p.outfit_id,
                 (select t.source_key from ",
            $table,
            " t where t.person_id = p.id and t.outfit_id = p.outfit_id and t.heard_at >= $2
                  and t.withdrawn_at is null and t.source_key not like 'import:%'
                  order by t.heard_at desc, t.id desc limit 1),
                 (select t.heard_at from ",
            $table,
            " t where t.person_id = p.id and t.outfit_id = p.outfit_id and t.heard_at >= $2
                  and t.withdrawn_at is null and t.source_key not like 'import:%'
                  order by t.heard_at desc, t.id desc limit 1)
             from jsonb_each($1) j join people p on p.id = cast(j.value ->> 0 as bigint)"
        )
    };
}

/// What is remembered of people: what they told and were asked since `since`.
///
/// # Errors
/// Whatever the database says.
pub async fn recent(db: &mut Db, ids: &[i64], since: i64) -> Result<HashMap<i64, Recent>, StoreError> {
    let mut all: HashMap<i64, Recent> = ids.iter().map(|id| (*id, Recent::default())).collect();
    let people = rows::of_ids(ids)?;
    macro_rules! rows {
        ($row:ty, $sql:expr) => {{
            let found: Vec<$row> = sqlx::query_as($sql)
                .bind(&people)
                .bind(since)
                .fetch_all(&mut *db)
                .await?;
            found
        }};
    }
    for (id, rig, at) in rows!(
        (i64, Option<i64>, i64),
        "select p.id, p.nudged_rig_id, p.nudged_at from jsonb_each($1) j
         join people p on p.id = cast(j.value ->> 0 as bigint) where p.nudged_at >= $2"
    ) {
        if let Some(recent) = all.get_mut(&id) {
            recent.nudged = rig.map(|rig| (rig, at));
        }
    }
    for (id, rig, at) in rows!(
        (i64, i64, i64),
        "select n.person_id, n.rig_id, n.asked_at from jsonb_each($1) j
         join nudges n on n.person_id = cast(j.value ->> 0 as bigint)
         join people p on p.id = n.person_id and p.outfit_id = n.outfit_id
         where n.asked_at >= $2 and n.not_used_at is null
           and not (select count(*) from services s
                    where s.rig_id = n.rig_id and s.what = 'flush' and s.withdrawn_at is null
                      and s.done_at >= n.asked_at) > 0
         order by n.id"
    ) {
        if let Some(recent) = all.get_mut(&id) {
            recent.unanswered.push((rig, at));
        }
    }
    for (table, sql) in [("readings", lately!("readings")), ("services", lately!("services"))] {
        for (id, outfit, key, at) in rows!((i64, Option<i64>, Option<String>, Option<i64>), sql) {
            let (Some(outfit), Some(key), Some(at), Some(recent)) = (outfit, key, at, all.get_mut(&id)) else {
                continue;
            };
            match table {
                "readings" => recent.readings = Some((at, readings::of_message(db, outfit, &key).await?)),
                _ => recent.services = Some((at, services::of_message(db, outfit, &key).await?)),
            }
        }
    }
    for (person, chat, row) in questions::open_to(db, &people).await? {
        if let (Some(recent), Some((question, expires_at))) = (all.get_mut(&person), row) {
            recent.questions.push((chat, question, expires_at));
        }
    }
    let told: Vec<(i64, String, i64)> = sqlx::query_as(
        "select c.person_id, c.kind, c.told_at from jsonb_each($1) j
         join cautions c on c.person_id = cast(j.value ->> 0 as bigint)",
    )
    .bind(&people)
    .fetch_all(&mut *db)
    .await?;
    for (id, kind, at) in told {
        if let Some(recent) = all.get_mut(&id) {
            recent.cautions.insert(kind, at);
        }
    }
    let guided: Vec<(i64,)> = sqlx::query_as(
        "select s.person_id from jsonb_each($1) j join set_ups s on s.person_id = cast(j.value ->> 0 as bigint)",
    )
    .bind(&people)
    .fetch_all(&mut *db)
    .await?;
    for (id,) in guided {
        if let Some(recent) = all.get_mut(&id) {
            recent.guided = true;
        }
    }
    Ok(all)
}
