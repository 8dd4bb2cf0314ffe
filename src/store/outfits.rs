//! Outfits: one business with its zone, hours and meter.

use super::{Db, StoreError, settings};

/// One business.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
pub struct Outfit {
    /// Its number.
    pub id: i64,
    /// What the owner calls it.
    pub name: String,
    /// IANA zone name.
    pub zone: String,
    /// Local time at which the working day ends, `HH:MM`.
    pub day_ends: String,
    /// Meter factor, ppm per uS/cm.
    pub us_to_ppm: f64,
    /// Unit of bare degrees, `C` or `F`.
    pub degrees: String,
    /// When it was founded, UTC seconds.
    pub created_at: i64,
    /// Since when it is closing; nothing is recorded from then on.
    pub closing_at: Option<i64>,
}

const COLUMNS: &str = "id, name, zone, day_ends, us_to_ppm, degrees, created_at, closing_at";

/// Founds an outfit with the usual settings.
///
/// # Errors
/// Whatever the database says.
pub async fn found(db: &mut Db, name: &str, zone: &str, now: i64) -> Result<i64, StoreError> {
    let id: i64 = sqlx::query_scalar(
        "insert into outfits (name, zone, day_ends, us_to_ppm, degrees, created_at)
         values ($1, $2, '17:00', 0.5, 'C', $3) returning id",
    )
    .bind(name)
    .bind(zone)
    .bind(now)
    .fetch_one(&mut *db)
    .await?;
    for (what, value) in [(settings::NAME, name), (settings::ZONE, zone)] {
        settings::came_with(db, id, what, value, now).await?;
    }
    Ok(id)
}

/// One outfit by its number.
///
/// # Errors
/// Whatever the database says.
pub async fn get(db: &mut Db, id: i64) -> Result<Outfit, StoreError> {
    let sql = sqlx::AssertSqlSafe(format!("select {COLUMNS} from outfits where id = $1"));
    Ok(sqlx::query_as(sql).bind(id).fetch_one(&mut *db).await?)
}

/// All outfits, oldest first.
///
/// # Errors
/// Whatever the database says.
pub async fn all(db: &mut Db) -> Result<Vec<Outfit>, StoreError> {
    let sql = sqlx::AssertSqlSafe(format!("select {COLUMNS} from outfits order by id"));
    Ok(sqlx::query_as(sql).fetch_all(&mut *db).await?)
}

/// Writes the settings back.
///
/// # Errors
/// Whatever the database says.
pub async fn set(db: &mut Db, outfit: &Outfit) -> Result<(), StoreError> {
    sqlx::query("update outfits set name = $1, zone = $2, day_ends = $3, us_to_ppm = $4, degrees = $5 where id = $6")
        .bind(&outfit.name)
        .bind(&outfit.zone)
        .bind(&outfit.day_ends)
        .bind(outfit.us_to_ppm)
        .bind(&outfit.degrees)
        .bind(outfit.id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Sets since when an outfit is closing, or that it goes on.
///
/// # Errors
/// Whatever the database says.
pub async fn set_closing(db: &mut Db, id: i64, closing_at: Option<i64>) -> Result<(), StoreError> {
    sqlx::query("update outfits set closing_at = $1 where id = $2")
        .bind(closing_at)
        .bind(id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// How many readings, services and rigs an outfit has, or ever had.
///
/// # Errors
/// Whatever the database says.
pub async fn counts(db: &mut Db, id: i64) -> Result<[usize; 3], StoreError> {
    let counts: (i64, i64, i64) = sqlx::query_as(
        "select (select count(*) from readings where outfit_id = $1), (select count(*) from services where outfit_id = $1),
             (select count(*) from rigs where outfit_id = $1)",
    )
    .bind(id)
    .fetch_one(&mut *db)
    .await?;
    let (readings, services, rigs) = counts;
    Ok([readings, services, rigs].map(|count| usize::try_from(count).unwrap_or_default()))
}
