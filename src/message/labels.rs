//! Says of each number what it measures, by the labels before or behind it and by its unit.

use super::label_pairs::{bind_pair_behind_labels, keep_order_of_pairs};
use super::second_thoughts::is_remark;
use super::senses::Sense;
use super::tokens::{Kind, Token};
use super::units::{self, Unit};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    Feed,
    Permeate,
    Product,
    /// "Product" may be the permeate of a rig without resin or the water on the glass.
    Made,
    Temperature,
    Pressure,
    PermeateFlow,
    WasteFlow,
    /// Between the prefilters and such: not kept.
    Elsewhere,
}

/// A number and what it measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    pub at: usize,
    pub value: f64,
    pub unit: Option<Unit>,
    pub role: Option<Role>,
    /// Its label is a word of the trade, not an ordinary word like "in".
    pub strong: bool,
}

#[derive(Clone, Copy)]
pub(super) struct Label {
    pub(super) role: Role,
    pub(super) strong: bool,
    pub(super) used: bool,
}

/// All numbers among the tokens of `indices` (ascending) that no earlier step has spent.
pub fn bind(tokens: &[Token], indices: &[usize]) -> Vec<Measured> {
    let mut labels: Vec<Option<Label>> = vec![None; indices.len()];
    for (slot, &at) in indices.iter().enumerate() {
        labels[slot] = label_at(tokens, at).map(|(role, strong)| Label {
            role,
            strong,
            used: false,
        });
    }
    drop_prepositions(tokens, indices, &mut labels);
    drop_verbs(tokens, indices, &mut labels);
    let mut numbers: Vec<(usize, Measured)> = Vec::new();
    for (slot, &at) in indices.iter().enumerate() {
        let Some(number) = tokens[at].number().filter(|_| !tokens[at].spent) else {
            continue;
        };
        let unit = units::behind(tokens, at);
        if unit == Some(Unit::Minutes) {
            continue;
        }
        if number.shy && !is_claimed(tokens, indices, slot) {
            continue;
        }
        numbers.push((
            slot,
            Measured {
                at,
                value: number.value,
                unit,
                role: None,
                strong: false,
            },
        ));
    }
    bind_by_unit(tokens, indices, &mut labels, &mut numbers);
    bind_pair_behind_labels(tokens, indices, &mut labels, &mut numbers);
    bind_by_side(tokens, indices, &mut labels, &mut numbers);
    keep_order_of_pairs(tokens, &mut numbers);
    numbers.into_iter().map(|(_, measured)| measured).collect()
}

/// "the ro is making 15": the flow's word is the RO's verb, where no flow's unit stands.
fn drop_verbs(tokens: &[Token], indices: &[usize], labels: &mut [Option<Label>]) {
    let flow_unit = indices
        .iter()
        .any(|&at| tokens[at].has_any(&[Sense::LitresPerMinute, Sense::GallonsPerMinute]));
    for slot in 1..labels.len() {
        let flows = labels[slot].is_some_and(|label| label.role == Role::PermeateFlow);
        let small = tokens[indices[slot - 1]].has(Sense::Filler);
        let subject = if small { slot.checked_sub(2) } else { Some(slot - 1) };
        let of_ro = subject
            .and_then(|slot| labels[slot])
            .is_some_and(|label| label.role == Role::Permeate && label.strong);
        if flows && of_ro && !flow_unit {
            labels[slot] = None;
        }
    }
}

/// "180 in the tap": beside a word of the trade "in" is no label of its own.
fn drop_prepositions(tokens: &[Token], indices: &[usize], labels: &mut [Option<Label>]) {
    for slot in 0..labels.len() {
        if labels[slot].is_none_or(|label| label.strong) {
            continue;
        }
        let near = slot + 1..usize::min(slot + 4, labels.len());
        let plain = |slot: &usize| {
            let token = &tokens[indices[*slot]];
            token.word().is_some() && (labels[*slot].is_some_and(|label| label.strong) || token.has(Sense::Filler))
        };
        if near
            .take_while(plain)
            .any(|slot| labels[slot].is_some_and(|label| label.strong && is_solids(label.role)))
        {
            labels[slot] = None;
        }
    }
}

