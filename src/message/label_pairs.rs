//! Labels of two numbers that stand as one pair: "tap/ro 223/19", "180/12 in the book".

use super::labels::{Label, Measured, Role};
use super::senses::Sense;
use super::tokens::Token;

/// "tap/ro 223/19": two labels, then two numbers in the same order.
pub(super) fn bind_pair_behind_labels(
    tokens: &[Token],
    indices: &[usize],
    labels: &mut [Option<Label>],
    numbers: &mut [(usize, Measured)],
) {
    let free: Vec<usize> = (0..numbers.len())
        .filter(|&index| numbers[index].1.role.is_none())
        .collect();
    let [first, second] = free[..] else { return };
    let (first_slot, second_slot) = (numbers[first].0, numbers[second].0);
    let pair = (first_slot + 1..second_slot).all(|slot| tokens[indices[slot]].is_any_mark("/>-"));
    let heads: Vec<usize> = (0..first_slot)
        .filter(|&slot| labels[slot].is_some_and(|label| !label.used))
        .collect();
    let [one, two] = heads[..] else { return };
    let (Some(a), Some(b)) = (labels[one], labels[two]) else {
        return;
    };
    let solids = |label: Label| matches!(label.role, Role::Feed | Role::Permeate | Role::Product);
    if !pair || a.role == b.role || !solids(a) || !solids(b) {
        return;
    }
    for (number, slot, label) in [(first, one, a), (second, two, b)] {
        numbers[number].1.role = Some(label.role);
        numbers[number].1.strong = label.strong;
        labels[slot] = Some(Label { used: true, ..label });
    }
}

/// "180/12 new membrane in", "180/12 in the book": a pair has its order, unless ordinary words stand beside both numbers.
pub(super) fn keep_order_of_pairs(tokens: &[Token], numbers: &mut [(usize, Measured)]) {
    for at in 1..numbers.len() {
        let (first, second) = (numbers[at - 1].1, numbers[at].1);
        let slashed = second.at == first.at + 2 && tokens[first.at + 1].is_mark('/');
        let weak = |one: &Measured| one.role.is_some() && !one.strong;
        let beside = |index: Option<usize>| {
            let token = index.and_then(|index| tokens.get(index));
            token.is_some_and(|token| token.has_any(&[Sense::FeedWeak, Sense::PermeateWeak, Sense::ProductWeak]))
        };
        let both = beside(first.at.checked_sub(1)) && beside(Some(second.at + 1));
        if slashed && !both && (weak(&first) || weak(&second)) && !(first.strong || second.strong) {
            numbers[at - 1].1.role = None;
            numbers[at].1.role = None;
        }
    }
}
