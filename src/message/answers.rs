//! Answers to the open question, by text or by button.

use super::labels::{self, Measured, Role};
use super::meaning::{About, Ask, Label, Meaning, Reading, Scene, Service, Solids};
use super::senses::Sense;
use super::tokens::{Kind, Token};
use super::{units, which};

/// What the text means as an answer to `ask`; `None` when it is no answer.
pub fn find(tokens: &[Token], text: &str, ask: &Ask, scene: &Scene) -> Option<Meaning> {
    let typed = text.trim();
    if let Some(choice) = ask
        .choices
        .iter()
        .find(|choice| choice.says.eq_ignore_ascii_case(typed))
    {
        return Some(choose(choice.label, ask, scene));
    }
    if tokens.iter().any(|token| token.is_mark('?')) {
        return None;
    }
    if let Some(label) = by_ordinal(tokens, ask, scene) {
        return Some(choose(label, ask, scene));
    }
    let rig = which::only_rig(tokens);
    let indices: Vec<usize> = (0..tokens.len()).collect();
    let mut numbers = labels::bind(tokens, &indices);
    // "Twelve" alone is shy elsewhere; here it is what was asked for.
    if let (
        About::MissingReading,
        [
            Token {
                kind: Kind::Number(number),
                ..
            },
        ],
    ) = (ask.about, tokens)
    {
        numbers = vec![Measured {
            at: 0,
            value: number.value,
            unit: None,
            role: None,
            strong: false,
        }];
    }
    if numbers.is_empty() {
        if matches!(ask.about, About::WhichRig | About::UnknownRig)
            && let Some(other) = which::the_other(tokens, rig, ask, scene)
        {
            return other.map(|rig| with_rig(ask, rig, scene));
        }
        let asks_rig = matches!(ask.about, About::WhichRig | About::UnknownRig);
        if asks_rig
            && tokens.iter().all(which::is_name_or_small)
            && let Some(meaning) = which::named(tokens, ask, scene)
        {
            return Some(meaning);
        }
        // A bare "no" to a question of which one answers nothing: it is asked again.
        let bare = tokens
            .iter()
            .all(|token| token.word().is_none() || token.has_any(&[Sense::Yes, Sense::No]));
        let noted = tokens
            .iter()
            .any(|token| token.has(Sense::Noted) && !token.has(Sense::ShortYes));
        let says = tokens.iter().any(|token| token.has_any(&[Sense::Yes, Sense::No]));
        let again = || Meaning {
            ask: Some(ask.clone()),
            ..Meaning::default()
        };
        return yes_or_no(tokens, ask, scene).or_else(|| (bare && says && !noted && rig.is_none()).then(again));
    }
    let typed_with_word = tokens
        .windows(2)
        .any(|two| two[1].number().is_some() && two[1].glued && two[0].has(Sense::Filler));
    // "Give me 10" asks for time.
    let asks = tokens
        .iter()
        .any(|token| token.has_any(&[Sense::Asks, Sense::Postpone]));
    if !is_short(tokens, 3) || typed_with_word || asks {
        return None;
    }
    let (draft, others) = super::asks::draft_meant(ask, rig)?;
    if rig.is_some() && draft.rig.is_some() && rig != draft.rig {
        return None;
    }
    let solids = |value: f64| units::solids(value, scene.reads_conductivity, scene.us_to_ppm);
    let of = |role: Role| {
        numbers
            .iter()
            .find(|one| one.role == Some(role))
            .and_then(|one| units::solids_of(one.value, units::of_solids(one.unit, scene), scene.us_to_ppm))
    };
    let denied = super::denials::denied_value(tokens, &numbers);
    let bare: Vec<f64> = numbers
        .iter()
        .filter(|one| one.role.is_none() && Some(one.at) != denied)
        .map(|one| one.value)
        .collect();
    let mut reading = Reading {
        rig: rig.or(draft.rig),
        ..draft.clone()
    };
    let labelled = [of(Role::Feed), of(Role::Permeate), of(Role::Product)];
    reading.feed = labelled[0].or(reading.feed);
    reading.permeate = labelled[1].or(reading.permeate);
    // "12/180" and then "tap 180": the other number is the other reading.
    match (labelled[0], labelled[1]) {
        (Some(feed), None) if draft.permeate == Some(feed) => reading.permeate = draft.feed,
        (None, Some(permeate)) if draft.feed == Some(permeate) => reading.feed = draft.permeate,
        _ => {}
    }
    reading.product = labelled[2].or(reading.product);
    match bare[..] {
        [feed, permeate] => (reading.feed, reading.permeate) = (solids(feed), solids(permeate)),
        // As in any message, three bare numbers tell which is which by falling.
        [feed, permeate, product] if feed > permeate && permeate >= product => {
            (reading.feed, reading.permeate, reading.product) = (solids(feed), solids(permeate), solids(product));
        }
        [one] if ask.about == About::MissingReading && reading.feed.is_none() => reading.feed = solids(one),
        [one] if ask.about == About::MissingReading && reading.permeate.is_none() => reading.permeate = solids(one),
        [one] if ask.about == About::Implausible && ends_with_value(tokens) => reading = mended(draft, solids(one)?)?,
        [] if labelled.iter().any(Option::is_some) => {}
        _ => return None,
    }
    let risen = reading
        .feed
        .zip(reading.permeate)
        .is_some_and(|(feed, ro)| ro.ppm > feed.ppm);
    let drafts = [vec![reading], others].concat();
    // "No its 60 and 35" was looked at; two more numbers are a reading like any other, to be doubted like any other.
    let looked = tokens.iter().any(|token| {
        token.has_any(&[
            Sense::Yes,
            Sense::No,
            Sense::ItWas,
            Sense::Oops,
            Sense::Keep,
            Sense::Not,
        ])
    });
    Some(if risen || !looked {
        super::sort_out(drafts, About::MissingReading, scene)
    } else {
        settle(drafts, ask, scene)
    })
}

