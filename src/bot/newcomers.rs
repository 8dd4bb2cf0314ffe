//! How somebody comes in: the one-time link that founds an outfit, and the
//! invite links of its owner and leads.

use crate::domain::envelope::{Incoming, Outgoing};
use crate::replies::caution::Occasion;
use crate::replies::{Words, outfit};
use crate::store::invites::{self, Invite};
use crate::store::people::{self, Newcomer, Role};
use crate::store::readings::Teller;
use crate::store::{self, Db, StoreError, heard};

use super::messages::say;
use super::{Bot, cautions, once_in};

const CLAIM_LIVES: i64 = 30 * 86_400;

impl Bot {
    /// The token of a fresh one-time link with which somebody founds an outfit.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn found_token(&self, now: i64) -> Result<String, StoreError> {
        let mut tx = self.store.begin().await?;
        let invite = Invite {
            outfit_id: None,
            role: Role::Owner,
        };
        let token = self.invite(&mut tx, invite, None, (1, now + CLAIM_LIVES), now).await?;
        tx.commit().await?;
        Ok(token)
    }

    /// The token for the first owner; none once there is an outfit.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn claim_token(&self, now: i64) -> Result<Option<String>, StoreError> {
        let mut tx = self.store.begin().await?;
        let founded = !store::outfits::all(&mut tx).await?.is_empty();
        tx.commit().await?;
        if founded {
            Ok(None)
        } else {
            self.found_token(now).await.map(Some)
        }
    }

    pub(super) async fn invite(
        &self,
        db: &mut Db,
        invite: Invite,
        maker: Option<i64>,
        (uses, expires_at): (i64, i64),
        now: i64,
    ) -> Result<String, StoreError> {
        let token = self.settings.tokens.draw().map_err(|why| StoreError::Stored {
            what: "token",
            why: why.to_string(),
        })?;
        invites::keep(db, &token, invite, maker, (uses, expires_at), now).await?;
        Ok(token)
    }

    /// Somebody in no outfit opens a link.
    pub(super) async fn open_link(
        &self,
        db: &mut Db,
        incoming: &Incoming,
        token: &str,
        queued: &mut Vec<Outgoing>,
        now: i64,
    ) -> Result<(), StoreError> {
        let words = Words::of(incoming.person.language.as_deref());
        let Some(invite) = invites::redeem(db, token, now).await? else {
            if incoming.chat.group
                || !once_in(
                    &self.strangers,
                    &incoming.person.address,
                    super::strangers::TOLD_AGAIN,
                    now,
                )
            {
                return Ok(());
            }
            queued.push(say(incoming.chat.address.clone(), words.plain("bad-link")));
            return Ok(());
        };
        heard::note(db, &incoming.key, incoming.version, "", now).await?;
        let outfit_id = match invite.outfit_id {
            Some(outfit_id) => outfit_id,
            None => store::outfits::found(db, &words.plain("outfit-unnamed"), &self.settings.zone, now).await?,
        };
        let who = Newcomer {
            address: &incoming.person.address,
            chat: &incoming.person.private_chat,
            first_name: &incoming.person.first_name,
            language: incoming.person.language.as_deref(),
        };
        let owners: Vec<people::Member> = people::of_outfit(db, outfit_id).await?;
        people::join(db, &who, outfit_id, invite.role, now).await?;
        let member = people::find(db, who.address).await?;
        if let Some(member) = &member {
            let teller = Teller {
                outfit_id,
                person_id: member.id,
                heard_at: now,
            };
            store::changes::note(db, teller, "joined", invite.role.word()).await?;
        }
        if invite.outfit_id.is_none() {
            return self.open_set_up(db, incoming, queued, now).await;
        }
        let mut welcome = self.welcome(db, words, outfit_id, invite).await?;
        if let Some(member) = member {
            let cautions = cautions::lines(db, words, member.id, &[Occasion::Joined], now).await?;
            welcome.extend(cautions.iter().flat_map(|line| ["\n", line]));
        }
        queued.push(say(incoming.chat.address.clone(), welcome));
        for owner in owners.iter().filter(|member| member.role == Role::Owner) {
            let words = Words::of(owner.language.as_deref());
            let role = outfit::role(words, invite.role);
            let text = words.say("joined", [("name", who.first_name.into()), ("role", (&role).into())]);
            queued.push(say(owner.chat.clone(), text));
        }
        Ok(())
    }

    async fn welcome(&self, db: &mut Db, words: Words, outfit_id: i64, invite: Invite) -> Result<String, StoreError> {
        let outfit = store::outfits::get(db, outfit_id).await?;
        let fleet = store::rigs::fleet(db, outfit_id).await?;
        let name = fleet
            .first()
            .map_or_else(|| "heron".to_owned(), |rig| rig.name.to_lowercase());
        let (role, example) = (outfit::role(words, invite.role), format!("{name} 180 12"));
        Ok(words.say(
            "welcome-crew",
            [
                ("outfit", (&outfit.name).into()),
                ("role", (&role).into()),
                ("example", (&example).into()),
            ],
        ))
    }
}
