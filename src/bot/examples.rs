//! What could be typed: the rigs that stand in examples, and what is missing.

use crate::digest::week::Lack;
use crate::history::Followed;
use crate::message::setting::Field;
use crate::store::rigs::Rig;

use super::request::Request;
use super::setting_values::example_of;

/// What could be typed so that the resin can be counted, its change apart.
pub(super) fn missing_for_resin(on: &Request<'_>, rig: &Rig, followed: &Followed<'_>) -> Vec<String> {
    let settings = followed.resin_lacks().into_iter();
    settings
        .filter(|lack| *lack != Lack::Change)
        .map(|lack| example_for(on, rig, lack))
        .collect()
}

/// How to tell what is missing to count a rig's resin.
pub(super) fn example_for(on: &Request<'_>, rig: &Rig, lack: Lack) -> String {
    let name = rig.name.to_lowercase();
    match lack {
        Lack::BedSize => format!("{name} {}", example_of(on, Field::ResinLitres)),
        Lack::Litres => format!("{name} {}", example_of(on, Field::LitresPerDay)),
        Lack::Change => on.words.say("typed-new-resin", [("rig", (&name).into())]),
        Lack::Reading if rig.di_only => format!("{name} 180 0"),
        Lack::Reading => format!("{name} 180 12"),
    }
}

/// A rig that this person knows: their own, else the fleet's first.
pub(super) fn known_rig(on: &Request<'_>) -> String {
    let own = on.member.own_rig.and_then(|own| on.rig(own));
    own.or(on.fleet.first())
        .map_or_else(|| "heron".to_owned(), |rig| rig.name.clone())
}

/// Another rig of the fleet, for what is typed of two.
pub(super) fn other_rig(fleet: &[Rig], than: &str) -> String {
    let other = fleet.iter().find(|rig| rig.name != than);
    other.map_or_else(|| "otter".to_owned(), |rig| rig.name.clone())
}

/// How to text a reading, with a rig that this person knows.
pub(super) fn example(on: &Request<'_>) -> String {
    format!("{} 180 12", known_rig(on).to_lowercase())
}
