//! The end of the day: whoever worked a rig that is flushed by hand and was
//! not is asked, in one message for all their rigs, and once more if they are silent.

use std::collections::BTreeMap;
use std::ops::Range;

use jiff::tz::TimeZone;

use crate::digest::notes::MOST_A_DAY;
use crate::domain::ServiceKind;
use crate::domain::envelope::{Body, Handling, Outgoing, is_group};
use crate::grammar::{Meaning, Postponed};
use crate::replies::{Words, nudge};
use crate::schedule::{self, Slot};
use crate::store::nudges::{Nudge, Waiting};
use crate::store::outfits::Outfit;
use crate::store::people::{Member, Role};
use crate::store::questions::Button as StoredButton;
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};

use crate::bot::Bot;
use crate::bot::act::Act;
use crate::bot::due::{Clocks, NUDGE_WINDOW, Occasion};
use crate::bot::flush_answers::ASK_AGAIN;
use crate::bot::hours::Hours;
use crate::bot::zones::zone_of;

const BUTTONS_LIVE: i64 = 12 * 3600;

/// Who is asked, where, about which rigs.
struct Asked {
    chat: String,
    member: Member,
    rigs: Vec<Rig>,
}

impl Bot {
    /// Asks about every rig of an outfit that worked today and was not flushed;
    /// about one alone, if it has hours of its own.
    pub(super) async fn end_of_day(&self, occasion: &Occasion<'_>, only: Option<i64>) -> Result<(), StoreError> {
        let Occasion {
            outfit,
            rules,
            slot,
            now,
            ..
        } = *occasion;
        let mut tx = self.store.begin().await?;
        if !store::slots::claim(&mut tx, &key(outfit.id, only, slot), now).await? {
            return Ok(());
        }
        let own_hours = rules.rigs_with_own_hours();
        let is_meant = |rig: &Rig| match only {
            Some(only) => rig.id == only,
            None => !own_hours.contains(&rig.id),
        };
        let Some(morning) = schedule::day_start(&occasion.hours.zone, slot.date) else {
            return tx.commit().await;
        };
        let today = morning..slot.at + 1;
        let last = store::readings::last_taken_on_fleet(&mut tx, outfit.id, today.end).await?;
        let everybody = store::people::of_outfit(&mut tx, outfit.id).await?;
        let mut asked: BTreeMap<String, Asked> = BTreeMap::new();
        for rig in store::rigs::fleet(&mut tx, outfit.id).await? {
            let by_hand = !rig.flushes_itself && !rig.di_only;
            let worked = last.get(&rig.id).is_some_and(|at| today.contains(at));
            let away = rules.time_off(Some(rig.id)).iter().any(|span| span.holds(slot.date));
            if away || !by_hand || !worked || !is_meant(&rig) || !rules.rig(rig.id).nudges() {
                continue;
            }
            let Some(worker) = unflushed(&mut tx, &today, &rig).await? else {
                continue;
            };
            let Some((chat, member)) = whom(&mut tx, outfit, &everybody, worker).await? else {
                continue;
            };
            let nudge = Nudge {
                outfit_id: outfit.id,
                rig_id: rig.id,
                on_date: &slot.date.to_string(),
                chat: &chat,
                person_id: member.id,
                again_at: now + ASK_AGAIN,
            };
            if store::nudges::ask(&mut tx, &nudge, now).await? {
                add(&mut asked, chat, member, rig);
            }
        }
        for asked in asked.values() {
            self.ask_to_flush(&mut tx, asked, &slot.date.to_string(), false, now)
                .await?;
        }
        tx.commit().await
    }

    /// Asks once more where nobody answered, unless the outfit wants its quiet.
    pub(super) async fn repeat_nudges(&self, clocks: &Clocks, now: i64) -> Result<(), StoreError> {
        let mut tx = self.store.begin().await?;
        let waiting = store::nudges::to_repeat(&mut tx, now - NUDGE_WINDOW, now).await?;
        let mut asked: BTreeMap<String, Asked> = BTreeMap::new();
        for nudge in waiting {
            let Some((outfit, rules)) = clocks.iter().find(|(outfit, _)| outfit.id == nudge.outfit_id) else {
                continue;
            };
            let hours = Hours::of(outfit, rules);
            let today = schedule::local_date(&hours.zone, now).unwrap_or_default();
            let away = rules.time_off(Some(nudge.rig_id)).iter().any(|span| span.holds(today));
            if !store::nudges::repeat(&mut tx, nudge.id, now).await? || hours.is_quiet(now) || away {
                continue;
            }
            let Waiting {
                chat,
                rig_id,
                person_id,
                ..
            } = nudge;
            let fleet = store::rigs::fleet(&mut tx, outfit.id).await?;
            let rig = fleet.into_iter().find(|rig| rig.id == rig_id);
            let member = store::people::get(&mut tx, person_id).await?;
            let (Some(rig), Some(member)) = (rig, member.filter(|member| member.outfit_id == outfit.id)) else {
                continue;
            };
            add(&mut asked, chat, member, rig);
        }
        for asked in asked.values() {
            let zone = clocks.iter().find(|(outfit, _)| outfit.id == asked.member.outfit_id);
            let zone = zone.map_or(TimeZone::UTC, |(outfit, _)| zone_of(outfit));
            let today = schedule::local_date(&zone, now).unwrap_or_default();
            self.ask_to_flush(&mut tx, asked, &today.to_string(), true, now).await?;
        }
        tx.commit().await
    }

