//! What to buy, and what was bought, in words.

use jiff::civil::Date;

use crate::digest::week::Lack;
use crate::message::setting::{Currency, VolumeUnit};

use super::Words;
use super::figures::{self, spoken};
use super::listed;

/// Something to buy for some rigs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lot {
    /// For which rigs, how much for each.
    pub rigs: Vec<(String, f64)>,
    /// What it costs, of those whose price is known; main units.
    pub cost: f64,
    /// How many have no price.
    pub unpriced: usize,
}

/// What to buy for the next two weeks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct List {
    /// Litres of resin.
    pub resin: Lot,
    /// Sets of prefilters.
    pub prefilters: Lot,
    /// Membranes that pay.
    pub membranes: Lot,
    /// Rigs whose resin cannot be counted.
    pub uncounted: Vec<Uncounted>,
    /// Rigs below the due line, without prices.
    pub to_weigh: Vec<String>,
    /// Rigs below the due line, with too few readings to judge the money.
    pub to_weigh_later: Vec<String>,
    /// Rigs without resin whose glass or line may want a new membrane.
    pub glass_decides: Vec<String>,
    /// Rigs whose membrane was put off, and until when.
    pub put_off: Vec<(String, Date)>,
    /// Rigs with a fault that stands.
    pub faulty: Vec<String>,
}

/// Rigs whose resin cannot be counted for the same reason.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Uncounted {
    /// Their names.
    pub rigs: Vec<String>,
    /// What is missing.
    pub lacks: Vec<Lack>,
    /// What could be typed to tell the first of it.
    pub example: String,
}

/// How the list is worded.
pub struct Wording {
    /// The currency of the sums.
    pub currency: Option<Currency>,
    /// The unit of volumes.
    pub volume: VolumeUnit,
    /// The local date.
    pub today: Date,
}

/// The shopping list: a line a good, with its sum and the sum of all.
pub fn list(words: Words, list: &List, how: &Wording) -> String {
    let mut lines = Vec::new();
    let lots = [&list.resin, &list.prefilters, &list.membranes];
    lines.extend(resin(words, &list.resin, how));
    lines.extend(lot(
        words,
        &list.prefilters,
        ["buy-prefilters", "buy-prefilters-priced"],
        how,
    ));
    lines.extend(lot(
        words,
        &list.membranes,
        ["buy-membranes", "buy-membranes-priced"],
        how,
    ));
    if lines.is_empty() {
        lines.push(words.plain("buy-none"));
    } else {
        lines.insert(0, words.plain("buy-title"));
    }
    let total: f64 = lots.iter().map(|lot| lot.cost).sum();
    let unpriced = lots.iter().any(|lot| lot.unpriced > 0);
    let bought = lots.iter().filter(|lot| lot.cost > 0.0).count();
    if total > 0.0 && (bought > 1 || unpriced) {
        let key = if unpriced { "buy-total-partly" } else { "buy-total" };
        lines.push(words.say(key, [("sum", (&figures::sum(words, total, how.currency)).into())]));
    }
    for (key, rigs) in [
        ("buy-weigh", &list.to_weigh),
        ("buy-weigh-later", &list.to_weigh_later),
        ("buy-glass", &list.glass_decides),
        ("buy-fault-first", &list.faulty),
    ] {
        if !rigs.is_empty() {
            lines.push(words.say(key, [("rigs", (&rigs.join(", ")).into())]));
        }
    }
    lines.extend(list.put_off.iter().map(|(rig, until)| {
        let day = figures::day(words, *until, how.today);
        words.say("buy-put-off", [("rig", rig.into()), ("day", (&day).into())])
    }));
    lines.extend(list.uncounted.iter().map(|one| uncounted(words, one)));
    lines.join("\n")
}

/// What is missing to count rigs' resin.
pub fn uncounted(words: Words, one: &Uncounted) -> String {
    let missing: Vec<String> = one.lacks.iter().map(|lack| words.plain(lack_key(*lack))).collect();
    let missing: Vec<&str> = missing.iter().map(String::as_str).collect();
    let (rigs, missing) = (one.rigs.join(", "), listed(words, &missing));
    words.say(
        "buy-uncounted",
        [
            ("rigs", (&rigs).into()),
            ("missing", (&missing).into()),
            ("example", (&one.example).into()),
        ],
    )
}

