//! Readings and services: recorded, and the words for a reading.
//!
//! What is recorded moves the remembered states on. What comes out of the order of time does not: its rigs are replayed
//! from their rows, which needs the database.

use std::collections::BTreeSet;

use crate::domain::{RigId, ServiceKind};
use crate::grammar::{self, Meaning};
use crate::history::Followed;
use crate::history::rig_state::{Happened, PastReading};
use crate::replies::caution::Occasion;
use crate::replies::figures::shown_change;
use crate::replies::reading::{self, Facts};
use crate::replies::resin;
use crate::store::readings::Reading;
use crate::store::services::Service;
use crate::store::{Db, StoreError};
use crate::water::assess::{Doubted, LEVEL_FROM_READINGS};
use crate::water::condition::Condition;
use crate::water::resin::BedState;
use crate::water::verdict::{Deed, Kind};

use super::answer::Answer;
use super::condition::{deed_words, raw_rejection, word_for};
use super::effects::Effects;
use super::flush_answers::missed_flush;
use super::membrane_question::renewal_buttons;
use super::past_readings::figures_of;
use super::request::Request;
use super::scene;
use super::services::{kept_services, words_for_services};
use super::understood::Source;
use super::when::instant;

/// Whether what a message tells comes behind all that its rigs took so far, so that it can be recorded from memory.
pub(super) fn is_in_order(on: &Request<'_>, meaning: &Meaning, source: &Source) -> bool {
    let (readings, services) = kept(on, meaning, source);
    let mut events = happened(&readings, &services);
    events.sort_by_key(Happened::order);
    let mut taken: Vec<(RigId, (i64, bool))> = Vec::new();
    events.iter().all(|event| {
        let rig = rig_of(event);
        let (at, is_reading, _) = event.order();
        let before = taken
            .iter()
            .filter(|(taken, _)| *taken == rig)
            .map(|(_, upto)| *upto)
            .max();
        taken.push((rig, (at, is_reading)));
        on.known.rig(rig).is_some_and(|known| known.state.is_next(event))
            && before.is_none_or(|before| before <= (at, is_reading))
    })
}

/// Records the readings and services that a message tells, and answers them; what the database is needed for stands in
/// `late`: rigs whose states must be replayed once the effects are written.
pub(super) fn record(
    on: &mut Request<'_>,
    effects: &mut Effects,
    meaning: &Meaning,
    source: &Source,
) -> (Recorded, BTreeSet<RigId>) {
    let (readings, services) = kept(on, meaning, source);
    let teller = on.teller();
    let readings: Vec<Reading> = readings
        .into_iter()
        .map(|reading| effects.record(teller, reading))
        .collect();
    let mut recorded = Recorded {
        readings,
        services: Vec::new(),
    };
    for service in services {
        // "Heron new resin £140", just after it was told without its price: the price is added.
        recorded
            .services
            .push(match super::services::priced_later(on, &service) {
                Some(earlier) => {
                    let minor = service.price_minor.unwrap_or_default();
                    effects.price(earlier, minor);
                    on.known.price(service.rig_id, service.what, minor);
                    service
                }
                None => effects.serve(teller, service),
            });
    }
    let mut late = BTreeSet::new();
    let new = recorded.services.iter().filter(|service| service.id != 0);
    let mut events: Vec<Happened<'_>> = new.map(Happened::Service).collect();
    events.extend(recorded.readings.iter().map(Happened::Reading));
    events.sort_by_key(Happened::order);
    for event in &events {
        let rig = rig_of(event);
        if late.contains(&rig) || on.known.take(rig, event).is_err() {
            late.insert(rig);
        }
    }
    let told: Vec<Service> = recorded.services.iter().filter(|one| one.id != 0).cloned().collect();
    scene::remember(on, teller.person_id, &recorded.readings, &told);
    (recorded, late)
}

/// The same with the database at hand: the rows are written, and rigs that want it are replayed.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn record_now(
    db: &mut Db,
    on: &mut Request<'_>,
    meaning: &Meaning,
    source: &Source,
) -> Result<Recorded, StoreError> {
    let mut effects = Effects::default();
    let (recorded, late) = record(on, &mut effects, meaning, source);
    let drawn = effects.write(db, on.now).await?;
    drawn.number(&mut on.known);
    if !late.is_empty() {
        on.changed(db, late).await?;
    }
    Ok(Recorded {
        readings: recorded
            .readings
            .into_iter()
            .map(|reading| drawn.reading(reading))
            .collect(),
        services: recorded.services,
    })
}

/// What was recorded of one message.
#[derive(Debug, Default)]
pub(super) struct Recorded {
    pub readings: Vec<Reading>,
    pub services: Vec<Service>,
}

/// The words for what was recorded: the readings, then the services.
pub(super) fn words_for(on: &Request<'_>, meaning: &Meaning, source: &Source, recorded: &Recorded) -> Answer {
    let mut answer = Answer::default();
    let several = recorded.readings.len() > 1;
    for kept in &recorded.readings {
        let flushed = |service: &Service| service.what == ServiceKind::Flush && service.rig_id == kept.rig_id;
        let remind = !several && !recorded.services.iter().any(flushed);
        answer.and(tell(on, kept, several, remind));
    }
    if several && !answer.parts.is_empty() {
        answer.parts = vec![answer.parts.join("\n")];
    }
    answer.and(words_for_services(on, meaning, source, &recorded.services));
    answer
}

fn kept(on: &Request<'_>, meaning: &Meaning, source: &Source) -> (Vec<Reading>, Vec<Service>) {
    let readings = meaning
        .readings
        .iter()
        .filter_map(|said| kept_reading(on, said, source));
    (readings.collect(), kept_services(on, meaning, source))
}

