//! Danger, which is heard in any clause, in any language, whatever question is open.

use super::clause::Clause;
use super::item::Items;
use crate::domain::meaning::Danger;
use crate::language::lexicon::LEXICON;
use crate::language::senses::{PARTS, SLOTS, Sense, Senses};

/// Things of a rig that can freeze or burst.
const THINGS: Senses = PARTS.and(SLOTS).and(Senses::of([Sense::vehicle, Sense::gear]));
/// A message of so few words speaks of the rig.
const FEW: usize = 3;

/// The first danger of which the message speaks.
pub fn of(clauses: &[Clause]) -> Option<Danger> {
    clauses.iter().find_map(of_clause)
}

fn of_clause(clause: &Clause) -> Option<Danger> {
    let word = clause
        .items
        .iter()
        .find(|item| item.is(Sense::danger) && item.is_word())?;
    let of_rig = clause.names_rig() || clause.any(THINGS);
    match LEXICON.name(word.name) {
        "frozen" if of_rig || clause.size() <= FEW => Some(Danger::Frozen),
        "burst" if of_rig || word.words > 1 || clause.size() <= FEW => Some(Danger::Burst),
        "hurt" => Some(Danger::Hurt),
        "drink" if of_rig || clause.is(Sense::it) || word.words > 1 => Some(Danger::Drink),
        _ => None,
    }
}
