//! Reads what a crew member typed: text, fleet and open question in, meaning out.
//!
//! Pure and total: no clock, no storage, and no text makes it fail. Recording a reading that was not said is the worst
//! error, so what is doubtful becomes a question and what is not about water stays chatter.
//!
//! The pipeline, a file per step: `tokens` -> `rig_name`, `rig_siblings` -> `phrases` (by the tables of `languages`) ->
//! `number_words` -> `times` (`clock`, `days`, `dates`), `strays`, `framing` -> `clauses` -> `groups` -> `labels`, `label_pairs`, `units` -> `adjacency`,
//! `readings`, `second_thoughts`, `hearsay` -> `whose` -> `plausibility`; beside them `services` (`portions`, `prices`), `questions`,
//! `corrections` with `denials` and `moves`, `amends`, `answers` with `which`, and `nudged`; `asks` builds the questions back.

#![allow(
    clippy::result_large_err,
    reason = "a question is no failure here but the other outcome, and goes no further than two calls"
)]

mod adjacency;
mod amends;
mod answers;
mod asks;
pub mod attempt;
mod clauses;
mod clock;
pub mod command;
mod corrections;
mod dates;
mod days;
mod denials;
mod details;
mod framing;
mod groups;
mod hearsay;
mod label_pairs;
mod labels;
mod languages;
mod meaning;
mod moves;
mod name_slips;
mod nudged;
mod number_words;
mod phrases;
mod plausibility;
mod portions;
mod prices;
mod query;
mod questions;
mod readings;
mod rig_name;
mod rig_siblings;
mod second_thoughts;
mod senses;
mod services;
pub mod setting;
pub mod setup;
mod spans;
mod strays;
mod term;
mod times;
mod tokens;
mod topics;
mod units;
mod weight;
mod which;
mod whose;
mod withdrawals;

pub use meaning::{
    About, Amend, Ask, Choice, Correction, Label, Meaning, Postponed, Price, Reading, Rig, Scene, Service, Solids,
    Told, What, When,
};
pub use query::{Detail, Query, Span, Topic};
pub use term::Term;

use clauses::Clause;
use senses::Sense;
use times::Times;
use tokens::Token;

/// Reads one message. Never panics, takes time linear in the text, and gives an empty meaning for chatter.
pub fn read(text: &str, scene: &Scene) -> Meaning {
    let Some(tokens) = tokens::cut(text) else {
        return Meaning::default();
    };
    let tokens = rig_name::find(tokens, &scene.fleet);
    let tokens = phrases::join(tokens);
    let mut tokens = number_words::join(tokens);
    phrases::mend_slips(&mut tokens);
    let times = times::take(&mut tokens, scene);
    strays::take(&mut tokens);
    framing::take_samples(&mut tokens);
    if let Some(meaning) = nudged::answer(&tokens, &times, scene) {
        return meaning;
    }
    let clauses = clauses::split(&tokens);
    let fresh = read_fresh(&tokens, &clauses, &times, scene);
    let Some(open) = &scene.open else { return fresh };
    // A reading that stands on its own supersedes the open question, and one that is doubtful too is asked about anew.
    let doubted = fresh.ask.as_ref().is_some_and(is_about_pair);
    if (!fresh.readings.is_empty() || doubted) && names_rig(&tokens) {
        return fresh;
    }
    match answers::find(&tokens, text, open, scene) {
        Some(mut answer) => {
            answer
                .readings
                .iter_mut()
                .for_each(|reading| reading.when = reading.when.or_else(|| times.of_all()));
            answer
        }
        None => fresh,
    }
}

fn is_about_pair(ask: &Ask) -> bool {
    let values = matches!(ask.about, About::Swapped | About::Implausible | About::WhichIsWhich);
    let pair = |draft: &Reading| draft.feed.is_some() && draft.permeate.or(draft.product).is_some();
    values && !ask.drafts.is_empty() && ask.drafts.iter().all(pair)
}

fn names_rig(tokens: &[Token]) -> bool {
    tokens.iter().any(|token| token.mention().is_some())
}

