//! What is known of a membrane: its level, its trend, when it is due.

use jiff::civil::Date;

use crate::water::forecast::Crossing;
use crate::water::verdict::Level;
use crate::water::verdict::Told;

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
    pub held: Told,
    /// Points of rejection lost a year; none until known.
    pub points_per_year: Option<f64>,
    /// When the due line, a fraction, is crossed; none where the money's verdict says more.
    pub due: Option<(f64, DueLine)>,
    /// What is to be done, ready.
    pub deeds: &'a [String],
    /// How many days ago the last reading was, where that is too long.
    pub old_days: Option<u32>,
    /// What decides on it, ready: the money, or the glass of a rig without resin.
    pub verdict: &'a [String],
    /// What could be typed so that the money can be judged, ready.
    pub missing: &'a [String],
}

/// The answer to "membrane heron?".
pub fn answer(words: Words, facts: &Facts<'_>) -> String {
    let mut lines = vec![comparing::level(words, facts.rig, &facts.level, facts.held)];
    lines.extend_from_slice(facts.deeds);
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
    lines.extend(facts.due.and_then(|(line, due)| due_line(words, line, due)));
    lines.extend_from_slice(facts.missing);
    lines.join("\n")
}

/// When it is crossed; once it is, the deed says what to do.
fn due_line(words: Words, line: f64, due: DueLine) -> Option<String> {
    let line = figures::plain_number(words, line * 100.0);
    let line = ("line", (&line).into());
    Some(match due {
        DueLine::Crossed => return None,
        DueLine::NotInSight => words.say("membrane-due-far", [line]),
        DueLine::NotYetKnown => words.plain("membrane-due-unknown"),
        DueLine::Within { early, likely, late } => {
            let (early, likely) = (figures::month(words, early), figures::month(words, likely));
            let (likely, early) = (("likely", (&likely).into()), ("early", (&early).into()));
            match late.map(|late| figures::month(words, late)) {
                Some(late) => words.say("membrane-due-within", [line, likely, early, ("late", (&late).into())]),
                None => words.say("membrane-due-from", [line, likely, early]),
            }
        }
    })
}
