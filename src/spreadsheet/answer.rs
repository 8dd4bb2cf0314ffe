//! Answers as lines of JSON.

use std::io::Write;

use serde::Serialize;

use super::cell;
use super::sheet::{Fleet, Query};
use crate::water::assess::Assessment;
use crate::water::condition::Condition;
use crate::water::forecast::Crossing;
use crate::water::renewal_verdict::Verdict;

#[derive(Serialize)]
struct Line<'a> {
    rig: &'a str,
    as_of: &'a str,
    rejection_now: Option<f64>,
    rejection_low: Option<f64>,
    rejection_high: Option<f64>,
    crosses_80_on: Option<String>,
    replace_on: Option<String>,
    fault: bool,
    di_empty_on: Option<String>,
    state: Option<Condition>,
}

#[derive(Serialize)]
struct ReadingLine<'a> {
    rig: &'a str,
    time: &'a str,
    rejected: bool,
}

/// One query's line. Dates are by the query's offset, or the rig's own.
pub fn line(name: &str, query: &Query, answer: &Assessment, rig_offset: i32) -> String {
    let offset = query.offset.unwrap_or(rig_offset);
    let day = |at: i64| cell::date(at, offset).map(|date| date.to_string());
    let rejection = answer.rejection;
    let line = Line {
        rig: name,
        as_of: &query.as_of,
        rejection_now: rejection.map(|r| fraction(r.mid)),
        rejection_low: rejection.map(|r| fraction(r.low)),
        rejection_high: rejection.map(|r| fraction(r.high)),
        crosses_80_on: match answer.spent {
            Crossing::Already => day(query.at),
            Crossing::Within(range) => day(range.likely),
            Crossing::NotInSight | Crossing::NotYetKnown => None,
        },
        replace_on: match answer.renewal.map(|renewal| renewal.verdict) {
            Some(Verdict::Now) => day(query.at),
            Some(Verdict::Later(range)) => day(range.likely),
            Some(Verdict::NotInSight | Verdict::NotYetKnown) | None => None,
        },
        fault: answer.fault.is_some(),
        di_empty_on: answer
            .resin
            .and_then(|bed| bed.empty)
            .and_then(|range| day(range.likely)),
        state: answer.condition,
    };
    serde_json::to_string(&line).unwrap_or_default()
}

/// One line per reading, in the sheet's order.
pub fn reading_lines(out: &mut dyn Write, fleet: &Fleet, set_aside: &[bool]) -> std::io::Result<()> {
    let Some(times) = &fleet.times else { return Ok(()) };
    for (nth, (row, &rejected)) in fleet.readings.iter().zip(set_aside).enumerate() {
        let line = ReadingLine {
            rig: &fleet.names[row.rig()],
            time: times.get(nth),
            rejected,
        };
        writeln!(out, "{}", serde_json::to_string(&line).unwrap_or_default())?;
    }
    Ok(())
}

fn fraction(value: f64) -> f64 {
    (value * 10_000.0).round() / 10_000.0
}
