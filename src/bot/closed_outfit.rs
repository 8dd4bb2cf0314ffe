//! What waits while an outfit is closing.

use crate::message::command::{Affair, Command};
use crate::store::people::Role;

use super::answer::Answer;
use super::request::Request;

/// How long a closing outfit can still be kept, in seconds.
pub(super) const GRACE: i64 = 7 * 86_400;

/// While an outfit is closing nothing changes but what ends or saves it.
pub(super) fn closed_to(on: &Request<'_>, command: Option<&Command>) -> Option<Answer> {
    let closing_at = on.outfit.closing_at?;
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
    if on.incoming.chat.group && command.is_none() {
        return Some(Answer::silence());
    }
    Some(Answer::says(closing_line(on, closing_at)))
}

/// What holds while an outfit is closing.
pub(super) fn closing_line(on: &Request<'_>, closing_at: i64) -> String {
    let deleted_on = on.date(closing_at + GRACE);
    let day = crate::replies::figures::full_day(on.words, deleted_on, on.today());
    let facts = [("outfit", (&on.outfit.name).into()), ("day", (&day).into())];
    if on.member.role == Role::Owner {
        on.words.say("closing-to-owner", facts)
    } else {
        on.words.say("closing-to-crew", facts)
    }
}
