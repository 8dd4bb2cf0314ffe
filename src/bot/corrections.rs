//! What somebody said, put right.

use jiff::tz::TimeZone;

use crate::grammar::{self, Amend, Correction, Solids};
use crate::store::readings::Reading;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::readings::tell;
use super::request::Request;
use super::scene::{CORRECTABLE, spoken_of};
use super::services::noted;
use super::when::instant;
use super::withdrawals::{withdrawn, withdrawn_service};

/// Puts right what the sender said last on a rig.
pub(super) async fn correct(db: &mut Db, on: &mut Request<'_>, correction: &Correction) -> Result<Answer, StoreError> {
    let Some((old, change)) = corrected_reading(db, on, correction).await? else {
        return Ok(Answer::says(on.words.plain("nothing-to-withdraw")));
    };
    if correction.void {
        store::readings::withdraw(db, on.outfit.id, old.id, on.now).await?;
        on.changed(db, [old.rig_id]).await?;
        return Ok(Answer::says(withdrawn(on, &old)));
    }
    let mut corrected = changed(&on.zone, &old, &change);
    if let Some(misfit) = fit_to_rig(on, &mut corrected) {
        return Ok(misfit);
    }
    store::readings::withdraw(db, on.outfit.id, old.id, on.now).await?;
    corrected.id = store::readings::record(db, on.teller(), &corrected).await?;
    on.changed(db, [old.rig_id, corrected.rig_id]).await?;
    let mut answer = tell(on, &corrected, false, false);
    if let Some(first) = answer.parts.first_mut() {
        first.insert_str(0, &format!("{} ", on.words.plain("corrected")));
    }
    Ok(answer)
}

/// A reading that moves between rigs of two kinds: on one without a membrane its
/// second number is the glass; one with a membrane needs its RO, which is said.
fn fit_to_rig(on: &Request<'_>, moved: &mut Reading) -> Option<Answer> {
    let rig = on.fleet.iter().find(|rig| rig.id == moved.rig_id)?;
    if rig.di_only {
        let (second, raw) = (moved.permeate_ppm.take(), moved.permeate_raw_us.take());
        if moved.product_ppm.is_none() {
            (moved.product_ppm, moved.product_raw_us) = (second, raw);
        }
        return None;
    }
    moved.permeate_ppm.is_none().then(|| {
        let (name, example) = (
            &rig.name,
            format!("{} {}", rig.name.to_lowercase(), moved.feed_ppm.round()),
        );
        Answer::says(on.words.say(
            "moved-without-ro",
            [("rig", name.into()), ("example", (&example).into())],
        ))
    })
}

/// The reading that a correction is about, and what changes of it: the one
/// just spoken of, else the latest on the named rig of the last 12 hours (a
/// lead's word also counts for what others sent). There, a time that was
/// said tells which reading is meant.
async fn corrected_reading(
    db: &mut Db,
    on: &Request<'_>,
    correction: &Correction,
) -> Result<Option<(Reading, grammar::Reading)>, StoreError> {
    // "Delete badger 180 12" names the one by its values.
    let change = &correction.change;
    let meant = |reading: &Reading| {
        let same = |said: Option<Solids>, kept: Option<f64>| {
            said.is_none_or(|said| kept.is_some_and(|kept| (kept - said.ppm).abs() < 0.05))
        };
        let told = same(change.feed, Some(reading.feed_ppm))
            && same(change.permeate, reading.permeate_ppm.or(reading.product_ppm));
        reading.rig_id == correction.from_rig && (!correction.void || told)
    };
    let spoken = spoken_of(on).readings;
    if let Some(old) = spoken.into_iter().find(meant) {
        return Ok(Some((old, correction.change.clone())));
    }
    let whose = (!on.member.role.leads()).then_some(on.member.id);
    let since = on.now - CORRECTABLE;
    let mut recent = store::readings::heard_since(db, (on.outfit.id, correction.from_rig), whose, since).await?;
    recent.retain(meant);
    if correction.change.when.is_some() {
        let meant = instant(correction.change.when, on.sent_at(), &on.zone);
        recent.sort_by_key(|reading| (reading.taken_at - meant).abs());
    }
    let change = grammar::Reading {
        when: None,
        ..correction.change.clone()
    };
    Ok(recent.into_iter().next().map(|old| (old, change)))
}

/// Puts right the services that the sender told of last.
pub(super) async fn amend_service(db: &mut Db, on: &mut Request<'_>, amend: &Amend) -> Result<Answer, StoreError> {
    let services = spoken_of(on).services;
    let mut lines = Vec::new();
    for old in services.into_iter().filter(|one| one.rig_id == amend.from_rig) {
        store::services::withdraw(db, on.outfit.id, old.id, on.now).await?;
        on.changed(db, [old.rig_id]).await?;
        if amend.void || !old.what.is_work() {
            lines.push(withdrawn_service(on, &old));
            continue;
        }
        let mut new = old.clone();
        new.rig_id = amend.rig.unwrap_or(old.rig_id);
        if amend.when.is_some() {
            new.done_at = instant(amend.when, on.sent_at(), &on.zone);
        }
        let price = amend.price.as_ref().and_then(|price| on.rules.minor(price.amount));
        let sign = amend.price.as_ref().and_then(|price| price.currency.as_deref());
        new.price_minor = price.or(old.price_minor);
        new.minutes = amend.minutes.map(i64::from).or(old.minutes);
        store::services::record(db, on.teller(), &new).await?;
        on.changed(db, [new.rig_id]).await?;
        lines.push(format!(
            "{} {}",
            on.words.plain("corrected"),
            noted(on, &new, true, sign)
        ));
    }
    if lines.is_empty() {
        lines.push(on.words.plain("nothing-to-withdraw"));
    }
    Ok(Answer::says(lines.join("\n")))
}

fn changed(zone: &TimeZone, old: &Reading, change: &grammar::Reading) -> Reading {
    let mut new = old.clone();
    new.rig_id = change.rig.unwrap_or(old.rig_id);
    if let Some(feed) = change.feed {
        (new.feed_ppm, new.feed_raw_us) = (feed.ppm, feed.raw_us);
    }
    if let Some(permeate) = change.permeate {
        (new.permeate_ppm, new.permeate_raw_us) = (Some(permeate.ppm), permeate.raw_us);
    }
    if let Some(product) = change.product {
        (new.product_ppm, new.product_raw_us) = (Some(product.ppm), product.raw_us);
    }
    new.temperature_c = change.temperature_c.or(old.temperature_c);
    new.pressure_kpa = change.pressure_kpa.or(old.pressure_kpa);
    new.permeate_lpm = change.permeate_lpm.or(old.permeate_lpm);
    new.waste_lpm = change.waste_lpm.or(old.waste_lpm);
    if change.when.is_some() {
        new.taken_at = instant(change.when, old.taken_at, zone);
    }
    new
}
