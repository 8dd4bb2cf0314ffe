//! Answers as a table for people: words, ranges, no false exactness.

use std::io::Write;

use chrono::Datelike;

use super::cell;
use super::sheet::{Fleet, Query};
use super::timeline::Told;
use crate::water::assess::{Assessment, Question, Reason};
use crate::water::condition::Condition;
use crate::water::forecast::Crossing;
use crate::water::jump::NextTest;
use crate::water::renewal_verdict::Verdict;
use crate::water::resin::BedState;

const HEADINGS: [&str; 7] = [
    "rig",
    "state",
    "rejection",
    "trend",
    "below the spent line",
    "cheapest change",
    "resin left",
];

/// Writes the table, then one note a rig where something is to be done.
pub fn write(out: &mut dyn Write, fleet: &Fleet, queries: &[Query], told: &Told) -> std::io::Result<()> {
    let mut rows: Vec<[String; 7]> = vec![HEADINGS.map(str::to_owned)];
    let mut notes = Vec::new();
    for (query, answer) in queries.iter().zip(&told.answers) {
        let offset = query.offset.unwrap_or_else(|| fleet.offset_of(query.rig));
        rows.push(row(&fleet.names[query.rig], answer, offset));
        notes.extend(note(answer, offset).map(|note| format!("{}: {note}", fleet.names[query.rig])));
    }
    let widths: [usize; 7] = std::array::from_fn(|i| rows.iter().map(|row| row[i].chars().count()).max().unwrap_or(0));
    for row in &rows {
        let cells: Vec<String> = row
            .iter()
            .zip(widths)
            .map(|(cell, width)| format!("{cell:width$}"))
            .collect();
        writeln!(out, "{}", cells.join("  ").trim_end())?;
    }
    if !notes.is_empty() {
        writeln!(out)?;
    }
    for note in notes {
        writeln!(out, "{note}")?;
    }
    let aside = told.set_aside.iter().filter(|&&aside| aside).count();
    if aside > 0 {
        writeln!(
            out,
            "\n{aside} of {} readings were set aside as doubtful.",
            told.set_aside.len()
        )?;
    }
    Ok(())
}

fn row(name: &str, a: &Assessment, offset: i32) -> [String; 7] {
    let rejection = a.rejection.map_or_else(
        || "-".to_owned(),
        |r| format!("{:.0} % ({:.0}-{:.0})", 100.0 * r.mid, 100.0 * r.low, 100.0 * r.high),
    );
    let trend = a.points_per_year.map_or_else(
        || "not yet known".to_owned(),
        |points| {
            if points < 0.5 {
                "steady".to_owned()
            } else {
                format!("{points:.1} points a year")
            }
        },
    );
    let line = match a.spent {
        Crossing::Already => "already".to_owned(),
        Crossing::Within(range) => about(range.likely, offset),
        Crossing::NotInSight => "not within 3 years".to_owned(),
        Crossing::NotYetKnown => "not yet known".to_owned(),
    };
    let change = match a.renewal.map(|renewal| renewal.verdict) {
        Some(Verdict::Now) => "now".to_owned(),
        Some(Verdict::Later(range)) => about(range.likely, offset),
        Some(Verdict::NotInSight) => "not within 5 years".to_owned(),
        Some(Verdict::NotYetKnown) => "not yet known".to_owned(),
        None => "-".to_owned(),
    };
    let resin = match a.resin.and_then(|bed| bed.working_days) {
        Some([low, _, high]) => format!("{low:.0}-{high:.0} working days"),
        None => "-".to_owned(),
    };
    [
        name.to_owned(),
        word(a.condition).to_owned(),
        rejection,
        trend,
        line,
        change,
        resin,
    ]
}

fn word(condition: Option<Condition>) -> &'static str {
    match condition {
        None => "DI only",
        Some(Condition::Good) => "good",
        Some(Condition::Fading) => "fading",
        Some(Condition::Due) => "plan a new one",
        Some(Condition::Spent) => "worn out",
        Some(Condition::Unproven) => "too early to tell",
        Some(Condition::Fault) => "look for a leak",
    }
}

fn note(a: &Assessment, offset: i32) -> Option<String> {
    match a.resin.map(|bed| bed.state) {
        Some(BedState::EarlyBreakthrough) => {
            return Some("the resin lets through early: repack it tight before you buy".to_owned());
        }
        Some(BedState::Exhausted) => return Some("change the resin before the next window: it will spot".to_owned()),
        _ => {}
    }
    if let Some(fault) = &a.fault {
        let test = match fault.next_test {
            NextTest::RunRinseReadAgain => "run it five minutes, rinse the cup, read again",
            NextTest::LookAtHosesAndBypass => "look along hoses and fittings, and at the bypass valve",
            NextTest::LookAtORings => "relieve the pressure, open the housing, look at the O-rings",
            NextTest::TestChlorineAfterCarbon => "test for chlorine after the carbon filter",
        };
        let since = about(fault.since, offset);
        return Some(format!(
            "the permeate jumped x{:.1} in {since}, which wear does not: {test}",
            fault.passage_ratio
        ));
    }
    if let Some(Question::WasMembraneChanged { since }) = a.question {
        let when = about(since, offset);
        return Some(format!(
            "reads like a new membrane since {when}: if so, add it to the services"
        ));
    }
    if let Some(renewal) = a.renewal.filter(|renewal| renewal.pays_now()) {
        return Some(format!(
            "a new membrane pays for itself: waiting costs about {:.0} a month",
            renewal.waiting_per_month
        ));
    }
    a.reasons.iter().find_map(|reason| match reason {
        Reason::LastReadingOld { days } => Some(format!("last reading {days} days ago")),
        _ => None,
    })
}

/// An instant to the third of a month: a forecast is no better.
fn about(at: i64, offset: i32) -> String {
    const MONTHS: [&str; 12] = [
        "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
    ];
    let Some(date) = cell::date(at, offset) else {
        return "-".to_owned();
    };
    let part = match date.day() {
        ..=10 => "early",
        11..=20 => "mid",
        _ => "late",
    };
    format!("{part} {} {}", MONTHS[date.month0() as usize], date.year())
}
