//! What an import would change, in words.

use crate::intake::{Bad, Intake, Kind, Why};
use crate::replies::data::whole;
use crate::replies::{Words, figures};

use crate::bot::import::bad_lines::{BadLine, bad_lines};
use crate::bot::import::plan::Plan;
use crate::bot::import::settings_text::Settings;
use crate::bot::request::Request;

/// So many bad lines are named; the rest is counted.
const NAMED: usize = 5;

/// So many settings are shown, and fewer bad lines beside them.
const SHOWN: usize = 5;

const NAMED_BESIDE: usize = 3;

/// What a sheet would bring, what is here already, what cannot be read and why.
pub(in crate::bot) fn preview(on: &Request<'_>, intake: &Intake, plan: &Plan) -> String {
    let words = on.words;
    let count = |key: &'static str, count: usize| words.say(key, [("count", whole(count).into())]);
    let title = match intake.kind {
        Kind::Readings => count("import-readings", plan.readings.len()),
        Kind::Services => count("import-services", plan.services.len()),
        Kind::Rigs => count("import-rigs", plan.rigs.len()),
    };
    let mut lines = vec![match plan.span() {
        _ if plan.is_nothing() => words.plain("import-adds-nothing"),
        Some(span) => spanned(on, &title, span),
        None => title,
    }];
    lines.extend(new_rigs(
        on.words,
        plan.new_rigs.values().map(|(_, name)| name.as_str()),
    ));
    for (number, key) in [
        (plan.known, "import-known"),
        (intake.withdrawn, "import-withdrawn"),
        (plan.ahead, "import-ahead"),
        (plan.too_old, "import-too-old"),
        (plan.misnamed, "import-misnamed"),
    ] {
        if number > 0 {
            lines.push(count(key, number));
        }
    }
    if !intake.left_out.is_empty() {
        lines.push(words.say("import-left-out", [("columns", (&intake.left_out.join(", ")).into())]));
    }
    for (key, rows) in [("import-odd", &intake.odd), ("import-bad", &intake.bad)] {
        let rows: Vec<BadLine> = rows.iter().map(of_sheet).collect();
        lines.extend(bad_lines(on.words, key, &rows, NAMED));
    }
    if !plan.is_nothing() {
        lines.push(words.plain("import-sure"));
    }
    lines.join("\n")
}

/// What a text of settings would change.
pub(in crate::bot) fn preview_of_settings(words: Words, settings: &Settings) -> String {
    let count = |key: &'static str, count: usize| words.say(key, [("count", whole(count).into())]);
    let changes = settings.changes.len();
    let mut lines = vec![if changes == 0 {
        words.plain("import-adds-nothing")
    } else {
        count("import-settings", changes)
    }];
    lines.extend(settings.changes.iter().take(SHOWN).map(|(line, _)| line.clone()));
    if changes > SHOWN {
        lines.push(count("import-more-bad", changes - SHOWN));
    }
    lines.extend(new_rigs(words, settings.new_rigs.values().map(String::as_str)));
    if settings.known > 0 {
        lines.push(count("import-known", settings.known));
    }
    if let Some(keep) = &settings.keep {
        lines.push(words.say("import-keep-apart", [("setting", keep.into())]));
    }
    lines.extend(bad_lines(words, "import-bad", &settings.bad, NAMED_BESIDE));
    if changes > 0 {
        lines.push(words.plain("import-sure"));
    }
    lines.join("\n")
}

fn of_sheet(bad: &Bad) -> BadLine {
    let why = match bad.why {
        Why::NoRig => "bad-no-rig",
        Why::NoTime => "bad-no-time",
        Why::NoFeed => "bad-no-feed",
        Why::NoSecond => "bad-no-second",
        Why::NoNumber => "bad-no-number",
        Why::TooFar => "bad-too-far",
        Why::NoService => "bad-no-service",
        Why::OpenQuote => "bad-open-quote",
        Why::Risen => "odd-risen",
        Why::FarTap => "odd-far-tap",
    };
    BadLine {
        line: bad.line,
        why,
        cell: bad.cell.clone(),
    }
}

/// What comes, and from which day to which.
fn spanned(on: &Request<'_>, title: &str, (from, until): (i64, i64)) -> String {
    let day = |at| figures::full_day(on.words, on.date(at), on.today());
    let (from, until) = (day(from), day(until));
    if from == until {
        return on
            .words
            .say("import-on-a-day", [("what", title.into()), ("day", (&from).into())]);
    }
    let facts = [
        ("what", title.into()),
        ("from", (&from).into()),
        ("until", (&until).into()),
    ];
    on.words.say("import-span", facts)
}

fn new_rigs<'a>(words: Words, names: impl Iterator<Item = &'a str>) -> Option<String> {
    let names: Vec<&str> = names.collect();
    let told = || words.say("import-new-rigs", [("rigs", (&names.join(", ")).into())]);
    (!names.is_empty()).then(told)
}
