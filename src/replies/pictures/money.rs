//! The words on what waiting costs.

use jiff::civil::Date;

use crate::chart::Sheet;
use crate::chart::axis::{days_between, months_later};
use crate::chart::mark::Mark;
use crate::chart::renewal_cost::{self, Bar, RenewalCost};
use crate::replies::Words;
use crate::replies::figures;
use crate::water::condition::Condition;

use super::{about, dated, month, named, whole_percent};

/// Cost a year if the membrane is renewed on a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cost {
    /// The day.
    pub on: Date,
    /// What membrane and resin cost.
    pub whole: f64,
    /// What the membrane costs of it.
    pub membrane: f64,
}

/// The rule of thumb.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// Its line, a fraction.
    pub line: f64,
    /// When it is crossed.
    pub on: Date,
    /// How much dearer that is.
    pub dearer: f64,
}

/// What the picture is made of. Money is in the outfit's currency.
pub struct Facts<'a> {
    /// The rig's name.
    pub rig: &'a str,
    /// The state of its membrane.
    pub condition: Condition,
    /// Seen from.
    pub today: Date,
    /// Costs by the day of renewal, from today on.
    pub curve: Vec<Cost>,
    /// When it is cheapest: today where it pays for itself now.
    pub best: Date,
    /// From when to when it hardly matters.
    pub flat: (Date, Date),
    /// What waiting costs for the next month; negative while it saves.
    pub waiting_per_month: f64,
    /// The rule of thumb.
    pub rule: Option<Rule>,
    /// An amount of money as the outfit writes it, in whole units.
    pub money: &'a dyn Fn(f64) -> String,
}

/// Bars of a picture.
const BARS: i64 = 6;
/// Days of a month, on average.
const MONTH_DAYS: f64 = 365.25 / 12.0;

/// The picture of what waiting costs.
#[must_use]
pub fn sheet(words: Words, facts: &Facts<'_>) -> Sheet {
    let step = months_apart(facts);
    let last = facts.curve.last().map_or(facts.today, |cost| cost.on);
    let days = (0..BARS).map(|nth| months_later(facts.today, nth * step));
    let costs: Vec<(Date, Cost)> = days
        .filter(|&day| day <= last)
        .filter_map(|day| Some((day, cost_on(facts, day)?)))
        .collect();
    let first = costs.first().map_or(0.0, |(_, cost)| cost.whole);
    #[allow(clippy::cast_precision_loss)]
    let place = |day: Date| f64::from(days_between(facts.today, day)) / (MONTH_DAYS * step as f64);
    let bars = costs.iter().enumerate().map(|(nth, &(day, cost))| Bar {
        month: match nth.checked_sub(1).and_then(|before| costs.get(before)) {
            Some((before, _)) => month(words, day, *before),
            None => words.plain("picture-now"),
        },
        resin: (cost.whole - cost.membrane).max(0.0),
        membrane: cost.membrane,
        figure: if nth == 0 {
            (facts.money)(about(first))
        } else {
            dearer(words, cost.whole - first)
        },
        // A bar stands for its month.
        is_flat: days_between(facts.flat.0, day) >= -15 && day <= facts.flat.1,
    });
    let rig = facts.rig;
    renewal_cost::draw(&RenewalCost {
        headline: if facts.best <= facts.today {
            named(words, "picture-pays-now", rig)
        } else {
            dated(words, "picture-renew-by", rig, facts.best, facts.today)
        },
        subline: waiting(words, facts),
        mark: Mark::Membrane(facts.condition),
        bars: bars.collect(),
        rule: facts.rule.map(|rule| {
            let percent = whole_percent(words, rule.line);
            let money = (facts.money)(about(rule.dearer.max(0.0)));
            let values = [("percent", (&percent).into()), ("money", (&money).into())];
            (place(rule.on), words.say("picture-rule", values))
        }),
        axis: words.plain("picture-cost-axis"),
        membrane: words.plain("picture-membrane"),
        resin: words.plain("picture-resin"),
        flat: words.plain("picture-flat"),
    })
}

/// So many months from bar to bar that the cheapest time and the rule of thumb are shown.
fn months_apart(facts: &Facts<'_>) -> i64 {
    let rule = facts.rule.map_or(facts.best, |rule| rule.on);
    let shown = f64::from(days_between(facts.today, rule.max(facts.best))) / MONTH_DAYS;
    #[allow(clippy::cast_precision_loss)]
    let reaches = |step: &i64| (step * (BARS - 1)) as f64 >= shown;
    [2, 3, 4, 6].into_iter().find(reaches).unwrap_or(6)
}

fn cost_on(facts: &Facts<'_>, day: Date) -> Option<Cost> {
    facts
        .curve
        .iter()
        .copied()
        .min_by_key(|cost| days_between(cost.on, day).abs())
}

/// How much dearer than the first: `+75`, `−40`, `+0`.
fn dearer(words: Words, amount: f64) -> String {
    let amount = about(amount);
    let sign = if amount < -0.5 { '\u{2212}' } else { '+' };
    format!("{sign}{}", figures::plain_number(words, amount.abs().round()))
}

fn waiting(words: Words, facts: &Facts<'_>) -> String {
    let money = (facts.money)(about(facts.waiting_per_month.abs()));
    if money == (facts.money)(0.0) {
        return words.plain("picture-waiting-nothing");
    }
    let key = if facts.waiting_per_month > 0.0 {
        "picture-waiting-costs"
    } else {
        "picture-waiting-saves"
    };
    words.say(key, [("money", (&money).into())])
}
