//! The Monday digest as one phone message; what it has no room for is in
//! [`more`].

pub mod actions;
mod headline;
mod lists;
pub mod more;
pub mod papers;
mod table;

use crate::digest::fleet::FleetRow;
use crate::digest::headline::Headline;
use crate::digest::shopping::{Good, Purchase, Shopping};
use crate::digest::{Digest, Kind};
use crate::message::setting::Currency;
use crate::water::condition::Condition;

use super::Words;
use super::caution::{Caution, Occasion, cautions};
use super::figures::{self, spoken};

/// A fleet as small as this is told rig by rig at once.
const FEW_RIGS: usize = 3;

/// The digest: headline, what to do, the fleet in a line, the bill.
pub fn first(words: Words, digest: &Digest, currency: Option<Currency>) -> String {
    let headline = headline::of(words, digest);
    let mut blocks = vec![format!("{headline}\n{}", week(words, digest))];
    blocks.extend(to_do(words, digest, currency));
    let mut last = Vec::new();
    last.extend(fleet(words, digest));
    last.extend(to_buy(words, &digest.shopping, currency));
    last.extend(caution(words, digest));
    if !last.is_empty() {
        blocks.push(last.join("\n"));
    }
    blocks.join("\n\n")
}

/// The label of the button that shows [`more::text`].
pub fn more_label(words: Words) -> String {
    words.plain("digest-more")
}

fn to_do(words: Words, digest: &Digest, currency: Option<Currency>) -> Option<String> {
    if digest.actions.is_empty() {
        return None;
    }
    let actions = actions::numbered(words, &digest.actions, 1, digest.today, currency);
    // Without new readings these rest on old ones, and that is said.
    Some(match digest.headline {
        Headline::NoReadings { .. } => format!("{}\n{actions}", words.plain("digest-still")),
        _ => actions,
    })
}

fn week(words: Words, digest: &Digest) -> String {
    let rigs = words.say("digest-rigs", [("count", (digest.fleet.len() as i64).into())]);
    let readings = words.say("digest-readings", [("count", i64::from(digest.readings).into())]);
    let (from, to) = (
        spoken::short_date(words, digest.from),
        spoken::short_date(words, digest.to),
    );
    words.say(
        "digest-week",
        [
            ("outfit", (&digest.outfit).into()),
            ("from", (&from).into()),
            ("to", (&to).into()),
            ("rigs", (&rigs).into()),
            ("readings", (&readings).into()),
        ],
    )
}

fn fleet(words: Words, digest: &Digest) -> Option<String> {
    match digest.fleet.len() {
        0 => None,
        1..=FEW_RIGS => {
            let rows = digest.fleet.iter().map(|row| table::row(words, row, digest.today));
            Some(rows.collect::<Vec<_>>().join("\n"))
        }
        _ => Some(words.say("digest-fleet", [("states", (&states(words, &digest.fleet)).into())])),
    }
}

/// How many rigs are in which state, best first, so that what is well comes
/// before what is listed above anyway.
fn states(words: Words, fleet: &[FleetRow]) -> String {
    let count = |condition| fleet.iter().filter(|row| row.condition == condition).count() as i64;
    [
        (Some(Condition::Good), "digest-count-good"),
        (Some(Condition::Fading), "digest-count-fading"),
        (Some(Condition::Due), "digest-count-due"),
        (Some(Condition::Spent), "digest-count-spent"),
        (Some(Condition::Fault), "digest-count-fault"),
        (Some(Condition::Unproven), "digest-count-unproven"),
        (None, "digest-count-di"),
    ]
    .into_iter()
    .map(|(condition, key)| (count(condition), key))
    .filter(|(count, _)| *count > 0)
    .map(|(count, key)| words.say(key, [("count", count.into())]))
    .collect::<Vec<_>>()
    .join(", ")
}

fn to_buy(words: Words, shopping: &Shopping, currency: Option<Currency>) -> Option<String> {
    if shopping.purchases.is_empty() {
        return None;
    }
    let goods: Vec<String> = shopping
        .purchases
        .iter()
        .map(|purchase| good(words, purchase))
        .collect();
    let goods = goods.join(", ");
    Some(match shopping.total() {
        Some(total) => {
            let key = if shopping.total_is_partial() {
                "digest-buy-partial"
            } else {
                "digest-buy-sum"
            };
            let total = figures::sum(words, total, currency);
            words.say(key, [("goods", (&goods).into()), ("sum", (&total).into())])
        }
        None => words.say("digest-buy", [("goods", (&goods).into())]),
    })
}

/// "12 L of resin".
fn good(words: Words, purchase: &Purchase) -> String {
    let quantity = figures::plain_number(words, purchase.quantity);
    let count = ("count", (purchase.quantity.round() as i64).into());
    match purchase.good {
        Good::Resin => words.say("digest-good-resin", [("quantity", (&quantity).into())]),
        Good::Prefilters => words.say("digest-good-prefilters", [count]),
        Good::Membrane => words.say("digest-good-membrane", [count]),
    }
}

/// The usual caution, where something asked for means opening a housing.
fn caution(words: Words, digest: &Digest) -> Option<String> {
    let opens = |kind: Kind| cautions(Occasion::Advised(kind)).contains(&Caution::Pressure);
    let any = digest.actions.iter().any(|action| opens(action.kind));
    any.then(|| words.plain("digest-caution-pressure"))
}
