//! The question after a fall of the permeate that fits a new membrane, and its answer that it is the same one.

use crate::domain::ServiceKind;
use crate::message::command::{Affair, Command};
use crate::replies::Words;
use crate::store::rigs::Rig;
use crate::store::services::Service;
use crate::store::{self, Db, StoreError};

use super::act::Act;
use super::answer::{Answer, Press};
use super::refusals::unknown_rig;
use super::request::Request;

/// The two answers, as buttons that say what one would type.
pub(super) fn renewal_buttons(words: Words, rig: &Rig) -> Vec<Press> {
    vec![
        Press {
            label: words.plain("label-new-membrane"),
            act: Act::done(ServiceKind::Membrane, [rig.id]),
        },
        Press {
            label: words.plain("label-same-membrane"),
            act: Act::Command(Command::Affair(Affair::SameMembrane(rig.name.to_lowercase()))),
        },
    ]
}

pub(super) async fn same_membrane(db: &mut Db, on: &Request<'_>, typed: &str) -> Result<Answer, StoreError> {
    let Some(rig) = on.rig_named(typed) else {
        return Ok(unknown_rig(on, typed));
    };
    if rig.di_only {
        return Ok(Answer::says(on.words.say("rig-di-only", [("rig", (&rig.name).into())])));
    }
    let kept = Service::new(rig.id, ServiceKind::SameMembrane, on.incoming.key.clone(), on.sent_at());
    store::services::record(db, on.teller(), &kept).await?;
    Ok(Answer::says(
        on.words.say("same-membrane-noted", [("rig", (&rig.name).into())]),
    ))
}
