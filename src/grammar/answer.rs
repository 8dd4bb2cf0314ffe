//! Answers to the open question, by text or by button.

use super::ask;
use super::frame::one;
use super::item::Items;
use super::message::Message;
use super::plausible;
use super::resolve::{settle, sort_out};
use super::values::{Values, pair_of};
use crate::domain::meaning::{About, Ask, Correction, Label, Meaning, Reading, Scene, Service, Solids, Spent};
use crate::language::names::Hit;
use crate::language::senses::{Sense, Senses};

/// An answer has few words.
const FEW: usize = 8;

/// What the text means as an answer to the open question; `None` when it is no answer.
pub fn find(message: &Message) -> Option<Meaning> {
    let ask = message.scene.open.as_ref()?;
    let typed = message.text.trim();
    if let Some(choice) = ask
        .choices
        .iter()
        .find(|choice| choice.says.eq_ignore_ascii_case(typed))
    {
        return Some(choose(choice.label, ask, message.scene));
    }
    if message.has_mark("?") || message.size() > FEW {
        return None;
    }
    if let Some(label) = by_ordinal(message, ask) {
        return Some(choose(label, ask, message.scene));
    }
    let values = message.values();
    if values.any_solids() {
        return numbers(message, ask, &values);
    }
    words(message, ask)
}

fn only_rig(message: &Message) -> Option<i64> {
    let rigs: Vec<i64> = message
        .rigs()
        .iter()
        .filter(|(_, denied)| !denied)
        .map(|(rig, _)| *rig)
        .collect();
    match rigs[..] {
        [rig] => Some(rig),
        _ => None,
    }
}

/// "The first", "2": which button.
fn by_ordinal(message: &Message, ask: &Ask) -> Option<Label> {
    let [only] = message.items else { return None };
    let place = match only.value() {
        Some(value) if ask.about != About::MissingReading && value.fract() == 0.0 => value as usize,
        None if only.is(Sense::nth) => usize::try_from(only.value).ok()?,
        _ => return None,
    };
    ask.choices.get(place.checked_sub(1)?).map(|choice| choice.label)
}

/// What a pressed choice means as the answer to the open question `ask`.
pub fn choose(label: Label, ask: &Ask, scene: &Scene) -> Meaning {
    let changed = |change: &dyn Fn(&mut Reading)| {
        let mut drafts = ask.drafts.clone();
        drafts.iter_mut().for_each(change);
        settle(drafts, scene)
    };
    let dropped = Meaning {
        dropped: true,
        ..Meaning::default()
    };
    let rigs = || ask.drafts.iter().filter_map(|draft| draft.rig);
    match label {
        Label::Rig(rig) => with_rig(ask, rig, scene),
        Label::Pair { feed, permeate } => changed(&|draft| {
            let said = |ppm: f64| {
                [draft.feed, draft.permeate]
                    .into_iter()
                    .flatten()
                    .find(|one| one.ppm == ppm)
            };
            let plain = |ppm: f64| said(ppm).or(Some(Solids { ppm, raw_us: None }));
            (draft.feed, draft.permeate) = (plain(feed), plain(permeate));
        }),
        // The second number was the glass: the RO outlet is still to be read.
        Label::Product(ppm) => changed(&|draft| {
            (draft.permeate, draft.product) = (None, Some(Solids { ppm, raw_us: None }));
        }),
        Label::AsSent | Label::Keep => settle(ask.drafts.clone(), scene),
        Label::Drop | Label::Leave | Label::Same => dropped,
        Label::UsedUp => {
            let spent = ask
                .service
                .map(|part| rigs().map(|rig| Spent { rig, part }).collect())
                .unwrap_or_default();
            Meaning { spent, ..dropped }
        }
        Label::Changed | Label::Another => Meaning {
            services: rigs().filter_map(|rig| service(ask, rig)).collect(),
            ..Meaning::default()
        },
        Label::Undo => {
            let gone = |draft: &Reading| {
                let change = Reading {
                    when: draft.when,
                    ..Reading::default()
                };
                Some(Correction {
                    void: true,
                    from_rig: draft.rig?,
                    change,
                })
            };
            Meaning {
                corrections: ask.drafts.iter().filter_map(gone).collect(),
                ..Meaning::default()
            }
        }
    }
}

fn service(ask: &Ask, rig: i64) -> Option<Service> {
    let told = &ask.told;
    let what = ask.service?;
    Some(Service {
        rig,
        what,
        minutes: told.minutes,
        price: told.price.clone(),
        when: told.when,
    })
}

