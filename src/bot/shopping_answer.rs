//! What to buy for the next two weeks.

use crate::digest::shopping::{self, Good};
use crate::replies::buying::{self, List, Lot, Uncounted, Wording};
use crate::store::{Db, StoreError};

use super::answer::Answer;
use super::examples::example_for;
use super::request::Request;
use super::week_facts::{self, Until};

/// "What do we need to buy?": the list of the digest, as of now.
pub(super) async fn shopping(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    let until_now = (on.today(), Until::Now);
    let week = week_facts::week(db, &on.known, until_now, on.now).await?;
    let shopping = shopping::list(&week);
    let mut list = List {
        glass_decides: shopping.glass_decides,
        faulty: shopping.faulty,
        put_off: shopping.membranes_put_off,
        ..List::default()
    };
    for purchase in shopping.purchases {
        let lot = match purchase.good {
            Good::Resin => &mut list.resin,
            Good::Prefilters => &mut list.prefilters,
            Good::Membrane => &mut list.membranes,
        };
        *lot = Lot {
            rigs: purchase.rigs,
            cost: purchase.cost.unwrap_or(0.0),
            unpriced: purchase.unpriced,
        };
    }
    for (rig, priced) in shopping.membranes_to_weigh {
        match priced {
            true => list.to_weigh_later.push(rig),
            false => list.to_weigh.push(rig),
        }
    }
    for (name, lacks) in shopping.resin_uncounted {
        if let Some(known) = list.uncounted.iter_mut().find(|known| known.lacks == lacks) {
            known.rigs.push(name);
            continue;
        }
        let rig = on.fleet.iter().find(|rig| rig.name == name);
        let example = rig.zip(lacks.first()).map(|(rig, lack)| example_for(on, rig, *lack));
        list.uncounted.push(Uncounted {
            rigs: vec![name],
            lacks,
            example: example.unwrap_or_default(),
        });
    }
    let wording = Wording {
        currency: on.rules.currency(),
        volume: on.rules.volume_unit(),
        today: on.today(),
    };
    Ok(Answer::says(buying::list(on.words, &list, &wording)))
}