fn happened<'a>(readings: &'a [Reading], services: &'a [Service]) -> Vec<Happened<'a>> {
    let readings = readings.iter().map(Happened::Reading);
    readings.chain(services.iter().map(Happened::Service)).collect()
}

fn rig_of(event: &Happened<'_>) -> RigId {
    match event {
        Happened::Reading(reading) => reading.rig_id,
        Happened::Service(service) => service.rig_id,
    }
}

/// What was said, as it is kept; none without the readings that a reading is.
fn kept_reading(on: &Request<'_>, said: &grammar::Reading, source: &Source) -> Option<Reading> {
    let feed = said.feed?;
    said.permeate.or(said.product)?;
    Some(Reading {
        rig_id: said.rig?,
        person_id: on.member.id,
        source_key: source.key.clone(),
        taken_at: instant(said.when, source.sent_at, &on.zone),
        feed_ppm: feed.ppm,
        permeate_ppm: said.permeate.map(|permeate| permeate.ppm),
        product_ppm: said.product.map(|product| product.ppm),
        feed_raw_us: feed.raw_us,
        permeate_raw_us: said.permeate.and_then(|permeate| permeate.raw_us),
        product_raw_us: said.product.and_then(|product| product.raw_us),
        temperature_c: said.temperature_c,
        pressure_kpa: said.pressure_kpa,
        permeate_lpm: said.permeate_lpm,
        waste_lpm: said.waste_lpm,
        ..Reading::default()
    })
}

/// The words for a reading that was just recorded, and the buttons of what it asks.
pub(super) fn tell(on: &Request<'_>, kept: &Reading, short: bool, remind: bool) -> Answer {
    let Some(followed) = on.known.follow(kept.rig_id, on.now) else {
        return Answer::silence();
    };
    let (rig, read) = (followed.rig, PastReading::from(kept));
    let mut until_now = followed
        .state
        .readings
        .iter()
        .rev()
        .filter(|read| read.taken_at <= kept.taken_at);
    let before = until_now.find(|read| read.id != kept.id);
    let raw = raw_rejection(&read);
    let change = raw.zip(before).and_then(|(now, before)| {
        raw_rejection(before).map(|then| (shown_change(then, now), on.date(before.taken_at)))
    });
    let assessment = &followed.assessment;
    let missed_flush = missed_flush(on, kept.rig_id, before, kept.taken_at);
    let (today, taken_on) = (on.today(), on.date(kept.taken_at));
    let membrane = raw.map(|rejection| (rejection, word_for(&followed, &read)));
    // What is to be done first; and what is asked, as its buttons stand below.
    let asks = |deed: &Deed| matches!(deed, Deed::AskMembrane { .. });
    let deeds = &followed.verdict.deeds;
    let first = deeds
        .first()
        .filter(|deed| !(is_said_by_headline(on, deed, kept) || asks(deed)));
    let asked = deeds.iter().find(|deed| asks(deed));
    let mut occasions: Vec<Occasion> = kept.temperature_c.map(Occasion::WaterAt).into_iter().collect();
    occasions.extend(deeds.first().filter(|_| !short).map(advised));
    let facts = Facts {
        rig: &rig.name,
        figures: figures_of(on, &read),
        membrane,
        change,
        deeds: (first.into_iter().chain(asked))
            .map(|deed| deed_words(on, &followed, deed))
            .collect(),
        readings_to_go: readings_to_go(&followed),
        taken_on: (taken_on != today).then_some(taken_on),
        missed_flush,
        resin: assessment
            .resin
            .filter(|_| remind && !is_resin_asked(&followed))
            .and_then(|bed| resin::short(on.words, &bed)),
        slips: assessment.bed_state() == Some(BedState::EarlyBreakthrough),
        has_bed: on.rules.has_bed(rig),
        spots_ppm: on.rules.limits().spots_ppm,
        // Once a day and rig.
        flush: remind
            && taken_on == today
            && before.is_none_or(|before| on.date(before.taken_at) != today)
            && !rig.flushes_itself
            && !rig.di_only,
        today,
    };
    let mut answer = Answer::says(match short {
        true => reading::short_answer(on.words, &facts),
        false => reading::answer(on.words, &facts),
    });
    answer.occasions = occasions;
    if asked.is_some() && !short {
        answer.buttons = renewal_buttons(on.words, rig);
    }
    answer
}

/// The occasion for a caution that a deed is.
fn advised(deed: &Deed) -> Occasion {
    match deed {
        // It sends to hoses and O-rings, as a leak does.
        Deed::ReadAgain {
            why: Doubted::LowUnproven,
            ..
        } => Occasion::Advised(Kind::FindLeak),
        other => Occasion::Advised(other.kind()),
    }
}

/// Whether the first line says it already: the glass of this reading spots.
fn is_said_by_headline(on: &Request<'_>, deed: &Deed, kept: &Reading) -> bool {
    let spots = kept.product_ppm.is_some_and(|ppm| ppm >= on.rules.limits().spots_ppm);
    spots && matches!(deed, Deed::ChangeResin { .. } | Deed::RepackResin { .. })
}

/// Whether the resin is what is to be done first: then its deed says how long it lasts.
fn is_resin_asked(followed: &Followed<'_>) -> bool {
    matches!(
        followed.verdict.deed(),
        Some(Deed::ResinSoon { .. } | Deed::RepackResin { .. })
    )
}

/// How many more readings a membrane takes before anything can be told of it.
fn readings_to_go(followed: &Followed<'_>) -> i64 {
    match (followed.verdict.state, followed.verdict.level) {
        (Some(Condition::Unproven), None) => {
            i64::from(LEVEL_FROM_READINGS.saturating_sub(followed.assessment.readings_used))
        }
        _ => 0,
    }
}
