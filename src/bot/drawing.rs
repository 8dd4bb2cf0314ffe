//! Pictures, drawn on their way out: off the threads that answer, one at a time.

use crate::chart::{self, Sheet};
use crate::replies::{Words, figures};
use crate::schedule::local_date;
use crate::store::{self, StoreError};

use super::Bot;
use super::envelope::{Body, Drawing, Drawn, File, Send};
use super::following::{Followed, follow, follow_fleet, lessons};
use super::pictures::{self, Seen};
use super::rules::Rules;
use super::turn::zone_of;

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
        let _alone = self.easel.acquire().await?;
        Ok(Some(tokio::task::spawn_blocking(move || chart::png(&sheet)).await??))
    }

    async fn sheet(&self, drawing: &Drawing) -> Result<Option<Sheet>, StoreError> {
        let mut look = self.store.look().await?;
        let outfit = store::outfits::get(&mut look, drawing.outfit_id).await?;
        let rules = Rules::load(&mut look, &outfit).await?;
        let words = Words::of(drawing.language.as_deref());
        let zone = zone_of(&outfit);
        let fleet = store::rigs::fleet(&mut look, outfit.id).await?;
        let now = drawing.as_of;
        if let Drawn::Fleet(page) = drawing.of {
            let followed = follow_fleet(&mut look, &rules, &fleet, now).await?;
            let seen: Vec<Seen<'_>> = followed.iter().map(|followed| followed.seen(&zone)).collect();
            let today = local_date(&zone, now).unwrap_or_default();
            let mut pages = pictures::fleet(words, &seen, rules.limits(), today);
            return Ok((page < pages.len()).then(|| pages.swap_remove(page)));
        }
        let (Drawn::History(id) | Drawn::Resin(id) | Drawn::Money(id)) = drawing.of else {
            return Ok(None);
        };
        let Some(rig) = fleet.iter().find(|rig| rig.id == id) else {
            return Ok(None);
        };
        let lessons = lessons(&mut look, &rules, outfit.id, &fleet, now).await?;
        let followed = follow(&mut look, &rules, lessons, rig, now).await?;
        let seen = followed.seen(&zone);
        let money = |main: f64| figures::sum(words, main, rules.currency());
        Ok(match drawing.of {
            Drawn::Resin(_) => Some(pictures::resin_life(words, &seen)),
            Drawn::Money(_) => pictures::renewal_cost(words, &seen, &money),
            Drawn::History(_) | Drawn::Fleet(_) => pictures::rig_history(words, &seen),
        })
    }
}

impl Followed {
    fn seen<'a>(&'a self, zone: &'a jiff::tz::TimeZone) -> Seen<'a> {
        Seen {
            rig: &self.rig.name,
            events: &self.record.events,
            settings: &self.settings,
            lessons: &self.lessons,
            course: &self.course,
            assessment: &self.assessment,
            behind: self.behind,
            zone,
        }
    }
}
