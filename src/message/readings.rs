//! From labelled and bare numbers of one group to a reading, a doubt, or nothing.

use super::adjacency::{Link, follows, is_from, keep_pair, link_of, touches};
use super::groups::{Group, Who};
use super::hearsay::is_doubtful;
use super::labels::{self, Measured, Role};
use super::meaning::{About, Reading, Scene};
use super::second_thoughts::{is_denied, is_either, is_guessed, is_reworded};
use super::senses::Sense;
use super::tokens::Token;
use super::units::{self, Unit};
use super::weight::Weight;

/// What a group says of the water, before anyone asks whose it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    pub reading: Reading,
    /// Why it cannot be recorded as it stands.
    pub doubt: Option<About>,
    /// Labels of both feed and permeate, by words of the trade.
    pub labelled: bool,
    /// Numbers and known words only.
    pub nothing_else: bool,
    /// The words that no table knows, in order.
    pub unknown: Vec<String>,
}

/// The values of a group; `None` when it says nothing of the water, or too little to be sure that it does.
pub fn assemble(tokens: &[Token], group: &Group, scene: &Scene) -> Option<Said> {
    let (measured, unsure) = mend(tokens, labels::bind(tokens, &group.indices));
    let unknown: Vec<String> = unknown_words(tokens, &group.indices);
    let bare_is_us = scene.reads_conductivity && !measured.iter().any(|one| one.unit == Some(Unit::Ppm));
    let conductivity = conductivity(tokens, group, &measured) || bare_is_us;
    let find = |role: Role| measured.iter().find(|one| one.role == Some(role));
    let solids = |one: &Measured| {
        let us = if one.unit == Some(Unit::MilliSiemens) {
            one.value * 1000.0
        } else {
            one.value
        };
        units::solids(us, conductivity && one.unit != Some(Unit::Ppm), scene.us_to_ppm)
    };
    let twice = |role: Role| measured.iter().filter(|one| one.role == Some(role)).count() > 1;
    let mut reading = extras(&find, scene);
    let mut feed = find(Role::Feed).copied();
    let mut permeate = find(Role::Permeate).copied();
    let mut product = find(Role::Product).copied();
    let mut doubt = None;
    let made = find(Role::Made).copied();
    match made {
        Some(made) if permeate.is_some() || made.value <= 5.0 => product = product.or(Some(made)),
        Some(_) if is_di_only(group, scene) => product = product.or(made),
        Some(made) => (permeate, doubt) = (Some(made), Some(About::WhichIsWhich)),
        None => {}
    }
    let labelled = [feed, permeate].iter().all(|one| one.is_some_and(|one| one.strong)) && doubt.is_none();
    let any_label = [feed, permeate, product].iter().flatten().count();
    let strong_label = [feed, permeate, product].iter().flatten().any(|one| one.strong);
    let mut bare: Vec<Measured> = measured.iter().filter(|one| one.role.is_none()).copied().collect();
    keep_pair(tokens, &mut bare);
    if let [a, b] = bare[..]
        && is_from(tokens, a, b)
    {
        bare.swap(0, 1);
    }
    let link = link_of(tokens, group, &bare);
    if twice(Role::Feed) || twice(Role::Permeate) {
        doubt = Some(About::WhichIsWhich);
    }
    let di_only = is_di_only(group, scene);
    match (feed, permeate, bare.as_slice()) {
        (Some(_), Some(_), _) if doubt.is_none() && is_blurred(tokens, &group.indices, &measured) => {
            doubt = Some(About::WhichIsWhich);
        }
        (Some(_), Some(_), _) => {}
        (None, None, &[a, b]) if link > Link::Apart && di_only => (feed, product) = (Some(a), Some(b)),
        (None, None, &[a, b]) if link > Link::Apart => (feed, permeate) = (Some(a), Some(b)),
        (None, None, &[a, b]) if unknown.is_empty() => {
            (feed, permeate, doubt) = (Some(a), Some(b), Some(About::WhichIsWhich));
        }
        (None, None, &[a, b, c])
            if link > Link::Apart
                && a.value > b.value
                && b.value >= c.value
                && !is_reworded(tokens, group, b.at, c.at)
                && ![a, b]
                    .iter()
                    .any(|one| tokens[one.at].number().is_some_and(|number| number.in_words)) =>
        {
            (feed, permeate, product) = (Some(a), Some(b), product.or(Some(c)));
        }
        (None, None, &[a, b, ..]) if bare.len() > 2 => {
            (feed, permeate, doubt) = (Some(a), Some(b), Some(About::WhichIsWhich));
        }
        (Some(a), None, &[b]) if (product.is_none() || !di_only) && follows(tokens, a.at, b.at) => permeate = Some(b),
        (Some(_), None, &[b, c]) if b.value > c.value => (permeate, product) = (Some(b), product.or(Some(c))),
        // "RO was 12, now 31" says nothing of the tap: the bare number must stand first, or side by side.
        (None, Some(b), &[a]) if a.at < b.at && follows(tokens, a.at, b.at) || touches(tokens, b.at, a.at) => {
            feed = Some(a)
        }
        (None, None, &[a]) if any_label == 0 => {
            feed = Some(a);
            let spelled = tokens[a.at].number().is_some_and(|number| number.spelled);
            doubt = Some(if spelled {
                About::WhichIsWhich
            } else {
                About::MissingReading
            });
        }
        _ => {}
    }
    if unsure {
        doubt = doubt.or(Some(About::WhichIsWhich));
    }
    // A second number of 0, unlabelled, is likely the glass.
    if doubt.is_none() && permeate.is_some_and(|one| one.value == 0.0 && one.role.is_none()) && product.is_none() {
        doubt = Some(if feed.is_some_and(|feed| feed.value == 0.0) {
            About::Implausible
        } else {
            About::WhichIsWhich
        });
    }
    reading.feed = feed.as_ref().and_then(solids);
    reading.permeate = permeate.as_ref().and_then(solids);
    reading.product = product.as_ref().and_then(solids);
    let complete = reading.feed.is_some() && (reading.permeate.is_some() || (di_only && reading.product.is_some()));
    if doubt.is_none() && !complete {
        doubt = Some(About::MissingReading);
    }
    if is_either(tokens, &measured) {
        doubt = doubt.or(Some(About::WhichIsWhich));
    }
    if is_doubtful(tokens, group, &measured) || is_guessed(tokens, group, &measured) || is_denied(tokens, &measured) {
        doubt = doubt.or(Some(About::Implausible));
    }
    let percent = rejection_in_percent(tokens, group);
    if any_label == 0 && bare.is_empty() && !percent {
        return None;
    }
    let denied = measured
        .first()
        .and_then(|one| one.at.checked_sub(1))
        .is_some_and(|before| tokens[before].has(Sense::Not) && !tokens[before].has(Sense::No));
    if denied {
        return None;
    }
    let left_out = group.indices.iter().any(|&at| super::clauses::is_left_out(tokens, at));
    if left_out {
        doubt = Some(About::MissingReading);
    }
    let weight = Weight {
        complete,
        any_label,
        strong_label,
        link,
        unknown: unknown.len(),
        bare: bare.len(),
        left_out: left_out || percent,
    };
    let largest = [feed, permeate]
        .iter()
        .flatten()
        .map(|one| one.value)
        .fold(0.0, f64::max);
    weight
        .is_enough(&group.who, largest, tokens, group, &bare)
        .then_some(Said {
            reading,
            doubt,
            labelled,
            nothing_else: unknown.is_empty(),
            unknown,
        })
}

