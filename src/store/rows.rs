//! Rows that one statement takes, whatever their number, in one text for both databases.
//!
//! They go in as one JSON array of arrays, which the statement takes apart with `jsonb_each` (PostgreSQL has a function
//! of that name from our migrations): `insert into t (a, b) select j.value ->> 0, cast(j.value ->> 1 as bigint) from
//! jsonb_each($1) j where true`. A constant text is prepared once, and a missing value is a null inside the JSON.

use serde::Serialize;

use super::{Db, StoreError};

/// Rows, each a tuple, as the parameter of such a statement.
///
/// # Errors
/// When a value has no JSON, such as a number that is not finite.
pub(super) fn json<T: Serialize>(rows: &[T]) -> Result<String, StoreError> {
    json_text(rows)
}

/// Numbers as the parameter of a set-based statement.
pub(super) fn of_ids(ids: &[i64]) -> Result<String, StoreError> {
    let rows_of: Vec<(i64,)> = ids.iter().map(|id| (*id,)).collect();
    json(&rows_of)
}

/// One value as JSON, for a column of text.
///
/// # Errors
/// When it has no JSON.
pub(super) fn json_text<T: Serialize + ?Sized>(value: &T) -> Result<String, StoreError> {
    serde_json::to_string(value).map_err(|why| StoreError::Stored {
        what: "row",
        why: why.to_string(),
    })
}

/// A table whose rows get drawn numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Table {
    /// Readings.
    Readings,
    /// Services.
    Services,
    /// Questions.
    Questions,
    /// Messages on their way out.
    Sends,
}

macro_rules! draw {
    ($table:literal) => {
        concat!(
            "update counters set used = case when used < (select coalesce(max(id), 0) from ",
            $table,
            ") then (select max(id) from ",
            $table,
            ") else used end + $1 where name = '",
            $table,
            "' returning used"
        )
    };
}

impl Table {
    /// Beyond the greatest number in the table, whoever put it there.
    const fn draw(self) -> &'static str {
        match self {
            Self::Readings => draw!("readings"),
            Self::Services => draw!("services"),
            Self::Questions => draw!("questions"),
            Self::Sends => draw!("sends"),
        }
    }
}

/// Draws `count` numbers for new rows of a table and returns the first of them: so none must be read back, which
/// costs more than the insert.
///
/// # Errors
/// Whatever the database says.
pub async fn draw(db: &mut Db, table: Table, count: usize) -> Result<i64, StoreError> {
    let count = i64::try_from(count).unwrap_or(i64::MAX);
    let used: i64 = sqlx::query_scalar(table.draw()).bind(count).fetch_one(&mut *db).await?;
    Ok(used - count + 1)
}