fn read_fresh(tokens: &[Token], clauses: &[Clause], times: &Times, scene: &Scene) -> Meaning {
    let when = times.of_all();
    let queries = questions::find(tokens, clauses, scene);
    let may_correct = queries.is_empty() && (!scene.overheard || corrections::is_plain(tokens, scene));
    if may_correct
        && !scene.last_services.is_empty()
        && let Some(amends) = amends::find(tokens, when, scene)
    {
        return Meaning {
            amends,
            ..Meaning::default()
        };
    }
    let of_readings = scene.last_services.is_empty() || corrections::is_of_reading(tokens, scene);
    if may_correct
        && of_readings
        && let Some(corrections) = corrections::find(tokens, when, scene)
    {
        return Meaning {
            corrections,
            ..Meaning::default()
        };
    }
    let nothing_to_change = scene.last.is_empty() || !of_readings;
    if nothing_to_change && queries.is_empty() && corrections::is_orphan(tokens) {
        return Meaning::default();
    }
    if corrections::is_starred(tokens) && !of_readings {
        return Meaning::default();
    }
    if corrections::is_starred(tokens) && scene.last.is_empty() {
        let ask = asks::which_rig(Vec::new(), &[], "", scene);
        return Meaning {
            ask: Some(ask),
            ..Meaning::default()
        };
    }
    let mut meaning = read_values(tokens, clauses, times, scene);
    meaning.queries = queries;
    for deed in services::find(tokens, clauses) {
        whose::add_deed(&mut meaning, &deed, when, scene);
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
fn read_values(tokens: &[Token], clauses: &[Clause], times: &Times, scene: &Scene) -> Meaning {
    let mut meaning = Meaning::default();
    let counts = |clause: &&Clause| {
        (clause.states() || (clause.only_marked && !clause.supposes)) && is_about_values(tokens, clause)
    };
    // "Should be 180/12": of a reading that is not known, so that it is asked whether this is one.
    let numbers = tokens.iter().position(|token| token.number().is_some() && !token.spent);
    let said = tokens.iter().position(|token| token.has(Sense::ShouldBe));
    let should_be = scene.last.is_empty() && said.is_some() && said < numbers;
    let doubtful = should_be || clauses.iter().filter(counts).any(|clause| clause.only_marked);
    let stated: Vec<usize> = clauses
        .iter()
        .filter(counts)
        .flat_map(|clause| clause.span.clone())
        .collect();
    let is_value = |&at: &usize| tokens[at].number().is_some() && !tokens[at].spent;
    let mut groups = groups::split(tokens, &stated);
    groups.retain(|group| group.indices.iter().any(is_value) || readings::assemble(tokens, group, scene).is_some());
    for (place, group) in groups.iter().enumerate() {
        let Some(said) = readings::assemble(tokens, group, scene) else {
            continue;
        };
        let first = group.indices.iter().copied().find(is_value).unwrap_or_default();
        let when = times.of_one(place, groups.len(), &group.indices, first);
        match whose::readings(tokens, &said, group, when, scene) {
            Ok(drafts) => {
                for draft in drafts {
                    let unsure = times.unsure.then_some(About::WhichIsWhich);
                    let doubt = said.doubt.or(unsure).or(doubtful.then_some(About::Implausible));
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
    let names = words.iter().any(|token| token.has(Sense::Vehicle)) && words.iter().any(Token::is_unknown);
    let short = words.iter().filter(|token| token.word().is_some()).count() <= 3;
    (names && short)
        || clause.span.clone().any(|at| {
            let token = &tokens[at];
            token.mention().is_some() || (token.number().is_some() && !token.spent) || token.is_mark('%')
        })
}

fn take(meaning: &mut Meaning, judged: Result<Reading, Ask>) {
    match judged {
        Ok(reading) => meaning.readings.push(reading),
        // One question at a time: the first. What else has only one reading is asked for when that is answered.
        Err(ask) => match &mut meaning.ask {
            Some(first) if first.about == About::MissingReading && ask.about == About::MissingReading => {
                first.drafts.extend(ask.drafts);
            }
            Some(_) => {}
            None => meaning.ask = Some(ask),
        },
    }
}

/// The question whether a reading is to be noted at all.
pub fn ask_whether(draft: Reading) -> Ask {
    asks::about_values(About::Implausible, draft)
}

/// Whether the values of a reading are strange, by physics or by what its rig has shown.
pub fn is_strange(draft: &Reading, scene: &Scene) -> bool {
    let rig = scene.fleet.iter().find(|rig| Some(rig.id) == draft.rig);
    plausibility::doubt(draft, rig).is_some()
}

/// A reading of a known rig is ready, or a question is due.
fn judge(draft: Reading, doubt: Option<About>, scene: &Scene) -> Result<Reading, Ask> {
    let rig = scene.fleet.iter().find(|rig| Some(rig.id) == draft.rig);
    let ahead = (draft.when == Some(When::Ahead)).then_some(About::Implausible);
    let implausible = plausibility::doubt(&draft, rig).or(ahead);
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

#[cfg(test)]
mod tests {
    use super::*;

    /// German stands in the tables of unit tests only.
    #[test]
    fn a_language_more_is_a_table_more() {
        let scene = Scene {
            fleet: vec![Rig {
                id: 1,
                name: "Heron".to_string(),
                ..Rig::default()
            }],
            ..Scene::default()
        };
        let ppm = |solids: Option<Solids>| solids.map(|solids| solids.ppm);
        for text in [
            "heron leitung 180 osmose 12",
            "heron 12 raus 180 rein",
            "guten morgen chef, heron leitung hundertachtzig und osmose zwölf",
            "heron 180/12 halb 8",
        ] {
            let meaning = read(text, &scene);
            let read: Vec<_> = meaning
                .readings
                .iter()
                .map(|one| (ppm(one.feed), ppm(one.permeate)))
                .collect();
            assert_eq!(read, [(Some(180.0), Some(12.0))], "{text}");
        }
        assert_eq!(read("heron gespült", &scene).services.len(), 1);
        assert!(read("heron nicht gespült", &scene).services.is_empty());
    }
}
