//! Corrections of the sender's last reading: "*14", "RO was 21", "scrap that", "that was badger".

use super::denials::{denied_value, is_value_of, meant};
use super::labels::{self, Measured, Role};
use super::meaning::{Correction, Reading, Scene, Solids, What, When};
use super::moves;
use super::senses::Sense;
use super::tokens::Token;
use super::units;
use super::withdrawals;

/// Bounds by which a bare number is taken for a permeate or a feed when no reading is at hand; common practice, no source.
const LEAST_TAP_PPM: f64 = 30.0;
const MOST_PERMEATE_PPM: f64 = 120.0;

/// Whether a text in a group is plainly a correction: a starred or labelled value, the wrong rig beside the right one,
/// or, of what the sender said just now, nothing but the words of a correction.
pub fn is_plain(tokens: &[Token], scene: &Scene) -> bool {
    let indices: Vec<usize> = (0..tokens.len()).collect();
    let measured = labels::bind(tokens, &indices);
    let starred = tokens.iter().any(|token| token.is_mark('*'));
    let labelled = !measured.is_empty() && measured.iter().all(|one| one.role.is_some() && one.strong);
    let named = rigs_of(tokens).len() == 2 || !rigs_of(tokens).is_empty() && !measured.is_empty();
    let mut words = tokens.iter().filter(|token| token.word().is_some());
    let corrects = [
        Sense::ItWas,
        Sense::Oops,
        Sense::No,
        Sense::That,
        Sense::Swap,
        Sense::Yesterday,
        Sense::OfTime,
    ];
    let undoes = tokens.iter().any(|token| token.has(Sense::Undo));
    let bare = if undoes {
        words.clone().count() == 1
    } else {
        words.all(|token| token.has_any(&corrects) || token.has(Sense::At))
    };
    starred || labelled || named || scene.just_sent && bare
}

/// Whether a text corrects a reading although a service was told since: by a label, or on a rig that was only flushed.
pub fn is_of_reading(tokens: &[Token], scene: &Scene) -> bool {
    let indices: Vec<usize> = (0..tokens.len()).collect();
    let measured = labels::bind(tokens, &indices);
    let labelled = !measured.is_empty() && measured.iter().all(|one| one.role.is_some());
    let same_rig = |rig: i64| scene.last.iter().any(|reading| reading.rig == Some(rig));
    let only_flushed = scene
        .last_services
        .iter()
        .all(|service| service.what == What::Flush && same_rig(service.rig));
    labelled || only_flushed && !measured.is_empty()
}

/// What a message corrects; `None` when it corrects nothing.
pub fn find(tokens: &[Token], when: Option<When>, scene: &Scene) -> Option<Vec<Correction>> {
    let has = |sense: Sense| tokens.iter().any(|token| token.has(sense));
    let rigs = rigs_of(tokens);
    let unknown = tokens.iter().filter(|token| token.is_unknown()).count();
    let indices: Vec<usize> = (0..tokens.len()).collect();
    let measured = labels::bind(tokens, &indices);
    if let Some(correction) = undone_pair(tokens, &rigs, &measured, scene) {
        return Some(vec![correction]);
    }
    if has(Sense::Undo) && measured.is_empty() {
        return withdrawals::find(tokens, &rigs, unknown, when, scene);
    }
    if tokens.iter().any(|token| token.is_mark('?')) {
        return None;
    }
    let of_last = |rig: &i64| scene.last.iter().any(|reading| reading.rig == Some(*rig));
    if !rigs.iter().any(of_last)
        && let Some(correction) = change_of_named(tokens, &rigs, unknown, &measured, scene)
    {
        return Some(vec![correction]);
    }
    if scene.last.is_empty() {
        return None;
    }
    if has(Sense::Swap) && unknown == 0 {
        return swap_two(scene);
    }
    if measured.is_empty() {
        return moves::to_rig(tokens, &rigs, scene).or_else(|| moves::in_time(tokens, &rigs, unknown, when, scene));
    }
    change_values(tokens, &rigs, unknown, &measured, scene)
}

/// "Delete badger 180 12": the reading of that rig with those values.
fn undone_pair(tokens: &[Token], rigs: &[i64], measured: &[Measured], scene: &Scene) -> Option<Correction> {
    let (&[rig], &[feed, permeate]) = (rigs, measured) else {
        return None;
    };
    let mut words = tokens
        .iter()
        .filter(|token| !token.has_any(&[Sense::Greeting, Sense::Article]));
    let whole = tokens.iter().all(|token| {
        token.word().is_none()
            || token.has_any(&[Sense::Undo, Sense::Greeting, Sense::Article, Sense::Feed])
            || token.has_any(&[Sense::Permeate, Sense::Current, Sense::And])
    });
    let one_word = |token: &Token| token.has(Sense::Undo) && token.word().is_some_and(|word| !word.contains(' '));
    if !words.next().is_some_and(one_word) || !whole || permeate.value > feed.value {
        return None;
    }
    let mut change = Reading::default();
    put(&mut change, Role::Feed, &feed, scene);
    put(&mut change, Role::Permeate, &permeate, scene);
    Some(Correction {
        void: true,
        from_rig: rig,
        change,
    })
}

