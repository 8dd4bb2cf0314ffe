//! A membrane that was put into preservative: kept, told, and not asked about
//! while it lasts.

use crate::replies::figures::spoken;
use crate::store::rigs::Rig;
use crate::store::services::Service;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::record::Record;
use super::turn::Turn;

/// How it is kept among the services, so that it can be undone like any of them.
pub(super) const PRESERVED: &str = "preserved";

/// What ends it: water through the membrane, or another membrane.
const ENDED_BY: [&str; 2] = ["flush", "membrane"];

/// When the membrane that is in the rig was put into preservative, if it still
/// lies in it: nothing ran through since. Services oldest first.
fn preserved_at(services: &[Service], last_reading_at: Option<i64>) -> Option<i64> {
    let last = |what: &dyn Fn(&str) -> bool| {
        let latest = services.iter().rev().find(|service| what(&service.what));
        latest.map(|service| service.done_at)
    };
    let put_in = last(&|what| what == PRESERVED)?;
    let ran = last(&|what| ENDED_BY.contains(&what)).max(last_reading_at);
    ran.is_none_or(|ran| ran <= put_in).then_some(put_in)
}

impl Record {
    /// Whether its membrane lies in preservative.
    pub fn is_preserved(&self) -> bool {
        preserved_at(&self.services, self.readings.last().map(|reading| reading.taken_at)).is_some()
    }
}

impl Turn<'_> {
    /// `heron preserved`.
    pub(super) async fn preserved(&mut self, typed: &str) -> Result<Option<Answer>, StoreError> {
        let Some(rig) = self.rig_named(typed) else {
            return Ok(None);
        };
        let name = [("rig", (&rig.name).into())];
        if rig.di_only {
            return Ok(Some(Answer::says(self.words.say("rig-di-only", name))));
        }
        let kept = Service {
            id: 0,
            rig_id: rig.id,
            person_id: self.member.id,
            source_key: self.incoming.key.clone(),
            what: PRESERVED.to_owned(),
            done_at: self.sent_at(),
            minutes: None,
            price_minor: None,
            withdrawn_at: None,
        };
        store::services::record(self.db, self.teller(), &kept).await?;
        Ok(Some(Answer::says(self.words.say("preserved-noted", name))))
    }

    /// That a rig's membrane lies in preservative, as a line; none if it does not.
    pub(super) async fn preserved_line(&mut self, rig: &Rig) -> Result<Option<String>, StoreError> {
        let services = store::services::of_rig(self.db, rig.id).await?;
        let last = store::readings::latest(self.db, rig.id, self.now + 1, 1).await?;
        let put_in = preserved_at(&services, last.first().map(|reading| reading.taken_at));
        Ok(put_in.map(|at| {
            let since = spoken::since_day(self.words, self.date(at), self.today());
            self.words.say("preserved-since", [("since", (&since).into())])
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_membrane_lies_in_preservative_until_water_runs_through_it() {
        let service = |what: &str, done_at| Service {
            id: 0,
            rig_id: 1,
            person_id: 1,
            source_key: String::new(),
            what: what.to_owned(),
            done_at,
            minutes: None,
            price_minor: None,
            withdrawn_at: None,
        };
        let put_in = || service(PRESERVED, 50);
        for (services, read_at, lies) in [
            (vec![], Some(10), None),
            (vec![put_in()], None, Some(50)),
            (vec![put_in()], Some(50), Some(50)),
            (vec![put_in()], Some(60), None),
            (vec![service("flush", 49), put_in()], Some(10), Some(50)),
            (vec![put_in(), service("resin", 55)], Some(10), Some(50)),
            (vec![put_in(), service("flush", 55)], Some(10), None),
            (vec![put_in(), service("membrane", 55)], Some(10), None),
            (
                vec![put_in(), service("flush", 55), service(PRESERVED, 56)],
                None,
                Some(56),
            ),
        ] {
            assert_eq!(preserved_at(&services, read_at), lies, "{services:?} {read_at:?}");
        }
    }
}
