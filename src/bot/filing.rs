//! The digest as files: a workbook, and a calendar of due dates.

use jiff::Timestamp;
use jiff::civil::DateTime;
use jiff::tz::TimeZone;

use crate::message::setting::Currency;
use crate::papers::{Cell, DayEvent, Sheet, calendar, workbook};
use crate::replies::Words;
use crate::replies::digest::actions;
use crate::replies::sheets::{self, Due};
use crate::schedule::local_date;
use crate::store::{self, StoreError};
use crate::water::renewal_verdict::Verdict;

use super::answer::Answer;
use super::assessing::raw_rejection;
use super::digests::{self, Made};
use super::envelope::{Attachment, Body};
use super::record::Followed;
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
        match made.calendar(self.words, &self.zone) {
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
        let today = self.today();
        let made = digests::make(self.db, &self.outfit, &self.rules, today, self.now).await?;
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
        let sheets = [
            self.actions(words),
            self.rows(words),
            self.shopping(words),
            self.readings(words, zone),
            key(words),
        ];
        workbook(&sheets, stamp(self.now)).map_err(|why| why.to_string())
    }

    /// The due dates that are known; none if none is.
    pub fn calendar(&self, words: Words, zone: &TimeZone) -> Option<String> {
        let events: Vec<DayEvent> = self
            .fleet
            .iter()
            .flat_map(|followed| due_days(followed, words, zone))
            .collect();
        let name = &self.digest.outfit;
        (!events.is_empty()).then(|| calendar(name, "tapside", stamp(self.now), &events))
    }

    fn actions(&self, words: Words) -> Sheet {
        let all = self.digest.actions.iter().chain(&self.digest.later);
        let rows = all.enumerate().map(|(place, action)| {
            let said = actions::told(words, action, self.digest.today, self.currency);
            let (what, why) = said.split_once('\n').unwrap_or((&said, ""));
            vec![
                Cell::Number(place as f64 + 1.0),
                Cell::text(what.trim()),
                Cell::text(why.split_whitespace().collect::<Vec<_>>().join(" ")),
            ]
        });
        sheet(words, "sheet-actions", &sheets::ACTIONS, rows.collect())
    }

    fn rows(&self, words: Words) -> Sheet {
        let rows = self.digest.fleet.iter().map(|row| {
            let days = |nth: usize| Cell::number(row.resin_days.map(|days| days[nth]));
            let flushes = |nth: fn((u32, u32)) -> u32| Cell::number(row.flushes.map(|flushes| f64::from(nth(flushes))));
            vec![
                Cell::text(&row.name),
                Cell::text(sheets::state(words, row)),
                Cell::share(row.rejection.map(|level| level.mid)),
                Cell::share(row.rejection.map(|level| level.low)),
                Cell::share(row.rejection.map(|level| level.high)),
                Cell::number(row.points_per_year),
                days(0),
                days(1),
                days(2),
                Cell::number(row.product_ppm),
                flushes(|flushes| flushes.0),
                flushes(|flushes| flushes.1),
                Cell::Number(f64::from(row.readings)),
                Cell::date(row.last_reading_on),
            ]
        });
        sheet(words, "sheet-fleet", &sheets::FLEET, rows.collect())
    }

    fn shopping(&self, words: Words) -> Sheet {
        let mut rows = Vec::new();
        for purchase in &self.digest.shopping.purchases {
            let (good, unit) = sheets::good(words, purchase.good);
            for (place, (rig, quantity)) in purchase.rigs.iter().enumerate() {
                rows.push(vec![
                    Cell::text(&good),
                    Cell::text(rig),
                    Cell::Number(*quantity),
                    Cell::text(&unit),
                    Cell::number(purchase.cost.filter(|_| place == 0)),
                ]);
            }
        }
        let mut shopping = sheet(words, "sheet-shopping", &sheets::SHOPPING, rows);
        if let Some(title) = shopping.titles.last_mut() {
            title.push_str(&currency(self.currency));
        }
        shopping
    }

    fn readings(&self, words: Words, zone: &TimeZone) -> Sheet {
        let mut rows = Vec::new();
        for followed in &self.fleet {
            rows.extend(followed.readings.iter().rev().map(|reading| {
                vec![
                    Cell::text(&followed.rig.name),
                    Cell::date(local_date(zone, reading.taken_at)),
                    Cell::Number(reading.feed_ppm),
                    Cell::number(reading.permeate_ppm),
                    Cell::number(reading.product_ppm),
                    Cell::share(raw_rejection(reading)),
                    Cell::number(reading.temperature_c),
                    Cell::number(reading.pressure_kpa),
                ]
            }));
        }
        sheet(words, "sheet-readings", &sheets::READINGS, rows)
    }
}

fn currency(currency: Option<Currency>) -> String {
    currency.map_or_else(String::new, |currency| format!(", {}", currency.code()))
}

fn key(words: Words) -> Sheet {
    let explained = sheets::EXPLAINED.iter();
    let rows =
        explained.map(|(column, meaning)| vec![Cell::text(words.plain(column)), Cell::text(words.plain(meaning))]);
    sheet(words, "sheet-key", &["column-column", "column-meaning"], rows.collect())
}

fn sheet(words: Words, name: &str, columns: &[&'static str], rows: Vec<Vec<Cell>>) -> Sheet {
    Sheet {
        name: words.plain(name),
        titles: sheets::titles(words, columns),
        rows,
    }
}

/// The days of one rig: resin, prefilters, membrane, as far as each is known.
fn due_days(followed: &Followed, words: Words, zone: &TimeZone) -> Vec<DayEvent> {
    let Followed { rig, assessment, .. } = followed;
    let resin = assessment.resin.and_then(|bed| bed.empty).map(|empty| empty.likely);
    let membrane = assessment.renewal.as_ref().and_then(|renewal| match renewal.verdict {
        Verdict::Now => Some(assessment.now),
        Verdict::Later(range) => Some(range.likely),
        Verdict::NotInSight | Verdict::NotYetKnown => None,
    });
    let days = [
        ("resin", Due::Resin, resin),
        ("prefilters", Due::Prefilters, assessment.prefilter.due_at),
        ("membrane", Due::Membrane, membrane),
    ];
    let event = |(key, due, at): (&str, Due, Option<i64>)| {
        // What is past is due today, not in a week that nobody looks at.
        let on = local_date(zone, at?.max(assessment.now))?;
        let (title, about) = sheets::event(words, due, &rig.name);
        Some(DayEvent {
            key: format!("{key}-{}", rig.id),
            on,
            title,
            about,
        })
    };
    days.into_iter().filter_map(event).collect()
}

fn stamp(at: i64) -> DateTime {
    Timestamp::from_second(at).map_or(DateTime::default(), |at| TimeZone::UTC.to_datetime(at))
}
