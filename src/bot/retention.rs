//! `keep 5 years`: how long readings and services are kept. What gets older is
//! deleted for good, once a day; the first time only after a yes.

use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::message::command::Command;
use crate::message::setting::{Field, Setting, WishFor};
use crate::replies::data::Counted;
use crate::replies::figures;
use crate::replies::settings::typed;
use crate::schedule;
use crate::store::outfits::Outfit;
use crate::store::{self, Db, StoreError};

use super::Bot;
use super::act::Act;
use super::answer::{Answer, Press};
use super::request::Request;
use super::rules::Rules;
use super::setting_values::{put, ways};
use crate::history::zone_of;

/// What was written to somebody unasked counts on its day alone; the rest of
/// the time is for clocks that differ.
const UNASKED: i64 = 14 * 86_400;

impl Bot {
    /// Clears away what only carried messages and questions, and is old.
    ///
    /// # Errors
    /// Whatever the database says; the next time clears it away.
    pub async fn clear_away(&self, now: i64) -> Result<(), StoreError> {
        let date = schedule::local_date(&TimeZone::UTC, now - UNASKED).unwrap_or_default();
        store::clearing::clear_away(&self.store, &date.to_string(), now).await
    }

    /// Once a day, deletes what an outfit does not want kept any longer.
    pub(super) async fn delete_old(
        &self,
        outfit: &Outfit,
        rules: &Rules,
        met: impl Fn(&str) -> bool,
        now: i64,
    ) -> Result<(), StoreError> {
        let Some(years) = rules.keeps() else {
            return Ok(());
        };
        let today = schedule::local_date(&zone_of(outfit), now);
        let (Some((date, before)), Some(today)) = (kept_from(outfit, years, now), today) else {
            return Ok(());
        };
        // Of another number of years it is another task: who changes it need not wait for tomorrow.
        let key = format!("old/{}/{today}/{years}", outfit.id);
        if met(&key) {
            return Ok(());
        }
        let mut tx = self.store.begin().await?;
        if !store::slots::claim(&mut tx, &key, now).await? {
            return Ok(());
        }
        let old = store::keeping::delete_older(&mut tx, outfit.id, before, &date.to_string()).await?;
        let rows = old.readings + old.services;
        if rows > 0 {
            store::changes::note_by_itself(&mut tx, outfit.id, "deleted-old", &rows.to_string(), now).await?;
            tracing::info!(
                outfit_id = outfit.id,
                rows,
                "what an outfit keeps no longer was deleted"
            );
        }
        tx.commit().await
    }
}

/// From when on everything is kept; none: for good.
pub(super) fn kept_since(on: &Request<'_>) -> Option<i64> {
    let (_, since) = kept_from(&on.outfit, on.rules.keeps()?, on.now)?;
    Some(since)
}

pub(super) async fn keep_for(
    db: &mut Db,
    on: &mut Request<'_>,
    setting: &Setting,
    sure: bool,
) -> Result<Answer, StoreError> {
    let years: Option<u16> = setting.get().flatten();
    let from = years.and_then(|years| kept_from(&on.outfit, years, on.now));
    let Some((date, before)) = from else {
        put(db, on, Field::Keep, Some(setting), None).await?;
        return Ok(Answer::says(on.words.plain("keep-for-good")));
    };
    let old = store::keeping::older(db, on.outfit.id, before).await?;
    let counted = Counted {
        readings: old.readings,
        services: old.services,
        ..Counted::default()
    };
    let text = typed(on.words, setting, ways(&on.rules));
    let Some(what) = counted.told(on.words) else {
        put(db, on, Field::Keep, Some(setting), None).await?;
        return Ok(Answer::says(on.words.say("keep-noted", [("setting", (&text).into())])));
    };
    let day = figures::full_day(on.words, date, on.today());
    let facts = [
        ("setting", (&text).into()),
        ("day", (&day).into()),
        ("what", (&what).into()),
    ];
    let deletes_more = on.rules.keeps().is_none_or(|kept| years < Some(kept));
    if deletes_more && !sure {
        let mut answer = Answer::says(on.words.say("keep-sure", facts));
        answer.buttons.push(Press {
            label: on.words.plain("keep-button"),
            act: Act::Command(Command::Setting(WishFor {
                sure: true,
                ..WishFor::set(None, setting.clone())
            })),
        });
        return Ok(answer);
    }
    put(db, on, Field::Keep, Some(setting), None).await?;
    Ok(Answer::says(on.words.say("keep-deleting", facts)))
}

/// From when on everything is kept: a local date, and the instant of its beginning.
fn kept_from(outfit: &Outfit, years: u16, now: i64) -> Option<(Date, i64)> {
    let zone = zone_of(outfit);
    let today = schedule::local_date(&zone, now)?;
    let date = today.checked_sub(i64::from(years).years()).ok()?;
    Some((date, schedule::day_start(&zone, date)?))
}
