//! The words on a rig's history.

use jiff::civil::Date;

use crate::chart::axis::ticks;
use crate::chart::rig_history::{Ahead, Dot, Jump, Level, RigHistory, Words as Labels};
use crate::replies::Words;
use crate::replies::figures;
use crate::replies::membrane::DueLine;
use crate::replies::reading::state_word;
use crate::water::condition::Condition;
use crate::water::settings::Limits;

use super::{months, rough_span};

/// What the money says of a new membrane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Advice {
    /// It pays for itself now.
    Now,
    /// It is cheapest about then.
    About(Date),
}

/// A jump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leak {
    /// The day of its first reading.
    pub since: Date,
    /// When it was mended; none while it stands.
    pub until: Option<Date>,
    /// Rejection of the rig with it, a fraction.
    pub rejection: f64,
}

/// What the picture is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Facts<'a> {
    /// The rig's name.
    pub rig: &'a str,
    /// Seen from.
    pub today: Date,
    /// The owner's lines.
    pub limits: Limits,
    /// The state; none on a rig without a membrane.
    pub condition: Option<Condition>,
    /// Standardised rejection: low, middle, high of its 80 % interval, fractions.
    pub level: Option<(f64, f64, f64)>,
    /// Readings that count for this membrane.
    pub readings_used: i64,
    /// When the due line is crossed.
    pub due: DueLine,
    /// What the money says, where prices are known.
    pub advice: Option<Advice>,
    /// All readings, oldest first.
    pub readings: Vec<Dot>,
    /// The level, a stretch for each membrane.
    pub trend: Vec<Vec<Level>>,
    /// The level from today on.
    pub forecast: Vec<Level>,
    /// Jumps, mended or not.
    pub leaks: Vec<Leak>,
    /// Days on which resin was changed.
    pub resin_changes: Vec<Date>,
    /// Days on which a membrane was changed.
    pub membrane_changes: Vec<Date>,
}

/// The picture of a rig's history.
pub fn picture(words: Words, facts: Facts<'_>) -> RigHistory {
    let state = facts.condition.map(|state| (state, state_word(words, state)));
    let percent = |line: f64| figures::whole_percent(line);
    let (due_line, spent_line) = (percent(facts.limits.due), percent(facts.limits.spent));
    let jumps = facts.leaks.iter().map(|leak| Jump {
        since: leak.since,
        until: leak.until,
        rejection: leak.rejection,
        words: words.say(
            "picture-jump",
            [("day", (&figures::day(words, leak.since, facts.today)).into())],
        ),
    });
    RigHistory {
        headline: headline(words, &facts),
        subline: subline(words, &facts),
        state,
        today: facts.today,
        limits: facts.limits,
        levels: ticks(lowest(&facts), 1.0, 7, |at| {
            words.say("percent", [("percent", (&percent(at)).into())])
        }),
        jumps: jumps.collect(),
        due: match facts.due {
            DueLine::Within { early, likely, late } => Some(Ahead {
                early,
                likely,
                late,
                words: match late {
                    Some(late) => rough_span(words, early, late, facts.today),
                    None => words.say(
                        "picture-not-before",
                        [("date", (&figures::rough(words, early, facts.today)).into())],
                    ),
                },
            }),
            _ => None,
        },
        months: months(words),
        words: Labels {
            today: words.plain("today"),
            trend: words.plain("picture-trend"),
            forecast: words.plain("picture-forecast"),
            due_zone: words.say("picture-due-zone", [("percent", (&due_line).into())]),
            spent_zone: words.say("picture-spent-zone", [("percent", (&spent_line).into())]),
            resin: words.plain("picture-resin"),
            membrane: words.plain("service-membrane"),
            reading: words.plain("picture-reading"),
            set_aside: words.plain("picture-set-aside"),
            band: words.plain("picture-band"),
            nothing: words.plain("picture-no-readings"),
        },
        readings: facts.readings,
        trend: facts.trend,
        forecast: facts.forecast,
        resin_changes: facts.resin_changes,
        membrane_changes: facts.membrane_changes,
    }
}

/// The bottom of the axis: below the spent line, this membrane's trend and its jumps. A
/// blunder, or an earlier membrane, far below is drawn at the rim, so that the rest is
/// not squeezed.
fn lowest(facts: &Facts<'_>) -> f64 {
    let levels = facts.trend.last().into_iter().flatten().map(|level| level.low);
    let leaks = facts
        .leaks
        .iter()
        .filter(|leak| leak.until.is_none())
        .map(|leak| leak.rejection);
    let lowest = levels.chain(leaks).fold(facts.limits.spent, f64::min) - 0.02;
    (lowest * 20.0).floor().clamp(4.0, 19.0) / 20.0
}

/// The finding.
fn headline(words: Words, facts: &Facts<'_>) -> String {
    let rig = || ("rig", facts.rig.into());
    let dated = |key: &str, date: Date| {
        let date = figures::rough(words, date, facts.today);
        words.say(key, [rig(), ("date", (&date).into())])
    };
    let Some(state) = facts.condition else {
        return facts.rig.to_owned();
    };
    match (state, facts.advice, facts.due) {
        (Condition::Check, ..) => words.say("picture-check", [rig()]),
        (Condition::Unproven, ..) => words.say("picture-unproven", [rig()]),
        (Condition::Spent, ..) => words.say("picture-spent", [rig()]),
        (_, Some(Advice::Now), _) => words.say("picture-pays-now", [rig()]),
        (Condition::Due, Some(Advice::About(date)), _) => dated("picture-renew-by", date),
        (Condition::Due, None, _) => words.say("picture-due", [rig()]),
        (Condition::Wearing, _, DueLine::Within { likely, .. }) => dated("picture-wearing-until", likely),
        (Condition::Wearing, ..) => words.say("picture-wearing", [rig()]),
        (Condition::Sound, _, DueLine::Within { likely, .. }) => dated("picture-sound-until", likely),
        (Condition::Sound, _, DueLine::NotInSight) => words.say("picture-sound-long", [rig()]),
        (Condition::Sound, ..) => words.say("picture-sound", [rig()]),
    }
}

/// The level with its range, and what it rests on.
fn subline(words: Words, facts: &Facts<'_>) -> String {
    let Some((low, mid, high)) = facts.level else {
        return words.say("picture-basis", [("readings", facts.readings_used.into())]);
    };
    let [low, high] = [low, high].map(figures::whole_percent);
    let mid = figures::percent(words, mid);
    if let Some(leak) = facts.leaks.iter().find(|leak| leak.until.is_none()) {
        let (seen, day) = (
            figures::percent(words, leak.rejection),
            figures::day(words, leak.since, facts.today),
        );
        return words.say(
            "picture-level-check",
            [
                ("seen", (&seen).into()),
                ("day", (&day).into()),
                ("percent", (&mid).into()),
            ],
        );
    }
    words.say(
        "picture-level",
        [
            ("percent", (&mid).into()),
            ("low", (&low).into()),
            ("high", (&high).into()),
            ("readings", facts.readings_used.into()),
        ],
    )
}