fn is_solids(role: Role) -> bool {
    matches!(
        role,
        Role::Feed | Role::Permeate | Role::Product | Role::Made | Role::Elsewhere
    )
}

fn label_at(tokens: &[Token], at: usize) -> Option<(Role, bool)> {
    let token = &tokens[at];
    match token.kind {
        Kind::Drop => return Some((Role::Feed, false)),
        Kind::Splash => return Some((Role::Permeate, false)),
        Kind::Word(_) if !token.spent => {}
        _ => return None,
    }
    let table = [
        (Sense::Elsewhere, Role::Elsewhere, true),
        (Sense::Temperature, Role::Temperature, true),
        (Sense::Pressure, Role::Pressure, true),
        (Sense::Made, Role::Made, true),
        (Sense::Feed, Role::Feed, true),
        (Sense::Permeate, Role::Permeate, true),
        (Sense::Product, Role::Product, true),
        (Sense::WasteFlow, Role::WasteFlow, true),
        (Sense::PermeateFlow, Role::PermeateFlow, true),
        (Sense::FeedWeak, Role::Feed, false),
        (Sense::PermeateWeak, Role::Permeate, false),
        (Sense::ProductWeak, Role::Product, false),
    ];
    // "psi was 95": a unit without a number before it labels the next.
    let behind_number = at > 0 && (tokens[at - 1].number().is_some() || tokens[at - 1].is_mark('°'));
    if token.has_any(&[Sense::Psi, Sense::Bar, Sense::Kpa]) && !behind_number {
        return Some((Role::Pressure, true));
    }
    let (_, role, strong) = table.into_iter().find(|(sense, _, _)| token.has(*sense))?;
    if is_remark(tokens, at, role) {
        return None;
    }
    // "di changed", "new membrane": the part, not the place where the water was measured.
    let part = token.has_any(&[Sense::Membrane, Sense::Resin, Sense::Prefilter]);
    let handled = |index: Option<usize>| {
        index.and_then(|index| tokens.get(index)).is_some_and(|token| {
            token.has_any(&[Sense::Fresh, Sense::Repacked]) || (token.has(Sense::Done) && !token.has(Sense::Filler))
        })
    };
    let article = at > 0 && tokens[at - 1].has(Sense::Article);
    if part && (handled(Some(at + 1)) || handled(at.checked_sub(1 + usize::from(article)))) {
        return None;
    }
    // "T=9.5": an equals sign makes the letter a formula's.
    let formula = |mark: char| tokens.get(at + 1).is_some_and(|next| next.is_mark(mark));
    let feed_has_letter = || tokens.iter().any(|token| token.word() == Some("f"));
    // "200/15, T 12": behind a pair the letter is the temperature's.
    let pair_before = || {
        tokens[..at]
            .iter()
            .filter(|token| token.number().is_some() && !token.spent)
            .count()
            >= 2
    };
    let behind_pair =
        token.word() == Some("t") && tokens.get(at + 1).is_some_and(|next| next.number().is_some()) && pair_before();
    if behind_pair || token.word() == Some("t") && (formula('=') || formula(':') && feed_has_letter()) {
        return Some((Role::Temperature, true));
    }
    Some((role, strong))
}

