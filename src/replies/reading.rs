//! The answer to a reading or a service.

use jiff::civil::Date;

use crate::domain::ServiceKind as What;
use crate::message::setting::{Amount, Currency, Degrees, PressureUnit};
use crate::water::condition::Condition;
use crate::water::verdict::Told;

use super::Words;
use super::figures;

/// What was read on a rig.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// Tap.
    pub feed_ppm: f64,
    /// RO outlet; none on a rig without a membrane.
    pub permeate_ppm: Option<f64>,
    /// DI outlet.
    pub product_ppm: Option<f64>,
    /// Water temperature, in the unit in which it is told.
    pub temperature: Option<(f64, Degrees)>,
    /// Pressure, in the unit in which it is told.
    pub pressure: Option<(f64, PressureUnit)>,
}

/// What is to be done first on a rig, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deed {
    /// What.
    pub what: String,
    /// Why, by when, and what it saves; may be empty.
    pub why: String,
}

impl Deed {
    /// As a sentence.
    pub fn sentence(&self, words: Words) -> String {
        let what = figures::capital(&self.what);
        match self.why.as_str() {
            // A question, and what may be typed to answer it.
            why if what.ends_with('?') => format!("{what} {}", figures::capital(why)),
            "" => words.say("deed-alone", [("what", (&what).into())]),
            why => words.say("deed", [("what", (&what).into()), ("why", why.into())]),
        }
    }
}

/// All that the answer to one reading tells.
#[derive(Clone, Debug, PartialEq)]
pub struct Facts<'a> {
    /// The rig's name.
    pub rig: &'a str,
    /// What was read.
    pub figures: Figures,
    /// Rejection and the word beside it, on a rig with a membrane.
    pub membrane: Option<(f64, Told)>,
    /// Change of the rejection since the reading before, and that one's day.
    pub change: Option<(f64, Date)>,
    /// The day for which it counts, when that is not today.
    pub taken_on: Option<Date>,
    /// The day on which nobody flushed although somebody was asked, before the
    /// first reading since.
    pub missed_flush: Option<Date>,
    /// What is to be done, and what is asked.
    pub deeds: Vec<Deed>,
    /// Readings before anything can be told of the membrane.
    pub readings_to_go: i64,
    /// A word on the resin, ready.
    pub resin: Option<String>,
    /// Whether the bed lets water slip past although it is hardly used.
    pub slips: bool,
    /// Whether resin follows the membrane.
    pub has_bed: bool,
    /// From which dissolved solids on the glass spots, ppm.
    pub spots_ppm: f64,
    /// Whether to remind of the flush.
    pub flush: bool,
    /// The local date.
    pub today: Date,
}

/// The answer to one reading: verdict, figures, what to do.
pub fn answer(words: Words, facts: &Facts<'_>) -> String {
    let mut lines = vec![verdict(words, facts)];
    // It has to be done before the work, so it stands where it is seen.
    if let Some(day) = facts.missed_flush {
        let day = figures::day(words, day, facts.today);
        lines.push(words.say("missed-flush", [("day", (&day).into())]));
    }
    lines.push(joined(
        [
            Some(echo(words, facts.figures)),
            facts.membrane.filter(|_| will_spot(facts)).map(|(rejection, state)| {
                let percent = figures::percent(words, rejection);
                words.say(
                    "rejection-part",
                    [
                        ("percent", (&percent).into()),
                        ("state", (&told_word(words, state)).into()),
                    ],
                )
            }),
            facts
                .change
                .map(|change| change_since(words, change, facts.figures.feed_ppm, facts.today)),
            facts.taken_on.map(|day| {
                let day = figures::day(words, day, facts.today);
                words.say("taken-on", [("day", (&day).into())])
            }),
        ]
        .into_iter(),
    ));
    lines.extend(facts.deeds.iter().map(|deed| deed.sentence(words)));
    lines.extend(
        (facts.readings_to_go > 0).then(|| words.say("readings-to-go", [("count", facts.readings_to_go.into())])),
    );
    // Behind a membrane without resin the RO water is what the glass gets.
    let on_glass = facts
        .figures
        .permeate_ppm
        .filter(|_| !facts.has_bed && !will_spot(facts));
    if let Some(ppm) = on_glass.filter(|ppm| *ppm >= facts.spots_ppm) {
        let ppm = figures::ppm(words, ppm);
        lines.push(words.say("advice-no-resin-spots", [("ppm", (&ppm).into())]));
    }
    let flush = facts.flush.then(|| words.plain("flush-reminder"));
    let resin = facts.resin.clone().filter(|_| !will_spot(facts));
    let last: Vec<String> = resin.into_iter().chain(flush).collect();
    if !last.is_empty() {
        lines.push(last.join(" "));
    }
    lines.join("\n")
}

/// One of several readings in one message, on a line of its own.
pub fn short_answer(words: Words, facts: &Facts<'_>) -> String {
    let Some((rejection, state)) = facts.membrane.filter(|_| !will_spot(facts)) else {
        return joined(
            [verdict(words, facts), echo(words, facts.figures)]
                .into_iter()
                .map(Some),
        );
    };
    let percent = figures::percent(words, rejection);
    words.say(
        "reading-verdict-short",
        [
            ("rig", facts.rig.into()),
            ("percent", (&percent).into()),
            ("state", (&told_word(words, state)).into()),
            ("echo", (&echo(words, facts.figures)).into()),
        ],
    )
}

