//! The weekly digest: at its hour, once an outfit and local date, to its owners.

use crate::digest::Kind;
use crate::digest::notes::Topic;
use crate::domain::Role;
use crate::domain::envelope::{Body, Handling, Outgoing};
use crate::history;
use crate::replies::{Words, digest as worded};
use crate::schedule::Slot;
use crate::store::people::Member;
use crate::store::questions::Button as StoredButton;
use crate::store::{self, Db, StoreError};
use crate::water::verdict::Deed;

use crate::bot::digests::{self, Made};
use crate::bot::due::Occasion;
use crate::bot::messages::carry;
use crate::bot::week_facts::Until;
use crate::bot::{Bot, decisions};

/// How long the button for more may be pressed.
const BUTTON_LIVES: i64 = 7 * 86_400;

impl Bot {
    /// Puts the digest together without holding anybody up, then claims its slot
    /// and queues it.
    pub(super) async fn weekly(&self, occasion: &Occasion<'_>) -> Result<(), StoreError> {
        let Occasion { outfit, slot, now, .. } = *occasion;
        let mut look = self.store.look().await?;
        let Some(known) = history::load::as_of(&mut look, outfit.id, now).await? else {
            return Ok(());
        };
        let made = digests::make(&mut look, &known, (slot.date, Until::Yesterday), now).await?;
        let everybody = store::people::of_outfit(&mut look, outfit.id).await?;
        look.rollback().await?;
        let mut tx = self.store.begin().await?;
        if !store::slots::claim(&mut tx, &key(outfit.id, slot), now).await? {
            return Ok(());
        }
        if let Some(made) = made {
            let date = slot.date.to_string();
            let handling = Handling {
                silent: occasion.hours.is_quiet(now),
                protected: true,
                unasked: true,
            };
            for owner in everybody.iter().filter(|member| member.role == Role::Owner) {
                self.send_digest(&mut tx, &made, owner, handling, now).await?;
                store::notes::count_unasked(&mut tx, owner.id, &date).await?;
            }
            let asked_for = decisions::write(&made.digest.decisions());
            store::digests::keep(&mut tx, outfit.id, &date, &asked_for, now).await?;
            if speaks_of_frost(&made) {
                store::notes::tell(&mut tx, outfit.id, None, Topic::Frost.code(), now).await?;
            }
        }
        tx.commit().await
    }

    /// Queues a digest for one owner: the message, then its pictures.
    pub(in crate::bot) async fn send_digest(
        &self,
        db: &mut Db,
        made: &Made<'_>,
        owner: &Member,
        handling: Handling,
        now: i64,
    ) -> Result<(), StoreError> {
        let words = Words::of(owner.language.as_deref());
        let (text, has_more) = made.text(words);
        let mut buttons = Vec::new();
        if has_more {
            let stored = StoredButton {
                outfit_id: owner.outfit_id,
                question_id: None,
                person_id: Some(owner.id),
                says: made.asks_for_more().kept(),
                expires_at: now + BUTTON_LIVES,
            };
            buttons.push(self.button(db, worded::more_label(words), &stored).await?);
        }
        let bodies = [
            Body::Say {
                text,
                buttons,
                reply_to: None,
            },
            Body::Drawings {
                drawings: made.drawings(owner.language.as_deref()),
                caption: String::new(),
                reply_to: None,
            },
        ];
        for body in bodies {
            let outgoing = Outgoing {
                handling,
                ..carry(owner.chat.clone(), body)
            };
            store::sends::queue(db, &outgoing, now).await?;
        }
        Ok(())
    }
}

/// The key under which a digest is made.
pub(super) fn key(outfit_id: i64, slot: Slot) -> String {
    format!("digest/{outfit_id}/{}", slot.date)
}

fn speaks_of_frost(made: &Made<'_>) -> bool {
    let actions = made.digest.actions.iter();
    actions
        .flat_map(|action| &action.items)
        .any(|item| matches!(item.deed, Deed::Frost { .. }))
        || made.digest.actions.iter().any(|action| action.kind == Kind::Frost)
}