    /// Asks, unless somebody was written to unasked often enough that day.
    async fn ask_to_flush(
        &self,
        db: &mut Db,
        asked: &Asked,
        today: &str,
        again: bool,
        now: i64,
    ) -> Result<(), StoreError> {
        if !is_group(&asked.chat) {
            let told = store::notes::unasked(db, asked.member.id, today).await?;
            if usize::try_from(told).is_ok_and(|told| told >= MOST_A_DAY) {
                return Ok(());
            }
            store::notes::count_unasked(db, asked.member.id, today).await?;
        }
        let words = Words::of(asked.member.language.as_deref());
        let names: Vec<&str> = asked.rigs.iter().map(|rig| rig.name.as_str()).collect();
        for rig in &asked.rigs {
            store::people::set_nudged(db, asked.member.id, rig.id, now).await?;
        }
        store::versions::touch(db, &[asked.member.outfit_id]).await?;
        let mut buttons = Vec::new();
        for press in nudge::presses(again) {
            let stored = StoredButton {
                outfit_id: asked.member.outfit_id,
                question_id: None,
                // In the crew's chat whoever is there may answer.
                person_id: (!is_group(&asked.chat)).then_some(asked.member.id),
                says: act_of(*press, &asked.rigs).kept(),
                expires_at: now + BUTTONS_LIVE,
            };
            buttons.push(self.button(db, nudge::label(words, *press), &stored).await?);
        }
        let body = Body::Say {
            text: nudge::question(words, &names, again),
            buttons,
            reply_to: None,
        };
        let outgoing = Outgoing {
            chat: asked.chat.clone(),
            body,
            source_key: None,
            handling: Handling {
                unasked: true,
                ..Handling::default()
            },
        };
        store::sends::queue(db, &outgoing, now).await
    }
}

/// The key under which the end of a day is met: of an outfit, or of a rig with
/// hours of its own.
pub(super) fn key(outfit_id: i64, rig: Option<i64>, slot: Slot) -> String {
    match rig {
        Some(rig) => format!("day-end/{outfit_id}/{rig}/{}", slot.date),
        None => format!("day-end/{outfit_id}/{}", slot.date),
    }
}

/// What a button below the question does.
fn act_of(press: nudge::Press, rigs: &[Rig]) -> Act {
    let rigs: Vec<i64> = rigs.iter().map(|rig| rig.id).collect();
    match press {
        nudge::Press::Flushed => Act::done(ServiceKind::Flush, rigs),
        nudge::Press::Later => Act::Meaning(Meaning {
            postponed: Some(Postponed { rigs, minutes: None }),
            ..Meaning::default()
        }),
        nudge::Press::NotUsed => Act::Meaning(Meaning {
            not_used: rigs,
            ..Meaning::default()
        }),
    }
}

/// One more rig to ask about in a chat.
fn add(asked: &mut BTreeMap<String, Asked>, chat: String, member: Member, rig: Rig) {
    let to = asked.entry(chat.clone()).or_insert(Asked {
        chat,
        member,
        rigs: Vec::new(),
    });
    to.rigs.push(rig);
}

/// Who worked a rig in a span and left it unflushed.
async fn unflushed(db: &mut Db, span: &Range<i64>, rig: &Rig) -> Result<Option<i64>, StoreError> {
    let Some((worked_at, person)) = store::readings::last_worked(db, rig.id, span.start, span.end).await? else {
        return Ok(None);
    };
    let flushed_at = store::services::last_done(db, rig.id, ServiceKind::Flush).await?;
    Ok(flushed_at.is_none_or(|at| at < worked_at).then_some(person))
}

/// Whom to ask about a rig that `worker` worked: them, else the crew's chat,
/// else a lead, else an owner.
async fn whom(
    db: &mut Db,
    outfit: &Outfit,
    everybody: &[Member],
    worker: i64,
) -> Result<Option<(String, Member)>, StoreError> {
    if let Some(worker) = everybody.iter().find(|member| member.id == worker)
        && !store::chats::is_blocked(db, &worker.chat).await?
    {
        return Ok(Some((worker.chat.clone(), worker.clone())));
    }
    let known = everybody.iter().find(|member| member.role == Role::Owner);
    if let (Some(chat), Some(owner)) = (store::settings::crew_chat(db, outfit.id).await?, known)
        && !store::chats::is_blocked(db, &chat).await?
    {
        return Ok(Some((chat, owner.clone())));
    }
    let leads = everybody.iter().filter(|member| member.role == Role::Lead);
    let owners = everybody.iter().filter(|member| member.role == Role::Owner);
    for member in leads.chain(owners) {
        if !store::chats::is_blocked(db, &member.chat).await? {
            return Ok(Some((member.chat.clone(), member.clone())));
        }
    }
    Ok(None)
}
