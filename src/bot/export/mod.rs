//! `export`: all that is kept of an outfit, to its owner's private chat.
//!
//! One workbook to look through, the three sheets that can be read in again as
//! comma-separated text, and the settings as they are typed. Not one packed
//! file: a phone opens these with a tap. They may be saved and passed on, since
//! that is what they are for.

mod columns;
mod settings;
mod sheets;

use jiff::Timestamp;
use jiff::tz::TimeZone;

use crate::papers::{self, Cell, csv_rows};
use crate::replies::data::Counted;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::envelope::{Attachment, Body, Handling, Outgoing};
use super::turn::Turn;
use sheets::Sheet;

/// The sheets that `import` reads.
const READ_AGAIN: [&str; 3] = ["readings", "services", "rigs"];

impl Turn<'_> {
    pub(super) async fn export(&mut self) -> Result<Answer, StoreError> {
        let sheets = sheets::of_outfit(self).await?;
        let mut files = vec![(format!("tapside-{}.xlsx", self.today()), self.workbook_of(&sheets)?)];
        for sheet in sheets.iter().filter(|sheet| READ_AGAIN.contains(&sheet.name)) {
            files.push((format!("{}.csv", sheet.name), csv_rows(&titles(sheet), &sheet.rows)));
        }
        files.push(("settings.txt".to_owned(), self.settings_text().into_bytes()));
        let mut answer = Answer::default();
        for (name, bytes) in files {
            let blob = store::blobs::keep(self.db, &bytes, self.now).await?;
            answer.to_others.push(Outgoing {
                chat: self.member.chat.clone(),
                body: Body::Document {
                    file: Attachment { name, blob },
                    caption: String::new(),
                    reply_to: None,
                },
                source_key: None,
                handling: Handling::default(),
            });
        }
        self.note("exported", "").await?;
        let count = |name: &str| {
            let sheet = sheets.iter().find(|sheet| sheet.name == name);
            sheet.map_or(0, |sheet| sheet.rows.len())
        };
        let counted = Counted {
            readings: count("readings"),
            services: count("services"),
            rigs: count("rigs"),
            settings: 0,
        };
        answer.parts.push(match counted.told(self.words) {
            Some(what) => self.words.say("exported", [("what", (&what).into())]),
            None => self.words.plain("exported-bare"),
        });
        Ok(answer)
    }

    /// All sheets, and last the key: what each column holds, and in which unit.
    fn workbook_of(&self, sheets: &[Sheet]) -> Result<Vec<u8>, StoreError> {
        let mut pages: Vec<papers::Sheet> = sheets
            .iter()
            .map(|sheet| papers::Sheet {
                name: sheet.name.to_owned(),
                titles: titles(sheet),
                rows: sheet.rows.clone(),
            })
            .collect();
        let explained = |sheet: &Sheet| {
            let columns = sheet.columns.iter();
            let rows = columns.map(|(name, key)| {
                vec![
                    Cell::text(sheet.name),
                    Cell::text(*name),
                    Cell::text(self.words.plain(key)),
                ]
            });
            rows.collect::<Vec<_>>()
        };
        pages.push(papers::Sheet {
            name: self.words.plain("key-title"),
            titles: vec![
                self.words.plain("key-sheet"),
                self.words.plain("key-column"),
                self.words.plain("key-meaning"),
            ],
            rows: sheets.iter().flat_map(explained).collect(),
        });
        let stamp = Timestamp::from_second(self.now).unwrap_or_default();
        papers::workbook(&pages, TimeZone::UTC.to_datetime(stamp)).map_err(|why| StoreError::Stored {
            what: "export",
            why: why.to_string(),
        })
    }
}

fn titles(sheet: &Sheet) -> Vec<String> {
    sheet.columns.iter().map(|(name, _)| (*name).to_owned()).collect()
}
