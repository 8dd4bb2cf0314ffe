//! Taking in the rows that wait, in the transaction of the yes.

use std::collections::HashMap;

use crate::intake::{self, Kind};
use crate::store::imports::{self, Offered};
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::services::Service;
use crate::store::{self, StoreError};

use super::super::answer::Answer;
use super::super::fleet::fold;
use super::super::turn::Turn;
use super::plan::{self, Plan};

/// Takes in all that waits: rigs before what was read and done on them.
pub async fn all(turn: &mut Turn<'_>, waiting: Vec<Offered>) -> Result<Answer, StoreError> {
    let mut read = Vec::new();
    for offered in waiting {
        let day_first = (offered.day_first >= 0).then_some(offered.day_first == 1);
        if let Ok(intake) = intake::read(&offered.source, day_first) {
            read.push((offered.id, intake));
        }
    }
    read.sort_by_key(|(_, intake)| intake.kind != Kind::Rigs);
    let (mut readings, mut services, mut new_rigs) = (0, 0, 0);
    for (id, intake) in read {
        let plan = plan::of(turn, &intake).await?;
        readings += plan.readings.len();
        services += plan.services.len();
        new_rigs += plan.new_rigs.len();
        take(turn, id, plan).await?;
        imports::taken(turn.db, id, turn.now).await?;
    }
    turn.note("imported", &(readings + services).to_string()).await?;
    let count = |number: usize| i64::try_from(number).unwrap_or(i64::MAX);
    Ok(Answer::says(turn.words.say(
        "imported",
        [
            ("readings", count(readings).into()),
            ("services", count(services).into()),
            ("rigs", count(new_rigs).into()),
        ],
    )))
}

/// A rig on which nobody ever read an RO outlet has none.
fn seems_di_only(plan: &Plan, folded: &str) -> bool {
    let mut of_rig = plan
        .readings
        .iter()
        .filter(|(_, row)| fold(&row.rig) == folded)
        .peekable();
    of_rig.peek().is_some() && of_rig.all(|(_, row)| row.permeate_ppm.is_none())
}

async fn take(turn: &mut Turn<'_>, id: i64, plan: Plan) -> Result<(), StoreError> {
    for (folded, (_, name)) in &plan.new_rigs {
        if let Some(rig) = store::rigs::add(turn.db, turn.outfit.id, name, folded, turn.now).await? {
            let rig = Rig {
                id: rig,
                name: name.clone(),
                di_only: seems_di_only(&plan, folded),
                flushes_itself: false,
            };
            store::rigs::set_traits(turn.db, &rig, turn.now).await?;
        }
    }
    turn.fleet = store::rigs::fleet(turn.db, turn.outfit.id).await?;
    for told in &plan.rigs {
        if let Some(rig) = turn.fleet.iter_mut().find(|rig| fold(&rig.name) == fold(&told.name)) {
            (rig.di_only, rig.flushes_itself) = (told.di_only, told.flushes_itself);
            store::rigs::set_traits(turn.db, rig, turn.now).await?;
        }
    }
    let rigs: HashMap<String, i64> = turn.fleet.iter().map(|rig| (fold(&rig.name), rig.id)).collect();
    let teller = turn.teller();
    for (at, row) in plan.readings {
        let Some(rig_id) = rigs.get(&fold(&row.rig)).copied() else {
            continue;
        };
        let kept = Reading {
            rig_id,
            person_id: teller.person_id,
            source_key: imports::key(id),
            taken_at: at,
            feed_ppm: row.feed_ppm,
            permeate_ppm: row.permeate_ppm,
            product_ppm: row.product_ppm,
            feed_raw_us: row.feed_us,
            permeate_raw_us: row.permeate_us,
            product_raw_us: row.product_us,
            temperature_c: row.temperature_c,
            pressure_kpa: row.pressure_kpa,
            permeate_lpm: row.permeate_lpm,
            waste_lpm: row.waste_lpm,
            ..Reading::default()
        };
        store::readings::record(turn.db, teller, &kept).await?;
    }
    for (at, row) in plan.services {
        let Some(rig_id) = rigs.get(&fold(&row.rig)).copied() else {
            continue;
        };
        let kept = Service {
            rig_id,
            source_key: imports::key(id),
            what: row.what.to_owned(),
            done_at: at,
            minutes: row.minutes,
            price_minor: row.price_minor,
            ..Service::default()
        };
        store::services::record(turn.db, teller, &kept).await?;
    }
    Ok(())
}