fn unknown_words(tokens: &[Token], indices: &[usize]) -> Vec<String> {
    indices
        .iter()
        .filter(|&&at| tokens[at].is_unknown())
        .filter_map(|&at| tokens[at].word())
        .map(str::to_string)
        .collect()
}

fn is_di_only(group: &Group, scene: &Scene) -> bool {
    let rig = match &group.who {
        Who::Rigs(rigs, _) => rigs.first().copied(),
        Who::Nobody => scene.own_rig,
        _ => None,
    };
    scene.fleet.iter().any(|known| Some(known.id) == rig && known.di_only)
}

fn extras<'a>(find: &impl Fn(Role) -> Option<&'a Measured>, scene: &Scene) -> Reading {
    let flow = |role| find(role).and_then(|one| units::flow_lpm(one.value, one.unit));
    Reading {
        temperature_c: find(Role::Temperature).and_then(|one| units::temperature_c(one.value, one.unit, scene.celsius)),
        pressure_kpa: find(Role::Pressure).and_then(|one| units::pressure_kpa(one.value, one.unit)),
        permeate_lpm: flow(Role::PermeateFlow),
        waste_lpm: flow(Role::WasteFlow),
        ..Reading::default()
    }
}

/// "82 I mean 28" keeps the second; "428 uS (214 ppm)" is one value said twice and keeps the ppm; "212-215" is a range,
/// unsure unless "say 214" follows.
fn mend(tokens: &[Token], measured: Vec<Measured>) -> (Vec<Measured>, bool) {
    let mut kept: Vec<Measured> = Vec::with_capacity(measured.len());
    let mut unsure = false;
    for mut one in measured {
        if let Some(last) = kept.last().copied() {
            let between = &tokens[last.at + 1..one.at];
            let corrects = between.iter().any(|token| token.has(Sense::Oops))
                && between.iter().all(|token| {
                    token.has_any(&[Sense::Oops, Sense::Filler, Sense::No, Sense::Not]) || token.word().is_none()
                });
            let said_twice = last.unit == Some(Unit::MicroSiemens)
                && one.unit == Some(Unit::Ppm)
                && (0.4..=0.8).contains(&(one.value / last.value));
            // "12 no 21"
            let denied = between.iter().any(|token| token.has(Sense::No))
                && between
                    .iter()
                    .all(|token| token.has(Sense::No) || token.is_any_mark(",.-"));
            let ranges = denied
                || matches!(between, [dash] if dash.is_mark('-')) && (1.0..1.3).contains(&(one.value / last.value));
            let settles = unsure && between.iter().any(|token| token.has(Sense::Settles));
            unsure = (unsure && !settles) || ranges;
            if corrects || said_twice || ranges || settles {
                kept.pop();
                one.role = last.role.or(one.role);
                one.strong |= last.strong;
            }
        }
        kept.push(one);
    }
    (kept, unsure)
}

