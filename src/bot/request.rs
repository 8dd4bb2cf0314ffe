//! What a message is answered with the help of.

use std::collections::HashMap;
use std::sync::{Arc, LazyLock};

use jiff::civil::Date;
use jiff::tz::TimeZone;

use super::Bot;
use super::rig_names::fold;
use super::rules::Rules;
use crate::domain::envelope::{Happening, Incoming};
use crate::domain::{OutfitId, RigId};
use crate::history::{self, Followed};
use crate::message::command::behind_small;
use crate::replies::Words;
use crate::schedule;
use crate::store::outfit_rows::{self, Recent};
use crate::store::outfits::Outfit;
use crate::store::people::Member;
use crate::store::readings::{Reading, Teller};
use crate::store::rigs::Rig;
use crate::store::services::Service;
use crate::store::{self, Db, StoreError, versions};

pub(super) const HOUR: i64 = 3600;

/// How far back it is remembered what people told and were asked, seconds.
pub(super) const RECENT: i64 = 12 * HOUR;

/// What a correction is about.
#[derive(Clone, Debug, Default)]
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

/// Outfits that are worked on, out of memory meanwhile: what fails is forgotten by not being put back.
pub(super) type Working = HashMap<OutfitId, Box<history::Outfit>>;

/// What a message is answered with the help of: who asked, where, when, and what holds in their outfit.
pub(super) struct Request<'a> {
    pub bot: &'a Bot,
    pub incoming: &'a Incoming,
    /// UTC seconds.
    pub now: i64,
    pub member: Member,
    /// All that is remembered of the outfit.
    pub known: Box<history::Outfit>,
    pub outfit: Arc<Outfit>,
    pub fleet: Arc<Vec<Rig>>,
    pub zone: TimeZone,
    pub words: Words,
    pub rules: Arc<Rules>,
    /// What the message tells of that this one replies to.
    pub replied: Option<Spoken>,
}

impl<'a> Request<'a> {
    /// A message from somebody of an outfit; the outfit back if they are not in it.
    ///
    /// # Errors
    /// The outfit, if the sender is not in it.
    pub fn of(
        bot: &'a Bot,
        known: Box<history::Outfit>,
        incoming: &'a Incoming,
        now: i64,
    ) -> Result<Self, Box<history::Outfit>> {
        let person = known
            .people
            .iter()
            .find(|person| person.address == incoming.person.address);
        let Some(mut member) = person.map(|person| person.member.clone()) else {
            return Err(known);
        };
        if let Some((rig, _)) = member.todays_rig.filter(|(_, until)| now < *until) {
            member.own_rig = Some(rig);
        }
        Ok(Self {
            bot,
            incoming,
            now,
            words: Words::of(member.language.as_deref()),
            member,
            outfit: known.row.clone(),
            fleet: known.fleet.clone(),
            zone: known.zone.clone(),
            rules: known.rules.clone(),
            known,
            replied: None,
        })
    }
}

impl Bot {
    /// What somebody's message is answered with the help of: what is remembered of their outfit, or loaded.
    pub(super) async fn request<'a>(
        &'a self,
        db: &mut Db,
        remembered: Option<Box<history::Outfit>>,
        incoming: &'a Incoming,
        outfit_id: i64,
        now: i64,
    ) -> Result<Option<Request<'a>>, StoreError> {
        let mut request = remembered.and_then(|known| Request::of(self, known, incoming, now).ok());
        if request.is_none() {
            versions::touch(db, &[outfit_id]).await?;
            let known = history::load::load(db, &[outfit_id]).await?.pop();
            request = known.and_then(|known| Request::of(self, known, incoming, now).ok());
        }
        let Some(mut request) = request else { return Ok(None) };
        let person = request.member.id;
        remember_sender(db, &mut request.known, person, now).await?;
        Ok(Some(request))
    }
}

static NOTHING_RECENT: LazyLock<Recent> = LazyLock::new(Recent::default);

