//! The rest of the digest: table, shopping, who is quiet, jumps, and what
//! became of last week's actions.

use jiff::civil::Date;

use crate::digest::followed::{Followed, Outcome};
use crate::digest::headline::Headline;
use crate::digest::shopping::{Good, Purchase, Shopping};
use crate::digest::week::Jump;
use crate::digest::{Digest, Kind};
use crate::message::setting::Currency;
use crate::replies::Words;
use crate::replies::figures::{self, spoken};

use super::{FEW_RIGS, actions, lists, table};

/// Telegram takes 4096 UTF-16 units; a message stays well under that.
pub const MOST_UNITS: usize = 3600;
/// Rows and names shown, from generous to what always fits.
const SIZES: [(usize, usize); 7] = [(30, 60), (20, 30), (14, 14), (8, 8), (4, 4), (2, 2), (1, 1)];

/// The rest of the digest, one phone message. A fleet too large for it is told
/// as far as it fits, most urgent first, and how many follow. None when the
/// first message has said it all: then it gets no button.
pub fn text(words: Words, digest: &Digest, currency: Option<Currency>) -> Option<String> {
    let mut told = None;
    for (rows, names) in SIZES {
        told = with(words, digest, currency, rows, names);
        if told
            .as_ref()
            .is_none_or(|told| told.encode_utf16().count() <= MOST_UNITS)
        {
            break;
        }
    }
    told
}

fn with(words: Words, digest: &Digest, currency: Option<Currency>, rows: usize, names: usize) -> Option<String> {
    let sections = [
        then(words, digest, currency),
        table::lines(words, digest, rows, names),
        shopping(words, &digest.shopping, currency, names.min(12)),
        quiet(words, digest, names.min(12)),
        jumps(words, digest, names.min(12)),
        followed(words, digest, names.min(12)),
    ];
    let told: Vec<String> = sections
        .into_iter()
        .filter(|lines| !lines.is_empty())
        .map(|lines| lines.join("\n"))
        .collect();
    (!told.is_empty()).then(|| told.join("\n\n"))
}

/// The actions that the first message had no room for, numbered on.
fn then(words: Words, digest: &Digest, currency: Option<Currency>) -> Vec<String> {
    if digest.later.is_empty() {
        return Vec::new();
    }
    let mut lines = vec![words.plain("digest-then-title")];
    lines.push(actions::numbered(
        words,
        &digest.later,
        digest.actions.len() + 1,
        digest.today,
        currency,
    ));
    lines
}

fn shopping(words: Words, shopping: &Shopping, currency: Option<Currency>, most: usize) -> Vec<String> {
    let mut lines = Vec::new();
    if !shopping.purchases.is_empty() {
        lines.push(words.plain("digest-shopping-title"));
    }
    lines.extend(
        shopping
            .purchases
            .iter()
            .map(|item| purchase(words, item, currency, most)),
    );
    if shopping.purchases.len() > 1 {
        lines.extend(shopping.total().map(|total| {
            let total = figures::sum(words, total, currency);
            words.say("digest-shopping-total", [("sum", (&total).into())])
        }));
    }
    let unpriced: usize = shopping.purchases.iter().map(|purchase| purchase.unpriced).sum();
    if unpriced > 0 {
        lines.push(words.plain("digest-shopping-unpriced"));
    }
    let to_weigh = (shopping.membranes_to_weigh.iter())
        .map(|(rig, _)| rig.clone())
        .collect();
    let uncounted = (shopping.resin_uncounted.iter()).map(|(rig, _)| rig.clone()).collect();
    for (key, rigs) in [
        ("digest-shopping-weigh", to_weigh),
        ("buy-glass", shopping.glass_decides.clone()),
        ("digest-shopping-uncounted", uncounted),
        ("digest-shopping-unlogged", shopping.prefilters_unlogged.clone()),
    ] {
        if !rigs.is_empty() {
            let rigs = lists::some(words, &rigs, most);
            lines.push(words.say(key, [("rigs", (&rigs).into())]));
        }
    }
    lines
}

fn purchase(words: Words, purchase: &Purchase, currency: Option<Currency>, most: usize) -> String {
    let names: Vec<String> = (purchase.rigs.iter())
        .map(|(rig, quantity)| match purchase.good {
            Good::Resin => {
                let quantity = figures::plain_number(words, *quantity);
                words.say(
                    "digest-litres-for",
                    [("rig", rig.into()), ("quantity", (&quantity).into())],
                )
            }
            Good::Prefilters | Good::Membrane => rig.clone(),
        })
        .collect();
    let (good, rigs) = (super::good(words, purchase), lists::some(words, &names, most));
    match purchase.cost {
        Some(cost) => {
            let cost = figures::sum(words, cost, currency);
            words.say(
                "digest-purchase-cost",
                [
                    ("good", (&good).into()),
                    ("rigs", (&rigs).into()),
                    ("cost", (&cost).into()),
                ],
            )
        }
        None => words.say("digest-purchase", [("good", (&good).into()), ("rigs", (&rigs).into())]),
    }
}

