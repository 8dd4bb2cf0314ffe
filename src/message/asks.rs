//! Questions back to the sender, with at most three buttons that can be answered with one thumb.

use super::languages::fold;
use super::meaning::{About, Ask, Choice, Label, Reading, Rig, Scene, Told, What};

const MOST_CHOICES: usize = 3;

/// "Which rig was that?" `candidates` are the rigs that the name fits, or none.
pub fn which_rig(drafts: Vec<Reading>, candidates: &[i64], typed: &str, scene: &Scene) -> Ask {
    let fits = |rig: &&Rig| candidates.is_empty() || candidates.contains(&rig.id);
    let mut rigs: Vec<&Rig> = scene.fleet.iter().filter(fits).collect();
    let just_read = |rig: &Rig| scene.last.iter().any(|reading| reading.rig == Some(rig.id));
    rigs.sort_by_key(|rig| (Some(rig.id) != scene.own_rig, !just_read(rig), !rig.worked_today));
    let typed_name = (!typed.is_empty()).then(|| typed.to_string());
    Ask {
        about: About::WhichRig,
        drafts,
        service: None,
        told: Told::default(),
        choices: rig_choices(rigs),
        typed_name,
    }
}

/// "I don't know ...": the nearest names stand on the buttons.
pub fn unknown_rig(drafts: Vec<Reading>, typed: &str, scene: &Scene) -> Ask {
    let typed_folded = fold(typed);
    let distance = |rig: &Rig| {
        let name = fold(&rig.name);
        let shares_word = name
            .split(' ')
            .any(|word| word.len() > 1 && typed_folded.split(' ').any(|other| other == word));
        if shares_word {
            1
        } else {
            strsim::osa_distance(&name, &typed_folded)
        }
    };
    let near = |distance: usize| distance <= 1 || distance <= typed_folded.chars().count() / 2;
    let mut rigs: Vec<(usize, &Rig)> = scene.fleet.iter().map(|rig| (distance(rig), rig)).collect();
    rigs.retain(|(distance, _)| near(*distance));
    rigs.sort_by_key(|(distance, _)| *distance);
    let choices = rig_choices(rigs.into_iter().map(|(_, rig)| rig).collect());
    Ask {
        about: About::UnknownRig,
        drafts,
        service: None,
        told: Told::default(),
        choices,
        typed_name: Some(typed.to_string()),
    }
}

/// A service whose rig is not known.
pub fn which_rig_for(what: What, told: Told, candidates: &[i64], typed: &str, scene: &Scene) -> Ask {
    let named_none = !typed.is_empty() && candidates.is_empty();
    let ask = if named_none {
        unknown_rig(Vec::new(), typed, scene)
    } else {
        which_rig(Vec::new(), candidates, typed, scene)
    };
    Ask {
        service: Some(what),
        told,
        ..ask
    }
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
    let others = drafts.iter().enumerate().filter(|(at, _)| *at != meant);
    Some((drafts.get(meant)?, others.map(|(_, draft)| draft.clone()).collect()))
}

/// A question about the values of a reading whose rig is known or asked later.
pub fn about_values(about: About, draft: Reading) -> Ask {
    let feed = draft.feed.map(|feed| feed.ppm);
    let permeate = draft.permeate.map(|permeate| permeate.ppm);
    let choices = match (about, feed, permeate) {
        (About::Swapped, Some(feed), Some(permeate)) => {
            vec![pair(permeate, feed), choice(Label::AsSent, "as sent")]
        }
        (About::WhichIsWhich, Some(feed), Some(permeate)) if permeate == 0.0 && feed > 0.0 => {
            vec![
                choice(Label::Product(permeate), &format!("glass {permeate}")),
                choice(Label::AsSent, "as sent"),
            ]
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
    Ask {
        about,
        drafts: vec![draft],
        service: None,
        told: Told::default(),
        choices,
        typed_name: None,
    }
}

fn rig_choices(mut rigs: Vec<&Rig>) -> Vec<Choice> {
    rigs.dedup_by_key(|rig| rig.id);
    rigs.truncate(MOST_CHOICES);
    rigs.into_iter()
        .map(|rig| choice(Label::Rig(rig.id), &rig.name))
        .collect()
}

fn pair(feed: f64, permeate: f64) -> Choice {
    choice(Label::Pair { feed, permeate }, &format!("tap {feed} RO {permeate}"))
}

fn choice(label: Label, says: &str) -> Choice {
    Choice {
        label,
        says: says.to_string(),
    }
}
