//! The year ahead in words.

use jiff::civil::Date;

use crate::message::setting::Currency;
use crate::water::year_ahead::Amount;

use super::buying::{Uncounted, uncounted};
use super::pictures::about;
use super::{Words, figures, listed};

/// What is bought in a month: rigs, and how often.
#[derive(Clone, Debug, PartialEq)]
pub struct Month {
    /// Its first day.
    pub first: Date,
    /// Beds of resin.
    pub resin: Vec<(String, usize)>,
    /// Membranes.
    pub membranes: Vec<(String, usize)>,
    /// Sets of prefilters.
    pub prefilters: Vec<(String, usize)>,
    /// What it costs, main units; none without prices.
    pub cost: Option<Amount>,
}

/// The year ahead.
#[derive(Clone, Debug, PartialEq)]
pub struct Year {
    /// What it costs, main units; none without prices.
    pub cost: Option<Amount>,
    /// How a price is told that is missing.
    pub price_example: Option<String>,
    /// Its months.
    pub months: Vec<Month>,
    /// Membranes: the rig, and when at the earliest and likely.
    pub membranes: Vec<(String, Date, Date)>,
    /// Rigs that cannot be counted.
    pub uncounted: Vec<Uncounted>,
}

/// The year by month, with what it may cost.
pub fn year(words: Words, year: &Year, currency: Option<Currency>) -> String {
    let money = |main: f64| figures::sum(words, about(main), currency);
    let mut lines: Vec<String> = year
        .months
        .iter()
        .filter_map(|month| line(words, month, &money))
        .collect();
    if lines.is_empty() {
        lines.push(words.plain("year-none"));
    }
    lines.insert(0, title(words, year, &money));
    if year.cost.is_some() {
        lines.push(words.plain("year-sums"));
    }
    lines.extend(year.membranes.iter().filter_map(|(rig, early, likely)| {
        let [early, likely] = [early, likely].map(|day| figures::month(words, *day));
        let facts = [
            ("rig", rig.into()),
            ("early", (&early).into()),
            ("likely", (&likely).into()),
        ];
        (early != likely).then(|| words.say("year-membrane", facts))
    }));
    lines.extend(year.uncounted.iter().map(|one| uncounted(words, one)));
    lines.join("\n")
}

fn title(words: Words, year: &Year, money: &dyn Fn(f64) -> String) -> String {
    let Some(cost) = year.cost else {
        let example = year.price_example.clone().unwrap_or_default();
        return match example.as_str() {
            "" => words.plain("year-title"),
            example => words.say("year-title-unpriced", [("example", example.into())]),
        };
    };
    let [low, likely, high] = [cost.low, cost.likely, cost.high].map(money);
    words.say(
        "year-title-priced",
        [
            ("low", (&low).into()),
            ("likely", (&likely).into()),
            ("high", (&high).into()),
        ],
    )
}

/// A month in which something falls due; none for another.
fn line(words: Words, month: &Month, money: &dyn Fn(f64) -> String) -> Option<String> {
    let lots = [
        ("year-resin", &month.resin),
        ("year-membranes", &month.membranes),
        ("year-prefilters", &month.prefilters),
    ];
    let what: Vec<String> = lots
        .iter()
        .filter(|(_, rigs)| !rigs.is_empty())
        .map(|(key, rigs)| words.say(key, [("rigs", (&named(words, rigs)).into())]))
        .collect();
    let (name, what) = (figures::month(words, month.first), what.join("; "));
    let facts = [("month", (&name).into()), ("what", (&what).into())];
    if what.is_empty() {
        return None;
    }
    Some(match month.cost {
        Some(cost) => {
            let [month, what] = facts;
            words.say(
                "year-month-priced",
                [month, what, ("sum", (&money(cost.likely)).into())],
            )
        }
        None => words.say("year-month", facts),
    })
}

/// `Heron and Otter (2)`.
pub fn named(words: Words, rigs: &[(String, usize)]) -> String {
    let told = |(rig, count): &(String, usize)| match count {
        1 => rig.clone(),
        count => format!("{rig} ({count})"),
    };
    let told: Vec<String> = rigs.iter().map(told).collect();
    let told: Vec<&str> = told.iter().map(String::as_str).collect();
    listed(words, &told)
}
