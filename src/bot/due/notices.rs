//! What is worth saying between two digests: on working days, each thing once,
//! and nobody more than three things a day.

use jiff::civil::Date;

use crate::digest::Kind;
use crate::digest::notes::{self, MOST_A_DAY, Note, Now, RigNow, Said, Topic};
use crate::digest::week::Decision;
use crate::domain::ServiceKind;
use crate::domain::envelope::{Body, Handling, Outgoing};
use crate::history::{self, Followed};
use crate::replies::{Words, caution, notes as worded};
use crate::schedule::{Slot, local_date};
use crate::store::people::{Member, Role};
use crate::store::questions::Button as StoredButton;
use crate::store::{self, Db, StoreError};

use crate::bot::due::Occasion;
use crate::bot::hours::next_workday;
use crate::bot::messages::carry;
use crate::bot::rules::Rules;
use crate::bot::{Bot, cautions, decisions, notice_answers};
use crate::schedule::offset;

/// What was said longer ago than this is not asked for.
const REMEMBERED: i64 = 400 * 86_400;

const BUTTONS_LIVE: i64 = 3 * 86_400;

/// Whoever worked a rig in this span may be asked tonight whether it is flushed.
const LATELY: i64 = 7 * 86_400;

impl Bot {
    /// Looks an outfit's day through and says what is due.
    pub(super) async fn notices(&self, occasion: &Occasion<'_>) -> Result<(), StoreError> {
        let Occasion { outfit, slot, now, .. } = *occasion;
        let mut look = self.store.look().await?;
        let Some(known) = history::load::as_of(&mut look, outfit.id, now).await? else {
            return Ok(());
        };
        let (rules, fleet) = (&known.rules, known.follow_fleet(now));
        let (decisions, _) = decisions::last(&mut look, outfit.id, slot.date, &occasion.hours.zone).await?;
        let said = said(&mut look, occasion).await?;
        let everybody = store::people::of_outfit(&mut look, outfit.id).await?;
        look.rollback().await?;
        let facts = facts(occasion, rules, &fleet, &decisions);
        let mut tx = self.store.begin().await?;
        if !store::slots::claim(&mut tx, &key(outfit.id, slot), now).await? {
            return Ok(());
        }
        let has_digest = occasion.hours.digest.on(slot.date.weekday()).is_some();
        for note in notes::due(&facts, &said) {
            let mut told = false;
            for member in whom(&note, &everybody, &fleet) {
                // Owners read it in their digest that day.
                if !(has_digest && member.role == Role::Owner) {
                    let most = MOST_A_DAY - kept_for_flushing(member, &fleet, rules, now);
                    told |= self.notice(&mut tx, occasion, rules, (&note, most), member).await?;
                }
            }
            if told {
                store::versions::touch(&mut tx, &[outfit.id]).await?;
                let rig = note.rig.as_ref().map(|(id, _)| *id);
                store::notes::tell(&mut tx, outfit.id, rig, note.topic.code(), now).await?;
            }
        }
        tx.commit().await
    }

    /// Says one thing to one person, if they were told less than `most` that day.
    async fn notice(
        &self,
        db: &mut Db,
        occasion: &Occasion<'_>,
        rules: &Rules,
        (note, most): (&Note, usize),
        member: &Member,
    ) -> Result<bool, StoreError> {
        let date = occasion.slot.date;
        let told_today = store::notes::unasked(db, member.id, &date.to_string()).await?;
        let full = usize::try_from(told_today).is_ok_and(|told| told >= most);
        if full || store::chats::is_blocked(db, &member.chat).await? {
            return Ok(false);
        }
        store::notes::count_unasked(db, member.id, &date.to_string()).await?;
        let words = Words::of(member.language.as_deref());
        let mut buttons = Vec::new();
        for press in worded::presses(note.topic) {
            let stored = StoredButton {
                outfit_id: member.outfit_id,
                question_id: None,
                person_id: Some(member.id),
                says: notice_answers::act_of(note.rig.as_ref(), note.topic, *press).kept(),
                expires_at: occasion.now + BUTTONS_LIVE,
            };
            let label = worded::label(words, note.topic, *press);
            buttons.push(self.button(db, label, &stored).await?);
        }
        let mut text = worded::text(words, note, date, rules.currency());
        let about = [caution::Occasion::Noted(note.topic)];
        let cautions = cautions::lines(db, words, member.id, &about, occasion.now).await?;
        if !cautions.is_empty() {
            text = format!("{text}\n\n{}", cautions.join("\n"));
        }
        let body = Body::Say {
            text,
            buttons,
            reply_to: None,
        };
        let outgoing = Outgoing {
            handling: Handling {
                silent: occasion.hours.is_quiet(occasion.now),
                unasked: true,
                ..Handling::default()
            },
            ..carry(member.chat.clone(), body)
        };
        store::sends::queue(db, &outgoing, occasion.now).await?;
        Ok(true)
    }
}

