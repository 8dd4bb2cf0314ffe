//! The digest as files: a workbook, and a calendar of due dates.

use std::collections::HashSet;

use jiff::Timestamp;
use jiff::civil::DateTime;
use jiff::tz::TimeZone;

use crate::papers::workbook;
use crate::replies::Words;
use crate::schedule::local_date;
use crate::store::readings::Reading;
use crate::store::{self, StoreError};
use crate::water::history::Event;

use super::answer::Answer;
use super::condition::raw_rejection;
use super::digest_papers::{self, ReadingRow};
use super::digests::{self, Made};
use super::envelope::{Attachment, Body};
use super::following::Followed;
use super::gathering::Until;
use super::turn::Turn;

impl Turn<'_> {
    /// The digest as a workbook, to the asker's private chat.
    pub(super) async fn digest_file(&mut self) -> Result<Answer, StoreError> {
        let Some(made) = self.made().await? else {
            return Ok(Answer::says(self.words.plain("fleet-empty")));
        };
        let Some(made) = made else {
            return Ok(self.may_not("who-leads"));
        };
        let name = format!("tapside-{}.xlsx", self.today());
        let bytes = made
            .workbook(self.words, &self.zone)
            .map_err(|why| StoreError::Stored { what: "workbook", why })?;
        self.file(name, &bytes, "file-digest").await
    }

    /// The due dates as a calendar file, to the asker's private chat.
    pub(super) async fn calendar(&mut self) -> Result<Answer, StoreError> {
        let Some(made) = self.made().await? else {
            return Ok(Answer::says(self.words.plain("fleet-empty")));
        };
        let Some(made) = made else {
            return Ok(self.may_not("who-leads"));
        };
        match made.calendar(self.words) {
            Some(text) => {
                self.file("tapside.ics".to_owned(), text.as_bytes(), "file-calendar")
                    .await
            }
            None => Ok(Answer::says(self.words.plain("file-calendar-empty"))),
        }
    }

    /// None without rigs; the inner none for whoever may not see it.
    async fn made(&mut self) -> Result<Option<Option<Made>>, StoreError> {
        if !self.member.role.leads() {
            return Ok(Some(None));
        }
        let week = (self.today(), Until::Now);
        let made = digests::make(self.db, &self.outfit, &self.rules, week, self.now).await?;
        Ok(made.map(Some))
    }

    async fn file(&mut self, name: String, bytes: &[u8], caption: &str) -> Result<Answer, StoreError> {
        let blob = store::blobs::keep(self.db, bytes, self.now).await?;
        let body = Body::Document {
            file: Attachment { name, blob },
            caption: self.words.plain(caption),
            reply_to: None,
        };
        let mut answer = self.in_private();
        answer.to_others.push(self.privately(body));
        Ok(answer)
    }
}

impl Made {
    /// The digest's workbook.
    ///
    /// # Errors
    /// What the writer of workbooks refuses, in its words.
    pub fn workbook(&self, words: Words, zone: &TimeZone) -> Result<Vec<u8>, String> {
        let readings: Vec<ReadingRow> = self.fleet.iter().flat_map(|followed| rows(followed, zone)).collect();
        let sheets = digest_papers::sheets(words, &self.digest, &readings, self.currency);
        workbook(&sheets, stamp(self.now)).map_err(|why| why.to_string())
    }

    /// The due dates that are known; none if none is.
    pub fn calendar(&self, words: Words) -> Option<String> {
        let any = !self.digest.due_dates.is_empty();
        any.then(|| digest_papers::due_calendar(words, &self.digest, self.outfit_id, stamp(self.now)))
    }
}

/// A rig's readings, newest first, with whether each counts.
fn rows(followed: &Followed, zone: &TimeZone) -> Vec<ReadingRow> {
    let set_aside: HashSet<i64> = followed
        .record
        .events
        .iter()
        .zip(&followed.course.doubts)
        .filter(|(event, doubt)| doubt.is_some() && matches!(event, Event::Reading(_)))
        .map(|(event, _)| event.at())
        .collect();
    let row = |reading: &Reading| ReadingRow {
        rig: followed.rig.name.clone(),
        on: local_date(zone, reading.taken_at).unwrap_or_default(),
        feed_ppm: reading.feed_ppm,
        permeate_ppm: reading.permeate_ppm,
        product_ppm: reading.product_ppm,
        rejection: raw_rejection(reading),
        temperature_c: reading.temperature_c,
        pressure_kpa: reading.pressure_kpa,
        counts: !set_aside.contains(&reading.taken_at),
    };
    followed.record.readings.iter().rev().map(row).collect()
}

fn stamp(at: i64) -> DateTime {
    Timestamp::from_second(at).map_or(DateTime::default(), |at| TimeZone::UTC.to_datetime(at))
}
