//! The words that show what an import would bring.

use crate::intake::{Bad, Intake, Kind, Why};
use crate::replies::figures;

use super::super::turn::Turn;
use super::plan::Plan;

/// So many bad lines are named; the rest is counted.
const NAMED: usize = 5;

/// What would come in, what is here already, what cannot be read and why.
pub fn preview(turn: &Turn<'_>, intake: &Intake, plan: &Plan) -> String {
    let words = turn.words;
    let count = |number: usize| i64::try_from(number).unwrap_or(i64::MAX);
    let mut lines = Vec::new();
    let title = match intake.kind {
        Kind::Readings => words.say("import-readings", [("count", count(plan.readings.len()).into())]),
        Kind::Services => words.say("import-services", [("count", count(plan.services.len()).into())]),
        Kind::Rigs => words.say("import-rigs", [("count", count(plan.rigs.len()).into())]),
    };
    lines.push(match plan.span() {
        _ if plan.is_nothing() => words.plain("import-adds-nothing"),
        Some((from, until)) if from != until => {
            let day = |at| figures::full_day(words, turn.date(at), turn.today());
            let (from, until) = (day(from), day(until));
            let facts = [
                ("what", (&title).into()),
                ("from", (&from).into()),
                ("until", (&until).into()),
            ];
            words.say("import-span", facts)
        }
        _ => title,
    });
    if !plan.new_rigs.is_empty() {
        let names: Vec<&str> = plan.new_rigs.values().map(|(_, name)| name.as_str()).collect();
        lines.push(words.say("import-new-rigs", [("rigs", (&names.join(", ")).into())]));
    }
    for (number, key) in [
        (plan.known, "import-known"),
        (intake.withdrawn, "import-withdrawn"),
        (plan.ahead, "import-ahead"),
        (plan.misnamed, "import-misnamed"),
    ] {
        if number > 0 {
            lines.push(words.say(key, [("count", count(number).into())]));
        }
    }
    if !intake.left_out.is_empty() {
        lines.push(words.say("import-left-out", [("columns", (&intake.left_out.join(", ")).into())]));
    }
    for (key, rows) in [("import-odd", &intake.odd), ("import-bad", &intake.bad)] {
        if rows.is_empty() {
            continue;
        }
        lines.push(words.say(key, [("count", count(rows.len()).into())]));
        // To count a single row takes as much room as to name it.
        let named = if rows.len() == NAMED + 1 { rows.len() } else { NAMED };
        lines.extend(rows.iter().take(named).map(|row| bad_line(turn, row)));
        if rows.len() > named {
            let rest = count(rows.len() - named);
            lines.push(words.say("import-more-bad", [("count", rest.into())]));
        }
    }
    if !plan.is_nothing() {
        lines.push(words.plain("import-sure"));
    }
    lines.join("\n")
}

fn bad_line(turn: &Turn<'_>, bad: &Bad) -> String {
    let why = turn.words.plain(match bad.why {
        Why::NoRig => "bad-no-rig",
        Why::NoTime => "bad-no-time",
        Why::NoFeed => "bad-no-feed",
        Why::NoSecond => "bad-no-second",
        Why::NoNumber => "bad-no-number",
        Why::TooFar => "bad-too-far",
        Why::NoService => "bad-no-service",
        Why::Garbled => "bad-garbled",
        Why::Risen => "odd-risen",
        Why::FarTap => "odd-far-tap",
    });
    let line = bad.line.to_string();
    // Enough of the cell to find it by.
    let cell: String = bad.cell.chars().take(30).collect();
    let facts = [
        ("line", (&line).into()),
        ("why", (&why).into()),
        ("cell", (&cell).into()),
    ];
    if cell.is_empty() {
        turn.words.say("bad-line", facts)
    } else {
        turn.words.say("bad-line-cell", facts)
    }
}