impl Request<'_> {
    /// What was typed; none of a button, a file or a picture.
    pub fn text(&self) -> Option<&str> {
        match &self.incoming.what {
            Happening::Text(text) => Some(text),
            _ => None,
        }
    }

    /// The local date of this message.
    pub fn today(&self) -> Date {
        self.date(self.now)
    }

    /// The local date at an instant.
    pub fn date(&self, at: i64) -> Date {
        schedule::local_date(&self.zone, at).unwrap_or_default()
    }

    /// Who tells what is recorded now.
    pub fn teller(&self) -> Teller {
        Teller {
            outfit_id: self.outfit.id,
            person_id: self.member.id,
            heard_at: self.now,
        }
    }

    /// When this message was sent; never in the future.
    pub fn sent_at(&self) -> i64 {
        self.incoming.sent_at.min(self.now)
    }

    /// A rig of the fleet by its number.
    pub fn rig(&self, id: i64) -> Option<&Rig> {
        self.fleet.iter().find(|rig| rig.id == id)
    }

    /// A rig's name by its number.
    pub fn rig_name(&self, id: i64) -> String {
        self.rig(id).map_or_else(|| "?".to_owned(), |rig| rig.name.clone())
    }

    /// The rig that a name means: the same name, else the only one that it begins.
    pub fn rig_named(&self, typed: &str) -> Option<Rig> {
        let name = typed;
        let typed = fold(name);
        if typed.is_empty() {
            return None;
        }
        if let Some(rig) = self.fleet.iter().find(|rig| fold(&rig.name) == typed) {
            return Some(rig.clone());
        }
        let called = |rig: &&Rig| self.rules.short_names(rig.id).iter().any(|name| fold(name) == typed);
        if let Some(rig) = self.fleet.iter().find(called) {
            return Some(rig.clone());
        }
        let mut begun = self.fleet.iter().filter(|rig| fold(&rig.name).starts_with(&typed));
        match (begun.next(), begun.next()) {
            (Some(rig), None) => Some(rig.clone()),
            // "the heron", "la garza"
            _ => self.rig_named(behind_small(name)?),
        }
    }

    /// What is remembered of the sender.
    pub fn recent(&self) -> &Recent {
        let person = self
            .known
            .people
            .iter()
            .find(|person| person.member.id == self.member.id);
        person
            .and_then(|person| person.recent.as_ref())
            .unwrap_or(&NOTHING_RECENT)
    }

    /// What a rig comes to now; none if it is not on the fleet.
    pub fn follow(&self, rig: RigId) -> Option<Followed<'_>> {
        self.known.follow(rig, self.now)
    }

    /// Takes account of rows of rigs that were changed, and of what the sender told last.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn changed(&mut self, db: &mut Db, rigs: impl IntoIterator<Item = RigId>) -> Result<(), StoreError> {
        for rig in rigs {
            store::states::forget(db, &[rig]).await?;
            history::load::replay_rig(db, &mut self.known, rig).await?;
        }
        let id = self.member.id;
        if let Some(person) = self.known.person_mut(id) {
            person.recent = None;
        }
        remember_sender(db, &mut self.known, id, self.now).await
    }

    /// Looks up again what holds in the outfit, after something was changed.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn reload(&mut self, db: &mut Db) -> Result<(), StoreError> {
        let Some(mut known) = history::load::load(db, &[self.outfit.id]).await?.pop() else {
            return Ok(());
        };
        remember_sender(db, &mut known, self.member.id, self.now).await?;
        self.outfit = known.row.clone();
        self.fleet = known.fleet.clone();
        self.zone = known.zone.clone();
        self.rules = known.rules.clone();
        self.known = known;
        Ok(())
    }
}

/// Looks up what was lately said by and to somebody, if that is not remembered.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn remember_sender(
    db: &mut Db,
    known: &mut history::Outfit,
    person: i64,
    now: i64,
) -> Result<(), StoreError> {
    let Some(person) = known.person_mut(person).filter(|person| person.recent.is_none()) else {
        return Ok(());
    };
    let id = person.member.id;
    person.recent = outfit_rows::recent(db, &[id], now - RECENT).await?.remove(&id);
    Ok(())
}
