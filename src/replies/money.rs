//! When a new membrane pays, in words; and what another price would change.

use jiff::civil::Date;

use crate::message::setting::{Amount, Currency};

use super::Words;
use super::figures::{self, spoken};

/// When it is cheapest to renew, in local dates.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Best {
    /// Now.
    Now,
    /// In this range.
    Within {
        /// Not before this.
        early: Date,
        /// As likely before as after.
        likely: Date,
        /// Hardly after this; none beyond what is looked at.
        late: Option<Date>,
    },
    /// Not within five years.
    NotInSight,
    /// Too few readings or days.
    NotYetKnown,
}

/// The money's verdict on one membrane; sums in the currency's main unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// When it is cheapest to renew.
    pub best: Best,
    /// What waiting costs a month; below zero while it saves.
    pub waiting_per_month: f64,
    /// The whole resin bill of a year.
    pub running_per_year: f64,
    /// Membrane and resin a year, if renewed in time.
    pub mean_per_year: f64,
    /// The rule of thumb: its line, a fraction, its date, how much dearer.
    pub rule: Option<(f64, Date, f64)>,
    /// The cheapest date with resin a fifth dearer, and a fifth cheaper.
    pub resin_moves: Option<(Date, Date)>,
    /// Resin per litre and one membrane, as set.
    pub prices: (Amount, Amount),
    /// Whether a fault stands.
    pub fault: bool,
    /// Whether what is to be done says when already.
    pub is_asked: bool,
}

/// Less a month than this is not worth a word.
const WORTH_TELLING: f64 = 0.5;
/// A date this near is "now".
const NOW_DAYS: i32 = 15;

/// The verdict: what to do, why, and what would change it.
pub fn verdict(words: Words, verdict: &Verdict, currency: Option<Currency>, today: Date) -> Vec<String> {
    let sum = |main: f64| spoken::about(words, main, currency);
    let mut lines = Vec::new();
    if verdict.fault {
        lines.push(words.plain("money-fault-first"));
    }
    if !verdict.is_asked {
        lines.push(when(words, verdict, today));
    }
    if verdict.best == Best::NotYetKnown {
        return lines;
    }
    if verdict.waiting_per_month < -WORTH_TELLING && matches!(verdict.best, Best::Within { .. }) {
        let saved = sum(-verdict.waiting_per_month);
        lines.push(words.say("money-waiting-saves", [("saved", (&saved).into())]));
    }
    lines.push(words.say(
        "money-running",
        [
            ("running", (&sum(verdict.running_per_year)).into()),
            ("mean", (&sum(verdict.mean_per_year)).into()),
        ],
    ));
    if let Some((line, on, extra)) = verdict.rule {
        let key = if extra < 1.0 { "money-rule-same" } else { "money-rule" };
        lines.push(words.say(
            key,
            [
                ("line", (&figures::plain_number(words, line * 100.0)).into()),
                ("date", (&in_month_or_now(words, on, today)).into()),
                ("extra", (&sum(extra)).into()),
            ],
        ));
    }
    if let Some((dearer, cheaper)) = verdict.resin_moves {
        let (dearer, cheaper) = (month_or_now(words, dearer, today), month_or_now(words, cheaper, today));
        if dearer != cheaper {
            lines.push(words.say(
                "money-if",
                [("dearer", (&dearer).into()), ("cheaper", (&cheaper).into())],
            ));
        }
    }
    let (resin, membrane) = verdict.prices;
    lines.push(words.say(
        "money-prices",
        [
            ("resin", (&figures::money(words, resin, currency)).into()),
            ("membrane", (&figures::money(words, membrane, currency)).into()),
        ],
    ));
    lines
}

fn when(words: Words, verdict: &Verdict, today: Date) -> String {
    match verdict.best {
        Best::Now => words.plain("money-now"),
        Best::NotInSight => words.plain("money-far"),
        Best::NotYetKnown => words.plain("money-unknown"),
        Best::Within { early, likely, late } => {
            let month = |date| month_or_now(words, date, today);
            let (from, about) = (month(early), month(likely));
            match late.map(month) {
                Some(late) if is_now(early, today) => words.say("money-soon", [("late", (&late).into())]),
                Some(late) => words.say(
                    "money-between",
                    [
                        ("likely", (&about).into()),
                        ("early", (&from).into()),
                        ("late", (&late).into()),
                    ],
                ),
                None if is_now(early, today) => words.say("money-about", [("likely", (&about).into())]),
                None => words.say("money-from", [("likely", (&about).into()), ("early", (&from).into())]),
            }
        }
    }
}

fn is_now(date: Date, today: Date) -> bool {
    (date - today).get_days() <= NOW_DAYS
}

fn month_or_now(words: Words, date: Date, today: Date) -> String {
    if is_now(date, today) {
        return words.plain("date-now");
    }
    figures::month(words, date)
}

fn in_month_or_now(words: Words, date: Date, today: Date) -> String {
    let month = month_or_now(words, date, today);
    if is_now(date, today) {
        return month;
    }
    words.say("date-in-month", [("month", (&month).into())])
}

/// One rig under another price.
#[derive(Clone, Debug, PartialEq)]
pub struct Supposed {
    /// Its name.
    pub rig: String,
    /// When it would be cheapest to renew; none if that cannot be judged.
    pub then: Option<Best>,
    /// When it is, as things are.
    pub now: Option<Best>,
}

/// Which price was supposed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Resin, per litre.
    Resin,
    /// One membrane.
    Membrane,
}

/// What another price would change.
pub fn supposed(
    words: Words,
    (part, price): (Part, Amount),
    rigs: &[Supposed],
    currency: Option<Currency>,
    today: Date,
) -> String {
    let price = figures::money(words, price, currency);
    let title = match part {
        Part::Resin => words.say("what-if-resin", [("price", (&price).into())]),
        Part::Membrane => words.say("what-if-membrane", [("price", (&price).into())]),
    };
    let mut lines = vec![title];
    lines.extend(rigs.iter().map(|one| {
        let (then, now) = (phrase(words, one.then, today), phrase(words, one.now, today));
        let key = match one.now {
            None => "what-if-unpriced",
            Some(_) if then == now => "what-if-same",
            Some(_) => "what-if-line",
        };
        words.say(
            key,
            [
                ("rig", (&one.rig).into()),
                ("then", (&then).into()),
                ("now", (&now).into()),
            ],
        )
    }));
    lines.push(words.plain("what-if-nothing"));
    lines.join("\n")
}

fn phrase(words: Words, best: Option<Best>, today: Date) -> String {
    match best {
        None => words.plain("then-missing"),
        Some(Best::Now) => words.plain("then-now"),
        Some(Best::NotInSight) => words.plain("then-far"),
        Some(Best::NotYetKnown) => words.plain("then-unknown"),
        Some(Best::Within { likely, .. }) => {
            let date = month_or_now(words, likely, today);
            words.say("then-about", [("date", (&date).into())])
        }
    }
}
