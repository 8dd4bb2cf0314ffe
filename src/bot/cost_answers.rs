//! What another price would change, and what was spent.

use jiff::ToSpan;

use crate::grammar::{Span, What};
use crate::message::setting::{Amount, Currency, Field};
use crate::replies::buying::{self, Costs, Spent};
use crate::replies::money::{self, Part, Supposed};
use crate::schedule;
use crate::store::rigs::Rig;
use crate::store::services::Service;
use crate::store::{self, Db, StoreError};
use crate::water::assess::assess;

use super::answer::Answer;
use super::membrane_money::best;
use super::past_settings::as_of;
use super::request::Request;
use super::rules::{Rules, RulesFor};
use super::setting_values::example_of;
use super::spans::days_of;

/// So many rigs stand in one answer about prices.
const RIGS_SHOWN: usize = 12;

/// What a service cost, main units: as it was said with it, else as it was set,
/// labour included.
fn price_of(service: &Service, own: RulesFor<'_>, currency: Option<Currency>) -> Option<f64> {
    let digits = currency.map_or(2, Currency::digits);
    if let Some(minor) = service.price_minor {
        return Amount::of_minor(minor, digits).map(Amount::main);
    }
    let main = |amount: Option<Amount>| amount.map(Amount::main);
    let labour = |amount: Option<Amount>| main(amount).unwrap_or(0.0);
    match service.what {
        What::Resin => Some(main(own.resin_price())? * own.resin_litres()? + labour(own.resin_labour())),
        What::Membrane => {
            Some(main(own.membrane_price())? * f64::from(own.membranes()) + labour(own.membrane_labour()))
        }
        What::Prefilter => main(own.prefilter_price()),
        What::Repack | What::Flush | What::ORing | What::SameMembrane | What::Preserved | What::Meter => None,
    }
}

/// "What if resin costs 12?": recomputed, not stored.
pub(super) fn what_if(
    on: &Request<'_>,
    rig: Option<i64>,
    part: Option<What>,
    (amount, percent): (Option<f64>, Option<f64>),
) -> Answer {
    let price = amount
        .or_else(|| changed_price(&on.rules, rig, part?, percent?))
        .and_then(Amount::of_main)
        .filter(|price| *price > Amount::default());
    let supposed = match (part, price) {
        (Some(What::Resin), Some(price)) => Some((Part::Resin, price, Field::ResinPrice.to(price))),
        (Some(What::Membrane), Some(price)) => Some((Part::Membrane, price, Field::MembranePrice.to(price))),
        _ => None,
    };
    let Some((part, price, setting)) = supposed else {
        return Answer::says(on.words.plain("what-if-how"));
    };
    let other = on.rules.supposing(rig, &setting);
    let fleet = on.fleet.clone();
    if fleet.is_empty() {
        return Answer::says(on.words.plain("fleet-empty"));
    }
    // Prices decide nothing on a rig without a membrane or without resin: of one
    // that is named this is said.
    let decides = |one: &Rig| !one.di_only && on.rules.has_bed(one);
    if let Some(one) = fleet.iter().find(|one| rig == Some(one.id) && !decides(one)) {
        let key = if one.di_only { "what-if-di" } else { "what-if-glass" };
        return Answer::says(on.words.say(key, [("rig", (&one.name).into())]));
    }
    let asked: Vec<&Rig> = fleet
        .iter()
        .filter(|one| rig.is_none_or(|id| id == one.id) && decides(one))
        .collect();
    if asked.is_empty() {
        return Answer::says(on.words.plain("what-if-none"));
    }
    let mut rigs = Vec::new();
    for one in asked.into_iter().take(RIGS_SHOWN) {
        let Some(assessed) = on.follow(one.id) else { continue };
        let then = assess(
            &assessed.state.filter,
            &other.water_settings(one),
            &assessed.lessons,
            on.now,
        );
        rigs.push(Supposed {
            rig: one.name.clone(),
            then: then.renewal.as_ref().map(|renewal| best(on, renewal)),
            now: assessed.assessment.renewal.as_ref().map(|renewal| best(on, renewal)),
        });
    }
    let currency = on.rules.currency();
    let text = money::supposed(on.words, (part, price), &rigs, currency, on.today());
    Answer::says(text)
}

/// The price that is set, changed by so many per cent, in main units.
fn changed_price(rules: &Rules, rig: Option<i64>, part: What, percent: f64) -> Option<f64> {
    let own = rig.map_or_else(|| rules.outfit(), |rig| rules.rig(rig));
    let price = match part {
        What::Resin => own.resin_price(),
        What::Membrane => own.membrane_price(),
        _ => None,
    };
    Some(price?.main() * (1.0 + percent / 100.0))
}

/// "What did otter cost last year?"
pub(super) async fn cost(
    db: &mut Db,
    on: &Request<'_>,
    rig: Option<i64>,
    part: Option<What>,
    span: Option<Span>,
) -> Result<Answer, StoreError> {
    let today = on.today();
    let (from, to) = days_of(span, today);
    let after = to.checked_add(1.day()).unwrap_or(to);
    let start = schedule::day_start(&on.zone, from).unwrap_or(0);
    let end = schedule::day_start(&on.zone, after).unwrap_or(on.now);
    let [mut resin, mut membranes, mut prefilters] = [Spent::default(); 3];
    let settings = store::settings::all(db, on.outfit.id).await?;
    let mut example = String::new();
    for one in on.fleet.iter().filter(|one| rig.is_none_or(|id| id == one.id)) {
        let services = store::services::of_rig(db, one.id).await?;
        for service in services
            .iter()
            .filter(|service| (start..end).contains(&service.done_at))
        {
            let what = service.what;
            if part.is_some_and(|part| part != what) {
                continue;
            }
            let spent = match what {
                What::Resin => &mut resin,
                What::Membrane => &mut membranes,
                What::Prefilter => &mut prefilters,
                What::Repack | What::Flush | What::ORing | What::SameMembrane | What::Preserved | What::Meter => {
                    continue;
                }
            };
            spent.count += 1;
            // A price or a size that came later changes nothing that was paid.
            let then = Rules::of(&on.outfit, &as_of(&settings, service.done_at));
            match price_of(service, then.rig(one.id), on.rules.currency()) {
                Some(price) => spent.cost += price,
                None => {
                    spent.unpriced += 1;
                    example = price_missing(on, one, what);
                }
            }
        }
    }
    let name = rig.map(|id| on.rig_name(id));
    let costs = Costs {
        rig: name.as_deref(),
        days: (from, to),
        resin,
        membranes,
        prefilters,
        example: &example,
    };
    let text = buying::costs(on.words, &costs, on.rules.currency(), today);
    Ok(Answer::says(text))
}

/// What could be typed so that such a service of a rig has a price.
fn price_missing(on: &Request<'_>, rig: &Rig, what: What) -> String {
    match what {
        What::Resin if on.rules.rig(rig.id).resin_price().is_none() => example_of(on, Field::ResinPrice),
        What::Resin => format!("{} {}", rig.name.to_lowercase(), example_of(on, Field::ResinLitres)),
        What::Membrane => example_of(on, Field::MembranePrice),
        _ => example_of(on, Field::PrefilterPrice),
    }
}
