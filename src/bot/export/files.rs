//! `export`: all that is kept of an outfit, to its owner's private chat.
//!
//! One workbook to look through, the three sheets that can be read in again as
//! comma-separated text, and the settings as they are typed. Not one packed
//! file: a phone opens these with a tap. They may be saved and passed on, since
//! that is what they are for.

use jiff::Timestamp;
use jiff::tz::TimeZone;

use crate::bot::Bot;
use crate::domain::envelope::{Attachment, Body, Exported, File, Handling, Outgoing, Send};
use crate::history;
use crate::papers::{self, Cell, csv_rows};
use crate::replies::Words;
use crate::replies::data::Counted;
use crate::store::{self, Db, StoreError};

use crate::bot::answer::Answer;
use crate::bot::export::settings::settings_text;
use crate::bot::export::sheets::{self, Sheet};
use crate::bot::request::Request;

/// The files, in the order in which they are sent.
const FILES: [(Exported, &str); 5] = [
    (Exported::Workbook, ".xlsx"),
    (Exported::Readings, "readings.csv"),
    (Exported::Services, "services.csv"),
    (Exported::Rigs, "rigs.csv"),
    (Exported::Settings, "settings.txt"),
];

/// Queues the files, which are made on their way out, and says how much is in them.
///
/// # Errors
/// Whatever the database says.
pub(in crate::bot) async fn export(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    let mut answer = Answer::default();
    for (of, name) in FILES {
        let name = match of {
            Exported::Workbook => format!("tapside-{}{name}", on.today()),
            _ => name.to_owned(),
        };
        answer.to_others.push(Outgoing {
            chat: on.member.chat.clone(),
            body: Body::Export {
                name,
                of,
                outfit_id: on.outfit.id,
                language: on.member.language.clone(),
                as_of: on.now,
            },
            source_key: None,
            handling: Handling::default(),
        });
    }
    store::changes::note(db, on.teller(), "exported", "").await?;
    let [readings, services, rigs] = store::outfits::counts(db, on.outfit.id).await?;
    let counted = Counted {
        readings,
        services,
        rigs,
        settings: 0,
    };
    answer.parts.push(match counted.told(on.words) {
        Some(what) => on.words.say("exported", [("what", (&what).into())]),
        None => on.words.plain("exported-bare"),
    });
    Ok(answer)
}

impl Bot {
    /// The message with its file made. One that cannot be made is logged, and the message goes without it.
    pub async fn make_file(&self, mut send: Send) -> Send {
        let Body::Export {
            name,
            of,
            outfit_id,
            language,
            as_of,
        } = &send.body
        else {
            return send;
        };
        match self
            .exported(*of, *outfit_id, Words::of(language.as_deref()), *as_of)
            .await
        {
            Ok(bytes) => {
                send.files = vec![File {
                    name: name.clone(),
                    bytes: bytes.into(),
                }]
            }
            Err(trouble) => tracing::error!(send = send.id, %trouble, "A file of an export could not be made."),
        }
        let file = Attachment {
            name: name.clone(),
            blob: 0,
        };
        send.body = Body::Document {
            file,
            caption: String::new(),
            reply_to: None,
        };
        send
    }

    /// One file, off the threads that answer and one at a time.
    async fn exported(&self, of: Exported, outfit_id: i64, words: Words, as_of: i64) -> anyhow::Result<Vec<u8>> {
        let _alone = self.drawing.acquire().await?;
        let mut look = self.store.look().await?;
        let known = history::load::load(&mut look, &[outfit_id]).await?.pop();
        let known = known.ok_or_else(|| anyhow::anyhow!("the outfit is gone"))?;
        if of == Exported::Settings {
            return Ok(settings_text(words, &known).into_bytes());
        }
        let sheets = sheets::of_outfit(&mut look, &known, words).await?;
        look.rollback().await?;
        let name = match of {
            Exported::Readings => "readings",
            Exported::Services => "services",
            Exported::Rigs => "rigs",
            Exported::Workbook | Exported::Settings => "",
        };
        tokio::task::spawn_blocking(move || match sheets.iter().find(|sheet| sheet.name == name) {
            Some(sheet) => Ok(csv_rows(&titles(sheet), &sheet.rows)),
            None => Ok(workbook_of(words, &sheets, as_of)?),
        })
        .await?
    }
}

fn titles(sheet: &Sheet) -> Vec<String> {
    sheet.columns.iter().map(|(name, _)| (*name).to_owned()).collect()
}

/// All sheets, and last the key: what each column holds, and in which unit.
fn workbook_of(words: Words, sheets: &[Sheet], now: i64) -> Result<Vec<u8>, StoreError> {
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
        let rows =
            columns.map(|(name, key)| vec![Cell::text(sheet.name), Cell::text(*name), Cell::text(words.plain(key))]);
        rows.collect::<Vec<_>>()
    };
    pages.push(papers::Sheet {
        name: words.plain("key-title"),
        titles: vec![
            words.plain("key-sheet"),
            words.plain("key-column"),
            words.plain("key-meaning"),
        ],
        rows: sheets.iter().flat_map(explained).collect(),
    });
    let stamp = Timestamp::from_second(now).unwrap_or_default();
    papers::workbook(&pages, TimeZone::UTC.to_datetime(stamp)).map_err(|why| StoreError::Stored {
        what: "export",
        why: why.to_string(),
    })
}
