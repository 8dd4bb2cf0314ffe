//! Answers to a flush nudge: done, later, not used; of the rig that was asked about, or of each of several.

use super::ask;
use super::clause::Clause;
use super::frame::{one, rigs_of};
use super::item::Items;
use super::message::Message;
use super::role::Role;
use super::scope;
use crate::domain::ServiceKind as What;
use crate::domain::meaning::{About, Ask, Meaning, Postponed, Service, Told};
use crate::language::senses::{Sense, Senses};

const MOST_MINUTES: f64 = 12.0 * 60.0;

/// What is said of a rig that was asked about.
#[derive(Clone, Copy, PartialEq)]
enum Said {
    Flushed(Option<u16>),
    NotUsed,
    Later(Option<u16>),
}

/// What the text means as an answer to the nudge; `None` when it is something else.
pub fn answer(message: &Message) -> Option<Meaning> {
    let scene = message.scene;
    if scene.nudged.is_empty() || message.unknown() > 0 || message.has_mark("?") {
        return None;
    }
    let mut out = Meaning::default();
    if message.clauses.is_empty() && message.has_thumb() && message.scene.open.is_none() {
        let flushed = |rig: &i64| Service {
            rig: *rig,
            what: What::Flush,
            minutes: None,
            price: None,
            when: None,
        };
        let [rig] = &scene.nudged[..] else { return None };
        return Some(Meaning {
            services: vec![flushed(rig)],
            ..out
        });
    }
    let mut later: Option<Postponed> = None;
    let mut said_any = false;
    for clause in &message.clauses {
        let (hits, _) = rigs_of(clause);
        let named: Vec<i64> = hits
            .iter()
            .filter_map(one)
            .filter_map(|at| scene.fleet.get(at))
            .map(|rig| rig.id)
            .collect();
        if !hits.is_empty() && (named.len() < hits.len() || named.iter().any(|rig| !scene.nudged.contains(rig))) {
            return None;
        }
        let Some(said) = said(clause, message) else {
            let small = Senses::of([
                Sense::filler,
                Sense::chat,
                Sense::article,
                Sense::yes,
                Sense::no,
                Sense::sorry,
            ]);
            let silent = clause.items.iter().all(|item| item.mark.is_some() || item.any(small));
            if silent {
                continue;
            }
            return None;
        };
        said_any = true;
        let rigs = if named.is_empty() {
            scene.nudged.clone()
        } else {
            named.clone()
        };
        match said {
            Said::Flushed(minutes) if named.is_empty() && rigs.len() > 1 && !is_of_all(clause) => {
                let told = Told {
                    minutes,
                    price: None,
                    when: message.when(),
                };
                let asked = ask::which_rig(Vec::new(), &rigs, &[], "", scene);
                out.ask = Some(Ask {
                    about: About::WhichRig,
                    service: Some(What::Flush),
                    told,
                    ..asked
                });
            }
            Said::Flushed(minutes) => out.services.extend(rigs.iter().map(|&rig| Service {
                rig,
                what: What::Flush,
                minutes,
                price: None,
                when: message.when(),
            })),
            Said::NotUsed => out.not_used.extend(rigs),
            Said::Later(minutes) => {
                let postponed = later.get_or_insert(Postponed {
                    rigs: Vec::new(),
                    minutes,
                });
                postponed.rigs.extend(rigs);
                postponed.minutes = postponed.minutes.or(minutes);
            }
        }
    }
    out.postponed = later;
    said_any.then_some(out)
}

/// "Both done", "all flushed"
fn is_of_all(clause: &Clause) -> bool {
    clause.any(Senses::of([Sense::both, Sense::all]))
}

fn minutes_of(clause: &Clause) -> Option<u16> {
    let at = clause.roles.iter().position(|role| *role == Role::Minutes)?;
    clause.items[at]
        .value()
        .filter(|minutes| *minutes <= MOST_MINUTES)
        .map(|minutes| minutes.round() as u16)
}

/// What the words say. A yes or no belongs to an open question, if there is one.
fn said(clause: &Clause, message: &Message) -> Option<Said> {
    if clause.is(Sense::not_used) || clause.is(Sense::idle) {
        return Some(Said::NotUsed);
    }
    let done = clause.any(Senses::of([Sense::flushed, Sense::finished]));
    let phrase = clause
        .items
        .iter()
        .find(|item| item.is(Sense::stretch) && item.words > 1 && item.is_word());
    let bare = clause
        .items
        .iter()
        .zip(clause.roles)
        .find(|(_, role)| role.is_free() && clause.is(Sense::later));
    let bare = bare
        .and_then(|(item, _)| item.value())
        .filter(|minutes| *minutes <= 120.0);
    let stretch = phrase.map(|item| f64::from(item.value)).or(bare).or_else(|| {
        clause.items.windows(2).find_map(|two| {
            let length = f64::from(two[1].value.max(1));
            two[1]
                .is(Sense::stretch)
                .then(|| two[0].value().map(|count| count * length))
                .flatten()
        })
    });
    let put_off = clause.is(Sense::later) || !done && (stretch.is_some() || minutes_of(clause).is_some());
    if put_off && clause.size() <= 8 && !clause.is(Sense::flushed) {
        let minutes = stretch
            .filter(|minutes| (1.0..=MOST_MINUTES).contains(minutes))
            .map(|minutes| minutes as u16);
        return Some(Said::Later(minutes.or_else(|| minutes_of(clause))));
    }
    let denied = clause.any(Senses::of([
        Sense::not,
        Sense::no,
        Sense::plan,
        Sense::cond,
        Sense::modal,
    ]));
    if clause.size() > 8 || clause.roles.iter().any(|role| role.is_free()) || scope::is_question(clause) {
        return None;
    }
    let open = message.scene.open.is_some();
    let only = |sense: Sense| !open && clause.items.iter().all(|item| !item.is_word() || item.is(sense));
    if clause.is(Sense::no) && only(Sense::no) {
        return Some(Said::Later(None));
    }
    let thumb = message.has_thumb() && clause.size() <= 3;
    let yes = clause.is(Sense::yes) && only(Sense::yes) && !clause.is(Sense::noted);
    (!denied && (done || thumb || yes)).then(|| Said::Flushed(minutes_of(clause)))
}
