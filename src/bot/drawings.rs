//! Pictures, drawn on their way out: off the threads that answer, one at a time.

use jiff::tz::TimeZone;

use crate::chart::{self, Sheet};
use crate::domain::envelope::{Body, Drawing, Drawn, File, Send};
use crate::history::course::Course;
use crate::history::{self, Followed};
use crate::replies::{Words, figures};
use crate::schedule::local_date;
use crate::store::StoreError;

use super::Bot;
use super::pictures::{self, Seen};
use super::year_ahead;

impl Bot {
    /// The message with its drawings drawn. What cannot be drawn is left out and
    /// logged; the words go all the same.
    pub async fn draw(&self, mut send: Send) -> Send {
        let Body::Drawings {
            drawings,
            caption,
            reply_to,
        } = &send.body
        else {
            return send;
        };
        let mut files = Vec::with_capacity(drawings.len());
        for drawing in drawings {
            match self.picture(drawing).await {
                Ok(Some(bytes)) => files.push(File {
                    name: drawing.name.clone(),
                    bytes: bytes.into(),
                }),
                Ok(None) => {}
                Err(trouble) => tracing::error!(send = send.id, %trouble, "A picture could not be drawn."),
            }
        }
        send.body = Body::Pictures {
            pictures: Vec::new(),
            caption: caption.clone(),
            reply_to: reply_to.clone(),
        };
        send.files = files;
        send
    }

    /// One picture as PNG; none if there is nothing to show.
    pub(super) async fn picture(&self, drawing: &Drawing) -> anyhow::Result<Option<Vec<u8>>> {
        let Some(sheet) = self.sheet(drawing).await? else {
            return Ok(None);
        };
        let _alone = self.drawing.acquire().await?;
        Ok(Some(tokio::task::spawn_blocking(move || chart::png(&sheet)).await??))
    }

    async fn sheet(&self, drawing: &Drawing) -> Result<Option<Sheet>, StoreError> {
        let mut look = self.store.look().await?;
        let Some(known) = history::load::as_of(&mut look, drawing.outfit_id, drawing.as_of).await? else {
            return Ok(None);
        };
        let (now, words) = (drawing.as_of, Words::of(drawing.language.as_deref()));
        if let Drawn::Fleet(page) = drawing.of {
            let mut courses = Vec::with_capacity(known.rigs.len());
            for rig in &known.rigs {
                courses.extend(history::course::course(&mut look, &known, rig.rig.id, now).await?);
            }
            let followed = known.follow_fleet(now);
            let rigs = followed.iter().zip(&courses);
            let seen: Vec<Seen<'_>> = rigs
                .map(|(followed, course)| seen(followed, course, &known.zone))
                .collect();
            let today = local_date(&known.zone, now).unwrap_or_default();
            let mut pages = pictures::fleet(words, &seen, known.rules.limits(), today);
            return Ok((page < pages.len()).then(|| pages.swap_remove(page)));
        }
        let money = |main: f64| figures::sum(words, main, known.rules.currency());
        if drawing.of == Drawn::YearAhead {
            return Ok(year_ahead::sheet(words, &known, now, &money));
        }
        let (Drawn::History(id) | Drawn::Resin(id) | Drawn::Money(id)) = drawing.of else {
            return Ok(None);
        };
        let course = history::course::course(&mut look, &known, id, now).await?;
        let (Some(course), Some(followed)) = (course, known.follow(id, now)) else {
            return Ok(None);
        };
        let seen = seen(&followed, &course, &known.zone);
        Ok(match drawing.of {
            Drawn::Resin(_) => Some(pictures::resin_life(words, &seen)),
            Drawn::Money(_) => pictures::renewal_cost(words, &seen, &money),
            Drawn::History(_) | Drawn::Fleet(_) | Drawn::YearAhead => pictures::rig_history(words, &seen),
        })
    }
}

fn seen<'a>(followed: &'a Followed<'_>, course: &'a Course, zone: &'a TimeZone) -> Seen<'a> {
    Seen {
        rig: &followed.rig.name,
        events: &course.events,
        settings: followed.settings,
        lessons: &followed.lessons,
        course: &course.followed,
        assessment: &followed.assessment,
        verdict: &followed.verdict,
        zone,
    }
}
