//! Which file answers which affair; what waits while an outfit is closing, and
//! what is not for a group's ears.

use crate::message::command::{Affair, Command};
use crate::store::StoreError;
use crate::store::people::Role;

use super::answer::Answer;
use super::turn::Turn;

impl Turn<'_> {
    /// Answers an affair; none if it turns out to be none.
    pub(super) async fn attend_to(&mut self, affair: Affair) -> Result<Option<Answer>, StoreError> {
        if let Some(refusal) = self.not_here(&affair) {
            return Ok(Some(refusal));
        }
        Ok(Some(match affair {
            Affair::Invite(terms) => self.invite(&terms).await?,
            Affair::InviteHow => Answer::says(self.words.plain("invite-how")),
            Affair::Invites => self.invites().await?,
            Affair::CancelInvites => self.cancel_invites().await?,
            Affair::Remove(name) => return self.remove_person(&name).await,
            Affair::Make(name, role) => return self.make(&name, role).await,
            Affair::HandOver(name, sure) => return self.hand_over(&name, sure).await,
            Affair::TodayOn(name) => return self.ride_today(&name).await,
            Affair::NoRig => self.ride_none().await?,
            Affair::LinkChat => self.link_chat().await?,
            Affair::UnlinkChat => self.unlink_chat().await?,
            Affair::SameMembrane(name) => return self.same_membrane(&name).await,
            Affair::Preserved(name) => return self.preserved(&name).await,
            Affair::Export => self.export().await?,
            Affair::Import(rows) => self.offer_import(&rows, None).await?,
            Affair::TakeIn => self.take_in().await?,
            Affair::DropImport => self.drop_import().await?,
            Affair::UndoImport => self.undo_import().await?,
            Affair::DayFirst(day_first) => match self.read_dates(day_first).await? {
                Some(read) => read,
                None => Answer::says(self.words.plain("import-nothing-waits")),
            },
            Affair::Changes => self.changes().await?,
            Affair::ForgetMe(sure) => self.forget_me(sure).await?,
            Affair::Close(name) => self.close(name).await?,
            Affair::Keep => self.keep_outfit().await?,
            Affair::KeepFor(years, sure) => self.keep_for(years, sure).await?,
        }))
    }

    /// The outfit's data are its owner's, and nothing for a group.
    fn not_here(&self, affair: &Affair) -> Option<Answer> {
        let of_owner = matches!(
            affair,
            Affair::Export
                | Affair::Import(_)
                | Affair::TakeIn
                | Affair::DropImport
                | Affair::UndoImport
                | Affair::DayFirst(_)
                | Affair::Changes
                | Affair::Close(_)
                | Affair::Keep
                | Affair::KeepFor(..)
        );
        if of_owner && self.member.role != Role::Owner {
            // "Changes" and the like are also words of talk.
            return Some(if self.incoming.chat.group {
                Answer::silence()
            } else {
                self.may_not("who-owner")
            });
        }
        let private = of_owner || matches!(affair, Affair::ForgetMe(_) | Affair::Invites);
        (private && self.incoming.chat.group).then(|| Answer::says(self.words.plain("in-private")))
    }

    /// While an outfit is closing nothing changes but what ends or saves it.
    pub(super) fn closed_to(&self, command: Option<&Command>) -> Option<Answer> {
        let closing_at = self.outfit.closing_at?;
        let goes_on = matches!(
            command,
            Some(
                Command::Help
                    | Command::Leave
                    | Command::People
                    | Command::Fleet
                    | Command::History(_)
                    | Command::Look(_)
                    | Command::Affair(
                        Affair::Export | Affair::Changes | Affair::ForgetMe(_) | Affair::Close(_) | Affair::Keep
                    )
            )
        );
        if goes_on {
            return None;
        }
        if self.incoming.chat.group && command.is_none() {
            return Some(Answer::silence());
        }
        Some(Answer::says(self.closing_line(closing_at)))
    }
}
