//! `import`: rows out of a spreadsheet, or settings as they are typed; shown
//! first, taken in on a yes, all of them or none.

use crate::domain::envelope::{Happening, Incoming};
use crate::intake::{self, Unreadable, text_of};
use crate::message::command::{Affair, Command};
use crate::replies::Words;
use crate::store::{self, Db, StoreError};

use crate::bot::Bot;
use crate::bot::act::Act;
use crate::bot::answer::{Answer, Press};
use crate::bot::closed_outfit::closing_line;
use crate::bot::examples::example;
use crate::bot::import::workbook::text_of_workbook;
use crate::bot::import::{accepted, plan, preview, settings_text};
use crate::bot::request::Request;

/// How long rows wait for a yes, in seconds.
const WAITS: i64 = 24 * 3600;

/// The largest file that is read.
pub const MOST_FILE_BYTES: usize = 1_000_000;

impl Bot {
    /// Whether a file that somebody sent is read: a small sheet, by an owner, in private.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn reads_file(&self, incoming: &Incoming) -> Result<bool, StoreError> {
        let small = |size: u32| usize::try_from(size).is_ok_and(|size| size <= MOST_FILE_BYTES);
        let fits = matches!(&incoming.what, Happening::Document { size_bytes: Some(size), .. } if small(*size));
        if !fits || incoming.chat.group {
            return Ok(false);
        }
        let sender = store::people::find(&mut *self.store.read().await?, &incoming.person.address).await?;
        Ok(sender.is_some_and(|sender| sender.role == store::people::Role::Owner))
    }
}

/// Shows what pasted rows would bring; they wait for a yes.
pub(in crate::bot) async fn offer_import(
    db: &mut Db,
    on: &Request<'_>,
    rows: &str,
    day_first: Option<bool>,
) -> Result<Answer, StoreError> {
    if rows.trim().is_empty() {
        return Ok(Answer::says(on.words.plain("import-how")));
    }
    let order = day_first.map_or(-1, i64::from);
    let intake = match intake::read(rows, day_first) {
        Ok(intake) => intake,
        Err(Unreadable::UnclearDates(date)) => {
            store::imports::offer(db, on.teller(), rows, order).await?;
            let mut answer = Answer::says(on.words.say("import-dates", [("date", (&date).into())]));
            for (key, day_first) in [("label-day-first", true), ("label-month-first", false)] {
                answer.buttons.push(Press {
                    label: on.words.plain(key),
                    act: Act::Command(Command::Affair(Affair::DayFirst(day_first))),
                });
            }
            return Ok(answer);
        }
        Err(why) => {
            let settings = Some(&why)
                .filter(|why| **why == Unreadable::NoHeadings)
                .and_then(|_| settings_text::settings(on, rows));
            let Some(settings) = settings else {
                return Ok(Answer::says(unreadable(on.words, &why)));
            };
            let preview = preview::preview_of_settings(on.words, &settings);
            if settings.changes.is_empty() {
                return Ok(Answer::says(preview));
            }
            return offer_it(db, on, preview, rows, order).await;
        }
    };
    let plan = plan::of(db, on, &intake).await?;
    let preview = preview::preview(on, &intake, &plan);
    if plan.is_nothing() {
        return Ok(Answer::says(preview));
    }
    offer_it(db, on, preview, rows, order).await
}

/// A file that somebody sent: its rows, if they may import.
pub(in crate::bot) async fn receive_file(
    db: &mut Db,
    on: &Request<'_>,
    bytes: Option<&[u8]>,
) -> Result<Answer, StoreError> {
    if on.incoming.chat.group {
        return Ok(Answer::silence());
    }
    if on.member.role != store::people::Role::Owner {
        return Ok(Answer::says(
            on.words.say("file-not-read", [("example", (&example(on)).into())]),
        ));
    }
    if let Some(closing_at) = on.outfit.closing_at {
        return Ok(Answer::says(closing_line(on, closing_at)));
    }
    match bytes {
        Some(bytes) if bytes.len() <= MOST_FILE_BYTES => {
            let text = text_of_workbook(bytes).unwrap_or_else(|| text_of(bytes));
            offer_import(db, on, &text, None).await
        }
        _ => Ok(Answer::says(on.words.plain("file-too-large"))),
    }
}

/// The rows that wait are read again, now that somebody said which number is the day.
pub(in crate::bot) async fn read_dates(
    db: &mut Db,
    on: &Request<'_>,
    day_first: bool,
) -> Result<Option<Answer>, StoreError> {
    let waiting = store::imports::offered(db, on.outfit.id, on.member.id, on.now - WAITS).await?;
    let unclear = waiting
        .into_iter()
        .rev()
        .find(|offered| offered.day_first < 0 && asks_for_dates(&offered.source));
    let Some(offered) = unclear else {
        return Ok(None);
    };
    store::imports::lapse(db, offered.id, on.now).await?;
    offer_import(db, on, &offered.source, Some(day_first)).await.map(Some)
}

pub(in crate::bot) async fn take_in(db: &mut Db, on: &mut Request<'_>) -> Result<Answer, StoreError> {
    let waiting = store::imports::offered(db, on.outfit.id, on.member.id, on.now - WAITS).await?;
    if waiting.is_empty() {
        return Ok(Answer::says(on.words.plain("import-nothing-waits")));
    }
    if let Some(unclear) = waiting
        .iter()
        .find(|offered| offered.day_first < 0 && asks_for_dates(&offered.source))
    {
        store::imports::lapse(db, unclear.id, on.now).await?;
        return offer_import(db, on, &unclear.source, None).await;
    }
    accepted::all(db, on, waiting).await
}

pub(in crate::bot) async fn drop_import(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    let dropped = store::imports::drop_offers(db, on.outfit.id, on.member.id, on.now).await?;
    Ok(Answer::says(on.words.plain(if dropped {
        "import-dropped"
    } else {
        "import-nothing-waits"
    })))
}

fn asks_for_dates(source: &str) -> bool {
    matches!(intake::read(source, None), Err(Unreadable::UnclearDates(_)))
}

/// What was shown waits for a yes.
async fn offer_it(
    db: &mut Db,
    on: &Request<'_>,
    preview: String,
    rows: &str,
    order: i64,
) -> Result<Answer, StoreError> {
    let mut answer = Answer::says(preview);
    store::imports::offer(db, on.teller(), rows, order).await?;
    let waiting = store::imports::offered(db, on.outfit.id, on.member.id, on.now - WAITS).await?;
    if waiting.len() > 1 {
        let count = i64::try_from(waiting.len()).unwrap_or(i64::MAX);
        answer
            .parts
            .push(on.words.say("import-several", [("count", count.into())]));
    }
    for (key, affair) in [
        ("label-import", Affair::TakeIn),
        ("label-drop-import", Affair::DropImport),
    ] {
        answer.buttons.push(Press {
            label: on.words.plain(key),
            act: Act::Command(Command::Affair(affair)),
        });
    }
    Ok(answer)
}

fn unreadable(words: Words, why: &Unreadable) -> String {
    match why {
        Unreadable::Empty => words.plain("import-how"),
        Unreadable::NoHeadings | Unreadable::UnclearDates(_) => words.plain("import-no-headings"),
        Unreadable::TooMany => {
            let most = intake::MOST_ROWS.to_string();
            words.say("import-too-many", [("most", (&most).into())])
        }
    }
}