/// The rig that was asked for is known.
fn with_rig(ask: &Ask, rig: i64, scene: &Scene) -> Meaning {
    let mut drafts = ask.drafts.clone();
    drafts.iter_mut().for_each(|draft| draft.rig = Some(rig));
    let mut meaning = sort_out(drafts, ask.about, scene);
    meaning.services.extend(service(ask, rig));
    meaning
}

/// Numbers in an answer: the one that was missing, or the pair anew.
fn numbers(message: &Message, ask: &Ask, values: &Values) -> Option<Meaning> {
    let scene = message.scene;
    if message.unknown() > 0 || message.is_question() || ask.drafts.is_empty() {
        return None;
    }
    let rig = only_rig(message);
    let (draft, others) = ask::draft_meant(ask, rig)?;
    if rig.is_some() && draft.rig.is_some() && rig != draft.rig {
        return None;
    }
    let mut reading = Reading {
        rig: rig.or(draft.rig),
        ..draft.clone()
    };
    reading.feed = values.feed.or(reading.feed);
    reading.permeate = values.perm.or(reading.permeate);
    reading.product = values.prod.or(reading.product);
    // "12/180" and then "tap 180": the other number is the other reading.
    match (values.feed, values.perm) {
        (Some(feed), None) if draft.permeate == Some(feed) => reading.permeate = draft.feed,
        (None, Some(permeate)) if draft.feed == Some(permeate) => reading.feed = draft.permeate,
        // "180" was taken for the tap; now the tap is told.
        (Some(_), None) if ask.about == About::MissingReading && draft.permeate.is_none() => {
            reading.permeate = draft.feed
        }
        _ => {}
    }
    let labelled = values.feed.is_some() || values.perm.is_some() || values.prod.is_some();
    match &values.bare[..] {
        [_, _] | [_, _, _] => {
            let pair = pair_of(values, false).0;
            (reading.feed, reading.permeate) = (pair.feed, pair.permeate);
            reading.product = pair.product.or(reading.product);
        }
        [one] if ask.about == About::MissingReading && reading.feed.is_none() => reading.feed = Some(*one),
        [one] if ask.about == About::MissingReading && reading.permeate.is_none() => {
            // The greater of the two is the tap.
            let (feed, permeate) = match reading.feed {
                Some(feed) if feed.ppm < one.ppm => (*one, feed),
                feed => (feed.unwrap_or(*one), *one),
            };
            (reading.feed, reading.permeate) = (Some(feed), Some(permeate));
        }
        [one] if matches!(ask.about, About::Implausible | About::Swapped) => reading = mended(draft, *one)?,
        [] if labelled => {}
        _ => return None,
    }
    // "No its 60 and 35" was looked at; two more numbers are a reading like any other, to be doubted like any other.
    let looked = message.any(Senses::of([
        Sense::yes,
        Sense::no,
        Sense::itwas,
        Sense::oops,
        Sense::keep,
        Sense::not,
    ]));
    let risen = reading
        .feed
        .zip(reading.permeate)
        .is_some_and(|(feed, permeate)| permeate.ppm > feed.ppm);
    let drafts = [vec![reading], others].concat();
    Some(if risen || !looked {
        sort_out(drafts, About::MissingReading, scene)
    } else {
        settle(drafts, scene)
    })
}

/// "12" where 180/120 was doubted: the one place where it makes sense.
fn mended(draft: &Reading, given: Solids) -> Option<Reading> {
    let as_feed = Reading {
        feed: Some(given),
        ..draft.clone()
    };
    let as_permeate = Reading {
        permeate: Some(given),
        ..draft.clone()
    };
    let sane = |reading: &Reading| plausible::doubt(reading, None).is_none();
    match (sane(&as_feed), sane(&as_permeate)) {
        (true, false) => Some(as_feed),
        (false, true) => Some(as_permeate),
        _ => None,
    }
}

