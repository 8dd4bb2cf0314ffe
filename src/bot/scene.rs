//! What the reader of messages may know: the fleet with its usual figures,
//! the sender's last reading, the open question.

use std::collections::BTreeSet;

use crate::message::{self, Ask, Scene, Solids};
use crate::schedule;
use crate::store::readings::Reading;
use crate::store::{self, StoreError};

use super::turn::Turn;

/// From this many readings on, a rig's own history says what is usual.
const ENOUGH_READINGS: usize = 5;
/// How many readings back "usual" looks.
const USUAL_SPAN: i64 = 40;
/// How long a bare "done" is taken for the answer to a reminder.
pub(super) const NUDGE_STANDS: i64 = 3 * 3600;
/// How long a person's last reading can be corrected by a text.
pub(super) const CORRECTABLE: i64 = 12 * 3600;

/// The scene in which a text is read.
pub(super) async fn build(turn: &mut Turn<'_>, text: &str, open: Option<Ask>) -> Result<Scene, StoreError> {
    let day_start = schedule::day_start(&turn.zone, turn.today()).unwrap_or(turn.now);
    let last = store::readings::last_taken_on_fleet(turn.db, turn.outfit.id, turn.now + 1).await?;
    let fleet = turn.fleet.iter().map(|rig| message::Rig {
        id: rig.id,
        name: rig.name.clone(),
        short_names: turn.rules.short_names(rig.id),
        di_only: rig.di_only,
        manual_flush: !rig.flushes_itself && !rig.di_only,
        worked_today: last.get(&rig.id).is_some_and(|at| *at >= day_start),
        usual_feed_ppm: None,
        usual_permeate_ppm: None,
    });
    let mut scene = Scene {
        fleet: fleet.collect(),
        own_rig: turn.member.own_rig,
        last: spoken_of(turn).await?.iter().map(said).collect(),
        open,
        nudged: nudged(turn).await?,
        may_speak_for_all: turn.member.role.leads(),
        celsius: turn.rules.celsius(),
        us_to_ppm: turn.outfit.us_to_ppm,
        reads_conductivity: turn.rules.reads_conductivity(),
    };
    // What is usual decides whether a reading is doubted, not which rig it is of: only
    // the rigs that the text is about are looked up, out of hundreds.
    for id in rigs_of(text, &mut scene) {
        let past = store::readings::latest(turn.db, id, turn.now + 1, USUAL_SPAN).await?;
        if let Some(rig) = scene.fleet.iter_mut().find(|rig| rig.id == id) {
            rig.usual_feed_ppm = usual(past.iter().map(|reading| reading.feed_ppm));
            rig.usual_permeate_ppm = usual(past.iter().filter_map(|reading| reading.permeate_ppm));
        }
    }
    Ok(scene)
}

/// The rigs whose readings a text may tell, as the answer to the open question or by itself.
fn rigs_of(text: &str, scene: &mut Scene) -> BTreeSet<i64> {
    let answer = message::read(text, scene);
    let open = scene.open.take();
    let alone = message::read(text, scene);
    scene.open = open;
    let mut rigs = BTreeSet::new();
    for told in [answer, alone] {
        let drafts = told.ask.iter().flat_map(|ask| &ask.drafts);
        let changes = told.corrections.iter().map(|correction| &correction.change);
        let readings = told.readings.iter().chain(drafts).chain(changes);
        rigs.extend(readings.filter_map(|reading| reading.rig));
        rigs.extend(told.corrections.iter().map(|correction| correction.from_rig));
    }
    rigs
}

/// The rigs that the sender was just reminded of: the one of the last reminder, or those of several at once that wait.
async fn nudged(turn: &mut Turn<'_>) -> Result<Vec<i64>, StoreError> {
    let since = turn.now - NUDGE_STANDS;
    if let Some(rig) = store::people::nudged(turn.db, turn.member.id, since).await? {
        return Ok(vec![rig]);
    }
    store::nudges::unanswered(turn.db, turn.member.id, since).await
}

/// The readings that a correction is about: those behind the answer or message
/// that is replied to, else those of the sender's last message.
pub(super) async fn spoken_of(turn: &mut Turn<'_>) -> Result<Vec<Reading>, StoreError> {
    if let Some(replied) = turn.incoming.reply_to.clone() {
        let source = store::sends::answered_by(turn.db, &replied).await?.unwrap_or(replied);
        let readings = store::readings::of_message(turn.db, &source).await?;
        let here = |reading: &Reading| turn.fleet.iter().any(|rig| rig.id == reading.rig_id);
        if !readings.is_empty() && readings.iter().all(here) {
            return Ok(readings);
        }
    }
    match store::readings::last_message(turn.db, turn.member.id, turn.now - CORRECTABLE).await? {
        Some((source, _)) => store::readings::of_message(turn.db, &source).await,
        None => Ok(Vec::new()),
    }
}

/// A kept reading in the reader's words.
fn said(reading: &Reading) -> message::Reading {
    let solids = |ppm: Option<f64>, raw_us| ppm.map(|ppm| Solids { ppm, raw_us });
    message::Reading {
        rig: Some(reading.rig_id),
        feed: solids(Some(reading.feed_ppm), reading.feed_raw_us),
        permeate: solids(reading.permeate_ppm, reading.permeate_raw_us),
        product: solids(reading.product_ppm, reading.product_raw_us),
        temperature_c: reading.temperature_c,
        pressure_kpa: reading.pressure_kpa,
        permeate_lpm: reading.permeate_lpm,
        waste_lpm: reading.waste_lpm,
        when: None,
    }
}

/// The range of what was read so far, once there is enough of it.
fn usual(read: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    let read: Vec<f64> = read.collect();
    if read.len() < ENOUGH_READINGS {
        return None;
    }
    Some(
        read.iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), ppm| {
                (low.min(*ppm), high.max(*ppm))
            }),
    )
}