fn verdict(words: Words, facts: &Facts<'_>) -> String {
    let rig = ("rig", facts.rig.into());
    let product = facts
        .figures
        .product_ppm
        .map(|ppm| figures::ppm(words, ppm))
        .unwrap_or_default();
    if will_spot(facts) {
        let key = match (facts.has_bed, facts.slips) {
            (false, _) => "reading-will-spot-no-resin",
            (true, true) => "reading-will-spot-slips",
            (true, false) => "reading-will-spot",
        };
        return words.say(key, [rig, ("ppm", (&product).into())]);
    }
    match facts.membrane {
        Some((rejection, state)) => {
            let percent = figures::percent(words, rejection);
            words.say(
                "reading-verdict",
                [
                    rig,
                    ("percent", (&percent).into()),
                    ("state", (&told_word(words, state)).into()),
                ],
            )
        }
        None if facts.figures.permeate_ppm.is_some() => words.say("reading-no-rejection", [rig]),
        None => words.say("reading-verdict-di", [rig, ("ppm", (&product).into())]),
    }
}

/// The word beside a reading's rejection.
pub fn told_word(words: Words, told: Told) -> String {
    match told {
        Told::State(state) => state_word(words, state),
        Told::Doubtful => words.plain("state-doubtful"),
        Told::Back => words.plain("state-back"),
    }
}

fn will_spot(facts: &Facts<'_>) -> bool {
    let product = facts.figures.product_ppm;
    product.is_some_and(|ppm| ppm >= facts.spots_ppm)
}

fn joined(parts: impl Iterator<Item = Option<String>>) -> String {
    parts.flatten().collect::<Vec<_>>().join(", ")
}

/// What was understood, with labels.
pub fn echo(words: Words, read: Figures) -> String {
    let temperature = read.temperature.map(|told| figures::temperature(words, told));
    let pressure = read.pressure.map(|told| figures::pressure(words, told));
    joined([Some(solids(words, read)), temperature, pressure].into_iter())
}

fn solids(words: Words, read: Figures) -> String {
    let feed = figures::ppm(words, read.feed_ppm);
    let product = read.product_ppm.map(|ppm| figures::ppm(words, ppm)).unwrap_or_default();
    let Some(permeate) = read.permeate_ppm.map(|ppm| figures::ppm(words, ppm)) else {
        return words.say("echo-di", [("feed", (&feed).into()), ("product", (&product).into())]);
    };
    let key = if read.product_ppm.is_some() {
        "echo-membrane-glass"
    } else {
        "echo-membrane"
    };
    words.say(
        key,
        [
            ("feed", (&feed).into()),
            ("permeate", (&permeate).into()),
            ("product", (&product).into()),
        ],
    )
}

fn change_since(words: Words, (change, since): (f64, Date), feed_ppm: f64, today: Date) -> String {
    let day = if since == today {
        words.plain("earlier-today")
    } else {
        figures::day(words, since, today)
    };
    if figures::is_steady(change, feed_ppm) {
        return words.say("change-none", [("day", (&day).into())]);
    }
    let key = if change > 0.0 { "change-up" } else { "change-down" };
    let points = figures::points(words, change);
    words.say(key, [("points", (&points).into()), ("day", (&day).into())])
}

/// The state's word.
pub fn state_word(words: Words, state: Condition) -> String {
    words.plain(match state {
        Condition::Good => "state-good",
        Condition::Fading => "state-fading",
        Condition::Due => "state-due",
        Condition::Spent => "state-spent",
        Condition::Unproven => "state-unproven",
        Condition::Fault => "state-fault",
    })
}

/// What was done, in words.
pub fn service_word(words: Words, what: What) -> String {
    let label = words.plain(match what {
        What::Resin => "service-resin",
        What::Repack => "service-repack",
        What::Membrane => "service-membrane",
        What::Prefilter => "service-prefilter",
        What::Flush => "service-flush",
        What::ORing => "service-oring",
        What::SameMembrane => "label-same-membrane",
        What::Preserved => "preserved-withdrawn",
        What::Meter => "service-meter",
    });
    if what == What::SameMembrane {
        label.to_lowercase()
    } else {
        label
    }
}

/// Said when a price belongs to no one service, or is in another currency.
pub fn price_left_out(words: Words, rig: &str, currency: Option<Currency>) -> String {
    let price = Amount::of_main(140.0).unwrap_or_default();
    let price = figures::money(words, price, currency);
    let example = words.say("example-priced", [("rig", rig.into()), ("price", (&price).into())]);
    words.say("service-price-left-out", [("example", (&example).into())])
}

/// The answer to a service: what was done, the day if that is not today, and the price that was kept.
pub fn service(words: Words, rig: &str, what: What, done_on: Option<&str>, price: Option<&str>) -> String {
    let mut told = service_word(words, what);
    if let Some(day) = done_on {
        told = words.say("service-what-on", [("what", (&told).into()), ("day", day.into())]);
    }
    if let Some(price) = price {
        told = words.say("service-what-paid", [("what", (&told).into()), ("price", price.into())]);
    }
    words.say("service-noted", [("rig", rig.into()), ("what", (&told).into())])
}
