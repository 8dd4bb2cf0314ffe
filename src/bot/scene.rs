//! What the reader of messages may know: the fleet with its usual figures,
//! the sender's last reading, the open question.

use std::collections::BTreeSet;

use crate::message::{self, Ask, Scene, Solids};
use crate::schedule;
use crate::store::readings::Reading;
use crate::store::services::Service;
use crate::store::{self, StoreError};

use super::recording::service_of;
use super::turn::Turn;

/// From this many readings on, a rig's own history says what its membrane usually lets through; a tap tells from the first.
const ENOUGH_READINGS: usize = 5;
/// How many readings back "usual" looks.
const USUAL_SPAN: i64 = 40;
/// How long a bare "done" is taken for the answer to a reminder.
const NUDGE_STANDS: i64 = 3 * 3600;
/// How long a person's last reading can be corrected by a text.
pub(super) const CORRECTABLE: i64 = 12 * 3600;
/// So soon behind a reading "no, 10" in a group is about it.
const JUST_SENT: i64 = 300;

/// The scene in which a text is read.
pub(super) async fn build(turn: &mut Turn<'_>, text: &str, open: Option<Ask>) -> Result<Scene, StoreError> {
    let day_start = schedule::day_start(&turn.zone, turn.today()).unwrap_or(turn.now);
    let spoken = spoken_of(turn).await?;
    let overheard = turn.incoming.chat.group && !spoken.replied;
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
        last: spoken.readings.iter().map(said).collect(),
        last_services: spoken.services.iter().filter_map(told).collect(),
        overheard,
        just_sent: spoken.heard_at.is_some_and(|at| turn.now - at <= JUST_SENT),
        open,
        nudged: nudged(turn).await?,
        may_speak_for_all: turn.member.role.leads(),
        celsius: turn.rules.celsius(),
        month_first: turn.rules.month_first(),
        us_to_ppm: turn.outfit.us_to_ppm,
        reads_conductivity: turn.rules.reads_conductivity(),
    };
    // What is usual decides whether a reading is doubted, not which rig it is of: only
    // the rigs that the text is about are looked up, out of hundreds.
    for id in rigs_of(text, &mut scene) {
        let past = store::readings::latest(turn.db, id, turn.now + 1, USUAL_SPAN).await?;
        if let Some(rig) = scene.fleet.iter_mut().find(|rig| rig.id == id) {
            rig.usual_feed_ppm = usual(past.iter().map(|reading| reading.feed_ppm), 1);
            rig.usual_permeate_ppm = usual(past.iter().filter_map(|reading| reading.permeate_ppm), ENOUGH_READINGS);
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

/// What a correction is about.
#[derive(Default)]
pub(super) struct Spoken {
    /// The readings behind the answer or message that is replied to, else those of the sender's last one with any.
    pub readings: Vec<Reading>,
    /// The services of that message, where it tells of services only and later than the readings.
    pub services: Vec<Service>,
    /// When the sender's last message was heard.
    pub heard_at: Option<i64>,
    /// The text replies to what it is about.
    pub replied: bool,
}

pub(super) async fn spoken_of(turn: &mut Turn<'_>) -> Result<Spoken, StoreError> {
    if let Some(replied) = turn.incoming.reply_to.clone() {
        let source = store::sends::answered_by(turn.db, &replied).await?.unwrap_or(replied);
        let readings = store::readings::of_message(turn.db, &source).await?;
        let services = store::services::of_message(turn.db, &source).await?;
        let mut rigs = readings
            .iter()
            .map(|one| one.rig_id)
            .chain(services.iter().map(|one| one.rig_id));
        let here = |id: i64| turn.fleet.iter().any(|rig| rig.id == id);
        if !(readings.is_empty() && services.is_empty()) && rigs.all(here) {
            let services = if readings.is_empty() { services } else { Vec::new() };
            return Ok(Spoken {
                readings,
                services,
                heard_at: Some(turn.now),
                replied: true,
            });
        }
    }
    let since = turn.now - CORRECTABLE;
    let reading = store::readings::last_message(turn.db, turn.member.id, since).await?;
    let service = store::services::last_message(turn.db, turn.member.id, since).await?;
    // Of two messages heard in the same second the later has the greater key.
    let order = |last: &Option<(String, i64)>| last.as_ref().map(|(key, at)| (*at, key.len(), key.clone()));
    let service_is_last = order(&service) > order(&reading);
    let heard_at = reading.iter().chain(&service).map(|(_, at)| *at).max();
    let readings = match reading {
        Some((source, _)) => store::readings::of_message(turn.db, &source).await?,
        None => Vec::new(),
    };
    let services = match service.filter(|_| service_is_last) {
        Some((source, _)) => store::services::of_message(turn.db, &source).await?,
        None => Vec::new(),
    };
    Ok(Spoken {
        readings,
        services,
        heard_at,
        replied: false,
    })
}

/// A kept service in the reader's words.
fn told(service: &Service) -> Option<message::Service> {
    Some(message::Service {
        rig: service.rig_id,
        what: service_of(&service.what)?,
        minutes: service.minutes.and_then(|minutes| u16::try_from(minutes).ok()),
        price: service.price_minor.map(|minor| message::Price {
            amount: minor as f64,
            currency: None,
        }),
        when: None,
    })
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
fn usual(read: impl Iterator<Item = f64>, enough: usize) -> Option<(f64, f64)> {
    let read: Vec<f64> = read.collect();
    if read.len() < enough {
        return None;
    }
    Some(
        read.iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), ppm| {
                (low.min(*ppm), high.max(*ppm))
            }),
    )
}
