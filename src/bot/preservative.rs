//! A membrane that was put into preservative: kept, told, and not asked about
//! while it lasts.

use crate::domain::ServiceKind;
use crate::replies::figures::spoken;
use crate::store::rigs::Rig;
use crate::store::services::Service;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::refusals::unknown_rig;
use super::request::Request;

/// `heron preserved`.
pub(super) async fn preserved(db: &mut Db, on: &Request<'_>, typed: &str) -> Result<Answer, StoreError> {
    let Some(rig) = on.rig_named(typed) else {
        return Ok(unknown_rig(on, typed));
    };
    let name = [("rig", (&rig.name).into())];
    if rig.di_only {
        return Ok(Answer::says(on.words.say("rig-di-only", name)));
    }
    let kept = Service::new(rig.id, ServiceKind::Preserved, on.incoming.key.clone(), on.sent_at());
    store::services::record(db, on.teller(), &kept).await?;
    Ok(Answer::says(on.words.say("preserved-noted", name)))
}

/// That a rig's membrane lies in preservative, as a line; none if it does not.
pub(super) fn preserved_line(on: &Request<'_>, rig: &Rig) -> Option<String> {
    let put_in = on.known.rig(rig.id)?.state.preserved_at()?;
    let since = spoken::since_day(on.words, on.date(put_in), on.today());
    Some(on.words.say("preserved-since", [("since", (&since).into())]))
}
