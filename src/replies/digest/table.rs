//! The fleet's table: a line a rig, what is well in one line.

use jiff::civil::Date;

use crate::digest::Digest;
use crate::digest::fleet::FleetRow;
use crate::replies::Words;
use crate::replies::days_off;
use crate::replies::figures::{self, spoken};
use crate::replies::reading::told_word;
use crate::water::assess::Basis;
use crate::water::condition::Condition;
use crate::water::verdict::Told;

use super::{FEW_RIGS, lists};

/// Cleaner glass than this says nothing beside a membrane.
const SHOWN_FROM_PPM: f64 = 3.0;

/// The table: a line for each rig that is not calm, the calm ones in one line.
pub fn lines(words: Words, digest: &Digest, most_rows: usize, most_names: usize) -> Vec<String> {
    if digest.fleet.len() <= FEW_RIGS {
        return Vec::new();
    }
    let (calm, stirred): (Vec<_>, Vec<_>) = digest.fleet.iter().partition(|row| row.calm);
    let mut lines = Vec::new();
    if !stirred.is_empty() {
        lines.push(words.plain("digest-table-title"));
        lines.extend(
            stirred
                .iter()
                .take(most_rows)
                .map(|stirred| row(words, stirred, digest.today)),
        );
    }
    if stirred.len() > most_rows {
        let left = (stirred.len() - most_rows) as i64;
        lines.push(words.say("digest-table-left", [("count", left.into())]));
    }
    if !calm.is_empty() {
        let names: Vec<String> = calm.iter().map(|row| calm_name(words, row)).collect();
        let rigs = lists::some(words, &names, most_names);
        lines.push(words.say("digest-table-calm", [("rigs", (&rigs).into())]));
    }
    lines
}

fn calm_name(words: Words, row: &FleetRow) -> String {
    match row.rejection {
        Some(rejection) => {
            let percent = figures::whole_percent(rejection.mid);
            words.say(
                "digest-calm-name",
                [("rig", (&row.name).into()), ("percent", (&percent).into())],
            )
        }
        None => row.name.clone(),
    }
}

/// One rig of the table: level and state, trend, resin, flushes, when last read.
pub fn row(words: Words, row: &FleetRow, today: Date) -> String {
    let mut parts = vec![level(words, row)];
    let giving_way = row
        .product_ppm
        .filter(|ppm| *ppm >= SHOWN_FROM_PPM && row.told.is_some());
    parts.extend(giving_way.map(|ppm| words.say("digest-row-glass", [("ppm", (&figures::ppm(words, ppm)).into())])));
    parts.extend(row.points_per_year.filter(|points| *points >= 0.5).map(|points| {
        let points = figures::points(words, points / 100.0);
        words.say("digest-row-trend", [("points", (&points).into())])
    }));
    parts.extend(row.resin_days.map(|[_, likely, _]| match spoken::working_days(likely) {
        days if days == "0" => words.plain("digest-row-resin-out"),
        days => words.say("digest-row-resin", [("days", (&days).into())]),
    }));
    parts.extend(row.flushes.filter(|(_, due)| *due > 0).map(|(done, due)| {
        words.say(
            "digest-row-flushes",
            [("done", i64::from(done).into()), ("due", i64::from(due).into())],
        )
    }));
    match (row.off, row.last_reading_on) {
        (Some(off), _) => parts.push(days_off::standing(words, &off, today)),
        (None, Some(last)) if row.readings == 0 => {
            let on = spoken::on_day(words, last, today);
            parts.push(words.say("digest-row-last", [("on", (&on).into())]));
        }
        (None, None) if row.readings == 0 => parts.push(words.plain("digest-row-never")),
        (None, _) => {}
    }
    if row.set_aside > 0 {
        parts.push(words.say("digest-row-aside", [("count", i64::from(row.set_aside).into())]));
    }
    words.say(
        "digest-row",
        [("rig", (&row.name).into()), ("facts", (&parts.join(", ")).into())],
    )
}

fn basis(words: Words, basis: Option<Basis>) -> String {
    match basis {
        Some(Basis::Corrected) => words.plain("basis-corrected"),
        Some(Basis::AsRead) | None => String::new(),
    }
}

fn level(words: Words, row: &FleetRow) -> String {
    match (row.rejection, row.told) {
        (Some(rejection), Some(told)) => {
            let (percent, state) = (figures::percent(words, rejection.mid), told_word(words, told));
            let key = match told {
                Told::State(Condition::Fault) => "digest-row-jump",
                _ => "digest-row-level",
            };
            words.say(
                key,
                [
                    ("percent", (&percent).into()),
                    ("basis", (&basis(words, row.basis)).into()),
                    ("state", (&state).into()),
                ],
            )
        }
        (None, Some(told)) => told_word(words, told),
        (_, None) => match row.product_ppm {
            Some(ppm) => words.say("digest-row-glass", [("ppm", (&figures::ppm(words, ppm)).into())]),
            None => words.plain("digest-row-di"),
        },
    }
}
