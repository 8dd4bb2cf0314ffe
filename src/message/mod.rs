//! Reads what a crew member typed: text, fleet and open question in, meaning out.
//!
//! Pure and total: no clock, no storage, and no text makes it fail. Recording a reading that was not said is the worst
//! error, so what is doubtful becomes a question and what is not about water stays chatter.
//!
//! The pipeline, a file per step: `tokens` -> `rig_name`, `rig_siblings` -> `phrases` (by the tables of `languages`) ->
//! `number_words` -> `times`, `strays` -> `clauses` -> `groups` (whose numbers) -> `labels`, `units` -> `adjacency`,
//! `readings`, `second_thoughts` -> `plausibility`; beside them `services`, `questions`, `corrections` with `denials`,
//! and `answers`; `asks` builds the questions back.

mod adjacency;
mod answers;
mod asks;
mod clauses;
pub mod command;
mod corrections;
mod denials;
mod groups;
mod labels;
mod languages;
mod meaning;
mod number_words;
mod phrases;
mod plausibility;
mod questions;
mod readings;
mod rig_name;
mod rig_siblings;
mod second_thoughts;
mod senses;
mod services;
pub mod setting;
mod strays;
mod times;
mod tokens;
mod units;

pub use meaning::{
    About, Ask, Choice, Correction, Label, Meaning, Query, Reading, Rig, Scene, Service, Solids, Topic, What, When,
};

use clauses::Clause;
use groups::{Group, Who};
use readings::Said;
use services::{Rigs, Told};
use tokens::{Kind, Token};

/// Reads one message. Never panics, takes time linear in the text, and gives an empty meaning for chatter.
pub fn read(text: &str, scene: &Scene) -> Meaning {
    let Some(tokens) = tokens::cut(text) else {
        return Meaning::default();
    };
    let tokens = rig_name::find(tokens, &scene.fleet);
    let tokens = phrases::join(tokens);
    let mut tokens = number_words::join(tokens);
    phrases::mend_slips(&mut tokens);
    let when = times::take(&mut tokens, scene.celsius);
    strays::take(&mut tokens);
    if let Some(meaning) = answer_to_nudge(&tokens, scene) {
        return meaning;
    }
    let clauses = clauses::split(&tokens);
    let fresh = read_fresh(&tokens, &clauses, when, scene);
    let Some(open) = &scene.open else { return fresh };
    // A reading that stands on its own supersedes the open question.
    if !fresh.readings.is_empty() && names_rig(&tokens) {
        return fresh;
    }
    match answers::find(&tokens, text, open, scene) {
        Some(mut answer) => {
            answer
                .readings
                .iter_mut()
                .for_each(|reading| reading.when = reading.when.or(when));
            answer
        }
        None => fresh,
    }
}

fn names_rig(tokens: &[Token]) -> bool {
    tokens.iter().any(|token| token.mention().is_some())
}

fn read_fresh(tokens: &[Token], clauses: &[Clause], when: Option<When>, scene: &Scene) -> Meaning {
    let queries = questions::find(tokens, clauses, scene);
    if queries.is_empty()
        && let Some(corrections) = corrections::find(tokens, when, scene)
    {
        return Meaning {
            corrections,
            ..Meaning::default()
        };
    }
    if scene.last.is_empty() && queries.is_empty() && corrections::is_orphan(tokens) {
        return Meaning::default();
    }
    if corrections::is_starred(tokens) && scene.last.is_empty() {
        let ask = asks::which_rig(Vec::new(), &[], "", scene);
        return Meaning {
            ask: Some(ask),
            ..Meaning::default()
        };
    }
    let mut meaning = read_values(tokens, clauses, when, scene);
    meaning.queries = queries;
    for told in services::find(tokens, clauses) {
        add_service(&mut meaning, &told, when, scene);
    }
    // "Resin changed, now 0 at the glass": the service is the news, no reading is missing.
    let only_product = |draft: &Reading| draft.feed.is_none() && draft.permeate.is_none();
    let asks_for_rest = |ask: &Ask| ask.about == About::MissingReading && ask.drafts.iter().all(only_product);
    if !meaning.services.is_empty() && meaning.ask.as_ref().is_some_and(asks_for_rest) {
        meaning.ask = None;
    }
    meaning
}

