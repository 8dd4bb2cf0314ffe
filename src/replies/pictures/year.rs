//! The words on the year ahead: what will be bought, when, and for how much.

use jiff::civil::Date;

use crate::chart::Sheet;
use crate::chart::axis::months_later;
use crate::chart::year_ahead::{self, Labels, Membrane, Quarter, YearAhead};
use crate::replies::Words;
use crate::replies::figures;

use super::about;

/// A sum with its range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sum {
    /// Hardly less.
    pub low: f64,
    /// As likely less as more.
    pub likely: f64,
    /// Hardly more.
    pub high: f64,
}

/// What the picture is made of. Money is in the outfit's currency.
pub struct Facts<'a> {
    /// The first day of the first month shown.
    pub first: Date,
    /// Membranes to buy, by rig.
    pub membranes: Vec<Membrane>,
    /// Days on which a bed of resin is bought, for all rigs.
    pub resin: Vec<Date>,
    /// How much resin a bed takes, where all take the same, litres.
    pub bed_litres: Option<f64>,
    /// Days on which prefilters are bought.
    pub prefilters: Vec<Date>,
    /// What each quarter costs.
    pub quarters: [Sum; 4],
    /// What the year costs: its range is less than the sum of the quarters' ranges.
    pub year: Sum,
    /// An amount of money as the outfit writes it, in whole units.
    pub money: &'a dyn Fn(f64) -> String,
}

/// The picture of the year ahead.
#[must_use]
pub fn sheet(words: Words, facts: &Facts<'_>) -> Sheet {
    let money = |amount: f64| (facts.money)(about(amount));
    let number = |amount: f64| figures::plain_number(words, about(amount).round());
    let thousands = |amount: f64| figures::plain_number(words, (about(amount) / 100.0).round() / 10.0);
    let range = |sum: Sum| match (number(sum.low), number(sum.high)) {
        // Wider than a quarter's column.
        (low, high) if low.len() + high.len() > 7 => {
            format!("{}\u{2013}{}k", thousands(sum.low), thousands(sum.high))
        }
        (low, high) => format!("{low}\u{2013}{high}"),
    };
    let month = |nth: i64| figures::month_name(words, months_later(facts.first, nth).month());
    let quarter = |nth: usize, sum: Sum| {
        let from = i64::try_from(3 * nth).unwrap_or_default();
        Quarter {
            months: format!("{}\u{2013}{}", month(from), month(from + 2)),
            about: money(sum.likely),
            range: range(sum),
        }
    };
    let [first, second, third, fourth] = facts.quarters;
    let (low, high, soon) = (money(facts.year.low), money(facts.year.high), money(first.likely));
    let last = month(2);
    let values = [
        ("low", (&low).into()),
        ("high", (&high).into()),
        ("soon", (&soon).into()),
        ("month", (&last).into()),
    ];
    let each = facts.bed_litres.map(|litres| {
        let litres = figures::plain_number(words, litres);
        words.say("picture-each", [("litres", (&litres).into())])
    });
    year_ahead::draw(&YearAhead {
        headline: words.say("picture-year", [("money", (&money(facts.year.likely)).into())]),
        subline: words.say("picture-year-range", values),
        first: facts.first,
        membranes: facts.membranes.clone(),
        resin: facts.resin.clone(),
        prefilters: facts.prefilters.clone(),
        quarters: [
            quarter(0, first),
            quarter(1, second),
            quarter(2, third),
            quarter(3, fourth),
        ],
        labels: Labels {
            membrane: words.plain("picture-membrane"),
            resin: words.plain("picture-resin"),
            each: each.unwrap_or_default(),
            prefilters: words.plain("picture-prefilters"),
            about: words.plain("picture-about"),
            range: words.plain("picture-range"),
        },
    })
}
