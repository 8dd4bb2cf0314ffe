//! Invites: made, listed, cancelled.

use crate::message::command::Terms;
use crate::replies::people;
use crate::store::invites::{self, Invite};
use crate::store::people::Role;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::turn::Turn;

const HOUR: i64 = 3600;
const LIVES_HOURS: u32 = 7 * 24;
const MOST_HOURS: u32 = 30 * 24;
const CREW_USES: u32 = 10;
const MOST_USES: u32 = 100;

impl Turn<'_> {
    /// A link that lets people in. A link hands out at most what its maker may do.
    pub(super) async fn invite(&mut self, terms: &Terms) -> Result<Answer, StoreError> {
        let role = terms.role.and_then(Role::from_word).unwrap_or(Role::Crew);
        if role != Role::Crew && self.member.role != Role::Owner {
            return Ok(self.may_not("who-owner"));
        }
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        let usual_uses = if role == Role::Crew { CREW_USES } else { 1 };
        let uses = terms.uses.unwrap_or(usual_uses).clamp(1, MOST_USES);
        let hours = terms.hours.unwrap_or(LIVES_HOURS).clamp(1, MOST_HOURS);
        let invite = Invite {
            outfit_id: Some(self.outfit.id),
            role,
        };
        let ends_at = self.now + i64::from(hours) * HOUR;
        let maker = Some(self.member.id);
        let token = self
            .bot
            .invite(self.db, invite, maker, (i64::from(uses), ends_at), self.now)
            .await?;
        let text = format!("/start {token}");
        let link = self
            .bot
            .link_base()
            .map_or_else(|| text.clone(), |base| format!("{base}{token}"));
        let told = people::invite(self.words, &self.role_word(role), (uses, hours), &link);
        if link == text {
            return Ok(Answer::says(told));
        }
        Ok(Answer::says(format!(
            "{told}\n{}",
            self.words.say("invite-start-text", [("text", (&text).into())])
        )))
    }

    /// The invites that still let people in.
    pub(super) async fn invites(&mut self) -> Result<Answer, StoreError> {
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        let open = invites::open(self.db, self.outfit.id, self.now).await?;
        if open.is_empty() {
            return Ok(Answer::says(self.words.plain("invites-none")));
        }
        let mut lines = vec![self.words.plain("invites-title")];
        for invite in open {
            let by = self.name_of(invite.person_id).await?;
            let role = self.role_word(invite.role);
            let day = crate::replies::figures::day(self.words, self.date(invite.expires_at), self.today());
            lines.push(self.words.say(
                "invites-line",
                [
                    ("role", (&role).into()),
                    ("uses", invite.uses_left.into()),
                    ("day", (&day).into()),
                    ("name", (&by).into()),
                ],
            ));
        }
        lines.push(self.words.plain("invites-cancel-hint"));
        Ok(Answer::says(lines.join("\n")))
    }

    /// Ends open invites: an owner's word ends all, a lead's those for crew.
    pub(super) async fn cancel_invites(&mut self) -> Result<Answer, StoreError> {
        let of_role = match self.member.role {
            Role::Owner => None,
            Role::Lead => Some(Role::Crew),
            Role::Crew => return Ok(self.may_not("who-leads")),
        };
        let ended = invites::cancel(self.db, self.outfit.id, of_role, self.now).await?;
        if ended > 0 {
            self.note("invites-cancelled", &ended.to_string()).await?;
        }
        let ended = i64::try_from(ended).unwrap_or(i64::MAX);
        Ok(Answer::says(
            self.words.say("invites-cancelled", [("count", ended.into())]),
        ))
    }

    /// Notes something done to the outfit, for whoever asks who did what.
    pub(super) async fn note(&mut self, what: &str, about: &str) -> Result<(), StoreError> {
        store::changes::note(self.db, self.teller(), what, about).await
    }

    /// A person's first name, or "somebody".
    pub(super) async fn name_of(&mut self, person_id: Option<i64>) -> Result<String, StoreError> {
        let known = match person_id {
            Some(id) => store::people::first_name(self.db, id).await?,
            None => None,
        };
        Ok(known.unwrap_or_else(|| self.words.plain("somebody")))
    }
}
