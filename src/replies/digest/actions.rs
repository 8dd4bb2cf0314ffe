//! One thing to do, in one or two short lines: what, why, by when, and what it
//! saves or risks.

use jiff::civil::Date;

use crate::digest::action::{Item, Subject};
use crate::digest::{Action, Kind};
use crate::message::setting::Currency;
use crate::replies::Words;
use crate::replies::figures::{self, spoken};
use crate::water::assess::Doubted;
use crate::water::jump::NextTest;
use crate::water::verdict::{Deed, Due};

use super::lists;

/// Rigs that an action names; the table has the others.
const MOST_NAMED: usize = 3;

/// The actions, numbered from `first` on; the second line of each stands under
/// its first.
pub fn numbered(words: Words, actions: &[Action], first: usize, today: Date, currency: Option<Currency>) -> String {
    let told = |(action, number): (&Action, usize)| {
        let said = told(words, action, today, currency).replace('\n', "\n    ");
        format!("{number}. {said}")
    };
    let lines: Vec<String> = actions.iter().zip(first..).map(told).collect();
    lines.join("\n")
}

fn told(words: Words, action: &Action, today: Date, currency: Option<Currency>) -> String {
    match action.items.as_slice() {
        [item] => {
            let said = one(words, item, today, currency);
            if item.mondays < 2 {
                return said;
            }
            let since = spoken::since_day(words, item.since, today);
            words.say(
                "digest-open-since",
                [("said", (&said).into()), ("since", (&since).into())],
            )
        }
        items => {
            let names: Vec<String> = items.iter().map(|item| short(words, item, today, currency)).collect();
            let rigs = lists::some(words, &names, MOST_NAMED);
            let first = items.first().map_or("", |item| item.subject.name());
            words.say(many_key(action), [("rigs", (&rigs).into()), ("rig", first.into())])
        }
    }
}

/// What one rig or person of an action wants, as a text of one or two lines.
pub fn one(words: Words, item: &Item, today: Date, currency: Option<Currency>) -> String {
    let name = item.subject.name();
    match (&item.subject, &item.deed) {
        (Subject::Rig(..), asked) => {
            let deed = deed(words, name, asked, today, currency);
            words.say("digest-deed", [("rig", name.into()), ("deed", (&deed).into())])
        }
        (_, asked) => deed(words, name, asked, today, currency),
    }
}

/// What is to be done, and below it why, without the rig's name.
pub fn deed(words: Words, name: &str, asked: &Deed, today: Date, currency: Option<Currency>) -> String {
    let rig = || ("rig", name.into());
    match asked {
        Deed::ChangeResin { product_ppm } => words.say(
            "digest-change-resin",
            [rig(), ("ppm", (&figures::ppm(words, *product_ppm)).into())],
        ),
        Deed::RepackResin { product_ppm, will_spot } => {
            let key = if *will_spot {
                "digest-repack-resin-spots"
            } else {
                "digest-repack-resin"
            };
            words.say(key, [rig(), ("ppm", (&figures::ppm(words, *product_ppm)).into())])
        }
        Deed::ResinSoon {
            at_hand_by, change_by, ..
        } => resin_soon(words, (*at_hand_by, *change_by), today),
        Deed::ReadAgain { seen, why } => read_again(words, *seen, *why),
        Deed::FindLeak { .. } => leak(words, asked, today, currency),
        Deed::NewMembrane { .. } => membrane(words, asked, today, currency),
        Deed::Prefilters { due, overdue: true } => {
            let since = spoken::since_day(words, *due, today);
            words.say("digest-prefilters-overdue", [rig(), ("since", (&since).into())])
        }
        Deed::Prefilters { due, overdue: false } => {
            let by = spoken::by_day(words, *due, today);
            words.say("digest-prefilters", [rig(), ("by", (&by).into())])
        }
        Deed::Flush { worked, flushed } => words.say(
            "digest-flush",
            [
                rig(),
                ("flushed", i64::from(*flushed).into()),
                ("worked", i64::from(*worked).into()),
            ],
        ),
        Deed::AskMembrane { since } => {
            let since = spoken::since_day(words, *since, today);
            words.say("digest-ask-membrane", [rig(), ("since", (&since).into())])
        }
        Deed::IdleRig { days, preserve, .. } => {
            let key = if *preserve {
                "digest-idle-preserve"
            } else {
                "digest-idle-flush"
            };
            words.say(key, [rig(), ("days", i64::from(*days).into())])
        }
        Deed::Frost { water_c: Some(celsius) } => words.say(
            "digest-frost-water",
            [("water", (&spoken::temperature(*celsius)).into())],
        ),
        Deed::Frost { water_c: None } => words.plain("digest-frost-season"),
        Deed::QuietRig { last } => {
            let since = spoken::since_day(words, *last, today);
            words.say("digest-quiet-rig", [rig(), ("since", (&since).into())])
        }
        Deed::QuietPerson { before } => words.say(
            "digest-quiet-person",
            [("name", name.into()), ("before", i64::from(*before).into())],
        ),
    }
}