fn lack_key(lack: Lack) -> &'static str {
    match lack {
        Lack::BedSize => "lack-bed-size",
        Lack::Litres => "lack-litres",
        Lack::Change => "lack-change",
        Lack::Reading => "lack-reading",
    }
}

fn resin(words: Words, lot: &Lot, how: &Wording) -> Option<String> {
    let litres: f64 = lot.rigs.iter().map(|(_, litres)| litres).sum();
    if lot.rigs.is_empty() {
        return None;
    }
    let volume = figures::volume(words, litres, how.volume);
    let names: Vec<&str> = lot.rigs.iter().map(|(rig, _)| rig.as_str()).collect();
    let names = names.join(", ");
    let sum = figures::sum(words, lot.cost, how.currency);
    let key = if lot.cost > 0.0 {
        "buy-resin-priced"
    } else {
        "buy-resin"
    };
    Some(words.say(
        key,
        [
            ("volume", (&volume).into()),
            ("rigs", (&names).into()),
            ("sum", (&sum).into()),
        ],
    ))
}

fn lot(words: Words, lot: &Lot, [bare, priced]: [&str; 2], how: &Wording) -> Option<String> {
    if lot.rigs.is_empty() {
        return None;
    }
    let told = |(rig, count): &(String, f64)| {
        if *count > 1.0 {
            format!("{rig} {}", figures::plain_number(words, *count))
        } else {
            rig.clone()
        }
    };
    let names = lot.rigs.iter().map(told).collect::<Vec<_>>().join(", ");
    let sum = figures::sum(words, lot.cost, how.currency);
    let key = if lot.cost > 0.0 { priced } else { bare };
    Some(words.say(key, [("rigs", (&names).into()), ("sum", (&sum).into())]))
}

/// What was logged of one kind, and what it cost; main units.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spent {
    /// How often.
    pub count: i64,
    /// What it cost, of those with a price.
    pub cost: f64,
    /// How many have no price.
    pub unpriced: i64,
}

/// What a rig or the fleet cost between two dates.
pub struct Costs<'a> {
    /// The rig's name; none for all rigs.
    pub rig: Option<&'a str>,
    /// First and last day.
    pub days: (Date, Date),
    /// Changes of resin.
    pub resin: Spent,
    /// New membranes.
    pub membranes: Spent,
    /// Changes of prefilters.
    pub prefilters: Spent,
    /// What could be typed to tell a price.
    pub example: &'a str,
}

/// The answer to "what did otter cost last year?".
pub fn costs(words: Words, costs: &Costs<'_>, currency: Option<Currency>, today: Date) -> String {
    let what = costs.rig.map_or_else(|| words.plain("cost-fleet"), str::to_owned);
    let span = spoken::span(words, costs.days, today, figures::full_day);
    let kinds = [
        ("cost-membrane", costs.membranes),
        ("cost-resin", costs.resin),
        ("cost-prefilter", costs.prefilters),
    ];
    let [what, span] = [("what", (&what).into()), ("span", (&span).into())];
    if kinds.iter().all(|(_, spent)| spent.count == 0) {
        return words.say("cost-none", [what, span]);
    }
    let total: f64 = kinds.iter().map(|(_, spent)| spent.cost).sum();
    let sum = figures::sum(words, total, currency);
    let mut lines = vec![match total > 0.0 {
        true => words.say("cost-title", [what, span, ("sum", (&sum).into())]),
        false => words.say("cost-title-nothing", [what, span]),
    }];
    lines.extend(kinds.iter().filter(|(_, spent)| spent.count > 0).map(|(key, spent)| {
        let sum = match spent.cost > 0.0 {
            true => figures::sum(words, spent.cost, currency),
            false => String::new(),
        };
        let line = words.say(key, [("count", spent.count.into()), ("sum", (&sum).into())]);
        line.trim_end().to_owned()
    }));
    let unpriced: i64 = kinds.iter().map(|(_, spent)| spent.unpriced).sum();
    if unpriced > 0 {
        let facts = [("count", unpriced.into()), ("example", costs.example.into())];
        lines.push(words.say("cost-unpriced", facts));
    }
    lines.push(words.plain("cost-basis"));
    lines.join("\n")
}
