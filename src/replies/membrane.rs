//! What is known of a membrane: its level, its trend, when it is due.

use jiff::civil::Date;

use crate::water::condition::Condition;
use crate::water::forecast::Crossing;

use super::Words;
use super::figures;
use super::reading::state_word;

/// When the due line is crossed, in local dates.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DueLine {
    /// It is crossed already.
    Crossed,
    /// In this range.
    Within {
        /// Not before this.
        early: Date,
        /// As likely before as after.
        likely: Date,
        /// Hardly after this; none beyond what is looked at.
        late: Option<Date>,
    },
    /// Not within three years.
    NotInSight,
    /// Too few readings for a trend.
    NotYetKnown,
}

impl DueLine {
    /// A crossing with its instants as local dates.
    pub fn of(due: Crossing, date: impl Fn(i64) -> Date) -> Self {
        match due {
            Crossing::Already => Self::Crossed,
            Crossing::NotInSight => Self::NotInSight,
            Crossing::NotYetKnown => Self::NotYetKnown,
            Crossing::Within(range) => Self::Within {
                early: date(range.early),
                likely: date(range.likely),
                late: range.late.map(date),
            },
        }
    }
}

/// What is known of a membrane.
#[derive(Clone, Debug, PartialEq)]
pub struct Facts<'a> {
    /// The rig's name.
    pub rig: &'a str,
    /// Standardised rejection: low, middle, high of its 80 % interval, fractions.
    pub level: (f64, f64, f64),
    /// Its state.
    pub condition: Condition,
    /// Points of rejection lost a year; none until known.
    pub points_per_year: Option<f64>,
    /// When the due line is crossed.
    pub due: DueLine,
    /// Readings that count.
    pub readings: i64,
    /// Since when a jump stands.
    pub fault: Option<Date>,
    /// The money's words, ready.
    pub money: &'a [String],
    /// Whether they are a verdict, so that the due line need not be told.
    pub judged: bool,
}

/// The answer to "membrane heron?".
pub fn answer(words: Words, facts: &Facts<'_>, today: Date) -> String {
    let (low, mid, high) = facts.level;
    let (low, mid, high) = (
        figures::whole_percent(low),
        figures::percent(words, mid),
        figures::whole_percent(high),
    );
    let mut lines = vec![words.say(
        "membrane-level",
        [
            ("rig", facts.rig.into()),
            ("percent", (&mid).into()),
            ("low", (&low).into()),
            ("high", (&high).into()),
            ("state", (&state_word(words, facts.condition)).into()),
        ],
    )];
    if let Some(since) = facts.fault {
        let day = figures::day(words, since, today);
        lines.push(words.say("advice-check", [("day", (&day).into())]));
    }
    if facts.judged {
        lines.extend_from_slice(facts.money);
    }
    lines.extend(facts.points_per_year.map(|points| {
        if points < 0.05 {
            return words.plain("membrane-steady");
        }
        words.say(
            "membrane-trend",
            [("points", (&figures::points(words, points / 100.0)).into())],
        )
    }));
    if !facts.judged {
        lines.push(due_line(words, facts.due));
    }
    lines.push(words.say("membrane-basis", [("readings", facts.readings.into())]));
    if !facts.judged {
        lines.extend_from_slice(facts.money);
    }
    lines.join("\n")
}

fn due_line(words: Words, due: DueLine) -> String {
    match due {
        DueLine::Crossed => words.plain("membrane-due-crossed"),
        DueLine::NotInSight => words.plain("membrane-due-far"),
        DueLine::NotYetKnown => words.plain("membrane-due-unknown"),
        DueLine::Within { early, likely, late } => {
            let (early, likely) = (figures::month(words, early), figures::month(words, likely));
            let Some(late) = late.map(|late| figures::month(words, late)) else {
                return words.say(
                    "membrane-due-from",
                    [("likely", (&likely).into()), ("early", (&early).into())],
                );
            };
            words.say(
                "membrane-due-within",
                [
                    ("likely", (&likely).into()),
                    ("early", (&early).into()),
                    ("late", (&late).into()),
                ],
            )
        }
    }
}