/// "ro nine", "one eighty and nine": a small number word counts beside a label or another number.
fn is_claimed(tokens: &[Token], indices: &[usize], slot: usize) -> bool {
    let at = |slot: Option<usize>| slot.and_then(|slot| indices.get(slot)).map(|&at| &tokens[at]);
    let before = at(slot.checked_sub(1));
    let labelled = before.is_some_and(|token| {
        token.has_any(&[
            Sense::Feed,
            Sense::FeedWeak,
            Sense::Permeate,
            Sense::PermeateWeak,
            Sense::Product,
            Sense::Made,
        ]) || token.number().is_some()
    });
    // "glass is zero"
    let of_label = before.is_some_and(|token| token.has(Sense::Judges))
        && at(slot.checked_sub(2))
            .is_some_and(|token| token.has_any(&[Sense::Feed, Sense::Permeate, Sense::Product, Sense::Made]));
    let linked = before.is_some_and(|token| token.has_any(&[Sense::And, Sense::Over]) || token.is_any_mark(",/"));
    let behind_number = at(slot.checked_sub(2)).is_some_and(|token| token.number().is_some());
    let value = tokens[indices[slot]].number().map_or(0.0, |number| number.value);
    // "twelve on the ro"
    let small = |slot: &usize| at(Some(*slot)).is_some_and(|token| token.has(Sense::Filler) && token.word().is_some());
    let strong = |slot: usize| at(Some(slot)).is_some_and(|token| token.has_any(&[Sense::Feed, Sense::Permeate]));
    let next_labels = at(Some(slot + 1))
        .is_some_and(|token| token.has_any(&[Sense::Feed, Sense::FeedWeak, Sense::Permeate, Sense::PermeateWeak]))
        || (slot + 1..slot + 3)
            .take_while(small)
            .any(|slot| strong(slot) || strong(slot + 1));
    // "The ro one wont settle"
    let next_word = at(Some(slot + 1)).is_some_and(|token| token.word().is_some() && !token.has(Sense::And));
    let pronoun = value == 1.0 && next_word && before.is_some_and(|token| token.number().is_none());
    labelled && !pronoun
        || of_label
        || (linked && behind_number)
        || (next_labels && value > 2.0)
        || units::behind(tokens, indices[slot]).is_some_and(|unit| unit != Unit::Minutes)
}

/// Temperatures, pressures and flows by their units; a label beside them is used up.
fn bind_by_unit(tokens: &[Token], indices: &[usize], labels: &mut [Option<Label>], numbers: &mut [(usize, Measured)]) {
    let slots: Vec<usize> = numbers.iter().map(|(slot, _)| *slot).collect();
    for (index, (slot, measured)) in numbers.iter_mut().enumerate() {
        let fits: &[Role] = match measured.unit {
            Some(Unit::Celsius | Unit::Fahrenheit | Unit::Degrees) => &[Role::Temperature],
            Some(Unit::Psi | Unit::Bar | Unit::Kpa) => &[Role::Pressure],
            Some(Unit::LitresPerMinute | Unit::GallonsPerMinute) => &[Role::PermeateFlow, Role::WasteFlow],
            _ => continue,
        };
        measured.role = Some(fits[0]);
        measured.strong = true;
        let from = if index == 0 { 0 } else { slots[index - 1] + 1 };
        let to = slots.get(index + 1).copied().unwrap_or(indices.len());
        let own = *slot;
        // "2.6 l/min pure and 3 l/min waste": behind "and" the label follows.
        let linked = slot
            .checked_sub(1)
            .is_some_and(|before| tokens[indices[before]].has(Sense::And))
            && fits.len() == 2;
        let back = if linked { *slot..*slot } else { from..*slot };
        let near = back.rev().chain(*slot + 1..to).find(|&slot| {
            let senses = tokens[indices[slot]].senses;
            let flow = senses.has_any(&[Sense::WasteFlow, Sense::PermeateFlow]) && fits.len() == 2;
            labels[slot].is_some_and(|label| !label.used && fits.contains(&label.role))
                || (labels[slot].is_some_and(|label| !label.used) && flow)
                || (labels[slot].is_some_and(|label| !label.used && label.role == Role::Permeate)
                    && fits.len() == 2
                    && slot + 1 == own)
                || (labels[slot].is_some()
                    && slot < own
                    && (formula_letter(tokens, indices[slot])
                        || slot + 1 == own && tokens[indices[slot]].word().is_some_and(|word| word.len() == 1)))
        });
        if let Some(near) = near {
            if tokens[indices[near]].has(Sense::WasteFlow) && fits.len() == 2 {
                measured.role = Some(Role::WasteFlow);
            }
            if let Some(label) = &mut labels[near] {
                label.used = true;
            }
        }
    }
}