/// "18 sorry", "tap was 190 not 180": a correction by its words, when no reading is known that it could change.
pub fn is_orphan(tokens: &[Token]) -> bool {
    let indices: Vec<usize> = (0..tokens.len()).collect();
    let measured = labels::bind(tokens, &indices);
    let says_so = tokens.iter().any(|token| token.has_any(&[Sense::Oops, Sense::ItWas]));
    let plain = tokens
        .iter()
        .all(|token| !token.is_unknown() && token.mention().is_none());
    plain && (denied_value(tokens, &measured).is_some() || says_so && measured.len() == 1)
}

/// Whether the message is a star and a number, which corrects something even when nothing is known of it.
pub fn is_starred(tokens: &[Token]) -> bool {
    let numbers = tokens.iter().filter(|token| token.number().is_some()).count();
    let star =
        tokens.first().is_some_and(|token| token.is_mark('*')) || tokens.last().is_some_and(|token| token.is_mark('*'));
    star && numbers == 1 && tokens.len() == 2
}

pub(super) fn rigs_of(tokens: &[Token]) -> Vec<i64> {
    tokens
        .iter()
        .filter_map(Token::mention)
        .filter_map(|mention| match mention.rigs[..] {
            [rig] => Some(rig),
            _ => None,
        })
        .collect()
}

fn change_values(
    tokens: &[Token],
    rigs: &[i64],
    unknown: usize,
    measured: &[Measured],
    scene: &Scene,
) -> Option<Vec<Correction>> {
    let has = |sense: Sense| tokens.iter().any(|token| token.has(sense));
    let starred = tokens.iter().any(|token| token.is_mark('*'));
    let says_so = starred || has(Sense::Oops) || has(Sense::ItWas);
    let begins_with_no = tokens.first().is_some_and(|token| token.has(Sense::No));
    // "No, 190 21" denies nothing of what was said; "no 12, 21" does.
    let denied = denied_value(tokens, measured).filter(|&at| {
        !begins_with_no
            || at > 1
            || tokens[at]
                .number()
                .is_some_and(|number| is_value_of(&scene.last, number.value))
    });
    let last: Vec<&Reading> = match rigs {
        [] => scene.last.iter().collect(),
        rigs => scene
            .last
            .iter()
            .filter(|reading| reading.rig.is_some_and(|rig| rigs.contains(&rig)))
            .collect(),
    };
    // "Sorry, there at 9": an hour, which nothing else claims.
    let hour = |one: &Measured| {
        let before = one.at.checked_sub(1).map(|before| &tokens[before]);
        let behind_at = before.is_some_and(|token| token.has(Sense::At)) && !has(Sense::ItWas);
        let past = tokens
            .get(one.at + 1)
            .is_some_and(|token| token.has(Sense::ClockBetween) && !token.has(Sense::To));
        one.role.is_none() && !starred && (behind_at || past)
    };
    if measured.iter().any(hour) {
        return None;
    }
    // "Make it 9 tomorrow" is about a meeting.
    let ahead = tokens
        .iter()
        .any(|token| token.has(Sense::Later) && !token.has(Sense::FeedWeak));
    if ahead || unknown > usize::from(says_so) || last.is_empty() || rigs.len() > 1 {
        return None;
    }
    let kept: Vec<Measured> = measured.iter().filter(|one| Some(one.at) != denied).copied().collect();
    let no = begins_with_no && has(Sense::No);
    // "Otter was 24": what a rig of the last readings was.
    let it_read = !rigs.is_empty() && unknown == 0 && tokens.iter().any(|token| token.has(Sense::ItRead));
    let mut change = Reading::default();
    let mut target = None;
    match kept[..] {
        // "24 not 19", "*14", "my bad 189"
        [one] if one.role.is_none() && (says_so && is_beside(tokens, &one) || denied.is_some() || no || it_read) => {
            let wrong = denied.map(|at| tokens[at].number().map_or(0.0, |number| number.value));
            let (reading, role) = meant(&last, wrong, one.value)?;
            target = Some(reading);
            put(&mut change, role, &one, scene);
        }
        [a, b]
            if a.role.is_none()
                && b.role.is_none()
                && (says_so || no)
                && (!starred || tokens[0].is_mark('*'))
                && a.value > b.value =>
        {
            put(&mut change, Role::Feed, &a, scene);
            put(&mut change, Role::Permeate, &b, scene);
        }
        _ => {
            let labelled = kept.iter().all(|one| one.role.is_some());
            let pair = [Role::Feed, Role::Permeate]
                .iter()
                .all(|role| kept.iter().any(|one| one.role == Some(*role)));
            let one_is_new = kept
                .iter()
                .all(|one| matches!(one.role, Some(Role::Feed | Role::Permeate | Role::Made)));
            // A named rig and one labelled number may begin a new reading: that is for a question.
            let unclear = !rigs.is_empty() && one_is_new && !(says_so || no || has(Sense::Was) || denied.is_some());
            // "Sorry, see you in twenty" is talk: a weak label among many words corrects nothing.
            let words = tokens.iter().filter(|token| token.word().is_some()).count();
            // "It was 9 degrees this morning" tells of the air, unless a label or an excuse stands beside it.
            let weather = kept.iter().all(|one| one.role == Some(Role::Temperature))
                && !starred
                && !tokens
                    .iter()
                    .any(|token| token.has_any(&[Sense::Temperature, Sense::Oops]));
            let talk = words > 5 && kept.iter().all(|one| !one.strong) || weather;
            if talk || !labelled || (pair && !says_so) || unclear {
                return None;
            }
            kept.iter()
                .for_each(|one| put(&mut change, one.role.unwrap_or(Role::Product), one, scene));
        }
    }
    if !units::says_values(&change) {
        return None;
    }
    let reading = match (target, last.as_slice()) {
        (Some(reading), _) => reading,
        (None, [only]) => only,
        _ => return None,
    };
    let from_rig = reading.rig?;
    let feed = change.feed.or(reading.feed)?.ppm;
    let permeate = change
        .permeate
        .or(reading.permeate)
        .map_or(0.0, |permeate| permeate.ppm);
    (permeate < feed).then(|| {
        vec![Correction {
            void: false,
            from_rig,
            change,
        }]
    })
}

