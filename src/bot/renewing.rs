//! The question after a fall of the permeate that fits a new membrane, and its
//! answer that it is the same one.

use jiff::civil::Date;

use crate::message;
use crate::replies::figures;
use crate::store::services::Service;
use crate::store::{self, StoreError};

use super::answer::{Answer, Press};
use super::turn::Turn;

/// How "it is the same membrane" is kept among the services: so that it is not
/// asked again, and can be undone like any of them.
pub(super) const SAME_MEMBRANE: &str = "same-membrane";

impl Turn<'_> {
    /// The two answers, as buttons that say what one would type.
    pub(super) fn renewal_buttons(&self, rig: &str) -> Vec<Press> {
        let rig = rig.to_lowercase();
        vec![
            Press {
                label: self.words.plain("label-new-membrane"),
                says: format!("{rig} new membrane"),
            },
            Press {
                label: self.words.plain("label-same-membrane"),
                says: format!("{rig} same membrane"),
            },
        ]
    }

    pub(super) async fn same_membrane(&mut self, typed: &str) -> Result<Option<Answer>, StoreError> {
        let Some(rig) = self.rig_named(typed) else {
            return Ok(None);
        };
        if rig.di_only {
            return Ok(Some(Answer::says(
                self.words.say("rig-di-only", [("rig", (&rig.name).into())]),
            )));
        }
        let kept = Service {
            rig_id: rig.id,
            source_key: self.incoming.key.clone(),
            what: SAME_MEMBRANE.to_owned(),
            done_at: self.sent_at(),
            ..Service::default()
        };
        store::services::record(self.db, self.teller(), &kept).await?;
        Ok(Some(Answer::says(
            self.words.say("same-membrane-noted", [("rig", (&rig.name).into())]),
        )))
    }

    /// What a service resets, where its name does not say so; from the day on which it was done, if not today.
    pub(super) fn what_it_resets(&self, what: message::What, done_on: Option<Date>) -> Option<String> {
        let (now, from) = match what {
            message::What::Membrane => ("resets-membrane", "resets-membrane-from"),
            message::What::Resin => ("resets-resin", "resets-resin-from"),
            message::What::Prefilter | message::What::Repack | message::What::Flush | message::What::ORing => {
                return None;
            }
        };
        Some(match done_on {
            None => self.words.plain(now),
            Some(date) => {
                let day = figures::day(self.words, date, self.today());
                self.words.say(from, [("day", (&day).into())])
            }
        })
    }
}