/// "P=3.8bar": the letter belongs to the number behind the sign.
fn formula_letter(tokens: &[Token], at: usize) -> bool {
    tokens[at].word().is_some_and(|word| word.len() == 1) && tokens.get(at + 1).is_some_and(|next| next.is_mark('='))
}

/// Labels stand before their numbers or behind them: the side that explains more of them is taken for all.
fn bind_by_side(tokens: &[Token], indices: &[usize], labels: &mut [Option<Label>], numbers: &mut [(usize, Measured)]) {
    let before = side(tokens, indices, labels, numbers, true);
    let behind = side(tokens, indices, labels, numbers, false);
    let chosen = if score(labels, &behind) > score(labels, &before) {
        &behind
    } else {
        &before
    };
    for &(number, slot) in chosen {
        give(labels, numbers, number, slot);
    }
    // What is left may have its label on the other side.
    for leading in [true, false] {
        for (number, slot) in side(tokens, indices, labels, numbers, leading) {
            let taken = numbers
                .iter()
                .any(|(_, measured)| measured.role == labels[slot].map(|label| label.role));
            if !taken {
                give(labels, numbers, number, slot);
            }
        }
    }
}

fn give(labels: &mut [Option<Label>], numbers: &mut [(usize, Measured)], number: usize, slot: usize) {
    if let Some(label) = &mut labels[slot] {
        if label.used || numbers[number].1.role.is_some() {
            return;
        }
        label.used = true;
        numbers[number].1.role = Some(label.role);
        numbers[number].1.strong = label.strong;
    }
}

/// Pairs of number and label slot, with the label before the number or behind it and no other number between.
fn side(
    tokens: &[Token],
    indices: &[usize],
    labels: &[Option<Label>],
    numbers: &[(usize, Measured)],
    leading: bool,
) -> Vec<(usize, usize)> {
    let mut pairs = Vec::new();
    for (index, (slot, measured)) in numbers.iter().enumerate() {
        if measured.role.is_some() {
            continue;
        }
        let slots: Vec<usize> = if leading {
            let from = if index == 0 { 0 } else { numbers[index - 1].0 + 1 };
            (from..*slot).rev().collect()
        } else {
            let to = numbers.get(index + 1).map_or(indices.len(), |next| next.0);
            (*slot + 1..to).collect()
        };
        let mut steps = 0;
        let mut unknown = 0;
        let mut comma = false;
        for slot in slots {
            let token = &tokens[indices[slot]];
            // A label does not reach over another number, be it a time or a count.
            if matches!(token.kind, Kind::Break) && !leading || token.number().is_some_and(|number| !number.shy) {
                break;
            }
            if let Some(label) = labels[slot].filter(|label| !label.used) {
                // "200/15, T 12": behind a comma a label begins the next value.
                let next_value = tokens
                    .get(indices[slot] + 1)
                    .is_some_and(|next| next.number().is_some());
                if comma && next_value {
                    break;
                }
                let near = if label.strong {
                    steps <= 5 && unknown <= 2
                } else {
                    steps <= 3 && unknown == 0
                };
                if near {
                    pairs.push((index, slot));
                }
                break;
            }
            comma |= !leading && token.is_any_mark(",;");
            let unit = token.has_any(&[Sense::Ppm, Sense::MicroSiemens]);
            let skipped = token.is_any_mark("=:~()'-") || unit;
            steps += usize::from(!skipped);
            unknown += usize::from(token.is_unknown());
            if token.mention().is_some() {
                unknown += 1;
            }
        }
    }
    pairs
}

/// How many different things are explained, then how much of it by words of the trade.
fn score(labels: &[Option<Label>], pairs: &[(usize, usize)]) -> (usize, usize) {
    let mut roles: Vec<Role> = Vec::new();
    let mut strong = 0;
    for label in pairs.iter().filter_map(|&(_, slot)| labels[slot]) {
        if !roles.contains(&label.role) {
            roles.push(label.role);
            strong += usize::from(label.strong);
        }
    }
    (roles.len(), strong)
}
