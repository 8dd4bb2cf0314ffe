//! What a digest asked for, kept until the next one: a line a decision.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use serde::{Deserialize, Serialize};

use crate::digest::Kind;
use crate::digest::notes::Topic;
use crate::digest::week::Decision;
use crate::schedule::{day_start, local_date};
use crate::store::{self, Db, StoreError};

/// How far back frost is looked for: one winter.
const WINTER: i64 = 200 * 86_400;

/// How long a membrane that somebody put off is left out of digests and lists.
pub(super) const PUT_OFF: i64 = 28 * 86_400;

/// How that is kept among what was said.
const PUT_OFF_KIND: &str = "membrane_put_off";

/// A decision as it is kept.
#[derive(Serialize, Deserialize)]
struct Kept {
    kind: String,
    rig: Option<i64>,
    person: Option<i64>,
    since: String,
    mondays: u32,
}

/// What the last digest before a date asked for, and when frost was last spoken of.
pub(super) async fn last(
    db: &mut Db,
    outfit_id: i64,
    before: Date,
    zone: &TimeZone,
) -> Result<(Vec<Decision>, Option<Date>), StoreError> {
    let decisions = match store::digests::last(db, outfit_id, &before.to_string()).await? {
        Some((_, told)) => read(&told),
        None => Vec::new(),
    };
    let noon = local_noon(zone, before);
    let told = store::notes::told(db, outfit_id, noon - WINTER).await?;
    let frost = told
        .iter()
        .rev()
        .find(|told| told.kind == Topic::Frost.code() && told.told_at < noon);
    Ok((decisions, frost.and_then(|told| local_date(zone, told.told_at))))
}

/// Leaves a rig's membrane out of digests and lists for a while.
pub(super) async fn put_membrane_off(db: &mut Db, outfit_id: i64, rig: i64, now: i64) -> Result<(), StoreError> {
    store::notes::tell(db, outfit_id, Some(rig), PUT_OFF_KIND, now).await?;
    store::notes::put_off(db, outfit_id, Some(rig), PUT_OFF_KIND, now + PUT_OFF).await?;
    Ok(())
}

/// The rigs whose membranes are put off, and until when.
pub(super) async fn membranes_put_off(db: &mut Db, outfit_id: i64, now: i64) -> Result<Vec<(i64, i64)>, StoreError> {
    let told = store::notes::told(db, outfit_id, now - PUT_OFF).await?;
    let put_off = told.iter().rev().filter(|told| told.kind == PUT_OFF_KIND);
    Ok(put_off
        .filter_map(|told| Some((told.rig_id?, told.again_at.filter(|until| *until > now)?)))
        .collect())
}

/// The kept form of what a digest asks for.
pub(super) fn write(decisions: &[Decision]) -> String {
    let kept: Vec<Kept> = decisions
        .iter()
        .map(|decision| Kept {
            kind: decision.kind.code().to_owned(),
            rig: decision.rig,
            person: decision.person,
            since: decision.since.to_string(),
            mondays: decision.mondays,
        })
        .collect();
    serde_json::to_string(&kept).unwrap_or_default()
}

fn local_noon(zone: &TimeZone, date: Date) -> i64 {
    day_start(zone, date).map_or(0, |start| start + 12 * 3600)
}

/// Decisions from their kept form; what does not read is passed over.
fn read(told: &str) -> Vec<Decision> {
    let kept: Vec<Kept> = serde_json::from_str(told).unwrap_or_default();
    let decision = |kept: Kept| {
        Some(Decision {
            kind: Kind::of_code(&kept.kind)?,
            rig: kept.rig,
            person: kept.person,
            since: kept.since.parse().ok()?,
            mondays: kept.mondays,
        })
    };
    kept.into_iter().filter_map(decision).collect()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn what_was_asked_for_is_read_as_it_was_written() {
        let decisions = vec![
            Decision {
                kind: Kind::NewMembrane,
                rig: Some(7),
                person: None,
                since: date(2026, 3, 2),
                mondays: 2,
            },
            Decision {
                kind: Kind::QuietPerson,
                rig: None,
                person: Some(3),
                since: date(2026, 3, 9),
                mondays: 1,
            },
        ];
        assert_eq!(read(&write(&decisions)), decisions);
        assert!(read("").is_empty());
    }
}
