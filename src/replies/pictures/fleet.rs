//! The words on the fleet sheet, and which rig comes first.

use jiff::civil::Date;

use crate::chart::fleet_sheet::{Fleet, Rest, Row, shown};
use crate::replies::Words;
use crate::replies::figures;
use crate::replies::reading::state_word;
use crate::water::condition::Condition;
use crate::water::resin::SPOTS_FROM_PPM;
use crate::water::settings::Limits;

use super::resin::{Left, short};

/// A rig of the fleet.
#[derive(Clone, Debug, PartialEq)]
pub struct Rig {
    /// Its name.
    pub name: String,
    /// The state; none on a rig without a membrane.
    pub condition: Option<Condition>,
    /// Standardised rejection, a fraction; none while unproven.
    pub level: Option<f64>,
    /// Last product reading, ppm, for a rig without a membrane.
    pub product_ppm: Option<f64>,
    /// How long the resin lasts.
    pub resin: Left,
    /// Whether the digest would ask for something for it.
    pub wants: bool,
    /// Standardised rejection by day, a stretch for each membrane.
    pub trend: Vec<Vec<(Date, f64)>>,
}

/// How urgent a rig is, the least first: glass that will spot, a fault of the membrane or
/// of the bed, then wear.
#[must_use]
pub fn urgency(rig: &Rig) -> u8 {
    match (rig.resin, rig.condition) {
        (Left::Nothing, _) => 0,
        (Left::Loose, _) if rig.product_ppm.is_some_and(|ppm| ppm >= SPOTS_FROM_PPM) => 0,
        (Left::Loose, _) | (_, Some(Condition::Check)) => 1,
        (_, Some(Condition::Spent)) => 2,
        (_, Some(Condition::Due)) => 3,
        _ if rig.wants => 3,
        (_, Some(Condition::Wearing)) => 4,
        (_, Some(Condition::Unproven)) => 5,
        (_, None) => 6,
        (_, Some(Condition::Sound)) => 7,
    }
}

/// The fleet sheet, most urgent rigs first, with trends from `since` to `today`.
#[must_use]
pub fn picture(words: Words, mut rigs: Vec<Rig>, limits: Limits, since: Date, today: Date) -> Fleet {
    let level = |rig: &Rig| rig.level.unwrap_or(1.0);
    rigs.sort_by(|a, b| {
        urgency(a)
            .cmp(&urgency(b))
            .then(level(a).total_cmp(&level(b)))
            .then_with(|| a.name.cmp(&b.name))
    });
    let count = |rigs: usize| i64::try_from(rigs).unwrap_or(i64::MAX);
    let wanting = count(rigs.iter().filter(|rig| rig.wants).count());
    let weeks = i64::from(since.until(today).map_or(0, |span| span.get_days()) / 7);
    let numbers = || [("count", count(rigs.len()).into()), ("wanting", wanting.into())];
    let headline = match (rigs.len(), wanting) {
        (0, _) => words.plain("picture-fleet-empty"),
        (_, 0) => words.say("picture-fleet-fine", numbers()),
        _ => words.say("picture-fleet-wants", numbers()),
    };
    let shows_rejection = rigs.is_empty() || rigs.iter().any(|rig| rig.condition.is_some());
    let rest = &rigs[shown(rigs.len())..];
    Fleet {
        headline,
        subline: match shows_rejection {
            true => words.say("picture-fleet-shows", [("weeks", weeks.into())]),
            false => words.plain("picture-fleet-shows-resin"),
        },
        since,
        today,
        limits,
        rest: (!rest.is_empty()).then(|| rest_of(words, rest)),
        zone: shows_rejection.then(|| {
            let due = figures::whole_percent(limits.due);
            words.say("picture-due-zone", [("percent", (&due).into())])
        }),
        nothing: words.plain("fleet-empty"),
        rigs: rigs.iter().map(|rig| row(words, rig)).collect(),
    }
}

fn row(words: Words, rig: &Rig) -> Row {
    let value = match (rig.condition, rig.level) {
        (Some(_), Some(level)) => words.say("percent", [("percent", (&figures::whole_percent(level)).into())]),
        _ => String::new(),
    };
    let word = match (rig.condition, rig.product_ppm) {
        (Some(state), _) => state_word(words, state),
        (None, Some(ppm)) => words.say("picture-glass", [("ppm", (&figures::ppm(words, ppm)).into())]),
        (None, None) => String::new(),
    };
    Row {
        name: rig.name.clone(),
        state: rig.condition,
        word,
        value,
        resin: short(words, rig.resin),
        urgent: rig.wants,
        trend: rig.trend.clone(),
    }
}

fn rest_of(words: Words, rest: &[Rig]) -> Rest {
    const ORDER: [Condition; 6] = [
        Condition::Check,
        Condition::Spent,
        Condition::Due,
        Condition::Wearing,
        Condition::Unproven,
        Condition::Sound,
    ];
    let count = |rigs: usize| i64::try_from(rigs).unwrap_or(i64::MAX);
    let counts = ORDER.into_iter().filter_map(|state| {
        let rigs = rest.iter().filter(|rig| rig.condition == Some(state)).count();
        let state_words = state_word(words, state);
        let told = words.say(
            "picture-count",
            [("count", count(rigs).into()), ("state", (&state_words).into())],
        );
        (rigs > 0).then_some((state, told))
    });
    Rest {
        words: words.say("picture-more", [("count", count(rest.len()).into())]),
        subline: words.plain("picture-others"),
        counts: counts.collect(),
    }
}
