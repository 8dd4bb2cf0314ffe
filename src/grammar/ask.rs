//! Questions back to the sender, with at most three buttons that can be answered with one thumb.

use crate::domain::ServiceKind as What;
use crate::domain::meaning::{About, Ask, Choice, Label, Reading, Rig, Scene, Told};
use crate::language::lexer::fold;

const MOST_CHOICES: usize = 3;

fn question(about: About, drafts: Vec<Reading>, choices: Vec<Choice>) -> Ask {
    Ask {
        about,
        drafts,
        service: None,
        told: Told::default(),
        choices,
        typed_name: None,
    }
}

fn choice(label: Label, says: &str) -> Choice {
    Choice {
        label,
        says: says.to_string(),
    }
}

/// "Which rig was that?" `candidates` are the rigs that the name fits, or none.
pub fn which_rig(drafts: Vec<Reading>, candidates: &[i64], denied: &[i64], typed: &str, scene: &Scene) -> Ask {
    let fits = |rig: &&Rig| (candidates.is_empty() || candidates.contains(&rig.id)) && !denied.contains(&rig.id);
    let mut rigs: Vec<&Rig> = scene.fleet.iter().filter(fits).collect();
    let just_read = |rig: &Rig| scene.last.iter().any(|reading| reading.rig == Some(rig.id));
    rigs.sort_by_key(|rig| (Some(rig.id) != scene.own_rig, !just_read(rig), !rig.worked_today));
    let typed_name = (!typed.is_empty()).then(|| typed.to_string());
    Ask {
        typed_name,
        ..question(About::WhichRig, drafts, rig_choices(rigs))
    }
}

/// "I don't know ...": the nearest names stand on the buttons.
pub fn unknown_rig(drafts: Vec<Reading>, typed: &str, scene: &Scene) -> Ask {
    let folded = fold(typed);
    let distance = |rig: &Rig| {
        let name = fold(&rig.name);
        let shares = name
            .split(' ')
            .any(|word| word.len() > 1 && folded.split(' ').any(|other| other == word));
        if shares {
            1
        } else {
            strsim::osa_distance(&name, &folded)
        }
    };
    let near = |distance: usize| distance <= 1 || distance <= folded.chars().count() / 2;
    let mut rigs: Vec<(usize, &Rig)> = scene.fleet.iter().map(|rig| (distance(rig), rig)).collect();
    rigs.retain(|(distance, _)| near(*distance));
    rigs.sort_by_key(|(distance, _)| *distance);
    let choices = rig_choices(rigs.into_iter().map(|(_, rig)| rig).collect());
    Ask {
        typed_name: Some(typed.to_string()),
        ..question(About::UnknownRig, drafts, choices)
    }
}

fn rig_choices(mut rigs: Vec<&Rig>) -> Vec<Choice> {
    rigs.dedup_by_key(|rig| rig.id);
    rigs.truncate(MOST_CHOICES);
    rigs.into_iter()
        .map(|rig| choice(Label::Rig(rig.id), &rig.name))
        .collect()
}

/// A question about the values of a reading whose rig is known or asked later.
pub fn about_values(about: About, draft: Reading) -> Ask {
    let feed = draft.feed.map(|feed| feed.ppm);
    let permeate = draft.permeate.map(|permeate| permeate.ppm);
    let pair = |feed: f64, permeate: f64| choice(Label::Pair { feed, permeate }, &format!("tap {feed} RO {permeate}"));
    let choices = match (about, feed, permeate) {
        (About::Swapped, Some(feed), Some(permeate)) => {
            vec![pair(permeate, feed), choice(Label::AsSent, "as sent")]
        }
        (About::WhichIsWhich, Some(feed), Some(0.0)) if feed > 0.0 => {
            vec![choice(Label::Product(0.0), "glass 0"), choice(Label::AsSent, "as sent")]
        }
        (About::WhichIsWhich, Some(feed), Some(permeate)) if permeate != feed => {
            vec![
                pair(f64::max(feed, permeate), f64::min(feed, permeate)),
                choice(Label::Drop, "drop"),
            ]
        }
        (About::Implausible, _, _) => vec![choice(Label::Keep, "keep"), choice(Label::Drop, "drop")],
        _ => Vec::new(),
    };
    question(about, vec![draft], choices)
}

/// A question about a service: whether it was done, or how far. The rigs stand in the drafts.
pub fn about_service(about: About, what: What, told: Told, rigs: &[i64]) -> Ask {
    let drafts = rigs
        .iter()
        .map(|rig| Reading {
            rig: Some(*rig),
            ..Reading::default()
        })
        .collect();
    let choices = match about {
        About::UsedUp => vec![choice(Label::UsedUp, "used up"), choice(Label::Changed, "changed")],
        About::Portion => vec![choice(Label::Changed, "all changed"), choice(Label::Drop, "drop")],
        About::Again => vec![
            choice(Label::Same, "the same one"),
            choice(Label::Another, "another one"),
        ],
        About::Moved => vec![choice(Label::Changed, "all new"), choice(Label::Drop, "drop")],
        _ => Vec::new(),
    };
    Ask {
        service: Some(what),
        told,
        ..question(about, drafts, choices)
    }
}

/// "Undo Heron 180 -> 12?"
pub fn whether_undo(scene: &Scene) -> Ask {
    let choices = vec![choice(Label::Undo, "yes"), choice(Label::Leave, "no")];
    question(About::Undo, scene.last.clone(), choices)
}

/// The draft that an answer completes, which may name its rig; and the others, which are asked about after it.
pub fn draft_meant(ask: &Ask, rig: Option<i64>) -> Option<(&Reading, Vec<Reading>)> {
    let drafts = ask.drafts.as_slice();
    if drafts.len() > 1 && ask.about != About::MissingReading {
        return None;
    }
    let meant = match rig {
        Some(_) if drafts.len() > 1 => drafts.iter().position(|draft| draft.rig == rig)?,
        _ => 0,
    };
    let others = drafts
        .iter()
        .enumerate()
        .filter(|(at, _)| *at != meant)
        .map(|(_, draft)| draft.clone());
    Some((drafts.get(meant)?, others.collect()))
}