/// "No its 12", "12 ppm sorry": talk goes on behind its number.
fn ends_with_value(tokens: &[Token]) -> bool {
    tokens
        .last()
        .is_some_and(|token| token.number().is_some() || token.has_any(&[Sense::Ppm, Sense::Oops, Sense::MicroSiemens]))
}

/// "12" where 180/120 was doubted: the one place where it makes sense.
fn mended(draft: &Reading, given: Solids) -> Option<Reading> {
    let given = Some(given);
    let as_feed = Reading {
        feed: given,
        ..draft.clone()
    };
    let as_permeate = Reading {
        permeate: given,
        ..draft.clone()
    };
    let sane = |reading: &Reading| super::plausibility::doubt(reading, None).is_none();
    match (sane(&as_feed), sane(&as_permeate)) {
        (true, false) => Some(as_feed),
        (false, true) => Some(as_permeate),
        _ => None,
    }
}

/// "The first", "2": which button. A number that is also a rig's is taken for the rig.
fn by_ordinal(tokens: &[Token], ask: &Ask, scene: &Scene) -> Option<Label> {
    let ordinal = match tokens {
        [only] => match &only.kind {
            Kind::Word(_) if only.has(Sense::First) => 1,
            Kind::Word(_) if only.has(Sense::Second) => 2,
            Kind::Number(number) if number.is_short_whole() && ask.about != About::MissingReading => {
                let of_rig = |name: &str| name.split_whitespace().next_back() == Some(number.digits.as_str());
                let mut rigs = scene.fleet.iter().filter(|rig| of_rig(&rig.name));
                let asks_rig = matches!(ask.about, About::WhichRig | About::UnknownRig);
                match (asks_rig, rigs.next(), rigs.next()) {
                    (true, Some(rig), None) => return Some(Label::Rig(rig.id)),
                    (true, Some(_), Some(_)) => return None,
                    _ => number.digits.parse::<usize>().ok()?,
                }
            }
            _ => return None,
        },
        _ => return None,
    };
    ask.choices.get(ordinal.checked_sub(1)?).map(|choice| choice.label)
}

/// Nothing strange, and no more than `most` words that are neither labels nor units: talk is longer.
pub(super) fn is_short(tokens: &[Token], most: usize) -> bool {
    let measures = [
        Sense::Feed,
        Sense::FeedWeak,
        Sense::Permeate,
        Sense::PermeateWeak,
        Sense::Product,
        Sense::Ppm,
        Sense::MicroSiemens,
        Sense::Yes,
        Sense::No,
        Sense::Oops,
        Sense::ItWas,
    ];
    let words = tokens
        .iter()
        .filter(|token| token.word().is_some() && !token.has_any(&measures))
        .count();
    words <= most && !tokens.iter().any(Token::is_unknown)
}