/// The key under which an outfit's day is looked through.
pub(super) fn key(outfit_id: i64, slot: Slot) -> String {
    format!("notices/{outfit_id}/{}", slot.date)
}

/// How much of somebody's day is kept for the question at its end and its
/// repetition: for whoever lately worked a rig that is flushed by hand.
fn kept_for_flushing(member: &Member, fleet: &[Followed<'_>], rules: &Rules, now: i64) -> usize {
    let lately = |followed: &Followed<'_>| {
        let mut readings = followed.state.readings.iter().rev();
        readings.any(|reading| reading.taken_at > now - LATELY && reading.person_id == member.id)
    };
    let asks = |followed: &&Followed<'_>| followed.settings.manual_flush && rules.rig(followed.rig.id).nudges();
    if fleet.iter().filter(asks).any(lately) { 2 } else { 0 }
}

async fn said(db: &mut Db, occasion: &Occasion<'_>) -> Result<Vec<Said>, StoreError> {
    let zone = &occasion.hours.zone;
    let told = store::notes::told(db, occasion.outfit.id, occasion.now - REMEMBERED).await?;
    Ok(told
        .iter()
        .filter_map(|told| {
            Some(Said {
                topic: Topic::of_code(&told.kind)?,
                rig: told.rig_id,
                on: local_date(zone, told.told_at)?,
                again_on: told.again_at.and_then(|at| local_date(zone, at)),
            })
        })
        .collect())
}

fn facts(occasion: &Occasion<'_>, rules: &Rules, fleet: &[Followed<'_>], decisions: &[Decision]) -> Now {
    let zone = &occasion.hours.zone;
    let today: Date = occasion.slot.date;
    let mondays = |rig: i64| {
        let asked = |decision: &&Decision| decision.kind == Kind::NewMembrane && decision.rig == Some(rig);
        decisions.iter().find(asked).map_or(0, |decision| decision.mondays)
    };
    let rig_now = |followed: &Followed<'_>| RigNow {
        id: followed.rig.id,
        name: followed.rig.name.clone(),
        has_membrane: followed.settings.has_membrane,
        behind: followed.behind,
        assessment: followed.assessment.clone(),
        last_used_on: followed
            .last_reading_on(zone)
            .max(followed.state.last_served().and_then(|at| local_date(zone, at)))
            .map(|used| used.max(rules.last_off(followed.rig.id, today).unwrap_or(used))),
        is_preserved: followed.state.preserved_at().is_some(),
        is_off: rules.off_on(Some(followed.rig.id), today).is_some(),
        last_reading_on: followed.last_reading_on(zone),
        resin_changed_on: followed.last_done_on(zone, ServiceKind::Resin),
        prefilters_changed_on: followed.last_done_on(zone, ServiceKind::Prefilter),
        membrane_mondays: mondays(followed.rig.id),
        water: followed.water(zone),
    };
    Now {
        today,
        next_workday: next_workday(rules, today),
        utc_offset_seconds: offset(zone, occasion.now),
        southern: rules.is_southern(),
        rigs: fleet.iter().map(rig_now).collect(),
    }
}

/// Who is told: what the rig's crew can see to, whoever worked it last; money,
/// the owners; the rest, the leads, and the owners where there are none.
fn whom<'a>(note: &Note, everybody: &'a [Member], fleet: &[Followed<'_>]) -> Vec<&'a Member> {
    let of_role = |role: Role| everybody.iter().filter(move |member| member.role == role);
    let leads = || {
        let leads: Vec<&Member> = of_role(Role::Lead).collect();
        if leads.is_empty() {
            of_role(Role::Owner).collect()
        } else {
            leads
        }
    };
    match note.topic {
        Topic::Membrane => of_role(Role::Owner).collect(),
        Topic::Resin | Topic::AskMembrane => {
            let rig = note.rig.as_ref().map(|(id, _)| *id);
            let followed = fleet.iter().find(|followed| Some(followed.rig.id) == rig);
            let worker = followed
                .and_then(|followed| followed.state.readings.back())
                .map(|last| last.person_id);
            match everybody.iter().find(|member| Some(member.id) == worker) {
                Some(worker) => vec![worker],
                None => leads(),
            }
        }
        Topic::Frost | Topic::Idle30 | Topic::Idle14 | Topic::Idle5 | Topic::Prefilters => leads(),
    }
}
