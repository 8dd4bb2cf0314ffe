//! `import`: rows out of a spreadsheet, or settings as they are typed; shown
//! first, taken in on a yes, all of them or none.

mod plan;
mod taking;
mod telling;
mod told;
mod undoing;

use crate::intake::{self, Unreadable, text_of};
use crate::store::{self, StoreError};

use super::Bot;
use super::answer::{Answer, Press};
use super::envelope::{Happening, Incoming};
use super::turn::Turn;

/// How long rows wait for a yes, in seconds.
const WAITS: i64 = 24 * 3600;

/// The largest file that is read.
pub const MOST_FILE_BYTES: usize = 1_000_000;

impl Turn<'_> {
    /// Shows what pasted rows would bring; they wait for a yes.
    pub(super) async fn offer_import(&mut self, rows: &str, day_first: Option<bool>) -> Result<Answer, StoreError> {
        if rows.trim().is_empty() {
            return Ok(Answer::says(self.words.plain("import-how")));
        }
        let order = day_first.map_or(-1, i64::from);
        let intake = match intake::read(rows, day_first) {
            Ok(intake) => intake,
            Err(Unreadable::UnclearDates(date)) => {
                store::imports::offer(self.db, self.teller(), rows, order).await?;
                let mut answer = Answer::says(self.words.say("import-dates", [("date", (&date).into())]));
                for (key, says) in [("label-day-first", "day first"), ("label-month-first", "month first")] {
                    answer.buttons.push(Press {
                        label: self.words.plain(key),
                        says: says.to_owned(),
                    });
                }
                return Ok(answer);
            }
            Err(why) => {
                let settings = Some(&why)
                    .filter(|why| **why == Unreadable::NoHeadings)
                    .and_then(|_| told::settings(self, rows));
                let Some(settings) = settings else {
                    return Ok(Answer::says(self.unreadable(&why)));
                };
                let preview = telling::preview_of_settings(self, &settings);
                if settings.changes.is_empty() {
                    return Ok(Answer::says(preview));
                }
                return self.offer_it(preview, rows, order).await;
            }
        };
        let plan = plan::of(self, &intake).await?;
        let preview = telling::preview(self, &intake, &plan);
        if plan.is_nothing() {
            return Ok(Answer::says(preview));
        }
        self.offer_it(preview, rows, order).await
    }

    /// What was shown waits for a yes.
    async fn offer_it(&mut self, preview: String, rows: &str, order: i64) -> Result<Answer, StoreError> {
        let mut answer = Answer::says(preview);
        store::imports::offer(self.db, self.teller(), rows, order).await?;
        let waiting = store::imports::offered(self.db, self.outfit.id, self.member.id, self.now - WAITS).await?;
        if waiting.len() > 1 {
            let count = i64::try_from(waiting.len()).unwrap_or(i64::MAX);
            answer
                .parts
                .push(self.words.say("import-several", [("count", count.into())]));
        }
        for (key, says) in [("label-import", "import now"), ("label-drop-import", "drop import")] {
            answer.buttons.push(Press {
                label: self.words.plain(key),
                says: says.to_owned(),
            });
        }
        Ok(answer)
    }

    /// A file that somebody sent: its rows, if they may import.
    pub(super) async fn receive_file(&mut self, bytes: Option<&[u8]>) -> Result<Answer, StoreError> {
        if self.incoming.chat.group {
            return Ok(Answer::silence());
        }
        if self.member.role != store::people::Role::Owner {
            return Ok(Answer::says(
                self.words.say("file-not-read", [("example", (&self.example()).into())]),
            ));
        }
        if let Some(closing_at) = self.outfit.closing_at {
            return Ok(Answer::says(self.closing_line(closing_at)));
        }
        match bytes {
            Some(bytes) if bytes.len() <= MOST_FILE_BYTES => self.offer_import(&text_of(bytes), None).await,
            _ => Ok(Answer::says(self.words.plain("file-too-large"))),
        }
    }

    /// The rows that wait are read again, now that somebody said which number is the day.
    pub(super) async fn read_dates(&mut self, day_first: bool) -> Result<Option<Answer>, StoreError> {
        let waiting = store::imports::offered(self.db, self.outfit.id, self.member.id, self.now - WAITS).await?;
        let unclear = waiting
            .into_iter()
            .rev()
            .find(|offered| offered.day_first < 0 && asks_for_dates(&offered.source));
        let Some(offered) = unclear else {
            return Ok(None);
        };
        store::imports::lapse(self.db, offered.id, self.now).await?;
        self.offer_import(&offered.source, Some(day_first)).await.map(Some)
    }

    pub(super) async fn take_in(&mut self) -> Result<Answer, StoreError> {
        let waiting = store::imports::offered(self.db, self.outfit.id, self.member.id, self.now - WAITS).await?;
        if waiting.is_empty() {
            return Ok(Answer::says(self.words.plain("import-nothing-waits")));
        }
        if let Some(unclear) = waiting
            .iter()
            .find(|offered| offered.day_first < 0 && asks_for_dates(&offered.source))
        {
            store::imports::lapse(self.db, unclear.id, self.now).await?;
            return self.offer_import(&unclear.source, None).await;
        }
        taking::all(self, waiting).await
    }

    pub(super) async fn drop_import(&mut self) -> Result<Answer, StoreError> {
        let dropped = store::imports::drop_offers(self.db, self.member.id, self.now).await?;
        Ok(Answer::says(self.words.plain(if dropped {
            "import-dropped"
        } else {
            "import-nothing-waits"
        })))
    }

    fn unreadable(&self, why: &Unreadable) -> String {
        match why {
            Unreadable::Empty => self.words.plain("import-how"),
            Unreadable::NoHeadings | Unreadable::UnclearDates(_) => self.words.plain("import-no-headings"),
            Unreadable::TooMany => {
                let most = intake::MOST_ROWS.to_string();
                self.words.say("import-too-many", [("most", (&most).into())])
            }
        }
    }
}

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
        let mut tx = self.store.begin().await?;
        let sender = store::people::find(&mut tx, &incoming.person.address).await?;
        tx.commit().await?;
        Ok(sender.is_some_and(|sender| sender.role == store::people::Role::Owner))
    }
}

fn asks_for_dates(source: &str) -> bool {
    matches!(intake::read(source, None), Err(Unreadable::UnclearDates(_)))
}
