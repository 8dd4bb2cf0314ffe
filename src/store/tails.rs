//! The rows of rigs behind what was kept of them.

use super::readings::Reading;
use super::services::{self, Service};
use super::{Db, StoreError, rows};

/// From where on the rows of a rig are wanted: all of them from zeros.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tail {
    /// The rig.
    pub rig_id: i64,
    /// Not before this instant, UTC seconds.
    pub from_at: i64,
    /// Readings of greater numbers.
    pub after_reading: i64,
    /// Services of greater numbers.
    pub after_service: i64,
}

/// The standing readings of each rig as one text: a reading a line, its columns parted by blanks. A thousand rows so
/// cost a tenth of what they cost as rows. `quote` writes a number so that it is read back as it was; PostgreSQL has
/// such a function from our migrations.
const READINGS: &str = "select cast(j.value ->> 0 as bigint), (
        select string_agg(
            r.id || ' ' || r.person_id || ' ' || r.taken_at || ' ' || quote(r.feed_ppm) || ' ' || quote(r.permeate_ppm)
            || ' ' || quote(r.product_ppm) || ' ' || quote(r.temperature_c) || ' ' || quote(r.pressure_kpa)
            || ' ' || quote(r.permeate_lpm) || ' ' || quote(r.waste_lpm), '\n')
        from readings r
        where r.rig_id = cast(j.value ->> 0 as bigint) and r.taken_at >= cast(j.value ->> 1 as bigint)
          and r.id > cast(j.value ->> 2 as bigint) and r.withdrawn_at is null)
    from jsonb_each($1) j";

/// The standing readings and services of rigs behind what was kept, in no order. Of a reading, what a state is computed
/// from and who sent it; not its message, nor what was typed in uS/cm.
///
/// # Errors
/// Whatever the database says.
pub async fn tails(db: &mut Db, tails: &[Tail]) -> Result<(Vec<Reading>, Vec<Service>), StoreError> {
    if tails.is_empty() {
        return Ok((Vec::new(), Vec::new()));
    }
    let rows_of: Vec<_> = tails
        .iter()
        .map(|tail| (tail.rig_id, tail.from_at, tail.after_reading, tail.after_service))
        .collect();
    let from = rows::json(&rows_of)?;
    let texts: Vec<(i64, Option<String>)> = sqlx::query_as(READINGS).bind(&from).fetch_all(&mut *db).await?;
    let mut readings = Vec::new();
    for (rig_id, text) in &texts {
        for line in text.iter().flat_map(|text| text.lines()) {
            readings.push(reading(*rig_id, line).ok_or(StoreError::Stored {
                what: "reading",
                why: "a column is no number".to_owned(),
            })?);
        }
    }
    Ok((readings, services::tails(db, &from).await?))
}

fn reading(rig_id: i64, line: &str) -> Option<Reading> {
    let mut columns = line.split(' ');
    let id = columns.next()?.parse().ok()?;
    let person_id = columns.next()?.parse().ok()?;
    let taken_at = columns.next()?.parse().ok()?;
    let feed_ppm = columns.next()?.parse().ok()?;
    let mut measured = || match columns.next()? {
        "NULL" => Some(None),
        number => Some(Some(number.parse().ok()?)),
    };
    Some(Reading {
        id,
        rig_id,
        person_id,
        taken_at,
        feed_ppm,
        permeate_ppm: measured()?,
        product_ppm: measured()?,
        temperature_c: measured()?,
        pressure_kpa: measured()?,
        permeate_lpm: measured()?,
        waste_lpm: measured()?,
        ..Reading::default()
    })
}
