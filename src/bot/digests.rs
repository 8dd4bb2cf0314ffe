//! The digest of an outfit's week, put together from what is kept.

use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::digest::{Digest, Subject, decide};
use crate::domain::envelope::{Drawing, Drawn};
use crate::history;
use crate::message::command::Command;
use crate::message::setting::Currency;
use crate::replies::{Words, digest as worded};
use crate::store::{self, Db, StoreError};

use super::Bot;
use super::act::Act;
use super::rig_names::fold;
use super::week_facts::{self, Until};
use crate::history::zone_of;

/// Rigs whose history goes with the digest.
const RIGS_SHOWN: usize = 2;

/// A digest with what it rests on.
pub(super) struct Made<'a> {
    pub digest: Digest,
    pub known: &'a history::Outfit,
    pub currency: Option<Currency>,
    pub now: i64,
    pub until: Until,
    pub outfit_id: i64,
}

/// The digest of a week; none for an outfit without rigs.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn make<'a>(
    db: &mut Db,
    known: &'a history::Outfit,
    week: (Date, Until),
    now: i64,
) -> Result<Option<Made<'a>>, StoreError> {
    if known.rigs.is_empty() {
        return Ok(None);
    }
    let facts = week_facts::week(db, known, week, now).await?;
    Ok(Some(Made {
        digest: decide(&facts),
        currency: known.rules.currency(),
        known,
        now,
        until: week.1,
        outfit_id: known.id(),
    }))
}

/// A digest as files.
pub struct WrittenDigest {
    /// The message.
    pub text: String,
    /// What it had no room for.
    pub more: Option<String>,
    /// The pictures: name and PNG.
    pub pictures: Vec<(String, Vec<u8>)>,
    /// The workbook (.xlsx).
    pub workbook: Vec<u8>,
    /// The due dates (.ics), if there are any.
    pub calendar: Option<String>,
}

impl Bot {
    /// The zone of an outfit.
    ///
    /// # Errors
    /// When there is no such outfit, and whatever the database says.
    pub async fn zone_of(&self, outfit_id: i64) -> Result<TimeZone, StoreError> {
        let mut look = self.store.look().await?;
        Ok(zone_of(&store::outfits::get(&mut look, outfit_id).await?))
    }

    /// The digest that an outfit's owner would get at an instant, on that local
    /// date; none for an outfit without rigs. Nothing is sent.
    ///
    /// # Errors
    /// Whatever the database says, or a picture or file that cannot be made.
    pub async fn digest_at(
        &self,
        outfit_id: i64,
        today: Date,
        now: i64,
        language: Option<&str>,
    ) -> anyhow::Result<Option<WrittenDigest>> {
        let mut look = self.store.look().await?;
        let Some(known) = history::load::as_of(&mut look, outfit_id, now).await? else {
            return Ok(None);
        };
        let Some(made) = make(&mut look, &known, (today, Until::Yesterday), now).await? else {
            return Ok(None);
        };
        let words = Words::of(language);
        let workbook = made.workbook(&mut look, words).await?;
        look.rollback().await?;
        let mut pictures = Vec::new();
        for drawing in made.drawings(language) {
            if let Some(bytes) = self.picture(&drawing).await? {
                pictures.push((drawing.name, bytes));
            }
        }
        Ok(Some(WrittenDigest {
            text: made.text(words).0,
            more: made.more(words),
            pictures,
            workbook,
            calendar: made.calendar(words),
        }))
    }
}

impl Made<'_> {
    /// The message; and whether there is more.
    pub fn text(&self, words: Words) -> (String, bool) {
        let text = worded::first(words, &self.digest, self.currency);
        (text, self.more(words).is_some())
    }

    /// What the message has no room for.
    pub fn more(&self, words: Words) -> Option<String> {
        worded::more::text(words, &self.digest, self.currency)
    }

    /// What asks for it.
    pub fn asks_for_more(&self) -> Act {
        Act::Command(Command::DigestMore(match self.until {
            Until::Yesterday => self.digest.today.to_string(),
            Until::Now => String::new(),
        }))
    }

    /// The fleet, and the rigs that come first.
    pub fn drawings(&self, language: Option<&str>) -> Vec<Drawing> {
        let drawing = |name: String, of: Drawn| Drawing {
            name,
            of,
            outfit_id: self.outfit_id,
            as_of: self.now,
            language: language.map(str::to_owned),
        };
        let mut drawings = vec![drawing("fleet.png".to_owned(), Drawn::Fleet(0))];
        let has_history = |id: i64| {
            let known = self.known.rig(id);
            known.is_some_and(|known| known.settings.has_membrane && known.state.count > 0)
        };
        let mut shown: Vec<i64> = Vec::new();
        for item in self.digest.actions.iter().flat_map(|action| &action.items) {
            if let Subject::Rig(id, name) = &item.subject
                && shown.len() < RIGS_SHOWN
                && !shown.contains(id)
                && has_history(*id)
            {
                shown.push(*id);
                drawings.push(drawing(file_name(name, "history"), Drawn::History(*id)));
            }
        }
        drawings
    }
}

/// A picture's file name: `big-blue-history.png`.
pub(super) fn file_name(rig: &str, what: &str) -> String {
    let rig = fold(rig);
    format!("{}-{what}.png", if rig.is_empty() { "rig" } else { &rig })
}
