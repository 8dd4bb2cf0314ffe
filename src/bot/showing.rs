//! Pictures and digests for whoever asks.

use jiff::civil::Date;

use crate::chart::fleet_sheet::shown;
use crate::message::command::Command;
use crate::schedule::slot_on;
use crate::store::StoreError;
use crate::store::rigs::Rig;
use crate::water::renewal_verdict::Verdict;

use super::answer::Answer;
use super::digests::{self, file_name};
use super::envelope::{Body, Drawing, Drawn, Handling, Outgoing};
use super::gathering::Until;
use super::turn::{Turn, carry};

/// Pictures that a large fleet takes at most.
const PAGES: usize = 4;

impl Turn<'_> {
    /// The digest of the last seven days, now: to the asker's private chat, since it
    /// speaks of money and people.
    pub(super) async fn digest_now(&mut self) -> Result<Answer, StoreError> {
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        let week = (self.today(), Until::Now);
        let Some(made) = digests::make(self.db, &self.outfit, &self.rules, week, self.now).await? else {
            return Ok(Answer::says(self.words.plain("fleet-empty")));
        };
        let member = self.member.clone();
        let handling = Handling {
            protected: true,
            ..Handling::default()
        };
        self.bot
            .send_digest(self.db, &made, &member, handling, self.now)
            .await?;
        Ok(self.in_private())
    }

    /// What a digest had no room for: of the Monday that is named, else of the
    /// last seven days.
    pub(super) async fn digest_more(&mut self, of: &str) -> Result<Answer, StoreError> {
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        let (week, at) = match of.parse::<Date>().ok().and_then(|monday| self.sent_on(monday)) {
            Some((monday, at)) => ((monday, Until::Yesterday), at),
            None => ((self.today(), Until::Now), self.now),
        };
        let Some(made) = digests::make(self.db, &self.outfit, &self.rules, week, at).await? else {
            return Ok(Answer::says(self.words.plain("fleet-empty")));
        };
        let text = made
            .more(self.words)
            .unwrap_or_else(|| self.words.plain("digest-no-more"));
        let body = Body::Say {
            text,
            buttons: Vec::new(),
            reply_to: None,
        };
        let mut answer = self.in_private();
        answer.to_others.push(self.privately(body));
        Ok(answer)
    }

    /// A day that is past, and when its digest was due.
    fn sent_on(&self, monday: Date) -> Option<(Date, i64)> {
        let (_, time) = self.rules.digest_at();
        let slot = slot_on(&self.zone, monday, time)?;
        (slot.at <= self.now).then_some((monday, slot.at))
    }

    /// A picture of the fleet, or of a rig; none if the name is no rig's. Where there is
    /// nothing to draw, words say why.
    pub(super) async fn picture(&mut self, command: &Command) -> Result<Option<Answer>, StoreError> {
        let name = match command {
            Command::Picture(name) if name.is_empty() => return Ok(Some(self.fleet_pictures())),
            Command::Picture(name) | Command::ResinPicture(name) | Command::MoneyPicture(name) => name,
            _ => return Ok(None),
        };
        let Some(rig) = self.rig_named(name) else {
            return Ok(None);
        };
        if rig.di_only {
            return Ok(Some(self.picture_of(Some(rig.id))));
        }
        let answer = match command {
            Command::ResinPicture(_) if self.rules.has_bed(&rig) => self.drawn(&rig, "resin", Drawn::Resin(rig.id)),
            Command::ResinPicture(_) => self.without_resin(&rig).await?,
            Command::MoneyPicture(_) => {
                let renewal = self.assess(&rig).await?.renewal;
                match renewal.map(|renewal| renewal.verdict) {
                    Some(Verdict::Now | Verdict::Later(_)) => self.drawn(&rig, "money", Drawn::Money(rig.id)),
                    _ => self.membrane(&rig).await?,
                }
            }
            _ => self.picture_of(Some(rig.id)),
        };
        Ok(Some(answer))
    }

    /// The picture of a rig that a question asks for.
    pub(super) fn picture_of(&self, rig: Option<i64>) -> Answer {
        let Some(rig) = rig.and_then(|id| self.fleet.iter().find(|rig| rig.id == id)) else {
            return self.fleet_pictures();
        };
        match rig.di_only {
            true => self.drawn(rig, "resin", Drawn::Resin(rig.id)),
            false => self.drawn(rig, "history", Drawn::History(rig.id)),
        }
    }

    fn drawn(&self, rig: &Rig, what: &str, of: Drawn) -> Answer {
        self.drawings(vec![self.drawing(file_name(&rig.name, what), of)])
    }

    fn fleet_pictures(&self) -> Answer {
        if self.fleet.is_empty() {
            return Answer::says(self.words.plain("fleet-empty"));
        }
        let page = |page: usize| {
            let name = if page == 0 {
                "fleet.png".to_owned()
            } else {
                format!("fleet-{}.png", page + 1)
            };
            self.drawing(name, Drawn::Fleet(page))
        };
        // Pages that there are not are left out when they are drawn.
        let rigs = self.fleet.len();
        let pages = if shown(rigs) < rigs { PAGES } else { 1 };
        self.drawings((0..pages).map(page).collect())
    }

    fn drawing(&self, name: String, of: Drawn) -> Drawing {
        Drawing {
            name,
            of,
            outfit_id: self.outfit.id,
            as_of: self.now,
            language: self.member.language.clone(),
        }
    }

    fn drawings(&self, drawings: Vec<Drawing>) -> Answer {
        let body = Body::Drawings {
            drawings,
            caption: String::new(),
            reply_to: self.incoming.chat.group.then(|| self.incoming.key.clone()),
        };
        let mut answer = Answer::silence();
        answer.to_others.push(carry(self.incoming.chat.address.clone(), body));
        answer
    }

    /// A message of money and people: to the private chat, not to be passed on.
    pub(super) fn privately(&self, body: Body) -> Outgoing {
        Outgoing {
            handling: Handling {
                protected: true,
                ..Handling::default()
            },
            ..carry(self.member.chat.clone(), body)
        }
    }

    /// Says in a group where the answer went; nothing in private.
    pub(super) fn in_private(&self) -> Answer {
        if self.incoming.chat.group {
            return Answer::says(self.words.plain("sent-in-private"));
        }
        Answer::silence()
    }
}
