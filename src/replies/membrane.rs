//! What is known of a membrane: its level, its trend, when it is due.

use jiff::civil::Date;

use crate::water::condition::Condition;
use crate::water::forecast::Crossing;
use crate::water::verdict::Level;

use super::{Words, comparing, figures};

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

/// Fewer points a year than this are not told from none.
const STEADY_POINTS: f64 = 0.15;

/// What is known of a membrane.
#[derive(Clone, Debug, PartialEq)]
pub struct Facts<'a> {
    /// The rig's name.
    pub rig: &'a str,
    /// Its level.
    pub level: Level,
    /// Its state.
    pub condition: Condition,
    /// Points of rejection lost a year; none until known.
    pub points_per_year: Option<f64>,
    /// When the due line is crossed; none where the money's verdict says more.
    pub due: Option<DueLine>,
    /// Whether resin follows the membrane.
    pub has_bed: bool,
    /// What is to be done first, ready.
    pub deed: Option<String>,
    /// How many days ago the last reading was, where that is too long.
    pub old_days: Option<u32>,
    /// What decides on it, ready: the money, or the glass of a rig without resin.
    pub verdict: &'a [String],
    /// What could be typed so that the money can be judged, ready.
    pub missing: &'a [String],
}

/// The answer to "membrane heron?".
pub fn answer(words: Words, facts: &Facts<'_>) -> String {
    let mut lines = vec![comparing::level(words, facts.rig, &facts.level, facts.condition)];
    lines.extend(facts.deed.clone());
    lines.extend(
        facts
            .old_days
            .map(|days| words.say("membrane-old", [("days", i64::from(days).into())])),
    );
    lines.extend_from_slice(facts.verdict);
    lines.extend(facts.points_per_year.map(|points| {
        if points < STEADY_POINTS {
            return words.plain("membrane-steady");
        }
        words.say(
            "membrane-trend",
            [("points", (&figures::points(words, points / 100.0)).into())],
        )
    }));
    lines.extend(facts.due.map(|due| due_line(words, due, facts.has_bed)));
    lines.extend_from_slice(facts.missing);
    lines.join("\n")
}

fn due_line(words: Words, due: DueLine, has_bed: bool) -> String {
    match due {
        DueLine::Crossed if has_bed => words.plain("membrane-due-crossed"),
        DueLine::Crossed => words.plain("glass-due-crossed"),
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
