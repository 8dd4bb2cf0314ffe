//! Commands about people: who is in, inviting, leaving.

use crate::store::invites::Invite;
use crate::store::people::Role;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::turn::Turn;

const DAY: i64 = 86_400;
const INVITE_LIVES: i64 = 7 * DAY;
const INVITE_USES: i64 = 10;

impl Turn<'_> {
    pub(super) async fn people(&mut self) -> Result<Answer, StoreError> {
        let mut lines = vec![self.words.say("people-title", [("outfit", (&self.outfit.name).into())])];
        for member in store::people::of_outfit(self.db, self.outfit.id).await? {
            let role = self.role_word(member.role);
            lines.push(self.words.say(
                "people-line",
                [("name", (&member.first_name).into()), ("role", (&role).into())],
            ));
        }
        Ok(Answer::says(lines.join("\n")))
    }

    pub(super) async fn invite(&mut self, role: &str) -> Result<Answer, StoreError> {
        let role = if role.is_empty() {
            Some(Role::Crew)
        } else {
            Role::from_word(role)
        };
        let Some(role) = role else {
            return self.help_on(Some(crate::message::command::Page::People)).await;
        };
        // A link hands out at most what its maker may do.
        if role != Role::Crew && self.member.role != Role::Owner {
            return Ok(self.may_not("who-owner"));
        }
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        let uses = if role == Role::Crew { INVITE_USES } else { 1 };
        let invite = Invite {
            outfit_id: Some(self.outfit.id),
            role,
        };
        let token = self
            .bot
            .invite(self.db, invite, uses, self.now + INVITE_LIVES, self.now)
            .await?;
        let text = format!("/start {token}");
        let link = self
            .bot
            .link_base()
            .map_or_else(|| text.clone(), |base| format!("{base}{token}"));
        let role = self.role_word(role);
        let told = self.words.say(
            "invite",
            [
                ("uses", uses.into()),
                ("role", (&role).into()),
                ("link", (&link).into()),
            ],
        );
        if link == text {
            return Ok(Answer::says(told));
        }
        Ok(Answer::says(format!(
            "{told}\n{}",
            self.words.say("invite-start-text", [("text", (&text).into())])
        )))
    }

    pub(super) async fn leave(&mut self) -> Result<Answer, StoreError> {
        let people = store::people::of_outfit(self.db, self.outfit.id).await?;
        let owners = people.iter().filter(|member| member.role == Role::Owner).count();
        if self.member.role == Role::Owner && owners == 1 {
            return Ok(Answer::says(self.words.plain("last-owner")));
        }
        store::people::leave(self.db, self.member.id).await?;
        Ok(Answer::says(
            self.words.say("left", [("outfit", (&self.outfit.name).into())]),
        ))
    }
}