fn read_again(words: Words, seen: f64, why: Doubted) -> String {
    let seen = figures::percent(words, seen);
    match why {
        Doubted::Far { usual } => {
            let usual = figures::whole_percent(usual);
            words.say(
                "digest-read-again",
                [("seen", (&seen).into()), ("usual", (&usual).into())],
            )
        }
        Doubted::Back => words.plain("digest-read-again-back"),
        Doubted::LowUnproven => words.say("digest-read-again-low", [("seen", (&seen).into())]),
    }
}

fn resin_soon(words: Words, (at_hand_by, change_by): (Date, Date), today: Date) -> String {
    if change_by <= today {
        return words.plain("digest-resin-today");
    }
    let (hand, by) = (
        spoken::by_day(words, at_hand_by, today),
        spoken::by_day(words, change_by, today),
    );
    if at_hand_by >= change_by {
        return words.say("digest-resin-by", [("by", (&by).into())]);
    }
    words.say("digest-resin-soon", [("hand", (&hand).into()), ("by", (&by).into())])
}

fn leak(words: Words, deed: &Deed, today: Date, currency: Option<Currency>) -> String {
    let Deed::FindLeak {
        since,
        permeate_ppm,
        next_test,
        costs_per_month,
        ..
    } = deed
    else {
        return String::new();
    };
    let since = spoken::since_day(words, *since, today);
    let test = words.plain(match next_test {
        NextTest::RunRinseReadAgain => "digest-test-read-again",
        NextTest::LookAtHosesAndBypass => "digest-test-hoses",
        NextTest::LookAtORings => "digest-test-orings",
        NextTest::TestChlorineAfterCarbon => "digest-test-chlorine",
    });
    let Some((before, after)) = permeate_ppm else {
        return words.say(
            "digest-leak-since",
            [("test", (&test).into()), ("since", (&since).into())],
        );
    };
    let (before, after) = (figures::ppm(words, *before), figures::ppm(words, *after));
    let said = words.say(
        "digest-leak",
        [
            ("test", (&test).into()),
            ("since", (&since).into()),
            ("before", (&before).into()),
            ("after", (&after).into()),
        ],
    );
    let Some(cost) = costs_per_month.filter(|cost| *cost >= 1.0) else {
        return said;
    };
    let money = spoken::about(words, cost, currency);
    words.say(
        "digest-leak-cost",
        [("said", (&said).into()), ("money", (&money).into())],
    )
}

fn membrane(words: Words, deed: &Deed, today: Date, currency: Option<Currency>) -> String {
    let Deed::NewMembrane {
        due,
        rejection,
        waiting_per_month,
        rule_of_thumb_costs,
    } = deed
    else {
        return String::new();
    };
    let worth_saying = |amount: &Option<f64>| amount.filter(|amount| *amount >= 1.0);
    match (due, worth_saying(waiting_per_month), worth_saying(rule_of_thumb_costs)) {
        (Due::Now, Some(waiting), _) => {
            let money = spoken::about(words, waiting, currency);
            words.say("digest-membrane-now", [("money", (&money).into())])
        }
        (Due::Now, None, _) => words.plain("digest-membrane-pays"),
        (Due::About { likely, .. }, _, Some(dearer)) => {
            let (window, money) = (when(words, *due, today), spoken::about(words, dearer, currency));
            let likely = figures::rough(words, *likely, today);
            words.say(
                "digest-membrane-between-saves",
                [
                    ("likely", (&likely).into()),
                    ("window", (&window).into()),
                    ("money", (&money).into()),
                ],
            )
        }
        (Due::About { likely, .. }, _, None) => {
            let window = when(words, *due, today);
            let likely = figures::rough(words, *likely, today);
            words.say(
                "digest-membrane-between",
                [("likely", (&likely).into()), ("window", (&window).into())],
            )
        }
        (Due::GlassDecides { .. }, ..) => {
            let percent = figures::percent(words, *rejection);
            words.say("glass-digest", [("percent", (&percent).into())])
        }
        (Due::LineCrossed { priced, .. }, ..) => {
            let key = if *priced {
                "digest-membrane-weigh-later"
            } else {
                "digest-membrane-weigh"
            };
            let percent = figures::percent(words, *rejection);
            words.say(key, [("percent", (&percent).into())])
        }
    }
}

