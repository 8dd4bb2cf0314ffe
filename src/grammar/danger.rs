//! Danger, which is heard in any clause, in any language, whatever question is open.
//!
//! The tables say what a word tells of (`danger: popped=break`); most of it is danger only beside what it befell: what
//! broke is a part of a rig, who fell was on something high.

use super::clause::Clause;
use super::item::Items;
use crate::domain::meaning::Danger;
use crate::language::lexicon::LEXICON;
use crate::language::senses::{PARTS, SLOTS, Sense, Senses};

/// Things of a rig that can break.
const THINGS: Senses = PARTS.and(SLOTS).and(Senses::of([Sense::gear]));
/// What may stand beside a word that speaks of the rig although it names nothing: "it's frozen", "burst!".
const SMALL: Senses = Senses::of([
    Sense::filler,
    Sense::article,
    Sense::it,
    Sense::be,
    Sense::has,
    Sense::now,
    Sense::today,
    Sense::morning,
    Sense::danger,
]);

/// The worst danger of which the message speaks.
pub fn of(clauses: &[Clause]) -> Option<Danger> {
    let heard = clauses.iter().flat_map(|clause| {
        let words = clause.items.iter().enumerate();
        // "acid on my hand"
        let burns = (clause.is(Sense::chemical) && clause.is(Sense::body)).then_some(Danger::Chemical);
        words
            .filter_map(|(at, item)| {
                let is_denied = at > 0 && clause.items[at - 1].is(Sense::not);
                let tells = item.is(Sense::danger) && item.is_word() && !is_denied;
                tells.then(|| told(LEXICON.name(item.name), item.words > 1, clause))?
            })
            .chain(burns)
    });
    heard.min()
}

/// What a word tells of, among the others of its clause; `sure` where it is a phrase that says it all.
fn told(word: &str, sure: bool, clause: &Clause) -> Option<Danger> {
    let of_rig = clause.names_rig() || clause.any(THINGS);
    let is_short = (clause.items.iter()).all(|item| item.mark.is_some() || item.is_word() && item.any(SMALL));
    let (is_meant, danger) = match word {
        "inhale" => (clause.is(Sense::chemical), Danger::Chemical),
        "hurt" | "drink" if clause.is(Sense::chemical) => (true, Danger::Chemical),
        "lines" => (true, Danger::Electric),
        "shock" => (
            sure || of_rig || clause.is(Sense::vehicle) || clause.is(Sense::body) || is_short,
            Danger::Electric,
        ),
        "hurt" => (true, Danger::Hurt),
        "injure" => (clause.is(Sense::body), Danger::Hurt),
        "fall" => (clause.is(Sense::height), Danger::Hurt),
        "break" if clause.is(Sense::height) && !of_rig => (true, Danger::Hurt),
        "break" => (of_rig || is_short, Danger::Burst),
        "spill" => (of_rig || sure || is_short || clause.is(Sense::vehicle), Danger::Burst),
        "frozen" => (of_rig || is_short || clause.is(Sense::vehicle), Danger::Frozen),
        "drink" => (sure || clause.any(Senses::of([Sense::it, Sense::gear])), Danger::Drink),
        _ => (false, Danger::Drink),
    };
    is_meant.then_some(danger)
}