fn quiet(words: Words, digest: &Digest, most: usize) -> Vec<String> {
    let mut lines = Vec::new();
    // After a week without any reading the table says it of every rig.
    let is_silent = matches!(digest.headline, Headline::NoReadings { .. }) && digest.fleet.len() > FEW_RIGS;
    if !digest.quiet.rigs.is_empty() && !is_silent {
        let names: Vec<String> = (digest.quiet.rigs.iter())
            .map(|(rig, last)| {
                let last = match last {
                    Some(last) => spoken::since_day(words, *last, digest.today),
                    None => words.plain("digest-row-never"),
                };
                words.say(
                    "digest-quiet-rig-since",
                    [("rig", rig.into()), ("since", (&last).into())],
                )
            })
            .collect();
        let rigs = lists::some(words, &names, most);
        lines.push(words.say("digest-quiet-rigs", [("rigs", (&rigs).into())]));
    }
    if !digest.quiet.people.is_empty() {
        let names: Vec<String> = (digest.quiet.people.iter())
            .map(|person| {
                let count = i64::from(person.before).into();
                words.say("digest-quiet-name", [("name", (&person.name).into()), ("count", count)])
            })
            .collect();
        let people = lists::some(words, &names, most);
        lines.push(words.say("digest-quiet-people", [("people", (&people).into())]));
    }
    lines
}

fn jumps(words: Words, digest: &Digest, most: usize) -> Vec<String> {
    let told = |jumps: &[(String, Jump)], key: &str, date: fn(&Jump) -> Date| -> Vec<String> {
        let name = |(rig, jump): &(String, Jump)| {
            let on = spoken::on_day(words, date(jump), digest.today);
            let (before, after) = (
                figures::ppm(words, jump.before_ppm),
                figures::ppm(words, jump.after_ppm),
            );
            words.say(
                key,
                [
                    ("rig", rig.into()),
                    ("on", (&on).into()),
                    ("before", (&before).into()),
                    ("after", (&after).into()),
                ],
            )
        };
        jumps.iter().map(name).collect()
    };
    let opened = told(&digest.jumps_opened, "digest-jump", |jump| jump.opened_on);
    let closed = told(&digest.jumps_closed, "digest-jump-closed", |jump| {
        jump.closed_on.unwrap_or(jump.opened_on)
    });
    [("digest-jumps-opened", opened), ("digest-jumps-closed", closed)]
        .into_iter()
        .filter(|(_, names)| !names.is_empty())
        .map(|(key, names)| {
            let rigs = lists::some(words, &names, most);
            words.say(key, [("rigs", (&rigs).into())])
        })
        .collect()
}

fn followed(words: Words, digest: &Digest, most: usize) -> Vec<String> {
    let of = |wanted: fn(Outcome) -> bool| -> Vec<String> {
        let kept = digest.followed.iter().filter(|followed| wanted(followed.outcome));
        kept.filter_map(|followed| followed_name(words, followed)).collect()
    };
    let lines: Vec<String> = [
        (
            "digest-followed-done",
            of(|outcome| matches!(outcome, Outcome::Done(_))),
        ),
        ("digest-followed-open", of(|outcome| outcome == Outcome::Open)),
        (
            "digest-followed-said",
            of(|outcome| matches!(outcome, Outcome::SaidDone(_))),
        ),
        ("digest-followed-gone", of(|outcome| outcome == Outcome::NoLonger)),
    ]
    .into_iter()
    .filter(|(_, names)| !names.is_empty())
    .map(|(key, names)| {
        let items = lists::some(words, &names, most);
        words.say(key, [("items", (&items).into())])
    })
    .collect();
    if lines.is_empty() {
        return lines;
    }
    [vec![words.plain("digest-followed-title")], lines].concat()
}

fn followed_name(words: Words, followed: &Followed) -> Option<String> {
    let what = words.plain(match followed.kind {
        Kind::ChangeResin | Kind::ResinSoon => "digest-noun-resin",
        Kind::RepackResin => "digest-noun-repack",
        Kind::FindLeak => "digest-noun-leak",
        Kind::NewMembrane | Kind::PlanMembrane => "digest-noun-membrane",
        Kind::Prefilters => "digest-noun-prefilters",
        Kind::Flush => "digest-noun-flush",
        Kind::AskMembrane => "digest-noun-question",
        Kind::IdleRig => "digest-noun-idle",
        // Frost asks for no answer.
        Kind::Frost => return None,
        Kind::ReadAgain | Kind::QuietRig | Kind::QuietPerson => "digest-noun-readings",
    });
    Some(words.say(
        "digest-followed-name",
        [("name", (&followed.name).into()), ("what", (&what).into())],
    ))
}