/// "between now and mid December".
fn when(words: Words, due: Due, today: Date) -> String {
    let Due::About { early, late, .. } = due else {
        return words.plain("digest-window-now");
    };
    let part = |date: Date| figures::rough(words, date, today);
    if early <= today {
        return words.say("digest-window-until", [("late", (&part(late)).into())]);
    }
    words.say(
        "digest-window-between",
        [("early", (&part(early)).into()), ("late", (&part(late)).into())],
    )
}

/// An item among several: its name and the one fact that counts.
fn short(words: Words, item: &Item, today: Date, currency: Option<Currency>) -> String {
    let fact = match &item.deed {
        Deed::ChangeResin { product_ppm } | Deed::RepackResin { product_ppm, .. } => words.say(
            "digest-short-ppm",
            [("ppm", (&figures::ppm(words, *product_ppm)).into())],
        ),
        Deed::ResinSoon { change_by, .. } => spoken::by_day(words, *change_by, today),
        Deed::FindLeak {
            since,
            permeate_ppm: Some((before, after)),
            ..
        } => {
            let (before, after) = (figures::ppm(words, *before), figures::ppm(words, *after));
            let since = spoken::since_day(words, *since, today);
            words.say(
                "digest-short-jump",
                [
                    ("since", (&since).into()),
                    ("before", (&before).into()),
                    ("after", (&after).into()),
                ],
            )
        }
        Deed::ReadAgain { seen, .. } => figures::percent(words, *seen),
        Deed::AskMembrane { since } | Deed::FindLeak { since, .. } => spoken::since_day(words, *since, today),
        Deed::NewMembrane {
            due,
            waiting_per_month,
            rejection,
            ..
        } => match (due, waiting_per_month) {
            (Due::Now, Some(waiting)) => {
                let money = spoken::about(words, *waiting, currency);
                words.say("digest-short-month", [("money", (&money).into())])
            }
            (Due::LineCrossed { .. } | Due::GlassDecides { .. }, _) => figures::percent(words, *rejection),
            _ => when(words, *due, today),
        },
        Deed::Prefilters { due, overdue: true } => {
            let since = spoken::since_day(words, *due, today);
            words.say("digest-short-overdue", [("since", (&since).into())])
        }
        Deed::Prefilters { due, overdue: false } => spoken::by_day(words, *due, today),
        Deed::Flush { worked, flushed } => words.say(
            "digest-short-flush",
            [
                ("flushed", i64::from(*flushed).into()),
                ("worked", i64::from(*worked).into()),
            ],
        ),
        Deed::IdleRig { days, .. } => words.say("digest-short-days", [("days", i64::from(*days).into())]),
        Deed::QuietRig { last } => spoken::since_day(words, *last, today),
        Deed::QuietPerson { .. } | Deed::Frost { .. } => return item.subject.name().to_owned(),
    };
    words.say(
        "digest-short",
        [("rig", item.subject.name().into()), ("fact", (&fact).into())],
    )
}

fn many_key(action: &Action) -> &'static str {
    match action.kind {
        Kind::ChangeResin => "digest-many-change-resin",
        Kind::RepackResin => "digest-many-repack-resin",
        Kind::ResinSoon => "digest-many-resin-soon",
        Kind::FindLeak => "digest-many-leak",
        Kind::ReadAgain => "digest-many-read-again",
        Kind::NewMembrane if action.items.iter().all(is_up_to_the_glass) => "glass-digest-many",
        Kind::NewMembrane if action.items.iter().all(is_to_weigh) => "digest-many-membrane-weigh",
        Kind::NewMembrane => "digest-many-membrane",
        Kind::PlanMembrane => "digest-many-plan-membrane",
        Kind::Prefilters => "digest-many-prefilters",
        Kind::Flush => "digest-many-flush",
        Kind::AskMembrane => "digest-many-ask-membrane",
        Kind::IdleRig => "digest-many-idle",
        Kind::Frost => "digest-frost-season",
        Kind::QuietRig => "digest-many-quiet-rig",
        Kind::QuietPerson => "digest-many-quiet-person",
    }
}

/// Whether no price says, or not yet, when its membrane is renewed.
fn is_to_weigh(item: &Item) -> bool {
    let Deed::NewMembrane { due, .. } = &item.deed else {
        return false;
    };
    matches!(due, Due::LineCrossed { .. } | Due::GlassDecides { .. })
}

/// Whether no resin follows its membrane.
fn is_up_to_the_glass(item: &Item) -> bool {
    let Deed::NewMembrane { due, .. } = &item.deed else {
        return false;
    };
    matches!(due, Due::GlassDecides { .. })
}
