//! What the reader of messages may know: the fleet with its usual figures,
//! the sender's last reading, the open question.

use crate::domain::{PersonId, QuestionId};
use crate::grammar::{self, Scene, Solids};
use crate::history::known_rig::KnownRig;
use crate::schedule;
use crate::store::outfit_rows::Recent;
use crate::store::questions::Question;
use crate::store::readings::Reading;
use crate::store::services::Service;
use crate::store::{self, Db, StoreError};

use super::request::{Request, Spoken};

/// From this many readings on, a rig's own history says what its membrane usually lets through; a tap tells from the first.
const ENOUGH_READINGS: usize = 5;

/// How long a bare "done" is taken for the answer to a reminder.
const NUDGE_STANDS: i64 = 3 * 3600;

/// How long a person's last reading can be corrected by a text.
pub(super) const CORRECTABLE: i64 = 12 * 3600;

/// So soon behind a reading "no, 10" in a group is about it.
const JUST_SENT: i64 = 300;

/// The scene in which a text is read; the open question is the one of this chat.
pub(super) fn scene(on: &Request<'_>, open: Option<&Question>) -> Scene {
    let day_start = schedule::day_start(&on.zone, on.today()).unwrap_or(on.now);
    let spoken = spoken_of(on);
    Scene {
        fleet: on.known.rigs.iter().map(|known| rig(on, known, day_start)).collect(),
        own_rig: on.member.own_rig,
        last: spoken.readings.iter().map(said).collect(),
        last_services: spoken.services.iter().filter_map(told).collect(),
        overheard: on.incoming.chat.group && !spoken.replied,
        just_sent: spoken.heard_at.is_some_and(|at| on.now - at <= JUST_SENT),
        open: open.map(|question| question.ask.clone()),
        nudged: nudged(on),
        may_speak_for_all: on.member.role.leads(),
        celsius: on.rules.celsius(),
        all_off: on.rules.off_on(None, on.today()).is_some(),
        month_first: on.rules.month_first(),
        us_to_ppm: on.outfit.us_to_ppm,
        reads_conductivity: on.rules.reads_conductivity(),
    }
}

fn rig(on: &Request<'_>, known: &KnownRig, day_start: i64) -> grammar::Rig {
    let (rig, readings) = (&known.rig, &known.state.readings);
    grammar::Rig {
        id: rig.id,
        name: rig.name.clone(),
        short_names: on.rules.short_names(rig.id),
        di_only: rig.di_only,
        manual_flush: !rig.flushes_itself && !rig.di_only,
        off: on
            .rules
            .time_off(Some(rig.id))
            .iter()
            .any(|span| span.holds(on.today())),
        worked_today: readings.back().is_some_and(|last| last.taken_at >= day_start),
        last_feed_ppm: readings.back().map(|last| last.feed_ppm),
        usual_feed_ppm: usual(readings.iter().map(|reading| reading.feed_ppm), 1),
        usual_permeate_ppm: usual(
            readings.iter().filter_map(|reading| reading.permeate_ppm),
            ENOUGH_READINGS,
        ),
    }
}

/// The question that waits for the sender in this chat.
pub(super) fn open_question(on: &Request<'_>) -> Option<Question> {
    let questions = on.recent().questions.iter().rev();
    let mut here = questions.filter(|(chat, _, expires_at)| *chat == on.incoming.chat.address && *expires_at > on.now);
    here.next().map(|(_, question, _)| question.clone())
}

/// Forgets the questions that wait for the sender in this chat, and says which they are.
pub(super) fn close_questions(on: &mut Request<'_>) -> Vec<QuestionId> {
    let (incoming, person) = (on.incoming, on.member.id);
    let Some(recent) = on.known.person_mut(person).and_then(|person| person.recent.as_mut()) else {
        return Vec::new();
    };
    let here = recent
        .questions
        .extract_if(.., |(chat, _, _)| *chat == incoming.chat.address);
    here.map(|(_, question, _)| question.id).collect()
}

/// Remembers that the sender was asked something in this chat.
pub(super) fn remember_question(on: &mut Request<'_>, question: Question, until: i64) {
    let (chat, person) = (on.incoming.chat.address.clone(), on.member.id);
    if let Some(recent) = on.known.person_mut(person).and_then(|person| person.recent.as_mut()) {
        recent.questions.push((chat, question, until));
    }
}