fn words(message: &Message, ask: &Ask) -> Option<Meaning> {
    let scene = message.scene;
    let asks_rig = matches!(ask.about, About::WhichRig | About::UnknownRig);
    let fresh = message.frames.services().next().is_some();
    let small = Senses::of([
        Sense::filler,
        Sense::article,
        Sense::prep,
        Sense::yes,
        Sense::no,
        Sense::itwas,
        Sense::it,
        Sense::oops,
        Sense::sorry,
        Sense::ordinary,
        Sense::vehicle,
        Sense::chat,
    ]);
    // "Lynx is fine" talks of it.
    let judged = message.asks(crate::language::Subject::status) && !message.is(Sense::yes);
    let plain = !judged
        && message
            .items
            .iter()
            .all(|item| !item.is_word() || item.unknown || item.any(small));
    if let (true, Some(rig), false) = (asks_rig && plain, only_rig(message), fresh) {
        return Some(with_rig(ask, rig, scene));
    }
    // "Not lynx" of two leaves the other.
    let denied: Vec<i64> = message
        .rigs()
        .iter()
        .filter(|(_, denied)| *denied)
        .map(|(rig, _)| *rig)
        .collect();
    let others: Vec<i64> = ask
        .choices
        .iter()
        .filter_map(|choice| match choice.label {
            Label::Rig(rig) if !denied.contains(&rig) => Some(rig),
            _ => None,
        })
        .collect();
    if let (true, [rig], [_]) = (asks_rig && ask.choices.len() == 2, &others[..], &denied[..]) {
        return Some(with_rig(ask, *rig, scene));
    }
    // "Heron" again where there are two: it is asked again, of those.
    let several = message.items.iter().find_map(|item| match &item.rig {
        Some(Hit::Many(those)) => Some(those),
        _ => None,
    });
    if let (true, Some(those), false) = (asks_rig, several, fresh) {
        let ids: Vec<i64> = those
            .iter()
            .filter_map(|at| one(&Hit::One(*at)))
            .filter_map(|at| Some(scene.fleet.get(at)?.id))
            .collect();
        let again = ask::which_rig(ask.drafts.clone(), &ids, &[], "", scene);
        let again = Ask {
            service: ask.service,
            told: ask.told.clone(),
            ..again
        };
        return Some(Meaning::from(again));
    }
    if message.unknown() > 0 && !asks_rig
        || message.is(Sense::plan)
        || message.size() > 6
        || fresh && ask.about != About::UsedUp
    {
        return None;
    }
    let yes = message.has_thumb()
        || message
            .items
            .iter()
            .any(|item| item.is(Sense::yes) && !item.is(Sense::noted));
    let no = message.is(Sense::no);
    let (keep, swap) = (message.is(Sense::keep), message.is(Sense::swap));
    let label = |wanted: fn(&Label) -> bool| ask.choices.iter().map(|choice| choice.label).find(wanted);
    if message.any(Senses::of([Sense::drop, Sense::undo])) && !keep {
        let label = if ask.about == About::Undo {
            Label::Undo
        } else {
            Label::Drop
        };
        return Some(choose(label, ask, scene));
    }
    let chosen = match ask.about {
        About::Swapped if swap || yes && !no => label(|label| matches!(label, Label::Pair { .. })),
        About::Swapped if keep => Some(Label::AsSent),
        About::WhichIsWhich if keep => Some(Label::AsSent),
        About::Implausible if no && !keep => Some(Label::Drop),
        About::Implausible if yes || keep => Some(Label::Keep),
        About::UnknownRig | About::WhichRig if yes && !no => {
            let rigs: Vec<Label> = ask
                .choices
                .iter()
                .map(|choice| choice.label)
                .filter(|label| matches!(label, Label::Rig(_)))
                .collect();
            if let [rig] = rigs[..] { Some(rig) } else { None }
        }
        About::UsedUp if message.any(Senses::of([Sense::change, Sense::fresh])) && !message.is(Sense::not) => {
            Some(Label::Changed)
        }
        About::UsedUp if message.any(Senses::of([Sense::used_up, Sense::not])) => Some(Label::UsedUp),
        About::Portion | About::Moved if yes && !no => Some(Label::Changed),
        About::Portion | About::Moved if no => Some(Label::Drop),
        About::Again if message.is(Sense::same) || no && !yes => Some(Label::Same),
        About::Again if message.is(Sense::fresh) && !no => Some(Label::Another),
        About::Undo if yes && !no => Some(Label::Undo),
        About::Undo if no || keep => Some(Label::Leave),
        _ => None,
    };
    if let Some(label) = chosen {
        return Some(choose(label, ask, scene));
    }
    // A bare "no" to a question of which one answers nothing: it is asked again.
    let bare = message
        .items
        .iter()
        .all(|item| !item.is_word() || item.any(Senses::of([Sense::yes, Sense::no])));
    (bare && (yes || no) && only_rig(message).is_none()).then(|| Meaning::from(ask.clone()))
}
