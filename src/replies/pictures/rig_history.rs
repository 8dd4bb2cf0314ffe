//! The words on a rig's history: of its wear, or of the fault that stands.

use jiff::civil::Date;

use crate::chart::Sheet;
use crate::chart::axis::days_between;
use crate::chart::mark::Mark;
use crate::chart::rig_fault::{self, lately_from};
use crate::chart::rig_history::{self, Ahead, Dot, Fault, Labels, Record};
use crate::replies::Words;
use crate::replies::figures;
use crate::replies::membrane::DueLine;
use crate::water::condition::Condition;

use super::{capital, dated, day, month, month_span, months, named, state, whole_percent};

/// What the money says of a new membrane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Advice {
    /// It pays for itself now.
    Now,
    /// It is cheapest about then.
    About(Date),
}

/// What the picture is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Facts<'a> {
    /// The rig's name.
    pub rig: &'a str,
    /// The state of the membrane.
    pub condition: Condition,
    /// Rejection: low, middle, high of its 80 % interval, fractions; while a fault
    /// stands, of the membrane without it.
    pub level: Option<(f64, f64, f64)>,
    /// Readings that count for this membrane.
    pub readings_used: i64,
    /// Whether the level is corrected to the reference temperature, else it is as read.
    pub corrected: bool,
    /// When the due line is crossed.
    pub due: DueLine,
    /// What the money says, where prices are known.
    pub advice: Option<Advice>,
    /// RO before and after the fault that stands, ppm.
    pub permeate_ppm: Option<(f64, f64)>,
    /// All that is drawn; its `due` follows from the facts' and may be left out.
    pub record: Record,
}

/// The picture of a rig's history.
#[must_use]
pub fn sheet(words: Words, facts: Facts<'_>) -> Sheet {
    let percent = |fraction: f64| whole_percent(words, fraction);
    let standing = facts.record.faults.iter().find(|fault| fault.until.is_none()).copied();
    if let (Some(fault), Some((_, alone, _))) = (standing, facts.level) {
        let labels = fault_labels(words, &facts, fault, alone);
        return rig_fault::draw(&facts.record, (fault.since, fault.rejection, alone), &labels, &percent);
    }
    let due = match facts.due {
        DueLine::Within { early, likely, late } => Some(Ahead { early, likely, late }),
        _ => None,
    };
    let labels = labels(words, &facts, due);
    let record = Record { due, ..facts.record };
    rig_history::draw(&record, &labels, &percent)
}

fn labels(words: Words, facts: &Facts<'_>, due: Option<Ahead>) -> Labels {
    let today = facts.record.today;
    let floor = whole_percent(words, facts.record.limits.due);
    let due = due.map(|due| match due.late {
        Some(late) => [
            words.say("picture-floor-about", [("percent", (&floor).into())]),
            month_span(words, due.early, late, today),
        ],
        None => [
            words.say("picture-floor-after", [("percent", (&floor).into())]),
            month(words, due.early, today),
        ],
    });
    Labels {
        headline: finding(words, facts),
        subline: subline(words, facts),
        mark: Mark::Membrane(facts.condition),
        axis: axis(words, facts),
        today: words.plain("today"),
        due,
        due_zone: state(words, Condition::Due),
        spent_zone: state(words, Condition::Spent),
        dots: words.plain("picture-dots"),
        rings: words.plain("picture-rings"),
        resin: words.plain("picture-resin"),
        membrane: words.plain("service-membrane"),
        fault: words.plain("picture-mended"),
        nothing: words.plain("picture-no-readings"),
        months: months(words),
    }
}

fn axis(words: Words, facts: &Facts<'_>) -> String {
    words.plain(if facts.corrected {
        "picture-axis-corrected"
    } else {
        "picture-axis"
    })
}

/// The finding, and the deed.
fn finding(words: Words, facts: &Facts<'_>) -> String {
    let plain = |key: &str| named(words, key, facts.rig);
    let dated = |key: &str, date: Date| dated(words, key, facts.rig, date, facts.record.today);
    match (facts.condition, facts.advice, facts.due) {
        (Condition::Fault, ..) => plain("picture-check"),
        (Condition::Unproven, ..) => plain("picture-unproven"),
        (Condition::Spent, ..) => plain("picture-spent"),
        (_, Some(Advice::Now), _) => plain("picture-pays-now"),
        (Condition::Due, Some(Advice::About(date)), _) => dated("picture-renew-by", date),
        (Condition::Due, None, _) => plain("picture-due"),
        (_, _, DueLine::Within { likely, .. }) => dated("picture-lasts", likely),
        (Condition::Fading, ..) => plain("picture-fading"),
        (Condition::Good, _, DueLine::NotInSight) => plain("picture-good-long"),
        (Condition::Good, ..) => plain("picture-good"),
    }
}

/// The state, the level with its range, and what it rests on.
fn subline(words: Words, facts: &Facts<'_>) -> String {
    let state = capital(&state(words, facts.condition));
    let readings = ("readings", facts.readings_used.into());
    if let Some((low, mid, high)) = facts.level {
        let range = format!(
            "{}\u{2013}{}",
            figures::whole_percent(low),
            figures::whole_percent(high)
        );
        let percent = whole_percent(words, mid);
        let values = [
            ("state", (&state).into()),
            ("percent", (&percent).into()),
            ("range", (&range).into()),
            readings,
        ];
        return words.say("picture-level", values);
    }
    let since = facts.record.membrane_changes.last();
    let counts = |dot: &&Dot| !dot.set_aside && since.is_none_or(|since| dot.day >= *since);
    let Some(last) = facts.record.readings.iter().rev().find(counts) else {
        return words.plain("picture-text-it");
    };
    let percent = whole_percent(words, last.rejection);
    words.say("picture-as-read", [("percent", (&percent).into()), readings])
}

fn fault_labels(words: Words, facts: &Facts<'_>, fault: Fault, alone: f64) -> rig_fault::Labels {
    let Record { today, readings, .. } = &facts.record;
    let (before, after) = (figures::whole_percent(alone), figures::whole_percent(fault.rejection));
    let from = lately_from(fault.since, *today);
    let weeks = i64::from(days_between(from, *today) / 7);
    // Where years would make it long, the last weeks say where it ends.
    let season = readings.first().map(|dot| match dot.day.year() == today.year() {
        true => month_span(words, dot.day, from, *today),
        false => format!("{} \u{2013}", month(words, dot.day, *today)),
    });
    let points = figures::whole((alone - fault.rejection) * 100.0);
    let permeate = facts.permeate_ppm.map(|(before, after)| {
        let [before, after] = [before, after].map(|ppm| figures::ppm(words, ppm));
        words.say(
            "picture-permeate",
            [("before", (&before).into()), ("after", (&after).into())],
        )
    });
    let alone = whole_percent(words, alone);
    rig_fault::Labels {
        headline: finding(words, facts),
        subline: words.say(
            "picture-fell",
            [("before", (&before).into()), ("after", (&after).into())],
        ),
        axis: axis(words, facts),
        lately: words.say("picture-lately", [("weeks", weeks.into())]),
        season: season.unwrap_or_default(),
        lost: words.say("picture-lost", [("points", points.into())]),
        permeate: permeate.unwrap_or_default(),
        alone: [
            words.plain("picture-membrane"),
            words.say("picture-alone", [("percent", (&alone).into())]),
        ],
        due_zone: state(words, Condition::Due),
        since: if fault.since < *today {
            day(words, fault.since)
        } else {
            String::new()
        },
        today: words.plain("today"),
        deed: words.plain("picture-where-to-look"),
    }
}