/// "lynx should be 156 not 165": an older reading of the rig, which the sender did not send or not lately.
fn change_of_named(
    tokens: &[Token],
    rigs: &[i64],
    unknown: usize,
    measured: &[Measured],
    scene: &Scene,
) -> Option<Correction> {
    let denied = denied_value(tokens, measured)?;
    let (&[from_rig], 0, &[one]) = (
        rigs,
        unknown,
        &measured.iter().filter(|one| one.at != denied).collect::<Vec<_>>()[..],
    ) else {
        return None;
    };
    let role = one.role.or({
        // No tap has so little, no membrane in use lets so much through.
        match one.value {
            value if value < LEAST_TAP_PPM => Some(Role::Permeate),
            value if value > MOST_PERMEATE_PPM => Some(Role::Feed),
            _ => None,
        }
    })?;
    let mut change = Reading::default();
    put(&mut change, role, one, scene);
    units::says_values(&change).then_some(Correction {
        void: false,
        from_rig,
        change,
    })
}

/// "Swap those two round": each of two readings gets the values of the other.
fn swap_two(scene: &Scene) -> Option<Vec<Correction>> {
    let [one, other] = scene.last.as_slice() else {
        return None;
    };
    let with_values_of = |from: &Reading, values: &Reading| {
        let change = Reading {
            rig: None,
            when: None,
            ..values.clone()
        };
        from.rig.map(|from_rig| Correction {
            void: false,
            from_rig,
            change,
        })
    };
    Some(vec![with_values_of(one, other)?, with_values_of(other, one)?])
}

/// "My bad 189", "18 sorry": the number stands beside the words that correct, and no talk follows.
fn is_beside(tokens: &[Token], one: &Measured) -> bool {
    let corrects = |token: &Token| token.has_any(&[Sense::Oops, Sense::ItWas]) || token.is_mark('*');
    let near = usize::max(one.at, 3) - 3..usize::min(one.at + 3, tokens.len());
    let words = |part: &[Token]| {
        part.iter()
            .filter(|token| token.word().is_some() && !corrects(token))
            .count()
    };
    let talk = tokens[one.at..].iter().any(Token::is_unknown);
    !talk && tokens[near].iter().any(corrects) && words(&tokens[one.at..]) <= 1 && words(&tokens[..one.at]) <= 4
}

fn put(change: &mut Reading, role: Role, one: &Measured, scene: &Scene) {
    let solids: Option<Solids> = units::solids_of(one.value, units::of_solids(one.unit, scene), scene.us_to_ppm);
    match role {
        Role::Feed => change.feed = solids,
        Role::Permeate => change.permeate = solids,
        Role::Product | Role::Made => change.product = solids,
        Role::Temperature => change.temperature_c = units::temperature_c(one.value, one.unit, scene.celsius),
        Role::Pressure => change.pressure_kpa = units::pressure_kpa(one.value, one.unit),
        Role::PermeateFlow => change.permeate_lpm = units::flow_lpm(one.value, one.unit),
        Role::Elsewhere => {}
        Role::WasteFlow => change.waste_lpm = units::flow_lpm(one.value, one.unit),
    }
}
