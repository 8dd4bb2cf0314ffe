//! Invites: made, listed, cancelled.

use crate::message::command::Terms;
use crate::replies::people;
use crate::store::invites::{self, Invite};
use crate::store::people::Role;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::people::name_of;
use super::refusals::may_not;
use super::request::Request;

const HOUR: i64 = 3600;

const LIVES_HOURS: u32 = 7 * 24;

const MOST_HOURS: u32 = 30 * 24;

const CREW_USES: u32 = 10;

const MOST_USES: u32 = 100;

/// A link that lets people in. A link hands out at most what its maker may do.
pub(super) async fn invite(db: &mut Db, on: &Request<'_>, terms: &Terms) -> Result<Answer, StoreError> {
    let role = terms.role.unwrap_or(Role::Crew);
    if role != Role::Crew && on.member.role != Role::Owner {
        return Ok(may_not(on.words, "who-owner"));
    }
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    let usual_uses = if role == Role::Crew { CREW_USES } else { 1 };
    let uses = terms.uses.unwrap_or(usual_uses).clamp(1, MOST_USES);
    let hours = terms.hours.unwrap_or(LIVES_HOURS).clamp(1, MOST_HOURS);
    let invite = Invite {
        outfit_id: Some(on.outfit.id),
        role,
    };
    let ends_at = on.now + i64::from(hours) * HOUR;
    let maker = Some(on.member.id);
    let token = on
        .bot
        .invite(db, invite, maker, (i64::from(uses), ends_at), on.now)
        .await?;
    let text = format!("/start {token}");
    let link = on
        .bot
        .link_base()
        .map_or_else(|| text.clone(), |base| format!("{base}{token}"));
    let told = people::invite(
        on.words,
        &crate::replies::outfit::role(on.words, role),
        (uses, hours),
        &link,
    );
    if link == text {
        return Ok(Answer::says(told));
    }
    Ok(Answer::says(format!(
        "{told}\n{}",
        on.words.say("invite-start-text", [("text", (&text).into())])
    )))
}

/// The invites that still let people in.
pub(super) async fn invites(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    let open = invites::open(db, on.outfit.id, on.now).await?;
    if open.is_empty() {
        return Ok(Answer::says(on.words.plain("invites-none")));
    }
    let mut lines = vec![on.words.plain("invites-title")];
    for invite in open {
        let by = name_of(db, on.words, invite.person_id).await?;
        let role = crate::replies::outfit::role(on.words, invite.role);
        let day = crate::replies::figures::day(on.words, on.date(invite.expires_at), on.today());
        lines.push(on.words.say(
            "invites-line",
            [
                ("role", (&role).into()),
                ("uses", invite.uses_left.into()),
                ("day", (&day).into()),
                ("name", (&by).into()),
            ],
        ));
    }
    lines.push(on.words.plain("invites-cancel-hint"));
    Ok(Answer::says(lines.join("\n")))
}

/// Ends open invites: an owner's word ends all, a lead's those for crew.
pub(super) async fn cancel_invites(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    let of_role = match on.member.role {
        Role::Owner => None,
        Role::Lead => Some(Role::Crew),
        Role::Crew => return Ok(may_not(on.words, "who-leads")),
    };
    let ended = invites::cancel(db, on.outfit.id, of_role, on.now).await?;
    if ended > 0 {
        store::changes::note(db, on.teller(), "invites-cancelled", &ended.to_string()).await?;
    }
    let ended = i64::try_from(ended).unwrap_or(i64::MAX);
    Ok(Answer::says(
        on.words.say("invites-cancelled", [("count", ended.into())]),
    ))
}
