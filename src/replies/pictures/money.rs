//! The words on the money over time.

use jiff::civil::Date;

use crate::chart::axis::ticks;
use crate::chart::renewal_cost::{Marked, RenewalCost, Words as Labels};
use crate::replies::Words;
use crate::replies::figures;

use super::months;

/// What the picture is made of. Money is in the outfit's currency.
pub struct Facts<'a> {
    /// The rig's name.
    pub rig: &'a str,
    /// Seen from.
    pub today: Date,
    /// Cost a year if renewed on a day, from today on.
    pub curve: Vec<(Date, f64)>,
    /// When it is cheapest: today where it pays for itself now.
    pub best: Date,
    /// From when to when it hardly matters.
    pub flat: (Date, Date),
    /// What waiting costs for the next month; negative while it saves.
    pub waiting_per_month: f64,
    /// The rule of thumb: the line, when it is crossed, how much dearer that is.
    pub rule: Option<(f64, Date, f64)>,
    /// An amount of money as the outfit writes it, in whole units.
    pub money: &'a dyn Fn(f64) -> String,
}

/// The picture of the money over time.
#[must_use]
pub fn picture(words: Words, facts: &Facts<'_>) -> RenewalCost {
    let rig = || ("rig", facts.rig.into());
    let pays_now = facts.best <= facts.today;
    let when = figures::rough(words, facts.best, facts.today);
    let least = facts
        .curve
        .iter()
        .min_by_key(|(day, _)| facts.best.since(*day).map_or(i32::MAX, |span| span.get_days().abs()));
    let per_year = least.map(|&(_, cost)| about(facts, cost)).unwrap_or_default();
    let costs = facts.curve.iter().map(|&(_, cost)| cost);
    let (low, high) = costs.fold((f64::INFINITY, 0.0_f64), |(low, high), cost| {
        (low.min(cost), high.max(cost))
    });
    let low = if low.is_finite() { low } else { 0.0 };
    RenewalCost {
        headline: if pays_now {
            words.say("picture-pays-now", [rig()])
        } else {
            words.say("picture-renew-by", [rig(), ("date", (&when).into())])
        },
        subline: waiting(words, facts),
        today: facts.today,
        // At least a fifth of the cost is shown, or a flat curve would look steep.
        costs: ticks(0.93 * low, high.max(1.2 * low), 6, facts.money),
        curve: facts.curve.clone(),
        cheapest: Marked {
            on: facts.best.max(facts.today),
            words: if pays_now {
                words.say("picture-cheapest-now", [("money", (&per_year).into())])
            } else {
                words.say(
                    "picture-cheapest",
                    [("date", (&when).into()), ("money", (&per_year).into())],
                )
            },
        },
        flat: facts.flat,
        rule: facts.rule.map(|(line, on, dearer)| Marked {
            on,
            words: words.say(
                "picture-rule",
                [
                    ("percent", (&figures::whole_percent(line)).into()),
                    ("date", (&figures::rough(words, on, facts.today)).into()),
                    ("money", (&about(facts, dearer)).into()),
                ],
            ),
        }),
        months: months(words),
        words: Labels {
            today: words.plain("today"),
            axis: words.plain("picture-cost-axis"),
            flat: words.plain("picture-flat"),
        },
    }
}

/// An amount that is not known better than to two figures.
fn about(facts: &Facts<'_>, amount: f64) -> String {
    let power = 10_f64.powf(amount.abs().max(1.0).log10().floor() - 1.0).max(1.0);
    (facts.money)((amount / power).round() * power)
}

fn waiting(words: Words, facts: &Facts<'_>) -> String {
    let money = about(facts, facts.waiting_per_month.abs());
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
