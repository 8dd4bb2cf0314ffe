//! The digest as files: a workbook, and a calendar of due dates.

use std::collections::HashSet;

use jiff::Timestamp;
use jiff::civil::DateTime;
use jiff::tz::TimeZone;

use crate::domain::envelope::{Attachment, Body};
use crate::history::{self, course::Course, rig_state::PastReading};
use crate::papers::workbook;
use crate::replies::Words;
use crate::schedule::local_date;
use crate::store::readings::Reading;
use crate::store::{self, Db, StoreError};
use crate::water::history::Event;

use super::answer::Answer;
use super::condition::raw_rejection;
use super::digest_sheets::{self, ReadingRow};
use super::digests::{self, Made};
use super::messages::{in_private, privately};
use super::refusals::may_not;
use super::request::Request;
use super::week_facts::Until;

impl Made<'_> {
    /// The digest's workbook.
    ///
    /// # Errors
    /// Whatever the database says, or the writer of workbooks refuses.
    pub async fn workbook(&self, db: &mut Db, words: Words) -> Result<Vec<u8>, StoreError> {
        let mut readings: Vec<ReadingRow> = Vec::new();
        for known in &self.known.rigs {
            if let Some(course) = history::course::course(db, self.known, known.rig.id, self.now).await? {
                readings.extend(rows(&known.rig.name, &course, &self.known.zone));
            }
        }
        let sheets = digest_sheets::sheets(words, &self.digest, &readings, self.currency);
        workbook(&sheets, stamp(self.now)).map_err(|why| StoreError::Stored {
            what: "workbook",
            why: why.to_string(),
        })
    }

    /// The due dates that are known; none if none is.
    pub fn calendar(&self, words: Words) -> Option<String> {
        let any = !self.digest.due_dates.is_empty();
        any.then(|| digest_sheets::due_calendar(words, &self.digest, self.outfit_id, stamp(self.now)))
    }
}

/// A rig's readings, newest first, with whether each counts.
fn rows(rig: &str, course: &Course, zone: &TimeZone) -> Vec<ReadingRow> {
    let set_aside: HashSet<i64> = course
        .events
        .iter()
        .zip(&course.followed.doubts)
        .filter(|(event, doubt)| doubt.is_some() && matches!(event, Event::Reading(_)))
        .map(|(event, _)| event.at())
        .collect();
    let row = |reading: &Reading| ReadingRow {
        rig: rig.to_owned(),
        on: local_date(zone, reading.taken_at).unwrap_or_default(),
        feed_ppm: reading.feed_ppm,
        permeate_ppm: reading.permeate_ppm,
        product_ppm: reading.product_ppm,
        rejection: raw_rejection(&PastReading::from(reading)),
        temperature_c: reading.temperature_c,
        pressure_kpa: reading.pressure_kpa,
        counts: !set_aside.contains(&reading.taken_at),
    };
    course.readings.iter().rev().map(row).collect()
}

pub(super) fn stamp(at: i64) -> DateTime {
    Timestamp::from_second(at).map_or(DateTime::default(), |at| TimeZone::UTC.to_datetime(at))
}

/// The digest as a workbook, to the asker's private chat.
pub(super) async fn digest_file(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    let Some(made) = made(db, on).await? else {
        return Ok(Answer::says(on.words.plain("fleet-empty")));
    };
    let Some(made) = made else {
        return Ok(may_not(on.words, "who-leads"));
    };
    let name = format!("tapside-{}.xlsx", on.today());
    let bytes = made.workbook(db, on.words).await?;
    file(db, on, name, &bytes, "file-digest").await
}

/// The due dates as a calendar file, to the asker's private chat.
pub(super) async fn calendar(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    let Some(made) = made(db, on).await? else {
        return Ok(Answer::says(on.words.plain("fleet-empty")));
    };
    let Some(made) = made else {
        return Ok(may_not(on.words, "who-leads"));
    };
    match made.calendar(on.words) {
        Some(text) => file(db, on, "tapside.ics".to_owned(), text.as_bytes(), "file-calendar").await,
        None => Ok(Answer::says(on.words.plain("file-calendar-empty"))),
    }
}

/// None without rigs; the inner none for whoever may not see it.
async fn made<'a>(db: &mut Db, on: &'a Request<'_>) -> Result<Option<Option<Made<'a>>>, StoreError> {
    if !on.member.role.leads() {
        return Ok(Some(None));
    }
    let week = (on.today(), Until::Now);
    let made = digests::make(db, &on.known, week, on.now).await?;
    Ok(made.map(Some))
}

/// A file to the asker's private chat.
pub(super) async fn file(
    db: &mut Db,
    on: &Request<'_>,
    name: String,
    bytes: &[u8],
    caption: &str,
) -> Result<Answer, StoreError> {
    let blob = store::blobs::keep(db, bytes, on.now).await?;
    let body = Body::Document {
        file: Attachment { name, blob },
        caption: on.words.plain(caption),
        reply_to: None,
    };
    let mut answer = in_private(on);
    answer.to_others.push(privately(on, body));
    Ok(answer)
}