/// The readings of all clauses that state something, checked; the first doubt becomes the question.
fn read_values(tokens: &[Token], clauses: &[Clause], when: Option<When>, scene: &Scene) -> Meaning {
    let mut meaning = Meaning::default();
    let counts = |clause: &&Clause| {
        (clause.states() || (clause.only_marked && !clause.supposes)) && is_about_values(tokens, clause)
    };
    // "Should be 180/12": of a reading that is not known, so that it is asked whether this is one.
    let should_be = scene.last.is_empty() && tokens.iter().any(|token| token.word() == Some("should be"));
    let doubtful = should_be || clauses.iter().filter(counts).any(|clause| clause.only_marked);
    let stated: Vec<usize> = clauses
        .iter()
        .filter(counts)
        .flat_map(|clause| clause.span.clone())
        .collect();
    for group in groups::split(tokens, &stated) {
        let Some(said) = readings::assemble(tokens, &group, scene) else {
            continue;
        };
        let drafts = with_rigs(&said, &group, when, scene);
        match drafts {
            Ok(drafts) => {
                for draft in drafts {
                    let doubt = said.doubt.or(doubtful.then_some(About::Implausible));
                    take(&mut meaning, judge(draft, doubt, scene));
                }
            }
            Err(Some(ask)) => take(&mut meaning, Err(ask)),
            Err(None) => {}
        }
    }
    if doubtful && !names_rig(tokens) {
        return Meaning::default();
    }
    meaning
}

/// Clauses without number, name or place holder say nothing of values, and their words do not count.
fn is_about_values(tokens: &[Token], clause: &Clause) -> bool {
    let words = &tokens[clause.span.clone()];
    // "Rig: Falcon" on a line of its own names a rig, known or not.
    let names = words.iter().any(|token| token.has(senses::Sense::Vehicle)) && words.iter().any(Token::is_unknown);
    let short = words.iter().filter(|token| token.word().is_some()).count() <= 3;
    (names && short)
        || clause.span.clone().any(|at| {
            let token = &tokens[at];
            token.mention().is_some() || (token.number().is_some() && !token.spent) || token.is_mark('%')
        })
}

/// Gives the values their rig, or says why that takes a question.
fn with_rigs(said: &Said, group: &Group, when: Option<When>, scene: &Scene) -> Result<Vec<Reading>, Option<Ask>> {
    let draft = Reading {
        when,
        ..said.reading.clone()
    };
    let of = |rig: i64| Reading {
        rig: Some(rig),
        ..draft.clone()
    };
    match &group.who {
        Who::Rigs(rigs, _) => Ok(rigs.iter().map(|&rig| of(rig)).collect()),
        Who::OneOf(rigs, typed) => Err(Some(asks::which_rig(vec![draft], rigs, typed, scene))),
        Who::Unknown(typed) => Err(Some(asks::unknown_rig(vec![draft], typed, scene))),
        Who::Nobody if !said.nothing_else => {
            let typed = said.unknown.join(" ");
            let whole = said.doubt.is_none() && said.unknown.iter().all(|word| word.len() > 2);
            Err(whole.then(|| asks::unknown_rig(vec![draft], &typed, scene)))
        }
        Who::Nobody => match own_or_only(scene) {
            Some(rig) => Ok(vec![of(rig)]),
            None => Err(Some(asks::which_rig(vec![draft], &[], "", scene))),
        },
    }
}

fn own_or_only(scene: &Scene) -> Option<i64> {
    match scene.fleet.as_slice() {
        [only] => Some(only.id),
        _ => scene.own_rig,
    }
}

fn take(meaning: &mut Meaning, judged: Result<Reading, Ask>) {
    match judged {
        Ok(reading) => meaning.readings.push(reading),
        // One question at a time: the first.
        Err(ask) => meaning.ask = meaning.ask.take().or(Some(ask)),
    }
}

/// A reading of a known rig is ready, or a question is due.
fn judge(draft: Reading, doubt: Option<About>, scene: &Scene) -> Result<Reading, Ask> {
    let rig = scene.fleet.iter().find(|rig| Some(rig.id) == draft.rig);
    let implausible = plausibility::doubt(&draft, rig);
    // Which way round comes first: it says more than "is that right?".
    let about = match (doubt, implausible) {
        (None | Some(About::Implausible), Some(About::Swapped)) => Some(About::Swapped),
        (Some(doubt), _) => Some(doubt),
        (None, implausible) => implausible,
    };
    match about {
        Some(about) => Err(asks::about_values(about, draft)),
        None => Ok(draft),
    }
}

