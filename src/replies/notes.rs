//! The texts of what is said between two digests, and of its buttons.

use jiff::civil::Date;

use crate::digest::notes::{Facts, Note, Topic};
use crate::message::setting::Currency;
use crate::water::verdict::Due;

use super::Words;
use super::figures::{self, spoken};

/// A button under a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Press {
    /// It is done: record the service.
    Done,
    /// Say it again in a week.
    InAWeek,
    /// Leave it: say it no more of this bed, membrane or rest.
    NotNow,
    /// Yes, the membrane was changed.
    NewMembrane,
    /// No, it is the same membrane.
    SameMembrane,
}

/// The note, three short lines at most.
pub fn text(words: Words, note: &Note, today: Date, currency: Option<Currency>) -> String {
    let name = note.rig.as_ref().map_or("", |(_, name)| name);
    let rig = || ("rig", name.into());
    match note.facts {
        Facts::ResinDone { product_ppm } => words.say(
            "note-resin-done",
            [rig(), ("ppm", (&figures::ppm(words, product_ppm)).into())],
        ),
        Facts::ResinLow {
            next_workday,
            product_ppm,
        } => {
            let by = spoken::by_day(words, next_workday, today);
            match product_ppm {
                Some(ppm) => words.say(
                    "note-resin-low-ppm",
                    [rig(), ("by", (&by).into()), ("ppm", (&figures::ppm(words, ppm)).into())],
                ),
                None => words.say("note-resin-low", [rig(), ("by", (&by).into())]),
            }
        }
        Facts::Frost { water_c: Some(celsius) } => {
            words.say("note-frost-water", [("water", (&spoken::temperature(celsius)).into())])
        }
        Facts::Frost { water_c: None } => words.plain("note-frost-season"),
        Facts::Membrane {
            due,
            rejection,
            waiting_per_month,
        } => membrane(words, name, due, (rejection, waiting_per_month), currency),
        Facts::Idle { days } => {
            let key = match note.topic {
                Topic::Idle30 => "note-idle-30",
                Topic::Idle14 => "note-idle-14",
                _ => "note-idle-5",
            };
            words.say(key, [rig(), ("days", days.into())])
        }
        Facts::Prefilters { due, overdue: true } => {
            let since = spoken::since_day(words, due, today);
            words.say("note-prefilters-overdue", [rig(), ("since", (&since).into())])
        }
        Facts::Prefilters { due, overdue: false } => {
            let by = spoken::by_day(words, due, today);
            words.say("note-prefilters", [rig(), ("by", (&by).into())])
        }
        Facts::AskMembrane { since } => {
            let since = spoken::since_day(words, since, today);
            words.say("note-ask-membrane", [rig(), ("since", (&since).into())])
        }
    }
}

fn membrane(
    words: Words,
    rig: &str,
    due: Due,
    (rejection, waiting): (f64, Option<f64>),
    currency: Option<Currency>,
) -> String {
    let percent = figures::percent(words, rejection);
    let rig_and_percent = [("rig", rig.into()), ("percent", (&percent).into())];
    match (due, waiting) {
        (Due::Now | Due::About { .. }, Some(waiting)) if waiting >= 1.0 => {
            let money = spoken::about(words, waiting, currency);
            let [rig, percent] = rig_and_percent;
            words.say("note-membrane-costs", [rig, percent, ("money", (&money).into())])
        }
        (Due::Now | Due::About { .. }, _) => words.say("note-membrane-pays", rig_and_percent),
        (Due::GlassDecides { .. }, _) => words.say("glass-note", rig_and_percent),
        (Due::LineCrossed { priced: true, .. }, _) => words.say("note-membrane-weigh", rig_and_percent),
        (Due::LineCrossed { priced: false, .. }, _) => words.say("note-membrane-weigh-prices", rig_and_percent),
    }
}

/// The buttons of a note, from the top.
pub fn presses(topic: Topic) -> &'static [Press] {
    match topic {
        Topic::Resin => &[Press::Done, Press::NotNow],
        Topic::Membrane | Topic::Prefilters => &[Press::Done, Press::InAWeek, Press::NotNow],
        Topic::Idle5 | Topic::Idle14 => &[Press::Done, Press::NotNow],
        Topic::Idle30 => &[Press::Done, Press::InAWeek, Press::NotNow],
        Topic::Frost => &[Press::InAWeek, Press::NotNow],
        Topic::AskMembrane => &[Press::NewMembrane, Press::SameMembrane, Press::InAWeek],
    }
}

/// What a button shows.
pub fn label(words: Words, topic: Topic, press: Press) -> String {
    words.plain(match (press, topic) {
        (Press::Done, Topic::Idle5 | Topic::Idle14) => "note-press-flushed",
        (Press::Done, Topic::Idle30) => "note-press-preserved",
        (Press::Done, Topic::Prefilters) => "note-press-changed-filters",
        (Press::Done, _) => "note-press-changed",
        (Press::InAWeek, _) => "note-press-week",
        (Press::NotNow, Topic::Resin | Topic::Frost) => "note-press-ok",
        (Press::NotNow, Topic::Idle5 | Topic::Idle14 | Topic::Idle30) => "note-press-works",
        (Press::NotNow, _) => "note-press-not-now",
        (Press::NewMembrane, _) => "note-press-new",
        (Press::SameMembrane, _) => "note-press-same",
    })
}

/// The answer to a press or its text that records no service.
pub fn answered(words: Words, press: Press) -> String {
    words.plain(match press {
        Press::InAWeek => "note-answer-week",
        Press::Done | Press::NotNow | Press::NewMembrane | Press::SameMembrane => "note-answer-ok",
    })
}