/// A bare number right beside a labelled one, or a number word beside a word that is not understood: the value said
/// may be another.
fn is_blurred(tokens: &[Token], indices: &[usize], measured: &[Measured]) -> bool {
    let slot_of = |at: usize| indices.binary_search(&at).ok();
    let neighbour = |at: usize, step: isize| {
        let slot = slot_of(at)?.checked_add_signed(step)?;
        indices.get(slot).map(|&at| &tokens[at])
    };
    let strange = |at: usize| {
        [-1, 1]
            .into_iter()
            .any(|step| neighbour(at, step).is_some_and(Token::is_unknown))
    };
    let in_words = |one: &Measured| tokens[one.at].number().is_some_and(|number| number.in_words);
    let solids = |one: &Measured| matches!(one.role, Some(Role::Feed | Role::Permeate));
    let beside = measured.windows(2).any(|two| {
        let touching = follows(tokens, two[0].at, two[1].at);
        touching && (solids(&two[0]) && two[1].role.is_none() || two[0].role.is_none() && solids(&two[1]))
    });
    beside
        || measured
            .iter()
            .any(|one| in_words(one) && (solids(one) || one.role.is_none()) && strange(one.at))
}

/// Whether bare solids are uS/cm: one of them says so, or "EC" stands in the text and no ppm.
fn conductivity(tokens: &[Token], group: &Group, measured: &[Measured]) -> bool {
    let any = |unit| measured.iter().any(|one| one.unit == Some(unit));
    let named = group.indices.iter().any(|&at| tokens[at].has(Sense::Conductivity));
    any(Unit::MicroSiemens) || any(Unit::MilliSiemens) || (named && !any(Unit::Ppm))
}

/// "Rejection 91 %", "heron 93 %": a result without its readings.
fn rejection_in_percent(tokens: &[Token], group: &Group) -> bool {
    let has = |test: &dyn Fn(&Token) -> bool| group.indices.iter().any(|&at| test(&tokens[at]));
    let percent = |token: &Token| token.is_mark('%') || token.has(Sense::Rejection);
    if has(&|token| token.has(Sense::Rejection)) && has(&|token| token.is_mark('%')) {
        return true;
    }
    let numbers: Vec<usize> = group
        .indices
        .iter()
        .copied()
        .filter(|&at| tokens[at].number().is_some())
        .collect();
    let [only] = numbers[..] else { return false };
    let likely = tokens[only]
        .number()
        .is_some_and(|number| (50.0..100.0).contains(&number.value));
    let plain = |token: &Token| {
        token.word().is_none()
            || token.has(Sense::Rejection)
            || token.has_any(&[Sense::Filler, Sense::At, Sense::Greeting])
                && !token.has_any(&[Sense::Intent, Sense::Resin])
    };
    likely && tokens.get(only + 1).is_some_and(percent) && group.indices.iter().all(|&at| plain(&tokens[at]))
}