/// Drafts whose question was answered: ready, or asked on for what is still missing or strange.
fn sort_out(drafts: Vec<Reading>, answered: About, scene: &Scene) -> Meaning {
    let mut meaning = Meaning::default();
    for draft in drafts {
        if draft.rig.is_none() {
            take(&mut meaning, Err(asks::which_rig(vec![draft], &[], "", scene)));
            continue;
        }
        let missing = (!is_complete(&draft, scene)).then_some(About::MissingReading);
        let judged = judge(draft, missing, scene).or_else(|ask| {
            let settled = matches!(answered, About::Swapped | About::Implausible) && ask.about == answered;
            if settled {
                ask.drafts.first().cloned().ok_or(ask)
            } else {
                Err(ask)
            }
        });
        take(&mut meaning, judged);
    }
    meaning
}

fn is_complete(draft: &Reading, scene: &Scene) -> bool {
    let di_only = scene.fleet.iter().any(|rig| Some(rig.id) == draft.rig && rig.di_only);
    draft.feed.is_some() && (draft.permeate.is_some() || (di_only && draft.product.is_some()))
}

fn add_service(meaning: &mut Meaning, told: &Told, when: Option<When>, scene: &Scene) {
    let mut done = |rig: i64| {
        let service = Service {
            rig,
            what: told.what,
            minutes: told.minutes,
            price_minor: None,
            when,
        };
        meaning.services.push(service);
    };
    match &told.rigs {
        Rigs::Named(rigs) => rigs.iter().for_each(|&rig| done(rig)),
        Rigs::All if told.unknown > 1 => {}
        Rigs::All if scene.may_speak_for_all => {
            let flush = told.what == What::Flush;
            let meant = |rig: &&Rig| !flush || (rig.manual_flush && rig.worked_today);
            scene.fleet.iter().filter(meant).for_each(|rig| done(rig.id));
        }
        Rigs::Unclear(rigs, typed) => {
            let ask = asks::which_rig_for(told.what, rigs, typed, scene);
            meaning.ask = meaning.ask.take().or(Some(ask));
        }
        Rigs::Nobody | Rigs::All => match meaning.readings.as_slice() {
            [reading] if told.rigs == Rigs::Nobody => reading.rig.into_iter().for_each(done),
            // Without a rig only a message about nothing else is about a rig at all.
            _ if told.unknown > 0 || !meaning.queries.is_empty() => {}
            _ => match (own_or_only(scene), &told.rigs) {
                (Some(rig), Rigs::Nobody) => done(rig),
                _ => {
                    let ask = asks::which_rig_for(told.what, &[], "", scene);
                    meaning.ask = meaning.ask.take().or(Some(ask));
                }
            },
        },
    }
}

/// "Done" or a thumb up behind a flush nudge; "not used".
fn answer_to_nudge(tokens: &[Token], scene: &Scene) -> Option<Meaning> {
    use senses::Sense;
    let rig = scene.nudged?;
    let has = |sense: Sense| tokens.iter().any(|token| token.has(sense));
    let plain = tokens
        .iter()
        .all(|token| !token.is_unknown() && token.number().is_none() || token.spent);
    let others = tokens
        .iter()
        .filter_map(Token::mention)
        .any(|mention| mention.rigs != [rig]);
    if !plain
        || others
        || has(Sense::Intent)
        || has(Sense::Later)
        || has(Sense::Asks)
        || tokens.iter().any(|token| token.is_mark('?'))
    {
        return None;
    }
    if has(Sense::NotUsed) {
        return Some(Meaning {
            not_used: Some(rig),
            ..Meaning::default()
        });
    }
    let thumb = tokens.iter().any(|token| token.kind == Kind::Yes);
    let done = thumb || has(Sense::Finished) || has(Sense::Flushed);
    if !done || has(Sense::Not) || has(Sense::Yet) || has(Sense::No) {
        return None;
    }
    let service = Service {
        rig,
        what: What::Flush,
        minutes: None,
        price_minor: None,
        when: None,
    };
    Some(Meaning {
        services: vec![service],
        ..Meaning::default()
    })
}