/// The rigs that the sender was just reminded of: the one of the last reminder, or those of several at once that wait.
fn nudged(on: &Request<'_>) -> Vec<i64> {
    let since = on.now - NUDGE_STANDS;
    let Recent { nudged, unanswered, .. } = on.recent();
    match nudged {
        Some((rig, at)) if *at >= since => vec![*rig],
        _ => unanswered
            .iter()
            .filter(|(_, at)| *at >= since)
            .map(|(rig, _)| *rig)
            .collect(),
    }
}

/// What a correction by this text would be about: what it replies to, else what the sender told last.
pub(super) fn spoken_of(on: &Request<'_>) -> Spoken {
    if let Some(replied) = &on.replied {
        return replied.clone();
    }
    let Recent { readings, services, .. } = on.recent();
    // Of two messages heard in the same second the later has the greater key.
    let key = |source_key: &String| (source_key.len(), source_key.clone());
    let reading = readings
        .as_ref()
        .map(|(at, of)| (*at, of.first().map(|one| key(&one.source_key))));
    let service = services
        .as_ref()
        .map(|(at, of)| (*at, of.first().map(|one| key(&one.source_key))));
    let since = on.now - CORRECTABLE;
    let service_is_last = service > reading;
    let heard_at = reading
        .iter()
        .map(|(at, _)| *at)
        .chain(service.iter().map(|(at, _)| *at));
    let late = |at: i64| at >= since;
    Spoken {
        heard_at: heard_at.filter(|at| late(*at)).max(),
        readings: readings
            .iter()
            .filter(|(at, _)| late(*at))
            .flat_map(|(_, of)| of.clone())
            .collect(),
        services: services
            .iter()
            .filter(|(at, _)| service_is_last && late(*at))
            .flat_map(|(_, of)| of.clone())
            .collect(),
        replied: false,
    }
}

/// What the message tells of that this one replies to, or the message behind the answer that it replies to; none if it
/// tells of nothing, or of rigs that are not here.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn replied_to(db: &mut Db, on: &Request<'_>) -> Result<Option<Spoken>, StoreError> {
    let Some(replied) = on.incoming.reply_to.clone() else {
        return Ok(None);
    };
    let source = store::sends::answered_by(db, &replied).await?.unwrap_or(replied);
    let readings = store::readings::of_message(db, on.outfit.id, &source).await?;
    let services = store::services::of_message(db, on.outfit.id, &source).await?;
    let readings_of = readings.iter().map(|one| one.rig_id);
    let mut rigs = readings_of.chain(services.iter().map(|one| one.rig_id));
    let all_here = rigs.all(|id| on.rig(id).is_some());
    if readings.is_empty() && services.is_empty() || !all_here {
        return Ok(None);
    }
    let services = if readings.is_empty() { services } else { Vec::new() };
    Ok(Some(Spoken {
        readings,
        services,
        heard_at: Some(on.now),
        replied: true,
    }))
}

/// Remembers what a message told, as the last of its sender.
pub(super) fn remember(on: &mut Request<'_>, person: PersonId, readings: &[Reading], services: &[Service]) {
    let now = on.now;
    let Some(recent) = on.known.person_mut(person).and_then(|person| person.recent.as_mut()) else {
        return;
    };
    if !readings.is_empty() {
        recent.readings = Some((now, readings.to_vec()));
    }
    if !services.is_empty() {
        recent.services = Some((now, services.to_vec()));
        let flushed = |rig: i64| {
            let flush = |service: &&Service| service.rig_id == rig && service.what == crate::domain::ServiceKind::Flush;
            services.iter().find(flush).map(|service| service.done_at)
        };
        recent
            .unanswered
            .retain(|(rig, at)| flushed(*rig).is_none_or(|done| done < *at));
    }
}

/// A kept service in the reader's words.
fn told(service: &Service) -> Option<grammar::Service> {
    service.what.is_work().then(|| grammar::Service {
        rig: service.rig_id,
        what: service.what,
        minutes: service.minutes.and_then(|minutes| u16::try_from(minutes).ok()),
        price: service.price_minor.map(|minor| grammar::Price {
            amount: minor as f64,
            currency: None,
        }),
        when: None,
    })
}

/// A kept reading in the reader's words.
fn said(reading: &Reading) -> grammar::Reading {
    let solids = |ppm: Option<f64>, raw_us| ppm.map(|ppm| Solids { ppm, raw_us });
    grammar::Reading {
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
    let (count, range) = read.fold((0, (f64::INFINITY, f64::NEG_INFINITY)), |(count, (low, high)), ppm| {
        (count + 1, (low.min(ppm), high.max(ppm)))
    });
    (count >= enough).then_some(range)
}
