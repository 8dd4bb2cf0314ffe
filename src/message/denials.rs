//! Which number of a correction is denied, and which value of the last reading a bare number replaces.

use super::labels::{Measured, Role};
use super::meaning::Reading;
use super::senses::Sense;
use super::tokens::Token;

/// The number behind "not": "24 not 19".
pub(super) fn denied_value(tokens: &[Token], measured: &[Measured]) -> Option<usize> {
    let &[first, second] = measured else { return None };
    let denied = |one: &Measured| {
        // "no era 12": the verb may stand between.
        let verb = |token: &&Token| token.has(Sense::Was) || token.is_mark(',');
        let before = tokens[..one.at].iter().rfind(|token| !verb(token));
        before.is_some_and(|token| token.has_any(&[Sense::Not, Sense::Move]))
    };
    if denied(&second) {
        return Some(second.at);
    }
    // "not 19 but 24"
    let between = &tokens[first.at + 1..second.at];
    let turned = between.is_empty()
        || between
            .iter()
            .any(|token| token.is_mark(',') || token.has_any(&[Sense::Was, Sense::To, Sense::But]));
    (denied(&first) && turned).then_some(first.at)
}

pub(super) fn is_value_of(last: &[Reading], value: f64) -> bool {
    last.iter()
        .flat_map(|reading| [reading.feed, reading.permeate])
        .flatten()
        .any(|known| (known.raw_us.unwrap_or(known.ppm) - value).abs() < 0.05)
}

fn same_digits(one: f64, other: f64) -> bool {
    let sorted = |value: f64| {
        let mut digits: Vec<char> = value.to_string().chars().collect();
        digits.sort_unstable();
        digits
    };
    one != other && one >= 10.0 && sorted(one) == sorted(other)
}

/// Which value a bare number replaces: the one said to be wrong, else the one that it is nearest to.
pub(super) fn meant<'a>(last: &[&'a Reading], wrong: Option<f64>, value: f64) -> Option<(&'a Reading, Role)> {
    let mut values: Vec<(&Reading, Role, f64)> = Vec::new();
    for reading in last {
        let said = [(Role::Feed, reading.feed), (Role::Permeate, reading.permeate)];
        values.extend(
            said.into_iter().filter_map(|(role, solids)| {
                solids.map(|solids| (*reading, role, solids.raw_us.unwrap_or(solids.ppm)))
            }),
        );
    }
    if let Some(wrong) = wrong {
        let mut same = values.iter().filter(|(_, _, value)| (value - wrong).abs() < 0.05);
        let (reading, role, _) = same.next()?;
        return same.next().is_none().then_some((*reading, *role));
    }
    // "205/71", then "*17": the same digits in another order.
    let mut turned = values.iter().filter(|(_, _, known)| same_digits(*known, value));
    if let (Some((reading, role, _)), None) = (turned.next(), turned.next()) {
        return Some((*reading, *role));
    }
    let distance = |known: f64| (f64::max(known, 0.5) / f64::max(value, 0.5)).ln().abs();
    values.sort_by(|a, b| distance(a.2).total_cmp(&distance(b.2)));
    let (reading, role, nearest) = *values.first()?;
    // Two candidates about as near: better not to guess.
    let unsure = values
        .get(1)
        .is_some_and(|second| distance(second.2) < 2.0 * distance(nearest) + 0.1);
    (!unsure).then_some((reading, role))
}