fn choose(label: Label, ask: &Ask, scene: &Scene) -> Meaning {
    let solids = |ppm| Some(Solids { ppm, raw_us: None });
    let changed = |change: &dyn Fn(&mut Reading)| {
        let mut drafts = ask.drafts.clone();
        drafts.iter_mut().for_each(change);
        settle(drafts, ask, scene)
    };
    match label {
        Label::Rig(rig) => with_rig(ask, rig, scene),
        Label::Pair { feed, permeate } => changed(&|draft| {
            let raw = |ppm: f64| {
                [draft.feed, draft.permeate]
                    .into_iter()
                    .flatten()
                    .find(|one| one.ppm == ppm)
                    .or(solids(ppm))
            };
            let (new_feed, new_permeate) = (raw(feed), raw(permeate));
            (draft.feed, draft.permeate) = (new_feed, new_permeate);
        }),
        Label::Product(ppm) => {
            // The second number was the glass: the RO outlet is still to be read.
            let mut drafts = ask.drafts.clone();
            drafts
                .iter_mut()
                .for_each(|draft| (draft.permeate, draft.product) = (None, solids(ppm)));
            settle(drafts, ask, scene)
        }
        Label::AsSent | Label::Keep => settle(ask.drafts.clone(), ask, scene),
        Label::Drop => Meaning {
            dropped: true,
            ..Meaning::default()
        },
    }
}

fn yes_or_no(tokens: &[Token], ask: &Ask, scene: &Scene) -> Option<Meaning> {
    let has = |sense: Sense| tokens.iter().any(|token| token.has(sense));
    let unknown = tokens.iter().filter(|token| token.is_unknown()).count();
    let words = tokens.iter().filter(|token| token.word().is_some()).count();
    let thumb = tokens.iter().any(|token| token.kind == Kind::Yes);
    if unknown > 0 || words > 5 || has(Sense::Intent) {
        return None;
    }
    if has(Sense::Drop) && !has(Sense::Keep) {
        return Some(choose(Label::Drop, ask, scene));
    }
    let find = |wanted: fn(&Label) -> bool| ask.choices.iter().map(|choice| choice.label).find(wanted);
    let pair = find(|label| matches!(label, Label::Pair { .. }));
    let only_rig = || {
        let rigs: Vec<Label> = ask
            .choices
            .iter()
            .map(|choice| choice.label)
            .filter(|label| matches!(label, Label::Rig(_)))
            .collect();
        if let [rig] = rigs[..] { Some(rig) } else { None }
    };
    // "Ok" takes note of a question and does not answer it; a "yes" stands first.
    let first = tokens.iter().find(|token| token.word().is_some());
    let yes = thumb
        || matches!(tokens, [only] if only.has(Sense::Yes) && only.word().is_some_and(|word| word.len() <= 2) && !is_ok(only))
        || first.is_some_and(|token| token.has(Sense::Yes) && !token.has(Sense::Noted));
    let label = match ask.about {
        About::Swapped if has(Sense::AsSent) || (has(Sense::No) && has(Sense::Keep)) => Some(Label::AsSent),
        About::Swapped if has(Sense::Swap) || (yes && !has(Sense::No)) => pair,
        About::Implausible if has(Sense::No) && !has(Sense::Keep) => Some(Label::Drop),
        About::Implausible if yes || has(Sense::Keep) || has(Sense::AsSent) => Some(Label::Keep),
        About::UnknownRig | About::WhichRig if yes && !has(Sense::No) => only_rig(),
        About::WhichIsWhich if has(Sense::AsSent) => Some(Label::AsSent),
        _ => None,
    }?;
    Some(choose(label, ask, scene))
}

/// "Ok" takes note, "y" and "ya" say yes.
fn is_ok(token: &Token) -> bool {
    token.has(Sense::Noted) && !token.has(Sense::ShortYes)
}

pub(super) fn with_rig(ask: &Ask, rig: i64, scene: &Scene) -> Meaning {
    let mut drafts = ask.drafts.clone();
    drafts.iter_mut().for_each(|draft| draft.rig = Some(rig));
    let mut meaning = if drafts.is_empty() {
        Meaning::default()
    } else {
        super::sort_out(drafts, ask.about, scene)
    };
    let service = ask.service.map(|what| Service {
        rig,
        what,
        minutes: ask.told.minutes,
        price: ask.told.price.clone(),
        when: ask.told.when,
    });
    meaning.services.extend(service);
    meaning
}

/// The person has looked at the values, so only what is still missing is asked again.
fn settle(drafts: Vec<Reading>, ask: &Ask, scene: &Scene) -> Meaning {
    let incomplete = drafts
        .iter()
        .any(|draft| draft.rig.is_none() || !super::is_complete(draft, scene));
    // What filled a gap has not been looked at yet.
    let filled = ask.about == About::MissingReading;
    if !incomplete && !filled {
        return Meaning {
            readings: drafts,
            ..Meaning::default()
        };
    }
    super::sort_out(drafts, ask.about, scene)
}
